"""The findings beneath the lanes, each with its best change, and what the log says of now."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from pennate.app.week_audit import WeekAudit
from pennate.core.dose import Dose
from pennate.core.muscles import Group
from pennate.core.plural import plural
from pennate.core.question import Question
from pennate.plan.audit import Audited, Fix
from pennate.plan.recovery import Recovery
from pennate.plan.seen import Finding
from pennate.sheets.lanes import number

SHOWN = 5
"""Findings shown at once; the smaller ones open."""
GROUPS_SHOWN = 4
"""Groups named in the effect of a change, largest first."""
HALF_A_REP = 0.5
"""Expected loss from which a group is named."""
LITTLE = 0.05
"""Fractional sets below which a dose has not changed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FixView:
    """A change she can make in one touch, and what it does."""

    finding: str
    what: str
    effect: str
    also: str
    brings: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FindingView:
    """One finding: what, why, and where the number comes from."""

    what: str
    why: str
    facts: tuple[tuple[str, str], ...]
    advice: str
    fix: FixView | None


@dataclass(frozen=True, slots=True, kw_only=True)
class AuditView:
    """All that stands beneath the lanes."""

    key: str
    ready: bool
    good: bool
    best: FixView | None
    findings: tuple[FindingView, ...]
    smaller: tuple[FindingView, ...]
    questions: tuple[str, ...]


def audit_view(found: WeekAudit) -> AuditView:
    """The findings of a week, most pressing first."""
    audited = found.audited
    views = [_finding(one, audited, found) for one in audited.findings]
    best = audited.best if len(audited.findings) > 1 else None
    return AuditView(
        key=found.key,
        ready=found.ready,
        good=audited.good,
        best=fix_view("best", best, audited) if best else None,
        findings=tuple(views[:SHOWN]),
        smaller=tuple(views[SHOWN:]),
        questions=tuple(_question(one) for one in found.questions),
    )


def _finding(one: Finding, audited: Audited, found: WeekAudit) -> FindingView:
    fix = audited.fixes.get(one.id)
    nothing = "" if fix or not found.ready or one.advice else "No single change mends this."
    return FindingView(
        what=one.what,
        why=one.why,
        facts=(("number", one.number), ("from", one.source), ("how sure", one.certainty)),
        advice=one.advice or nothing,
        fix=fix_view(one.id, fix, audited) if fix else None,
    )


def fix_view(finding: str, fix: Fix, audited: Audited) -> FixView:
    """A change in words, with the dose before and after."""
    others = [one for one in fix.mends if one != finding]
    named = finding != "best"
    return FixView(
        finding=finding,
        what=fix.what,
        effect=effect_words(fix, audited.groups),
        also=f"mends {plural(len(others), 'finding')}{' more' if named else ''}" if others else "",
        brings=fix.brings,
    )


def effect_words(fix: Fix, before: Mapping[Group, Dose]) -> str:
    """“hamstrings 2 → 5, back 1 → 1½; 9 minutes more”."""
    changed = sorted(fix.dose.items(), key=lambda pair: -abs(pair[1]))
    doses = [
        f"{group.value} {number(was)} → {number(was + change)}"
        for group, change in changed[:GROUPS_SHOWN]
        if abs(change) > LITTLE and number(was := _value(before[group])) != number(was + change)
    ]
    return "; ".join(
        filter(None, (", ".join(doses) or "the dose stays", minutes_change(fix.minutes)))
    )


def _value(dose: Dose) -> float:
    return dose.value


def minutes_change(minutes: float) -> str:
    """“9 minutes more”, “3 minutes less”, “as long as before”."""
    whole = round(minutes)
    if not whole:
        return "as long as before"
    return f"{plural(abs(whole), 'minute')} {'more' if whole > 0 else 'less'}"


def _question(one: Question) -> str:
    return f"{one.where.field}: {one.text}" if one.where else one.text


@dataclass(frozen=True, slots=True, kw_only=True)
class StandingRow:
    """One group now: hours since its last hard sets, and what it would lose."""

    group: str
    since: str
    lost: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StandingView:
    """What a session now would meet, from her log."""

    summary: str
    rows: tuple[StandingRow, ...]


def standing_view(standing: tuple[Recovery, ...]) -> StandingView | None:
    """The groups that her log knows; None before there is a log."""
    known = [one for one in standing if one.hours is not None]
    if not known:
        return None
    known.sort(key=lambda one: (-one.reps_lost, one.group))
    short = [one for one in known if one.reps_lost >= HALF_A_REP]
    named = ", ".join(f"{one.group.value} about {one.reps_lost:.1f}" for one in short)
    return StandingView(
        summary=f"Not rested yet, reps a set would lose now: {named}"
        if named
        else "Every muscle is rested: a set now would lose less than half a rep",
        rows=tuple(
            StandingRow(
                group=one.group.value,
                since=f"{one.hours:.0f} h",
                lost=f"{one.reps_lost:.1f}" if one.reps_lost >= LITTLE else "none",
            )
            for one in known
        ),
    )
