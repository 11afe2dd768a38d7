"""Back after four weeks or more: lighter, with fewer sets, short of failure, for two weeks."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from itertools import pairwise

from pennate.core.cautions import Limits
from pennate.core.evidence.body_recovery import (
    LAYOFF_FREE_WEEKS,
    RETURN_SETS,
    RETURN_SETS_LATER,
)
from pennate.core.evidence.safety import BACK_RESERVE, NEW_AGAIN_DAYS, NEW_CARE_DAYS
from pennate.core.history import History
from pennate.core.performed import PerformedSet, SetKind
from pennate.core.plural import plural
from pennate.core.prescribed import PrescribedExercise, PrescribedSets
from pennate.estimate import NextStep, Step

WEEK = 7


@dataclass(frozen=True, slots=True)
class Easing:
    """A day of the easy ones after an illness; the only one where she is ill now."""

    day: int
    of: int

    @property
    def left(self) -> int:
        """Easy days still to come."""
        return self.of - self.day


@dataclass(frozen=True, slots=True)
class Pause:
    """A break from all training, of four weeks or more or an illness, and the days since."""

    days: int
    """From the last day before it to the first after it, or to today."""
    days_in: int
    """Days since the first day after it; 0 where that is today."""
    easing: Easing | None = None
    """Where it was an illness."""


@dataclass(frozen=True, slots=True)
class Back:
    """How an exercise is come back to."""

    days: int
    """Days that it, or all training, was away."""
    first_time: bool
    """It was not done since."""
    second_week: bool
    """The first week back is over."""
    easing: Easing | None = None
    """Where it was an illness."""


def pause_before(history: History, today: date) -> Pause | None:
    """The pause she comes back from: it ends today, or ended within two weeks."""
    before = history.before(today)
    if not len(before):
        return None
    if (off := (today - before.sets[-1].day).days) >= NEW_AGAIN_DAYS:
        return Pause(off, 0)
    lately = before.since(today - timedelta(days=int(NEW_CARE_DAYS) - 1))
    older = before.sets[: len(before) - len(lately)]
    days = [done.day for done in (*older[-1:], *lately)]
    ends = [(a, b) for a, b in pairwise(days) if (b - a).days >= NEW_AGAIN_DAYS]
    return Pause((ends[-1][1] - ends[-1][0]).days, (today - ends[-1][1]).days) if ends else None


def weeks_away(history: History, since: date, today: date) -> int:
    """Whole weeks of pauses since a day: they are no weeks of a programme."""
    trained = [done.day for done in history.since(since).before(today)]
    gaps = ((later - day).days for day, later in pairwise((since, *trained, today)))
    return sum(gap // WEEK for gap in gaps if gap >= NEW_AGAIN_DAYS)


def back_at(sets: Iterable[PerformedSet], pause: Pause | None, today: date) -> Back | None:
    """How an exercise of these sets is come back to; None where it is done as usual."""
    if days := days_away(sets, today):
        return Back(days, first_time=True, second_week=False)
    if pause is None:
        return None
    return Back(
        pause.days, first_time=False, second_week=pause.days_in >= WEEK, easing=pause.easing
    )


def days_away(sets: Iterable[PerformedSet], today: date) -> int:
    """Days since the last of an exercise's sets before today; 0 within four weeks or if never."""
    before = [done.day for done in sets if done.day < today]
    days = (today - max(before)).days if before else 0
    return days if days >= NEW_AGAIN_DAYS else 0


def rested(sets: Sequence[PerformedSet], today: date) -> bool:
    """Whether an exercise was away so long that strength may be lost: then nothing is a stall."""
    return bool(sets) and (today - sets[-1].day).days > WEEK * LAYOFF_FREE_WEEKS


def after_rest(judged: NextStep, sets: Sequence[PerformedSet], today: date) -> NextStep:
    """A step judged from before a rest: nothing more, and no swap, until sets have told anew."""
    if judged.step not in {Step.MORE_SETS, Step.SWAP} or not rested(sets, today):
        return judged
    weeks = plural((today - sets[-1].day).days // WEEK, "week")
    reason = f"{weeks} since the last time; the first sets back will tell"
    return replace(judged, step=Step.HOLD, reason=reason)


def gently(asked: PrescribedExercise, back: Back) -> PrescribedExercise:
    """Half of the sets of every kind, later three quarters; no drops; blocks keep their places."""
    return replace(asked, sets=tuple(_fewer(sets, back) for sets in asked.sets))


def _fewer(sets: PrescribedSets, back: Back) -> PrescribedSets:
    if sets.kind is SetKind.WARM_UP:
        return sets
    if sets.kind is SetKind.DROP:
        return replace(sets, count=0)
    if back.second_week:
        return replace(sets, count=max(1, math.floor(sets.count * RETURN_SETS_LATER)))
    return replace(sets, count=math.ceil(sets.count * RETURN_SETS))


def gentle(limits: Limits) -> Limits:
    """The limits of her health, and never to failure in the first two weeks back."""
    reserve = max(limits.least_reserve, int(BACK_RESERVE))
    return replace(limits, least_reserve=reserve, failure=False)


def back_words(back: Back, reserve: int, *, lighter: bool, fewer: bool) -> str:
    """“5 weeks since the last time: lighter, fewer sets and 2 left today”."""
    said = [word for word, so in (("lighter", lighter), ("fewer sets", fewer)) if so]
    kept = f"{reserve} left today"
    changed = f"{', '.join(said)} and {kept}" if said else kept
    return f"{_since(back)}: {changed}"


_ILL_NOW = "ill today, if you train at all"


def _since(back: Back) -> str:
    if back.easing is not None:
        day, of = back.easing.day, back.easing.of
        return f"easing in after illness, day {day} of {of}" if of > 1 else _ILL_NOW
    weeks = plural(back.days // WEEK, "week")
    if back.first_time:
        return f"{weeks} since the last time"
    return f"{'second' if back.second_week else 'first'} week back after {weeks}"


def back_in_all(back: Back) -> str:
    """What holds for all exercises come back to alike, that were away so long at least."""
    if back.second_week:
        return f"{_since(back)}: fewer sets and {int(BACK_RESERVE)} or more left today"
    since = _since(back)
    if back.first_time:
        since = since.replace(" since", " or more since")
    return (
        f"{since}: no load above last time’s, fewer sets and {int(BACK_RESERVE)} or more left today"
    )
