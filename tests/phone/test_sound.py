"""Every state of Today, the Floor and the phone's page: usable by all, and nothing sticks out."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import timedelta
from random import Random

import pytest
from playwright.sync_api import Browser, Page, expect

from pennate.app.book import Book
from pennate.files.catalogue import read_catalogue
from pennate.files.week import read_week
from tests.web.conftest import MONDAY, Clock, served, turned

from .checks import faults
from .conftest import NewPhone
from .thumb import Thumb

pytestmark = pytest.mark.browser

EVERY_KIND = """
name = "Every kind of set"
[[day]]
day = "Monday"
focus = "everything"
minutes = 90
preparation = [{ what = "easy bike or walk", seconds = 240 }]
[[day.exercise]]
exercise = "shoulder_press"
sets = [
  { kind = "warm-up", reps = "8", load = "60 % of top" },
  { kind = "top", reps = "6-8", reserve = "0-1", rest = "2:30" },
  { kind = "back-off", reps = "8", reserve = "2", load = "90 % of top", rest = "2:30" },
  { kind = "drop", reps = "8-12", reserve = "fail", load = "70 % of the set before" },
]
[[day.exercise]]
exercise = "lat_pulldown"
superset = "A"
sets = [{ sets = 2, reps = "8-12", reserve = "0-1", rest = "2:00" }]
[[day.exercise]]
exercise = "lateral_raise"
superset = "A"
sets = [{ sets = 2, reps = "12-15", reserve = "0-1", rest = "0:00" }]
[[day.exercise]]
exercise = "side_plank"
sets = [{ seconds = "20-40", rest = "0:45" }]
[[day.exercise]]
exercise = "standing_calf_raise"
sets = [{ reps = "8-20", reserve = "0-1", rest = "1:30", partials = 3, tempo = "2-2-1" }]
[[day.exercise]]
exercise = "push_up"
sets = [{ kind = "amrap", reps = "15+", reserve = "fail", load = "body weight", rest = "1:00" }]
"""


@pytest.fixture
def every_kind(own_demo: Book) -> Book:
    """A session with every kind of set."""
    own_demo.save_week(read_week(EVERY_KIND, read_catalogue()))
    return own_demo


@pytest.fixture
def address(every_kind: Book) -> Iterator[str]:
    """A server over it."""
    with served(every_kind) as found:
        yield found


class States:
    """Looks at a page in each of its states and remembers what was wrong, and where first."""

    def __init__(self, page: Page, *, axe: bool = True) -> None:
        self.axe = axe
        self.page, self.seen = page, list[str]()
        self.wrong: dict[str, str] = {}

    def look(self, name: str) -> None:
        """Everything that is wrong now."""
        self.seen.append(name)
        for fault in faults(self.page, axe=self.axe):
            self.wrong.setdefault(fault, name)

    def report(self) -> str:
        """What was wrong, a line each, and the state it was seen in first."""
        return "\n".join(f"{where}: {fault}" for fault, where in self.wrong.items())

    def kind(self) -> None:
        """The set shown, unless one of its kind was looked at."""
        place = self.page.locator("h1 + p").inner_text()
        name = re.sub(r"\d+", "n", place.split(" · ")[0])
        if name not in self.seen:
            self.look(name)


def test_the_phone_page_is_sound_in_every_state(new_phone: NewPhone, address: str) -> None:
    """Every kind of set, every panel, the list, pain, alarm, what waits, the end."""
    thumb = Thumb(new_phone(reduced_motion="reduce"), address, Random(3))
    thumb.without_week()
    states = States(thumb.open())
    page = thumb.seen
    thumb.start()
    page.evaluate("() => navigator.serviceWorker.ready.then(() => true)")
    for panel in ("taken", "hurts", "less time", "settings and notes"):
        page.get_by_role("button", name=panel, exact=True).click()
        states.look(panel)
    page.get_by_text("other number, other load, note").click()
    page.get_by_label("Full reps").fill("4o")
    page.get_by_role("button", name="Save this set").click()
    states.look("a slip")
    _hurt(states)
    thumb.context.set_offline(offline=True)
    while thumb.on_floor:
        states.kind()
        thumb.close_set()
    states.look("the list, all done, waiting")
    page.get_by_role("button", name="Finish").click()
    states.look("finished")
    assert {"warm-up n of n", "one set"} & set(states.seen) or len(states.seen) > 12
    assert not states.wrong, states.report()


def _hurt(states: States) -> None:
    page = states.page
    page.get_by_role("button", name="hurts", exact=True).click()
    page.locator("input[name=where]").first.check()
    page.locator("input[name=score][value='4']").check()
    page.get_by_role("button", name="What now?").click()
    states.look("pain of 4")


def test_alarm_and_nothing_stored_are_sound(new_phone: NewPhone, address: str) -> None:
    """Stop now; and a phone that was never in reach of its sessions."""
    thumb = Thumb(new_phone(reduced_motion="reduce"), address, Random(3))
    thumb.without_week()
    thumb.context.route("**/api/**", lambda route: route.abort())
    states = States(thumb.open())
    expect(thumb.seen.get_by_role("heading", level=1)).to_contain_text("nothing is stored")
    states.look("nothing stored")
    thumb.context.unroute("**/api/**")
    thumb.seen.reload()
    thumb.start()
    thumb.seen.get_by_role("button", name="hurts", exact=True).click()
    thumb.seen.get_by_role("button", name="Chest, breath, head").click()
    states.look("alarm")
    assert not states.wrong, states.report()


TODAY = ("/today", "/today?ask=sore", "/today?ask=hurts", "/today/stop/0", "/today/stop/1")
PANELS = ("/floor?ask=taken", "/floor?ask=hurts", "/floor?ask=notes", "/floor?pain=knee:4")


@pytest.mark.parametrize("script", ["on", "off"])
def test_plain_pages_are_sound_in_every_state(
    chromium: Browser, every_kind: Book, address: str, script: str
) -> None:
    """Today before, within and after; every kind of set; panels; pain; rest day; review."""
    context = chromium.new_context(
        viewport={"width": 390, "height": 844},
        java_script_enabled=script == "on",
        reduced_motion="reduce",
    )
    page = context.new_page()
    states = States(page, axe=script == "on")
    for path in (TODAY + PANELS) if script == "on" else TODAY[:1]:
        page.goto(address + path)
        states.look(path)
    page.goto(address + "/today")
    turned(page, page.get_by_role("button", name="short sleep"))
    states.look("short sleep")
    turned(page, page.get_by_role("link", name="Start"))
    while "/floor" in page.url:
        states.kind()
        turned(page, page.locator(".closing button").first)
    states.look("after")
    turned(page, page.get_by_role("button", name="Finish"))
    states.look("finished")
    page.goto(address + "/today")
    states.look("today, done")
    clock = every_kind.now
    assert isinstance(clock, Clock)
    clock.moment = MONDAY + timedelta(days=1)
    page.goto(address + "/today")
    states.look("a day of rest")
    context.close()
    assert not states.wrong, states.report()
