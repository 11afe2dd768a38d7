"""Help from bands and assisted machines: what is left to lift, and how sure that is."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from pennate.core.evidence.loading import ASSIST_SPREAD
from pennate.core.exercise import EquipmentKind
from pennate.core.gym import AnyItem, BandSet, Gym
from pennate.core.loaded import Loaded
from pennate.loading.ladder import ladder


@dataclass(frozen=True, slots=True)
class Effective:
    """What is lifted with this help, in kilograms, and its standard deviation."""

    kg: float
    sd_kg: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Rung:
    """One step on the way to no help at all."""

    loaded: Loaded
    effective: Effective
    harder: float
    """Probability that it is really harder than the rung before; 1 for the first."""


def effective(item: AnyItem, loaded: Loaded, body_kg: float) -> Effective:
    """What is lifted: body mass moved plus felt load; help and bands are uncertain.

    Bands spread as their maker's charts and a lifter's own scale do; a machine's help by
    its levers and friction; iron is exact.
    """
    return Effective(body_kg + loaded.felt_kg, _spread_kg(item, loaded))


def _spread_kg(item: AnyItem, loaded: Loaded) -> float:
    if isinstance(item, BandSet):
        by_name = {band.name: band for band in item.bands}
        pulls = [by_name[name] for name in loaded.bands]
        return math.hypot(*(float(b.tension.in_kg) * float(b.sd_log) for b in pulls))
    if item.kind is EquipmentKind.ASSISTED:
        return abs(loaded.felt_kg) * ASSIST_SPREAD
    return 0.0


def assistance_ladder(gym: Gym, items: Sequence[AnyItem], body_kg: float) -> tuple[Rung, ...]:
    """All help these items can give, from most to none, then any added load.

    Rungs of several items are merged by what is left to lift.
    """
    steps = [
        (effective(item, loaded, body_kg), loaded) for item in items for loaded in ladder(gym, item)
    ]
    steps = sorted(
        ((left, loaded) for left, loaded in steps if left.kg > 0), key=lambda step: step[0].kg
    )
    rungs: list[Rung] = []
    for left, loaded in steps:
        if rungs and math.isclose(rungs[-1].effective.kg, left.kg) and not left.sd_kg:
            continue
        sure = _harder(rungs[-1].effective, left) if rungs else 1.0
        rungs.append(Rung(loaded=loaded, effective=left, harder=sure))
    return tuple(rungs)


def _harder(before: Effective, after: Effective) -> float:
    spread = math.hypot(before.sd_kg, after.sd_kg)
    if spread == 0:
        return 1.0 if after.kg > before.kg else 0.0
    return 0.5 * (1 + math.erf((after.kg - before.kg) / spread / math.sqrt(2)))
