"""The audit of a week: findings, and the single change that mends each most.

A fix is computed: every candidate change is made, the week audited again, and the change
kept that takes away most of what the findings weigh, small changes first.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from pennate.core.dose import Dose
from pennate.core.evidence.audit import CHANGE_COST, LOST_WORTH
from pennate.core.muscles import GROUP_SHARES, Group, Joint, Part
from pennate.core.prescribed import Week
from pennate.core.week_dose import Gap, gaps
from pennate.core.week_effect import group_benefits
from pennate.core.week_time import Minutes
from pennate.plan.findings import findings
from pennate.plan.mend import Mend, mends
from pennate.plan.seen import Finding, Looking, Seen, see

FEWEST_POINTS = 0.05  # number: points below which a mend is no mend
BESIDE = 0.1  # number: how much a fix for one finding is liked for mending others too
MOST_BESIDE = 2  # so that mending what is unsafe does not choose the fix of everything else
FIVE_MINUTES = 5  # number: the unit in which minutes weigh beside a set


@dataclass(frozen=True, slots=True)
class Fix:
    """A change and what auditing again says of it."""

    what: str
    week: Week
    dose: Mapping[Group, float]
    """Change of weekly dose, where it changes."""
    minutes: float
    """Change of the week's minutes."""
    mends: tuple[str, ...]
    """Ids of the findings that are gone after it."""
    brings: tuple[str, ...]
    """What is found after it that was not before, each in its sentence."""
    cost: float
    """How large the change is, and what it gives up."""
    points: float
    """How much less there is to mend, the change's own cost taken off."""


@dataclass(frozen=True, slots=True)
class Audited:
    """A week, everything found, and the best fix for each finding."""

    week: Week
    groups: Mapping[Group, Dose]
    parts: Mapping[Part, Dose]
    minutes: Mapping[str, Minutes]
    gaps: Mapping[Group, tuple[Gap, ...]]
    joints: Mapping[str, Mapping[Joint, float]]
    findings: tuple[Finding, ...]
    fixes: Mapping[str, Fix]
    """By finding id; a finding without an entry has no single change that mends it."""
    best: Fix | None
    """The one change that mends most of all."""

    @property
    def good(self) -> bool:
        """Whether nothing was found."""
        return not self.findings


def audit(week: Week, looking: Looking, *, with_fixes: bool = True) -> Audited:
    """Audit a week; deterministic."""
    seen = see(week, looking)
    found = findings(seen)
    fixes, best = _fixes(seen, found) if with_fixes and found else ({}, None)
    return Audited(
        week,
        seen.dose.groups,
        seen.dose.parts,
        seen.minutes,
        gaps(seen.dose),
        seen.joints,
        found,
        fixes,
        best,
    )


def _fixes(seen: Seen, found: tuple[Finding, ...]) -> tuple[dict[str, Fix], Fix | None]:
    fixes: dict[str, Fix] = {}
    scores: dict[str, float] = {}
    best: Fix | None = None
    for mend in mends(seen, lacking_parts(found), _sore(found)):
        fix, left = _judge(seen, found, mend)
        if fix.points <= 0:
            continue
        harm = _harm(found, left)
        for one in found:
            eased = one.points - left.get(one.id, 0.0)
            score = eased - harm - fix.cost + BESIDE * min(fix.points, MOST_BESIDE)
            if eased > FEWEST_POINTS and score > scores.get(one.id, 0.0) + 1e-9:
                scores[one.id], fixes[one.id] = score, fix
        if fix.points > FEWEST_POINTS and (best is None or fix.points > best.points + 1e-9):
            best = fix
    return fixes, best


def _harm(found: tuple[Finding, ...], left: Mapping[str, float]) -> float:
    """Points that a change adds to other findings or brings anew."""
    before = {one.id: one.points for one in found}
    return sum(max(0.0, points - before.get(name, 0.0)) for name, points in left.items())


def lacking_parts(found: tuple[Finding, ...]) -> frozenset[Part]:
    """The parts that findings say get too little."""
    parts: set[Part] = set()
    for finding in found:
        kind, subject = finding.id.split(":")[:2]
        if kind == "neglected":
            parts.add(Part(subject))
        elif kind == "low":
            parts |= set(GROUP_SHARES[Group(subject)])
    return frozenset(parts)


def _sore(found: tuple[Finding, ...]) -> frozenset[Joint]:
    subjects = [one.id.split(":")[1] for one in found if one.id.startswith("joint:")]
    return frozenset(Joint(subject) for subject in subjects)


def _judge(seen: Seen, found: tuple[Finding, ...], mend: Mend) -> tuple[Fix, dict[str, float]]:
    again = see(mend.week, seen.looking, like=seen)
    now = findings(again)
    left = {one.id: one.points for one in now}
    before = {one.id for one in found}
    dose = {
        group: again.dose.groups[group].value - seen.dose.groups[group].value for group in Group
    }
    minutes = _total(again) - _total(seen)
    size = mend.size + CHANGE_COST * (sum(map(abs, dose.values())) + abs(minutes) / FIVE_MINUTES)
    cost = size + LOST_WORTH * _given_up(seen, again)
    gained = sum(one.points for one in found) - sum(left.values())
    fix = Fix(
        mend.what,
        mend.week,
        {group: change for group, change in dose.items() if abs(change) > 1e-9},
        minutes,
        tuple(one.id for one in found if one.id not in left),
        tuple(one.what for one in now if one.id not in before),
        cost,
        gained - cost,
    )
    return fix, left


def _given_up(before: Seen, after: Seen) -> float:
    """Benefit that groups lose, in √sets; a priority counts twice."""
    was, now = group_benefits(before.dose), group_benefits(after.dose)
    first = before.week.priorities
    return sum(max(0.0, was[g] - now[g]) * (2 if g in first else 1) for g in Group)


def _total(seen: Seen) -> float:
    return sum(minutes.value for minutes in seen.minutes.values())
