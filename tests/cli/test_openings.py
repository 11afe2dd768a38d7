"""What the commands print says how often its ranges hold, and where the rest opens."""

from __future__ import annotations

import json
import re
from html import unescape
from pathlib import Path

import pytest
from fastapi.testclient import TestClient
from typer.testing import CliRunner

from pennate.app.book import Book
from pennate.app.demo import make_demo
from pennate.app.export import export_dir
from pennate.cli.main import app
from pennate.core.percent import signed, signed_span
from tests.web.conftest import Clock, demo, demo_book

__all__ = ["demo", "demo_book"]

MEASURES = """date,site,side,girth_cm,girth2_cm,girth3_cm,skinfold_mm,state
2024-01-05,thigh,left,55.0,55.3,54.9,18,relaxed
2024-03-16,thigh,left,57.6,57.4,57.7,17.5,relaxed
"""
WEIGHTS = "date,kg\n" + "".join(f"2024-01-{day:02},65.{day % 3}\n" for day in range(1, 22))


@pytest.fixture(scope="module")
def demo_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Two weeks of the demo."""
    folder = tmp_path_factory.mktemp("demo")
    make_demo(folder, Clock(), weeks=2).close()
    return folder


def typed(*words: str) -> str:
    """What a command prints."""
    done = CliRunner().invoke(app, list(words))
    assert done.exit_code == 0, done.output
    return done.output


def led_to(printed: str) -> None:
    """Every word after `pennate evidence` that is printed finds constants with their sources."""
    topics = set(re.findall(r"pennate evidence (\w+)", printed))
    assert topics
    for topic in topics:
        assert "source" in typed("evidence", topic)


def test_growth_says_error_rule_and_where_its_constants_are(tmp_path: Path) -> None:
    """Readings, their error and what would show stand by each girth; the rule once, below."""
    file = tmp_path / "measures.csv"
    file.write_text(MEASURES, encoding="utf-8")
    said = typed("growth", str(file))
    assert re.search(r"2 dates, ± 0\.\d\d cm a reading: a change of \d\.\d cm or more would", said)
    assert said.count("the 95 % interval leaves out nought") == 1
    led_to(said)


def test_growth_with_her_weighings_says_what_the_body_page_says(
    demo_book: Book, demo: TestClient, tmp_path: Path
) -> None:
    """Over an export of hers, with weighings and log, change and range are those shown."""
    export_dir(demo_book.ledger, tmp_path / "all")
    files = {name: str(tmp_path / "all" / f"{name}.csv") for name in ("measures", "weights", "log")}
    said = typed(
        "growth", files["measures"], "--weights", files["weights"], "--log", files["log"], "--json"
    )
    page = unescape(demo.get("/body").text)
    for one in json.loads(said)["sites"]:
        span = signed_span(one["low95"], one["high95"])
        assert f"<dd>{signed(one['change_cm'])} cm, {span} (95 %)</dd>" in page


def test_weight_says_how_often_its_ranges_hold(tmp_path: Path) -> None:
    """The trend's range and a weighing's are of two kinds, and each says which."""
    file = tmp_path / "weights.csv"
    file.write_text(WEIGHTS, encoding="utf-8")
    said = typed("weight", str(file))
    assert "95 times in a hundred" in said
    assert said.count("four times in five") == 4
    led_to(said)


def test_the_card_and_the_audit_say_it_too(demo_folder: Path, tmp_path: Path) -> None:
    """Minutes and reps have ranges; how often they hold is told once, at the end."""
    data = ("--data", str(demo_folder))
    card = typed("session", "Monday", "--date", "2026-11-23", *data)
    assert card.count("nine times in ten, reps eight times in ten") == 1
    led_to(card)
    typed("export", str(tmp_path / "all"), *data)
    audit = typed("audit", str(tmp_path / "all" / "week.toml"), *data)
    assert audit.count("nine times in ten") == 1
    led_to(audit)
