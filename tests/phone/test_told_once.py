"""What one set told is not told again by the next: the phone stays where the records are."""

from __future__ import annotations

from dataclasses import replace
from random import Random
from typing import Any

import pytest
from playwright.sync_api import Page

from pennate.app.book import Book
from pennate.core.card import SetState
from pennate.files.week import read_week

from .test_line import Line
from .test_replay import bare

__all__ = ["bare"]

pytestmark = pytest.mark.browser
Json = dict[str, Any]

WEEK = """
name = "New"
gym = "commercial_kg_lb"

[[day]]
day = "Monday"

[[day.exercise]]
exercise = "reverse_lunge"
equipment = "dumbbells"
sets = [{ sets = 4, reps = "8-12", reserve = "1-2", rest = "1:30" }]
"""
TOP = 12
REPS_APART, LOW_APART = 2, 4
"""As far as what is likely may lie from the records', and the low end of it."""


def as_asked(line: Line, shown: Json) -> None:
    """Close a set at the top of its range, nothing said of how hard it was."""
    body = {**shown["set"]["entry"], "set": len(line.entries) + 1}
    body |= {"date": f"2026-11-23T20:{len(line.entries):02d}:00", "rest_s": "90"}
    body |= {"exercise": shown["exercise"], "equipment": shown["item"]}
    body |= {"extra": {"card_key": shown["key"]}}
    load = shown["step"] or shown["set"]["load"]
    body |= {"load": load["amount"], "unit": load["form_unit"], "load_is": load["load_is"]}
    if shown["set"]["kind"] != "warm-up":
        body["reps"] = TOP
        body.pop("as_asked", None)
    line.put("set", body)


def test_sets_that_stop_where_asked_do_not_add_up(bare: tuple[Page, str], own_demo: Book) -> None:
    """A new exercise, twelve each time: what is likely in every set is what the records say."""
    week, days = read_week(WEEK, own_demo.catalogue), own_demo.week()
    assert days
    own_demo.save_week(replace(week, gym=days.gym))
    line = Line(*bare, own_demo, Random(4))
    seen = 0
    while shown := line.next():
        card = line.card()
        found = card.find(shown["key"])
        assert found
        _, one = found
        assert one.state is SetState.OPEN
        if one.likely and shown["set"]["kind"] != "warm-up":
            likely = shown["row"]["likely"]
            assert abs(likely["middle"] - one.likely.middle) <= REPS_APART, shown["key"]
            if seen:  # the first is taken before anything is known of it
                assert abs(likely["low"] - one.likely.low) <= LOW_APART, shown["key"]
            seen += 1
        as_asked(line, shown)
    assert seen == 8
