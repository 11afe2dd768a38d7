"""What the log says beside the week as written: sides that differ, and hours too few."""

from __future__ import annotations

from collections.abc import Iterator

from pennate.core.evidence.audit import (
    FEWEST_SETS_APART,
    REPS_LOST_MULTI,
    SIDES_SETS_APART,
    SIDES_STRENGTH_APART,
    SOON_DOSE,
    SOON_REPS,
    WEIGHT_SMALL,
)
from pennate.core.percent import percent
from pennate.core.week_dose import HOURS_A_DAY, gaps
from pennate.plan.seen import Finding, Seen, few
from pennate.plan.sides import FEWEST_SESSIONS, SideLog

SIDES_WEEKS = 8  # number: weeks, about as long as growth takes to show
"""Weeks of the log that the sides are judged by."""


def side_sets(seen: Seen) -> Iterator[Finding]:
    """Fewer working sets on one side than on the other."""
    for log in seen.looking.sides:
        few, many = sorted((log.left, log.right))
        if many - few < max(FEWEST_SETS_APART, SIDES_SETS_APART * many):
            continue
        less = "left" if log.left < log.right else "right"
        yield Finding(
            f"sides-sets:{log.exercise}",
            f"{_name(seen, log)}: {many} sets on one side and {few} on the {less} "
            f"in {SIDES_WEEKS} weeks.",
            "A set on one side is no dose for the other.",
            f"{few} to {many} working sets in the log",
            "your log",
            "as sure as the log: a set that was done and not written looks the same",
            WEIGHT_SMALL * (many - few) / many,
            f"Begin with the {less}, and give both sides the same number of sets.",
        )


def side_strength(seen: Seen) -> Iterator[Finding]:
    """One side stronger than the other by more than the error."""
    for log in seen.looking.sides:
        gap = log.gap
        if gap is None or log.sessions < FEWEST_SESSIONS or not gap.clear:
            continue
        if abs(gap.share) < SIDES_STRENGTH_APART:
            continue
        weaker = "left" if gap.share > 0 else "right"
        low, high = sorted(map(abs, gap.ends))
        yield Finding(
            f"sides-strength:{log.exercise}",
            f"{_name(seen, log)}: the {weaker} side is {percent(abs(gap.share))} weaker.",
            "No trial shows that such a difference harms; it tells that the weaker side sets the "
            "load of both, or works harder.",
            f"{percent(low)} to {percent(high)} (95 %), {log.sessions} sessions of both sides",
            "your log by the strength model; what the first side costs the second is taken off",
            "as sure as the reserve you note; sets stopped at the asked number tell little",
            WEIGHT_SMALL * min(1.0, abs(gap.share) / (4 * SIDES_STRENGTH_APART)),
            f"Begin with the {weaker}, and stop the other at the same reps.",
        )


def _name(seen: Seen, log: SideLog) -> str:
    known = seen.known.exercises.get(log.exercise)
    return known.name if known else log.exercise


def too_soon(seen: Seen) -> Iterator[Finding]:
    """The next session trains a group earlier after its last hard sets than the week plans."""
    day = seen.looking.next_day
    planned = gaps(seen.dose)
    for one in seen.looking.standing:
        if one.hours is None or one.reps_lost < SOON_REPS:
            continue
        before = [gap.hours for gap in planned[one.group] if gap.until == day]
        dose = seen.dose.group_on(day, one.group).value
        if dose < SOON_DOSE or (before and one.hours > before[0] - HOURS_A_DAY / 2):
            continue
        yield Finding(
            f"soon:{one.group.value}:{day}",
            f"{day} trains {one.group.value} {one.hours:.0f} hours after their last hard sets.",
            f"About {few(one.reps_lost)} reps a set will still be missing, so the sets are worth "
            "less than they cost.",
            f"{few(one.dose)} hard sets then, {few(dose)} on {day}",
            "your log; Korak 2015 (10 men)",
            "spread between people is large",
            WEIGHT_SMALL * one.reps_lost / REPS_LOST_MULTI,
        )
