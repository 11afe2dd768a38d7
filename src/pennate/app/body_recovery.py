"""Recovery from her own log: sleep and form, reports, the cycle, layoffs, a lighter week."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from math import sqrt
from operator import attrgetter
from statistics import fmean
from typing import TYPE_CHECKING

from pennate.app.back_again import pause_before
from pennate.app.body_notes import (
    Night,
    bleeding_days,
    check_ins,
    choices,
    nights,
    pain_reports,
    periods,
)
from pennate.app.book import Book
from pennate.app.illness import after_illness, illness_now
from pennate.body.cycle import (
    CycleLength,
    clinician_notices,
    cycle_day,
    cycle_length,
    next_start,
)
from pennate.body.pain import JointCourse, PainCourse, PainReport, courses
from pennate.body.recovery import (
    Effect,
    Form,
    Fortnight,
    LayoffReturn,
    LighterWeek,
    cycle_effect,
    fortnight,
    layoff_return,
    lighter_week,
    report_effect,
    sleep_effect,
)
from pennate.core.evidence.body_pages import PERIOD_DAYS, SHORT_NIGHT_HOURS
from pennate.core.evidence.body_recovery import PAIN_COUNTS

if TYPE_CHECKING:
    from pennate.estimate import StrengthModel
    from pennate.estimate.state import TracePoint

RECENT = timedelta(days=14)
STRENGTH_SPAN = timedelta(weeks=8)
"""How far back her strength is compared for a lighter week."""
COMPLAINTS = 2
"""Short nights and days of low energy in two weeks that say together that she is tired."""
LEAST_TOLD = 0.1
"""A session whose sets say less than a tenth of its day effect says nothing of form."""
PAIN_SHOWN_DAYS = 90


@dataclass(frozen=True, slots=True, kw_only=True)
class Recovery:
    """What her log says of recovery, and what it asks for."""

    nights: tuple[Night, ...]
    """Of the last four weeks."""
    mean_hours: float | None
    counted_nights: int
    """Nights noted that the mean is of."""
    sleep: Effect
    reports: Effect
    sessions: int
    """Sessions whose form is known."""
    joints: tuple[JointCourse, ...]
    pain: tuple[PainReport, ...]
    """Of the last three months, newest first."""
    fortnight: Fortnight
    """What a lighter week is judged by."""
    complaint: bool
    """Whether she says so too."""
    lighter: LighterWeek | None
    layoff: LayoffReturn | None
    days_off: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class CycleView:
    """Her logged cycle. Nothing here changes a load."""

    starts: tuple[date, ...]
    day: int | None
    """Day of the cycle today, only as long as the last start is no older than usual."""
    length: CycleLength
    coming: tuple[date, date] | None
    effect: Effect
    notices: tuple[str, ...]
    bleeding_days: int | None


@dataclass(frozen=True, slots=True)
class Forms:
    """Every session before today as two plain series, oldest first."""

    surprises: tuple[Form, ...]
    """Against what the model forecast: what a short night or a report is judged by."""
    strength: tuple[Form, ...]
    """Against eight weeks ago: the level the model believed, with the day's surprise."""


def forms(book: Book) -> Forms:
    """Her sessions as the strength model sees them; computed once a log."""
    return forms_of(book.model_before(book.today), book.today)


def forms_of(model: StrengthModel, today: date) -> Forms:
    """Sessions as the model saw them, performance against its forecast.

    The model's day effect is drawn towards nought by what its sets cannot tell; that is
    undone here, because her own relation is shrunk once, by `sleep_effect` and its like. How
    little a session could tell goes along as its error.
    """
    settled = model.settled()
    _, wide = settled.day_effect_on(date.min, "")
    shifts = _level_shifts(settled.points.values(), today - STRENGTH_SPAN)
    surprises, strength = [], []
    for (day, _), (mean, sd) in settled.day_effects.items():
        told = 1 - (sd / wide) ** 2
        if told < LEAST_TOLD:
            continue
        form = Form(day, mean / told, error=wide * sqrt((1 - told) / told))
        surprises.append(form)
        if day in shifts:
            strength.append(replace(form, surprise=form.surprise + shifts[day]))
    by_day = attrgetter("day")
    return Forms(tuple(sorted(surprises, key=by_day)), tuple(sorted(strength, key=by_day)))


def _level_shifts(tracks: Iterable[Sequence[TracePoint]], since: date) -> dict[date, float]:
    """By day, the mean change of the levels trained since each one's first day of the stretch."""
    shifts: dict[date, list[float]] = defaultdict(list)
    for points in tracks:
        lately = [point for point in points if point.day >= since]
        for point in lately:
            shifts[point.day].append(point.log_load - lately[0].log_load)
    return {day: fmean(found) for day, found in shifts.items()}


def marked(sessions: Sequence[Form], is_so: Callable[[date], bool]) -> tuple[Form, ...]:
    """The sessions, each marked where something was so on its day."""
    return tuple(replace(form, marked=is_so(form.day)) for form in sessions)


def short_nights(book: Book) -> frozenset[date]:
    """Days after a short night, by the hours noted or by her check-in."""
    noted = {night.day for night in nights(book) if night.hours < SHORT_NIGHT_HOURS}
    said = {e.day for e in check_ins(book) if e.body.get("short_sleep")}
    return frozenset(noted | said)


def reported_days(book: Book) -> frozenset[date]:
    """Days on which she reported low energy or soreness before the session."""
    return frozenset(
        e.day for e in check_ins(book) if e.body.get("low_energy") or e.body.get("sore")
    )


def recovery(book: Book, known_forms: Forms) -> Recovery:
    """The page Recovery on this day."""
    sessions = known_forms.surprises
    today, reports = book.today, pain_reports(book)
    known = [night for night in nights(book) if night.day > today - 2 * RECENT]
    lately = [night.hours for night in known if night.day > today - RECENT]
    last = book.history().sets[-1].day if len(book.history()) else None
    off = None if last is None else (today - last).days
    joints = courses(reports, today)
    short, reported = short_nights(book), reported_days(book)
    complaint = _complains(book, reports, today)
    return Recovery(
        nights=tuple(known),
        mean_hours=fmean(lately) if lately else None,
        counted_nights=len(lately),
        sleep=sleep_effect(marked(sessions, short.__contains__)),
        reports=report_effect(marked(sessions, reported.__contains__)),
        sessions=len(sessions),
        joints=joints,
        pain=tuple(r for r in reversed(reports) if (today - r.day).days <= PAIN_SHOWN_DAYS),
        fortnight=fortnight(known_forms.strength, today),
        complaint=complaint,
        lighter=lighter_week(known_forms.strength, today, complaint=complaint),
        layoff=coming_back(book),
        days_off=off,
    )


def coming_back(book: Book) -> LayoffReturn | None:
    """How she comes back: on the day that ends her days off, and after a pause or an illness."""
    history, today = book.history(), book.today
    pause = pause_before(history, today)
    if pause is not None:
        return layoff_return(pause.days, pause.days_in)
    if (ill := after_illness(illness_now(book, today))) is not None:
        return ill
    return layoff_return((today - history.sets[-1].day).days) if len(history) else None


def _complains(book: Book, reports: Sequence[PainReport], today: date) -> bool:
    """Whether she says so too: short nights, low energy, or pain that grows or lingers."""
    since = today - RECENT
    short = [day for day in short_nights(book) if since < day <= today]
    energy = [e for e in check_ins(book) if e.day >= since and e.body.get("low_energy")]
    grave = {PainCourse.SWAP, PainCourse.CLINICIAN}
    joints = any(one.course in grave for one in courses(reports, today))
    return len(short) + len(energy) >= COMPLAINTS or joints


def settled_question(book: Book) -> PainReport | None:
    """Pain that counted yesterday and whose morning was not noted yet."""
    eve = book.today - timedelta(days=1)
    return next(
        (
            report
            for report in pain_reports(book)
            if report.day == eve and report.score >= PAIN_COUNTS and report.next_morning is None
        ),
        None,
    )


def cycle_view(book: Book, known_forms: Forms) -> CycleView | None:
    """Her cycle, if she turned it on."""
    sessions = known_forms.surprises
    chosen = choices(book)
    if not chosen.cycle:
        return None
    starts, today = periods(book), book.today
    day = cycle_day(today, starts)
    length = cycle_length(starts)
    within = [form for form in sessions if _known_day(form.day, starts) is not None]
    return CycleView(
        starts=starts,
        day=day if day is not None and day <= length.high else None,
        length=length,
        coming=next_start(starts) if starts else None,
        effect=cycle_effect(marked(within, lambda on: (_known_day(on, starts) or 0) <= _EARLY)),
        notices=clinician_notices(
            starts, today, expected=chosen.periods_expected, bleeding_days=bleeding_days(book)
        ),
        bleeding_days=bleeding_days(book),
    )


_EARLY = int(PERIOD_DAYS)


def _known_day(day: date, starts: Sequence[date]) -> int | None:
    found = cycle_day(day, starts)
    return found if found is not None and found <= cycle_length(starts).high else None
