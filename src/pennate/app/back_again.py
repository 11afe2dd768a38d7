"""The first session back with an exercise after four weeks or more: lighter, short of failure."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace
from datetime import date

from pennate.core.cautions import Limits
from pennate.core.evidence.body_recovery import RETURN_SETS
from pennate.core.evidence.safety import BACK_RESERVE, NEW_AGAIN_DAYS
from pennate.core.performed import PerformedSet, SetKind
from pennate.core.plural import plural
from pennate.core.prescribed import PrescribedExercise, PrescribedSets


def days_away(sets: Iterable[PerformedSet], today: date) -> int:
    """Days since the last of an exercise's sets before today; 0 within four weeks or if never."""
    before = [done.day for done in sets if done.day < today]
    days = (today - max(before)).days if before else 0
    return days if days >= NEW_AGAIN_DAYS else 0


def gently(asked: PrescribedExercise) -> PrescribedExercise:
    """Half of the sets of every kind, and no drops; blocks keep their places."""
    return replace(asked, sets=tuple(_fewer(sets) for sets in asked.sets))


def _fewer(sets: PrescribedSets) -> PrescribedSets:
    if sets.kind is SetKind.WARM_UP:
        return sets
    share = 0.0 if sets.kind is SetKind.DROP else float(RETURN_SETS)
    return replace(sets, count=math.ceil(sets.count * share))


def gentle(limits: Limits) -> Limits:
    """The limits of her health, and never to failure on the first session back."""
    reserve = max(limits.least_reserve, int(BACK_RESERVE))
    return replace(limits, least_reserve=reserve, failure=False)


def back_words(days: int, reserve: int, *, lighter: bool, fewer: bool) -> str:
    """“5 weeks since the last time: lighter, fewer sets and 2 left today”."""
    said = [word for word, so in (("lighter", lighter), ("fewer sets", fewer)) if so]
    kept = f"{reserve} left today"
    changed = f"{', '.join(said)} and {kept}" if said else kept
    return f"{plural(days // 7, 'week')} since the last time: {changed}"


def back_in_all(days: int) -> str:
    """What holds for all exercises that were away for so many days at least."""
    since = f"{plural(days // 7, 'week')} or more since the last time"
    return (
        f"{since}: no load above last time’s, fewer sets and {int(BACK_RESERVE)} or more left today"
    )
