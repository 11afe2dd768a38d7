"""How long a session takes as a whole: what the Week page says of its day.

The card knows more of every set than the week does: its plates, its likely reps, how many ramp
sets the day needs. It spreads the day's minutes over them; their sum is the week's, so that a
day takes the same wherever it is shown, and what today changes changes it in proportion.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from pennate.app.back_again import gently
from pennate.app.card_facts import set_seconds
from pennate.app.loads import Laid
from pennate.app.outline import DayInputs, Outline
from pennate.core.evidence.dose import CHANGEOVER_S
from pennate.core.prescribed import PlannedDay, PrescribedExercise
from pennate.core.week_time import Pace, day_seconds, preparation_seconds


def session_pace(outline: Outline, laid: Mapping[str, Laid], inputs: DayInputs) -> Pace:
    """Her pace, times what the week's minutes are of those the sets of the card add up to.

    Of all that is asked today, with nothing left out for lack of time.
    """
    asked = tuple(_asked(outline, run, index) for run in outline.runs for index in run)
    week = day_seconds(replace(inputs.planned, exercises=asked), inputs.catalogue)
    card = _card_seconds(outline, laid, inputs.planned)
    return replace(inputs.pace, factor=inputs.pace.factor * week / card) if card else inputs.pace


def _asked(outline: Outline, run: tuple[int, ...], index: int) -> PrescribedExercise:
    """What is asked of a stop, done in turn with the others of its run, gently after weeks away."""
    asked = outline.plans[index].asked
    back = outline.stops[index].back
    asked = gently(asked, back) if back else asked
    return asked if len(run) > 1 else replace(asked, superset="")


def _card_seconds(outline: Outline, laid: Mapping[str, Laid], planned: PlannedDay) -> float:
    total = preparation_seconds(planned) + CHANGEOVER_S * max(0, len(outline.runs) - 1)
    for run in outline.runs:
        own = [(index, slot) for index, slot in outline.order if index in run]
        total += sum(
            set_seconds(outline.plans[i], slot, laid, first=not place, shared=len(run) > 1)
            for place, (i, slot) in enumerate(own)
        )
    return total
