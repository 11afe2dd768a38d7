"""A start for an exercise never done, from one that was, by published equations."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pennate.core.evidence.strength_transfer import TRANSFERS, Transfer, transferred_kg
from pennate.estimate.curve import log_load_gap
from pennate.estimate.look import level_of, loadings

if TYPE_CHECKING:
    from collections.abc import Callable

    from pennate.estimate.state import State
    from pennate.estimate.track import Track

ENOUGH_SETS = 3
"""Working sets behind a source before it may speak for another exercise or equipment."""


def hint_from_known(model: State, track: Track, wake: Callable[[Track], None]) -> None:
    """Take a published equation as a hint on a track just woken for the first time.

    `wake` joins the source's family to the open session.
    """
    line = TRANSFERS.get(track.exercise)
    if line is None or track.key[-1]:
        return
    source = _source(model, line)
    if source is None:
        return
    wake(source)
    level, _ = level_of(model, source)
    kg = math.exp(level - log_load_gap(line.reps, *model.curve(source)))
    there = transferred_kg(track.exercise, kg)
    if there is None:
        return
    aim = math.log(there) + log_load_gap(line.reps, *model.curve(track))
    now, variance = level_of(model, track)
    gain = variance / (variance + line.sd_log**2)
    direction = model.belief.cov.dot(loadings(model, track)[0])
    model.belief.move(direction, variance, gain * (aim - now), variance * (1.0 - gain))


def _source(model: State, line: Transfer) -> Track | None:
    """The best known plain track of the source exercise whose numbers are kilograms."""
    known = [
        (usual.sets, index, key)
        for index, (key, usual) in enumerate(model.usual.items())
        if key[0] == line.source and not key[-1] and usual.sets >= ENOUGH_SETS
    ]
    return model.known_track(max(known)[2]) if known else None
