"""The factor for trained people against 31 trained men of an open data set (CC0).

Source: Haun 2018/2019 by way of the R package exscidata; see tests/reference/growth/README.md.
"""

from __future__ import annotations

import math

import pytest

from bench.plan.trained import Said, said, sample, squat_sets, start_draws, weekly_sets
from pennate.core.evidence import every_constant

SAID = said()
each = pytest.mark.parametrize("one", SAID, ids=lambda one: str(one.contrast.name))


def test_the_sets_of_the_sample_are_those_of_its_own_volume() -> None:
    """Ten rising to 32 sets a week (from memory) add up to the squat volume that the file holds."""
    people = sample()
    sets = weekly_sets(people)
    assert sets == pytest.approx([10, 15, 20, 24, 28, 32], abs=0.2)
    assert squat_sets(people) == pytest.approx(sum(sets), rel=0.05)


@each
def test_the_start_covers_what_was_measured(one: Said) -> None:
    """Mean growth of a trained muscle lies in the 90 % range that the start predicts for it."""
    assert one.predicted[0] <= one.grown <= one.predicted[1]


@each
def test_the_sample_cannot_narrow_the_range_much(one: Said) -> None:
    """Believed in full, it leaves a 90 % range of at least half its size: no figure is claimed."""
    start = next(item for item in every_constant() if item.name == "plan.trained_factor")
    assert one.after[2] - one.after[1] > (start.high - start.low) / 2
    assert start.low < one.after[0] < start.high


def test_after_the_light_week_the_thigh_is_no_beginners() -> None:
    """With the water gone, a beginner's whole growth is more than two standard errors away."""
    thigh = next(
        one for one in SAID if "vastus" in one.contrast.name and one.contrast.until == "T4"
    )
    assert (thigh.beginner - thigh.grown) / thigh.error > 2


def test_the_start_is_as_wide_as_the_register_says() -> None:
    """The draws have the registered median and 90 % range (within sampling error)."""
    start = next(item for item in every_constant() if item.name == "plan.trained_factor")
    draws = sorted(start_draws())
    found = [draws[int(share * len(draws))] for share in (0.05, 0.5, 0.95)]
    for value, stated in zip(found, (start.low, start.value, start.high), strict=True):
        assert math.log(value / stated) == pytest.approx(0, abs=0.05)
