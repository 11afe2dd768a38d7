"""The load an exercise is begun with, while little or nothing is known of it here."""

from __future__ import annotations

from dataclasses import replace

from pennate.core.evidence.session import (
    SURE_ENOUGH,
    SURE_ENOUGH_FIRST,
    SURE_ENOUGH_LATER,
    TRIED_ELSEWHERE,
)
from pennate.estimate import Exposure, StrengthModel
from pennate.loading import calibration

STRANGE_SD = 1.0  # number: log load; a number so uncertain was not lifted yet


def known_sets(model: StrengthModel, asking: Exposure) -> int:
    """Working sets behind what is asked: done just so, or logged without a word on how.

    A log that says nothing of straps, safeties or sides makes an exercise no stranger.
    """
    plain = replace(asking, aids=(), side=None)
    return max(model.sets_behind(asking), model.sets_behind(plain))


def sure_load(model: StrengthModel, asking: Exposure, reps: int, *, familiar: bool) -> float:
    """Felt load, body mass included, at which so many reps are likely enough.

    A margin more where it is not familiar yet. Nothing is known of a pin's number before it was
    lifted once, so that the margin alone would ask for next to nothing after a heavier test
    set: the first working sets are no lighter than that, as long as they stay likely, nor, while
    nothing was lifted there, than half of what she lifts elsewhere.
    """
    if familiar:
        return model.load_for(asking, reps, SURE_ENOUGH)
    low = model.load_for(asking, reps, SURE_ENOUGH_FIRST)
    if known_sets(model, asking):
        return low
    likely = model.load_for(asking, reps, SURE_ENOUGH)
    tried = _tried_elsewhere(model, asking, reps)
    if tried > likely and model.estimate(asking).sd_log > STRANGE_SD:
        likely = tried
    return max(low, min(likely, tested_load(model, asking)))


def tested_load(model: StrengthModel, asking: Exposure) -> float:
    """Felt load, body mass included, of the test set of an unknown exercise.

    About 60 % of the guessed one-rep load, and never more than is likely to go up often enough.
    A pin's number may stand for half or twice what another stack's does: half of what she lifts
    so often elsewhere is tried at once.
    """
    test = calibration(model.load_for(asking, 1, SURE_ENOUGH_LATER))
    sure = min(test.target.felt_kg, model.load_for(asking, test.reps, SURE_ENOUGH))
    return max(sure, _tried_elsewhere(model, asking, test.reps))


def _tried_elsewhere(model: StrengthModel, asking: Exposure, reps: int) -> float:
    """Half of the number she lifts so often on the machine she knows; zero where there is none."""
    known = model.elsewhere(asking) if asking.label else None
    return 0.0 if known is None else TRIED_ELSEWHERE * model.load_for(known, reps, SURE_ENOUGH)
