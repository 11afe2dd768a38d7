"""Sessions sent in any order and again, and two phones cut off at random: the truth arrives.

A few of each in every run, 40 sessions and 20 cut runs with PENNATE_SOAK=1.
"""

from __future__ import annotations

import os
from collections import Counter
from collections.abc import Iterator
from contextlib import ExitStack
from datetime import timedelta
from random import Random
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, Playwright, Route

from pennate.app.book import Book
from pennate.app.sync import entries_after
from pennate.web.render import static
from tests.conftest import CHROMIUM, FLAGS
from tests.web.conftest import MONDAY, served

from .conftest import START
from .thumb import Thumb, stored

pytestmark = pytest.mark.browser

SOAK = bool(os.environ.get("PENNATE_SOAK"))
SESSIONS = 40 if SOAK else 8
RUNS = 20 if SOAK else 1
CUTS = 10 if SOAK else 4
"""Of each of the two phones, in each run."""
MORE_THAN_ALL = 10_000
EXERCISES = ("back_squat_free", "bench_press", "lat_pulldown", "leg_press")
DELIVERIES = 3
"""How often an entry is handed over on average before its answer is heard."""

Json = dict[str, Any]

MADE = """async ([url, touches]) => {
  const { Outbox } = await import(url);
  window.outbox = await Outbox.open();
  const made = [];
  for (const { kind, day, body, replaces } of touches) {
    made.push(window.outbox.entry(kind, day, body, replaces === null ? null : made[replaces].id));
  }
  await window.outbox.add(...made);
  window.made = made;
  return made.map((one) => one.id);
}"""
HANDED = """(places) => window.outbox.post(places.map((i) => {
  const { id, kind, day, made_at, replaces, body } = window.made[i];
  return { id, kind, day, made_at, replaces, body };
}))"""
SENT = """async () => {
  await window.outbox.send();
  const left = (await window.outbox.entries()).filter((one) => !one.sent);
  return left.map((one) => one.refused ?? "waits");
}"""


class Made:
    """Touches of made-up sessions on days gone by, and what must be left of them."""

    def __init__(self, sessions: int, rng: Random) -> None:
        self.touches: list[Json] = []
        self.left: list[tuple[str, int, str, int]] = []
        for back in range(1, sessions + 1):
            self._session((MONDAY - timedelta(days=back)).date().isoformat(), rng)

    def _session(self, day: str, rng: Random) -> None:
        standing: dict[int, tuple[int, Json]] = {}
        for number in range(1, rng.randrange(8, 16)):
            body = {
                "date": f"{day}T18:{number:02d}:00",
                "session": "made",
                "set": number,
                "exercise": rng.choice(EXERCISES),
                "reps": rng.randrange(3, 16),
                "load": str(rng.randrange(20, 80)),
                "unit": "kg",
            }
            standing[number] = (self._add("set", day, body), body)
            chance = rng.random()
            if chance < 0.15:
                at, _ = standing.pop(number)
                self._add("retraction", day, {"why": "undone at once"}, at)
            elif chance < 0.3:
                slip = rng.choice(sorted(standing))
                at, was = standing[slip]
                mended = {**was, "reps": was["reps"] + 1}
                standing[slip] = (self._add("set", day, mended, at), mended)
            elif chance < 0.4:
                what = {"what": "skip", "weekday": "Monday", "stop": rng.randrange(4)}
                self._add("decision", day, what)
        self.left += [(day, n, b["exercise"], b["reps"]) for n, (_, b) in standing.items()]

    def _add(self, kind: str, day: str, body: Json, replaces: int | None = None) -> int:
        self.touches.append({"kind": kind, "day": day, "body": body, "replaces": replaces})
        return len(self.touches) - 1


def unheard(route: Route) -> None:
    """The server takes what was sent, and its answer is lost on the way back."""
    headers = {**route.request.headers, "sec-fetch-site": "same-origin"}
    assert route.fetch(headers=headers).ok
    route.abort()


def test_sessions_in_any_order_and_again(chromium: Browser, own_demo: Book) -> None:
    """Handed over shuffled, cut into pieces, again and unanswered: each touch counts once."""
    rng = Random(40)
    made, before = Made(SESSIONS, rng), len(own_demo.history())
    start = own_demo.ledger.position()
    with served(own_demo) as address:
        page = chromium.new_page()
        page.goto(address + "/data")
        ids = page.evaluate(MADE, [address + static("outbox.js"), made.touches])
        again = [i for i in range(len(ids)) for _ in range(rng.randrange(2 * DELIVERIES))]
        rng.shuffle(again)
        while again:
            size = rng.randrange(1, 60)
            piece, again = again[:size], again[size:]
            if rng.random() < 0.3:
                page.route("**/api/entries", unheard)
                assert page.evaluate(HANDED, piece) is None
                page.unroute("**/api/entries")
            else:
                assert page.evaluate(HANDED, piece) is not None
        assert page.evaluate(SENT) == []
        page.close()
    kept = entries_after(own_demo, start, MORE_THAN_ALL).entries
    assert Counter(entry.id for _, entry in kept) == Counter(ids)
    sets = own_demo.history().sets
    days = {day for day, *_ in made.left}
    found = [
        (str(done.day), done.number, done.exercise, done.reps)
        for done in sets
        if done.session == "made" and str(done.day) in days
    ]
    assert Counter(found) == Counter(made.left)
    assert len(sets) == before + len(made.left)


@pytest.fixture
def two_browsers(playwright: Playwright) -> Iterator[list[BrowserContext]]:
    """Two phones, each a browser with processes of its own."""
    with ExitStack() as ended:
        made = []
        for _ in range(2):
            browser = playwright.chromium.launch(executable_path=CHROMIUM, args=list(FLAGS))
            ended.callback(browser.close)
            context = browser.new_context(viewport={"width": 390, "height": 844}, timezone_id="UTC")
            context.set_default_timeout(30_000)
            context.clock.install(time=START)
            made.append(context)
        yield made


class Cut:
    """A thumb whose phone loses its page, its reception, or the server's answers."""

    def __init__(self, thumb: Thumb, rng: Random) -> None:
        self.thumb, self.rng = thumb, rng
        self.cuts = 0
        thumb.rng = rng
        thumb.ready()

    def go_on(self) -> None:
        """A touch or two, and perhaps a cut within the next fifth of a second."""
        if self.thumb.page is None:
            self.thumb.open()
            self.thumb.start()
        for _ in range(self.rng.randrange(1, 3)):
            if self.thumb.on_floor:
                self.thumb.close_set()
        if self.thumb.taps and self.rng.random() < 0.15:
            self.thumb.undo()
        self.thumb.seen.wait_for_timeout(self.rng.randrange(200))
        self.rng.choice([self._kill, self._kill, self._part, self._deafen])()
        self.cuts += 1

    def _kill(self) -> None:
        self.thumb.kill()

    def _part(self) -> None:
        self.thumb.context.set_offline(self.rng.random() < 0.6)

    def _deafen(self) -> None:
        self.thumb.context.unroute("**/api/entries")
        if self.rng.random() < 0.6:
            self.thumb.context.route("**/api/entries", unheard)

    def settle(self) -> Page:
        """Everything is well again, and what waited has arrived."""
        self.thumb.context.unroute("**/api/entries")
        self.thumb.context.set_offline(offline=False)
        if self.thumb.page is None:
            self.thumb.open()
        self.thumb.context.clock.fast_forward(31_000)
        self.thumb.settled()
        return self.thumb.seen


@pytest.mark.parametrize("seed", range(RUNS))
def test_two_phones_cut_at_once(
    two_browsers: list[BrowserContext], address: str, own_demo: Book, seed: int
) -> None:
    """Both in the same session, both cut off again and again: all that was tapped, each once."""
    rng, before = Random(seed), len(own_demo.history())
    phones = [
        Cut(Thumb(context, address, rng), Random(100 * seed + i))
        for i, context in enumerate(two_browsers)
    ]
    while waiting := [one for one in phones if one.cuts < CUTS]:
        rng.choice(waiting).go_on()
    for one in phones:
        one.settle()
    taps = [tap for one in phones for tap in one.thumb.taps]
    assert Counter(stored(own_demo, before)) == Counter(taps)
    assert len(taps) > CUTS
