"""A thumb on the Floor of the phone, and what it remembers of its touches."""

from __future__ import annotations

import re
from contextlib import suppress
from dataclasses import dataclass, field
from random import Random

from playwright.sync_api import BrowserContext, Error, Locator, Page, expect

from pennate.app.book import Book
from pennate.core.performed import PerformedSet
from pennate.core.quantities import format_number

PAUSE_MS = 1100
"""A little more than the guard against double touches."""
EFFORTS = {"missed one": "fail", "none left": "0", "1": "1", "2": "2"}

SAYS_EFFORT = 0.4
DIFFERS = 0.7
MISSES = (-3, -2, -2, -1, -1, -1, 1, 1, 1, 2, 2, 3)
"""By how many reps a set ends other than was likely; two reps either way is usual (bench)."""


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
    crashed: bool = False
    """Whether the page's process ended: with another tab's, where the browser shares it."""
    touches: int = 0
    per_set: list[tuple[int, bool]] = field(default_factory=list)
    """Touches each set took, and whether effort was said."""

    @property
    def seen(self) -> Page:
        """The page, which must be open."""
        assert self.page
        return self.page

    def ready(self, *, fresh: bool = False) -> None:
        """Open the Floor at the first set, with all that is needed out of reach kept.

        Fresh cards within the session cost the server seconds; only some tests are about them.
        """
        if not fresh:
            self.context.route("**/api/cards?days=1", lambda route: route.abort())
        self.open()
        self.start()
        self.kept()

    def before(self) -> Page:
        """Out of reach on the session's list, with the week kept."""
        page = self.open()
        expect(page.get_by_role("button", name="Start")).to_be_visible(timeout=120_000)
        self.kept()
        self.context.set_offline(offline=True)
        return page

    def kept(self) -> None:
        """Wait until the page and its week are on the phone."""
        self.seen.evaluate("() => navigator.serviceWorker.ready.then(() => true)")
        expect(self.seen.locator("#page[data-week='2026-11-23']")).to_be_attached(timeout=120_000)

    def without_week(self) -> None:
        """Let the seven days go unanswered: they cost the server seconds that few tests need."""
        self.context.route("**/api/cards?days=7", lambda route: route.abort())

    def open(self) -> Page:
        """Open the Floor; cards come from the phone, or from the server the first time."""
        self.page = self.context.new_page()
        self.page.on("crash", lambda _: setattr(self, "crashed", True))
        self.page.goto(self.address + "/phone")
        expect(self.page.locator("#page[data-ready]")).to_be_attached()
        return self.page

    def start(self) -> None:
        """From the session's list to its first open set."""
        go = self.seen.get_by_role("button", name=re.compile(r"^(Start|Go on)$"))
        if self.seen.locator(".closing").count() == 0:
            expect(go).to_be_visible(timeout=120_000)
            go.click()

    @property
    def on_floor(self) -> bool:
        """Whether a set can be closed."""
        return self.page is not None and self.page.locator(".closing").count() > 0

    def close_set(self) -> None:
        """Close the set shown by one of the keys offered, sometimes saying how hard it was."""
        effort = self.rng.choice(list(EFFORTS)) if self.rng.random() < 0.4 else ""
        keys = self.seen.locator(".closing button")
        self.close_with(number_on(keys.nth(self.rng.randrange(keys.count()))), effort)

    def close_with(self, amount: int, effort: str = "") -> None:
        """Close the set shown as it truly was; typed where no key bears the number."""
        self.context.clock.fast_forward(PAUSE_MS)
        page, before = self.seen, self.touches
        name = page.locator("h1").inner_text()
        load = page.locator("#load").inner_text().replace("\xa0", " ")
        key = page.locator(f"input[name=effort][value='{EFFORTS.get(effort)}']")
        if effort and key.count():
            key.check()
            self.touches += 1
        else:
            effort = ""  # of a hold no reps are left
        for key in page.locator(".closing button").all():
            if number_on(key) == amount:
                key.click()
                self.touches += 1
                break
        else:
            self._type(amount)
        self.per_set.append((self.touches - before, bool(effort)))
        self.taps.append(Tap(name, load, amount, EFFORTS.get(effort, "")))

    def truth(self) -> int:
        """What she really did: in seven sets of ten not the number offered first."""
        offered = number_on(self.seen.locator(".closing button.main"))
        if self.rng.random() >= DIFFERS:
            return offered
        return max(1, offered + self.rng.choice(MISSES))

    def _type(self, amount: int) -> None:
        page = self.seen
        page.get_by_text("other number, other load, note").click()
        page.get_by_label(re.compile("^(Full reps|Seconds held)$")).fill(str(amount))
        page.get_by_role("button", name="Save this set").click()
        self.touches += 3 + len(str(amount))

    def undo(self) -> None:
        """Take the last set back."""
        self.seen.get_by_role("button", name="undo").click()
        self.taps.pop()

    def kill(self) -> None:
        """End the tab's process at once, as a phone short of memory does."""
        with suppress(Error):  # the navigation is how a tab is made to crash; it always fails
            self.seen.goto("chrome://crash", timeout=2000)
        self.gone()

    def gone(self) -> None:
        """Put away a page whose process has ended."""
        self.seen.close()
        self.page, self.crashed = None, False

    def settled(self) -> None:
        """Wait until the page says that nothing waits, or that two devices logged one place."""
        said = self.seen.locator("#stand")
        words = re.compile(r"^(Everything is in the records|\d+ logged twice: see below)$")
        expect(said).to_have_text(words, timeout=60_000)


def number_on(key: Locator) -> int:
    """The number of reps or seconds a closing key bears."""
    found = re.search(r"\d+", key.inner_text())
    assert found
    return int(found[0])


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
