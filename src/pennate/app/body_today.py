"""What the pages of the body show today, computed once and kept until something is written."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property
from weakref import WeakKeyDictionary

from pennate.app.at_hand import AtHand
from pennate.app.body_food import Food, food, periods_absent, periods_irregular
from pennate.app.body_notes import Choices, body_record, choices
from pennate.app.body_pages import BodyPage, BodyRecord, WeightView, page_with, weight_view
from pennate.app.body_recovery import (
    CycleView,
    Forms,
    Recovery,
    cycle_view,
    forms,
    recovery,
)
from pennate.app.book import Book
from pennate.body.plausible import questions
from pennate.body.series import Series, gather
from pennate.body.weight import WeightTrend
from pennate.core.cautions import BodyFacts, Caution, body_cautions
from pennate.core.evidence.safety import NO_PERIOD_DAYS


class BodyToday:
    """Lazy views of one state of her records; each is computed when first asked for."""

    def __init__(self, book: Book) -> None:
        self.book = book
        self.today: date = book.today

    @cached_property
    def choices(self) -> Choices:
        """What she wants to see."""
        return choices(self.book)

    @cached_property
    def record(self) -> BodyRecord:
        """All she noted up to today."""
        return body_record(self.book).up_to(self.today)

    @cached_property
    def weight(self) -> WeightView | None:
        """The weight trend, also where it is hidden: food needs it."""
        return _weight_of(self.book, self.record)

    @cached_property
    def page(self) -> BodyPage:
        """Verdicts, weight, what to measure. Hidden weight is in none of its words."""
        hide = self.choices.hide_weight
        found = page_with(self.record, self.today, None if hide else self.weight)
        if not hide:
            return found
        bare = [replace(row, body_mass_kg=None) for row in self.record.measurements]
        asked = questions(bare, gather(bare))
        return replace(found, growth=replace(found.growth, questions=asked))

    @property
    def trend(self) -> WeightTrend | None:
        """The trend alone."""
        return self.weight.trend if self.weight else None

    @cached_property
    def series(self) -> tuple[Series, ...]:
        """The girths behind the verdicts, date by date."""
        return gather(self.record.measurements)

    @cached_property
    def forms(self) -> Forms:
        """Every session against what was expected of it."""
        return forms(self.book)

    @cached_property
    def recovery(self) -> Recovery:
        """Sleep, joints, layoffs, a lighter week."""
        return recovery(self.book, self.forms)

    @cached_property
    def cycle(self) -> CycleView | None:
        """Her cycle, if she turned it on."""
        return cycle_view(self.book, self.forms)

    @cached_property
    def food(self) -> Food:
        """Protein and energy."""
        return food(self.book, self.trend)


_WEIGHED: WeakKeyDictionary[Book, tuple[object, WeightView | None]] = WeakKeyDictionary()


def _weight_of(book: Book, record: BodyRecord) -> WeightView | None:
    """The filter runs again only after a weighing or a period, not after every note."""
    said = (record.weighings, record.periods)
    kept = _WEIGHED.get(book)
    if kept is None or kept[0] != said:
        kept = _WEIGHED[book] = (said, weight_view(record))
    return kept[1]


_TODAY = AtHand(BodyToday)


def body_today(book: Book) -> BodyToday:
    """The views of this day, kept until an entry is written."""
    return _TODAY.of(book)


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """What a page of the body shows, as far as cautions depend on it."""

    change: bool = False
    energy: bool = False
    deficit: bool = False


def cautions_on(now: BodyToday, shown: Shown) -> tuple[Caution, ...]:
    """The cautions of a page of the body, the most urgent first."""
    facts = BodyFacts(
        health=now.book.profile().health,
        days_since_period=int(NO_PERIOD_DAYS) if periods_absent(now.book) else None,
        newly_irregular=periods_irregular(now.book),
        repeated_bone_stress=now.choices.bone_stress,
        energy_left_kcal_kg=now.food.availability if shown.energy else None,
        deficit=shown.deficit,
        shows_change=shown.change,
        shows_energy=shown.energy,
    )
    return body_cautions(facts)
