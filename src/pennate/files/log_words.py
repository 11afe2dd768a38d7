"""What is told of how a log was read."""

from __future__ import annotations

from collections.abc import Iterator

from pennate.files.log import LogFile


def rpe_words(log: LogFile) -> Iterator[str]:
    """How a column of RPE was read."""
    if log.rpe:
        yield (
            f"The column “{log.rpe}” is read as reps in reserve: 10 less the RPE (Zourdos 2016), a"
            " half point as what was surely left, so that 8.5 is 1. The RPE itself is kept with"
            " the set."
        )
