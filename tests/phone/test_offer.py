"""A load held though too heavy: the next one down is offered where it meets the range."""

from __future__ import annotations

import re
from random import Random

import pytest
from playwright.sync_api import expect

from pennate.app.book import Book
from tests.app.test_coming import repeat_last
from tests.web.conftest import served

from .conftest import NewPhone
from .thumb import Thumb, number_on

pytestmark = pytest.mark.browser


def test_the_lighter_load_is_offered_and_taken_by_one_key(
    own_demo: Book, new_phone: NewPhone
) -> None:
    """It says the reps at both loads; − takes it, and nothing moves of itself."""
    repeat_last(own_demo, -2)
    with served(own_demo) as address:
        thumb = Thumb(new_phone(), address, Random(1))
        thumb.without_week()
        thumb.open()
        thumb.start()
        page = thumb.seen
        thumb.context.set_offline(offline=True)
        offer = page.get_by_text("One step lighter")
        while not offer.count():
            assert thumb.on_floor, "no set of the day offers a lighter load"
            thumb.close_with(number_on(page.locator(".closing button.main")))
        said = re.search(
            r"lighter, (\S+ \w+).*about .* there, .* here; − takes it", offer.inner_text()
        )
        assert said
        expect(page.locator("#load")).not_to_have_text(said[1])
        page.get_by_role("button", name="one step lighter").click()
        expect(page.locator("#load")).to_contain_text(said[1].split()[0])
        expect(offer).to_have_count(0)
