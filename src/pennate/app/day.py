"""What she decided about one day: check-in, swaps, skips, order, refusals, the end.

Every decision is an entry of its own, so two phones can decide at once and nothing is
lost; the state of the day is the fold of its entries in the order they were made.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from typing import Any

from pennate.core.readiness import Ill, Readiness
from pennate.ledger import Entry


@dataclass(frozen=True, slots=True)
class Swap:
    """Another exercise in the place of the planned one, today."""

    exercise: str
    item: str
    reason: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DayState:
    """The decisions of a day, folded."""

    day: date
    weekday: str
    """Name of the planned day that is done on this date."""
    opened: bool = False
    finished: bool = False
    note: str = ""
    minutes: int | None = None
    readiness: Readiness | None = None
    swaps: Mapping[int, Swap] = field(default_factory=dict)
    skipped: frozenset[int] = frozenset()
    told: Mapping[int, str] = field(default_factory=dict)
    """Skipped stops with the pain that was told beside the skip, in words."""
    held: Mapping[int, str] = field(default_factory=dict)
    """Skipped stops that alarming pain keeps out, with what was said; see `app.pain_holds`."""
    left_out: frozenset[str] = frozenset()
    """Keys of single sets left out for lack of time; the last such decision holds."""
    kept: frozenset[str] = frozenset()
    """Keys of sets whose change of load she refused."""
    order: tuple[int, ...] = ()
    """Stops in the order she wants, where she changed it."""

    @property
    def session(self) -> str:
        """The session's name in the log."""
        return self.weekday.lower()


DAY_KINDS = ("session", "decision", "readiness")
WITH_SET = "set"
"""Of a check-in whose pain was told with a set: the set's id. It is taken back with the set."""


def fold(day: date, weekday: str, entries: tuple[Entry, ...]) -> DayState:
    """The state of a day from its entries, oldest first. Unknown decisions are passed over."""
    state = DayState(day=day, weekday=weekday)
    for entry in sorted(entries, key=lambda e: e.made_at):
        state = _applied(state, entry.kind, entry.body)
    return state


def _applied(state: DayState, kind: str, body: Mapping[str, Any]) -> DayState:
    if kind == "readiness":
        return replace(state, readiness=readiness_of(state.day, body), minutes=body.get("minutes"))
    if body.get("weekday", state.weekday) != state.weekday:
        return state
    if kind == "session":
        finished = body.get("event") == "finished"
        note = str(body.get("note", "")) if finished else ""
        return replace(state, opened=True, finished=finished, note=note)
    return _decided(state, str(body.get("what")), body)


def _decided(state: DayState, what: str, body: Mapping[str, Any]) -> DayState:
    decide = _DECISIONS.get(what)
    return decide(state, body) if decide else state


def _swap(state: DayState, body: Mapping[str, Any]) -> DayState:
    swap = Swap(str(body["exercise"]), str(body.get("item", "")), str(body.get("reason", "")))
    return replace(state, swaps={**state.swaps, int(body["stop"]): swap})


def _skip(state: DayState, body: Mapping[str, Any]) -> DayState:
    stop, why = int(body["stop"]), pain_words(body)
    told = {**state.told, stop: why} if why else state.told
    return replace(state, skipped=state.skipped | {stop}, told=told)


def _take_up(state: DayState, body: Mapping[str, Any]) -> DayState:
    stop = int(body["stop"])
    told = {one: why for one, why in state.told.items() if one != stop}
    return replace(state, skipped=state.skipped - {stop}, told=told)


def pain_words(body: Mapping[str, Any]) -> str:
    """The pain told beside a decision, or by a set: “shoulder 2 of 10, sharp, …”; else empty."""
    if "because" in body:
        return str(body["because"])
    pain = dict(body.get("pain", {}))
    joints = ", ".join(f"{joint} {score} of 10" for joint, score in sorted(pain.items()))
    return ", ".join(filter(None, (joints, str(body.get("note", "")))))


_DECISIONS: Mapping[str, Callable[[DayState, Mapping[str, Any]], DayState]] = {
    "swap": _swap,
    "skip": _skip,
    "take up": _take_up,
    "leave out": lambda s, b: replace(s, left_out=frozenset(b["keys"])),
    "keep load": lambda s, b: replace(s, kept=s.kept | {str(b["key"])}),
    "order": lambda s, b: replace(s, order=tuple(int(stop) for stop in b["stops"])),
}


def readiness_of(day: date, body: Mapping[str, Any]) -> Readiness:
    """Her check-in as it was stored."""
    return Readiness(
        day=day,
        short_sleep=bool(body.get("short_sleep")),
        low_energy=bool(body.get("low_energy")),
        sore=tuple(body.get("sore", ())),
        pain={str(joint): int(score) for joint, score in dict(body.get("pain", {})).items()},
        alarming=frozenset(map(str, body.get("alarming", ()))),
        ill=Ill(body.get("ill", "")),
        corrected=frozenset(map(str, body.get("corrected", ()))),
    )


def readiness_body(readiness: Readiness, minutes: int | None) -> dict[str, Any]:
    """Her check-in as it is stored."""
    return {**said_body(readiness), "minutes": minutes}


def said_body(readiness: Readiness) -> dict[str, Any]:
    """What she said is different today."""
    return {
        "short_sleep": readiness.short_sleep,
        "low_energy": readiness.low_energy,
        "sore": list(readiness.sore),
        "pain": dict(readiness.pain),
        **({"alarming": sorted(readiness.alarming)} if readiness.alarming else {}),
        **({"ill": readiness.ill.value} if readiness.ill else {}),
        **({"corrected": sorted(readiness.corrected)} if readiness.corrected else {}),
    }
