"""A thumb on the Floor of the phone, and what it remembers of its touches."""

from __future__ import annotations

import re
from contextlib import suppress
from dataclasses import dataclass, field
from random import Random

from playwright.sync_api import BrowserContext, Error, Page, expect

from pennate.app.book import Book
from pennate.core.performed import PerformedSet
from pennate.core.quantities import format_number

PAUSE_MS = 1100
"""A little more than the guard against double touches."""
EFFORTS = {"missed one": "fail", "none left": "0", "1": "1", "2": "2"}


@dataclass(frozen=True)
class Tap:
    """One set as it was touched: where, at which load, how many, how hard."""

    exercise: str
    load: str
    amount: int
    effort: str


@dataclass
class Thumb:
    """Touches a page of a context; time goes on between touches."""

    context: BrowserContext
    address: str
    rng: Random
    taps: list[Tap] = field(default_factory=list)
    page: Page | None = None
    touches: int = 0

    def open(self) -> Page:
        """Open the Floor; cards come from the phone, or from the server the first time."""
        self.page = self.context.new_page()
        self.page.goto(self.address + "/phone")
        expect(self.page.locator("#page[data-ready]")).to_be_attached()
        return self.page

    def start(self) -> None:
        """From the session's list to its first open set."""
        assert self.page
        go = self.page.get_by_role("button", name=re.compile(r"^(Start|Go on)$"))
        if self.page.locator(".closing").count() == 0:
            expect(go).to_be_visible(timeout=30_000)
            go.click()

    def close_set(self) -> None:
        """Close the set shown by one of the keys offered, sometimes saying how hard it was."""
        page = self.page
        assert page
        self.context.clock.fast_forward(PAUSE_MS)
        name = page.locator("h1").inner_text()
        load = page.locator("#load").inner_text().replace("\xa0", " ")
        effort = ""
        if self.rng.random() < 0.4:
            effort = self.rng.choice(list(EFFORTS))
            page.locator(f"input[name=effort][value='{EFFORTS[effort]}']").check()
            self.touches += 1
        keys = page.locator(".closing button")
        key = keys.nth(self.rng.randrange(keys.count()))
        amount = int(re.search(r"\d+", key.inner_text())[0])  # type: ignore[index] # has a number
        key.click()
        self.touches += 1
        self.taps.append(Tap(name, load, amount, EFFORTS.get(effort, "")))

    def undo(self) -> None:
        """Take the last set back."""
        assert self.page
        self.page.get_by_role("button", name="undo").click()
        self.taps.pop()

    def kill(self) -> None:
        """End the tab's process at once, as a phone short of memory does."""
        assert self.page
        with suppress(Error):  # the navigation is how a tab is made to crash; it always fails
            self.page.goto("chrome://crash", timeout=2000)
        self.page.close()
        self.page = None

    def settled(self) -> None:
        """Wait until the page says that nothing waits."""
        assert self.page
        said = self.page.locator("#stand")
        expect(said).to_have_text("Everything is in the records", timeout=30_000)


def stored(book: Book, since: int) -> list[Tap]:
    """The sets of the records beyond a number, as taps."""
    sets = sorted(book.history().sets[since:], key=lambda done: (done.day, done.number))
    return [_tap(book, done) for done in sets]


def _tap(book: Book, done: PerformedSet) -> Tap:
    load = "body weight"
    if done.load is not None:
        suffix = {"each": " each", "side": " a side", "plates": " in plates"}
        words = " of help" if done.load < 0 else suffix.get(done.reading.value, "")
        load = f"{format_number(abs(done.load))} {done.unit}{words}"
    amount = done.reps if done.seconds is None else int(done.seconds)
    effort = done.effort.value if done.effort else ""
    return Tap(book.catalogue[done.exercise].name, load, amount, effort)
