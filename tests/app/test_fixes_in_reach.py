"""Fixes of the audit use what her gym has, what she can do hard, and nothing she leaves out."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from pennate.app.book import Book
from pennate.app.gyms import starter_gym, with_fixtures
from pennate.app.planning import audit_week, possible_in
from pennate.app.week_known import looking_at
from pennate.core.exercise import Fixture
from pennate.core.performed import SetKind
from pennate.core.prescribed import PlannedDay, Preferences, PrescribedExercise, Week
from pennate.files.catalogue import read_catalogue
from pennate.files.week import read_week
from pennate.plan.audit import Audited, audit
from pennate.plan.substitute import one_twice

KNOWN = read_catalogue()
UNBALANCED = read_week(Path(__file__).parents[1] / "plan" / "unbalanced.toml", KNOWN)
"""Lacks hamstrings, back and biceps; has quads for three."""


def brought(found: Audited) -> list[tuple[PlannedDay, PrescribedExercise]]:
    """What fixes bring to a day that did not have it, with the day after the fix."""
    before = {(day.day, one.exercise) for day in found.week.days for one in day.exercises}
    fixes = [*found.fixes.values(), *([found.best] if found.best else [])]
    return [
        (day, one)
        for fix in fixes
        for day in fix.week.days
        for one in day.exercises
        if (day.day, one.exercise) not in before
        and one.exercise not in {a.exercise for d in found.week.days for a in d.exercises}
    ]


@pytest.mark.parametrize("gym_id", ["commercial_kg", "home", "travel"])
def test_fixes_bring_only_what_the_gym_has(gym_id: str) -> None:
    """Nothing hung from a bar that is not there; nothing twice on a day under two names."""
    gym = starter_gym(gym_id)
    found = audit_week(UNBALANCED, KNOWN, gym)
    possible = possible_in(gym, KNOWN)
    assert possible is not None
    new = brought(found)
    assert new
    for day, one in new:
        assert one.exercise in possible
        others = (KNOWN[two.exercise] for two in day.exercises if two is not one)
        assert not any(one_twice(KNOWN[one.exercise], two) for two in others)


def test_a_nordic_curl_needs_an_anchor() -> None:
    """Common practice: without something to hold the heels there is no Nordic curl."""
    bench = [Fixture.BENCH.value]
    found = audit_week(UNBALANCED, KNOWN, with_fixtures(starter_gym("travel"), bench))
    assert "nordic_curl" not in {one.exercise for _, one in brought(found)}


def test_what_can_be_loaded_comes_before_what_cannot() -> None:
    """With machines there, hamstrings get leg curls or hinges, not Nordic curls to begin with."""
    found = audit_week(UNBALANCED, KNOWN, starter_gym("commercial_kg"))
    fixed = found.fixes["low:hamstrings"].what
    assert "Nordic" not in fixed
    assert "leg curl" in fixed or "deadlift" in fixed


def test_a_fix_where_nothing_can_be_loaded_asks_for_straight_sets() -> None:
    """On bands: reps of ten and more, no share of a top set."""
    for _, one in brought(audit_week(UNBALANCED, KNOWN, starter_gym("travel"))):
        assert {sets.kind for sets in one.sets} == {SetKind.WORKING}
        assert all(sets.reps.low >= 10 for sets in one.sets if sets.reps)


def test_what_she_bars_is_in_no_fix() -> None:
    """Barred exercises come back through no door."""
    gym = starter_gym("commercial_kg")
    first = {one.exercise for _, one in brought(audit_week(UNBALANCED, KNOWN, gym))}
    barred = replace(UNBALANCED, preferences=Preferences(barred=dict.fromkeys(first, "")))
    again = {one.exercise for _, one in brought(audit_week(barred, KNOWN, gym))}
    assert first
    assert not first & again


def test_what_is_out_of_her_reach_is_in_no_fix(demo_book: Book) -> None:
    """What her log makes far too light or heavy at body weight is not what a fix asks for."""
    week: Week = replace(UNBALANCED, gym="")
    told = looking_at(demo_book, week)
    assert told.unfit
    assert not told.unfit & {one.exercise for _, one in brought(audit(week, told))}
