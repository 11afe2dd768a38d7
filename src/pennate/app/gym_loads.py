"""Loads for written targets on one item of a gym: what `pennate loads` answers."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from typing import Any, TypeVar

from pennate.core.exercise import EquipmentKind
from pennate.core.felt import felt_kg
from pennate.core.gym import (
    AnyItem,
    BandSet,
    Bar,
    Gym,
    Ladder,
    Sled,
    Stack,
    carrier_of,
    usual_reading,
)
from pennate.core.loaded import Loaded
from pennate.core.near import did_you_mean
from pennate.core.performed import SetKind
from pennate.core.quantities import LoadReading, Unit, format_number, parse_number
from pennate.errors import InputError, Where
from pennate.loading import Plan, Target, solve, usual_count

FAR = 0.1  # number: share of a target; the largest raise the cards make
FAR_KG = 2.5  # number: kg; a dumbbell's usual step, below which a share says little
W = TypeVar("W", bound=StrEnum)


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """Targets as written for one item: numbers, their unit and reading, kinds of the sets."""

    targets: tuple[Fraction, ...]
    unit: Unit | None = None
    reading: LoadReading | None = None
    """None takes how a load of this item is usually said."""
    kinds: tuple[SetKind, ...] = ()
    """One a target; empty: all working sets."""
    ceiling: bool = False
    """Never above a target."""
    count: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """The plan for the targets, with how they were read."""

    asked: Asked
    unit: Unit
    reading: LoadReading
    plan: Plan
    felt: tuple[float, ...]
    """The targets as the muscle would feel them, in kg."""


def loads_for(gym: Gym, item: AnyItem, asked: Asked) -> Answer:
    """The best states for all targets together, in the order given.

    Raises InputError where the kinds do not match the targets, or help lacks its minus.
    """
    count = asked.count or usual_count(item)
    unit = asked.unit or usual_unit(gym, item)
    reading = asked.reading or usual_reading(item, count)
    kinds = asked.kinds or (SetKind.WORKING,) * len(asked.targets)
    if len(kinds) != len(asked.targets):
        what = f"{len(asked.targets)} targets, but {len(kinds)} kinds of sets"
        raise InputError(what, remedy="give one kind for each target, or none")
    _refuse_help_without_minus(item, asked.targets)
    felt = [
        float(felt_kg(None, one, unit, reading, Fraction(0), carrier_of(item)))
        for one in asked.targets
    ]
    targets = [
        Target(felt_kg=kg, kind=kind, ceiling=asked.ceiling)
        for kg, kind in zip(felt, kinds, strict=True)
    ]
    plan = solve(gym, item, targets, count=count)
    return Answer(asked=asked, unit=unit, reading=reading, plan=plan, felt=tuple(felt))


def _refuse_help_without_minus(item: AnyItem, targets: Sequence[Fraction]) -> None:
    helping = item.kind is EquipmentKind.ASSISTED or (isinstance(item, BandSet) and item.assists)
    wrong = next((one for one in targets if one > 0), None)
    if helping and wrong is not None:
        what = f"“{item.name}” takes load off, so a target of {float(wrong):g} cannot be met"
        raise InputError(what, remedy=f"write help with a minus: -{float(wrong):g}")


def usual_unit(gym: Gym, item: AnyItem) -> Unit:
    """The unit in which this item is marked; for plates in one place, that of the plates."""
    if isinstance(item, Bar | Sled) and not item.label_only and item.mass:
        return item.mass.unit
    if isinstance(item, Ladder):
        return item.masses[0].unit
    if isinstance(item, Stack):
        return item.start.unit
    if isinstance(item, BandSet):
        return item.bands[0].tension.unit
    return gym.plates[0].mass.unit if gym.plates else Unit.KG


def far_off(answer: Answer) -> tuple[str, ...]:
    """Targets that nothing here comes near, each with what is nearest."""
    rows = zip(answer.felt, answer.asked.targets, answer.plan.states, strict=True)
    return tuple(
        f"{format_number(target, 3)} {answer.unit} asked; the nearest that can be made here is "
        f"{state.load} ({state.words})"
        for felt, target, state in rows
        if abs(state.felt_kg - felt) > max(FAR * abs(felt), FAR_KG)
    )


def answer_rows(answer: Answer) -> list[dict[str, Any]]:
    """One row a target: `target,load,unit,each_side,moves` and what else is known."""
    rows = zip(answer.asked.targets, answer.plan.states, answer.plan.moves, strict=True)
    return [_row(answer, target, state, moves) for target, state, moves in rows]


def _row(answer: Answer, target: Fraction, state: Loaded, moves: int) -> dict[str, Any]:
    return {
        "target": plain(target),
        "load": plain(state.load.amount),
        "unit": state.load.unit.value,
        "load_is": state.reading.value,
        "each_side": [plain(plate.mass.amount) for plate in state.each_side],
        "one_place": [plain(plate.mass.amount) for plate in state.single],
        "plate_units": [plate.mass.unit.value for plate in state.plates],
        "label": plain(state.label.amount) if state.label else None,
        "moves": moves,
        "felt_kg": round(state.felt_kg, 4),
        "words": state.words,
        "proven": answer.plan.proven,
    }


def plain(value: Fraction) -> int | float:
    """A number for JSON: whole where it is whole."""
    return value.numerator if value.denominator == 1 else float(value)


def asked_from(
    written: Sequence[str],
    *,
    unit: str | None,
    load_is: str | None,
    kinds: str | None,
    count: int | None = None,
    ceiling: bool = False,
) -> Asked:
    """What was asked, from words; raises InputError about the first wrong one."""
    numbers = tuple(parse_number(one) for text in written for one in _split(text))
    if not numbers:
        raise InputError("no targets were given", remedy="write --targets 60,80,100")
    return Asked(
        targets=numbers,
        unit=_word(Unit, unit, "unit"),
        reading=_word(LoadReading, load_is, "load-is"),
        kinds=tuple(kind for one in _split(kinds or "") if (kind := _word(SetKind, one, "kinds"))),
        count=count,
        ceiling=ceiling,
    )


def _split(text: str) -> list[str]:
    return [part for part in re.split(r"[,;\s]+", text) if part]


def _word(known: type[W], text: str | None, option: str) -> W | None:
    if text is None:
        return None
    words = [word.value for word in known]
    try:
        return known(text.casefold())
    except ValueError:
        remedy = did_you_mean(text, words, f"one of: {', '.join(words)}")
        where = Where(None, None, f"--{option}")
        raise InputError(f"“{text}” is not known here", where, remedy) from None
