"""Audit, plan, re-plan and swaps as plain documents for JSON."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from pennate.app.planning import Planned, day_documents
from pennate.app.week_audit import FileAudit
from pennate.app.week_block import BlockPlan
from pennate.app.week_happened import AskedAgain
from pennate.app.week_swaps import Ready
from pennate.core.dose import Dose
from pennate.core.exercise import Catalogue
from pennate.core.muscles import Group
from pennate.core.quantities import exact_text
from pennate.core.week_dose import week_dose
from pennate.core.week_effect import Effect
from pennate.core.week_time import Minutes
from pennate.files.catalogue import read_catalogue
from pennate.plan.audit import Fix
from pennate.plan.replan import Replanned
from pennate.plan.substitute import Substitute


def _dose(dose: Dose) -> dict[str, float]:
    return {"sets": round(dose.value, 2), "low": round(dose.low, 2), "high": round(dose.high, 2)}


def _minutes(minutes: Minutes) -> dict[str, float]:
    return {
        "minutes": round(minutes.value, 1),
        "low": round(minutes.low, 1),
        "high": round(minutes.high, 1),
    }


def _effect(effect: Effect) -> dict[str, float]:
    return {
        "median_pct": round(effect.median, 2),
        "low90_pct": round(effect.low, 2),
        "high90_pct": round(effect.high, 2),
    }


def _fix(fix: Fix | None) -> dict[str, Any] | None:
    if fix is None:
        return None
    return {
        "what": fix.what,
        "dose": {group.value: round(change, 2) for group, change in fix.dose.items()},
        "minutes": round(fix.minutes, 1),
        "mends": list(fix.mends),
        "brings": list(fix.brings),
    }


def audit_document(found: FileAudit) -> dict[str, Any]:
    """An audit as a document."""
    audited = found.audited
    return {
        "name": audited.week.name,
        "good": audited.good,
        "pauses": found.pauses,
        "groups": {group.value: _dose(dose) for group, dose in audited.groups.items()},
        "parts": {part.value: _dose(dose) for part, dose in sorted(audited.parts.items())},
        "days": {day: _minutes(minutes) for day, minutes in audited.minutes.items()},
        "joints": {
            day: {joint.value: round(load, 1) for joint, load in joints.items()}
            for day, joints in audited.joints.items()
        },
        "gaps": {
            group.value: [
                {"since": gap.since, "until": gap.until, "hours": gap.hours} for gap in found
            ]
            for group, found in audited.gaps.items()
        },
        "findings": [
            {
                "id": one.id,
                "what": one.what,
                "why": one.why,
                "number": one.number,
                "source": one.source,
                "certainty": one.certainty,
                "fix": _fix(audited.fixes.get(one.id)),
            }
            for one in audited.findings
        ],
        "best": _fix(audited.best),
        "pace": {"factor": round(found.pace.factor, 3), "sessions": found.pace.sessions},
        "questions": [
            {
                "about": one.about,
                "field": one.field,
                "value": one.value,
                "where": str(one.where),
                "text": one.text,
            }
            for one in found.questions
        ],
    }


def plan_document(planned: Planned, catalogue: Catalogue) -> dict[str, Any]:
    """A plan as a document: objective, bound, gap, seconds, days, binding and more."""
    known = catalogue.with_own(planned.week.own_exercises)
    solved = planned.solved
    days = day_documents(planned.week, known)
    for day in days:
        minutes = planned.minutes.get(str(day["day"]))
        day.update(_minutes(minutes) if minutes else {})
    return {
        "objective": solved.objective,
        "bound": solved.bound if solved.bound < float("inf") else None,
        "gap": solved.gap if solved.bound < float("inf") else None,
        "seconds": round(planned.seconds, 3),
        "stopped": solved.stopped,
        "days": days,
        "dose": _doses(planned, known),
        "binding": list(planned.binding),
        "more": [
            {"what": one.what, "objective": round(one.objective, 3), **_effect(one.effect)}
            for one in planned.more
        ],
        "against_current": {g.value: _effect(e) for g, e in planned.against_current.items()},
        "bound_excludes": planned.excludes,
    }


def _doses(planned: Planned, known: Catalogue) -> dict[str, dict[str, float]]:
    groups = week_dose(planned.week, known).groups
    return {group.value: _dose(dose) for group, dose in groups.items()}


def replan_document(replanned: Replanned, asked: AskedAgain) -> dict[str, Any]:
    """A re-planned week as a document, with the days her log told."""
    known = asked.catalogue.with_own(replanned.week.own_exercises)
    return {
        "days": day_documents(replanned.week, known, asked.happened.pace),
        "by_log": dict(asked.by_log),
        "changes": list(replanned.changes),
        "dose_before": _rounded(replanned.before),
        "dose": _rounded(replanned.kept),
        "stopped": replanned.solved.stopped,
    }


def _rounded(doses: Mapping[Group, float]) -> dict[str, float]:
    return {group.value: round(dose, 2) for group, dose in doses.items()}


def swap_document(found: Sequence[Substitute], ready: Sequence[Ready] = ()) -> list[dict[str, Any]]:
    """Substitutes as a document, best first, the loads of those that were worked out."""
    at = {(one.one.exercise, one.one.kind): one for one in ready}
    return [
        {
            "exercise": one.exercise,
            "name": one.name,
            "keeps": round(one.keeps, 3),
            "less": [part.value for part in one.lost],
            "joints": {joint.value: change for joint, change in one.joints.items()},
            "equipment": one.kind.value,
            "minutes": round(one.minutes, 1),
            "because": one.because,
            "first_set": _first(at.get((one.exercise, one.kind))),
        }
        for one in found
    ]


def _first(ready: Ready | None) -> dict[str, Any] | None:
    if ready is None or ready.first is None or ready.first.load is None:
        return None
    load, likely = ready.first.load, ready.first.likely
    return {
        "item": ready.item,
        "load": exact_text(load.load.amount),
        "unit": load.load.unit.value,
        "load_is": load.reading.value,
        "put_on": load.words,
        "felt_kg": round(load.felt_kg, 2),
        "reps": str(ready.first.reps) if ready.first.reps else None,
        "likely": [likely.low, likely.middle, likely.high] if likely else None,
    }


def block_document(plan: BlockPlan) -> dict[str, Any]:
    """A block as a document: its weeks in a line each, and what is expected."""
    return {
        "note": plan.note,
        "weeks": [
            {
                "week": one.number,
                "lighter": one.lighter,
                "hard_sets": round(one.sets, 1),
                "reserve": one.reserve,
                "minutes": round(one.minutes, 1),
                "days": day_documents(one.week, read_catalogue(one.week.own_exercises), plan.pace),
            }
            for one in plan.weeks
        ],
        "expected": {group.value: _effect(effect) for group, effect in plan.expected.items()},
    }
