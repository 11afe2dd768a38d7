"""How one set's result shifts the sets after it: the model is asked, once for each surprise."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import timedelta

from pennate.app.choose import expected_reps, exposure, needed
from pennate.app.outline import Outline
from pennate.app.slots import Slot
from pennate.core.evidence.dose import USUAL_REST_S
from pennate.core.evidence.session import SURE_ENOUGH_LATER
from pennate.core.forecast import RepsForecast
from pennate.core.performed import Effort, SetKind
from pennate.estimate import Exposure, Outcome, StrengthModel

KNOTS = (-5.0, -2.0, 0.0, 2.0, 5.0, 12.0, 25.0)
"""Surprises, in reps, at which shifts are given; straight lines between."""
THOUSANDTHS = 1000
"""Loads and strengths travel as thousandths of a natural logarithm."""
_FALL_LEAST = 0.005  # number: log load; of smaller falls the ratio says nothing
_FURTHEST = 3.0  # number: times; no report is worth less than a third of a failure
LEAST_SHIFT = 2
"""A shift of fewer thousandths than this for every surprise is left out."""
MOST_NEEDED = 30
"""Strength is asked for at the reps needed, up to as many."""
NEXT = "{}.next"
"""Stands for the next time of a stop in place of a later set's key."""
WEEK = timedelta(days=7)


@dataclass(frozen=True, slots=True)
class Turn:
    """One coming set as the model meets it, at the load planned."""

    index: int
    slot: Slot
    exposure: Exposure
    counted: bool
    """Reps are forecast; ramps and holds only tire."""
    asking: Exposure = field(init=False)
    """The set without its load, as strength is asked for; worked out once."""

    def __post_init__(self) -> None:
        object.__setattr__(self, "asking", replace(self.exposure, felt_kg=None))


@dataclass(frozen=True, slots=True)
class Played:
    """A turn played through: the model as it met the set, and what was likely."""

    turn: Turn
    before: StrengthModel
    forecast: RepsForecast
    reps: int
    strength: float
    """Logarithm of the load at which the reps needed are as likely as not."""


@dataclass(frozen=True, slots=True)
class Shifts:
    """By later set and for the next time, in thousandths of log load: shifts of strength at the
    knots, with nothing said about reserve, with reserve said, and when closed as asked.
    """

    silent: Mapping[str, tuple[int, ...]]
    said: Mapping[str, tuple[int, ...]]
    as_asked: Mapping[str, int]
    missed: float
    """How many times as far strength falls where a rep was tried and missed."""


def log_load(model: StrengthModel, turn: Turn, reps: int, odds: float) -> float:
    """Logarithm of the felt load at which so many reps of this set have these odds."""
    return math.log(model.load_for(turn.asking, min(max(reps, 1), MOST_NEEDED), odds))


def strength(model: StrengthModel, turn: Turn) -> float:
    """The load at which what the set asks for is as likely as not, as a logarithm."""
    return log_load(model, turn, needed(turn.slot), SURE_ENOUGH_LATER)


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
        playing.meet(turn.exposure)
        before = playing.copy()
        forecast = playing.forecast(turn.exposure)
        reps = expected_reps(turn.slot, forecast.median)
        played.append(Played(turn, before, forecast, reps, strength(playing, turn)))
        playing.assume(turn.exposure, reps)
    return played


def shifts_of(played: Sequence[Played], place: int, *, next_too: bool = True) -> Shifts:
    """What each result of the set at this place would shift in the sets after it.

    Of other exercises the first set stands for all: what tires them alike shifts them alike.
    """
    one, later = played[place], played[place + 1 :]
    capacity = round(one.forecast.mean)
    believed = strength(one.before, next_time(one.turn)) if next_too else None

    def after(outcome: Outcome) -> dict[str, float]:
        return _after(one, later, outcome, believed)

    silent = [after(Outcome(_least(one.reps + k))) for k in KNOTS]
    said = [after(Outcome(_least(capacity + k), Effort.NONE_LEFT)) for k in KNOTS]
    asked = _by_key([after(Outcome(one.reps, None, as_asked=True))])
    failed = after(Outcome(_least(capacity + KNOTS[0]), Effort.FAIL))
    return Shifts(
        silent=_by_key(silent),
        said=_by_key(said),
        as_asked={key: shift for key, (shift,) in asked.items()},
        missed=_times_as_far(failed, said[0], one.turn.index),
    )


def _times_as_far(failed: Mapping[str, float], said: Mapping[str, float], index: int) -> float:
    """Fall of a stop's own strength after a missed rep, in multiples of that when none was left."""
    own = (key for key in said if key.startswith(f"{index}."))
    falls = [failed[key] / said[key] for key in own if said[key] <= -_FALL_LEAST]
    return round(min(max(1.0, *falls), _FURTHEST), 2) if falls else 1.0


def _least(reps: float) -> int:
    return max(0, int(reps))


def learned_forecasts(own: Sequence[Played]) -> dict[str, RepsForecast]:
    """The sets of one exercise when those before them went as expected and were logged."""
    found: dict[str, RepsForecast] = {}
    model: StrengthModel | None = None
    for one in own:
        if model is not None:
            found[one.turn.slot.key] = model.forecast(one.turn.exposure)
        model = (model or one.before).copy()
        model.observe(replace(one.turn.exposure, chosen=True), Outcome(one.reps))
    return found


def next_time(turn: Turn) -> Turn:
    """The same set a week on, when the day is another: what of a result is learned."""
    return replace(turn, exposure=replace(turn.exposure, when=turn.exposure.when + WEEK))


def observed(one: Played, outcome: Outcome) -> StrengthModel:
    """The model after this outcome of a set; she wrote the load, as in the log."""
    model = one.before.copy()
    model.observe(replace(one.turn.exposure, chosen=True), outcome)
    return model


def _after(
    one: Played, later: Sequence[Played], outcome: Outcome, believed: float | None
) -> dict[str, float]:
    """Shift of strength in later sets, and the next time, against playing as likely.

    `believed` is the strength of the next time as it was known before, where that is asked for.
    """
    model = observed(one, outcome)
    shifts: dict[str, float] = {}
    if believed is not None:
        shifts[NEXT.format(one.turn.index)] = strength(model, next_time(one.turn)) - believed
    asked = _asked_after(one, later)
    for place, after in enumerate(later[: asked[-1] + 1 if asked else 0]):
        if place:
            model.assume(later[place - 1].turn.exposure, later[place - 1].reps)
        if place in asked:
            model.meet(after.turn.exposure)
            shifts[after.turn.slot.key] = strength(model, after.turn) - after.strength
    return shifts


def _asked_after(one: Played, later: Sequence[Played]) -> list[int]:
    """Places of the later sets that are asked about: its own, and the first of each other stop."""
    first: dict[int, int] = {}
    for place, after in enumerate(later):
        first.setdefault(after.turn.index, place)
    own = one.turn.index
    return [
        place
        for place, after in enumerate(later)
        if after.turn.index == own or first[after.turn.index] == place
    ]


def _by_key(rows: Sequence[Mapping[str, float]]) -> dict[str, tuple[int, ...]]:
    found = {}
    for key in rows[0]:
        values = tuple(round(THOUSANDTHS * row[key]) for row in rows)
        if max(map(abs, values)) >= LEAST_SHIFT:
            found[key] = values
    return found


def fall_after(model: StrengthModel, own: Sequence[Turn], before: Sequence[Turn]) -> int:
    """Mean fall of strength in sets when others are done before them rather than not at all."""
    alone = play(model, own)
    together = play(model, [*before, *own])[-len(alone) :] if alone else []
    falls = [a.strength - t.strength for a, t in zip(alone, together, strict=True)]
    return round(THOUSANDTHS * sum(falls) / len(falls)) if falls else 0


def rested(turn: Turn) -> Turn:
    """The turn as the first of its exercise: after a whole rest."""
    if turn.exposure.rest_s:
        return turn
    return replace(turn, exposure=replace(turn.exposure, rest_s=USUAL_REST_S))


def short_sleep(model: StrengthModel, turns: Sequence[Turn]) -> int:
    """Shift of strength by a short night; the same for every set, so the first one tells."""
    turn = next((one for one in turns if one.counted), None)
    if turn is None:
        return 0
    slept, short = (
        strength(model, replace(turn, exposure=replace(turn.exposure, short_sleep=said)))
        for said in (False, True)
    )
    return round(THOUSANDTHS * (short - slept))
