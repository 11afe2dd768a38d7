"""The passed-on page as a document: closed in itself, well formed, in the house's look."""

from __future__ import annotations

import json
import re
from base64 import b64encode
from collections.abc import Callable
from dataclasses import replace
from hashlib import sha256
from html import unescape
from html.parser import HTMLParser
from pathlib import Path

import pytest

from pennate.app.pass_on import passed_file
from pennate.core.passed_on import Passed
from pennate.sheets.passed_page import page
from pennate.sheets.passed_sheet import sheet
from tests.app.passing import WEEKS

SRC = Path(__file__).parents[2] / "src" / "pennate"
HOUSE = (SRC / "web" / "static" / "pennate.css").read_text(encoding="utf-8")
OWN = (SRC / "sheets" / "passed" / "page.css").read_text(encoding="utf-8")
SCRIPT = SRC / "sheets" / "passed" / "page.js"
VOID = {"meta", "input", "br", "path", "circle"}


@pytest.fixture(scope="module")
def routine() -> Passed:
    """A week with all that a page can show."""
    return passed_file(WEEKS / "3_days.toml")


@pytest.fixture(scope="module")
def text(routine: Passed) -> str:
    """The page."""
    return page(routine)


class _Reader(HTMLParser):
    """Elements opened and closed in order, ids, and what points at ids."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.ids: list[str] = []
        self.aims: list[str] = []
        self.named: list[tuple[str, str]] = []
        self.wrong: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note an element; none may carry a style or a handler of its own."""
        for name, value in attrs:
            self.named.append((name, value or ""))
            if name == "id":
                self.ids.append(value or "")
            if name in {"for", "aria-labelledby", "aria-describedby"}:
                self.aims.append(value or "")
            if name == "href":
                self.aims.append((value or "").removeprefix("#"))
        if tag not in VOID:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        """What is closed is what was opened last."""
        if tag not in VOID and (not self.open or self.open.pop() != tag):
            self.wrong.append(tag)


@pytest.mark.parametrize("draw", [page, sheet])
def test_it_is_well_formed(routine: Passed, draw: Callable[[Passed], str]) -> None:
    """Elements nest, ids are unique, and every label, link and description points at one."""
    reader = _Reader()
    reader.feed(draw(routine))
    assert (reader.open, reader.wrong) == ([], [])
    assert len(reader.ids) == len(set(reader.ids))
    assert set(reader.aims) <= set(reader.ids)


@pytest.mark.parametrize("draw", [page, sheet])
def test_nothing_comes_from_elsewhere(routine: Passed, draw: Callable[[Passed], str]) -> None:
    """No address, source, style attribute or handler stands in the page; links stay on it."""
    text = draw(routine)
    reader = _Reader()
    reader.feed(text)
    names = {name for name, _ in reader.named}
    assert not names & {"src", "srcset", "action", "style"}
    assert not any(name.startswith("on") for name in names)
    assert all(value.startswith("#") for name, value in reader.named if name == "href")
    assert not re.search(r"url\(|@import|https?://", text.replace("http://www.w3.org/2000/svg", ""))


def test_the_policy_allows_its_own_style_and_script_only(text: str) -> None:
    """The hashes in the policy are those of what stands in the page (CSP level 3, 2.3.1)."""
    (policy,) = re.findall(r'Content-Security-Policy" content="([^"]+)"', text)
    (style,) = re.findall(r"<style>(.*?)</style>", text, re.DOTALL)
    (script,) = re.findall(r"<script>(.*?)</script>", text, re.DOTALL)
    for name, part in (("style-src", style), ("script-src", script)):
        digest = b64encode(sha256(part.encode()).digest()).decode()
        assert f"{name} &#39;sha256-{digest}&#39;;" in policy
    assert policy.startswith("default-src &#39;none&#39;;")


def test_her_text_cannot_break_out(routine: Passed) -> None:
    """A name that looks like markup is shown as text and ends no script."""
    text = page(replace(routine, name="</script><script>alert(1)</script>"))
    assert text.count("<script>") == 1
    assert "&lt;/script&gt;" in text


def test_the_tables_are_read_back(text: str, routine: Passed) -> None:
    """What the script reads is the tables that Python made."""
    (data,) = re.findall(r'id="tables">(.*?)</script>', text, re.DOTALL)
    told = json.loads(data)
    assert told["knots"] == list(routine.curves.knots)
    lows = [[[row[0] for row in rows] for rows in curve] for curve in routine.curves.tables]
    assert [[rows[0] for rows in curve] for curve in told["tables"]] == lows


def test_colours_and_sizes_are_the_house_s() -> None:
    """Every token has the value it has on the product's own pages, in both looks."""
    token = re.compile(r"(--[a-z0-9]+):\s*([^;]+);")
    light, dark = OWN.split("@media screen and (prefers-color-scheme: dark)", 1)
    house_light, house_dark = HOUSE.split(':root[data-look="dark"]', 1)
    for ours, theirs in ((light, house_light), (dark.split("*, *::before")[0], house_dark)):
        known = dict(token.findall(theirs))
        assert {name: known.get(name) for name, _ in token.findall(ours)} == dict(
            token.findall(ours)
        )
    screen = OWN.split("@media print")[0]
    assert set(re.findall(r"font-size:\s*([^;]+);", screen)) <= {
        f"var(--{name})" for name in ("l", "m", "body", "s")
    }


def test_who_was_away_or_ill_is_told_to_ease_in(text: str) -> None:
    """A follower comes back from somewhere too, and remembers a set of before (common practice)."""
    lead = text[text.index("Your loads, not") : text.index("Before you begin")]
    assert "of the last weeks" in lead
    assert "After 4 weeks away, or an illness: once you are well, 50 % of the sets" in unescape(
        lead
    ).replace("\u202f", " ").replace("\xa0", " ")


def test_the_script_stays_small() -> None:
    """Fifteen kilobytes at most, so that the formulas in it can be read in one sitting."""
    assert SCRIPT.stat().st_size <= 15_000


def test_the_sheet_has_no_script_and_its_own_style(routine: Passed) -> None:
    """Paper needs no script; the policy allows the one style that stands in it."""
    text = sheet(routine)
    (style,) = re.findall(r"<style>(.*?)</style>", text, re.DOTALL)
    digest = b64encode(sha256(style.encode()).digest()).decode()
    assert "<script" not in text
    assert f"style-src &#39;sha256-{digest}&#39;;" in text


def test_the_sheet_asks_what_the_week_asks(routine: Passed) -> None:
    """Every exercise stands on it with its sets in the trade’s shorthand."""
    text = sheet(routine).replace("\N{NO-BREAK SPACE}", " ")
    assert "top 1 × 5–7, 1 left, rest 3:00" in text
    assert "back-off 3 × 8–10, 1–2 left, 85 % of top, rest 2:30" in text
    for day in routine.days:
        for stop in day.stops:
            assert all(one.asked.name in text for one in stop.exercises)
