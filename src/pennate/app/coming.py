"""What the next session asks of an exercise: the card's own choice, for whoever speaks of it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from datetime import date, timedelta

from pennate.app.book import Book
from pennate.app.card import drawn, stops_drawn
from pennate.app.choose import needed, passing
from pennate.app.loads import Laid
from pennate.app.outline import DayInputs
from pennate.app.session_stop import SAME_LOAD_KG
from pennate.app.slots import Slot
from pennate.app.stand import stand
from pennate.app.standing import Standing, odds_of
from pennate.app.today import inputs_for, planned_for, standing_for
from pennate.core import percent
from pennate.core.card import Card, CardSet, CardStop, SetState
from pennate.core.evidence.strength_steps import LOWER_BELOW
from pennate.core.performed import SetKind
from pennate.core.plural import plural
from pennate.core.prescribed import WEEKDAYS, PlannedDay, PrescribedSets, Span, Week
from pennate.estimate import NextStep, Step, StrengthModel

WEEK = 7
STALL = "a stall, a gain of less than a quarter of what is usual"


@dataclass(frozen=True, slots=True, kw_only=True)
class Coming:
    """The first working set of an exercise in the next session that has it."""

    weekday: str
    item: str
    first: CardSet
    held_kg: float | None
    """What it was held against, felt without body mass; None where it is chosen anew."""
    rungs: tuple[float, ...]
    """What the item can be made, felt without body mass."""
    body_kg: float
    low: int
    """The fewest reps asked."""
    high: int
    """The reps that pass the range; `low` where its top is open."""
    chance: float
    """Of the fewest reps, in the worst set."""
    passed: float | None
    """Of the top of the range in every set; None where there is none."""

    @property
    def odds(self) -> str:
        """What `chance` is the chance of."""
        reserve = self.first.asked.reserve.low if self.first.asked.reserve else 0
        return f"{_reps(self.low, reserve)} in every set"

    def step(self, otherwise: NextStep, last_kg: float) -> NextStep:
        """The choice as a proposal; `otherwise` is taken for a stall, or without a load.

        What is chosen anew is a raise or not against `last_kg`, the load of the last session.
        """
        load = self.first.load
        if load is None or self.first.forecast is None:
            return otherwise
        felt = load.felt_kg + self.body_kg
        chance = f"{self.low} reps or more have a chance of {percent.chance(self.chance)}"
        said = f"{self.weekday}: {chance}"
        before = last_kg if self.held_kg is None else self.held_kg
        if not self._same(load.felt_kg, before):
            return self._moved(felt, said, up=load.felt_kg > before)
        if len(self.first.step) > 1:  # the cost of the step, and what to do while it is too big
            words = " ".join(self.first.step[:2]).rstrip(".")
            return NextStep(Step.WIDER_RANGE, felt, self.chance, f"{self.weekday}: {words}")
        if otherwise.step in {Step.MORE_SETS, Step.SWAP}:
            return otherwise
        if self.chance < LOWER_BELOW:
            return NextStep(Step.EASIER, felt, self.chance, f"{said}{self._easier()}")
        said += " in every set"
        if self.passed is not None:
            said += f", {self.high} or more: {percent.chance(self.passed)}"
        if self.first.below:
            said += f"; {self.first.below}"
        return NextStep(Step.HOLD, felt, self.chance, said)

    def _moved(self, felt: float, said: str, *, up: bool) -> NextStep:
        """Another load than before; where even that is too much, the ways out as well."""
        if not up and self.chance < LOWER_BELOW:
            return NextStep(Step.EASIER, felt, self.chance, f"{said}{self._easier()}")
        why = f"; {self.first.why}" if self.first.why else ""
        step = Step.RAISE if up else Step.LOWER
        return NextStep(step, felt, self.chance, f"{said} in every set{why}")

    def _same(self, kg: float, before: float) -> bool:
        """Whether it is the load before, as near as the steps here allow: 50 kg for 110 lb."""
        nearest = min((abs(rung - before) for rung in self.rungs), default=0.0)
        return abs(kg - before) <= nearest + SAME_LOAD_KG

    def _easier(self) -> str:
        """What she may expect instead, here and at the next load down, and the ways out."""
        likely, load = self.first.likely, self.first.load
        lightest = load is None or not any(kg < load.felt_kg - SAME_LOAD_KG for kg in self.rungs)
        if self.first.below:
            ways = "fewer reps, or" if lightest else "fewer reps here or more there, or"
            return f" in every set; {self.first.below}: {ways} an easier exercise"
        told = f" ({likely.middle} are likely in the first)" if likely else ""
        ways = "fewer reps, or" if lightest else "fewer reps, a lighter load or"
        return f" in every set{told}: {ways} an easier exercise"


def odds_words(step: Step, reps: Span, reserve: int) -> str:
    """What the probability of a step judged without a card is the chance of."""
    top = _reps(reps.high or reps.low, reserve)
    words = {
        Step.LOWER: f"not reaching {plural(reps.low, 'rep')}{_left(reserve)} at the last load",
        Step.WIDER_RANGE: f"{top} at the last load",
        Step.MORE_SETS: STALL,
        Step.SWAP: STALL,
    }
    return words.get(step, f"{_reps(reps.low, reserve)} at that load")


def _reps(fewest: int, reserve: int) -> str:
    return f"{plural(fewest, 'rep')} or more{_left(reserve)}"


def _left(reserve: int) -> str:
    return f" with {reserve} left" if reserve else ""


Begun = tuple[str, Standing, tuple[CardStop, ...]]
"""The weekday of a session under way, how it stands, and its stops."""


@dataclass(slots=True)
class Ahead:
    """The sessions to come, each drawn once, from the model as it is now."""

    book: Book
    model: StrengthModel
    """With the sets of today in it."""
    kept: dict[str, tuple[Standing, Card]] = field(default_factory=dict)
    days: dict[str, tuple[date, PlannedDay]] = field(default_factory=dict)
    """The next day of each exercise, filled when first asked for."""
    begun: tuple[Begun, ...] | None = None
    """The session under way, if there is one; None until first asked for."""

    def of(self, exercise: str) -> Coming | None:
        """What the next session with an exercise asks; None where none has it.

        A session begun today is the next one until a set of the exercise is done in it,
        whatever weekday it is planned for: it is the one that Today shows.
        """
        if (found := self._of_begun(exercise)) is not None:
            return found
        if not self.days:
            self._fill()
        if exercise not in self.days:
            return None
        when, day = self.days[exercise]
        if day.day not in self.kept:
            standing = stand(inputs := self._inputs(when, day))
            self.kept[day.day] = standing, drawn(standing, inputs, {})
        standing, card = self.kept[day.day]
        stop = next((one for one in card.stops if one.exercise == exercise), None)
        return None if stop is None else coming_at(day.day, standing, stop)

    def _of_begun(self, exercise: str) -> Coming | None:
        """What the session under way still asks of an exercise, as its card says it."""
        if self.begun is None:
            self.begun = tuple(self._begun())
        for weekday, standing, stops in self.begun:
            stop = next((one for one in stops if one.exercise == exercise), None)
            hard = [] if stop is None else [s for s in stop.sets if s.kind is not SetKind.WARM_UP]
            if stop is not None and all(one.state is SetState.OPEN for one in hard):
                return coming_at(weekday, standing, stop)
        return None

    def _begun(self) -> Iterator[Begun]:
        planned = planned_for(self.book, self.book.today) if self.book.week() else None
        if planned is None:
            return
        inputs = inputs_for(self.book, self.book.today, planned)
        if inputs.state.opened and not inputs.state.finished:
            standing = standing_for(self.book, inputs)
            yield planned.day, standing, stops_drawn(standing, inputs, {})

    def _fill(self) -> None:
        """When each day is next done: today while it has not begun, else in the days to come."""
        today, week = self.book.today, self.book.week()
        opened = self.book.ledger.entries("session", since=today, until=today)
        begun = {entry.body.get("weekday") for entry in opened}
        coming = []
        for day in week.days if week else ():
            ahead = (WEEKDAYS.index(day.day) - today.weekday()) % WEEK
            wait = WEEK if ahead == 0 and day.day in begun else ahead
            coming.append((today + timedelta(days=wait), day))
        for when, day in sorted(coming, key=lambda pair: pair[0]):
            for one in () if day.rest else day.exercises:
                self.days.setdefault(one.exercise, (when, day))

    def _inputs(self, when: date, day: PlannedDay) -> DayInputs:
        inputs = inputs_for(self.book, when, day, model=self.model)
        return replace(inputs, now=inputs.now + (when - self.book.today))


def coming_at(weekday: str, standing: Standing, stop: CardStop) -> Coming | None:
    """What a drawn session asks of an exercise; None where no reps are asked."""
    slots = [
        slot
        for index, slot in standing.outline.order
        if index == stop.index and slot.asked.kind is not SetKind.WARM_UP
    ]
    first = next((one for one in stop.sets if one.kind is not SetKind.WARM_UP), None)
    if first is None or not slots or first.reps is None:
        return None
    block = (stop.index, slots[0].block)
    laid = {**standing.planned.laid, **standing.now.laid}
    own = [slot for slot in slots if slot.block == slots[0].block]
    reserve = first.asked.reserve.low if first.asked.reserve else 0
    return Coming(
        weekday=weekday,
        item=stop.item.id if stop.item else "",
        first=first,
        held_kg=standing.planned.anchors.get(block),
        rungs=standing.outline.stops[stop.index].rungs,
        body_kg=standing.outline.stops[stop.index].body_kg,
        low=needed(slots[0]) - reserve,
        high=(passing(slots[0]) or needed(slots[0])) - reserve,
        chance=odds_of(standing.outline, replace(standing.now, laid=laid)).get(block, 1.0),
        passed=_passed(own, laid),
    )


def _passed(slots: list[Slot], laid: Mapping[str, Laid]) -> float | None:
    """Least probability of the top of the range over these sets."""
    top = passing(slots[0])
    forecasts = [laid[slot.key].forecast for slot in slots]
    if top is None:
        return None
    return min((one.at_least(top) for one in forecasts if one is not None), default=None)


def asked_sets(week: Week | None, exercise: str, first: str = "") -> PrescribedSets | None:
    """The first working sets her week asks of an exercise, on the day named if it has them."""
    days = week.days if week else ()
    for day in sorted(days, key=lambda one: one.day != first):
        for one in day.exercises:
            if one.exercise == exercise:
                return next((s for s in one.sets if s.kind is not SetKind.WARM_UP), None)
    return None


def places_in(week: Week | None, exercise: str) -> tuple[tuple[str, int], ...]:
    """The days of her week that have an exercise, each with its place there."""
    return tuple(
        (day.day, place)
        for day in (week.days if week else ())
        for place, one in enumerate(day.exercises)
        if one.exercise == exercise
    )
