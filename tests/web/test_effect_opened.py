"""An expected difference in size, a week's hard sets and its worth open to rule and source."""

from __future__ import annotations

import math
import re
from html import unescape

from fastapi.testclient import TestClient

from pennate.core.evidence import every_constant
from pennate.web.views.effect_opened import effect_facts

DETAILS = re.compile(r'<details class="number">(.*?)</details>', re.DOTALL)


def test_the_rule_is_told_with_the_constants_it_uses() -> None:
    """A reader finds slope, session, experience and their ranges as the register has them."""
    facts = dict(effect_facts())
    known = {one.name: one for one in every_constant()}
    slope = known["plan.growth_per_root_set"]
    assert f"{slope.value:g} %" in facts["rule"]
    assert f"{slope.low:g} to {slope.high:g}" in facts["how sure"]
    assert f"times {known['plan.trained_factor'].value:g}" in facts["rule"]
    assert "Pelland 2024" in facts["source"]
    assert math.sqrt(16) - math.sqrt(9) == 1


def test_a_block_opens_its_sets_and_minutes(demo: TestClient) -> None:
    """The table of the weeks says how hard sets are counted and minutes made."""
    page = unescape(demo.get("/week/block").text)
    opened = DETAILS.findall(page)[0]
    assert "not at all from 6" in opened
    assert "sum of its days" in opened


def test_no_nought_has_a_sign(demo: TestClient) -> None:
    """What rounds to nothing is neither gained nor lost: no “−0 to” on the block's page."""
    page = unescape(demo.get("/week/block").text)
    assert re.search(r"<dd>[+−]?\d+\.\d to", page)
    assert not re.search(r"[+−]0(\.0)? ", page)


def test_a_difference_in_size_opens_where_there_is_one(demo: TestClient) -> None:
    """More sets for sixteen weeks: what they are expected to do has its rule behind it."""
    page = unescape(demo.get("/week/block?weeks=16&ramp=sets&lighter=no").text)
    assert "square root" in page
