"""What the strength model says of somebody of whom one set is known: tables for a passed-on page.

The model starts as for anybody, takes in one remembered set, and is asked for loads and reps.
Nothing of the lifter who passes the routine on is read here. The remembered set is put where
the model expects it of anybody, so that only what the set says moves the tables.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from pennate.core.evidence.pass_on import MOST_REPS
from pennate.core.evidence.session import SURE_ENOUGH_FIRST, SURE_ENOUGH_LATER
from pennate.core.exercise import Catalogue
from pennate.core.follow import THOUSAND, Curves
from pennate.core.forecast import QUANTILES
from pennate.core.prescribed import PrescribedSets
from pennate.estimate import Exposure, StrengthModel

SOME_DAY = date(2001, 1, 1)
"""Any day will do: only the order within it counts."""
EVEN = 0.5
TENTHS = 10
USUAL_SET = 10
"""Reps of the remembered set by which fatigue is reckoned; it hardly depends on them."""
KNOTS = tuple(range(300, 1651, 50))
"""Shares of what was moved, in thousandths, at which reps are tabled."""
INTERVAL = (QUANTILES.index(0.10), QUANTILES.index(0.90))
"""The ends of the 80 % interval."""

Rows = tuple[tuple[int, int], ...]


def needed(sets: PrescribedSets) -> int:
    """Reps to failure that the low end of what is asked needs."""
    return (sets.reps.low if sets.reps else 1) + (sets.reserve.low if sets.reserve else 0)


class Stranger:
    """Somebody of whom nothing is known but one set of an exercise."""

    def __init__(self, catalogue: Catalogue) -> None:
        self._begun = StrengthModel.start(catalogue)
        self._known: dict[tuple[str, int], tuple[StrengthModel, float]] = {}
        self._shares: dict[tuple[str, int, int, float], float] = {}
        self._alike: dict[Rows, str] = {}
        self._like: dict[str, str] = {}

    def like(self, exercise: str) -> str:
        """The first exercise met whose tables are the same: its own, or one of its pattern."""
        if exercise not in self._like:
            rows = self._rows(exercise, USUAL_SET)
            self._like[exercise] = self._alike.setdefault(rows, exercise)
        return self._like[exercise]

    def curve(self, exercise: str) -> int:
        """Index of its table among `curves`."""
        one = self.like(exercise)
        return list(self._alike.values()).index(one)

    def curves(self) -> Curves:
        """The tables of reps of all exercises met so far."""
        known = range(1, int(MOST_REPS) + 1)
        tables = (tuple(self._rows(one, reps) for reps in known) for one in self._alike.values())
        return Curves(KNOTS, tuple(tables))

    def acquainted(self, exercises: Iterable[str]) -> StrengthModel:
        """The model after a usual remembered set of each exercise."""
        model = self._begun.copy()
        for exercise in dict.fromkeys(exercises):
            model.remembered(
                asking(exercise, "remembered").at(self.moved(exercise, USUAL_SET)), USUAL_SET
            )
        return model.settled()

    def moved(self, exercise: str, reps: int) -> float:
        """What is moved in the remembered set: felt kilograms expected of anybody."""
        return self._knowing(exercise, reps)[1]

    def share(self, exercise: str, known: int, reps: int, probability: float) -> float:
        """The share of what was moved at which so many reps have this probability."""
        key = (exercise, known, reps, probability)
        if key not in self._shares:
            model, moved = self._knowing(exercise, known)
            load = model.load_for(asking(exercise, "today"), reps, probability)
            self._shares[key] = load / moved
        return self._shares[key]

    def shares(self, exercise: str, reps: int, tired: tuple[float, float]) -> tuple[int, ...]:
        """Shares to begin with, by remembered reps, rounded down to thousandths.

        As the first time anywhere: the low end is likely in the first set, and still as
        likely as not in the last of the alike sets.
        """
        one, (first, last) = self.like(exercise), tired
        return tuple(
            int(
                THOUSAND
                * min(
                    self.share(one, known, reps, SURE_ENOUGH_FIRST) / first,
                    self.share(one, known, reps, SURE_ENOUGH_LATER) / last,
                )
            )
            for known in range(1, int(MOST_REPS) + 1)
        )

    def _knowing(self, exercise: str, reps: int) -> tuple[StrengthModel, float]:
        """The model after one remembered set, and what was moved in it."""
        if (exercise, reps) not in self._known:
            remembered = asking(exercise, "remembered")
            moved = self._begun.load_for(remembered, reps, EVEN)
            model = self._begun.copy()
            model.remembered(remembered.at(moved), reps)
            self._known[exercise, reps] = (model.settled(), moved)
        return self._known[exercise, reps]

    def _rows(self, exercise: str, known: int) -> Rows:
        """Reps to failure by share of what was moved, in tenths."""
        model, moved = self._knowing(exercise, known)
        rows = []
        for knot in KNOTS:
            today = asking(exercise, "today").at(moved * knot / THOUSAND)
            told = model.forecast(today).quantiles
            low, high = (max(round(told[at] * TENTHS), 0) for at in INTERVAL)
            rows.append((low, high))
        return tuple(rows)


def asking(exercise: str, session: str) -> Exposure:
    """A first set of the exercise, asked without a load."""
    return Exposure(when=SOME_DAY, session=session, exercise=exercise, felt_kg=None)
