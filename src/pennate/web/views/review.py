"""After the session: what was learned, what changes next time; never a grade."""

from __future__ import annotations

from dataclasses import dataclass

from pennate.app.minutes_told import past_minutes_facts
from pennate.app.review import Learned, NextTime, SessionReview
from pennate.app.review_text import interval
from pennate.core import percent
from pennate.core.facts import Facts
from pennate.core.load_words import NO_LOAD
from pennate.core.plural import plural
from pennate.estimate.explain import day_words
from pennate.web.views.line import runs_of
from pennate.web.words import minutes_words


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
    minutes: Facts
    """What the minutes planned are made of, where any are told."""
    day_words: str
    learned: tuple[tuple[str, str, str], ...]
    """Exercise id, name, and what its sets said."""
    changes: tuple[Change, ...]
    finished: bool
    open: bool
    """Whether the Floor still has a set to go on with."""
    note: str
    foot: str


def review_view(done: SessionReview) -> ReviewView:
    """The page of a finished or running session."""
    about = [f"{done.sets_done} of {plural(done.sets_asked, 'working set')}"]
    if done.minutes is not None:
        about.append(f"{minutes_words(done.minutes)}, planned {minutes_words(done.minutes_asked)}")
    return ReviewView(
        day=done.day.isoformat(),
        title=f"{done.session.capitalize()}: looking back",
        about=" · ".join(about),
        minutes=()
        if done.minutes is None
        else past_minutes_facts(done.card, runs_of(done.card), done.pace),
        day_words=_sentence(day_words(done.day_effect)) if done.day_effect else "",
        learned=tuple((one.exercise, one.name, _learned_words(one)) for one in done.learned),
        changes=tuple(_change(one) for one in done.next_time),
        finished=done.finished,
        open=done.open,
        note=done.note,
        foot="closes the session; every set stays as it is",
    )


def _learned_words(one: Learned) -> str:
    if one.without_load == one.sets:
        return f"{NO_LOAD}, so nothing was learned"
    low, high = interval(one)
    words = f"about {one.after.one_rep_kg:.0f} kg 1RM ({low:.0f}–{high:.0f})"
    if one.new:
        words += "; its first sets so, no change can be told yet"
    elif abs(one.change) * 100 >= 1:
        way = "up" if one.change > 0 else "down"
        words += f"; {percent.percent(abs(one.change))} {way} by {plural(one.sets, 'set')}"
    return words


def _change(one: NextTime) -> Change:
    words = f"{one.load_next}, {one.change}" if one.change != "new" else f"{one.load_next}, new"
    if one.change in {"heavier", "lighter"}:
        words += f" than {one.load_now}"
    return Change(one.exercise, one.name, words, _sentence(one.why), _chance_words(one.chance))


def _sentence(words: str) -> str:
    return f"{words[0].upper()}{words[1:]}." if words else ""


def _chance_words(chance: float | None) -> str:
    """How likely the low end of the range is; never a certainty."""
    if chance is None:
        return ""
    return f"Its low end in every set has a chance of {percent.chance(chance)}."
