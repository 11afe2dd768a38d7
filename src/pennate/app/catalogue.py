"""Look exercises and constants up by any word, and say what is known about them."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from fractions import Fraction
from pathlib import Path
from types import MappingProxyType
from typing import Any, NoReturn

from pennate.core.evidence import Constant, every_constant
from pennate.core.exercise import Catalogue, Exercise, FailureSafety, Involvement
from pennate.core.muscles import GROUP_SHARES, PART_NAMES, Group, Part
from pennate.core.near import nearest
from pennate.core.quantities import format_number
from pennate.errors import NoAnswerError
from pennate.files.catalogue import read_catalogue

SAID_FOR: Mapping[str, str] = MappingProxyType(
    {
        "arms": "biceps triceps",
        "booty": "glutes",
        "bum": "glutes",
        "delts": "shoulders",
        "hams": "hamstrings",
        "legs": "quads hamstrings glutes calves",
        "machine": "stack plate sled",
        "pecs": "chest",
        "smith": "guided",
        "traps": "upper",
        "tris": "triceps",
    }
)
"""Gym words for muscles and equipment, and the words of the catalogue they stand for."""

TRAINED = Fraction(1, 2)
"""An exercise is found under a muscle from half a set on."""

MOST_OFFERED = 5
"""Names offered where nothing fits."""
Score = tuple[int, Fraction, str]


def catalogue_for(week: Path | None = None) -> Catalogue:
    """The shipped exercises, with the own ones of a week file where one is given."""
    if week is None:
        return read_catalogue()
    from pennate.files.week import read_week  # reading weeks brings the checking of shapes along

    return read_catalogue(read_week(week, read_catalogue()).own_exercises)


def search(catalogue: Catalogue, query: str) -> tuple[Exercise, ...]:
    """Exercises that every word of the query fits by name, muscle or equipment, best first.

    Raises NoAnswerError with the nearest names when none fits.
    """
    return _fitting(catalogue, query) or _nothing(catalogue, query)


def _fitting(catalogue: Catalogue, query: str) -> tuple[Exercise, ...]:
    asked = " ".join(query.casefold().split())
    scored = [
        (score, exercise)
        for exercise in catalogue.exercises.values()
        if (score := _score(exercise, asked)) is not None
    ]
    return tuple(exercise for _, exercise in sorted(scored, key=lambda pair: pair[0]))


def _nothing(catalogue: Catalogue, query: str) -> NoReturn:
    """Say so, with what the words likely meant find, else with names that look alike."""
    known = {word for one in catalogue.exercises.values() for word in _words_of(one)}
    meant = _spelt(query, known)
    close = [one.name for one in _fitting(catalogue, meant)[:MOST_OFFERED]] if meant else []
    close = close or [
        found.name
        for name in nearest(query, catalogue.names(), most=MOST_OFFERED)
        if (found := catalogue.find(name))
    ]
    unique = list(dict.fromkeys(close))
    otherwise = "try a muscle like glutes or a thing like dumbbells; pennate exercises lists all"
    slip, near = _did_you(meant), f"nearest: {', '.join(unique)}" if unique else ""
    remedy = " ".join(filter(None, (slip, near))) or otherwise
    raise NoAnswerError(f"no exercise fits “{query}”; {remedy}", {"exercises": unique})


def _words_of(exercise: Exercise) -> set[str]:
    """Every word it is found by."""
    names = (exercise.name, *exercise.other_names, *(kind.value for kind in exercise.equipment))
    return {word for name in (*names, *muscle_words(exercise)) for word in name.casefold().split()}


def _spelt(query: str, known: Iterable[str]) -> str:
    """The known words that were likely meant by mistyped ones; empty where one is near none."""
    every = {word.strip("(),.;:“”") for word in known}
    meant = [
        word if word in every else next(iter(nearest(word, every, most=1)), "")
        for word in query.casefold().split()
    ]
    return " ".join(meant) if all(meant) else ""


def _did_you(meant: str) -> str:
    return f"did you mean “{meant}”?" if meant else ""


def _score(exercise: Exercise, asked: str) -> Score | None:
    """Sort key of an exercise for a query; None where a word fits nothing."""
    if credit := muscle_words(exercise).get(asked):
        return (0, -credit, exercise.name)
    names = [name.casefold() for name in (exercise.name, exercise.id, *exercise.other_names)]
    if asked in names:
        return (0, Fraction(0), exercise.name)
    if names[0].startswith(asked):
        return (1, Fraction(0), exercise.name)
    words = asked.split()
    if any(_all_start(words, name) for name in names):
        return (2, Fraction(0), exercise.name)
    return _muscle_score(exercise, words, names)


def _muscle_score(exercise: Exercise, words: list[str], names: list[str]) -> Score | None:
    """Score by muscle and equipment: the exercises that train the muscle in full come first."""
    muscles = muscle_words(exercise)
    plain = " ".join([*names, *(kind.value for kind in exercise.equipment), exercise.pattern])
    best = Fraction(0)
    for word in words:
        credit = max(
            (
                weight
                for text, weight in muscles.items()
                if any(_all_start([alias], text) for alias in _meant(word))
            ),
            default=Fraction(0),
        )
        if not credit and not any(_all_start([alias], plain) for alias in _meant(word)):
            return None
        best = max(best, credit)
    return (3, -best, exercise.name)


def _meant(word: str) -> list[str]:
    return [word, *SAID_FOR.get(word, "").split()]


def _all_start(words: list[str], text: str) -> bool:
    """Whether every word begins some word of the text."""
    starts = re.split(r"[^\w]+|_", text)
    return all(any(start.startswith(word) for start in starts) for word in words)


def muscle_words(exercise: Exercise) -> dict[str, Fraction]:
    """Words of the muscles an exercise trains with half a set or more, with the credit."""
    words: dict[str, Fraction] = {}
    for part, weight in exercise.weights().items():
        if weight < TRAINED:
            continue
        named = [PART_NAMES[part], *(g.value for g in Group if part in GROUP_SHARES[g])]
        for word in named:
            words[word] = max(weight, words.get(word, Fraction(0)))
    return words


def number(value: Fraction) -> int | float:
    """A plain number for JSON."""
    return int(value) if value.denominator == 1 else float(value)


def exercise_document(exercise: Exercise) -> dict[str, Any]:
    """All that is known about an exercise, as plain values."""
    return {
        "id": exercise.id,
        "name": exercise.name,
        "other_names": list(exercise.other_names),
        "pattern": exercise.pattern,
        "sides": exercise.sides.value,
        "muscles": _muscles(exercise.involvement),
        "joints": {joint.value: load for joint, load in exercise.joints.items() if load},
        "equipment": [kind.value for kind in exercise.equipment],
        "also_on": [kind.value for kind in exercise.also_on],
        "needs": {
            kind.value: sorted(one.value for one in needed)
            for kind, needed in exercise.needs.items()
        },
        "parent": exercise.parent,
        "body_mass_share": _share(exercise),
        "grip_limited": exercise.grip_limited,
        "timed": exercise.timed,
        "failure_safety": exercise.failure_safety.value,
        "seconds_per_rep": number(exercise.seconds_per_rep),
        "cue": exercise.cue,
        "evidence": exercise.evidence,
        "variants": [
            {
                "id": one.id,
                "name": one.name,
                "shifts": one.what_shifts,
                "muscles": _muscles(one.involvement),
            }
            for one in exercise.variants
        ],
        "own": exercise.own,
    }


def _muscles(involvement: Mapping[Part, Involvement]) -> dict[str, dict[str, Any]]:
    return {
        part.value: {"weight": number(item.weight), "known_by": item.confidence.value}
        for part, item in involvement.items()
    }


def _share(exercise: Exercise) -> dict[str, Any] | None:
    share = exercise.body_mass
    if share is None:
        return None
    return {
        "female": float(share.female),
        "male": float(share.male),
        "source": share.source,
    }


SAFETY_LINES: Mapping[FailureSafety, str] = MappingProxyType(
    {
        FailureSafety.NONE: "no special set-up",
        FailureSafety.SAFETIES_OR_SPOTTER: "a free bar only inside safeties or with a spotter",
        FailureSafety.STOPS: "only with stops set and tested empty",
        FailureSafety.EASY_TO_DROP: "leave room to put the load down",
    }
)


def safety_line(exercise: Exercise) -> str:
    """What a set to failure needs, on the usual equipment."""
    return SAFETY_LINES[exercise.failure_safety]


def muscle_line(exercise: Exercise) -> str:
    """The muscles in one line, those trained in full first: “quads, three vasti 1 · …”."""
    ordered = sorted(exercise.weights().items(), key=lambda pair: -pair[1])
    return " · ".join(f"{PART_NAMES[part]} {format_number(weight)}" for part, weight in ordered)


def needs_line(exercise: Exercise) -> str:
    """What it needs there beside the load: “bench (barbell, dumbbells)”; empty for nothing."""
    kinds: dict[str, list[str]] = {}
    for kind, needed in exercise.needs.items():
        words = " and ".join(sorted(one.value for one in needed))
        kinds.setdefault(words, []).append(kind.value)
    return " · ".join(f"{words} ({', '.join(on)})" for words, on in kinds.items())


def joint_line(exercise: Exercise) -> str:
    """The loaded joints in one line, the most loaded first."""
    ordered = sorted(exercise.joints.items(), key=lambda pair: -pair[1])
    return " · ".join(f"{joint.value} {load}" for joint, load in ordered if load)


def find_constants(name: str = "") -> tuple[Constant, ...]:
    """Constants whose name or use holds the word, all of them without one.

    Raises NoAnswerError with the nearest names when none fits.
    """
    every = every_constant()
    asked = name.casefold().strip()
    exact = [one for one in every if one.name == asked]
    found = exact or [one for one in every if asked in f"{one.name} {one.used_for}".casefold()]
    if not found:
        close = nearest(asked, (one.name for one in every), most=MOST_OFFERED)
        words = (word for one in every for word in _constant_words(one))
        otherwise = "pennate evidence lists all"
        remedy = (
            f"nearest: {', '.join(close)}" if close else _did_you(_spelt(asked, words)) or otherwise
        )
        raise NoAnswerError(f"no constant fits “{name}”; {remedy}", {"constants": close})
    return tuple(found)


def _constant_words(one: Constant) -> list[str]:
    return f"{one.name.replace('_', ' ')} {one.used_for}".casefold().split()


def constant_document(one: Constant) -> dict[str, Any]:
    """A constant as plain values."""
    return {
        "name": one.name,
        "value": one.value,
        "unit": one.unit,
        "low": one.low,
        "high": one.high,
        "status": one.status.value,
        "source": one.source,
        "used_for": one.used_for,
        "contested": one.contested,
    }
