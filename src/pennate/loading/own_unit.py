"""Two units in one gym: what she loads stays in hers, and the other stands in where hers has none.

A preference of candidates, not of weights: whether a load of the other unit may be taken at
all. Among those that may, the cheapest sequence is found as ever, so it stays proven.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence

from pennate.core.evidence.loading import OWN_UNIT_NEAR
from pennate.core.loaded import Loaded
from pennate.core.performed import SetKind
from pennate.core.quantities import Unit
from pennate.loading.effort import Target

_SAME = 1e-9


def in_unit(rungs: Sequence[Loaded], own: Unit | None, body_kg: float = 0.0) -> tuple[Loaded, ...]:
    """The loads of her unit, and those of the other that none of hers is near.

    Near by what is moved in all, `body_kg` with it.

    What has no unit (nothing on, bands, both at once) stands in any. With None, or where
    nothing is marked in her unit, all stay.
    """
    if own is None or not any(rung.unit is own for rung in rungs):
        return tuple(rungs)
    hers = [rung.felt_kg + body_kg for rung in rungs if rung.unit in (own, None)]
    return tuple(
        rung
        for rung in rungs
        if rung.unit in (own, None) or not _any_near(hers, rung.felt_kg + body_kg)
    )


def suffices(
    felt: Sequence[float], targets: Sequence[Target], own: Unit, body_kg: float = 0.0
) -> bool:
    """Whether her unit, which makes these felt loads (ascending), serves all these targets.

    Ramp sets may lie anywhere. A load that was asked in the other unit is not made by hers.
    """
    moved = [one + body_kg for one in felt]
    return all(
        target.unit in (own, None) and _reached(moved, target, body_kg)
        for target in targets
        if target.kind is not SetKind.WARM_UP
    )


def _reached(moved: Sequence[float], target: Target, body_kg: float) -> bool:
    """Whether a load is near; where it must be no heavier, one below, or the lightest."""
    wanted = target.felt_kg + body_kg
    if not target.ceiling:
        return _any_near(moved, wanted)
    below = [one for one in moved if one <= wanted + _SAME]
    return not below or _near(below[-1], wanted)


def _any_near(moved: Sequence[float], kg: float) -> bool:
    place = bisect_left(moved, kg)
    return any(_near(one, kg) for one in moved[max(0, place - 1) : place + 1])


def _near(one: float, kg: float) -> bool:
    return abs(one - kg) <= OWN_UNIT_NEAR * abs(kg) + _SAME
