"""The Gym page in a real browser: set up in under two minutes, fit, targets, accessibility.

Time is counted, not clocked: 1.2 s a tap, 0.3 s a character, 3 s a choice among several.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from random import Random

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Locator, Page

from pennate.app.book import Book
from pennate.app.gym_page import gym_of, take_starter
from pennate.app.start import begin_own_week
from pennate.core.gym import BandSet, Bar, Gym, Ladder, Stack
from pennate.core.quantities import Mass

from .conftest import Clock, served
from .test_browser import SMALL_TARGETS

pytestmark = pytest.mark.browser

TAP_S, CHARACTER_S, CHOICE_S = 1.2, 0.3, 3.0
MOST_S = 120


@dataclass
class Hand:
    """A thumb on the page that counts what it does."""

    page: Page
    taps: int = 0
    characters: int = 0
    choices: int = 0

    @property
    def seconds(self) -> float:
        """What it took so far."""
        return TAP_S * self.taps + CHARACTER_S * self.characters + CHOICE_S * self.choices

    def tap(self, what: Locator) -> None:
        """Touch a link, a button or a summary."""
        self.taps += 1
        what.click()

    def pick(self, what: Locator) -> None:
        """Touch one among several that are alike."""
        self.choices += 1
        self.tap(what)

    def type(self, label: str, text: str) -> None:
        """Touch a field and type it anew."""
        self.taps += 1
        self.characters += len(text)
        self.page.get_by_label(label, exact=True).fill(text)

    def press(self, words: str) -> None:
        """Touch the button with these words."""
        self.tap(self.page.get_by_role("button", name=words, exact=True))

    def open(self, words: str) -> None:
        """Touch the link with these words."""
        self.tap(self.page.get_by_role("link", name=words, exact=True))

    def choose(self, label: str, words: str) -> None:
        """One touch opens a list, and one of several is taken."""
        self.taps += 1
        self.choices += 1
        self.page.get_by_label(label, exact=True).select_option(label=words)


def add(hand: Hand, kind: str) -> None:
    """Begin the form of another thing."""
    hand.choose("Something else here", kind)
    hand.press("Add")


def remove(hand: Hand, *names: str) -> None:
    """Things that are not there."""
    for name in names:
        hand.open(name)
        hand.press("it is not there any more")


def large_in_kilograms(hand: Hand) -> None:
    """A large gym: pairs counted, dumbbells and a guided bar corrected, machines changed."""
    for plate, pairs in {"25 kg": "0", "20 kg": "6", "1.25 kg": "1"}.items():
        hand.type(f"{plate} plates, pairs", pairs)
    hand.press("Save the pairs")
    hand.open("Dumbbells")
    hand.type("Masses in the rack", "1-10 by 1; 12.5-50 by 2.5")
    hand.press("Save")
    hand.open("Guided bar")
    hand.type("Feels like, without plates", "10")
    hand.press("Save")
    remove(
        hand, "Bar in the floor joint", "Hip thrust machine", "Chest-supported row, plate-loaded"
    )
    add(hand, "Machine with a pin")
    for label, text in {"Name": "Lateral raise", "Lightest pin": "5", "Step": "5"}.items():
        hand.type(label, text)
    hand.press("Add")


def check_large(gym: Gym) -> None:
    """What was set up is what is stored."""
    pairs = {plate.mass: plate.pairs for plate in gym.plates}
    assert Mass.kg(25) not in pairs
    assert (pairs[Mass.kg(20)], pairs[Mass.kg("1.25")]) == (6, 1)
    dumbbells, bar, raised = map(gym.item, ("dumbbells", "guided_bar", "lateral_raise"))
    assert isinstance(dumbbells, Ladder)
    assert dumbbells.masses[-1] == Mass.kg(50)
    assert isinstance(bar, Bar)
    assert bar.mass == Mass.kg(10)
    assert isinstance(raised, Stack)
    assert gym.item("landmine") is None


def pounds_and_kilograms(hand: Hand) -> None:
    """Bars in pounds, dumbbells in kilograms, two machines more."""
    for plate, pairs in {"45 lb": "6", "35 lb": "0", "2.5 lb": "1"}.items():
        hand.type(f"{plate} plates, pairs", pairs)
    hand.press("Save the pairs")
    remove(hand, "Bar on the platform", "Leg curl, lying")
    add(hand, "Cable")
    for label, text in {"Name": "Crossover", "Lightest pin": "5", "Step": "5"}.items():
        hand.type(label, text)
    hand.choose("Unit", "lb")
    hand.type("Ratio", "2:1")
    hand.press("Add")


def check_pounds(gym: Gym) -> None:
    """What was set up is what is stored."""
    assert {p.mass: p.pairs for p in gym.plates}[Mass.lb(45)] == 6
    cable = gym.item("crossover")
    assert isinstance(cable, Stack)
    assert (cable.ratio, cable.start) == (Fraction(1, 2), Mass.lb(5))
    assert gym.item("platform_bar") is None


def travel(hand: Hand) -> None:
    """A travel kit with bands of her own scale."""
    hand.open("Bands with handles")
    hand.type("Bands", "red 8; green 14; black 22")
    hand.press("Save")


def check_travel(gym: Gym) -> None:
    """What was set up is what is stored."""
    bands = next(item for item in gym.items if item.name == "Bands with handles")
    assert isinstance(bands, BandSet)
    assert [band.tension for band in bands.bands] == [Mass.kg(8), Mass.kg(14), Mass.kg(22)]


Case = tuple[str, Callable[[Hand], None], Callable[[Gym], None]]
CASES: dict[str, Case] = {
    "large": ("Large gym, kilograms", large_in_kilograms, check_large),
    "pounds": ("Gym with pounds and kilograms", pounds_and_kilograms, check_pounds),
    "travel": ("Travel kit", travel, check_travel),
}


@pytest.mark.parametrize("case", CASES)
def test_a_gym_is_set_up_in_under_two_minutes(phone: Page, empty: Book, case: str) -> None:
    """From choosing a starter to the last correction, on the page itself, counted by the touch."""
    starter, corrections, check = CASES[case]
    begin_own_week(empty, ("Monday",))
    hand = Hand(phone)
    with served(empty) as address:
        phone.goto(f"{address}/start/gym")
        hand.pick(phone.get_by_role("button", name=starter))
        phone.goto(f"{address}/gym")
        hand.taps += 1
        corrections(hand)
        phone.get_by_role("status").wait_for()
        phone.wait_for_load_state("networkidle")
        phone.goto("about:blank")
    check(gym_of(empty))
    assert hand.seconds < MOST_S


@pytest.fixture(scope="module")
def two_gyms(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """A server over records with a large gym in use and a travel kit."""
    book = Book.open(tmp_path_factory.mktemp("gyms"), Clock(), Random(3))
    take_starter(book, "commercial_kg")
    begin_own_week(book, ("Monday",))
    take_starter(book, "travel")
    with served(book) as address:
        yield address
    book.close()


PAGES = (
    "/gym",
    "/gym?at=travel",
    "/gym/add",
    "/gym/choose?at=travel",
    "/gym/item?item=rack_bar",
    "/gym/item?item=assisted_chin",
    "/gym/item?kind=cable",
    "/gym/item?kind=bands",
)


@pytest.mark.parametrize("path", PAGES)
def test_gym_pages_fit_and_can_be_used_by_all(chromium: Browser, two_gyms: str, path: str) -> None:
    """Nothing sticks out at 320 px, targets are 48 px, and axe finds nothing in either look."""
    page = chromium.new_page(viewport={"width": 320, "height": 700}, reduced_motion="reduce")
    page.goto(two_gyms + path)
    page.evaluate("document.querySelectorAll('details').forEach(one => { one.open = true })")
    over = page.evaluate("document.documentElement.scrollWidth - innerWidth")
    small = page.evaluate(SMALL_TARGETS, 48)
    found = []
    for look in ("light", "dark"):
        page.evaluate("look => { document.documentElement.dataset.look = look }", look)
        found += [one["id"] for one in Axe().run(page).response["violations"]]
    page.close()
    assert (over, small, found) == (0, [], [])
