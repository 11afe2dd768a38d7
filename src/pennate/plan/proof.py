"""The bound, worked out beside the search: in a thread, as HiGHS runs without Python's lock.

What the thread does depends on the problem and the counted limits alone, never on when the
search finds what; so the same problem gives the same bound, on one core or on two.
"""

from __future__ import annotations

import math
import threading
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import TracebackType

from pennate.plan.highs import HaltedError
from pennate.plan.problem import PlanProblem, Selection
from pennate.plan.tree import Tree

POLL_S = 0.1  # number: seconds between asking whether to stop


@dataclass(frozen=True, slots=True)
class Known:
    """What is known after a split."""

    bound: float
    weeks: tuple[Selection, ...]
    """Weeks that came up on the way."""
    dear: Mapping[tuple[int, int, int], float]
    """At the root: how much less a week with a stop is worth at least, by option, day, sets."""


class Proof:
    """A proof under way; use it in a `with`, which ends the work."""

    def __init__(self, problem: PlanProblem, splits: int, pivots: int) -> None:
        self._problem, self._splits, self._pivots = problem, splits, pivots
        self._halt = threading.Event()
        self._news = threading.Condition()
        self._known: list[Known] = []
        self._over = False
        self._failure: BaseException | None = None
        self._thread = threading.Thread(target=self._work, name="bound", daemon=True)

    def __enter__(self) -> Proof:
        self._thread.start()
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        at: TracebackType | None,
    ) -> None:
        self._halt.set()
        self._thread.join()

    @property
    def bound(self) -> float:
        """The bound so far."""
        with self._news:
            return self._known[-1].bound if self._known else math.inf

    def after(self, splits: int, stop: Callable[[], bool]) -> Known | None:
        """What is known after so many splits; None if the work ended before, or was stopped.

        Raises what the work raised.
        """
        while True:
            with self._news:
                if splits < len(self._known):
                    return self._known[splits]
                if self._failure is not None:
                    raise self._failure
                if self._over:
                    return None
                self._news.wait(POLL_S)
            if stop():
                return None

    def _work(self) -> None:
        try:
            tree = Tree(self._problem, self._halt.is_set)
            self._tell(tree)
            while not tree.done and tree.splits < self._splits and tree.pivots < self._pivots:
                tree.split()
                self._tell(tree)
        except HaltedError:
            pass  # whoever halted it wants no more
        except BaseException as error:  # noqa: BLE001 - kept, and raised where it is asked for
            self._failure = error
        finally:
            with self._news:
                self._over = True
                self._news.notify_all()

    def _tell(self, tree: Tree) -> None:
        with self._news:
            self._known.append(Known(tree.bound, tuple(tree.found), tree.dear))
            self._news.notify_all()
        tree.found.clear()
