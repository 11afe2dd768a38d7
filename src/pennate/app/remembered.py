"""Sets she remembers from before the first log: weak evidence, so that no load is blind."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from fractions import Fraction
from typing import Any

from pennate.core.history import History
from pennate.core.performed import PerformedSet, SetKind
from pennate.core.quantities import LoadReading, Unit, exact_text
from pennate.ledger import Ledger
from pennate.loading import Written

REMEMBERED = "remembered"
"""Kind of the entry that holds one."""


def remembered_body(exercise: str, item: str, written: Written | None, reps: int) -> dict[str, Any]:
    """One remembered set as it is stored; `written` None is body weight alone."""
    return {
        "exercise": exercise,
        "item": item,
        "load": exact_text(written.amount) if written else None,
        "unit": written.unit.value if written else None,
        "load_is": (written.reading if written else LoadReading.TOTAL).value,
        "reps": reps,
    }


def remembered_sets(ledger: Ledger) -> tuple[PerformedSet, ...]:
    """Her remembered sets, the newest of each exercise on an item, oldest first."""
    newest: dict[tuple[str, str], PerformedSet] = {}
    for number, entry in enumerate(ledger.entries(REMEMBERED), start=1):
        done = set_of(entry.body, entry.day, number)
        newest[done.exercise, done.equipment] = done
    return tuple(sorted(newest.values(), key=lambda done: done.order))


def before_the_log(remembered: tuple[PerformedSet, ...], log: History) -> tuple[PerformedSet, ...]:
    """Remembered sets as strength is learned from them: none later than the first set of the log.

    An older log may be imported after she told them; strength must not begin on the day they were
    told, or all time before it would stand still.
    """
    if not log.sets:
        return remembered
    first = log.sets[0].day
    return tuple(replace(done, when=min(done.day, first)) for done in remembered)


def set_of(body: Mapping[str, Any], day: date, number: int) -> PerformedSet:
    """The set that was stored so."""
    return PerformedSet(
        id="",
        when=day,
        session=REMEMBERED,
        number=number,
        exercise=str(body["exercise"]),
        reps=int(body["reps"]),
        kind=SetKind.WORKING,
        load=Fraction(body["load"]) if body["load"] is not None else None,
        unit=Unit(body["unit"]) if body["unit"] else None,
        reading=LoadReading(body["load_is"]),
        equipment=str(body["item"]),
    )
