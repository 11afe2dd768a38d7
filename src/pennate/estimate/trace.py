"""Strength over time for one way of doing an exercise: filtered, then smoothed backwards."""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from pennate.estimate.curve import log_load_gap
from pennate.estimate.track import track_key

if TYPE_CHECKING:
    from pennate.estimate.exposure import Exposure
    from pennate.estimate.model import StrengthModel
    from pennate.estimate.state import TracePoint


@dataclass(frozen=True, slots=True)
class DatedStrength:
    """Median felt load of one repetition on a day.

    `sd_log` is the standard deviation of the log level (the curve left out, because it
    stays the same from day to day); `shared` its covariance with the last point's. `trained`
    are the weeks since her first session without the rest of pauses.
    """

    day: date
    one_rep_kg: float
    sd_log: float
    shared: float
    trained: float


def trace(model: StrengthModel, exposure: Exposure) -> tuple[DatedStrength, ...]:
    """Dated strength with everything known by the end, oldest first.

    Each session's level was kept as expected before and as believed after it; the backward
    pass is the scalar smoother of Rauch, Tung and Striebel on that level.
    """
    current = model.settled()
    points = current.points.get(track_key(exposure), ())
    slope, shape = current.curve_of(exposure)
    gap = log_load_gap(1, slope, shape)
    return tuple(
        DatedStrength(point.day, math.exp(level - gap), math.sqrt(variance), shared, point.trained)
        for point, (level, variance, shared) in zip(points, _smoothed(points), strict=True)
    )


def _smoothed(points: tuple[TracePoint, ...]) -> list[tuple[float, float, float]]:
    if not points:
        return []
    level, variance = points[-1].log_load, points[-1].variance
    shared = variance
    out = [(level, variance, shared)]
    for now, later in zip(reversed(points[:-1]), reversed(points[1:]), strict=True):
        gain = min(now.variance / later.expected_variance, 1.0)
        level = now.log_load + gain * (level - later.expected)
        variance = now.variance + gain * gain * (variance - later.expected_variance)
        shared *= gain
        out.append((level, max(variance, 1e-9), shared))
    return out[::-1]
