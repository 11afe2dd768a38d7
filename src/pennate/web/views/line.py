"""The session line of the Today page: stops with their words and small drawings."""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import groupby

from markupsafe import Markup

from pennate.core.card import Card, CardSet, CardStop, SetState
from pennate.core.performed import SetKind, Side
from pennate.core.plural import plural
from pennate.sheets.line import Standing, Stop, Stroke, stop_svg
from pennate.web.views.floor import before_loading
from pennate.web.words import done_lines, minutes_words, stop_lines


@dataclass(frozen=True, slots=True)
class PartWords:
    """One exercise at a stop, in words."""

    index: int
    exercise: str
    name: str
    lines: tuple[str, ...]
    cautions: tuple[str, ...]
    replaced: str
    standing: str
    state: str
    """That it is done, or why it is not; empty while it is open."""


@dataclass(frozen=True, slots=True)
class LineStop:
    """One stop of the line: a drawing, the minute it begins, and its exercises."""

    at: str
    drawing: Markup
    parts: tuple[PartWords, ...]
    standing: str
    braided: bool
    together: str
    """How a superset is done; empty otherwise."""


def runs_of(card: Card) -> list[list[CardStop]]:
    """The stops of a card; neighbours with the same superset mark are one."""
    runs: list[list[CardStop]] = []
    for mark, group in groupby(card.stops, key=lambda stop: stop.superset):
        members = list(group)
        runs.extend([members] if mark else [[stop] for stop in members])
    return runs


def line_of(card: Card, skipped: Collection[int] = ()) -> tuple[LineStop, ...]:
    """The session line of a card as it stands; what she did not skip is left out for time."""
    return tuple(_stop(run, card.next_key, skipped) for run in runs_of(card))


def marked_drawing(run: Sequence[CardStop]) -> str:
    """A stop's drawing with the keys of its sets in place of how far they have come: `{2.1.1}`."""

    def marks(sets: Sequence[CardSet]) -> str:
        return "{" + " ".join(one.key for one in sets) + "}"

    return _drawing(run, marks)


def _drawing(run: Sequence[CardStop], standing: Callable[[Sequence[CardSet]], str]) -> str:
    strands = tuple(_strand(stop, standing, braided=len(run) > 1) for stop in run)
    return stop_svg(Stop(strands, standing([one for stop in run for one in stop.sets])))


def _stop(run: Sequence[CardStop], next_key: str | None, skipped: Collection[int]) -> LineStop:
    standing = partial(_standing, next_key=next_key)
    return LineStop(
        at=f"{round(run[0].starts_at_min)}",
        drawing=Markup(_drawing(run, standing)),  # noqa: S704 # our own drawing
        parts=tuple(_words(stop, next_key, skipped) for stop in run),
        standing=standing([one for stop in run for one in stop.sets]).value,
        braided=len(run) > 1,
        together=together_words(run) if len(run) > 1 else "",
    )


def _words(stop: CardStop, next_key: str | None, skipped: Collection[int]) -> PartWords:
    cautions = () if stop.finished else stop.cautions
    standing = _standing(stop.sets, next_key)
    return PartWords(
        index=stop.index,
        exercise=stop.exercise,
        name=stop.name,
        lines=(*_lines(stop), *_left_out(stop)),
        cautions=tuple(c.text for c in cautions if before_loading(c)),
        replaced=stop.replaced,
        standing=standing.value,
        state=_state(stop, standing, skipped),
    )


def _state(stop: CardStop, standing: Standing, skipped: Collection[int]) -> str:
    if standing is Standing.DONE:
        return "done"
    if standing is not Standing.SKIPPED or stop.replaced.startswith("left out"):
        return ""
    return "skipped today" if stop.index in skipped else "left out for lack of time"


def _lines(stop: CardStop) -> list[str]:
    if stop.finished:
        return done_lines(stop.sets)
    return stop_lines([one for one in stop.sets if one.state is not SetState.SKIPPED])


def _left_out(stop: CardStop) -> list[str]:
    """How many working sets were given up of an exercise that is still done; sides are one."""
    hard = [s for s in stop.sets if s.kind is not SetKind.WARM_UP and s.side is not Side.RIGHT]
    out = sum(one.state is SetState.SKIPPED for one in hard)
    return [f"{plural(out, 'set')} left out"] if 0 < out < len(hard) else []


def together_words(run: Sequence[CardStop]) -> str:
    """How a superset is done: rounds, and the rest after each."""
    rounds = max((one.round or 0) for stop in run for one in stop.sets)
    rest = max((one.rest_s for stop in run for one in stop.sets if one.round), default=0)
    words = f"{plural(rounds, 'round')}, no rest inside"
    return f"{words}, {minutes_words(rest / 60)} after each" if rest >= 60 else words


def _strand(
    stop: CardStop, standing: Callable[[Sequence[CardSet]], str], *, braided: bool
) -> tuple[Stroke, ...]:
    """The strokes of an exercise; in a superset one a round, as a round is one place."""
    if not braided:
        return tuple(Stroke(one.kind, standing([one])) for one in stop.sets)
    counted = [one for one in stop.sets if one.kind is not SetKind.WARM_UP]
    return tuple(
        Stroke(SetKind.WORKING, standing(list(sets)))
        for _, sets in groupby(counted, key=lambda one: one.round)
    )


def _standing(sets: Sequence[CardSet], next_key: str | None) -> Standing:
    states = {one.state for one in sets}
    if any(one.key == next_key for one in sets):
        return Standing.NOW
    if not states or SetState.OPEN in states:
        return Standing.OPEN
    return Standing.DONE if SetState.DONE in states else Standing.SKIPPED
