"""One-step-ahead forecasts of a log, as the contract's table."""

from __future__ import annotations

import csv
import io
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from pennate.app.no_loads import without_load
from pennate.app.watched import Watch, unwatched, watched
from pennate.core.history import History
from pennate.core.near import nearest
from pennate.core.plural import plural
from pennate.estimate.replay import one_step_ahead
from pennate.files.catalogue import read_catalogue
from pennate.files.how import How
from pennate.files.log import ONE_SENTENCE_EACH
from pennate.files.log_words import rpe_words

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pennate.core.exercise import Catalogue
    from pennate.core.forecast import RepsForecast
    from pennate.core.performed import PerformedSet
    from pennate.files.log import LogFile

COLUMNS = ("date", "session", "set", "mean", "p2.5", "p10", "p25", "p50", "p75", "p90", "p97.5")
"""The columns of a forecast file."""

NEAR = 0.9
"""Likeness from which a name is offered for one that is not known; a rope is no row."""

AGAIN = "forecast the file again"
"""What to do once the loads of a log stand where they are read."""

_PLACES = 3


@dataclass(frozen=True, slots=True)
class Forecasts:
    """A row of `COLUMNS` for each row of a log, in its order, and what in it to check."""

    rows: list[dict[str, object]]
    notes: tuple[str, ...]


def forecast_log(
    source: Path | bytes,
    how: How = How(),
    *,
    watch: Watch = unwatched,
) -> Forecasts:
    """Forecast each row of a log. Raises InputError for a file that cannot be read whole.

    Sets are taken in order of day, session and set; holds and sets whose load is not noted have
    empty numbers. `how` says what the file leaves open. A long log takes a while: `watch` is told
    how far it is.
    """
    catalogue = read_catalogue()
    log = how.read(source, catalogue, unknown_ok=True)
    told = one_step_ahead(History.of(log.rows), catalogue)
    ahead = {done.identity: forecast for done, forecast in watched(told, len(log.rows), watch)}
    rows = [
        dict(zip(COLUMNS, _cells(done, ahead[done.identity]), strict=True)) for done in log.rows
    ]
    notes = (*rpe_words(log), *_unknown(log, catalogue), *without_load(log, catalogue, AGAIN))
    return Forecasts(rows, (*notes, *(str(one) for one in log.questions)))


def _unknown(log: LogFile, catalogue: Catalogue) -> Iterator[str]:
    """A name the catalogue lacks may be a slip, and then the exercise has two histories."""
    first: dict[str, int] = {}
    for done in log.rows:
        if done.exercise not in catalogue:
            first.setdefault(done.exercise, log.lines[done.identity])
    for name, line in list(first.items())[:ONE_SENTENCE_EACH]:
        near = nearest(name, catalogue.names(), most=1, least=NEAR)
        slip = f"is “{near[0]}” meant? " if near else ""
        yield (
            f"line {line}, exercise: “{name}” is not in the catalogue; {slip}"
            f'it is forecast as an exercise of its own, unless --as "{name}=…" says what it is'
        )
    if len(first) > ONE_SENTENCE_EACH:
        yield f"{plural(len(first) - ONE_SENTENCE_EACH, 'more name')} not in the catalogue"


def _cells(done: PerformedSet, forecast: RepsForecast | None) -> Iterator[object]:
    yield done.when.isoformat()
    yield done.session
    yield done.number
    if forecast is None:
        yield from (None for _ in COLUMNS[3:])
        return
    yield rounded(forecast.mean)
    yield from (rounded(value) for value in forecast.quantiles)


def rounded(reps: float) -> float:
    """Reps as the table tells them; what rounds to nought is 0.0, never -0.0."""
    return round(reps, _PLACES) + 0.0


def forecast_csv(rows: list[dict[str, object]]) -> str:
    """The rows as CSV text."""
    out = io.StringIO()
    writer = csv.DictWriter(out, COLUMNS, lineterminator="\n")
    writer.writeheader()
    writer.writerows(rows)
    return out.getvalue()
