"""What the audit and the planner are told of her: gym, pace, experience, log."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from weakref import WeakKeyDictionary

from pennate.app.book import Book
from pennate.app.planning import SOME_YEARS, gym_beside, gym_named, looking
from pennate.app.week_asked import misfits_for
from pennate.app.week_brief import known_wishes
from pennate.app.week_effort import asked_credits
from pennate.app.week_log import next_session, pace_of, sides_of, standing_at
from pennate.core.brief import Brief, JointLimit
from pennate.core.exercise import Catalogue
from pennate.core.gym import Gym
from pennate.core.muscles import Joint
from pennate.core.prescribed import Week
from pennate.plan.seen import Looking
from pennate.plan.substitute import within_limits


def gym_of_week(book: Book, week: Week, folder: Path | None = None) -> Gym | None:
    """The gym a week is trained in: her own of that name, a gym file beside it, else hers.

    A starter gym only where she has described none.
    """
    own = next((gym for gym in book.gyms() if gym.id == week.gym), None)
    if own is None and gym_beside(week.gym, folder):
        return gym_named(week.gym, folder)
    return own or book.gym() or gym_named(week.gym)


_Seen = tuple[tuple[object, ...], Looking]
_SEEN: WeakKeyDictionary[Book, _Seen] = WeakKeyDictionary()
"""What was last worked out, with the state of the records it was worked out from."""


def looking_at(book: Book, week: Week, folder: Path | None = None) -> Looking:
    """Everything the audit of a week is told of her; worked out anew when the records change.

    `folder` is where the week's file lies, with the gym file it may name.
    """
    hour = book.now().replace(minute=0, second=0, microsecond=0)
    stamp = (book.ledger.generation(), book.ledger.position(), hour, week, folder)
    known = _SEEN.get(book)
    if known is None or known[0] != stamp:
        known = _SEEN[book] = (stamp, _looking(book, week, gym_of_week(book, week, folder)))
    return known[1]


def _looking(book: Book, week: Week, gym: Gym | None) -> Looking:
    catalogue = book.catalogue.with_own(week.own_exercises)
    coming = next_session(book, week)
    return replace(
        looking(catalogue, gym, pace=pace_of(book)),
        unfit=_out_of_reach(book, week, gym, catalogue),
        trained=book.profile().trained is not False,
        sides=sides_of(book),
        standing=standing_at(book, coming[1]) if coming else (),
        next_day=coming[0] if coming else "",
        credits=asked_credits(book, week),
    )


def _out_of_reach(book: Book, week: Week, gym: Gym | None, catalogue: Catalogue) -> frozenset[str]:
    """What no fix may bring: at body weight far from hard sets for her, or too much for a joint
    that is sore or held by pain.
    """
    years = Fraction(SOME_YEARS) if book.profile().trained else None
    far = misfits_for(book, Brief(name="", days=(), years=years), gym, catalogue, fitted=True)
    told = known_wishes(book)
    limits = {
        Joint(joint): JointLimit(limit).highest for joint, limit in told.joints.items() if limit
    }
    known = catalogue.exercises.values()
    sore = {one.id for one in known if not within_limits(one, limits)}
    barred = {found.id for name in told.barred.split(",") if (found := catalogue.find(name))}
    hers = {one.exercise for day in week.days for one in day.exercises}
    return frozenset((far.keys() - hers) | sore | barred)
