"""What the pages Body and Review show of the body: plain values, ready to draw."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta

from pennate.app.body import GrowthReport, growth, verdict_words, weight_with_points
from pennate.app.body_log import TrainingLog
from pennate.body.cycle import alike, clinician_notices
from pennate.body.pain import JointCourse, PainReport, courses
from pennate.body.verdict import SiteVerdict, Verdict
from pennate.body.weight import TrendPoint, WeightTrend
from pennate.core.body import LANDMARKS, Measurement, Site, Weighing
from pennate.core.percent import signed_span
from pennate.core.performed import Side

_USUAL_WEEKS = 4
_READINGS = 3
_FRESH = timedelta(weeks=2)  # number: the trend forgets about as fast; older is not of today


@dataclass(frozen=True, slots=True, kw_only=True)
class BodyRecord:
    """All she has noted of her body; every part may be empty."""

    measurements: tuple[Measurement, ...] = ()
    weighings: tuple[Weighing, ...] = ()
    training: TrainingLog | None = None
    periods: tuple[date, ...] = ()
    """First days of periods, only if she logs them."""
    periods_expected: bool = True
    pain: tuple[PainReport, ...] = ()

    def up_to(self, day: date) -> BodyRecord:
        """The record as it stood on a day."""
        return BodyRecord(
            measurements=tuple(row for row in self.measurements if row.day <= day),
            weighings=tuple(one for one in self.weighings if one.day <= day),
            training=self.training,
            periods=tuple(start for start in self.periods if start <= day),
            periods_expected=self.periods_expected,
            pain=tuple(report for report in self.pain if report.day <= day),
        )


@dataclass(frozen=True, slots=True)
class MeasureNext:
    """One girth to take: when, how often, where the tape goes, and why."""

    site: str
    side: str | None
    day: date
    readings: int
    landmark: str
    say: str
    due: bool


@dataclass(frozen=True, slots=True)
class WeightView:
    """The weight chart: trend with interval by day, and where it is heading."""

    trend: WeightTrend
    points: tuple[TrendPoint, ...]
    like_day: str
    """A word on the cycle where two ends of the trend stand at unlike days; else empty."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BodyPage:
    """The page Body. `weight` is None while hidden or too little is weighed."""

    growth: GrowthReport
    weight: WeightView | None
    measure_next: tuple[MeasureNext, ...]
    joints: tuple[JointCourse, ...]
    notices: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BodyReview:
    """The body's part of the weekly review."""

    changed: tuple[str, ...]
    """Verdicts whose word is another than a review ago."""
    verdicts: tuple[SiteVerdict, ...]
    weight: str | None
    measure: tuple[MeasureNext, ...]
    joints: tuple[JointCourse, ...] = field(default=())
    notices: tuple[str, ...] = field(default=())


def body_page(record: BodyRecord, today: date, *, hide_weight: bool = False) -> BodyPage:
    """Everything the page Body shows on a day."""
    known = record.up_to(today)
    return page_with(known, today, None if hide_weight else weight_view(known))


def page_with(known: BodyRecord, today: date, weight: WeightView | None) -> BodyPage:
    """The page from what is known on the day and the weight as it is to be shown."""
    report = growth(known.measurements, known.training, today)
    return BodyPage(
        growth=report,
        weight=weight,
        measure_next=measure_next(report, today),
        joints=courses(known.pain, today),
        notices=clinician_notices(known.periods, today, expected=known.periods_expected),
    )


def body_review(
    record: BodyRecord, since: date, today: date, *, hide_weight: bool = False
) -> BodyReview:
    """What changed about her body since the last review, and what to measure."""
    return review_of(body_page(record, today, hide_weight=hide_weight), record, since, today)


def review_of(page: BodyPage, record: BodyRecord, since: date, today: date) -> BodyReview:
    """The review from a page that is computed already."""
    before = verdict_words(record.up_to(since).measurements, record.training)
    view, week_on = page.weight, today + timedelta(weeks=1)
    soon = {one.site for one in page.measure_next if one.day <= week_on}
    return BodyReview(
        changed=_changed(before, page.growth.sites),
        verdicts=page.growth.sites,
        weight=None if view is None else weight_sentence(view.trend, today),
        measure=tuple(one for one in page.measure_next if one.site in soon),
        joints=page.joints,
        notices=page.notices,
    )


def weight_sentence(trend: WeightTrend, today: date) -> str:
    """The weight trend in one sentence; no direction is named that the interval leaves open.

    A trend of old is one of then, and says when it ended.
    """
    span = f"{signed_span(trend.low95, trend.high95, 2)} kg a week"
    way = "shows no sure direction"
    if trend.low95 > 0 or trend.high95 < 0:
        way = f"is {'rising' if trend.low95 > 0 else 'falling'}"
    if weighed_lately(trend, today):
        return f"Weight {way}: {span}."
    was = way.replace("is ", "was ").replace("shows", "showed")
    return f"Last weighed on {trend.day:%-d %B %Y}; until then weight {was}: {span}."


def weighed_lately(trend: WeightTrend, today: date) -> bool:
    """Whether the trend may be told as one of now, and led on."""
    return today - trend.day <= _FRESH


def measure_next(report: GrowthReport, today: date) -> tuple[MeasureNext, ...]:
    """Girths to take, the soonest first; those not yet settled before the routine ones."""
    asked = [_from_verdict(verdict, today) for verdict in report.sites]
    for one in report.waiting:
        day = one.day + timedelta(weeks=_USUAL_WEEKS)
        say = "Measured once so far: a second date is needed."
        landmark = LANDMARKS[Site(one.site)]
        asked.append(MeasureNext(one.site, one.side, day, _READINGS, landmark, say, day <= today))
    return tuple(sorted(asked, key=lambda one: (one.day, one.site, one.side or "")))


def _from_verdict(verdict: SiteVerdict, today: date) -> MeasureNext:
    reading = verdict.next_reading
    nearest = verdict.end + timedelta(days=7 // reading.per_week)
    day = reading.date if verdict.verdict is not Verdict.OPEN else nearest
    return MeasureNext(
        verdict.site,
        verdict.side.value if verdict.side else None,
        day,
        reading.readings,
        LANDMARKS[Site(verdict.site)],
        reading.say,
        day <= today,
    )


def weight_view(record: BodyRecord) -> WeightView | None:
    """The weight trend with its chart; None before two days were weighed."""
    if len({one.day for one in record.weighings}) < 2:
        return None
    trend, points = weight_with_points(record.weighings, record.periods)
    return WeightView(trend, points, _like_day(points, record.periods))


def _like_day(points: Sequence[TrendPoint], periods: tuple[date, ...]) -> str:
    if not periods or alike(points[0].day, points[-1].day, periods) is not False:
        return ""
    return (
        "First and last weighing stand at unlike days of the cycle; up to half a kilogram between "
        "them may be water."
    )


def _changed(
    words: Mapping[tuple[str, Side | None], Verdict], now: Sequence[SiteVerdict]
) -> tuple[str, ...]:
    changed = []
    for one in now:
        former = words.get((one.site, one.side), Verdict.OPEN)
        if former is not one.verdict:
            changed.append(f"{one.say} Before this week: {former.value}.")
    return tuple(changed)
