"""A session's review as lines to read and as a JSON document."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

from pennate.app.review import Learned, NextTime, SessionReview
from pennate.core.evidence.session import Z_80
from pennate.core.load_words import NO_LOAD
from pennate.core.percent import chance as chance_words
from pennate.core.percent import signed_percent
from pennate.estimate.explain import day_words


def learned_words(one: Learned) -> str:
    """What an exercise's sets said about its strength."""
    if one.without_load == one.sets:
        return f"{one.name}: {NO_LOAD}, so nothing was learned"
    low, high = interval(one)
    text = f"{one.name}: one rep about {one.after.one_rep_kg:.0f} kg felt ({low:.0f}–{high:.0f})"
    some = f"; {NO_LOAD} in {one.without_load} of {one.sets} sets" if one.without_load else ""
    if one.new:
        return f"{text}, by its first sets so; no change can be told yet{some}"
    if abs(one.change) < 0.005:
        return f"{text}, as believed before{some}"
    return f"{text}, {signed_percent(one.change)} from what was believed before{some}"


def interval(one: Learned) -> tuple[float, float]:
    """80 % interval of the one-rep load after the session, in felt kilograms."""
    spread = math.exp(Z_80 * one.after.sd_log)
    return one.after.one_rep_kg / spread, one.after.one_rep_kg * spread


def next_words(one: NextTime) -> str:
    """What comes next time, with its chance and rule."""
    chance = (
        f", a chance of {chance_words(one.chance)} for the low end in every set"
        if one.chance is not None
        else ""
    )
    change = "the same" if one.change == "the same" else one.change
    return f"{one.name}: {one.load_next} ({change}{chance}); {one.why}"


def review_lines(found: SessionReview) -> Iterator[str]:
    """The review for a terminal."""
    state = "closed" if found.finished else "still open" if found.open else "every set done"
    sets = f"{found.sets_done} of {found.sets_asked} sets"
    yield f"{found.session.capitalize()}, {found.day}: {sets}, {state}"
    if found.minutes is not None:
        took = f"{found.minutes:.0f} min between first and last set"
        yield f"{took}; {found.minutes_asked:.0f} planned, at your pace of now"
    if found.day_effect is not None:
        yield f"Strength: {day_words(found.day_effect)}"
    if found.note:
        yield f"Your note: {found.note}"
    if found.learned:
        yield ""
        yield "What was learned"
        yield from (f"  {learned_words(one)}" for one in found.learned)
    if found.next_time:
        yield ""
        yield "Next time"
        yield from (f"  {next_words(one)}" for one in found.next_time)


def review_document(found: SessionReview) -> dict[str, Any]:
    """The review as JSON values."""
    return {
        "day": found.day.isoformat(),
        "session": found.session,
        "finished": found.finished,
        "sets_done": found.sets_done,
        "sets_asked": found.sets_asked,
        "minutes": found.minutes,
        "minutes_planned": found.minutes_asked,
        "day_effect": found.day_effect,
        "note": found.note,
        "learned": [
            {
                "exercise": one.exercise,
                "one_rep_kg": one.after.one_rep_kg,
                "low80": interval(one)[0],
                "high80": interval(one)[1],
                "change": None if one.new else one.change,
                "sets": one.sets,
                "without_load": one.without_load,
            }
            for one in found.learned
        ],
        "next": [
            {
                "exercise": one.exercise,
                "load_now": one.load_now,
                "load_next": one.load_next,
                "change": one.change,
                "chance": one.chance,
                "why": one.why,
            }
            for one in found.next_time
        ],
    }
