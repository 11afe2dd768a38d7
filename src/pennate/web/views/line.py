"""The session line of the Today page: stops with their words and small drawings."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from markupsafe import Markup

from pennate.core.card import Card, CardSet, CardStop, SetState
from pennate.core.performed import SetKind
from pennate.sheets.line import Standing, Stop, Stroke, stop_svg
from pennate.web.views.floor import before_loading
from pennate.web.words import done_lines, minutes_words, plural, stop_lines


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


def line_of(card: Card) -> tuple[LineStop, ...]:
    """The stops of a card; neighbours with the same superset mark share one."""
    runs: list[list[CardStop]] = []
    for mark, group in groupby(card.stops, key=lambda stop: stop.superset):
        members = list(group)
        runs.extend([members] if mark else [[stop] for stop in members])
    return tuple(
        _stop(run, card.next_key, last=position == len(runs))
        for position, run in enumerate(runs, start=1)
    )


def _stop(run: Sequence[CardStop], next_key: str | None, *, last: bool) -> LineStop:
    standing = _standing([one for stop in run for one in stop.sets], next_key)
    strands = tuple(_strand(stop, next_key, braided=len(run) > 1) for stop in run)
    return LineStop(
        at=f"{round(run[0].starts_at_min)}",
        drawing=Markup(stop_svg(Stop(strands, standing, last))),  # noqa: S704 # our own drawing
        parts=tuple(_words(stop, next_key) for stop in run),
        standing=standing.value,
        braided=len(run) > 1,
        together=_together(run) if len(run) > 1 else "",
    )


def _words(stop: CardStop, next_key: str | None) -> PartWords:
    cautions = () if stop.finished else stop.cautions
    return PartWords(
        index=stop.index,
        exercise=stop.exercise,
        name=stop.name,
        lines=tuple(done_lines(stop.sets) if stop.finished else stop_lines(stop.sets)),
        cautions=tuple(c.text for c in cautions if before_loading(c)),
        replaced=stop.replaced,
        standing=_standing(stop.sets, next_key).value,
    )


def _together(run: Sequence[CardStop]) -> str:
    rounds = max((one.round or 0) for stop in run for one in stop.sets)
    rest = max((one.rest_s for stop in run for one in stop.sets if one.round), default=0)
    words = f"{plural(rounds, 'round')}, no rest inside"
    return f"{words}, {minutes_words(rest / 60)} after each" if rest >= 60 else words


def _strand(stop: CardStop, next_key: str | None, *, braided: bool) -> tuple[Stroke, ...]:
    """The strokes of an exercise; in a superset one a round, as a round is one place."""
    if not braided:
        return tuple(Stroke(one.kind, _standing([one], next_key)) for one in stop.sets)
    counted = [one for one in stop.sets if one.kind is not SetKind.WARM_UP]
    return tuple(
        Stroke(SetKind.WORKING, _standing(list(sets), next_key))
        for _, sets in groupby(counted, key=lambda one: one.round)
    )


def _standing(sets: Sequence[CardSet], next_key: str | None) -> Standing:
    states = {one.state for one in sets}
    if any(one.key == next_key for one in sets):
        return Standing.NOW
    if not states or SetState.OPEN in states:
        return Standing.OPEN
    return Standing.DONE if SetState.DONE in states else Standing.SKIPPED
