"""One way an item can be loaded: what is on it, what it weighs, what it feels like."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from pennate.core.gym import Plate
from pennate.core.quantities import LoadReading, Mass, Unit


@dataclass(frozen=True, slots=True, kw_only=True)
class Loaded:
    """A loadable load in its physical state. `load` is as she would say it, per `reading`."""

    item_id: str
    load: Mass
    """Negative for assistance."""
    reading: LoadReading
    felt: Fraction
    """Exact felt load in kilograms without body mass; negative for assistance."""
    each_side: tuple[Plate, ...] = ()
    """Plates on one of two equal sides, inner to outer."""
    single: tuple[Plate, ...] = ()
    """Plates that hang in one place (belt, bar with one free end), first on to last on."""
    label: Mass | None = None
    """Where the pin goes, or the mass printed on one dumbbell."""
    add_ons: tuple[Mass, ...] = ()
    """Small masses laid on a stack."""
    bands: tuple[str, ...] = ()
    count: int = 1
    """How many alike things she holds: two for a pair of dumbbells."""
    words: str = ""
    """What to put on, in words: “20 kg bar, each side: 15, 5, 1.25”."""

    @property
    def felt_kg(self) -> float:
        """Felt load in kilograms without body mass, as a plain number."""
        return float(self.felt)

    @property
    def unit(self) -> Unit | None:
        """The unit of what is put on; None with nothing on, with both, and with bands."""
        marks = {plate.mass.unit for plate in self.plates}
        if self.label is not None:
            marks.add(self.label.unit)
        return marks.pop() if len(marks) == 1 else None

    @property
    def plates(self) -> tuple[Plate, ...]:
        """The plates in the order they go on: pairs, or single plates."""
        return self.each_side or self.single
