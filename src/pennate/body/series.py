"""Measurements gathered into one series a site, side and tape state, with robust means."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from math import sqrt
from statistics import fmean, median

from pennate.core.body import TRUNK, Measurement, Site, TapeState
from pennate.core.evidence.body import (
    IMPROBABLE_Z,
    READING_ERROR,
    TRUNK_FACTOR,
    VERDICT_WEEKS,
)
from pennate.core.performed import Side


@dataclass(frozen=True, slots=True)
class Point:
    """One date of a series: the robust mean of its readings and what they scatter."""

    day: date
    girth_cm: float
    readings: int
    squares: float
    """Sum of squared deviations of the readings from their mean, cm²."""
    skinfold_mm: float | None = None


@dataclass(frozen=True, slots=True)
class Series:
    """The dates of one girth, oldest first; pumped readings left out."""

    site: Site
    side: Side | None
    state: TapeState | None
    points: tuple[Point, ...]
    notes: tuple[str, ...] = ()
    """What was left out or looks odd, in her words."""

    @property
    def weeks(self) -> float:
        """Weeks from the first date to the last."""
        return (self.points[-1].day - self.points[0].day).days / 7

    @property
    def mean_cm(self) -> float:
        """Mean girth over the dates."""
        return fmean(point.girth_cm for point in self.points)

    @property
    def name(self) -> str:
        """Site with its side, as people say it."""
        return f"{self.side.value} {self.site.value}" if self.side else self.site.value


def site_factor(site: Site) -> float:
    """How much larger the error is at this site than on a limb."""
    return TRUNK_FACTOR if site in TRUNK else 1.0


def robust_readings(
    readings: Sequence[float], site: Site, error: float = READING_ERROR
) -> tuple[tuple[float, ...], list[float]]:
    """Readings kept and readings left out as slips; `error` is her reading SD, % on a limb.

    From three readings on, one that lies further from the median than tape error explains
    is left out; of two, nobody can tell which is wrong, and both stay.
    """
    if len(readings) < 3:
        return tuple(readings), []
    middle = median(readings)
    bound = IMPROBABLE_Z * error / 100 * site_factor(site) * middle
    kept = tuple(r for r in readings if abs(r - middle) <= bound)
    return kept, [r for r in readings if abs(r - middle) > bound]


_WORTH = 4  # number: degrees of freedom the published error counts for in the bound of a slip


def _reading_errors(by_day: Mapping[date, Sequence[float]], site: Site) -> dict[date, float]:
    """By date, the reading SD her other dates show, % on a limb and never below the prior.

    A loose tape must not lose its wide readings as slips, or its error is learned too small;
    a slip must not excuse itself, so its own date is left out.
    """
    scale = 100 / site_factor(site)
    squares, freedom = {}, {}
    for day, readings in by_day.items():
        kept, _ = robust_readings(readings, site, _LOOSEST)
        squares[day] = sum((scale * (r / fmean(kept) - 1)) ** 2 for r in kept)
        freedom[day] = len(kept) - 1
    all_squares, all_freedom = sum(squares.values()), sum(freedom.values())
    return {
        day: max(
            READING_ERROR,
            sqrt(
                (all_squares - squares[day] + _WORTH * READING_ERROR**2)
                / (all_freedom - freedom[day] + _WORTH)
            ),
        )
        for day in by_day
    }


_LOOSEST = 1.5  # number: a beginner's error in per cent (Perini 2005, from memory)


def _point(day: date, rows: Sequence[Measurement], error: float, notes: list[str]) -> Point | None:
    readings = _readings(rows)
    if not readings:
        return None
    kept, slips = robust_readings(readings, rows[0].site, error)
    notes.extend(
        f"{day}: the reading {slip:g} cm stands far from the others and was left out"
        for slip in slips
    )
    mean = fmean(kept)
    folds = [float(row.skinfold_mm) for row in rows if row.skinfold_mm is not None]
    return Point(
        day,
        mean,
        len(kept),
        sum((reading - mean) ** 2 for reading in kept),
        fmean(folds) if folds else None,
    )


def _readings(rows: Sequence[Measurement]) -> list[float]:
    return [float(girth) for row in rows for girth in row.girths_cm]


Key = tuple[Site, Side | None]


def _by_key(rows: Iterable[Measurement]) -> Mapping[Key, list[Measurement]]:
    grouped: dict[Key, list[Measurement]] = defaultdict(list)
    for row in rows:
        grouped[row.site, row.side].append(row)
    return grouped


def _chosen_state(rows: Sequence[Measurement]) -> TapeState | None:
    """The state measured on most dates; rows that state none belong to it."""
    days: dict[TapeState, set[date]] = defaultdict(set)
    for row in rows:
        if row.state is not None and row.state is not TapeState.PUMPED:
            days[row.state].add(row.day)
    if not days:
        return None
    return max(days, key=lambda state: (len(days[state]), state is TapeState.RELAXED))


def _series(key: Key, rows: Sequence[Measurement]) -> Series:
    notes: list[str] = []
    pumped = sorted({row.day for row in rows if row.state is TapeState.PUMPED})
    notes.extend(f"{day}: measured soon after training, not used" for day in pumped)
    state = _chosen_state(rows)
    other = sorted({r.day for r in rows if r.state not in {state, None, TapeState.PUMPED}})
    if other:
        notes.append(f"{len(other)} dates measured in another state than {state} are not mixed in")
    by_day: dict[date, list[Measurement]] = defaultdict(list)
    for row in rows:
        if row.state in {state, None}:
            by_day[row.day].append(row)
    read = {day: found for day in by_day if (found := _readings(by_day[day]))}
    errors = _reading_errors(read, key[0])
    points = (
        _point(day, by_day[day], errors.get(day, READING_ERROR), notes) for day in sorted(by_day)
    )
    return Series(*key, state, tuple(p for p in points if p is not None), tuple(notes))


def gather(rows: Iterable[Measurement]) -> tuple[Series, ...]:
    """One series for every site and side that has a usable date, in the order of the sites."""
    order = list(Site)
    series = (_series(key, group) for key, group in _by_key(rows).items())
    return tuple(
        sorted(
            (one for one in series if one.points),
            key=lambda one: (order.index(one.site), one.side or ""),
        )
    )


def recent(series: Series) -> Series:
    """The stretch a verdict looks back on; the whole series if that leaves under two dates."""
    first = series.points[-1].day - timedelta(weeks=VERDICT_WEEKS)
    kept = tuple(point for point in series.points if point.day >= first)
    if len(kept) < 2:
        return series
    return Series(series.site, series.side, series.state, kept, series.notes)


def masses_by_day(rows: Iterable[Measurement]) -> dict[date, float]:
    """Mean body mass of every date on which one was written beside a girth, kg."""
    found: dict[date, list[float]] = defaultdict(list)
    for row in rows:
        if row.body_mass_kg is not None:
            found[row.day].append(float(row.body_mass_kg))
    return {day: fmean(masses) for day, masses in sorted(found.items())}
