"""Sessions in which seven sets in ten end other than asked: the ledger is the truth.

Touches are counted: one a set where nothing is said of effort, two where it is (medians).
One session in every run, ten with PENNATE_SOAK=1; the figures are in bench/phone/RESULTS.md.
"""

from __future__ import annotations

import os
from random import Random
from statistics import median

import pytest

from pennate.app.book import Book

from .conftest import NewPhone
from .thumb import EFFORTS, SAYS_EFFORT, Tap, Thumb, stored

pytestmark = pytest.mark.browser

SESSIONS = 10 if os.environ.get("PENNATE_SOAK") else 1


def touches(found: list[tuple[int, bool]]) -> tuple[list[int], list[int]]:
    """Touches of sets without and with effort said."""
    return [n for n, said in found if not said], [n for n, said in found if said]


@pytest.mark.parametrize("seed", range(SESSIONS))
def test_the_ledger_is_the_truth(
    seed: int,
    new_phone: NewPhone,
    address: str,
    own_demo: Book,
) -> None:
    """Whatever was really lifted is what is stored, at one touch a set, two with effort."""
    rng, before = Random(seed), len(own_demo.history())
    thumb = Thumb(new_phone(), address, rng)
    thumb.ready()
    thumb.context.set_offline(offline=True)
    really: list[tuple[int, str]] = []
    while thumb.on_floor:
        effort = rng.choice(list(EFFORTS)) if rng.random() < SAYS_EFFORT else ""
        really.append((thumb.truth(), effort))
        thumb.close_with(*really[-1])
    thumb.context.set_offline(offline=False)
    thumb.settled()
    kept = stored(own_demo, before)
    assert [_what(one) for one in kept] == [(n, EFFORTS.get(e, "")) for n, e in really]
    assert kept == thumb.taps
    plain, said = touches(thumb.per_set)
    assert (median(plain), median(said)) == (1, 2)


def _what(tap: Tap) -> tuple[int, str]:
    return tap.amount, tap.effort
