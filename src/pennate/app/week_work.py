"""Long computations beside the pages: each runs once, can be watched and stopped, and is kept.

A piece of work is known by the hash of all that goes into it, so that what is kept is never
stale: other inputs have another key. Results live in memory; after a restart the same
question is simply computed again.
"""

from __future__ import annotations

import hashlib
import math
import threading
import time
from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Generic, TypeVar

from pennate.plan.solve import Progress

Result = TypeVar("Result")
KEPT = 12
"""Finished pieces of work that are remembered; a week's worth of looking around."""


def key_of(*inputs: str) -> str:
    """The name of a piece of work: a hash of all its inputs as text."""
    digest = hashlib.sha256()
    for text in inputs:
        digest.update(text.encode())
        digest.update(b"\0")
    return digest.hexdigest()[:20]


@dataclass(slots=True)
class Task(Generic[Result]):
    """One piece of work, running or done. Read from any thread."""

    key: str
    about: str = ""
    """What it is, in a few words, for a page that watches it."""
    began: float = field(default_factory=time.monotonic)
    progress: Progress = Progress("starting", -math.inf, math.inf)
    result: Result | None = None
    failure: BaseException | None = None
    _stop: threading.Event = field(default_factory=threading.Event)
    _done: threading.Event = field(default_factory=threading.Event)

    @property
    def done(self) -> bool:
        """Whether it has a result or a failure."""
        return self._done.is_set()

    @property
    def stopping(self) -> bool:
        """Whether somebody asked it to stop."""
        return self._stop.is_set()

    @property
    def seconds(self) -> float:
        """Seconds since it began."""
        return time.monotonic() - self.began

    def watch(self, progress: Progress) -> bool:
        """Take note of progress; whether to stop. Hand this to the solver."""
        self.progress = progress
        return self._stop.is_set()

    def stop(self) -> None:
        """Ask it to end soon with the best it has."""
        self._stop.set()

    def wait(self, seconds: float) -> bool:
        """Wait at most so long for the end; whether it came."""
        return self._done.wait(seconds)

    def outcome(self) -> Result:
        """The result; raises what the work raised."""
        if self.failure is not None:
            raise self.failure
        if self.result is None:
            raise RuntimeError(f"“{self.about}” is still being computed")
        return self.result

    def run(self, work: Callable[[Task[Result]], Result]) -> None:
        """Do the work here and keep what comes of it, an error included."""
        try:
            self.result = work(self)
        except BaseException as error:  # noqa: BLE001 - kept, and raised where it is looked at
            self.failure = error
        finally:
            self._done.set()


class Work(Generic[Result]):
    """All pieces of work of one kind on a server."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._tasks: OrderedDict[str, Task[Result]] = OrderedDict()

    def start(
        self, key: str, work: Callable[[Task[Result]], Result], about: str = ""
    ) -> Task[Result]:
        """The task of this key; begun in a thread of its own unless it is there already."""
        with self._lock:
            found = self._tasks.get(key)
            if found is None:
                task: Task[Result] = Task(key, about)
                self._tasks[key] = task
                self._forget()
                threading.Thread(target=task.run, args=(work,), daemon=True, name=about).start()
                return task
            self._tasks.move_to_end(key)
            return found

    def find(self, key: str) -> Task[Result] | None:
        """The task of this key, if it is remembered."""
        with self._lock:
            return self._tasks.get(key)

    def drop(self, key: str) -> None:
        """Stop and forget a task."""
        with self._lock:
            task = self._tasks.pop(key, None)
        if task is not None:
            task.stop()

    def _forget(self) -> None:
        """Let the oldest finished tasks go."""
        finished = [key for key, task in self._tasks.items() if task.done]
        for key in finished[: max(0, len(self._tasks) - KEPT)]:
            del self._tasks[key]
