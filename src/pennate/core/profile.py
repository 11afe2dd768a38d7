"""What the lifter says about herself; kept on this machine, every part optional."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from pennate.core.quantities import Unit
from pennate.core.readiness import Health


@dataclass(frozen=True, slots=True, kw_only=True)
class Profile:
    """Answers that change a number or a caution. None means not asked or not said."""

    health: Health | None = None
    female: bool | None = None
    body_mass_kg: Fraction | None = None
    trained: bool | None = None
    unit: Unit = Unit.KG

    @property
    def careful(self) -> bool:
        """Whether sets stay well short of failure."""
        return self.health is not None and self.health.careful
