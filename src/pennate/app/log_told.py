"""What a logged set changed about the rest of the session, told once: reason, rule, caution."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from pennate.app.card_text import caution_document
from pennate.app.changes import readiness_lines
from pennate.core.card import Card, CardStop, SetState
from pennate.core.caution_texts import Caution


@dataclass(frozen=True, slots=True)
class Told:
    """Lines on what pain or a warning sign changed, and the cautions that apply since."""

    changes: tuple[str, ...] = ()
    cautions: tuple[tuple[Caution, tuple[str, ...]], ...] = ()
    """Each with the exercises it is about; with none it is about the day."""

    @property
    def lines(self) -> Iterator[str]:
        """As they are printed, a sentence each, every caution with its source."""
        yield from self.changes
        for caution, names in self.cautions:
            about = f" ({', '.join(names)})" if names else ""
            yield f"Caution{about}: {caution.text} [{caution.source}]"


def told_document(told: Told) -> dict[str, Any]:
    """The same as JSON values."""
    return {
        "changes": list(told.changes),
        "cautions": [
            {**caution_document(caution), "exercises": list(names)}
            for caution, names in told.cautions
        ],
    }


def told_by(before: Card, after: Card, *, said: bool) -> Told:
    """What stands on the card after a set and did not before it.

    Where something was `said` of pain or in a note, emergency lines are told again.
    """
    rules = set(readiness_lines(before.readiness))
    changes = [f"{one}." for one in readiness_lines(after.readiness) if one not in rules]
    for words, names in _left_out(before, after).items():
        changes.append(f"{', '.join(names)}: {words}.")
    return Told(tuple(changes), tuple(_cautions(before, after, again=said)))


def _left_out(before: Card, after: Card) -> dict[str, list[str]]:
    """Exercises that are left out since, by the reason."""
    found: dict[str, list[str]] = {}
    was = {stop.index: stop.replaced for stop in before.stops if _is_out(stop)}
    for stop in after.stops:
        if _is_out(stop) and stop.replaced != was.get(stop.index):
            found.setdefault(stop.replaced, []).append(stop.name)
    return found


def _is_out(stop: CardStop) -> bool:
    return stop.finished and any(one.state is SetState.SKIPPED for one in stop.sets)


def _cautions(
    before: Card, after: Card, *, again: bool
) -> Iterator[tuple[Caution, tuple[str, ...]]]:
    known = set(before.cautions)
    for caution in after.cautions:
        if caution not in known or (again and caution.emergency):
            yield caution, ()
    was = {stop.index: {one.text for one in stop.cautions} for stop in before.stops}
    found: dict[str, tuple[Caution, list[str]]] = {}  # by text, since that names the joints
    for stop in after.stops:
        for caution in stop.cautions:
            idle = _is_out(stop) and caution.once_a_session  # how to do what is not done today
            if caution.text not in was.get(stop.index, set()) and not idle:
                found.setdefault(caution.text, (caution, []))[1].append(stop.name)
    yield from ((caution, tuple(names)) for caution, names in found.values())
