"""What the audit and the planner are told of her: gym, pace, experience, log."""

from __future__ import annotations

from dataclasses import replace
from weakref import WeakKeyDictionary

from pennate.app.book import Book
from pennate.app.planning import gym_named, looking
from pennate.app.week_log import next_session, pace_of, sides_of, standing_at
from pennate.core.gym import Gym
from pennate.core.prescribed import Week
from pennate.plan.seen import Looking


def gym_of_week(book: Book, week: Week) -> Gym | None:
    """The gym a week is trained in: her own of that name, else a starter gym, else hers."""
    own = next((gym for gym in book.gyms() if gym.id == week.gym), None)
    return own or book.gym() or gym_named(week.gym)


_Seen = tuple[tuple[object, ...], Looking]
_SEEN: WeakKeyDictionary[Book, _Seen] = WeakKeyDictionary()
"""What was last worked out, with the state of the records it was worked out from."""


def looking_at(book: Book, week: Week) -> Looking:
    """Everything the audit of her week is told; worked out anew when the records change."""
    hour = book.now().replace(minute=0, second=0, microsecond=0)
    stamp = (book.ledger.generation(), book.ledger.position(), hour, week)
    known = _SEEN.get(book)
    if known is None or known[0] != stamp:
        known = _SEEN[book] = (stamp, _looking(book, week))
    return known[1]


def _looking(book: Book, week: Week) -> Looking:
    catalogue = book.catalogue.with_own(week.own_exercises)
    gym = gym_of_week(book, week)
    coming = next_session(book)
    return replace(
        looking(catalogue, gym, pace=pace_of(book)),
        trained=book.profile().trained is not False,
        sides=sides_of(book),
        standing=standing_at(book, coming[1]) if coming else (),
        next_day=coming[0] if coming else "",
    )
