"""All weeks one change away from a week, weighed at once.

Two kinds of change: within a day (a stop or two go or change their sets, another comes), and
between two days (stops trade places, with a set more or less). Both keep every rule.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import permutations

import numpy as np

from pennate.plan.stops import SLACK, Floats, Stops, Truths, Whole

Days = Sequence[tuple[int, list[int]]]
"""Days with the rows of stops they shall hold."""


class WeekState:
    """A week as rows of stops by day, with its sums."""

    def __init__(self, stops: Stops, rows: Sequence[Sequence[int]]) -> None:
        self.stops = stops
        self.rows = [list(day) for day in rows]
        self.takes: Floats = np.array([stops.takes[day].sum(axis=0) for day in self.rows])
        self.dose: Floats = np.array([stops.dose[day].sum(axis=0) for day in self.rows])
        self.worth: Floats = stops.worth(self.dose)
        self.named: Floats = np.array([stops.named[day].sum(axis=0) for day in self.rows])

    def put(self, days: Days) -> None:
        """Gives days other stops."""
        for day, rows in days:
            self.rows[day] = list(rows)
            self.takes[day] = self.stops.takes[rows].sum(axis=0)
            self.dose[day] = self.stops.dose[rows].sum(axis=0)
            self.worth[day] = self.stops.worth(self.dose[day])
            self.named[day] = self.stops.named[rows].sum(axis=0)

    def others(self, *days: int) -> tuple[Floats, Floats, Floats]:
        """Worth, doses and names of the week without some days."""
        rest = [day for day in range(len(self.rows)) if day not in days]
        return (
            self.worth[rest].sum(axis=0),
            self.dose[rest].sum(axis=0),
            self.named[rest].sum(axis=0),
        )

    def most_dose(self, day: int, elsewhere: Floats) -> Floats:
        """The most a day may hold of each tracked dose, the other days as they are."""
        stops = self.stops
        most = np.minimum(stops.session, stops.week - elsewhere)
        for near in stops.near[day]:
            most = np.minimum(most, stops.close - self.dose[near])
        return most

    @property
    def used(self) -> int:
        """Days with stops."""
        return sum(map(bool, self.rows))


@dataclass(frozen=True, slots=True)
class Weighed:
    """Changes and what they are worth."""

    value: Floats
    """Of the week after each change, less what no change touches."""
    change: Callable[[int], Days]
    """What the change of this place puts on which days."""


@cache
def _ways(count: int) -> tuple[Floats, Whole, Whole]:
    """Ways to make room among so many stops: who stays, whose sets change, and by what sign."""
    everyone = tuple(range(count))
    found: list[tuple[tuple[int, ...], int, int]] = [(everyone, -1, 0)]
    found += [(tuple(set(everyone) - {one}), -1, 0) for one in everyone]
    for one, two in permutations(everyone, 2):
        left = tuple(set(everyone) - {one, two})
        found += [(left, two, 1), (left, two, -1)] + ([(left, -1, 0)] if one < two else [])
    stay = np.zeros((len(found), count), dtype=np.float32)
    for number, (left, _, _) in enumerate(found):
        stay[number, list(left)] = 1
    changed, sign = (np.array([way[place] for way in found], dtype=np.intp) for place in (1, 2))
    return stay, changed, sign


def within_day(state: WeekState, day: int) -> Weighed:
    """All changes of a day: up to two stops go, or one goes and one changes its sets; one comes."""
    stops, here = state.stops, np.array(state.rows[day], dtype=np.intp)
    worth, elsewhere, names = state.others(day)
    stay, changed, sign = _ways(len(here))
    if len(here):
        turned = np.where(sign > 0, stops.more[here[changed]], stops.fewer[here[changed]])
        instead = np.where(sign == 0, 0, turned)
        real = instead >= 0
        stay, instead = stay[real], instead[real]
    else:
        instead = np.zeros(1, dtype=np.intp)
    rows = _may_come(state, day, names)
    takes = stay @ stops.takes[here] + stops.takes[instead]
    named = stay @ stops.named[here] + stops.named[instead]
    fits = named @ stops.named[rows].T < 1
    for amount, room in zip(range(takes.shape[1]), stops.room[day], strict=True):
        fits &= takes[:, amount, None] + stops.takes[rows, amount] <= room + SLACK
    way, come = np.nonzero(fits)
    come = rows[come]
    dose = (stay @ stops.dose[here] + stops.dose[instead])[way] + stops.dose[come]
    stand = (dose <= state.most_dose(day, elsewhere)).all(axis=1)
    way, come, dose = way[stand], come[stand], dose[stand]
    fresh = np.where(names > 0, 0.0, stops.net)
    extra = stops.named @ fresh - stops.cost
    value = stops.value(worth + stops.worth(dose), elsewhere + dose)
    value = value + (stay @ extra[here] + extra[instead])[way] + extra[come]
    for near in stops.near[day]:
        value = value - stops.crowding(dose + state.dose[near])

    def change(place: int) -> Days:
        kept = here[stay[way[place]] > 0].tolist()
        added = [int(row) for row in (instead[way[place]], come[place]) if row]
        return [(day, kept + added)]

    return Weighed(value, change)


def _may_come(state: WeekState, day: int, names: Floats) -> Whole:
    """Rows that a day may take by what the other days hold."""
    stops = state.stops
    free = stops.named @ (names >= stops.days_most) < 1
    free &= stops.allowed[day]
    if not state.rows[day] and state.used >= stops.problem.rules.sessions:
        free[1:] = False
    return np.flatnonzero(free)


def between_days(state: WeekState, day: int, other: int) -> Weighed:
    """All trades of a stop of one day for a stop of another, or for none, with a set about."""
    stops = state.stops
    worth, elsewhere, _ = state.others(day, other)
    gives, takes = _offers(state, day), _offers(state, other)
    pairs = [axis.ravel() for axis in np.indices((len(gives), len(takes)))]
    (out, away), (back, came) = gives[pairs[0]].T, takes[pairs[1]].T
    fits = _holds(state, day, out, came) & _holds(state, other, back, away)
    out, away, back, came = out[fits], away[fits], back[fits], came[fits]
    here = state.dose[day] - stops.dose[out] + stops.dose[came]
    there = state.dose[other] - stops.dose[back] + stops.dose[away]
    stand = (here + there <= stops.week - elsewhere).all(axis=1)
    for one, dose, rest in ((day, here, other), (other, there, day)):
        stand &= (dose <= stops.session).all(axis=1)
        for near in stops.near[one]:
            beside = here + there if near == rest else dose + state.dose[near]
            stand &= (beside <= stops.close).all(axis=1)
    out, away, back, came = out[stand], away[stand], back[stand], came[stand]
    here, there = here[stand], there[stand]
    value = stops.value(
        worth + stops.worth(here) + stops.worth(there), elsewhere + here + there
    ) - (stops.cost[away] - stops.cost[out] + stops.cost[came] - stops.cost[back])
    for one, dose, rest in ((day, here, other), (other, there, day)):
        for near in stops.near[one]:
            if near != rest:
                value = value - stops.crowding(dose + state.dose[near])
            elif one == day:
                value = value - stops.crowding(here + there)

    def change(place: int) -> Days:
        return [
            (day, _traded(state.rows[day], out[place], came[place])),
            (other, _traded(state.rows[other], back[place], away[place])),
        ]

    return Weighed(value, change)


def _offers(state: WeekState, day: int) -> Whole:
    """What a day may give away: rows as they are there, and as they arrive; first nothing."""
    stops, offers = state.stops, [(0, 0)]
    for row in state.rows[day]:
        arrive = (row, int(stops.more[row]), int(stops.fewer[row]))
        offers += [(row, new) for new in arrive if new >= 0]
    return np.array(offers, dtype=np.intp)


def _holds(state: WeekState, day: int, out: Whole, come: Whole) -> Truths:
    """Whether a day can hold one stop instead of another: time, counts, no exercise twice."""
    stops = state.stops
    takes = state.takes[day] - stops.takes[out] + stops.takes[come]
    fits: Truths = (takes <= stops.room[day] + SLACK).all(axis=1) & stops.allowed[day][come]
    present = state.named[day] - stops.named[out]
    fits &= (stops.named[come] * present).max(axis=1, initial=0.0) < 1
    if not state.rows[day] and state.used >= stops.problem.rules.sessions:
        fits &= come == 0
    return fits


def _traded(rows: Sequence[int], out: int, come: int) -> list[int]:
    left = list(rows)
    if out:
        left.remove(out)
    return [*left, int(come)] if come else left


def to_free_day(state: WeekState, day: int, free: int) -> Days | None:
    """A whole day moved to a free one; None where it does not fit."""
    stops, rows = state.stops, state.rows[day]
    if not rows or state.rows[free] or not stops.allowed[free][rows].all():
        return None
    if (state.takes[day] > stops.room[free] + SLACK).any():
        return None
    near = [one for one in stops.near[free] if one != day]
    if any((state.dose[day] + state.dose[one] > stops.close).any() for one in near):
        return None
    return [(free, rows), (day, [])]
