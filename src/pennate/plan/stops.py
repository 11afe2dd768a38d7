"""Every stop a day could hold as rows of numbers, so that thousands are weighed at once."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from pennate.core.evidence.dose import CHANGEOVER_S
from pennate.core.muscles import GROUP_SHARES
from pennate.core.week_effect import session_worth
from pennate.plan.problem import PARTS, TRACKED, PlanProblem, Scheme, Selection

Floats = NDArray[np.floating[Any]]
Whole = NDArray[np.intp]
Truths = NDArray[np.bool_]

SLACK = 1e-6  # number: rounding of floating sums
MISSING_SET = 3.0
"""Price of a missing set while searching: more than any set is worth."""
MISSING_EXERCISE = 10.0
NO_ROW = -1

MOST_DOSE = 64  # number: sets; longer than any table lookup
"""Sets of a part beyond any session."""
FINE = 256  # number: steps of a set at which the session curve is tabled for weighing


@dataclass(frozen=True, slots=True)
class GroupWish:
    """Dose asked of a group: share of each dose column, least and most."""

    shares: Floats
    least: float
    most: float


class Stops:
    """Rows of (option, sets), row 0 being no stop at all, with what each takes and gives.

    `takes`: seconds with a changeover, exercises, supersets, drops. `dose`: first of the
    parts that are worth something (`worths` of them), then of what is only capped or marked.
    """

    def __init__(self, problem: PlanProblem) -> None:
        rules = problem.rules
        self.problem = problem
        self.kinds = [(-1, 0)]
        for index, option in enumerate(problem.options):
            self.kinds += [(index, sets) for sets in range(option.least, option.most + 1)]
        self.at = {kind: row for row, kind in enumerate(self.kinds)}
        self.tracked = _tracked(problem)
        self.worths = sum(bool(problem.worth[part]) for part in self.tracked)
        self.takes = np.array([self._takes(*kind) for kind in self.kinds])
        self.dose = np.array([self._dose(*kind) for kind in self.kinds], dtype=np.float32)
        self.cost = np.array([self._cost(*kind) for kind in self.kinds])
        self.more = np.array([self.at.get((o, n + 1), NO_ROW) for o, n in self.kinds])
        self.fewer = np.array([self.at.get((o, n - 1), NO_ROW) for o, n in self.kinds])
        self.allowed = np.array(
            [[o < 0 or day in problem.options[o].days for o, _ in self.kinds]
             for day in range(len(problem.days))]
        )  # fmt: skip
        self._name(problem)
        self.price = np.array([problem.worth[part] for part in self.tracked[: self.worths]])
        self.done = np.array([problem.done[part] for part in self.tracked[: self.worths]])
        self.price, self.done = self.price.astype(np.float32), self.done.astype(np.float32)
        limits = (rules.exercises_a_day, rules.supersets_a_day, rules.drops_a_day)
        self.room = np.array([(second + CHANGEOVER_S, *limits) for second in problem.seconds])
        self.session, self.close, self.week = (
            np.array([cap[part] for part in self.tracked]) + SLACK
            for cap in (rules.session_cap, rules.close_cap, rules.week_cap)
        )
        marked = [place for place, part in enumerate(self.tracked) if part in rules.marked]
        self.marked: Whole = np.array(marked, dtype=np.intp)
        self.mark = np.array([rules.close_mark[self.tracked[place]] for place in marked])
        self.mark = self.mark.astype(np.float32)
        self.near = [
            [a if b == day else b for a, b in problem.close if day in {a, b}]
            for day in range(len(problem.days))
        ]
        self.wishes = self._wishes(problem)

    def keep(self, stops: Collection[tuple[int, int, int]]) -> None:
        """Let only some stops come: option, day and sets."""
        few = np.zeros_like(self.allowed)
        few[:, 0] = True
        for option, day, sets in stops:
            few[day, self.at[option, sets]] = True
        self.allowed &= few

    def _takes(self, index: int, sets: int) -> list[float]:
        if index < 0:
            return [0.0] * 4
        option = self.problem.options[index]
        return [
            option.seconds(sets) + CHANGEOVER_S,
            len(option.exercises),
            option.scheme is Scheme.SUPERSET,
            option.scheme is Scheme.DROPS,
        ]

    def _dose(self, index: int, sets: int) -> list[float]:
        doses = self.problem.options[index].doses(sets) if index >= 0 else {}
        return [float(doses.get(part, 0.0)) for part in self.tracked]

    def _cost(self, index: int, sets: int) -> float:
        if index < 0:
            return 0.0
        option = self.problem.options[index]
        return option.stop_cost + option.set_cost * sets

    def _name(self, problem: PlanProblem) -> None:
        """What may stand once only: an exercise in a day, a family in the week."""
        names = {name: number for number, name in enumerate(problem.exercises)}
        families = sorted({option.family for option in problem.options} - {""})
        kin = {family: len(names) + number for number, family in enumerate(families)}
        self.names = len(names) + len(families)
        self.named: Floats = np.zeros((len(self.kinds), self.names), dtype=np.float32)
        for row, (index, _) in enumerate(self.kinds):
            if index < 0:
                continue
            option = problem.options[index]
            held = [names[one] for one in option.exercises]
            held += [kin[option.family]] if option.family else []
            self.named[row, held] = 1.0
        self.days_most = np.array(
            [problem.rules.days_an_exercise] * len(names) + [1] * len(families)
        )
        must = problem.rules.required
        self.net = np.array(
            [problem.change.of(name) + MISSING_EXERCISE * (name in must) for name in names]
            + [0.0] * len(families)
        )

    def _wishes(self, problem: PlanProblem) -> list[GroupWish]:
        rules, found = problem.rules, []
        for group, shares in GROUP_SHARES.items():
            if group in rules.least or group in rules.most:
                share = [float(shares.get(PARTS[p], 0)) if p < len(PARTS) else 0.0
                         for p in self.tracked]  # fmt: skip
                most = rules.most.get(group, float("inf"))
                found.append(GroupWish(np.array(share), rules.least.get(group, 0.0), most))
        return found

    def rows_of(self, selection: Selection) -> list[list[int]]:
        """A week as rows by day."""
        return [[self.at[kind] for kind in day] for day in selection]

    def selection(self, rows: Sequence[Sequence[int]]) -> Selection:
        """The week that rows by day mean."""
        return tuple(tuple(sorted(self.kinds[row] for row in day)) for day in rows)

    def worth(self, doses: Floats) -> Floats:
        """What sessions are worth to each part that counts; rows are sessions."""
        found: Floats = _TABLE[(doses[..., : self.worths] * FINE + 0.5).astype(np.intp)]
        return found

    def crowding(self, doses: Floats) -> Floats:
        """Cost of what joints bear on two days in a row; rows are their doses together."""
        above = np.maximum(0.0, doses[:, self.marked] - self.mark).sum(axis=1)
        found: Floats = self.problem.rules.close_price * above
        return found

    def value(self, worth: Floats, doses: Floats) -> Floats:
        """Benefit less what is missing; rows are weeks: worth by part, and doses."""
        value: Floats = np.sqrt(worth + self.done) @ self.price
        for wish in self.wishes:
            dose = doses @ wish.shares
            value = value - MISSING_SET * np.maximum(0.0, wish.least - dose)
            value[dose > wish.most + SLACK] = -np.inf
        return value


def _tracked(problem: PlanProblem) -> list[int]:
    """Indices of what is worth something, then of what is only capped."""
    rules = problem.rules
    limits = (rules.session_cap, rules.close_cap, rules.week_cap, rules.close_mark)
    capped = [part for part in range(TRACKED) if min(cap[part] for cap in limits) < np.inf]
    worth = [part for part in range(TRACKED) if problem.worth[part]]
    return worth + [part for part in capped if not problem.worth[part]]


_TABLE = np.array(
    [session_worth(step / FINE) for step in range(FINE * MOST_DOSE)], dtype=np.float32
)
