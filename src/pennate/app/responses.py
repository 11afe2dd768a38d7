"""How one set's result shifts the sets after it: the model is asked, once for each surprise."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from pennate.app.choose import expected_reps, exposure
from pennate.app.outline import Outline
from pennate.app.slots import Slot
from pennate.core.evidence.dose import USUAL_REST_S
from pennate.core.forecast import RepsForecast
from pennate.core.performed import Effort, SetKind
from pennate.estimate import Exposure, Outcome, StrengthModel

KNOTS = (-5.0, -2.0, 0.0, 2.0, 5.0, 12.0, 25.0)
"""Surprises, in reps, at which shifts are given; straight lines between."""
LEAST_SHIFT = 0.02
"""A shift of fewer reps than this for every surprise is left out."""


@dataclass(frozen=True, slots=True)
class Turn:
    """One coming set as the model meets it, at the load planned."""

    index: int
    slot: Slot
    exposure: Exposure
    counted: bool
    """Reps are forecast; ramps and holds only tire."""


@dataclass(frozen=True, slots=True)
class Played:
    """A turn played through: the model as it met the set, and what was likely."""

    turn: Turn
    before: StrengthModel
    forecast: RepsForecast
    reps: int


@dataclass(frozen=True, slots=True)
class Shifts:
    """By later set: shifts at the knots with nothing said, with reserve said, and as asked."""

    silent: Mapping[str, tuple[float, ...]]
    said: Mapping[str, tuple[float, ...]]
    as_asked: Mapping[str, float]


def turns_of(
    outline: Outline, order: Sequence[tuple[int, Slot]], felt: Mapping[str, float]
) -> list[Turn]:
    """The turns of these sets at felt loads without body mass, by key."""
    return [
        Turn(
            index,
            slot,
            exposure(outline.stops[index], slot, felt.get(slot.key, 0.0)),
            counted=slot.asked.kind is not SetKind.WARM_UP and slot.asked.reps is not None,
        )
        for index, slot in order
    ]


def play(model: StrengthModel, turns: Sequence[Turn]) -> list[Played]:
    """Play turns through as they are likely to go; ramps and holds are passed over."""
    playing, played = model.copy(), []
    for turn in turns:
        if not turn.counted:
            continue
        before = playing.copy()
        forecast = playing.forecast(turn.exposure)
        reps = expected_reps(turn.slot, forecast.median)
        played.append(Played(turn, before, forecast, reps))
        playing.assume(turn.exposure, reps)
    return played


def shifts_of(played: Sequence[Played], place: int) -> Shifts:
    """What each result of the set at this place would shift in the sets after it."""
    one, later = played[place], played[place + 1 :]
    capacity = round(one.forecast.mean)
    silent = [_after(one, later, Outcome(_least(one.reps + k))) for k in KNOTS]
    said = [_after(one, later, Outcome(_least(capacity + k), Effort.NONE_LEFT)) for k in KNOTS]
    asked = _after(one, later, Outcome(one.reps, None, as_asked=True))
    keys = [after.turn.slot.key for after in later]
    return Shifts(
        silent=_by_key(keys, silent),
        said=_by_key(keys, said),
        as_asked={k: round(v, 2) for k, v in zip(keys, asked, strict=True) if abs(v) > LEAST_SHIFT},
    )


def _least(reps: float) -> int:
    return max(0, int(reps))


def _after(one: Played, later: Sequence[Played], outcome: Outcome) -> list[float]:
    """Shift of the mean of every later set after this outcome, against playing as likely."""
    model = one.before.copy()
    model.observe(one.turn.exposure, outcome)
    shifts = []
    for after in later:
        shifts.append(model.forecast(after.turn.exposure).mean - after.forecast.mean)
        model.assume(after.turn.exposure, after.reps)
    return shifts


def _by_key(keys: Sequence[str], rows: Sequence[Sequence[float]]) -> dict[str, tuple[float, ...]]:
    found = {}
    for key, values in zip(keys, zip(*rows, strict=True), strict=True):
        if max(map(abs, values)) > LEAST_SHIFT:
            found[key] = tuple(round(value, 2) for value in values)
    return found


def fall_after(model: StrengthModel, own: Sequence[Turn], before: Sequence[Turn]) -> float:
    """Mean reps by which sets fall when others are done before them rather than not at all."""
    alone = play(model, own)
    together = play(model, [*before, *own])[-len(alone) :] if alone else []
    falls = [a.forecast.mean - t.forecast.mean for a, t in zip(alone, together, strict=True)]
    return sum(falls) / len(falls) if falls else 0.0


def rested(turn: Turn) -> Turn:
    """The turn as the first of its exercise: after a whole rest."""
    if turn.exposure.rest_s:
        return turn
    return replace(turn, exposure=replace(turn.exposure, rest_s=USUAL_REST_S))
