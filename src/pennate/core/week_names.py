"""Exercises and variants by id or shown name, with the nearest offered for a mistyped one."""

from __future__ import annotations

from pennate.core.exercise import Catalogue, Exercise
from pennate.core.near import did_you_mean
from pennate.errors import InputError


def known_exercise(text: str, catalogue: Catalogue) -> Exercise:
    """The exercise with this id or name; raises InputError offering the nearest."""
    found = catalogue.find(text)
    if found is None:
        spelled = [one for exercise in catalogue.exercises.values() for one in _spelled(exercise)]
        remedy = did_you_mean(
            text, spelled, "see “pennate exercises”, or define it in the week file"
        )
        raise InputError(f"no exercise “{text}”", remedy=remedy)
    return found


def _spelled(exercise: Exercise) -> tuple[str, ...]:
    return (exercise.id, exercise.name, *exercise.other_names)


def known_variant(text: str, exercise: Exercise) -> str:
    """Id of the exercise's variant with this id or name; raises InputError otherwise."""
    wanted = text.casefold().strip()
    for variant in exercise.variants:
        if wanted in {variant.id.casefold(), variant.name.casefold()}:
            return variant.id
    known = [variant.id for variant in exercise.variants]
    otherwise = f"known: {', '.join(known)}" if known else "it has none; say it in a note"
    raise InputError(
        f"“{exercise.id}” has no variant “{text}”", remedy=did_you_mean(text, known, otherwise)
    )
