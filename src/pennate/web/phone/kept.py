"""Documents that are costly to make, kept while the records stand still."""

from __future__ import annotations

import threading
from collections.abc import Callable
from datetime import date
from typing import Any

Stand = tuple[str, int, date]
"""Which records, how far they had been written, and the day it was."""


class Kept:
    """Sessions already prepared, for as long as nothing was written that changes them."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._stand: Stand | None = None
        self._days: dict[date, dict[str, Any]] = {}

    def day(
        self, stand_now: Callable[[], Stand], day: date, make: Callable[[], dict[str, Any]]
    ) -> tuple[Stand, dict[str, Any]]:
        """The document of a day and the stand of the records it was made at, made once.

        The stand is looked up when its turn has come: of many that wait, one prepares for all.
        """
        with self._lock:
            stand = stand_now()
            if stand != self._stand:
                self._stand, self._days = stand, {}
            if day not in self._days:
                self._days[day] = make()
            return stand, self._days[day]
