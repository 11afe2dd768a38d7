"""What a review shows leads to where it opens; the next step opens to its rule and source."""

from __future__ import annotations

import re
from html import unescape

import pytest
from fastapi.testclient import TestClient

from pennate.core.evidence import every_constant
from pennate.core.percent import percent


def facts_of(page: str) -> dict[str, str]:
    """Terms and texts of everything that opens on a page."""
    text = unescape(page).replace("\N{NO-BREAK SPACE}", " ")
    return dict(re.findall(r"<dt>([^<]*)</dt><dd>([^<]*)</dd>", text))


def test_every_verdict_and_the_weight_of_the_week_lead_to_what_is_behind_them(
    demo: TestClient,
) -> None:
    """Each girth leads to its page, where the readings, rule and chances open; so does weight."""
    page = demo.get("/review/week").text
    growing = page[page.index("<h2>Is it growing") : page.index("<h2>What to measure")]
    rows = re.findall(r"<li>(.*?)</li>", growing)
    sites = [re.search(r'href="(/body/site/[^"]+)"', row) for row in rows]
    assert len(rows) >= 6
    assert all(sites)
    for one in {found[1] for found in sites if found}:
        assert "the 95 % interval leaves out nought" in demo.get(one).text
    assert re.search(r'<a class="plain" href="/body/weight">[^<]*kg', page)


def test_every_exercise_of_the_look_back_leads_to_its_page(demo: TestClient) -> None:
    """A chance told for next time opens on the page of its exercise."""
    page = demo.get("/review/2026-11-20").text
    told = page[page.index("<h2>Next time") : page.index("<h2>Learned")]
    assert told.count("<h3>") == len(re.findall(r'<h3><a [^>]*href="/exercises/\w+"', told)) > 3


def test_the_next_step_opens_to_rule_and_source(demo: TestClient) -> None:
    """The chances that decide are those of the register, and where to read them is said."""
    page = unescape(demo.get("/exercises/hip_thrust").text)
    opened = page[page.index("What is this number?") : page.index("<h2>Strength")]
    facts = facts_of(opened)
    known = {one.name: one.value for one in every_constant()}
    for name in ("sure_enough", "sure_enough_first", "sure_enough_later", "largest_raise"):
        assert percent(known[f"session.{name}"]) in facts["rule"]
    assert "pennate evidence session" in facts["source"]


@pytest.mark.parametrize("exercise", ["hip_thrust", "back_squat_free"])
def test_a_stall_says_what_it_is_measured_against(demo: TestClient, exercise: str) -> None:
    """Where a chance of a stall stands, its span and the chance it is called from open."""
    page = demo.get(f"/exercises/{exercise}").text
    known = {one.name: one.value for one in every_constant()}
    assert "the chance of a stall" in unescape(page).replace("\N{NO-BREAK SPACE}", " ")
    told = facts_of(page)["a stall"]
    assert f"over {known['strength.plateau_weeks']:g} weeks" in told
    assert percent(known["strength.stalled_above"]) in told
