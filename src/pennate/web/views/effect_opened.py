"""What stands behind an expected difference in size, and the hard sets of a week."""

from __future__ import annotations

from pennate.core.evidence import constant_named
from pennate.core.facts import Facts
from pennate.web.views.lane_opened import BY_EFFORT


def _spread(name: str) -> str:
    one = constant_named(name)
    return f"{one.low:g} to {one.high:g}"


def effect_facts() -> Facts:
    """The rule of an expected difference, how sure it is, and where it comes from."""
    slope, half = (
        constant_named("plan.growth_per_root_set"),
        constant_named("plan.session_half_sets"),
    )
    trained, novice = constant_named("plan.trained_factor"), constant_named("plan.novice_factor")
    rule = (
        f"size rises by {slope.value:g} % where the square root of the weekly sets rises by one (as"
        f" from 9 to 16); beyond about {half.value:g} sets in a session one more counts half or"
        f" less; all of it times {trained.value:g} after years of training, {novice.value:g} for a"
        " beginner"
    )
    how_sure = (
        f"the range takes the slope from {_spread(slope.name)} and experience from"
        f" {_spread(trained.name)} (a beginner’s from {_spread(novice.name)}); it doubts how much,"
        " not which way"
    )
    return (
        ("inputs", "the fractional sets of both weeks, by muscle and session"),
        ("rule", rule),
        ("how sure", how_sure),
        ("source", f"{slope.source}; constants: pennate evidence plan"),
    )


def hard_sets_facts() -> Facts:
    """How the hard sets of a week are counted."""
    return (("hard sets", f"all sets of the week; {BY_EFFORT}"),)
