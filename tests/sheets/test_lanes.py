"""Feathers and lanes."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pennate.sheets.feather import barbs, feather, feather_height
from pennate.sheets.lanes import Lane, feather_svg, number, range_svg, range_words, tallest
from pennate.sheets.mark import mark_svg


def test_a_barb_pair_a_hard_set() -> None:
    """Four and a half sets are four pairs and one single barb."""
    assert barbs(4.5) == (4, True)
    path = feather(4.5, x=10, foot=40)
    pairs = re.findall(r"M[\d.]+ [\d.]+L[\d.]+ [\d.]+L", path)
    assert len(pairs) == 4


@given(st.floats(0, 30))
def test_a_feather_is_as_tall_as_its_dose(dose: float) -> None:
    """Height never falls with dose, so feathers side by side compare."""
    assert feather_height(dose) <= feather_height(dose + 0.5)


def test_hours_are_between_the_days_that_train() -> None:
    """Monday and Thursday are 72 hours apart; a lone session has no gap."""
    lane = Lane(group="back", doses=(8, 0, 0, 9, 0, 0, 0))
    assert [(gap.first, gap.second, gap.hours) for gap in lane.gaps] == [(0, 3, 72)]
    assert Lane(group="back", doses=(8, 0, 0, 0, 0, 0, 0)).gaps == ()


@pytest.mark.parametrize(("total", "word"), [(8, "under"), (12, ""), (19, "over")])
def test_outside_the_range_is_a_word_and_a_shape(total: float, word: str) -> None:
    """Hue is never the only sign: outside the range the dot is open and a word says so."""
    lane = Lane(group="quads", doses=(total, 0, 0, 0, 0, 0, 0), asked=(10, 18))
    assert lane.outside == word
    assert ('fill="#fff"' in range_svg(lane, 20)) == bool(word)
    assert word in range_words(lane)


def test_halves_are_written_as_halves() -> None:
    """Doses are shown to the nearest half, as finer steps mean nothing."""
    assert [number(x) for x in (0, 0.5, 7, 7.4, 7.8)] == ["0", "½", "7", "7½", "8"]


def test_one_scale_for_all() -> None:
    """Feathers of one week share a scale, whatever their doses."""
    lanes = [Lane(group="a", doses=(2, 0)), Lane(group="b", doses=(0, 11))]
    top = tallest(lanes)
    heights = {re.search(r'height="([\d.]+)"', feather_svg(dose, top))[1] for dose in (2, 11)}  # type: ignore[index] # a missing match fails the test
    assert len(heights) == 1


def test_the_mark_is_a_document_of_its_own() -> None:
    """The icon is served alone, so it names its own vocabulary."""
    assert mark_svg().startswith('<svg xmlns="http://www.w3.org/2000/svg"')
