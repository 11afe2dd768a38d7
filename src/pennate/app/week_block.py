"""Several weeks of her week: the block, what is expected of it, and following it week by week."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta

from pennate.app.back_again import weeks_away
from pennate.app.book import Book
from pennate.app.minutes_told import whole_minutes
from pennate.app.week_changes import change_week
from pennate.app.week_log import pace_of
from pennate.core.evidence.plan import Z_90
from pennate.core.exercise import Catalogue
from pennate.core.load_words import lacks_load
from pennate.core.muscles import Group
from pennate.core.near import did_you_mean
from pennate.core.performed import PerformedSet, SetKind
from pennate.core.prescribed import Week
from pennate.core.week_dose import hard_sets
from pennate.core.week_effect import Effect
from pennate.core.week_time import Pace, day_minutes
from pennate.errors import InputError, NoAnswerError, Where
from pennate.files.week import read_week
from pennate.files.week_text import render_week
from pennate.plan.block import Ramp, block

BLOCK = "block"
"""Kind of the entry that keeps the block she follows."""
LEAST_SETS = 12
"""Working sets of an exercise in the log from which its trend is worth showing."""
DAYS = 7


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockWish:
    """What kind of block."""

    weeks: int = 6
    ramp: Ramp = Ramp.EFFORT
    lighter: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class WeekOfBlock:
    """One week in a line: hard sets, what is left in reserve, hours."""

    number: int
    lighter: bool
    sets: float
    reserve: str
    minutes: int
    week: Week


@dataclass(frozen=True, slots=True, kw_only=True)
class StrengthBy:
    """What her own trend says of an exercise by the end, as shares with a 90 % range."""

    exercise: str
    middle: float
    low: float
    high: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockPlan:
    """A block and what is expected by its end."""

    wish: BlockWish
    weeks: tuple[WeekOfBlock, ...]
    note: str
    expected: Mapping[Group, Effect]
    pace: Pace
    strength: tuple[StrengthBy, ...] = ()


def wish_of(weeks: str, ramp: str, *, lighter: bool) -> BlockWish:
    """What was typed; raises InputError for what is no block."""
    known = {one.value: one for one in Ramp}
    if ramp not in known:
        remedy = did_you_mean(ramp, tuple(known), f"one of: {', '.join(known)}")
        raise InputError(f"“{ramp[:20]}” is nothing that rises", Where(field="ramp"), remedy)
    if not weeks.strip().isdigit():
        raise InputError(f"“{weeks[:20]}” is not a number", Where(field="weeks"), "like 6")
    return BlockWish(weeks=int(weeks), ramp=known[ramp], lighter=lighter)


def block_plan(
    week: Week, catalogue: Catalogue, wish: BlockWish, *, pace: Pace = Pace(), trained: bool = True
) -> BlockPlan:
    """The block of a week, without a log."""
    known = catalogue.with_own(week.own_exercises)
    made = block(
        week, known, weeks=wish.weeks, ramp=wish.ramp, lighter=wish.lighter, trained=trained
    )
    lines = [
        WeekOfBlock(
            number=number,
            lighter=wish.lighter and number == wish.weeks,
            sets=sum(hard_sets(one) for day in each.days for one in day.exercises),
            reserve=_reserve(each),
            minutes=whole_minutes(
                day_minutes(day, known, pace) for day in each.days if not day.rest
            ),
            week=each,
        )
        for number, each in enumerate(made.weeks, start=1)
    ]
    return BlockPlan(
        wish=wish, weeks=tuple(lines), note=made.note, expected=made.expected, pace=pace
    )


def _reserve(week: Week) -> str:
    """The reps in reserve asked over the week, as a range."""
    lows: list[int] = []
    for sets in (s for day in week.days for one in day.exercises for s in one.sets):
        if sets.to_failure:
            lows.append(0)
        elif sets.reserve is not None and sets.kind is not SetKind.WARM_UP:
            lows += [sets.reserve.low, sets.reserve.high or sets.reserve.low]
    if not lows:
        return "not asked"
    return f"{min(lows)}" if min(lows) == max(lows) else f"{min(lows)}–{max(lows)}"


def her_block(book: Book, wish: BlockWish) -> BlockPlan:
    """The block of her week at her pace, with what her own trends say of its end."""
    base = base_week(book) or _week(book)
    return replace(block_at(book, base, wish), strength=_strength(book, base, wish.weeks))


def block_at(book: Book, week: Week, wish: BlockWish) -> BlockPlan:
    """The block of a week at her pace, for somebody with her experience."""
    trained = book.profile().trained is not False
    return block_plan(week, book.catalogue, wish, pace=pace_of(book), trained=trained)


def _week(book: Book) -> Week:
    week = book.week()
    if week is None:
        raise NoAnswerError("there is no week yet: choose one on the start page")
    return week


def _strength(book: Book, week: Week, weeks: int) -> tuple[StrengthBy, ...]:
    """Exercises she has logged enough of, in the order of the week."""
    history, model = book.history(), book.model_before(book.today)
    reader = book.reader_on(book.today)
    found = []
    for name in dict.fromkeys(one.exercise for day in week.days for one in day.exercises):
        exercise = book.catalogue.exercises.get(name)
        done = [
            one
            for one in history.of_exercise(name)
            if _counts(one) and not lacks_load(one, exercise)
        ]
        if len(done) < LEAST_SETS:
            continue
        estimate = model.estimate(reader.exposure(done[-1]))
        middle, spread = weeks * estimate.trend_per_week, Z_90 * weeks * estimate.trend_sd
        ends = (math.expm1(middle - spread), math.expm1(middle + spread))
        found.append(
            StrengthBy(exercise=name, middle=math.expm1(middle), low=ends[0], high=ends[1])
        )
    return tuple(found)


def _counts(one: PerformedSet) -> bool:
    return one.kind is not SetKind.WARM_UP and one.seconds is None


@dataclass(frozen=True, slots=True, kw_only=True)
class Following:
    """The block she follows, and where she is in it."""

    number: int
    """This week's number, 1 at first; beyond `weeks` the block is over."""
    weeks: int
    due: bool
    """Whether this week's sets are not yet the ones she follows."""

    @property
    def over(self) -> bool:
        """Whether its last week has gone by."""
        return self.number > self.weeks


def following(book: Book) -> Following | None:
    """Where she is in her block; None without one. A pause stops its weeks."""
    entry = book.latest(BLOCK)
    if entry is None or entry.body.get("ended"):
        return None
    start, wish = date.fromisoformat(str(entry.body["start"])), _stored(entry.body)
    weeks = (book.today - start).days // DAYS - weeks_away(book.history(), start, book.today)
    number = weeks + 1
    followed = int(entry.body.get("followed", 1))
    return Following(
        number=number, weeks=wish.weeks, due=number != followed and number <= wish.weeks
    )


def _stored(body: Mapping[str, object]) -> BlockWish:
    return BlockWish(
        weeks=int(str(body["weeks"])), ramp=Ramp(str(body["ramp"])), lighter=bool(body["lighter"])
    )


def base_week(book: Book) -> Week | None:
    """The week the running block is made of; None without one."""
    entry = book.latest(BLOCK)
    if entry is None or entry.body.get("ended"):
        return None
    return read_week(str(entry.body["text"]), book.catalogue, name="the week of your block")


def begin_block(book: Book, wish: BlockWish) -> None:
    """Follow a block from this Monday on: its first week is her week now."""
    base = base_week(book) or _week(book)
    plan = block_plan(base, book.catalogue, wish)
    start = book.today - timedelta(days=book.today.weekday())
    body = {
        "start": start.isoformat(),
        "weeks": wish.weeks,
        "ramp": wish.ramp.value,
        "lighter": wish.lighter,
        "text": render_week(base),
        "followed": 1,
    }
    book.put(BLOCK, book.today, body)
    change_week(book, plan.weeks[0].week, f"week 1 of {wish.weeks} of a block")


def go_on(book: Book) -> None:
    """This week of the block from now on. Raises InputError where none is due."""
    entry, now = book.latest(BLOCK), following(book)
    if entry is None or now is None or not now.due:
        raise InputError("no other week of a block is due", remedy="look at the Week page again")
    base = base_week(book) or _week(book)
    plan = block_plan(base, book.catalogue, _stored(entry.body))
    book.put(BLOCK, book.today, {**entry.body, "followed": now.number})
    what = f"week {now.number} of {now.weeks} of your block"
    change_week(book, plan.weeks[now.number - 1].week, what)


def end_block(book: Book) -> None:
    """The block is over, or given up: the week it was made of is hers again."""
    entry, base = book.latest(BLOCK), base_week(book)
    if entry is None or base is None:
        raise InputError("there is no block to end", remedy="look at the Week page again")
    book.put(BLOCK, book.today, {**entry.body, "ended": True})
    change_week(book, base, "the block ended, the usual week again")
