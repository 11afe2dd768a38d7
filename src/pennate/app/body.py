"""Is it growing, and what does the scale say: use cases of the pages Body and Review."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import asdict, dataclass, replace
from datetime import date
from enum import Enum
from pathlib import Path
from typing import Any

from pennate.app.body_log import TrainingLog, support_for
from pennate.app.body_masses import with_masses
from pennate.body.error_model import learn
from pennate.body.plausible import questions
from pennate.body.series import Series, gather, masses_by_day
from pennate.body.sides import SideDifference, side_differences
from pennate.body.verdict import SiteVerdict, Verdict, judge, spoken_of
from pennate.body.weight import (
    TrendPoint,
    WeightTrend,
    follow,
    points_of,
    trend_of,
    weight_trend,
)
from pennate.core.body import LANDMARKS, Measurement, Weighing
from pennate.core.performed import Side
from pennate.core.plural import plural
from pennate.errors import NoAnswerError
from pennate.files.catalogue import read_catalogue
from pennate.files.how import How
from pennate.files.measures import read_measures, read_weights

_DIGITS = 4
OLD_WEEKS = 4  # number: weeks; longer than any plan of readings waits for the next one
"""From how long ago a last reading is told as old."""


@dataclass(frozen=True, slots=True)
class Waiting:
    """A girth measured once: there is no change to judge yet."""

    site: str
    side: str | None
    day: date
    girth_cm: float


@dataclass(frozen=True, slots=True)
class GrowthReport:
    """Everything the tape says, site by site, and what to ask her."""

    sites: tuple[SiteVerdict, ...]
    left_right: tuple[SideDifference, ...]
    waiting: tuple[Waiting, ...]
    questions: tuple[str, ...]


def growth_of_file(
    measures: Path, log: Path | None = None, weights: Path | None = None, how: How = How()
) -> GrowthReport:
    """The verdicts of a file of measurements, with a training log as support if given;
    `how` says what the log leaves open.

    Weighings of another file free the girths of fat, as on the page Body.

    Raises InputError for a file that cannot be read, NoAnswerError for one with fewer than
    two dates of any girth.
    """
    rows = read_measures(measures)
    if weights is not None:
        rows = with_masses(rows, read_weights(weights))
    training = None
    if log is not None:
        catalogue = read_catalogue()
        sets = how.read(log, catalogue, unknown_ok=True).rows
        training = TrainingLog(sets, catalogue)
    report = growth(rows, training)
    if not report.sites:
        raise NoAnswerError(
            "a change needs two dates: no girth here was measured on more than one "
            "(readings marked pumped do not count)",
            {"dates": 1, "needed": 2, "measured": [w.site for w in report.waiting]},
        )
    return report


def growth(
    rows: Iterable[Measurement],
    training: TrainingLog | None = None,
    today: date | None = None,
) -> GrowthReport:
    """The verdict on every girth, her error learned from all of them."""
    listed = tuple(rows)
    all_series = gather(listed)
    errors = learn(all_series)
    masses = masses_by_day(listed)
    judged = tuple(
        judge(series, errors[series.site], masses, support_for(series, training), today)
        for series in all_series
        if len(series.points) > 1
    )
    return GrowthReport(
        judged,
        side_differences(all_series, errors),
        tuple(_waiting(series) for series in all_series if len(series.points) == 1),
        questions(listed, all_series),
    )


def as_of(last: date, today: date) -> str:
    """That everything counts from a last reading long ago; empty where it is not."""
    weeks = (today - last).days // 7
    if weeks < OLD_WEEKS:
        return ""
    return (
        f"The last reading is from {last:%-d %B %Y}, {plural(weeks, 'week')} ago: all that "
        "follows, dates to come too, counts from that day. Measure anew first."
    )


def verdict_words(
    rows: Iterable[Measurement], training: TrainingLog | None = None
) -> dict[tuple[str, Side | None], Verdict]:
    """The word on every girth, with nothing beside it."""
    listed = tuple(rows)
    all_series, masses = gather(listed), masses_by_day(listed)
    errors = learn(all_series)
    return {
        (series.site.value, series.side): spoken_of(
            series, errors[series.site], masses, support_for(series, training)
        )
        for series in all_series
        if len(series.points) > 1
    }


def _waiting(series: Series) -> Waiting:
    point = series.points[0]
    side = series.side.value if series.side else None
    return Waiting(series.site.value, side, point.day, point.girth_cm)


def growth_document(report: GrowthReport) -> dict[str, Any]:
    """The report as plain values, in the words of the contract."""
    document: dict[str, Any] = _plain(asdict(replace(report, sites=())))
    return {**document, "sites": [site_values(one) for one in report.sites]}


def site_values(verdict: SiteVerdict) -> dict[str, Any]:
    """One verdict as plain values, in the words of the contract."""
    values: dict[str, Any] = _plain(asdict(verdict))
    values["from"], values["to"] = values.pop("start"), values.pop("end")
    return values


def _plain(value: Any) -> Any:
    """Numbers rounded, dates and words as text, so that any reader of JSON takes it."""
    if isinstance(value, Mapping):
        return {name: _plain(one) for name, one in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(one) for one in value]
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, date):
        return value.isoformat()
    return round(value, _DIGITS) if isinstance(value, float) else value


def weight_of_file(weights: Path) -> WeightTrend:
    """The trend of a file of weighings; NoAnswerError below two dates."""
    return weight(read_weights(weights))


def weight(weighings: Iterable[Weighing], periods: Iterable[date] = ()) -> WeightTrend:
    """The trend of her weighings; logged first days of periods are allowed for."""
    return weight_trend(_pairs(weighings), tuple(periods))


def weight_with_points(
    weighings: Iterable[Weighing], periods: Iterable[date] = ()
) -> tuple[WeightTrend, tuple[TrendPoint, ...]]:
    """The trend, and its interval on every weighed day for a chart, by one pass."""
    seen = follow(_pairs(weighings), tuple(periods))
    return trend_of(seen), points_of(seen)


def _pairs(weighings: Iterable[Weighing]) -> list[tuple[date, float]]:
    return [(one.day, float(one.kg)) for one in weighings]


def weight_document(trend: WeightTrend) -> dict[str, Any]:
    """The trend as plain values; `low95` and `high95` bound the slope."""
    document: dict[str, Any] = _plain(asdict(trend))
    return document


def how_to_measure() -> Mapping[str, str]:
    """Where the tape goes, by site."""
    return {site.value: text for site, text in LANDMARKS.items()}
