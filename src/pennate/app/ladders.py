"""Where she stands on the way to the unassisted rep, and when the next rung is due.

A ladder written in the week wins. Without one, an exercise done with help (bands or a machine
that takes load off) gets the ladder of all the help its gym can give. A rung is done when
every set of the last session on it reached the reps asked.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from pennate.app.stops import helps, item_asked, items_for
from pennate.core.evidence.strength_levels import USUAL_MASS
from pennate.core.exercise import Catalogue, Exercise
from pennate.core.felt import Carrier, body_share, felt_kg
from pennate.core.gym import AnyItem, BodyWeight, Gym, carrier_of
from pennate.core.performed import PerformedSet, SetKind
from pennate.core.prescribed import LadderStep, LoadFrom, PrescribedExercise, Span, Week
from pennate.core.profile import Profile
from pennate.core.quantities import Mass, format_number
from pennate.loading import Rung, assistance_ladder, ladder

SAME_KG = Fraction(1, 50)
"""Felt loads closer than this are one rung, written in two units."""
SURELY = 0.9  # number: from here on a rung counts as surely harder; only the words change
OF_HELP = "of help"
WARM_UP = SetKind.WARM_UP


@dataclass(frozen=True, slots=True, kw_only=True)
class LadderStanding:
    """All rungs in words, easiest first, and where she stands on them."""

    rungs: tuple[str, ...]
    short: tuple[str, ...]
    """The same in few words."""
    at: int | None
    """Her rung; None before the first set on any of them."""
    until: Span | None
    """Reps in every set from which the next rung is due."""
    last: tuple[int, ...]
    """Reps of her last session on this rung, set by set."""
    own: bool
    """Written in the week."""
    sure: str = ""
    """How sure it is that the next rung is really harder."""

    @property
    def due(self) -> bool:
        """Whether every set of the last session reached what is asked for the next rung."""
        return bool(self.last) and self.until is not None and min(self.last) >= self.until.low

    @property
    def lines(self) -> tuple[str, ...]:
        """Where she stands, and what comes next when."""
        if self.at is None:
            return (f"Your ladder begins with {self.rungs[0]}.",)
        here = f"Rung {self.at + 1} of {len(self.rungs)}: {self.rungs[self.at]}."
        return (here, self._next(self.at))

    @property
    def brief(self) -> str:
        """Where she stands and what comes next when, in one line for the Floor."""
        if self.at is None:
            return f"Your ladder begins with {self.short[0]}"
        here = f"Rung {self.at + 1} of {len(self.rungs)}"
        if self.at + 1 >= len(self.rungs):
            return f"{here}, the last"
        coming = self.short[self.at + 1]
        if self.due:
            return f"{here}; due now: {coming}"
        return f"{here}; {coming} when every set reaches {self.until.low}" if self.until else here

    def _next(self, at: int) -> str:
        done = ", ".join(map(str, self.last))
        if at + 1 >= len(self.rungs):
            return f"The last rung; last time {done}."
        coming = f"{self.rungs[at + 1]}{self.sure}"
        if self.until is None:
            return f"Then {coming}; last time {done}."
        if self.due:
            return f"Due now: {coming}; every set reached {self.until.low} ({done})."
        return f"Then {coming}, when every set reaches {self.until.low}; last time {done}."


@dataclass(frozen=True, slots=True, kw_only=True)
class Climb:
    """What a standing is judged by."""

    catalogue: Catalogue
    gym: Gym | None
    profile: Profile
    done: Sequence[PerformedSet]
    """Sets that count for where she stands, in order."""


def ladder_of(
    asked: PrescribedExercise, item: AnyItem | None, climb: Climb
) -> LadderStanding | None:
    """The standing on the written ladder, else on the help this gym gives; None without either."""
    if asked.ladder:
        return _written(asked, climb)
    if item is None or climb.gym is None:
        return None
    return _computed(asked, item, climb.gym, climb)


def asked_of(week: Week | None, exercise: str) -> PrescribedExercise | None:
    """The first place of an exercise in a week, or the ladder that it is a rung of."""
    asked = [one for day in week.days for one in day.exercises] if week else []
    same = (one for one in asked if one.exercise == exercise)
    rung = (one for one in asked if any(step.exercise == exercise for step in one.ladder))
    return next(same, None) or next(rung, None)


# The week's own ladder


def _written(asked: PrescribedExercise, climb: Climb) -> LadderStanding:
    steps = asked.ladder
    names = {step.exercise or asked.exercise for step in steps}
    done = [
        (found, one)
        for one in _working(climb.done)
        if one.exercise in names
        if (found := _step_of(one, asked, climb)) is not None
    ]
    at, last = _reached(done, asked)
    words = tuple(_step_words(step, asked, climb.catalogue) for step in steps)
    return LadderStanding(
        rungs=words,
        short=words,
        at=at,
        until=steps[at].until if at is not None else None,
        last=last,
        own=True,
    )


def _step_of(done: PerformedSet, asked: PrescribedExercise, climb: Climb) -> int | None:
    """The hardest written rung that a set was on."""
    fitting = [
        place
        for place, step in enumerate(asked.ladder)
        if (step.exercise or asked.exercise) == done.exercise
        and (not step.style or step.style.casefold() == done.style.casefold())
        and _hard_enough(step, done, climb)
    ]
    return fitting[-1] if fitting else None


def _hard_enough(step: LadderStep, done: PerformedSet, climb: Climb) -> bool:
    rule = step.load
    if rule.source is LoadFrom.BODY_WEIGHT:
        return _felt(done, climb.gym) >= -SAME_KG
    if rule.mass is None:
        return True
    mass = rule.mass
    asked = felt_kg(
        None, mass.amount, mass.unit, rule.reading, Fraction(0), *_carriers(done, climb.gym)
    )
    return _felt(done, climb.gym) >= _made(asked, done, climb.gym) - SAME_KG


def _made(asked: Fraction, done: PerformedSet, gym: Gym | None) -> Fraction:
    """A written load as what she used can make it: the next lighter where it is not there."""
    item = gym.item(done.equipment) if gym else None
    lighter = (one.felt for one in ladder(gym, item) if one.felt <= asked) if gym and item else ()
    return max(lighter, default=asked)


def _reached(
    done: Sequence[tuple[int, PerformedSet]], asked: PrescribedExercise
) -> tuple[int | None, tuple[int, ...]]:
    """Her rung and the reps of her last session on it.

    A rung is hers once a set on it reached the low end asked, or the reps the next rung waits
    for: a try at a harder one, or a day asked of her without the help, moves her nowhere.
    """
    held = [(place, one) for place, one in done if one.reps >= _least(asked, place)]
    at, _ = _last_session(held)
    if at is None:
        return None, ()
    newest = max((one.day, one.session) for place, one in done if place == at)
    on = [one for place, one in done if place == at and (one.day, one.session) == newest]
    return at, tuple(one.reps for one in sorted(on, key=lambda one: one.order))


def _least(asked: PrescribedExercise, place: int) -> int:
    """The fewest reps that count on a rung."""
    until = asked.ladder[place].until
    first = next((s.reps.low for s in asked.sets if s.kind is not WARM_UP and s.reps), 1)
    return min(first, until.low) if until else first


def _step_words(step: LadderStep, asked: PrescribedExercise, catalogue: Catalogue) -> str:
    exercise = step.exercise or asked.exercise
    name = catalogue[exercise].name if exercise in catalogue.exercises else exercise
    rule = step.load
    parts = [name if step.exercise or not rule.mass else ""]
    if rule.source is LoadFrom.BODY_WEIGHT:
        parts = [name, "body weight alone"]
    elif rule.mass is not None:
        parts.append(_mass_words(rule.mass))
    return ", ".join(part for part in (*parts, step.style.replace("_", " ")) if part)


def _mass_words(mass: Mass) -> str:
    helping = mass.amount < 0
    amount = format_number(abs(mass.amount))
    return f"{amount} {mass.unit} {OF_HELP}" if helping else f"{amount} {mass.unit}"


# The help of a gym


def _computed(
    asked: PrescribedExercise, item: AnyItem, gym: Gym, climb: Climb
) -> LadderStanding | None:
    exercise = climb.catalogue[asked.exercise]
    if exercise.body_mass is None or not helps(item):
        return None
    body = _body_kg(exercise, climb.profile)
    rungs = _to_no_help(assistance_ladder(gym, _items(exercise, item, gym), body))
    if not rungs:
        return None
    own = [one for one in _working(climb.done) if one.exercise == exercise.id]
    names = _names(rungs, gym)
    at, last = _last_session([(_nearest(rungs, _felt(one, gym)), one) for one in own])
    return LadderStanding(
        rungs=tuple(_rung_words(rung, climb.profile, names) for rung in rungs),
        short=tuple(_help_words(rung, names) for rung in rungs),
        at=at,
        until=_until(asked),
        last=last,
        own=False,
        sure=_how_sure(rungs, at),
    )


def _items(exercise: Exercise, item: AnyItem, gym: Gym) -> list[AnyItem]:
    """The item she uses, other help for this exercise, and the place without help."""
    fitting = items_for(gym, exercise)
    free = [one for one in fitting if isinstance(one, BodyWeight)][:1]
    return [item, *(one for one in fitting if helps(one) and one is not item), *free]


def _to_no_help(rungs: Sequence[Rung]) -> list[Rung]:
    """Rungs from most help to none; added load lies beyond."""
    helped = [rung for rung in rungs if rung.loaded.felt < 0]
    free = next((rung for rung in rungs if rung.loaded.felt == 0), None)
    return [*helped, free] if helped and free else helped


def _body_kg(exercise: Exercise, profile: Profile) -> float:
    mass = profile.body_mass_kg or Fraction(USUAL_MASS)
    return float(body_share(exercise, female=profile.female) * mass)


def _nearest(rungs: Sequence[Rung], felt: Fraction) -> int:
    return min(range(len(rungs)), key=lambda place: abs(rungs[place].loaded.felt - felt))


def _until(asked: PrescribedExercise) -> Span | None:
    """The top of the range asked of the first working sets."""
    for one in asked.sets:
        if one.kind is not SetKind.WARM_UP and one.reps is not None:
            top = one.reps.high or one.reps.low
            return Span(top, top)
    return None


def _names(rungs: Sequence[Rung], gym: Gym) -> Mapping[str, str]:
    """Names of the things that help, where there are several and so need telling apart."""
    helping = {rung.loaded.item_id for rung in rungs if rung.loaded.felt < 0}
    several = {one: item.name for one in helping if (item := gym.item(one))}
    return several if len(several) > 1 else {}


def _help_words(rung: Rung, names: Mapping[str, str]) -> str:
    loaded = rung.loaded
    if not loaded.load.amount:
        return "no help at all"
    bands = f" ({' and '.join(loaded.bands)})" if loaded.bands else ""
    where = f" on {names[loaded.item_id]}" if loaded.item_id in names and not bands else ""
    return f"{_mass_words(loaded.load)}{bands}{where}"


def _rung_words(rung: Rung, profile: Profile, names: Mapping[str, str]) -> str:
    """The help, and what is left to lift with its spread where her mass is known."""
    words, left = _help_words(rung, names), rung.effective
    if profile.body_mass_kg is None or not rung.loaded.load.amount:
        return words
    spread = f" ± {left.sd_kg:.0f}" if left.sd_kg >= 0.5 else ""  # number: nothing to show below
    return f"{words}, {left.kg:.0f}{spread} kg left to lift"


def _how_sure(rungs: Sequence[Rung], at: int | None) -> str:
    if at is None or at + 1 >= len(rungs) or rungs[at + 1].harder >= SURELY:
        return ""
    return f" (harder with {100 * rungs[at + 1].harder:.0f} % probability)"


# Sets


def _working(done: Sequence[PerformedSet]) -> list[PerformedSet]:
    return [d for d in done if d.kind is not SetKind.WARM_UP and d.seconds is None]


def _last_session(done: Sequence[tuple[int, PerformedSet]]) -> tuple[int | None, tuple[int, ...]]:
    """The hardest rung of the last session, and the reps of its sets in order."""
    if not done:
        return None, ()
    newest = max((one.day, one.session) for _, one in done)
    of_it = [(place, one) for place, one in done if (one.day, one.session) == newest]
    at = max(place for place, _ in of_it)
    ordered = sorted((one for place, one in of_it if place == at), key=lambda one: one.order)
    return at, tuple(one.reps for one in ordered)


def _felt(done: PerformedSet, gym: Gym | None) -> Fraction:
    """Felt load without body mass; help is negative."""
    carriers = _carriers(done, gym)
    return felt_kg(None, done.load, done.unit, done.reading, Fraction(0), *carriers)


def _carriers(done: PerformedSet, gym: Gym | None) -> list[Carrier]:
    """What the load hung on, where this gym has it."""
    item = gym.item(done.equipment) if gym else None
    return [] if item is None else [carrier_of(item)]


def ladder_for(
    week: Week | None, exercise: str, item_id: str, climb: Climb
) -> LadderStanding | None:
    """The standing for the page of an exercise on an item; None where no ladder leads on."""
    asked = asked_of(week, exercise)
    if asked is None:
        return None
    named = climb.gym.item(item_id) if climb.gym else None
    found = climb.catalogue[asked.exercise]
    usual = item_asked(climb.gym, found, asked) if climb.gym else None
    return ladder_of(asked, named or usual, climb)
