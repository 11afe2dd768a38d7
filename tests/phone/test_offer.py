"""A load held though too heavy: the next one down is offered where it meets the range."""

from __future__ import annotations

import re
from collections.abc import Iterator
from random import Random

import pytest
from playwright.sync_api import expect

from pennate.app.book import Book
from tests.app.test_coming import repeat_last
from tests.web.conftest import served

from .conftest import NewPhone
from .thumb import Thumb, number_on

pytestmark = pytest.mark.browser


@pytest.fixture
def offered(own_demo: Book, new_phone: NewPhone) -> Iterator[Thumb]:
    """Out of reach on the first set of the day that offers a lighter load."""
    repeat_last(own_demo, -2)
    with served(own_demo) as address:
        thumb = Thumb(new_phone(), address, Random(1))
        thumb.without_week()
        thumb.open()
        thumb.start()
        thumb.context.set_offline(offline=True)
        while not thumb.seen.get_by_text("One step lighter").count():
            assert thumb.on_floor, "no set of the day offers a lighter load"
            thumb.close_with(number_on(thumb.seen.locator(".closing button.main")))
        yield thumb


def test_the_lighter_load_is_offered_and_taken_by_one_key(offered: Thumb) -> None:
    """It says the reps at both loads; − takes it, and nothing moves of itself."""
    page, offer = offered.seen, offered.seen.get_by_text("One step lighter")
    said = re.search(r"lighter, (\S+ \w+).*about .* there, .* here; − takes it", offer.inner_text())
    assert said
    expect(page.locator("#load")).not_to_have_text(said[1])
    page.get_by_role("button", name="one step lighter").click()
    expect(page.locator("#load")).to_contain_text(said[1].split()[0])
    expect(offer).to_have_count(0)


@pytest.mark.parametrize(("over", "then"), [(1, "offered"), (-1, "lighter"), (12, "gone")])
def test_the_offer_stands_unless_the_result_speaks_against_it(
    offered: Thumb, over: int, then: str
) -> None:
    """A rep more leaves the next set its offer, twelve do not; one less makes it lighter."""
    page, name = offered.seen, offered.seen.locator("h1").inner_text()
    offer, load = page.get_by_text("One step lighter"), page.locator("#load").inner_text()
    lighter = offer.inner_text().removeprefix("One step lighter, ").split()[0]
    likely = number_on(page.locator(".closing button.main"))
    offered.close_with(max(1, likely + over), "1" if over > 1 else "")
    while page.locator("h1").inner_text() != name:  # its partner, done in turn
        offered.close_with(number_on(page.locator(".closing button.main")))
    expect(offer).to_have_count(int(then == "offered"))
    if then == "offered":
        expect(page.locator("#load")).to_have_text(load)
    else:
        held = re.match(r"\S+", page.locator("#load").inner_text())
        assert held
        assert (held[0] == lighter) is (then == "lighter")
