"""Recovery: her own relation of sleep and form, layoffs, and when a lighter week is due."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from math import erf, exp, sqrt

from pennate.core.evidence.body_recovery import (
    CYCLE_EFFECT_SPREAD,
    DROP_CERTAINTY,
    DROP_THAT_COUNTS,
    LAYOFF_FREE_WEEKS,
    LAYOFF_LOSS_HIGH,
    LAYOFF_LOSS_LOW,
    LAYOFF_MOST_LOSS,
    LEAST_MARKED,
    NEW_WORK_WEEKS,
    RETURN_SETS,
    RETURN_SETS_LATER,
    SESSION_SPREAD,
    SLEEP_PRIOR,
    SLEEP_PRIOR_SPREAD,
)
from pennate.core.evidence.safety import BACK_RESERVE, NEW_CARE_DAYS
from pennate.core.percent import percent
from pennate.core.plural import plural

_95 = 1.96  # number: two-sided 95 % of a normal
_SPREAD_WORTH = 10  # number: sessions the prior spread is worth


@dataclass(frozen=True, slots=True)
class Form:
    """A session's strength against what was expected of it, log units."""

    day: date
    surprise: float
    """Positive: better than expected."""
    marked: bool = False
    """Whether what is asked about (short sleep, a stretch of the cycle) was so."""
    error: float = 0.0
    """Standard deviation of what the session's own sets cannot tell of the surprise."""


@dataclass(frozen=True, slots=True)
class Effect:
    """What her own log says of a mark, shrunk to the prior, log units."""

    mean: float
    low95: float
    high95: float
    marked: int
    others: int

    @property
    def shown(self) -> bool:
        """Whether enough sessions leave out nought: only then it may be spoken of."""
        if min(self.marked, self.others) < LEAST_MARKED:
            return False
        return self.low95 > 0 or self.high95 < 0


def sleep_effect(sessions: Sequence[Form]) -> Effect:
    """Her own effect of short sleep on strength."""
    return _effect(sessions, SLEEP_PRIOR, SLEEP_PRIOR_SPREAD)


def report_effect(sessions: Sequence[Form]) -> Effect:
    """Her own effect of what she reports before a session (low energy, soreness) on strength."""
    return _effect(sessions, 0.0, SLEEP_PRIOR_SPREAD)


def cycle_effect(sessions: Sequence[Form]) -> Effect:
    """Her own effect of a marked stretch of the cycle; nought until her log shows one."""
    return _effect(sessions, 0.0, CYCLE_EFFECT_SPREAD)


def _effect(sessions: Sequence[Form], prior: float, spread: float) -> Effect:
    marked = [form for form in sessions if form.marked]
    others = [form for form in sessions if not form.marked]
    if not marked or not others:
        return Effect(prior, prior - _95 * spread, prior + _95 * spread, len(marked), len(others))
    seen, error2 = _apart(marked, others)
    share = spread**2 / (spread**2 + error2)
    mean, sd = prior + share * (seen - prior), sqrt(share * error2)
    return Effect(mean, mean - _95 * sd, mean + _95 * sd, len(marked), len(others))


def _apart(one: Sequence[Form], other: Sequence[Form]) -> tuple[float, float]:
    """Difference of the mean surprises of two groups, and its error variance.

    A session counts by what its sets can tell. What sessions scatter beyond that is drawn to
    what is usual.
    """
    spread2 = SESSION_SPREAD**2
    for _ in range(_ROUNDS):
        squares = sum(_squares(group, spread2) for group in (one, other))
        freedom = len(one) + len(other) - 2
        usual = _SPREAD_WORTH * SESSION_SPREAD**2
        spread2 = (spread2 * squares + usual) / (freedom + _SPREAD_WORTH)
    first, second = (_mean(group, spread2) for group in (one, other))
    error2 = sum(1 / sum(_weights(group, spread2)) for group in (one, other))
    return first - second, error2


_ROUNDS = 6  # number: rounds until the spread of sessions agrees with their scatter


def _weights(group: Sequence[Form], spread2: float) -> list[float]:
    return [1 / (spread2 + form.error**2) for form in group]


def _mean(group: Sequence[Form], spread2: float) -> float:
    weights = _weights(group, spread2)
    pairs = zip(weights, group, strict=True)
    return sum(weight * form.surprise for weight, form in pairs) / sum(weights)


def _squares(group: Sequence[Form], spread2: float) -> float:
    """Squared departures from the group's mean, each over what it is expected to be."""
    centre, weights = _mean(group, spread2), _weights(group, spread2)
    pairs = zip(weights, group, strict=True)
    return sum(weight * (form.surprise - centre) ** 2 for weight, form in pairs)


@dataclass(frozen=True, slots=True)
class LayoffReturn:
    """Back after a pause: share of the former strength (range) and of the former sets."""

    load_low: float
    load_high: float
    sets: float
    say: str
    ill: bool = False
    """After an illness rather than days off."""


def layoff_return(days_off: int, days_in: int = 0) -> LayoffReturn | None:
    """How to come back after days off, so many days into it; None where nothing changes."""
    weeks = days_off / 7
    if weeks <= LAYOFF_FREE_WEEKS:
        return None
    beyond = weeks - LAYOFF_FREE_WEEKS
    worst = exp(-min(LAYOFF_MOST_LOSS, LAYOFF_LOSS_HIGH * beyond))
    best = exp(-min(LAYOFF_MOST_LOSS, LAYOFF_LOSS_LOW * beyond))
    gently = weeks >= NEW_WORK_WEEKS
    if days_in and (not gently or days_in >= NEW_CARE_DAYS):
        return None
    share = float(RETURN_SETS_LATER if days_in >= _WEEK else RETURN_SETS) if gently else 1.0
    off = plural(int(weeks), "week")
    if days_in:
        second = "second" if days_in >= _WEEK else "first"
        say = f"{second.capitalize()} week back after {off}: {_gently(share)}."
    else:
        say = (
            f"{off} off: usually {percent(worst)} to {percent(best)} of strength is left; "
            "the first sets will tell."
        )
        say += f" First week back: {_gently(share)}. {_LOWER_STILL}" if gently else ""
    return LayoffReturn(worst, best, share, say)


def illness_return(day: int, of: int) -> LayoffReturn:
    """How the easy days after an illness differ; `of` one where she is ill now."""
    share = float(RETURN_SETS_LATER if day > _WEEK else RETURN_SETS)
    now = "Ill today: none with fever; with a cold alone, if you train at all"
    when = f"Day {day} of {of} of easing in after illness" if of > 1 else now
    say = f"{when}: about {percent(share)} of your usual sets, {int(BACK_RESERVE)} or more left."
    return LayoffReturn(1.0, 1.0, share, say, ill=True)


_WEEK = 7
_LOWER_STILL = (
    "No load is above last time’s, and some fall by more than that: sets stop short of failure, "
    "and a load beside your own body weight gives way for both."
)


def _gently(share: float) -> str:
    return (
        f"about {percent(share)} of your usual sets, {int(BACK_RESERVE)} or more left in each, "
        "because soreness is greatest after a pause"
    )


@dataclass(frozen=True, slots=True)
class LighterWeek:
    """A lighter week suggested, with the evidence from her own log."""

    drop: float
    """Her strength against the weeks before, log units (negative)."""
    certainty: float
    say: str


RECENT_DAYS = 14  # number: the stretch judged
BEFORE_DAYS = 56  # number: the stretch it is judged against
FEWEST = 4  # number: sessions needed in each stretch


@dataclass(frozen=True, slots=True)
class Fortnight:
    """Her strength in the last two weeks against the six before."""

    recent: int
    """Sessions in the stretch judged."""
    before: int
    drop: float | None
    """Change of strength, log units; None before there are sessions enough in both."""
    certainty: float
    """Probability that the fall is one that counts."""


def fortnight(sessions: Sequence[Form], today: date) -> Fortnight:
    """How her strength of late compares with the weeks before."""
    edge, start = today - timedelta(days=RECENT_DAYS), today - timedelta(days=BEFORE_DAYS)
    recent = [form for form in sessions if edge < form.day <= today]
    before = [form for form in sessions if start < form.day <= edge]
    if min(len(recent), len(before)) < FEWEST:
        return Fortnight(len(recent), len(before), None, 0.0)
    drop, error2 = _apart(recent, before)
    certainty = 0.5 * (1 - erf((drop + DROP_THAT_COUNTS) / sqrt(error2) / sqrt(2)))
    return Fortnight(len(recent), len(before), drop, certainty)


def lighter_week(sessions: Sequence[Form], today: date, *, complaint: bool) -> LighterWeek | None:
    """A lighter week, only when her own strength has fallen and she says so too.

    `sessions` hold her strength, not the day's surprise alone: the model follows a lasting
    fall, and would no longer be surprised by it. `complaint`: she reports low energy, short
    sleep or rising joint pain in these weeks. Soreness or mood alone is no reason, and no
    calendar is.
    """
    seen = fortnight(sessions, today)
    if not complaint or seen.drop is None or seen.certainty < DROP_CERTAINTY:
        return None
    return LighterWeek(
        seen.drop,
        seen.certainty,
        f"Your last {seen.recent} sessions were {percent(-seen.drop)} weaker than the weeks "
        "before, and you report it too: take a week with half of the sets, keep the loads "
        "moderate.",
    )
