"""Data-entry check: does a girth fit anybody, her body mass, her other side, her own past.

What is odd becomes a question, never a refusal: the reading stays and she is asked.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from math import log

from pennate.body.series import Series
from pennate.core.body import Measurement
from pennate.core.evidence.body import (
    DAY_ERROR,
    GIRTH_AT_70KG,
    GIRTH_ON_MASS,
    GIRTH_SPREAD,
    IMPROBABLE_Z,
    READING_ERROR,
)

_REFERENCE_KG = 70  # number: the mass at which the usual girths are stated
_SIDE_BOUND = 0.12  # number: left and right of 6,068 people were not measured; our choice, wide


def expected_girth_cm(row: Measurement, mass_kg: float) -> float:
    """The girth usual at this body mass, women and men together."""
    return float(GIRTH_AT_70KG[row.site] * (mass_kg / _REFERENCE_KG) ** GIRTH_ON_MASS[row.site])


def questions(rows: Iterable[Measurement], all_series: Iterable[Series]) -> tuple[str, ...]:
    """Everything that looks like a slip, as sentences to ask her."""
    asked: dict[str, None] = {}
    for row in rows:
        asked.update(dict.fromkeys(_against_mass(row)))
    listed = list(all_series)
    for series in listed:
        asked.update(dict.fromkeys(_against_past(series)))
    asked.update(dict.fromkeys(_against_other_side(listed)))
    return tuple(asked)


def _against_mass(row: Measurement) -> Iterable[str]:
    if row.body_mass_kg is None:
        return
    usual = expected_girth_cm(row, float(row.body_mass_kg))
    for girth in map(float, row.girths_cm):
        if abs(log(girth / usual)) > IMPROBABLE_Z * GIRTH_SPREAD[row.site]:
            yield (
                f"{row.day}: is {girth:g} cm right for the {row.site.value}? "
                f"At {float(row.body_mass_kg):g} kg about {usual:.0f} cm is usual."
            )


def _against_past(series: Series) -> Iterable[str]:
    """A date far from both its neighbours, by more than error could ever do."""
    bound = IMPROBABLE_Z * (READING_ERROR + DAY_ERROR) / 100
    for before, point, after in zip(
        series.points, series.points[1:], series.points[2:], strict=False
    ):
        steps = (log(point.girth_cm / before.girth_cm), log(point.girth_cm / after.girth_cm))
        if min(map(abs, steps)) > bound and steps[0] * steps[1] > 0:
            yield (
                f"{point.day}: is {point.girth_cm:.1f} cm right for the {series.name}? "
                f"Before it was {before.girth_cm:.1f} cm, after it {after.girth_cm:.1f} cm."
            )


def _against_other_side(listed: list[Series]) -> Iterable[str]:
    grouped: dict[tuple[str, date], list[tuple[str, float]]] = {}
    for series in listed:
        if series.side is not None:
            for point in series.points:
                key = (series.site.value, point.day)
                grouped.setdefault(key, []).append((series.side.value, point.girth_cm))
    for (site, day), sides in grouped.items():
        if len(sides) == 2 and abs(log(sides[0][1] / sides[1][1])) > _SIDE_BOUND:
            yield (
                f"{day}: {site} {sides[0][0]} {sides[0][1]:.1f} cm and {sides[1][0]} "
                f"{sides[1][1]:.1f} cm differ by more than sides do: is one a slip?"
            )
