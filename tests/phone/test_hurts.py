"""What hurts, on the phone: the answer where she looks, and nothing lighter where it must stop."""

from __future__ import annotations

import pytest
from playwright.sync_api import Locator, Page, expect

from pennate.app.book import Book
from pennate.app.stops import LOADED_JOINT
from pennate.core.muscles import Joint
from tests.web.test_session import card_of

from .thumb import Thumb

pytestmark = pytest.mark.browser


def top(one: Locator) -> float:
    """Where it begins on the page, whatever is scrolled, in px."""
    found: float = one.evaluate("one => one.getBoundingClientRect().top + scrollY")
    return found


def in_sight(page: Page, one: Locator) -> bool:
    """Whether all of it is on the screen, with nothing fixed at the foot over it."""
    box, size = one.bounding_box(), page.viewport_size
    assert box
    assert size
    foot, hands = float(size["height"]), page.locator(".foot.hands")
    for fixed in (page.locator(".closing"), hands):
        over = fixed.bounding_box() if fixed.count() and _fixed(hands, fixed) else None
        if over and over["x"] < box["x"] + box["width"]:
            foot = min(foot, over["y"])
    return box["y"] >= 0 and box["y"] + box["height"] <= foot


def _fixed(hands: Locator, one: Locator) -> bool:
    how = "one => getComputedStyle(one).position"
    return "fixed" in (hands.evaluate(how), one.evaluate(how))


def hurt(page: Page, score: int, *, alarming: bool = False) -> None:
    """A shoulder hurts so much."""
    page.locator("input[name=where][value=shoulder]").check()
    page.locator(f"input[name=score][value='{score}']").check()
    page.locator("#alarming").set_checked(alarming)
    page.get_by_role("button", name="What now?").click()


def test_the_answer_is_seen_and_no_key_moves(thumb: Thumb) -> None:
    """It comes under the button, in sight and in focus; the score keys stay where they were."""
    page = thumb.seen
    thumb.context.set_offline(offline=True)
    page.get_by_role("button", name="hurts", exact=True).click()
    key = page.locator(".keys.wrap label", has_text="7")
    before = top(key)
    hurt(page, 7)
    answer = page.locator("#answer")
    expect(answer).to_be_focused()
    assert in_sight(page, answer)
    assert top(key) == before
    assert top(answer) > top(page.get_by_role("button", name="What now?"))
    page.set_viewport_size({"width": 320, "height": 640})
    page.get_by_role("button", name="What now?").click()
    assert in_sight(page, answer)


# Above 5 of 10 an exercise is stopped: pain-monitoring trial, Silbernagel 2007.
@pytest.mark.parametrize(
    ("score", "how", "lighter"), [(4, "dull", 1), (5, "dull", 1), (6, "dull", 0), (2, "sharp", 0)]
)
def test_no_lighter_load_where_it_must_stop(
    thumb: Thumb, score: int, how: str, lighter: int
) -> None:
    """Above five, or sharp, only another exercise or none; closing the set is not the main act."""
    page = thumb.seen
    thumb.context.set_offline(offline=True)
    expect(page.locator(".closing .main")).to_have_count(1)
    page.get_by_role("button", name="hurts", exact=True).click()
    hurt(page, score, alarming=how == "sharp")
    expect(page.get_by_role("button", name="another exercise")).to_be_visible()
    expect(page.get_by_role("button", name="stop this exercise")).to_be_visible()
    expect(page.get_by_role("button", name="lighter", exact=True)).to_have_count(lighter)
    expect(page.locator(".closing .main")).to_have_count(0)
    page.get_by_role("button", name="hurts", exact=True).click()
    expect(page.get_by_text("Shoulder: ")).to_be_visible()
    expect(page.locator(".closing .main")).to_have_count(lighter)


# The same rule; an alarm sign stops at any score.
@pytest.mark.parametrize(("score", "how"), [(7, "dull"), (2, "sharp")])
def test_what_must_stop_is_over_with_its_set(
    thumb: Thumb, own_demo: Book, score: int, how: str
) -> None:
    """The set is kept with its pain, the next one is another exercise's; undo opens it again."""
    page, name = thumb.seen, thumb.seen.locator("h1").inner_text()
    thumb.context.set_offline(offline=True)
    page.get_by_role("button", name="hurts", exact=True).click()
    hurt(page, score, alarming=how == "sharp")
    thumb.close_with(6)
    expect(page.locator("h1")).not_to_have_text(name)
    thumb.undo()
    expect(page.locator("h1")).to_have_text(name)
    page.get_by_role("button", name="hurts", exact=True).click()
    hurt(page, score, alarming=how == "sharp")
    thumb.close_with(6)
    thumb.context.set_offline(offline=False)
    thumb.settled()
    done = own_demo.history().sets[-1]
    assert dict(done.pain) == {"shoulder": score}
    assert done.note.startswith("sharp") is (how == "sharp")
    stops = {stop.index: stop for stop in card_of(own_demo).stops}
    assert stops[0].finished
    assert stops[1].finished  # it loads the shoulder too


def test_sharp_and_stopped_is_kept_out_of_reach(thumb: Thumb, own_demo: Book) -> None:
    """Two of ten and sharp, stopped without a set: the word reaches the records with the number."""
    page, stop = thumb.seen, card_of(own_demo).stops[0]
    thumb.context.set_offline(offline=True)
    page.get_by_role("button", name="hurts", exact=True).click()
    hurt(page, 2, alarming=True)
    page.get_by_role("button", name="stop this exercise").click()
    expect(page.locator("h1")).not_to_have_text(stop.name)
    page.get_by_role("button", name="session", exact=True).click()
    words = "left out: pain 2 of 10 where it loads, sharp, swelling, locking or giving way"
    expect(page.get_by_text(words).first).to_be_visible()
    thumb.context.set_offline(offline=False)
    thumb.settled()
    said = card_of(own_demo).readiness
    assert said
    assert (dict(said.pain), said.alarming) == ({"shoulder": 2}, frozenset({"shoulder"}))
    told = own_demo.ledger.entries("decision")[-1].body
    assert (told["exercise"], told["pain"]) == (stop.exercise, {"shoulder": 2})
    assert told["note"] == "sharp, swelling, locking or giving way"


@pytest.mark.parametrize("how", ["with a set", "on the way out"])
def test_pain_told_in_the_session_counts_for_the_others(
    thumb: Thumb, own_demo: Book, how: str
) -> None:
    """Shoulder 8 out of reach, told either way: what else loads the shoulder is out too."""
    page, before = thumb.seen, card_of(own_demo)
    thumb.context.set_offline(offline=True)
    page.get_by_role("button", name="hurts", exact=True).click()
    hurt(page, 8)
    if how == "with a set":
        thumb.close_with(6)
    else:
        page.get_by_role("button", name="stop this exercise").click()
    loaded = {
        stop.name: stop.index
        for stop in before.stops
        if own_demo.catalogue[stop.exercise].joints.get(Joint.SHOULDER, 0) >= LOADED_JOINT
    }
    assert len(loaded) > 1
    expect(page.locator("h1")).not_to_have_text(before.stops[0].name)
    assert page.locator("h1").inner_text() not in loaded
    thumb.context.set_offline(offline=False)
    thumb.settled()
    stops = {stop.index: stop for stop in card_of(own_demo).stops}
    assert all(stops[index].finished for index in loaded.values())
    if how == "with a set":
        thumb.undo()
        expect(page.locator("h1")).to_have_text(before.stops[0].name)
        thumb.settled()
        assert not any(stop.finished for stop in card_of(own_demo).stops)


@pytest.mark.parametrize("how", ["dull", "sharp"])
def test_pain_told_by_mistake_is_corrected_out_of_reach(
    thumb: Thumb, own_demo: Book, how: str
) -> None:
    """Told with a set, corrected at its stop: all is asked again, there and in the records."""
    page, first = thumb.seen, card_of(own_demo).stops[0]
    thumb.context.set_offline(offline=True)
    page.get_by_role("button", name="hurts", exact=True).click()
    hurt(page, 2 if how == "sharp" else 7, alarming=how == "sharp")
    thumb.close_with(6)
    page.get_by_role("button", name="session", exact=True).click()
    expect(page.get_by_text("left out: pain").first).to_be_visible()
    own = page.locator(".partner", has_text=first.name)
    own.locator(".name").click()
    form = own.get_by_label("Correct what you told of the shoulder")
    form.locator("label", has_text="1").first.click()
    if how == "sharp":
        form.locator("label", has_text="sharp").click()
    form.get_by_role("button", name="Correct it").click()
    expect(page.get_by_text("left out: pain")).to_have_count(0)
    own.get_by_role("button", name="take it up again").click()
    expect(own.get_by_text("left out")).to_have_count(0)
    expect(own.get_by_text("stop this exercise today")).to_have_count(0)
    thumb.context.set_offline(offline=False)
    thumb.settled()
    card = card_of(own_demo)
    assert not any(stop.finished for stop in card.stops)
    assert card.readiness
    assert dict(card.readiness.pain) == {"shoulder": 1}
    assert card.readiness.corrected == {"shoulder"}
    assert own_demo.history().sets[-1].pain, "nothing she told is lost"
