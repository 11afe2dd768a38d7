"""Touches a set costs when seven sets in ten end other than was likely."""

from __future__ import annotations

from random import Random
from statistics import mean, median

from playwright.sync_api import Browser

from tests.phone.thumb import EFFORTS, SAYS_EFFORT, Thumb

from .place import MONDAY

SESSIONS = 8


def per_set(browser: Browser, address: str) -> list[tuple[int, bool]]:
    """Touches of every set of some sessions, and whether effort was said with it."""
    found = []
    for seed in range(SESSIONS):
        context = browser.new_context(viewport={"width": 390, "height": 844}, timezone_id="UTC")
        context.clock.install(time=MONDAY)
        context.route("**/api/cards?days=7", lambda route: route.abort())
        rng = Random(seed)
        thumb = Thumb(context, address, rng)
        thumb.open()
        thumb.start()
        context.set_offline(offline=True)
        while thumb.on_floor:
            effort = rng.choice(list(EFFORTS)) if rng.random() < SAYS_EFFORT else ""
            thumb.close_with(thumb.truth(), effort)
        found += thumb.per_set
        context.close()
    return found


def rows(found: list[tuple[int, bool]]) -> list[tuple[str, str, str]]:
    """What was counted, as lines of the table."""
    plain = [n for n, said in found if not said]
    said = [n for n, said in found if said]
    once = sum(n == 1 for n in plain) / len(plain)
    return [
        ("sets closed", f"{len(found)}, effort said in {len(said)}", ""),
        ("touches a set, nothing said of effort, median", f"{median(plain):.0f}", "1"),
        ("touches a set, effort said, median", f"{median(said):.0f}", "2"),
        ("touches a set, mean of all", f"{mean(n for n, _ in found):.2f}", ""),
        ("closed in one touch where nothing is said of effort", f"{once:.0%}", ""),
        ("most touches of a set (other number typed)", f"{max(n for n, _ in found)}", ""),
    ]
