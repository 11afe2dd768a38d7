"""What is visible before a set, and what the set showed."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime
from fractions import Fraction

from pennate.core.evidence.strength_levels import FELT_LEAST, UNKNOWN_BODY_SHARE, USUAL_MASS
from pennate.core.exercise import Catalogue
from pennate.core.felt import Carrier, felt_kg
from pennate.core.load_words import lacks_load
from pennate.core.performed import Effort, PerformedSet, SetKind, Side
from pennate.core.quantities import LoadReading

NO_CARRIER = Carrier()

Loads = tuple[float, float, float]
"""Felt load, what of it is carried, and what of it is written, in kilograms."""


@dataclass(frozen=True, slots=True)
class Person:
    """What is known of the lifter; None means not said."""

    female: bool | None = None
    body_mass_kg: float | None = None
    trained: bool | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Exposure:
    """Everything visible before a set. `felt_kg` None asks without a load."""

    when: date
    session: str
    exercise: str
    felt_kg: float | None
    number: int = 1
    equipment: str = ""
    variant: str = ""
    style: str = ""
    aids: tuple[str, ...] = ()
    side: Side | None = None
    kind: SetKind = SetKind.WORKING
    rest_s: float | None = None
    group: str = ""
    round: int | None = None
    label: bool = False
    """The load is a machine's label, so it means nothing elsewhere."""
    hold: bool = False
    chosen: bool = False
    """She chose and wrote this load herself: it hints at her strength, and may be a slip.
    A load that is only considered does neither."""
    short_sleep: bool = False
    carried_kg: float = 0.0
    """Of the felt load, what no number in the log stands for: her body, a bar."""
    written_kg: float = 0.0
    """The rest of it, below zero where it helps; only told beside something carried."""
    unloaded: bool = False
    """Its load was not noted though there was one: such a set teaches nothing of strength."""

    @property
    def day(self) -> date:
        """The local day."""
        return self.when.date() if isinstance(self.when, datetime) else self.when

    def at(self, kg: float | None) -> Exposure:
        """The same set at a load that is only thought of; None asks without one."""
        if kg is None and self.felt_kg is None:
            return self
        return replace(self, felt_kg=kg, chosen=False, unloaded=False)


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a set showed: full reps, reported effort, and whether values stand as asked."""

    reps: int
    effort: Effort | None = None
    as_asked: bool = False


class ExposureReader:
    """Turns logged sets into exposures; remembers the last body mass and felt loads at it."""

    def __init__(
        self,
        catalogue: Catalogue,
        person: Person = Person(),
        carriers: Mapping[str, Carrier] | None = None,
    ) -> None:
        self._catalogue = catalogue
        self._person = person
        self._carriers = carriers or {}
        self._mass = Fraction(person.body_mass_kg or USUAL_MASS)
        self._felt: dict[tuple[object, ...], Loads] = {}

    def after(self, sets: Iterable[PerformedSet]) -> ExposureReader:
        """Itself, knowing her body mass as it was last told in these sets, latest first."""
        told = next((done.body_mass_kg for done in sets if done.body_mass_kg is not None), None)
        if told is not None:
            self._weigh(told)
        return self

    def exposure(self, done: PerformedSet) -> Exposure:
        """What was visible before this set."""
        if done.body_mass_kg is not None:
            self._weigh(done.body_mass_kg)
        unloaded = lacks_load(done, self._catalogue.exercises.get(done.exercise))
        felt, carried, written = (None, 0.0, 0.0) if unloaded else self._loads(done)
        return Exposure(
            when=done.when,
            session=done.session,
            exercise=done.exercise,
            felt_kg=felt,
            number=done.number,
            equipment=done.equipment,
            variant=done.variant,
            style=done.style,
            aids=done.aids,
            side=done.side,
            kind=done.kind,
            rest_s=None if done.rest_s is None else _as_float(done.rest_s),
            group=done.group,
            round=done.round,
            label=done.reading is LoadReading.LABEL,
            hold=done.seconds is not None,
            chosen=True,
            carried_kg=carried,
            written_kg=written,
            unloaded=unloaded,
        )

    def _weigh(self, mass: Fraction) -> None:
        if mass is self._mass:
            return
        if mass.as_integer_ratio() != self._mass.as_integer_ratio():
            self._mass = mass
            self._felt.clear()

    def _loads(self, done: PerformedSet) -> Loads:
        load = None if done.load is None else done.load.as_integer_ratio()
        carrier = done.equipment if done.equipment in self._carriers else ""
        key = (done.exercise, carrier, load, done.unit, done.reading)
        known = self._felt.get(key)
        if known is None:
            known = self._felt[key] = self._compute(done)
        return known

    def _compute(self, done: PerformedSet) -> Loads:
        exercise = self._catalogue.exercises.get(done.exercise)
        if exercise is None and done.load is None:
            return float(self._mass) * UNKNOWN_BODY_SHARE, 0.0, 0.0
        felt, carried = self._felt_load(done, done.load), self._felt_load(done, None)
        return max(felt, FELT_LEAST), carried, felt - carried if carried else 0.0

    def _felt_load(self, done: PerformedSet, load: Fraction | None) -> float:
        felt = felt_kg(
            self._catalogue.exercises.get(done.exercise),
            load,
            done.unit,
            done.reading,
            self._mass,
            self._carriers.get(done.equipment, NO_CARRIER),
            female=self._person.female,
        )
        return float(felt)


def _as_float(value: Fraction) -> float:
    over, under = value.as_integer_ratio()
    return over / under


def exposure_of(
    done: PerformedSet,
    catalogue: Catalogue,
    person: Person = Person(),
    carriers: Mapping[str, Carrier] | None = None,
) -> Exposure:
    """What was visible before one set; for whole logs keep one `ExposureReader`."""
    return ExposureReader(catalogue, person, carriers).exposure(done)


def outcome_of(done: PerformedSet) -> Outcome:
    """What a logged set showed."""
    return Outcome(done.reps, done.effort, done.as_asked)
