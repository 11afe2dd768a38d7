"""What comes next for an exercise, and whether it has stalled."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import TYPE_CHECKING

from scipy.special import ndtr

from pennate.core import percent
from pennate.core.evidence import strength_steps as st
from pennate.core.evidence.strength import LAYOFF_FREE_WEEKS
from pennate.estimate.clock import expected_growth
from pennate.estimate.trace import trace

if TYPE_CHECKING:
    from datetime import date

    from pennate.core.prescribed import Span
    from pennate.estimate.exposure import Exposure
    from pennate.estimate.model import StrengthModel
    from pennate.estimate.trace import DatedStrength


SURE = 1.96  # number: standard deviations on each side of a 95 % interval
GIVE_HOLDS = "95 times in a hundred"
_SAME = 0.01  # number: loads closer than ten grams are the same


class Step(StrEnum):
    """A proposal; the value is what people read."""

    RAISE = "raise the load"
    HOLD = "hold the load"
    LOWER = "lower the load"
    EASIER = "make it easier"
    WIDER_RANGE = "wider rep range first"
    MORE_SETS = "one more set"
    SWAP = "swap the exercise"


@dataclass(frozen=True, slots=True)
class NextStep:
    """A proposal with the felt load it means, the probability behind it, and why."""

    step: Step
    felt_kg: float
    probability: float
    reason: str


@dataclass(frozen=True, slots=True)
class Plateau:
    """Gain over a window against what was to be expected, on log strength.

    `gain_sd` is one standard deviation; the words tell the 95 % interval. `stalled` is the
    probability that the true gain is below a quarter of the expected one.
    """

    weeks: float
    gain: float
    gain_sd: float
    expected: float
    stalled: float
    words: str


def next_step(
    model: StrengthModel,
    exposure: Exposure,
    reps: Span,
    loads: Sequence[float],
    *,
    reserve: float = 0.0,
) -> NextStep:
    """The next proposal at the exposure's load.

    `loads` are the felt kilograms the equipment can make; `reps` the asked range, kept with
    `reserve` reps left.
    """
    if exposure.felt_kg is None:
        raise ValueError("the present load is needed to judge the next one")
    now = exposure.felt_kg
    need = round(reps.low + reserve)
    heavier = next((load for load in sorted(loads) if load > now + _SAME), None)
    lighter = next((load for load in sorted(loads, reverse=True) if load < now - _SAME), None)
    here = model.forecast(exposure).at_least(need)
    if here < st.LOWER_BELOW and lighter is not None:
        return NextStep(
            Step.LOWER,
            lighter,
            1.0 - here,
            f"{reps.low} reps at this load have a chance of {percent.chance(here)}",
        )
    if here < st.LOWER_BELOW:
        return NextStep(
            Step.EASIER,
            now,
            here,
            f"{reps.low} reps have a chance of {percent.chance(here)} and nothing lighter can be "
            "made: fewer reps, or an easier exercise",
        )
    if heavier is not None:
        raised = _raise(model, exposure, reps, heavier, need)
        if raised is not None:
            return raised
    halt = plateau(model, exposure)
    if halt is not None and halt.stalled > st.STALLED_ABOVE:
        return _against_plateau(halt, now)
    reason = f"{reps.low} reps at this load have a chance of {percent.chance(here)}"
    if heavier is not None:
        ahead = model.forecast(replace(exposure, felt_kg=heavier)).at_least(need)
        reason += f"; one step up {percent.chance(ahead)}"
    return NextStep(Step.HOLD, now, here, reason)


def _raise(
    model: StrengthModel, exposure: Exposure, reps: Span, heavier: float, need: int
) -> NextStep | None:
    now = exposure.felt_kg or heavier
    ahead = model.forecast(replace(exposure, felt_kg=heavier))
    chance = ahead.at_least(need)
    if chance >= st.RAISE_ABOVE:
        step = heavier / now - 1
        return NextStep(
            Step.RAISE,
            heavier,
            chance,
            f"{reps.low} reps or more at the next load up ({percent.signed_percent(step, 0)}) have "
            f"a chance of {percent.chance(chance)}",
        )
    top = reps.high if reps.high is not None else reps.low
    reached = model.forecast(exposure).at_least(round(need + top - reps.low))
    if reached >= st.RAISE_ABOVE and heavier / now - 1 > st.BIG_STEP:
        return NextStep(
            Step.WIDER_RANGE,
            now,
            reached,
            f"the next load is {percent.percent(heavier / now - 1)} up, about "
            f"{model.forecast(exposure).median - ahead.median:.0f} reps: "
            f"go to {top + st.WIDER_BY:.0f} reps here first",
        )
    return None


def _against_plateau(halt: Plateau, now: float) -> NextStep:
    step = Step.MORE_SETS if halt.weeks < st.SWAP_AFTER_WEEKS else Step.SWAP
    return NextStep(step, now, halt.stalled, halt.words)


def plateau(
    model: StrengthModel, exposure: Exposure, weeks: float = st.PLATEAU_WEEKS
) -> Plateau | None:
    """Gain over the last weeks against the expected one; None without enough sessions.

    Weeks before a pause do not count: what she lost in it is no stall. What is usual since then
    asks for the weeks she had trained until then, as strength does not grow in weeks away.
    """
    points = _since_pause(trace(model, exposure))
    if len(points) < st.PLATEAU_SESSIONS:
        return None
    last = points[-1]
    earlier = [p for p in points if (last.day - p.day).days >= 7 * weeks]
    first = earlier[-1] if earlier else points[0]
    span = (last.day - first.day).days / 7
    if span < weeks / 2:
        return None
    gain, sd = _gain(first, last)
    expected = expected_growth(first.trained, first.trained + span, model.person)
    stalled = float(ndtr((expected / 4 - gain) / sd))
    words = _plateau_words(span, (gain, sd), expected, stalled)
    return Plateau(span, gain, sd, expected, stalled, words)


def _since_pause(points: Sequence[DatedStrength]) -> Sequence[DatedStrength]:
    """The points after the last pause of the exercise that is long enough to cost strength."""
    for place in range(len(points) - 1, 0, -1):
        if _weeks_since(points[place - 1].day, points[place].day) > LAYOFF_FREE_WEEKS:
            return points[place:]
    return points


def give_words(sd: float) -> str:
    """What may be added or taken away, and how often that holds: “± 3.1 %, 95 times in …”."""
    return f"± {percent.percent(SURE * sd, 1)}, {GIVE_HOLDS}"


def _plateau_words(weeks: float, gain: tuple[float, float], expected: float, stalled: float) -> str:
    """Gain with its 95 % interval beside the usual one, and the chance that it is a stall."""
    middle, sd = gain
    usual = percent.signed_percent(math.expm1(expected))
    return (
        f"over {weeks:.0f} weeks {percent.signed_percent(math.expm1(middle))} ({give_words(sd)}), "
        f"where about {usual} is usual; the chance of a stall, a gain of less than a quarter of "
        f"that, is {percent.chance(stalled)}"
    )


def _gain(first: DatedStrength, last: DatedStrength) -> tuple[float, float]:
    gain = math.log(last.one_rep_kg / first.one_rep_kg)
    variance = first.sd_log**2 + last.sd_log**2 - 2 * first.shared
    return gain, math.sqrt(max(variance, 1e-9))


def _weeks_since(start: date, day: date) -> float:
    return (day - start).days / 7
