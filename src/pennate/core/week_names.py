"""Exercises and variants by id or shown name, with the nearest offered for a mistyped one."""

from __future__ import annotations

from pennate.core.exercise import Catalogue, Exercise
from pennate.core.near import did_you_mean, nearest, offered
from pennate.core.prescribed import WEEKDAYS, PrescribedExercise, Reason
from pennate.errors import InputError


def weekday_meant(text: str) -> str:
    """The weekday of a name, long or short, in any case; the text itself where it is none."""
    short = text.strip().rstrip(".").casefold()
    for day in WEEKDAYS:
        if len(short) >= len("mo") and day.casefold().startswith((short, _SHORT.get(short, short))):
            return day
    return text


_SHORT = {"weds": "wed", "thr": "thu"}
"""Short forms that are no beginning of the name."""


def known_exercise(text: str, catalogue: Catalogue) -> Exercise:
    """The exercise with this id or name; raises InputError offering the nearest."""
    found = catalogue.find(text)
    if found is None:
        otherwise = "see “pennate exercises”, or define it in the week file"
        remedy = offered(nearest_exercises(text, catalogue), otherwise)
        raise InputError(f"there is no exercise “{text}”", remedy=remedy)
    return found


def nearest_exercises(text: str, catalogue: Catalogue, most: int = 3) -> list[str]:
    """The exercises most like this text by id or any name: ids for an id, else shown names."""
    by_id = "_" in text
    alike: dict[str, None] = {}
    for word in nearest(text, catalogue.names(), most=10 * most):
        exercise = catalogue.find(word)
        if exercise is not None:
            alike[exercise.id if by_id else exercise.name] = None
    return list(alike)[:most]


def stand_in_words(asked: PrescribedExercise, catalogue: Catalogue) -> str:
    """“instead of Back squat: sore joint”; empty for an exercise that replaces none."""
    if not asked.replaces:
        return ""
    old = catalogue.exercises.get(asked.replaces)
    words = f"instead of {old.name if old else asked.replaces}"
    if asked.reason is None:
        return words
    told = "taken or not there" if asked.reason is Reason.TAKEN else asked.reason.value
    return f"{words}: {told}"


def why_here(asked: PrescribedExercise, catalogue: Catalogue) -> str:
    """Why an exercise is in the week: what it replaces, and the reason written beside it."""
    return "; ".join(filter(None, (stand_in_words(asked, catalogue), asked.because)))


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
