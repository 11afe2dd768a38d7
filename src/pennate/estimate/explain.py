"""Which sets moved an estimate, and by how much: by leaving each out and refitting.

Stated influence is therefore exact. Only sets since a starting point are candidates; the
model as it stood there is the common past of all refits.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pennate.core.history import History
from pennate.core.percent import percent
from pennate.core.performed import SetKind
from pennate.estimate.exposure import Exposure, ExposureReader, Person, outcome_of
from pennate.estimate.model import StrengthModel

if TYPE_CHECKING:
    from pennate.core.exercise import Catalogue
    from pennate.core.felt import Carrier
    from pennate.core.performed import PerformedSet


@dataclass(frozen=True, slots=True)
class Influence:
    """One set and what it did: the estimate with it over the estimate without it, less one."""

    done: PerformedSet
    moved: float
    in_sd: float
    words: str


@dataclass(frozen=True, slots=True)
class Explanation:
    """Why an estimate is what it is.

    `prior_share` is the part of the prior's variance that the log has not removed, from 0
    (the log alone speaks) to 1 (nothing is known but the prior).
    """

    one_rep_kg: float
    sd_log: float
    sets_behind: int
    prior_share: float
    day: tuple[float, float] | None
    influences: tuple[Influence, ...]
    words: str


def explain(
    history: History,
    asked: Exposure,
    catalogue: Catalogue,
    person: Person = Person(),
    carriers: Mapping[str, Carrier] | None = None,
    *,
    sets: int = 10,
) -> Explanation:
    """Explain the strength of an exercise on a day by its last working sets."""
    past = History(tuple(done for done in history if done.day <= asked.day))
    candidates = [
        done
        for done in past
        if done.exercise == asked.exercise and done.kind is not SetKind.WARM_UP
    ][-sets:]
    start = candidates[0].day if candidates else asked.day
    base, reader = _until(past.before(start), catalogue, person, carriers)
    recent = [(reader.exposure(done), done) for done in past.since(start)]
    whole = _after(base, recent).estimate(asked)
    influences = []
    for done in candidates:
        without = _after(base, [pair for pair in recent if pair[1] is not done]).estimate(asked)
        moved = math.log(whole.one_rep_kg / without.one_rep_kg)
        influences.append(_influence(done, moved, whole.sd_log))
    influences.sort(key=lambda one: -abs(one.moved))
    prior = StrengthModel.start(catalogue, person).estimate(asked)
    share = min(1.0, (whole.sd_log / prior.sd_log) ** 2)
    return Explanation(
        one_rep_kg=whole.one_rep_kg,
        sd_log=whole.sd_log,
        sets_behind=whole.sets_behind,
        prior_share=share,
        day=_last_day(base, recent, asked),
        influences=tuple(influences),
        words=_words(whole.sets_behind, share, influences),
    )


def _until(
    past: History,
    catalogue: Catalogue,
    person: Person,
    carriers: Mapping[str, Carrier] | None,
) -> tuple[StrengthModel, ExposureReader]:
    model = StrengthModel.start(catalogue, person)
    reader = ExposureReader(catalogue, person, carriers)
    for done in past:
        model.observe(reader.exposure(done), outcome_of(done))
    return model, reader


def _after(base: StrengthModel, recent: list[tuple[Exposure, PerformedSet]]) -> StrengthModel:
    model = base.copy()
    for exposure, done in recent:
        model.observe(exposure, outcome_of(done))
    return model


def _last_day(
    base: StrengthModel, recent: list[tuple[Exposure, PerformedSet]], asked: Exposure
) -> tuple[float, float] | None:
    days = [exposure for exposure, done in recent if done.exercise == asked.exercise]
    if not days:
        return None
    return _after(base, recent).settled().day_effect(days[-1])


def _influence(done: PerformedSet, moved: float, sd: float) -> Influence:
    way = "raised" if moved > 0 else "lowered"
    effort = f", {done.effort} in reserve" if done.effort is not None else ", effort not noted"
    words = (
        f"{done.day.isoformat()}, set {done.number}: {done.reps} reps{effort} "
        f"{way} the estimate by {percent(abs(moved), 1)}"
    )
    return Influence(done, math.expm1(moved), moved / sd if sd > 0 else 0.0, words)


def _words(sets: int, share: float, influences: list[Influence]) -> str:
    if not sets:
        return "No set of this exercise yet: the estimate is what is usual, and wide."
    text = f"Rests on {sets} sets; {percent(share)} of the uncertainty at the start is left."
    if influences:
        text += f" Moved most by {influences[0].words}."
    return text
