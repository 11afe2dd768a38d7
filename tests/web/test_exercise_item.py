"""An exercise asked for on an item: those that are known are shown, others are offered those."""

from __future__ import annotations

import re
from urllib.parse import urlencode

import pytest
from fastapi.testclient import TestClient

from pennate.app.book import Book
from pennate.app.exercise_view import exercise_view
from pennate.estimate import Step

from .conftest import Client, week_of

SQUAT = "/exercises/back_squat_free"


@pytest.mark.parametrize("item", ["no_such_bar", "leg_press", "<script>", "x" * 500])
def test_an_item_that_is_not_known_is_called_so(demo: TestClient, item: str) -> None:
    """A wrong item is named, nothing is called undone, and those known are offered as links."""
    answer = demo.get(f"{SQUAT}?{urlencode({'item': item})}")
    assert answer.status_code == 404
    assert "Not done yet" not in answer.text
    assert "<script>" not in answer.text.replace("<script src=", "")
    assert re.search(r'role="alert">“.{1,60}” is not among the items', answer.text)
    assert f'href="{SQUAT}?item=rack_bar"' in answer.text
    assert re.search(r"last \d+ [A-Z]", answer.text)
    assert "x" * 50 not in answer.text


def test_every_item_offered_has_a_page(demo: TestClient) -> None:
    """What is offered instead of a wrong item leads to a page and a chart, never back here."""
    offered = demo.get("/exercises/hip_thrust?item=nothing").text
    found = re.findall(r'href="(/exercises/hip_thrust\?item=[^"]+)"', offered)
    assert found
    for at in found:
        assert demo.get(at).status_code == 200
        chart, _, query = at.partition("?")
        assert demo.get(f"{chart}/chart.svg?{query}").status_code == 200


def test_what_is_done_elsewhere_is_not_called_undone(demo: TestClient) -> None:
    """On an item of her gym without a set, the page says so of the item and leads to others."""
    page = demo.get("/exercises/hip_thrust?item=rack_bar").text
    assert "Not done on Bar at the rack yet" in page
    assert "Not done yet" not in page
    assert 'Done on: <a href="/exercises/hip_thrust?item=platform_bar">' in page


def test_no_item_is_the_one_that_comes_next(
    demo: TestClient, empty: Book, client_of: Client
) -> None:
    """An empty item is none: the page is the usual one, with a gym and without."""
    assert demo.get(f"{SQUAT}?item=").text.count("Bar at the rack")
    assert client_of(empty).get(f"{SQUAT}?item=").status_code == 200


def test_a_chart_of_an_unknown_item_is_told_in_a_sentence(demo: TestClient) -> None:
    """No empty picture is drawn for an item that nobody knows."""
    answer = demo.get(f"{SQUAT}/chart.svg?item=nothing")
    assert answer.status_code == 422
    assert "is not known on “nothing” here" in answer.text


def test_a_step_no_card_takes_leads_to_where_she_takes_it(
    demo: TestClient, demo_book: Book
) -> None:
    """More sets, other reps, another exercise: each day that asks for it is a link; a load is not.

    The cards choose loads by themselves, so there a link would be a needless errand.
    """
    by_hand = {Step.EASIER, Step.WIDER_RANGE, Step.MORE_SETS, Step.SWAP}
    places: dict[str, list[str]] = {}
    for day in week_of(demo_book).days:
        for n, one in enumerate(day.exercises):
            places.setdefault(one.exercise, []).append(f'<a href="/week/{day.day}/{n}">{day.day}')
    led = 0
    for exercise, links in places.items():
        proposed = exercise_view(demo_book, exercise).next
        assert proposed is not None
        page = demo.get(f"/exercises/{exercise}").text
        assert all((link in page) is (proposed.step in by_hand) for link in links)
        led += proposed.step in by_hand
    assert 0 < led < len(places)
