"""Hours since the last hard sets, and the reps a set would lose if trained now.

Within a session the strength model's own fatigue counts, and it is gone within the hour.
What is left the next day has only the published time course, the same for every lifter.
"""

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
MOST_FADE = 2.0
"""At once after a session at most twice the published loss of a day later."""


@dataclass(frozen=True, slots=True)
class Bout:
    """The last hard sets of a group: when, how many, and their share from multi-joint lifts."""

    when: datetime
    dose: float
    multi: float = 1.0


def reps_lost(hours: float, dose: float, *, multi: float = 1.0) -> float:
    """Reps a set expected to be missing this long after a dose taken near failure.

    The published loss at 24 h, fading by half each `RECOVERY_HALF_H`; a dose below the
    studied three sets counts in proportion, one above it no more. `multi` is the share of
    the dose from multi-joint lifts, which lose more.
    """
    at_a_day = multi * REPS_LOST_MULTI + (1 - multi) * REPS_LOST_SINGLE
    fade = 0.5 ** ((hours - HOURS_A_DAY) / RECOVERY_HALF_H)
    return float(at_a_day * min(1.0, dose / USUAL_BOUT) * min(fade, MOST_FADE))


@dataclass(frozen=True, slots=True)
class Recovery:
    """How a group stands at a moment."""

    group: Group
    hours: float | None
    """Since its last hard sets; None if none are known."""
    reps_lost: float
    dose: float = 0.0
    """Hard sets of the bout that counts most."""


def recovery(now: datetime, bouts: Mapping[Group, tuple[Bout, ...]]) -> tuple[Recovery, ...]:
    """Each group's hours since its last hard sets, and the reps lost now.

    Bouts below `HARD_DAY_DOSE` are no hard sets; of several the one that costs most counts.
    """
    found = []
    for group in Group:
        hard = [one for one in bouts.get(group, ()) if one.dose >= HARD_DAY_DOSE]
        if not hard:
            found.append(Recovery(group, None, 0.0))
            continue
        lost = [(reps_lost(_hours(one, now), one.dose, multi=one.multi), one.dose) for one in hard]
        worst = max(lost)
        found.append(Recovery(group, min(_hours(one, now) for one in hard), worst[0], worst[1]))
    return tuple(found)


def _hours(bout: Bout, now: datetime) -> float:
    return max(0.0, (now - bout.when).total_seconds() / (60 * 60))
