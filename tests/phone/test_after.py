"""After the session, out of reach: what was learned and what comes next, as the review has it."""

from __future__ import annotations

import re
from collections import Counter
from random import Random
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from pennate.app.book import Book
from pennate.app.choose import Choice
from pennate.app.review import SessionReview, review
from pennate.app.today import day_state
from pennate.core.quantities import exact_text
from pennate.web.render import static
from tests.web.conftest import MONDAY

from .conftest import NewPhone
from .test_line import Line
from .test_replay import bare
from .thumb import Thumb

__all__ = ["bare"]

pytestmark = pytest.mark.browser
DAY = MONDAY.date()
Json = dict[str, Any]
AFTER = """async ([home, entries]) => {
  const from = (name) => import(home + name);
  const [{ fold }, { afterwards, took }] = await Promise.all(["session.js", "after.js"].map(from));
  const session = fold(window.day, entries);
  const steps = Object.fromEntries(window.day.stops.map((stop) =>
    [stop.name, stop.steps.map((s) => `${s.amount} ${s.form_unit}`)]));
  const next = { heavier: "", lighter: "", "the same": "" };
  return { seen: afterwards(session, { next }), took: took(session), steps };
}"""


@pytest.mark.parametrize("seed", [1, 2])
def test_the_look_back_is_true(bare: tuple[Page, str], own_demo: Book, seed: int) -> None:
    """After good and bad days: reps over or under as they were shown, next loads to a step."""
    line, over = Line(*bare, own_demo, Random(seed)), Counter[str]()
    names = line.page.evaluate("window.day.stops.map((stop) => stop.name)")
    while shown := line.next():
        line.close(shown)
        if shown["row"]["likely"] and shown["set"]["kind"] != "warm-up":
            gap = line.entries[-1]["body"]["reps"] - shown["row"]["likely"]["middle"]
            over[names[shown["stop"]]] += gap
    home = line.url.removesuffix(static("session.js")) + static("")
    page = line.page.evaluate(AFTER, [home, line.entries])
    seen = {one["name"]: one for one in page["seen"]}
    theirs = review(own_demo, DAY)
    assert page["took"].startswith(f"{theirs.sets_done} of {theirs.sets_asked} working sets")
    assert {name: one["over"] for name, one in seen.items()} == {n: over[n] for n in names}
    apart = _steps_apart(theirs, seen, page["steps"])
    assert len(apart) > 3
    assert max(apart) <= 1


def _steps_apart(theirs: SessionReview, seen: dict[str, Json], steps: dict[str, Any]) -> list[int]:
    found = []
    for one in theirs.next_time:
        amount, unit = one.load_next.split()[:2]
        amounts = [text.split() for text in steps[one.name]]
        place = [i for i, (a, u) in enumerate(amounts) if (float(a), u) == (float(amount), unit)]
        if place and seen[one.name].get("step") is not None:
            found.append(abs(place[0] - seen[one.name]["step"]))
    return found


def test_finishing_out_of_reach_with_a_note(
    new_phone: NewPhone, address: str, own_demo: Book
) -> None:
    """Finished early: next loads with a reason, what was learned, minutes, a note; no grade."""
    thumb = Thumb(new_phone(), address, Random(2))
    thumb.ready()
    page = thumb.seen
    thumb.context.set_offline(offline=True)
    for _ in range(8):
        thumb.close_with(2, "missed one")
    page.get_by_role("button", name="session").click()
    page.get_by_role("button", name="finish the session").click()
    expect(page.get_by_role("heading", name="Next time")).to_be_visible()
    expect(page.get_by_role("heading", name="Learned")).to_be_visible()
    expect(page.get_by_text(re.compile(r"^\d+ of \d+ working sets · \d+ min"))).to_be_visible()
    reasons = [f"{c.value[0].upper()}{c.value[1:]}." for c in Choice]
    for lighter in page.locator("ul.list li", has_text="lighter than").all():
        assert lighter.locator("p.s").inner_text() in reasons
    expect(page.locator("ul.list li", has_text="lighter than").first).to_be_visible()
    page.get_by_label("A note on the session, if you like").fill("slept badly, still fine")
    page.get_by_role("button", name="Finish").click()
    expect(page.get_by_text("slept badly, still fine")).to_be_visible()
    expect(page.get_by_role("link", name="look back")).to_have_count(0)
    thumb.context.set_offline(offline=False)
    thumb.settled()
    state = day_state(own_demo, DAY, "Monday")
    assert (state.finished, state.note) == (True, "slept badly, still fine")
    page.reload()
    page.get_by_role("link", name="look back").click()
    expect(page.get_by_text("slept badly, still fine")).to_be_visible()
    assert page.url.endswith(f"/review/{DAY}")


def test_rest_is_logged_as_it_was_taken(thumb: Thumb, own_demo: Book) -> None:
    """By the phone's clock: three minutes between closings are not written as the two asked for."""
    before = len(own_demo.history())
    thumb.context.set_offline(offline=True)
    for _ in range(5):
        thumb.context.clock.fast_forward(180_000)
        thumb.close_with(5)
    thumb.close_with(5)
    thumb.context.set_offline(offline=False)
    thumb.settled()
    _, *timed, late = sorted(own_demo.history().sets[before:], key=lambda done: done.number)
    for done in timed:
        assert done.rest_s is not None
        assert 180 - 5 * 6 <= done.rest_s <= 182 - 5 * 1  # a rep takes 1 to 6 s
        assert exact_text(done.rest_s) != "120"
    assert late.rest_s is None
