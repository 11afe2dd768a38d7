"""The session card: everything one visit to the gym needs, as plain values.

A card is derived: from the planned day, the gym, the strength model and what has been
logged so far today. It is made anew after each set, so it always shows what holds now.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum

from pennate.core.cautions import Caution
from pennate.core.forecast import RepsForecast
from pennate.core.gym import AnyItem
from pennate.core.loaded import Loaded
from pennate.core.performed import PerformedSet, SetKind, Side
from pennate.core.prescribed import Preparation, PrescribedExercise, PrescribedSets, Span
from pennate.core.readiness import Readiness


class SetState(StrEnum):
    """Where a set of the card stands."""

    OPEN = "open"
    DONE = "done"
    SKIPPED = "skipped"


@dataclass(frozen=True, slots=True)
class Likely:
    """Reps likely before the set, at the load shown and stopped as asked: 80 % interval."""

    low: int
    middle: int
    high: int


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnNotes:
    """Her notes for an exercise on an item: named settings, her cue, a note for next time."""

    settings: Mapping[str, str] = field(default_factory=dict)
    cue: str = ""
    next_time: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class CardSet:
    """One set to be done, or done."""

    key: str
    """Stable within the day: stop, block, set number and side, like `2.1.3` or `4.1.1.left`."""
    kind: SetKind
    asked: PrescribedSets
    round: int | None = None
    side: Side | None = None
    load: Loaded | None = None
    """None for work without load, or when nothing is known yet."""
    reps: Span | None = None
    seconds: Span | None = None
    rest_s: int = 0
    forecast: RepsForecast | None = None
    """Reps to failure at this load, here, today, after what came before."""
    likely: Likely | None = None
    moves: int = 0
    """Plates to put on or take off on each side before this set."""
    why: str = ""
    """The rule that chose the load, in one line."""
    step: tuple[str, ...] = ()
    """What the next load up costs and what to do meanwhile, where it was too far to take."""
    below: str = ""
    """Where it is held though too heavy: reps to failure here, and at the next load down."""
    offer: str = ""
    """The next load down with its reps, where it likely meets the asked reps and this one not."""
    offers: tuple[tuple[int, str], ...] = ()
    """The same by how many reps the forecast comes to be off, as long as it stands."""
    change: str = ""
    """What today's results changed about it, in one line; empty when nothing."""
    refusable: Loaded | None = None
    """The load before the change, which she may keep."""
    state: SetState = SetState.OPEN
    done: PerformedSet | None = None

    @property
    def test(self) -> bool:
        """Whether it finds out the load of something unknown: a set the card adds, which asks."""
        return self.key.split(".")[1] == "0" and bool(self.asked.note)


@dataclass(frozen=True, slots=True, kw_only=True)
class CardStop:
    """One exercise in the session, with her notes and its sets in order."""

    index: int
    exercise: str
    name: str
    asked: PrescribedExercise
    item: AnyItem | None
    notes: OwnNotes
    cue: str
    """Her own cue, or ours."""
    sets: tuple[CardSet, ...]
    cautions: tuple[Caution, ...] = ()
    starts_at_min: float = 0.0
    minutes: float = 0.0
    superset: str = ""
    replaced: str = ""
    """The exercise it stands in for today, with the reason."""
    ladder: str = ""
    """Where she stands on the way to the unassisted rep, and when the next rung is due."""

    @property
    def finished(self) -> bool:
        """Whether no set of it is open."""
        return all(one.state is not SetState.OPEN for one in self.sets)


@dataclass(frozen=True, slots=True, kw_only=True)
class Card:
    """The whole session of a day."""

    day: date
    session: str
    title: str
    """Weekday and focus."""
    gym_name: str
    preparation: tuple[Preparation, ...]
    stops: tuple[CardStop, ...]
    order: tuple[str, ...]
    """Keys of all sets in the order they are done; supersets alternate."""
    minutes: float
    minutes_low: float
    minutes_high: float
    cautions: tuple[Caution, ...] = ()
    changes: tuple[str, ...] = ()
    """What readiness, missing time or today's first sets changed, one line each."""
    readiness: Readiness | None = None

    def find(self, key: str) -> tuple[CardStop, CardSet] | None:
        """The stop and set with this key."""
        for stop in self.stops:
            for one in stop.sets:
                if one.key == key:
                    return stop, one
        return None

    @property
    def next_key(self) -> str | None:
        """The first set still open, in the order of doing."""
        return next(
            (
                key
                for key in self.order
                if (found := self.find(key)) and found[1].state is SetState.OPEN
            ),
            None,
        )
