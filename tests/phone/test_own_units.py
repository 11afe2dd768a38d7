"""A gym of two units on the phone: its keys are hers, a load in the other one is understood."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page

from pennate.app.book import Book
from pennate.core.quantities import Unit
from pennate.web.phone.document import day_document
from pennate.web.render import static
from tests.app.conftest import empty_book
from tests.app.own_week import DAY, plan
from tests.app.test_own_units import MIXED, PRESS, did

from .test_replay import bare

__all__ = ["bare", "empty_book"]

STEP = """async ([url, steps, row, body]) => (await import(url)).stepOf(steps, row, body)"""
STEPS = [
    {"amount": str(pounds), "form_unit": "lb", "load_is": "plates"}
    for pounds in (235, 240, 245, 250)
]


@pytest.mark.parametrize("pounds", ["90", "290"])
def test_the_phone_steps_through_her_unit(empty_book: Book, tmp_path: Path, pounds: str) -> None:
    """No key of the Floor without reception leads from pounds to kilograms."""
    plan(empty_book, tmp_path, PRESS, gym=MIXED)
    did(empty_book, pounds, Unit.LB, (7, 14))
    stop = day_document(empty_book, empty_book.today, DAY)["stops"][0]
    assert {one["form_unit"] for one in stop["steps"]} == {"lb"}
    assert len(stop["steps"]) > 5


@pytest.mark.browser
@pytest.mark.parametrize(
    ("load", "unit", "reading", "step"),
    [
        ("245", "lb", "plates", 2),
        ("108.5", "kg", "plates", 1),
        ("113", "kg", "plates", 3),
        ("244", "lb", "plates", 0),
        ("113", "kg", "total", 0),
    ],
)
def test_a_load_in_the_other_unit_stands_at_the_nearest_step(
    bare: tuple[Page, str], load: str, unit: str, reading: str, step: int
) -> None:
    """110 kg by hand among steps of pounds is the pounds beside it, not the load as planned.

    What is no step in her own unit, or is counted otherwise, is taken as planned, as before.
    """
    page, url = bare
    body: dict[str, Any] = {"load": load, "unit": unit, "load_is": reading}
    asked = [url + static("session.js"), STEPS, {"rung": 0}, body]
    assert page.evaluate(STEP, asked) == step
