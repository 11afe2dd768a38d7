"""Minutes of a session: reps × tempo, rests, set-up, plate moves and changeovers."""

from __future__ import annotations

from dataclasses import dataclass

from pennate.core.evidence.dose import CHANGEOVER_S, SECONDS_PER_REP, SET_UP_S


@dataclass(frozen=True, slots=True)
class TimedSet:
    """What a set costs: work under load, the rest before it, and handling."""

    reps: float = 0.0
    hold_s: float = 0.0
    rest_s: float = 0.0
    seconds_per_rep: float = SECONDS_PER_REP
    set_up_s: float = SET_UP_S
    handling_s: float = 0.0
    """Plate moves beyond what fits into the rest."""
    sides: int = 1
    """Two for a set done left, then right."""

    @property
    def seconds(self) -> float:
        """Seconds from the end of the set before to the end of this one."""
        work = self.reps * self.seconds_per_rep + self.hold_s + self.set_up_s
        return self.rest_s + self.sides * work + self.handling_s


def session_seconds(
    stops: tuple[tuple[TimedSet, ...], ...], changeover_s: float = CHANGEOVER_S
) -> float:
    """Seconds of a session: every stop's sets, and one changeover between two stops.

    The first set of a stop brings no rest: the changeover stands in for it.
    """
    total = changeover_s * max(0, len(stops) - 1)
    for stop in stops:
        for index, one in enumerate(stop):
            total += one.seconds - (one.rest_s if index == 0 else 0.0)
    return total
