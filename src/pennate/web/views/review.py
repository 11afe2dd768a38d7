"""After the session: what was learned, what changes next time; never a grade."""

from __future__ import annotations

import math
from dataclasses import dataclass

from pennate.app.review import Learned, NextTime, SessionReview
from pennate.web.words import minutes_words, plural

SURE = 0.99
SD_80 = 1.2816
"""Standard deviations either side that hold 80 % of a normal distribution."""


@dataclass(frozen=True, slots=True)
class Change:
    """One exercise next time."""

    exercise: str
    name: str
    words: str
    reason: str
    how_sure: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ReviewView:
    """What the review shows."""

    day: str
    title: str
    about: str
    day_words: str
    learned: tuple[tuple[str, str, str], ...]
    """Exercise id, name, and what its sets said."""
    changes: tuple[Change, ...]
    finished: bool
    note: str
    foot: str


def review_view(done: SessionReview) -> ReviewView:
    """The page of a finished or running session."""
    about = [f"{done.sets_done} of {plural(done.sets_asked, 'working set')}"]
    if done.minutes is not None:
        about.append(f"{minutes_words(done.minutes)}, thought {minutes_words(done.minutes_asked)}")
    return ReviewView(
        day=done.day.isoformat(),
        title=f"{done.session.capitalize()}, looked back on",
        about=" · ".join(about),
        day_words=_day_words(done.day_effect),
        learned=tuple((one.exercise, one.name, _learned_words(one)) for one in done.learned),
        changes=tuple(_change(one) for one in done.next_time),
        finished=done.finished,
        note=done.note,
        foot="closes the session; every set stays as it is",
    )


def _day_words(effect: tuple[float, float] | None) -> str:
    """How the day ran, only where it stands out from its own uncertainty."""
    if effect is None:
        return ""
    mean, sd = effect
    low, high = (math.expm1(mean + side * SD_80 * sd) for side in (-1, 1))
    if low <= 0 <= high:
        return "A day like others, as far as the sets can tell."
    side = "over" if mean > 0 else "under"
    ends = sorted((abs(low), abs(high)))
    return (
        f"The day ran about {abs(math.expm1(mean)):.0%} {side} what was likely (between"
        f" {ends[0]:.0%} and {ends[1]:.0%}). That is the day, and no loss or gain by itself."
    )


def _learned_words(one: Learned) -> str:
    spread = math.expm1(SD_80 * one.after.sd_log)
    moved = one.change
    words = f"about {one.after.one_rep_kg:.0f} kg for one rep, give or take {spread:.0%}"
    if abs(moved) * 100 >= 1:
        words += f"; {abs(moved):.0%} {'up' if moved > 0 else 'down'} by {plural(one.sets, 'set')}"
    return words


def _change(one: NextTime) -> Change:
    words = f"{one.load_next}, {one.change}" if one.change != "new" else f"{one.load_next}, new"
    if one.change in {"heavier", "lighter"}:
        words += f" than {one.load_now}"
    reason = f"{one.why[0].upper()}{one.why[1:]}." if one.why else ""
    return Change(one.exercise, one.name, words, reason, _chance_words(one.chance))


def _chance_words(chance: float | None) -> str:
    """How likely the low end of the range is; never a certainty."""
    if chance is None:
        return ""
    shown = "over 99%" if chance > SURE else f"{chance:.0%}"
    return f"Its low end is {shown} likely."
