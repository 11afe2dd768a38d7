"""Findings from the log: left and right, and hours since the last hard sets."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest

from pennate.core.muscles import Group
from pennate.plan.audit import audit
from pennate.plan.recovery import Bout, Recovery, recovery
from pennate.plan.seen import Finding, Looking
from pennate.plan.sides import SideGap, SideLog
from tests.plan.floor import FLOOR, day, sets, week

WEEK = week(day("Monday", ("split_squat", sets(3))), day("Tuesday", ("squat", sets(4))))
SMALL = Looking(catalogue=FLOOR)
NOW = datetime(2026, 3, 3, 12, tzinfo=UTC)


def _found(looking: Looking, kind: str) -> list[Finding]:
    audited = audit(WEEK, looking, with_fixes=False)
    return [one for one in audited.findings if one.id.startswith(kind)]


def _log(left: int, right: int, gap: SideGap | None = None, sessions: int = 6) -> SideLog:
    return SideLog(exercise="split_squat", left=left, right=right, sessions=sessions, gap=gap)


def test_a_weaker_side_is_told_with_its_interval() -> None:
    """Clear and larger than a rep: named, with sessions, and what to do."""
    looking = replace(SMALL, sides=(_log(24, 24, SideGap(0.08, 0.02)),))
    [found] = _found(looking, "sides-strength")
    assert "left side is 8 % weaker" in found.what
    assert "4 % to 13 % (95 %), 6 sessions" in found.number
    assert found.advice.startswith("Begin with the left")


@pytest.mark.parametrize(
    ("gap", "sessions"),
    [(SideGap(0.1, 0.06), 6), (SideGap(0.02, 0.005), 6), (SideGap(0.3, 0.02), 3)],
    ids=["within its error", "too small to matter", "too few sessions"],
)
def test_sides_within_their_error_are_no_finding(gap: SideGap, sessions: int) -> None:
    """No difference is told that the log cannot show."""
    looking = replace(SMALL, sides=(_log(24, 24, gap, sessions),))
    assert _found(looking, "sides") == []


@pytest.mark.parametrize(
    ("left", "right", "told"), [(24, 18, 1), (24, 22, 0), (6, 4, 0), (0, 5, 1)]
)
def test_fewer_sets_on_one_side_are_told(left: int, right: int, told: int) -> None:
    """Three sets and a tenth apart is a finding, a forgotten row is not."""
    looking = replace(SMALL, sides=(_log(left, right),))
    assert len(_found(looking, "sides-sets")) == told


def test_a_session_too_soon_is_found_and_mended() -> None:
    """Hard sets this morning, the same muscle tonight: named, and gone without those sets."""
    standing = (Recovery(Group.QUADS, 8, 2.7, 6),)
    looking = replace(SMALL, standing=standing, next_day="Tuesday")
    [found] = _found(looking, "soon:quads:Tuesday")
    assert "8 hours" in found.what
    fix = audit(WEEK, looking).fixes[found.id]
    again = audit(fix.week, looking, with_fixes=False)
    assert found.id not in {one.id for one in again.findings}


def test_hours_as_planned_are_no_finding() -> None:
    """A day after Monday's sets is what the week asks for on Tuesday; that is judged elsewhere."""
    standing = (Recovery(Group.QUADS, 24, 1.7, 6),)
    looking = replace(SMALL, standing=standing, next_day="Tuesday")
    assert _found(looking, "soon") == []


def test_single_joint_work_costs_less() -> None:
    """24 h after three sets to failure: 1.7 reps on multi-joint lifts, 0.5 on others (Korak 2015).

    A mix lies between, and of two bouts the one that costs more counts.
    """
    bout = Bout(NOW - timedelta(hours=24), 3.0, multi=0.5)
    old = Bout(NOW - timedelta(hours=96), 12.0)
    found = {one.group: one for one in recovery(NOW, {Group.BICEPS: (old, bout)})}
    assert found[Group.BICEPS].reps_lost == pytest.approx(1.1)
    assert found[Group.BICEPS].hours == 24


def test_push_without_pull_is_eased_step_by_step() -> None:
    """Each pull added makes the finding smaller, so that the fix is to pull more."""
    points = []
    for pulls in (0, 1, 2):
        one = week(day("Monday", ("bench", sets(8)), *([("row", sets(pulls))] if pulls else [])))
        found = audit(one, SMALL, with_fixes=False).findings
        points.append(next(f.points for f in found if f.id == "balance:push-pull"))
    assert points[0] > points[1] > points[2]
