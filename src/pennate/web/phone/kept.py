"""Documents that are costly to make, kept while the records stand still."""

from __future__ import annotations

import threading
from collections.abc import Callable
from datetime import date
from typing import Any


class Kept:
    """Sessions already prepared, for as long as nothing was written that changes them."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._stand: tuple[object, ...] = ()
        self._days: dict[date, dict[str, Any]] = {}

    def day(
        self, stand: tuple[object, ...], day: date, make: Callable[[], dict[str, Any]]
    ) -> dict[str, Any]:
        """The document of a day at this stand of the records, made once."""
        with self._lock:
            if stand != self._stand:
                self._stand, self._days = stand, {}
            if day not in self._days:
                self._days[day] = make()
            return self._days[day]
