"""What a load tells before a set: she chose it, or remembers it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pennate.core.evidence import strength as s
from pennate.core.performed import Effort, SetKind
from pennate.estimate.curve import log_load_gap
from pennate.estimate.look import level_of, look
from pennate.estimate.track import track_key

if TYPE_CHECKING:
    from pennate.estimate.exposure import Exposure, Outcome
    from pennate.estimate.state import State
    from pennate.estimate.track import Track
    from pennate.estimate.view import View


def tells(model: State, exposure: Exposure, track: Track) -> bool:
    """Whether this load is a choice of hers that was not yet taken as a hint."""
    if not exposure.chosen or exposure.felt_kg is None or exposure.hold:
        return False
    if track.key not in model.usual:
        return True
    return (
        model.open is not None
        and exposure.exercise not in model.open.met
        and exposure.exercise not in model.open.done
        and exposure.kind in {SetKind.WORKING, SetKind.TOP}
    )


def only_tried(model: State, exposure: Exposure, outcome: Outcome) -> bool:
    """Whether a first load turned out a trial: six or more left are no working load.

    It may be one that she was asked to test.
    """
    return (
        outcome.effort is Effort.SIX_UP
        and exposure.kind is not SetKind.WARM_UP
        and track_key(exposure) not in model.usual
    )


def choose(model: State, exposure: Exposure, track: Track, *, tried: bool) -> None:
    """Take the choice of a load as a hint: lifters pick what they can lift.

    The first load on an exercise says much, unless it was only `tried`. Later ones follow her
    habits, whose error stays the same from week to week, so they never make the level surer
    than `habit_sd`.
    """
    if model.open is not None:
        model.open.met = model.open.met | {exposure.exercise}
    if track.key in model.usual:
        reps = model.habits.usual_reps((exposure.exercise, False))
        _, variance = level_of(model, track)
        floor = model.settings.habit_sd**2
        if variance <= floor or reps is None:
            return
        sd = max(model.settings.choice_sd, math.sqrt(variance * floor / (variance - floor)))
        aim = log_load_gap(reps + model.settings.habit_reserve, *model.curve(track))
    elif tried or exposure.kind is SetKind.WARM_UP:
        aim, sd = s.WARM_CHOICE_GAP, s.WARM_CHOICE_SD
    else:
        sd = model.settings.choice_sd
        aim = log_load_gap(model.settings.choice_reserve, *model.curve(track))
    hint(model, look(model, exposure, track), aim, sd)


def hint(model: State, view: View, aim: float, sd: float) -> None:
    """Log capacity above a load is probably about `aim`."""
    variance = view.cov[0][0]
    gain = variance / (variance + sd * sd)
    shift = gain * (aim - view.level)
    model.belief.move(view.rows[0], variance, shift, variance * (1.0 - gain))
