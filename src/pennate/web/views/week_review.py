"""The weekly review: one page to read and to print; never a grade."""

from __future__ import annotations

from dataclasses import dataclass

from pennate.app.body_today import BodyToday, Shown, cautions_on
from pennate.app.week_review import ExerciseNext, WeekReview
from pennate.core.cautions import Caution
from pennate.core.percent import signed
from pennate.estimate import Step
from pennate.web.views.body import ToMeasure, VerdictWords, site_rows, to_measure
from pennate.web.words import plural

MOST_NAMED = 5
"""Exercises whose strength moved that are named one by one; the table has the others."""
STEP_WORDS = {
    Step.RAISE: "raise",
    Step.HOLD: "hold",
    Step.LOWER: "lower",
    Step.WIDER_RANGE: "more reps first",
    Step.MORE_SETS: "a set more",
    Step.SWAP: "swap",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class NextRow:
    """One exercise: what comes next and why."""

    exercise: str
    name: str
    days: str
    step: str
    load: str
    reason: str
    trend: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WeekReviewView:
    """The page of the weekly review."""

    title: str
    about: str
    changed: tuple[str, ...]
    rows: tuple[NextRow, ...]
    verdicts: tuple[tuple[str, VerdictWords], ...]
    weight: str
    lighter: str
    layoff: str
    joints: tuple[str, ...]
    notices: tuple[str, ...]
    measure: tuple[ToMeasure, ...]
    questions: tuple[str, ...]
    cautions: tuple[Caution, ...]


def week_review_view(seen: WeekReview, now: BodyToday) -> WeekReviewView:
    """The page of a review."""
    body = seen.body
    verdicts = tuple((row.name, one) for row in site_rows(now) for one in row.verdicts)
    return WeekReviewView(
        title=f"Week to {seen.until:%-d %B}",
        about=_about(seen),
        changed=_changed(seen),
        rows=tuple(_row(one) for one in seen.exercises if one.next is not None),
        verdicts=verdicts,
        weight=body.weight or "",
        lighter=seen.lighter.say if seen.lighter else "",
        layoff=seen.layoff.say if seen.layoff else "",
        joints=tuple(one.say[0].upper() + one.say[1:] for one in body.joints),
        notices=body.notices,
        measure=to_measure(body.measure),
        questions=seen.questions,
        cautions=cautions_on(now, Shown(change=bool(verdicts) or body.weight is not None)),
    )


def _about(seen: WeekReview) -> str:
    before = f"{seen.sets_before:.0f} a week in the month before"
    return (
        f"{seen.sessions} of {plural(seen.planned, 'session')}, {plural(seen.sets, 'working set')};"
        f" {before}"
    )


def _changed(seen: WeekReview) -> tuple[str, ...]:
    """Verdicts with another word than a week ago, and strength that clearly moves."""
    clear = sorted((one for one in seen.exercises if one.clear), key=lambda one: -abs(one.month))
    strength = [
        f"{one.name}: strength {signed(100 * one.month)} % in four weeks"
        f" (± {100 * one.month_give:.1f})."
        for one in clear[:MOST_NAMED]
    ]
    if (others := len(clear) - MOST_NAMED) > 0:
        strength.append(f"{plural(others, 'other exercise')} moved as clearly; see below.")
    stalled = [f"{one.name}: {one.halt}." for one in seen.exercises if one.halt]
    return (*seen.body.changed, *strength, *stalled)


def _row(one: ExerciseNext) -> NextRow:
    found = one.next
    step = STEP_WORDS[found.step] if found else ""
    reason = found.reason if found else ""
    return NextRow(
        exercise=one.exercise,
        name=one.name,
        days=", ".join(day[:3] for day in one.days),
        step=step,
        load=one.load,
        reason=reason[:1].upper() + reason[1:],
        trend=f"{signed(100 * one.month)} ± {100 * one.month_give:.1f} %",
    )
