"""Short ways to write measurements in tests."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from fractions import Fraction

import numpy as np

from pennate.core.body import Measurement, Site, TapeState
from pennate.core.performed import Side

FIRST = date(2026, 1, 5)


def on(day: int) -> date:
    """The date so many days after the first."""
    return FIRST + timedelta(days=day)


def row(
    day: int,
    *girths: float,
    site: Site = Site.THIGH,
    side: Side | None = Side.LEFT,
    skinfold: float | None = None,
    state: TapeState | None = TapeState.RELAXED,
    mass: float | None = None,
) -> Measurement:
    """One row of measurements, numbers given as floats."""
    return Measurement(
        day=on(day),
        site=site,
        side=side,
        girths_cm=tuple(_exact(girth) for girth in girths),
        skinfold_mm=None if skinfold is None else _exact(skinfold),
        state=state,
        body_mass_kg=None if mass is None else _exact(mass),
    )


def _exact(value: float) -> Fraction:
    return Fraction(str(round(value, 3)))


def taped(
    rng: np.random.Generator,
    days: Sequence[int],
    truth: Sequence[float],
    *,
    reading: float = 0.48,
    day: float = 0.28,
) -> list[Measurement]:
    """Three readings a date of a true girth, with reading and day error in cm."""
    rows = []
    for when, true in zip(days, truth, strict=True):
        centre = true + rng.normal(0, day)
        rows.append(row(when, *(centre + rng.normal(0, reading, 3))))
    return rows
