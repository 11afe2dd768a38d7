"""Bands on the phone: their number is a scale of its own; beyond what is forecast it says so."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from fractions import Fraction
from random import Random
from typing import Any

import pytest
from playwright.sync_api import Page

from pennate.app.book import Book
from pennate.core.card import Likely
from pennate.core.load_words import done_load_words
from pennate.core.performed import PerformedSet
from pennate.core.quantities import LoadReading, Unit
from pennate.estimate.curve import MOST_REPS
from pennate.web.render import static
from pennate.web.words import likely_words

from .test_line import Line
from .test_replay import bare

__all__ = ["bare"]

pytestmark = pytest.mark.browser
Json = dict[str, Any]

SAID = """async ([home, body, likely, most]) => {
  const { doneLoad, likelyWords } = await import(home + "views.js");
  return [doneLoad({ body }), likelyWords(likely, most)];
}"""
AFTER = """async ([home, entries]) => {
  const [{ fold }, { afterwards }] =
    await Promise.all(["session.js", "after.js"].map((name) => import(home + name)));
  return afterwards(fold(window.day, entries), { next: {}, efforts: [] }).map((one) => one.name);
}"""


def home_of(url: str) -> str:
    """Where the scripts lie."""
    return url + static("")


@pytest.mark.parametrize(
    ("item", "words"), [("bands", "27 kg of band"), ("cable_tower", "27 kg on the pin")]
)
def test_a_done_set_on_bands_is_no_pins_mark(bare: tuple[Page, str], item: str, words: str) -> None:
    """The phone and the records say the same of a band, and of a stack as before."""
    page, url = bare
    done = PerformedSet(
        id="1",
        when=date(2026, 11, 23),
        session="monday",
        number=1,
        exercise="romanian_deadlift",
        reps=12,
        load=Fraction(27),
        unit=Unit.KG,
        reading=LoadReading.LABEL,
        equipment=item,
    )
    body = {"load": "27", "unit": "kg", "load_is": "label", "equipment": item}
    likely = {"low": 1, "middle": 1, "high": 1}
    assert done_load_words(done) == words
    assert page.evaluate(SAID, [home_of(url), body, likely, MOST_REPS])[0] == words
    helped = replace(done, load=Fraction(-27))
    assert done_load_words(helped) == "27 kg of help"


@pytest.mark.parametrize(
    ("likely", "words"),
    [
        ((60, 60, 60), "likely 60 or more"),
        ((20, 41, 60), "likely 41, between 20 and 60 or more"),
        ((12, 12, 12), "likely 12"),
    ],
)
def test_the_most_that_is_forecast_is_no_forecast(
    bare: tuple[Page, str], likely: tuple[int, int, int], words: str
) -> None:
    """A light band may be pulled longer than any forecast goes: both pages say “or more”."""
    page, url = bare
    low, middle, high = likely
    said = {"low": low, "middle": middle, "high": high}
    assert page.evaluate(SAID, [home_of(url), {}, said, MOST_REPS])[1] == words
    assert likely_words(Likely(low, middle, high)) == words


def test_after_the_session_a_band_is_named(bare: tuple[Page, str], own_demo: Book) -> None:
    """What was seen on bands is told under their name, never as the exercise's strength."""
    line = Line(*bare, own_demo, Random(4))
    page, url = bare
    page.evaluate("Object.assign(window.day.stops[0], { item: 'bands', on: 'Bands' })")
    shown = line.next()
    assert shown
    while shown and shown["set"]["kind"] == "warm-up":
        line.close(shown)
        shown = line.next()
    assert shown
    line.close(shown)
    names = page.evaluate(AFTER, [home_of(url), line.entries])
    assert names == [f"{page.evaluate('window.day.stops[0].name')} · Bands"]
