"""A worse sign told out of reach: the stricter rule stands alone, and she sees what it replaced."""

from __future__ import annotations

from datetime import timedelta
from random import Random
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from pennate.app.book import Book
from pennate.core import caution_texts as say
from pennate.ledger import uuid7
from pennate.web.phone.document import day_document
from tests.web.conftest import MONDAY

from .test_hurts import hurt
from .test_line import DAY, Line
from .test_replay import bare
from .test_signs import home
from .thumb import Thumb

__all__ = ["bare"]

pytestmark = pytest.mark.browser
Json = dict[str, Any]

SEEN = """async ([home, entries, date]) => {
  const from = (name) => import(home + name);
  const [{ fold, nextKey }, { viewOf }, { lineOf }] =
    await Promise.all(["session.js", "views.js", "line.js"].map(from));
  const session = fold(window.day, entries, date);
  const parts = lineOf(session).flatMap((stop) => stop.parts);
  const ui = { rung: null, heed: [], panel: "" };
  const view = nextKey(session) && viewOf(session, ui, { efforts: [], joints: [] });
  return { parts, floor: view ? [...view.set_up, ...view.cautions] : [] };
}"""


class Eased(Line):
    """A session whose cards know of a shoulder at 4 of 10, taken out of reach."""

    def seen_now(self) -> Json:
        """The stops of the line, and the cautions at the set that comes next."""
        found: Json = self.page.evaluate(SEEN, [home(self), self.entries, str(DAY)])
        return found

    def away(self, kind: str, body: Json) -> None:
        """An entry made out of reach: the records do not have it yet."""
        moment = MONDAY + timedelta(hours=3, seconds=len(self.entries))
        whole = {"id": uuid7(moment, self.rng), "kind": kind, "day": str(DAY), "replaces": None}
        self.entries.append({**whole, "made_at": moment.isoformat(), "body": body})


@pytest.fixture
def eased(bare: tuple[Page, str], own_demo: Book) -> Eased:
    """The demo's Monday, with less load for a sore shoulder on its cards."""
    found = Eased(*bare, own_demo, Random(4))
    found.put("readiness", {"pain": {"shoulder": 4}, "alarming": []})
    found.page.evaluate("day => { window.day = day; }", day_document(own_demo, DAY, "Monday"))
    found.entries.clear()
    return found


def test_only_the_stricter_rule_stands_after_a_sign(eased: Eased) -> None:
    """“Gave way” at a warm-up, and taken up again: stop, and no longer “reduce” beside it."""
    shown = eased.next()
    assert shown
    assert shown["key"].split(".")[1] == "0"
    body = {**shown["set"]["entry"], "date": str(DAY), "set": 1, "exercise": shown["exercise"]}
    eased.away("set", {**body, "extra": {"card_key": shown["key"]}, "note": "gave way"})
    skip = {"what": "skip", "weekday": "Monday", "stop": 0, "because": "gave way"}
    eased.away("decision", skip)
    assert eased.seen_now()["parts"][0]["told"] == "gave way, in place of less load"
    eased.away("decision", {"what": "take up", "weekday": "Monday", "stop": 0})
    while (shown := eased.next()) and shown["key"].split(".")[1] == "0":
        body = {**shown["set"]["entry"], "date": str(DAY), "set": len(eased.entries)}
        more = {"exercise": shown["exercise"], "extra": {"card_key": shown["key"]}}
        eased.away("set", {**body, **more})
    seen = eased.seen_now()
    for texts in (seen["floor"], seen["parts"][0]["cautions"]):
        assert texts.count(say.PAIN_STOP.text) == 1
        assert say.PAIN_REDUCE.of(["shoulder"]).text not in texts


@pytest.mark.parametrize(("score", "sharp"), [(8, []), (4, ["shoulder"])])
def test_what_is_left_out_says_what_it_replaces(eased: Eased, score: int, sharp: list[str]) -> None:
    """4 of 10 has become 8, or sharp: left out in the place of less load, which is gone."""
    before = [part for part in eased.seen_now()["parts"] if part["pain"]]
    assert all(part["pain"].startswith("pain 4 of 10") for part in before)
    eased.away("readiness", {"pain": {"shoulder": score}, "alarming": sharp})
    after = [part for part in eased.seen_now()["parts"] if part["pain"]]
    assert [part["name"] for part in after] == [part["name"] for part in before]
    assert all(part["pain"].endswith(", in place of less load") for part in after)
    assert all(not part["cautions"] for part in after)
    eased.away("readiness", {"pain": {"shoulder": 8}, "alarming": [], "corrected": ["shoulder"]})
    again = [part["pain"] for part in eased.seen_now()["parts"] if part["pain"]]
    assert again == ["left out: pain 8 of 10 where it loads"] * len(before)


def test_she_sees_it_on_the_phone(thumb: Thumb) -> None:
    """Told 4 with a set, then 8 with the next: the session says which rule holds now."""
    page = thumb.seen
    thumb.context.set_offline(offline=True)
    for score in (4, 8):
        page.get_by_role("button", name="hurts", exact=True).click()
        hurt(page, score)
        thumb.close_with(6)
    page.get_by_role("button", name="session", exact=True).click()
    expect(page.get_by_text("in place of less load").first).to_be_visible()
    expect(page.get_by_text("what loads it is left out today")).to_have_count(1)
    expect(page.get_by_text("Pain of 3 to 5")).to_have_count(0)
