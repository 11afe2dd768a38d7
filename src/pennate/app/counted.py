"""What a 1RM counts beside the load as she writes it: side, both dumbbells, bar, body mass."""

from __future__ import annotations

from fractions import Fraction

from pennate.app.exercise_view import ExerciseView, SetPoint
from pennate.core.exercise import Exercise
from pennate.core.felt import written_kg
from pennate.core.quantities import LoadReading

COUNTS = {
    LoadReading.EACH: "the pair counted",
    LoadReading.SIDE: "bar and plates together",
    LoadReading.PLATES: "as felt, with what the plates hang on",
}
"""Where a load is written as less than the whole; a load of all together needs no word."""
BODY = "with the body mass it moves"
MARK = "by this machine's mark"
PULLEYS = "as felt, pulleys counted"
NEAR = 0.01
"""Relative difference from which a felt load is another than the one written."""


def counted_words(exercise: Exercise, seen: ExerciseView) -> str:
    """As the last set was written: “left side, the pair counted”; empty where it is all."""
    body = exercise.body_mass is not None
    last = seen.sets[-1] if seen.sets else None
    side = f"{last.done.side.value} side" if last and last.done.side else ""
    told = MARK if seen.label else _as_written(last, body=body) if last else ""
    return ", ".join(part for part in (side, told, BODY if body else "") if part)


def _as_written(last: SetPoint, *, body: bool) -> str:
    done = last.done
    if done.reading is LoadReading.LABEL and not body:
        written = float(written_kg(done.load or Fraction(0), done.unit))
        return PULLEYS if abs(last.felt_kg - written) > NEAR * written else ""
    return COUNTS.get(done.reading, "") if done.load else ""
