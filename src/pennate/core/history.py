"""The past as one immutable, ordered record; the only way to ask about it."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from datetime import date
from itertools import groupby

from pennate.core.performed import PerformedSet, Session


@dataclass(frozen=True, slots=True)
class History:
    """Every performed set, ordered by day, session and set number."""

    sets: tuple[PerformedSet, ...]
    _by_exercise: dict[str, tuple[PerformedSet, ...]] = field(
        default_factory=dict, init=False, repr=False, compare=False
    )
    """Filled when an exercise is first asked for: a session asks for each of its own often."""

    @classmethod
    def of(cls, sets: Iterable[PerformedSet]) -> History:
        """Put sets in order."""
        return cls(tuple(sorted(sets, key=lambda done: done.order)))

    def __iter__(self) -> Iterator[PerformedSet]:
        return iter(self.sets)

    def __len__(self) -> int:
        return len(self.sets)

    def sessions(self) -> tuple[Session, ...]:
        """The record cut into sessions, oldest first."""
        return tuple(
            Session(day, name, tuple(sets))
            for (day, name), sets in groupby(self.sets, key=lambda d: (d.day, d.session))
        )

    def of_exercise(self, exercise: str) -> tuple[PerformedSet, ...]:
        """The sets of one exercise, oldest first."""
        found = self._by_exercise.get(exercise)
        if found is None:
            found = tuple(done for done in self.sets if done.exercise == exercise)
            self._by_exercise[exercise] = found
        return found

    def before(self, day: date) -> History:
        """What was known on the morning of a day."""
        return History(self.sets[: self._first_on(day)])

    def since(self, day: date) -> History:
        """What happened on a day and after it."""
        return History(self.sets[self._first_on(day) :])

    def _first_on(self, day: date) -> int:
        return bisect_left(self.sets, day, key=lambda done: done.day)

    def last_day(self, exercise: str) -> date | None:
        """The day an exercise was last done."""
        found = self.of_exercise(exercise)
        return found[-1].day if found else None
