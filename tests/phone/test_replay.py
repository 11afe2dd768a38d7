"""Random sessions through the page's own code and through the model: one step apart at most."""

from __future__ import annotations

import os
from collections.abc import Iterator
from datetime import timedelta
from fractions import Fraction
from random import Random
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from pennate.app.book import Book
from pennate.app.sync import Fate, take_in
from pennate.app.today import card_for
from pennate.core.card import Card, CardStop, SetState
from pennate.ledger import uuid7
from pennate.loading import ladder
from pennate.web.phone.document import day_document
from pennate.web.render import static
from tests.web.conftest import MONDAY, served

pytestmark = pytest.mark.browser
DAY = MONDAY.date()
SESSIONS = 40 if os.environ.get("PENNATE_SOAK") else 3
TRICKS = ("skip", "order", "swap", "shorten", "slip")
SUBSTITUTE_ROOM = 1
"""Steps more for an exercise swapped in: its first sets teach much, and not in straight lines."""
Json = dict[str, Any]

NEXT = """async ([url, entries]) => {
  const { fold, indexOf, keysOf, look, nextKey, stopOf } = await import(url);
  const { toFit } = await import(url.replace("session.js", "time.js"));
  const session = fold(window.day, entries);
  const key = nextKey(session);
  if (!key) return null;
  const stop = stopOf(session, indexOf(key));
  const row = look(session).get(key);
  const step = row.rung === null ? null : stop.steps[row.rung];
  return { key, set: stop.sets[key], row, step, steps: stop.steps.map((one) => one.amount),
    stop: stop.index, item: stop.item, exercise: stop.exercise, order: session.order.flat(),
    toFit: toFit(session, 30), runs: session.order, instead: window.day.instead[stop.index] };
}"""


class Replay:
    """One session, tapped on the page and stored in the records."""

    def __init__(self, page: Page, address: str, book: Book, rng: Random) -> None:
        self.page, self.book, self.rng = page, book, rng
        self.url = address + static("session.js")
        self.entries: list[Json] = []
        self.day, self.slip = rng.choice([-1, 0, 1]), False
        page.evaluate("day => { window.day = day; }", day_document(book, DAY, "Monday"))

    def next(self) -> Json | None:
        """What the page shows next."""
        shown: Json | None = self.page.evaluate(NEXT, [self.url, self.entries])
        return shown

    def put(self, kind: str, body: Json) -> None:
        """One touch: the same entry for the page and for the records."""
        moment = MONDAY + timedelta(hours=2, seconds=len(self.entries))
        entry = {
            "id": uuid7(moment, self.rng),
            "kind": kind,
            "day": DAY.isoformat(),
            "made_at": moment.isoformat(),
            "replaces": None,
            "body": body,
        }
        self.entries.append(entry)
        (answer,) = take_in(self.book, [entry])
        assert answer.fate is Fate.STORED, answer.why

    def decide(self, what: str, **body: Any) -> None:
        """A decision of hers."""
        self.put("decision", {"what": what, "weekday": "Monday", **body})

    def close(self, shown: Json) -> None:
        """Close the set shown, at the load shown, as her strength has it that day."""
        body = {**shown["set"]["entry"], "set": len(self.entries) + 1}
        body["date"] = f"{DAY}T20:{len(self.entries):02d}:00"
        body |= {"rest_s": str(shown["set"]["rest_s"]), "extra": {"card_key": shown["key"]}}
        body |= {"exercise": shown["exercise"], "equipment": shown["item"]}
        load = shown["step"] or shown["set"]["load"]
        if load["form_unit"]:
            body |= {"load": load["amount"], "unit": load["form_unit"], "load_is": load["load_is"]}
        expected = shown["row"]["expected"]
        if expected is not None and self.rng.random() < 0.7:
            over = self.rng.choice([-3, -2, -1, 1, 2]) + self.day
            body["reps"] = max(0, shown["row"]["likely"]["middle"] + over)
            body.pop("as_asked", None)
            if self.rng.random() < 0.5:
                body["rir"] = self.rng.choice(["fail", "0", "1", "2"])
        if self.slip:
            body["reps"], self.slip = min(int(f"{body['reps']}0"), 190), False
            body.pop("as_asked", None)
        self.put("set", body)


def trick(replay: Replay, what: str, shown: Json) -> None:
    """Something that happens in a gym."""
    if what == "skip":
        replay.decide("skip", stop=shown["stop"])
    elif what == "swap" and shown["instead"]:
        to = shown["instead"][0]
        body = {"stop": shown["stop"], "exercise": to["exercise"], "item": to["item"]}
        replay.decide("swap", **body, reason="taken")
    elif what == "order":
        runs = shown["runs"]
        at = next(i for i, run in enumerate(runs) if shown["stop"] in run)
        if at + 1 < len(runs):
            runs[at], runs[at + 1] = runs[at + 1], runs[at]
            replay.decide("order", stops=[stop for run in runs for stop in run])
    elif what == "slip":
        replay.slip = shown["row"]["expected"] is not None
    elif what == "shorten":
        replay.decide("leave out", keys=shown["toFit"])


def steps_apart(card: Card, shown: Json, book: Book) -> int | None:
    """How many loadable steps lie between the page's load and the model's for this set."""
    found = card.find(shown["key"])
    gym = book.gym()
    if found is None or gym is None or shown["step"] is None:
        return None
    stop, one = found
    if one.load is None or stop.item is None or stop.item.id != shown["item"]:
        return None
    if one.state is not SetState.OPEN or shown["set"]["kind"] == "warm-up":
        return None
    amounts = _amounts(stop, book)
    return abs(
        _place(amounts, one.load.felt_kg)
        - _place(amounts, _felt(stop, shown, book, one.load.count))
    )


def _felt(stop: CardStop, shown: Json, book: Book, count: int) -> float:
    """Felt load of the step the page shows."""
    gym = book.gym()
    assert gym
    assert stop.item
    written = (Fraction(shown["step"]["amount"]), shown["step"]["form_unit"])
    steps = ladder(gym, stop.item, count)
    return next(one.felt_kg for one in steps if (one.load.amount, str(one.load.unit)) == written)


def _place(amounts: list[float], kg: float) -> int:
    return min(range(len(amounts)), key=lambda i: abs(amounts[i] - kg))


def _amounts(stop: CardStop, book: Book) -> list[float]:
    gym = book.gym()
    assert gym
    assert stop.item
    return [step.felt_kg for step in ladder(gym, stop.item)]


@pytest.fixture
def bare(chromium: Browser, own_demo: Book) -> Iterator[tuple[Page, str]]:
    """A page of ours that runs nothing by itself."""
    with served(own_demo) as address:
        page = chromium.new_page()
        page.goto(address + "/data")
        yield page, address
        page.close()


@pytest.mark.parametrize("seed", range(SESSIONS))
def test_page_and_model_are_one_step_apart_at_most(
    bare: tuple[Page, str], own_demo: Book, seed: int
) -> None:
    """With skips, swaps, another order, less time and slips, both come to the same loads."""
    rng = Random(seed)
    replay = Replay(*bare, own_demo, rng)
    at = {rng.randrange(2, 20): TRICKS[(2 * seed + i) % len(TRICKS)] for i in range(2)}
    apart = []
    for tap in range(60):
        shown = replay.next()
        if shown is None:
            break
        if tap in at:
            trick(replay, at[tap], shown)
            continue
        card = card_for(own_demo, DAY)
        assert isinstance(card, Card)
        if (gap := steps_apart(card, shown, own_demo)) is not None:
            swapped = bool(found_swap(replay, shown["stop"]))
            apart.append((gap - SUBSTITUTE_ROOM * swapped, shown["key"]))
        replay.close(shown)
    assert replay.next() is None
    assert len(apart) > 5
    assert max(apart)[0] <= 1


def found_swap(replay: Replay, stop: int) -> list[Json]:
    """Whether another exercise was taken at this stop."""
    swaps = [one["body"] for one in replay.entries if one["body"].get("what") == "swap"]
    return [body for body in swaps if body["stop"] == stop]
