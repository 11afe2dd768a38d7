"""Joint pain over days and weeks: settled, lingering, rising, and when a clinician is due."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

from pennate.core.evidence.body_recovery import PAIN_COUNTS, PAIN_GAP_DAYS, PAIN_LINGERS_DAYS
from pennate.core.readiness import PainAction, pain_action


class PainCourse(StrEnum):
    """What the record of a joint asks for; the value is what people read."""

    QUIET = "nothing to do"
    WATCH = "reduce load, range or exercise, and watch it"
    SWAP = "swap the exercises that hurt"
    CLINICIAN = "see a clinician"


@dataclass(frozen=True, slots=True)
class PainReport:
    """Pain of a joint in a session, 0–10, and on the morning after if she says."""

    day: date
    joint: str
    score: int
    next_morning: int | None = None
    alarming: bool = False
    """Sharp, swelling, locking or giving way."""


@dataclass(frozen=True, slots=True)
class JointCourse:
    """A joint, what its record asks for, and why."""

    joint: str
    course: PainCourse
    say: str


def courses(reports: Iterable[PainReport], today: date) -> tuple[JointCourse, ...]:
    """The course of every joint that hurt, the gravest first."""
    by_joint: dict[str, list[PainReport]] = defaultdict(list)
    for report in sorted(reports, key=lambda one: one.day):
        if report.day <= today:
            by_joint[report.joint].append(report)
    found = [_course(joint, group, today) for joint, group in sorted(by_joint.items())]
    order = list(PainCourse)
    return tuple(
        sorted(
            (one for one in found if one.course is not PainCourse.QUIET),
            key=lambda one: -order.index(one.course),
        )
    )


def sore_days(reports: Sequence[PainReport], today: date) -> int:
    """Days from the first to the last report of a joint's present spell of pain."""
    spell = _spell(sorted(reports, key=lambda one: one.day), today)
    return (spell[-1].day - spell[0].day).days if spell else 0


def stopping_now(reports: Sequence[PainReport], today: date) -> bool:
    """Whether the last that was said of a sore joint stops what loads it."""
    latest = max(reports, key=lambda one: one.day, default=None)
    if latest is None or not sore_now(reports, today):
        return False
    return pain_action(latest.score, alarming=latest.alarming) is PainAction.STOP


def sore_now(reports: Sequence[PainReport], today: date) -> bool:
    """Whether a joint's spell of pain that counts reaches up to now."""
    return bool(_spell(sorted(reports, key=lambda one: one.day), today))


def unsettled(reports: Sequence[PainReport], today: date) -> bool:
    """Whether a joint had not settled by next morning, or hurts more than the week before."""
    spell = _spell(sorted(reports, key=lambda one: one.day), today)
    if not spell:
        return False
    morning = spell[-1].next_morning
    return (morning is not None and morning >= PAIN_COUNTS) or _rising(reports, today)


def _course(joint: str, reports: Sequence[PainReport], today: date) -> JointCourse:
    spell = _spell(reports, today)
    if not spell:
        return JointCourse(joint, PainCourse.QUIET, "")
    course, why = _grave(spell) or _settling(spell[-1], reports, today)
    return JointCourse(joint, course, f"{joint}: {why}")


def _grave(spell: Sequence[PainReport]) -> tuple[PainCourse, str] | None:
    """What only a clinician can judge."""
    days = (spell[-1].day - spell[0].day).days
    if any(report.alarming for report in spell):
        why = "sharp pain, swelling, locking or giving way. Have it looked at."
        return PainCourse.CLINICIAN, why
    if days > PAIN_LINGERS_DAYS:
        why = f"pain of {PAIN_COUNTS:.0f} or more for {days} days. See a clinician."
        return PainCourse.CLINICIAN, why
    return None


def _settling(
    latest: PainReport, reports: Sequence[PainReport], today: date
) -> tuple[PainCourse, str]:
    if pain_action(latest.score) is PainAction.STOP:
        return (
            PainCourse.SWAP,
            f"pain of {latest.score} on {latest.day:%-d %B}. Stop what brought it on.",
        )
    if latest.next_morning is not None and latest.next_morning >= PAIN_COUNTS:
        return PainCourse.SWAP, "not settled by the next morning. Swap the exercise that hurt."
    if _rising(reports, today):
        return PainCourse.SWAP, "more pain than the week before. Swap the exercise that hurts."
    why = f"pain of {latest.score}. Less load, range or another exercise for now."
    return PainCourse.WATCH, why


def _spell(reports: Sequence[PainReport], today: date) -> list[PainReport]:
    """The latest run of pain that counts, if it reaches up to now."""
    spell: list[PainReport] = []
    for report in reports:
        if report.score < PAIN_COUNTS and not report.alarming:
            continue
        if spell and (report.day - spell[-1].day).days > PAIN_GAP_DAYS:
            spell = []
        spell.append(report)
    return spell if spell and (today - spell[-1].day).days <= PAIN_GAP_DAYS else []


def _rising(reports: Sequence[PainReport], today: date) -> bool:
    """Whether the worst of this week is above the worst of the week before."""
    week, fortnight = today - timedelta(days=7), today - timedelta(days=2 * 7)
    this = [r.score for r in reports if r.day > week]
    last = [r.score for r in reports if fortnight < r.day <= week]
    return bool(this and last) and max(this) > max(last) and max(this) >= PAIN_COUNTS
