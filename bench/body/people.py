"""Simulated tapes: people with their own error, measured as people measure."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from fractions import Fraction
from math import pi, sqrt

import numpy as np

from pennate.core.body import Measurement, Site, TapeState
from pennate.core.performed import Side

FIRST = date(2025, 1, 6)


@dataclass(frozen=True, slots=True)
class Tape:
    """How one person measures one girth; SDs in cm, the skinfold's in per cent."""

    site: Site
    girth: float
    reading: float
    day: float
    readings: int
    fold_mm: float | None = None
    fold_error: float = 0.05
    heavy: bool = False
    """Readings scatter like t with five degrees of freedom."""

    @property
    def date_variance(self) -> float:
        """True error variance of one date's corrected girth."""
        fold = 0.0 if self.fold_mm is None else (pi * self.fold_mm / 10 * self.fold_error) ** 2
        return self.reading**2 / self.readings + self.day**2 + fold

    @property
    def detectable(self) -> float:
        """1.96 true standard errors of the change between two dates."""
        return 1.96 * sqrt(2 * self.date_variance)


def measured(
    tape: Tape, days: list[int], changes: list[float], rng: np.random.Generator
) -> list[Measurement]:
    """Rows of one girth on these days, the true girth changed by so much on each (cm)."""
    rows = []
    for day, change in zip(days, changes, strict=True):
        true = tape.girth + change + rng.normal(0, tape.day)
        scatter = rng.standard_t(5, tape.readings) / sqrt(5 / 3) if tape.heavy else None
        noise = rng.normal(size=tape.readings) if scatter is None else scatter
        fold = tape.fold_mm and tape.fold_mm * (1 + rng.normal(0, tape.fold_error))
        rows.append(
            Measurement(
                day=FIRST + timedelta(days=day),
                site=tape.site,
                side=Side.LEFT,
                girths_cm=tuple(_tenths(true + tape.reading * one) for one in noise),
                skinfold_mm=None if fold is None else _tenths(fold),
                state=TapeState.RELAXED,
            )
        )
    return rows


def _tenths(value: float) -> Fraction:
    return Fraction(round(10 * value), 10)
