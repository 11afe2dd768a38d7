"""Fitting is replaying: every set of a log, in order, through the same update."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

from pennate.estimate.exposure import ExposureReader, Person, outcome_of
from pennate.estimate.model import StrengthModel
from pennate.estimate.settings import DEFAULTS, Settings

if TYPE_CHECKING:
    from pennate.core.exercise import Catalogue
    from pennate.core.felt import Carrier
    from pennate.core.forecast import RepsForecast
    from pennate.core.history import History
    from pennate.core.performed import PerformedSet


def fit(
    history: History,
    catalogue: Catalogue,
    person: Person = Person(),
    carriers: Mapping[str, Carrier] | None = None,
    *,
    settings: Settings = DEFAULTS,
) -> StrengthModel:
    """The model after a whole log."""
    model = StrengthModel.start(catalogue, person, settings)
    reader = ExposureReader(catalogue, person, carriers)
    for done in history:
        model.observe(reader.exposure(done), outcome_of(done))
    return model


def one_step_ahead(
    history: History,
    catalogue: Catalogue,
    person: Person = Person(),
    *,
    settings: Settings = DEFAULTS,
) -> Iterator[tuple[PerformedSet, RepsForecast | None]]:
    """Each set with its forecast made before it; None for holds and where no load is noted."""
    model = StrengthModel.start(catalogue, person, settings)
    reader = ExposureReader(catalogue, person)
    for done in history:
        exposure = reader.exposure(done)
        if exposure.hold:
            yield done, None
        elif exposure.unloaded:
            model.pass_by(exposure, done.reps)
            yield done, None
        else:
            yield done, model.step(exposure, outcome_of(done))
