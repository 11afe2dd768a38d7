"""Body mass beside a girth: the weighings about its day, where none was written with it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction

from pennate.core.body import Measurement, Weighing

NEAR_DAYS = 3
"""A weighing within so many days stands for a girth's date."""


def with_masses(
    measured: tuple[Measurement, ...], weighed: tuple[Weighing, ...]
) -> tuple[Measurement, ...]:
    """The measurements with the body mass about their day, where none was written beside."""
    by_day: dict[date, list[Fraction]] = defaultdict(list)
    for one in weighed:
        by_day[one.day].append(one.kg)
    return tuple(_with_mass(row, by_day) for row in measured)


def _with_mass(row: Measurement, by_day: Mapping[date, list[Fraction]]) -> Measurement:
    if row.body_mass_kg is not None:
        return row
    days = (row.day + timedelta(days=by) for by in range(-NEAR_DAYS, NEAR_DAYS + 1))
    about = [kg for day in days for kg in by_day.get(day, ())]
    return replace(row, body_mass_kg=Fraction(sum(about), len(about))) if about else row
