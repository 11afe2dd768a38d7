"""One side against the other, as the model sees them: fatigue of the side done first left out."""

from __future__ import annotations

import math

from pennate.estimate.belief import FAMILY
from pennate.estimate.exposure import Exposure
from pennate.estimate.model import StrengthModel
from pennate.estimate.track import Track


def side_difference(
    model: StrengthModel, left: Exposure, right: Exposure
) -> tuple[float, float] | None:
    """Log strength of the right less that of the left, and its SD; None for two families.

    The two exposures are the same but for their side. What both sides share cancels, so the
    SD is that of the two side levels alone, with their covariance.
    """
    settled = model.settled()
    tracks = (settled.track(left), settled.track(right))
    family = tracks[0].prior.family
    if tracks[1].prior.family != family:
        return None
    for track in tracks:
        settled.wake(track)
    belief = settled.belief
    start, names = belief.offsets[family] + FAMILY, belief.nodes[family]
    weights = {
        start + names.index(_node(track)): sign for track, sign in zip(tracks, (-1, 1), strict=True)
    }
    mean = sum(sign * float(belief.mean[at]) for at, sign in weights.items())
    variance = sum(
        one * two * float(belief.cov[a, b])
        for a, one in weights.items()
        for b, two in weights.items()
    )
    return mean, math.sqrt(max(variance, 0.0))


def _node(track: Track) -> str:
    """The node of a track's side, which is its last."""
    return track.nodes[-1][0]
