"""What minutes are made of, the rule, her pace and how sure they are: what opens behind them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from itertools import pairwise

from pennate.core.card import Card, CardStop
from pennate.core.evidence.dose import CHANGEOVER_S, SET_UP_S
from pennate.core.facts import Facts
from pennate.core.plural import plural
from pennate.core.quantities import format_number
from pennate.core.week_time import Minutes, Pace

RULE = (
    "the reps at each exercise’s speed or the tempo asked,"
    f" {format_number(SET_UP_S)} s to take position, the rests asked, ramp sets, plates put on, and"
    f" {format_number(CHANGEOVER_S)} s from one exercise to the next; times your pace"
)
AS_OF_NOW = (
    "It is your pace as known now, so an older session may have been planned with other minutes."
)
HOW_SURE = "a day’s range is to hold nine sessions in ten"
TAUGHT = "; how wide it is, your own sessions taught"
NOT_TAUGHT = "; how wide it is, is from memory until your own sessions tell"
SOURCE = "the clock of your sets in the last weeks; constants and sources: pennate evidence minutes"


def pace_words(pace: Pace) -> str:
    """How minutes were calibrated, in a sentence."""
    if not pace.sessions:
        return "Minutes are the time model’s; your sessions will teach it your pace."
    times = f"{pace.factor:.2f} times the time model’s"
    return f"Minutes are {times}, learned from the clock of {plural(pace.sessions, 'session')}."


def minutes_facts(told: str, made: str, pace: Pace) -> Facts:
    """The figure, what it is made of, rule, pace, doubt and source."""
    return (
        ("minutes", told),
        *((("made of", made),) if made else ()),
        ("rule", RULE),
        ("your pace", pace_words(pace)),
        ("how sure", HOW_SURE + (TAUGHT if pace.sessions else NOT_TAUGHT)),
        ("source", SOURCE),
    )


def span_words(minutes: Minutes) -> str:
    """“43, within 36 to 52”."""
    return f"{minutes.value:.0f}, within {minutes.low:.0f} to {minutes.high:.0f}"


def whole_minutes(minutes: Iterable[Minutes]) -> int:
    """Minutes of several days: the sum of each as it is shown, so that it adds up on the page."""
    return sum(round(one.value) for one in minutes)


def week_minutes_facts(minutes: Mapping[str, Minutes], pace: Pace) -> Facts:
    """Those of a week: each day, and their sum."""
    days = ", ".join(f"{day} {one.value:.0f}" for day, one in minutes.items())
    return minutes_facts(str(whole_minutes(minutes.values())), days, pace)


def day_minutes_facts(minutes: Minutes, pace: Pace) -> Facts:
    """Those of a planned day, whose sets and rests stand beside them."""
    return minutes_facts(span_words(minutes), "the sets of this day with their rests", pace)


def card_minutes_facts(card: Card, runs: Sequence[Sequence[CardStop]], pace: Pace) -> Facts:
    """Those of a session: every stop from the minute it begins to the next one's."""
    minutes = Minutes(card.minutes, card.minutes_low, card.minutes_high)
    return minutes_facts(span_words(minutes), _stops(card, runs), pace)


def past_minutes_facts(card: Card, runs: Sequence[Sequence[CardStop]], pace: Pace) -> Facts:
    """Those of a session looked back on, beside the minutes it took."""
    told = dict(card_minutes_facts(card, runs, pace))
    planned = {"planned": told.pop("minutes"), **told}
    planned["your pace"] += f" {AS_OF_NOW}"
    return (("taken", "from the first set logged to the last, warm-ups too"), *planned.items())


def _stops(card: Card, runs: Sequence[Sequence[CardStop]]) -> str:
    """“before the first 1, Hip thrust 12, …”, by the minutes at which the stops begin."""
    begins = [round(run[0].starts_at_min) for run in runs]
    ends = pairwise([*begins, round(card.minutes)])
    told = [
        f"{' with '.join(stop.name for stop in run)} {until - since}"
        for run, (since, until) in zip(runs, ends, strict=True)
    ]
    first = [f"before the first {begins[0]}"] if begins and begins[0] else []
    return ", ".join([*first, *told])
