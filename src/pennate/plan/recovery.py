"""Hours since the last hard sets, and the reps a set would lose if trained now."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from pennate.core.evidence.audit import RECOVERY_HALF_H, REPS_LOST_MULTI, REPS_LOST_SINGLE
from pennate.core.evidence.plan import HARD_DAY_DOSE
from pennate.core.muscles import Group
from pennate.core.week_dose import HOURS_A_DAY

USUAL_BOUT = 3.0
"""Sets to failure in the studies of recovery (Korak 2015: three)."""


def reps_lost(hours: float, dose: float, *, multi: bool) -> float:
    """Reps a set expected to be missing this long after a dose taken near failure.

    The published loss at 24 h, fading by half each `RECOVERY_HALF_H`; a dose below the
    studied three sets counts in proportion, one above it no more.
    """
    at_a_day = REPS_LOST_MULTI if multi else REPS_LOST_SINGLE
    fade = 0.5 ** ((hours - HOURS_A_DAY) / RECOVERY_HALF_H)
    return float(at_a_day * min(1.0, dose / USUAL_BOUT) * min(fade, 2.0))


@dataclass(frozen=True, slots=True)
class Recovery:
    """How a group stands now."""

    group: Group
    hours: float | None
    """Since its last hard sets; None if none are known."""
    reps_lost: float


def recovery(now: datetime, last: Mapping[Group, tuple[datetime, float]]) -> tuple[Recovery, ...]:
    """Each group's hours since its last hard sets (time and dose) and the reps lost now."""
    found = []
    for group in Group:
        when, dose = last.get(group, (None, 0.0))
        if when is None or dose < HARD_DAY_DOSE:
            found.append(Recovery(group, None, 0.0))
            continue
        hours = (now - when).total_seconds() / (60 * 60)
        found.append(Recovery(group, hours, reps_lost(hours, dose, multi=True)))
    return tuple(found)
