"""Less time: what is left is shortened, and keeps most of what it was worth."""

from __future__ import annotations

import itertools
from dataclasses import replace

import pytest

from pennate.app.book import Book
from pennate.app.card_facts import minutes_of
from pennate.app.outline import DayInputs
from pennate.app.record import Recorded, record
from pennate.app.shorten import shorten
from pennate.app.stand import stand
from pennate.app.standing import Standing
from pennate.app.today import inputs_for, planned_for, the_week
from pennate.core.muscles import GROUP_SHARES, Part
from pennate.core.performed import SetKind
from pennate.core.week_dose import set_credit, week_dose
from tests.web.conftest import MONDAY, own_demo, short_demo
from tests.web.test_session import card_of

__all__ = ["own_demo", "short_demo"]

DAY = MONDAY.date()
KEPT = 0.9
"""Share of the best possible worth that leaving out one set after another must keep; ours."""


def inputs_of(book: Book) -> DayInputs:
    """The demo's Monday as it stands, short of time."""
    planned = planned_for(book, DAY, "Monday")
    assert planned
    found = inputs_for(book, DAY, planned)
    return replace(found, state=replace(found.state, minutes=20))


def do(book: Book, count: int) -> None:
    """Close so many sets as asked."""
    for _ in range(count):
        key = card_of(book).next_key
        assert key
        record(book, DAY, key, Recorded(), weekday="Monday")


def minutes_left(standing: Standing, inputs: DayInputs, left_out: frozenset[str]) -> float:
    """Minutes from now with these sets left out."""
    state = replace(inputs.state, left_out=left_out)
    found, _ = minutes_of(standing, replace(inputs, state=state), done=standing.done.keys())
    return found.value


@pytest.mark.parametrize("done", [0, 6, 12])
def test_the_minutes_are_those_left_from_now(own_demo: Book, done: int) -> None:
    """Sets already done take none of the twenty minutes that are left, and none is given up."""
    do(own_demo, done)
    inputs = inputs_of(own_demo)
    standing = stand(inputs)
    shorter = shorten(inputs, the_week(own_demo), 20)
    assert shorter.fits
    assert 13 < shorter.minutes <= 20
    assert not set(shorter.keys) & set(standing.done)
    assert shorter.minutes == minutes_left(standing, inputs, frozenset(shorter.keys))


def test_nothing_is_given_up_where_the_rest_fits(own_demo: Book) -> None:
    """Late in a long session twenty minutes may be all it needs."""
    do(own_demo, 24)
    inputs = inputs_of(own_demo)
    assert minutes_left(stand(inputs), inputs, frozenset()) < 20
    assert shorten(inputs, the_week(own_demo), 20).keys == ()


def _groups(standing: Standing) -> dict[int, list[list[str]]]:
    """Open working sets of every stop in order; sides and drops hang on the set before."""
    found: dict[int, list[list[str]]] = {}
    for index, slot in standing.outline.order:
        if slot.key in standing.done or slot.asked.kind is SetKind.WARM_UP:
            continue
        own = found.setdefault(index, [])
        hangs = slot.side is not None and (
            slot.asked.kind is SetKind.DROP or slot.key.endswith(".right")
        )
        own[-1].append(slot.key) if own and hangs else own.append([slot.key])
    return found


def _worth(standing: Standing, inputs: DayInputs, book: Book, left_out: set[str]) -> float:
    """The week's worth by the square-root curve of dose, parts by share and priority.

    The curve: Pelland and others 2024, as in the evidence register.
    """
    week = the_week(book)
    dose: dict[Part, float] = {}
    for parts in week_dose(week, inputs.catalogue).days.values():
        for part, one in parts.items():
            dose[part] = dose.get(part, 0.0) + (one.value if one else 0.0)
    for index, slot in standing.outline.order:
        plan = standing.outline.plans[index]
        if slot.key in left_out and not slot.key.endswith(".right"):
            for part, weight in plan.exercise.weights(plan.asked.variant).items():
                dose[part] = dose.get(part, 0.0) - float(weight) * set_credit(slot.asked)
    worth = (
        (2.0 if group in week.priorities else 1.0) * float(share) * max(dose.get(part, 0), 0) ** 0.5
        for group, shares in GROUP_SHARES.items()
        for part, share in shares.items()
    )
    return float(sum(worth))


@pytest.mark.parametrize(("done", "minutes"), [(16, 10), (12, 20)])
def test_most_of_the_worth_is_kept(own_demo: Book, done: int, minutes: int) -> None:
    """Against every way to keep the first sets of each stop, tried one by one.

    What the minutes can still be worth, over doing nothing more, is kept to nine parts in ten.
    """
    do(own_demo, done)
    inputs = inputs_of(own_demo)
    standing = stand(inputs)
    groups = _groups(standing)
    every = {key for own in groups.values() for group in own for key in group}

    def worth(left_out: set[str]) -> float:
        return _worth(standing, inputs, own_demo, left_out) - nothing

    nothing = _worth(standing, inputs, own_demo, every)
    best = 0.0
    for counts in itertools.product(*(range(len(own) + 1) for own in groups.values())):
        out = {
            key
            for keep, own in zip(counts, groups.values(), strict=True)
            for group in own[keep:]
            for key in group
        }
        if minutes_left(standing, inputs, frozenset(out)) <= minutes:
            best = max(best, worth(out))
    kept = worth(set(shorten(inputs, the_week(own_demo), minutes).keys))
    assert kept >= KEPT * best
