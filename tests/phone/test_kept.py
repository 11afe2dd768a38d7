"""Costly documents: of many requests that wait, one prepares for all."""

from __future__ import annotations

import threading
from datetime import date
from typing import Any

from pennate.web.phone.kept import Kept, Stand

DAY = date(2026, 11, 23)


def test_requests_that_wait_are_served_by_one_preparation() -> None:
    """Eight ask while records are written; those that waited get what the first of them made."""
    kept, writing, made = Kept(), threading.Event(), []
    position = 0

    def stand() -> Stand:
        return "one", position, DAY

    def make() -> dict[str, Any]:
        made.append(position)
        writing.wait(10)
        return {"position": position}

    def ask() -> None:
        kept.day(stand, DAY, make)

    threads = [threading.Thread(target=ask) for _ in range(8)]
    threads[0].start()
    while not made:
        threading.Event().wait(0.01)
    for thread in threads[1:]:
        thread.start()
    position = 7
    writing.set()
    for thread in threads:
        thread.join(10)
    assert made == [0, 7]


def test_a_document_says_what_it_was_made_at() -> None:
    """The stand given back is that of the document, and a new stand makes a new one."""
    kept = Kept()
    first = kept.day(lambda: ("one", 1, DAY), DAY, lambda: {"n": 1})
    again = kept.day(lambda: ("one", 1, DAY), DAY, lambda: {"n": 2})
    later = kept.day(lambda: ("one", 2, DAY), DAY, lambda: {"n": 3})
    assert first == again == (("one", 1, DAY), {"n": 1})
    assert later == (("one", 2, DAY), {"n": 3})
