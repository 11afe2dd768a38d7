"""The clock, the signal, the screen kept awake, holds and tempo: comforts that save nothing.

Only what a browser asks permission for is stood in for, by scripts that write down each call.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from random import Random
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from pennate.app.book import Book
from pennate.files.catalogue import read_catalogue
from pennate.files.week import read_week
from pennate.web.phone.kept import Stand
from tests.web.conftest import served

from .conftest import NewPhone, Prepared
from .thumb import Thumb, number_on, stored

pytestmark = pytest.mark.browser

COUNTED = """
name = "Counted"
[[day]]
day = "Monday"
focus = "counted"
minutes = 40
[[day.exercise]]
exercise = "shoulder_press"
sets = [{ sets = 4, reps = "8", reserve = "2", rest = "1:30" }]
[[day.exercise]]
exercise = "side_plank"
sets = [{ seconds = "20-40", rest = "0:45" }]
[[day.exercise]]
exercise = "standing_calf_raise"
sets = [
  { reps = "8-20", reserve = "0-1", rest = "1:30", tempo = "2-1-1" },
  { reps = "8-20", reserve = "0-1", rest = "1:30", tempo = "3-0-x-1" },
]
"""

CALLS = """
window.calls = [];
const shake = (pattern) => window.calls.push("shake " + pattern);
Object.defineProperty(navigator, "vibrate", { value: shake });
self.AudioContext = class extends AudioContext {
  createOscillator() {
    window.calls.push("tone");
    return super.createOscillator();
  }
};
"""
AWAKE = """
window.locks = [];
window.calls = [];
Object.defineProperty(navigator, "wakeLock", { value: { request: async (kind) => {
  window.calls.push("ask " + kind);
  const lock = new EventTarget();
  lock.release = async () => {
    window.calls.push("let go");
    lock.dispatchEvent(new Event("release"));
  };
  window.locks.push(lock);
  return lock;
} } });
"""
REFUSED = """
window.calls = [];
Object.defineProperty(navigator, "wakeLock", { value: { request: async (kind) => {
  window.calls.push("ask " + kind);
  throw new DOMException("the battery is low", "NotAllowedError");
} } });
"""
NEITHER = """
delete Navigator.prototype.wakeLock;
delete Navigator.prototype.vibrate;
delete window.AudioContext;
"""


class CountedPrepared(Prepared):
    """The same for copies of the demo with this week."""

    shared: dict[tuple[Stand, date], dict[str, Any]] = {}  # noqa: RUF012 # that is its purpose


@pytest.fixture
def address(own_demo: Book) -> Iterator[str]:
    """A server over a session of rests, a hold and two tempos."""
    own_demo.save_week(read_week(COUNTED, read_catalogue()))
    with served(own_demo, CountedPrepared(own_demo.ledger.position())) as found:
        yield found


@pytest.fixture
def counted(new_phone: NewPhone, address: str) -> Iterator[Thumb]:
    """A thumb on the first set, out of reach; an error on its page fails the test."""
    thumb = Thumb(new_phone(), address, Random(9))
    wrong: list[str] = []
    thumb.context.on("weberror", lambda error: wrong.append(str(error.error)))
    yield thumb
    assert wrong == []


def begun(thumb: Thumb, script: str = "") -> Page:
    """The page at its first set, with a script run before any of its own."""
    if script:
        thumb.context.add_init_script(script)
    thumb.ready()
    thumb.context.set_offline(offline=True)
    return thumb.seen


def entries(page: Page) -> int:
    """How many entries the phone holds."""
    found: int = page.evaluate("""() => new Promise((told) => {
      indexedDB.open("pennate").onsuccess = ({target}) => {
        const asked = target.result.transaction("entries").objectStore("entries").count();
        asked.onsuccess = () => (target.result.close(), told(asked.result));
      };
    })""")
    return found


def calls(page: Page) -> list[str]:
    """What was asked of the browser since last looked."""
    found: list[str] = page.evaluate("() => window.calls.splice(0)")
    return found


def stand_still(thumb: Thumb) -> None:
    """Stop the phone's clock where it is; it goes on only when it is told to."""
    thumb.context.clock.pause_at(thumb.seen.evaluate("() => Date.now() / 1000 + 5"))


def test_the_rest_clock_counts_and_decides_nothing(counted: Thumb) -> None:
    """It shows the seconds since the last set, far beyond the asked rest, and saves nothing."""
    page = begun(counted)
    expect(page.locator("#clock")).to_have_count(0)
    counted.close_set()
    expect(page.locator("#clock")).to_have_text("0:00")
    expect(page.locator("#stand")).to_contain_text("waiting")
    place, kept = page.locator("#place").inner_text(), entries(page)
    stand_still(counted)
    shown = seconds(page)
    counted.context.clock.run_for(64_000)
    assert seconds(page) == shown + 64
    counted.context.clock.run_for(40 * 60_000)
    assert seconds(page) == shown + 64 + 40 * 60
    assert page.locator("#place").inner_text() == place
    assert entries(page) == kept
    assert asked_rest(page) < seconds(page)


def seconds(page: Page) -> int:
    """The rest clock in seconds."""
    minutes, _, rest = page.locator("#clock").inner_text().partition(":")
    return int(minutes) * 60 + int(rest)


def asked_rest(page: Page) -> int:
    """The rest asked before the set shown, in seconds."""
    minutes, rest = page.locator(".clock").inner_text().split(" of ")[1].split(":")
    return int(minutes) * 60 + int(rest)


def test_the_signal_comes_once_a_rest_and_only_if_wanted(counted: Thumb) -> None:
    """Off, nothing; on, one tone and one shake when the asked rest is over, in each rest."""
    page = begun(counted, CALLS)
    counted.close_set()
    counted.context.clock.run_for((asked_rest(page) + 20) * 1000)
    assert calls(page) == []
    page.get_by_role("button", name="signal after the rest: off").click()
    assert calls(page) == ["shake 200,100,200", "tone"], "she hears what she switched on"
    expect(page.get_by_role("button", name="signal after the rest: on")).to_be_visible()
    for _ in range(2):
        counted.close_set()
        counted.context.clock.run_for((asked_rest(page) - 20) * 1000)
        assert calls(page) == []
        counted.context.clock.run_for(300_000)
        assert calls(page) == ["shake 200,100,200", "tone"]
    page.reload()
    expect(page.get_by_role("button", name="signal after the rest: on")).to_be_visible()
    page.get_by_role("button", name="signal after the rest: on").click()
    counted.close_set()
    counted.context.clock.run_for((asked_rest(page) + 20) * 1000)
    assert calls(page) == []


def test_the_screen_is_kept_awake_on_a_set_only(counted: Thumb) -> None:
    """Asked for where a set is shown, again after the page was hidden, let go on the list."""
    page = begun(counted, AWAKE)
    assert calls(page) == ["ask screen"]
    counted.close_set()
    counted.close_set()
    assert calls(page) == [], "it is held already"
    page.evaluate("""() => {
      const hide = (how) => {
        Object.defineProperty(document, "visibilityState", { value: how, configurable: true });
        document.dispatchEvent(new Event("visibilitychange"));
      };
      hide("hidden");
      window.locks.at(-1).dispatchEvent(new Event("release"));
      setTimeout(() => hide("visible"), 500);
    }""")
    page.wait_for_function("() => window.calls.length")
    assert calls(page) == ["ask screen"]
    page.get_by_role("button", name="session", exact=True).click()
    assert calls(page) == ["let go"]
    page.get_by_role("button", name="Go on").click()
    assert calls(page) == ["ask screen"]


@pytest.mark.parametrize("script", [REFUSED, NEITHER], ids=["refused", "unknown"])
def test_without_permission_all_else_works(counted: Thumb, own_demo: Book, script: str) -> None:
    """Where the browser refuses or knows none of it, sets are closed and kept as ever."""
    before, page = len(own_demo.history()), begun(counted, script)
    page.get_by_role("button", name="signal after the rest: off").click()
    for _ in range(2):
        counted.close_set()
        counted.context.clock.run_for((asked_rest(page) + 20) * 1000)
    counted.context.set_offline(offline=False)
    counted.settled()
    assert stored(own_demo, before) == counted.taps
    assert len(counted.taps) == 2


def to(thumb: Thumb, exercise: str) -> Page:
    """On to the first set of an exercise."""
    while exercise not in thumb.seen.locator("h1").inner_text().lower():
        thumb.close_set()
    return thumb.seen


def test_a_hold_is_counted_and_closed_in_a_touch(counted: Thumb, own_demo: Book) -> None:
    """The seconds run from a touch to the next; the counted ones are what Done then says."""
    begun(counted)
    page = to(counted, "plank")
    before, kept = len(counted.taps), entries(page)
    expect(page.locator("#count")).to_have_text("count the seconds")
    stand_still(counted)
    page.get_by_role("button", name="count", exact=True).click()
    counted.context.clock.run_for(17_500)
    expect(page.locator("#count")).to_have_text("0:17")
    counted.context.clock.run_for(9_800)
    page.get_by_role("button", name="stop counting").click()
    assert entries(page) == kept, "counting saves nothing"
    expect(page.locator(".closing button")).to_have_text("Done, 27 s")
    counted.context.clock.resume()
    counted.close_with(27)
    counted.context.set_offline(offline=False)
    counted.settled()
    assert [done.seconds for done in own_demo.history().sets if done.seconds][-1] == 27
    assert len(counted.taps) == before + 1


TEMPOS = [
    ("2-1-1", 0, [(0.5, "rep 1 · lower 1"), (1.5, "rep 1 · lower 2"), (2.5, "rep 1 · hold 1")]),
    ("2-1-1", 0, [(3.5, "rep 1 · lift 1"), (4.5, "rep 2 · lower 1")]),
    ("3-0-x-1", 1, [(2.5, "rep 1 · lower 3"), (3.5, "rep 1 · lift 1"), (4.5, "rep 1 · hold 1")]),
]
"""A tempo is seconds down, held, up and held, x as fast as can be (docs/week-file.md)."""


@pytest.mark.parametrize(("tempo", "skipped", "said"), TEMPOS)
def test_a_tempo_is_counted_phase_by_phase(
    counted: Thumb, tempo: str, skipped: int, said: list[tuple[float, str]]
) -> None:
    """Down, held, up: the count says rep and phase, and then offers the reps it counted."""
    begun(counted)
    page = to(counted, "calf raise")
    while not page.get_by_text("tempo ").count():  # a ramp has none
        counted.close_set()
    for _ in range(skipped):
        counted.close_set()
    expect(page.get_by_text(f"tempo {tempo}")).to_be_visible()
    stand_still(counted)
    page.get_by_role("button", name="count", exact=True).click()
    passed = 0.0
    for at, words in said:
        counted.context.clock.run_for(round((at - passed) * 1000))
        passed = at
        expect(page.locator("#count")).to_have_text(words)
    whole = {"2-1-1": 4, "3-0-x-1": 5}[tempo]
    counted.context.clock.run_for(round((11 * whole + 1.5 - passed) * 1000))
    page.get_by_role("button", name="stop counting").click()
    keys = page.locator(".closing button")
    assert [number_on(key) for key in keys.all()] == [9, 10, 11, 12, 13]
    assert number_on(page.locator(".closing button.main")) == 11
