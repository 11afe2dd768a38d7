"""The page that changes one exercise of a day, in the words of the week file."""

from __future__ import annotations

from dataclasses import dataclass

from pennate.app.stops import item_for, items_for
from pennate.core.exercise import Catalogue
from pennate.core.gym import Gym
from pennate.core.performed import SetKind
from pennate.core.prescribed import (
    PlannedDay,
    PrescribedExercise,
    PrescribedSets,
    Reason,
    Week,
)
from pennate.files.words import load_text, rest_text, span_text
from pennate.web.words import KIND_WORDS, load_rule_words


@dataclass(frozen=True, slots=True)
class SetsForm:
    """A group of alike sets as its form shows it, in the words of the week file."""

    title: str = ""
    kind: str = ""
    sets: str = "1"
    reps: str = ""
    seconds: str = ""
    reserve: str = ""
    load: str = ""
    rest: str = ""
    tempo: str = ""
    style: str = ""
    partials: str = ""
    note: str = ""


def sets_form(sets: PrescribedSets) -> SetsForm:
    """The form's values for a group of sets."""
    return SetsForm(
        title=KIND_WORDS[sets.kind].capitalize() + ("s" if sets.count > 1 else ""),
        kind=sets.kind.value,
        sets=str(sets.count),
        reps=span_text(sets.reps) if sets.reps else "",
        seconds=span_text(sets.seconds) if sets.seconds else "",
        reserve="fail" if sets.to_failure else span_text(sets.reserve) if sets.reserve else "",
        load=load_text(sets.load) if load_rule_words(sets.load) else "",
        rest="" if sets.rest_s is None else rest_text(sets.rest_s),
        tempo=sets.tempo,
        style=sets.style,
        partials=str(sets.partials or ""),
        note=sets.note,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedForm:
    """The page that changes one exercise of a day."""

    day: str
    place: int
    name: str
    exercise: str
    groups: tuple[SetsForm, ...]
    kinds: tuple[tuple[str, str], ...]
    equipment: str
    items: tuple[tuple[str, str], ...]
    """What it can be done on here, by id and name; empty where there is nothing to choose."""
    aids: str
    note: str
    because: str
    superset: bool
    last: bool
    other_days: tuple[str, ...]
    reasons: tuple[tuple[str, str], ...]
    names: tuple[str, ...]


def asked_form(
    week: Week, day: PlannedDay, place: int, catalogue: Catalogue, gym: Gym | None = None
) -> AskedForm:
    """The forms for the exercise at this place of a day."""
    known = catalogue.with_own(week.own_exercises)
    asked = day.exercises[place]
    return AskedForm(
        day=day.day,
        place=place,
        name=known[asked.exercise].name,
        exercise=asked.exercise,
        groups=(*(sets_form(sets) for sets in asked.sets), SetsForm(sets="")),
        kinds=tuple((kind.value, KIND_WORDS[kind]) for kind in SetKind),
        equipment=asked.equipment,
        items=_items(asked, known, gym),
        aids=", ".join(asked.aids),
        note=asked.note,
        because=asked.because,
        superset=bool(asked.superset),
        last=place + 1 == len(day.exercises),
        other_days=tuple(d.day for d in week.days if d.day != day.day),
        reasons=(("", "no reason given"), *((reason.value, reason.value) for reason in Reason)),
        names=exercise_names(known),
    )


def _items(
    asked: PrescribedExercise, catalogue: Catalogue, gym: Gym | None
) -> tuple[tuple[str, str], ...]:
    """The things of her gym that serve; the first leaves it to the gym and says what that is."""
    exercise = catalogue[asked.exercise]
    usual = item_for(gym, exercise) if gym else None
    if gym is None or usual is None:
        return ()
    there = [(one.id, one.name) for one in items_for(gym, exercise)]
    if asked.equipment and asked.equipment not in dict(there):
        named = gym.item(asked.equipment)
        there.append((asked.equipment, named.name if named else asked.equipment))
    return (("", f"as it fits here: {usual.name}"), *there)


def exercise_names(catalogue: Catalogue) -> tuple[str, ...]:
    """All shown names, sorted, for a text box that suggests."""
    return tuple(sorted(exercise.name for exercise in catalogue.exercises.values()))
