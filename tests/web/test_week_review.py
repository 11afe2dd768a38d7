"""The weekly review says the same on the page, in the terminal and as JSON."""

from __future__ import annotations

import html
import json
import re
from contextlib import nullcontext
from typing import Any

import pytest
from fastapi.testclient import TestClient
from typer.testing import CliRunner

from pennate.app.book import Book
from pennate.cli.main import app

PARTS = ("What changed", "What comes next", "Is it growing", "What to measure")


def words(text: str) -> str:
    """The words of a piece of a page as people read them."""
    plain = html.unescape(re.sub(r"<[^>]+>", "", text))
    return re.sub(r"\s+", " ", plain).strip()


@pytest.fixture
def typed(demo_book: Book, monkeypatch: pytest.MonkeyPatch) -> Any:
    """`pennate review` over the records the page shows, on the same day."""
    monkeypatch.setattr("pennate.cli.session.opened", lambda *_, **__: nullcontext(demo_book))

    def run(*more: str) -> str:
        done = CliRunner().invoke(app, ["review", *more])
        assert done.exit_code == 0, done.output
        return done.stdout

    return run


@pytest.fixture
def page(demo: TestClient) -> str:
    """The page of the review, its main part, with every caution as on a first visit."""
    demo.cookies.clear()
    return demo.get("/review/week").text.split("<main")[1].split("</main>")[0]


def test_every_sentence_of_the_page_is_typed_too(typed: Any, page: str) -> None:
    """Headings, sentences and points of the page are the lines of the command, word for word."""
    lines = {words(line) for line in typed().splitlines()}
    said = re.findall(r"<(?:li|p|h1|h2)[^>]*>(.*?)</(?:li|p|h1|h2)>", page, re.DOTALL)
    missing = [found for one in said if (found := words(one)) not in lines and found != "Body"]
    assert missing == []
    assert [words(one) for one in re.findall(r"<h2>(.*?)</h2>", page)] == list(PARTS)


def test_every_line_typed_is_on_the_page(typed: Any, page: str) -> None:
    """The command says nothing that the page does not: a row of its table or a sentence."""
    shown = words(page)
    rows = [line for line in typed().splitlines() if "Four weeks: " in line]
    for line in map(words, typed().splitlines()):
        if "Four weeks: " not in line:
            assert line in shown
    cells = page.split("<tbody>")[1].split("</tbody>", maxsplit=1)[0]
    assert len(rows) == cells.count("<tr>") > 15
    for line, row in zip(rows, cells.split("</tr>"), strict=False):
        name, days, step, why, trend = _row(line)
        told = words(row)
        assert all(part in told for part in (name, days, step, why, trend))


def _row(line: str) -> tuple[str, ...]:
    found = re.fullmatch(r" +(.+) \((.+?)\): (.+?)\. (\S.+)\. Four weeks: (.+)", line)
    assert found, line
    return found.groups()


def test_the_document_holds_the_same_words_with_their_numbers(typed: Any) -> None:
    """Each verdict has its interval and chances, each next step its load, reason and trend."""
    found = json.loads(typed("--json"))
    text = typed()
    for said in (found["title"], found["about"], *found["changed"], *found["questions"]):
        assert said in text
    for one in found["next"]:
        assert f"{one['name']} (" in text
        assert one["reason"] in text
        assert abs(one["month"]) < 1 < 100 * one["month_give"]
    for one in found["verdicts"]:
        assert f"{one['name']}: {one['word']}, {one['words']}" in text
        assert one["word"] == one["verdict"]
        assert one["low95"] <= one["change_cm"] <= one["high95"]
        assert one["p_more"] + one["p_same"] + one["p_less"] == pytest.approx(1, abs=1e-3)
    assert [one["name"] for one in found["measure"]]


def test_a_day_named_is_the_review_of_that_session(typed: Any, demo_book: Book) -> None:
    """`pennate review` looks back on seven days, with a day on one session, as before."""
    assert "learned" not in json.loads(typed("--json"))
    last = demo_book.history().sets[-1]
    one = json.loads(typed(last.session, "--date", str(last.day), "--json"))
    assert {"sets_done", "learned", "next"} <= one.keys()


def test_without_a_week_the_command_says_what_is_missing(
    empty: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    """An empty ledger has no review: exit 1 and one sentence, as JSON too."""
    monkeypatch.setattr("pennate.cli.session.opened", lambda *_, **__: nullcontext(empty))
    done = CliRunner().invoke(app, ["review", "--json"])
    assert done.exit_code == 1
    assert "there is no week yet" in json.loads(done.stdout)["reason"]
