"""Why an exercise of the week cannot be done with what is there, and what would bring it back."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pennate.core.exercise import Catalogue, EquipmentKind, Exercise, Fixture
from pennate.core.prescribed import Week
from pennate.plan.happened import Happened
from pennate.plan.substitute import within_limits

ALSO = {Fixture.BAND_ANCHOR: "a band anchor (a post, or a shut door with something tied into it)"}
"""What a fixture may be on the road."""


def absent_words(exercise: Exercise, happened: Happened) -> str:
    """“on bands it needs a band anchor”; empty where what is there would do."""
    if exercise.kinds_in(happened.kinds, happened.fixtures):
        return ""
    nearest = _nearest(exercise, happened)
    if nearest is None:
        return f"it needs {_listed([kind.value for kind in exercise.equipment], 'or')}"
    kind, missing = nearest
    needed = [ALSO.get(one, a_fixture(one)) for one in Fixture if one in missing]
    return f"{_on(kind)} it needs {_listed(needed, 'and')}"


def back_with(week: Week, happened: Happened, known: Catalogue) -> Iterator[str]:
    """“With a band anchor as well, these need no stand-in: …”, a line each set of things."""
    found: dict[frozenset[Fixture], list[str]] = {}
    ahead = (day for day in week.days if day.day not in happened.done | happened.missed)
    for name in dict.fromkeys(one.exercise for day in ahead for one in day.exercises):
        possible = name not in happened.lost and within_limits(known[name], happened.joint_limits)
        nearest = _nearest(known[name], happened) if possible else None
        if nearest is not None and nearest[1]:
            found.setdefault(nearest[1], []).append(known[name].name)
    for missing, names in found.items():
        things = _listed([a_fixture(one) for one in Fixture if one in missing], "and")
        yield f"With {things} as well, these need no stand-in: {', '.join(names)}"


def _nearest(
    exercise: Exercise, happened: Happened
) -> tuple[EquipmentKind, frozenset[Fixture]] | None:
    """The kind at hand that lacks least beside it, and what; None where no kind is at hand."""
    there = [kind for kind in (*exercise.equipment, *exercise.also_on) if kind in happened.kinds]
    lacks = [(kind, exercise.needs.get(kind, frozenset()) - happened.fixtures) for kind in there]
    return min(lacks, key=lambda one: len(one[1]), default=None)


def _on(kind: EquipmentKind) -> str:
    return "at body weight" if kind is EquipmentKind.BODY_WEIGHT else f"on {kind.value}"


def a_fixture(fixture: Fixture) -> str:
    """“an ab wheel”."""
    return f"{'an' if fixture.value[0] in 'aeiou' else 'a'} {fixture.value}"


def _listed(words: Sequence[str], last: str) -> str:
    *first, end = words
    return f"{', '.join(first)} {last} {end}" if first else end
