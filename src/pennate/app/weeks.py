"""Weeks to begin with, and the week page's forms turned into changes of a week.

The changes themselves are pure functions in `core.edit_week`.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cache
from importlib.resources import files

from pennate.core.exercise import Catalogue
from pennate.core.prescribed import PrescribedExercise, PrescribedSets, Reason, Week
from pennate.errors import InputError, Where
from pennate.files.catalogue import read_catalogue
from pennate.files.toml import TomlFile, checked
from pennate.files.week import read_week, sets_from_table
from pennate.files.week_tables import SetsTable, word_of

STARTER_ORDER = ("3_days", "4_days", "5_days", "6_days", "home", "travel")
_WHOLE_NUMBERS = ("sets", "partials")


@dataclass(frozen=True, slots=True)
class StarterWeek:
    """A week to begin with and to change: how many days it trains, and its week file."""

    id: str
    name: str
    days: int
    text: str


@cache
def starter_weeks() -> tuple[StarterWeek, ...]:
    """All starter weeks, fewest days first, then those for home and travel."""
    return tuple(_starter(one) for one in STARTER_ORDER)


def _starter(week_id: str) -> StarterWeek:
    path = files("pennate") / "data" / "weeks" / f"{week_id}.toml"
    text = path.read_text(encoding="utf-8")
    week = read_week(text, read_catalogue(), name=f"{week_id}.toml")
    return StarterWeek(week_id, week.name, sum(not day.rest for day in week.days), text)


def starter_week(week_id: str, catalogue: Catalogue) -> Week:
    """The starter week with this id as a week; raises InputError naming the ids."""
    for one in starter_weeks():
        if one.id == week_id:
            return read_week(one.text, catalogue, name=f"{week_id}.toml")
    ids = ", ".join(STARTER_ORDER)
    raise InputError(f"there is no starter week “{week_id}”", remedy=f"one of: {ids}")


def sets_from_form(fields: Mapping[str, str]) -> PrescribedSets:
    """One group of alike sets from a form's fields, named and written as in the week file.

    Empty fields say nothing; fields of other names are left alone. Raises InputError with
    the field's name.
    """
    values: dict[str, object] = {
        key: text.strip()
        for key, text in fields.items()
        if key in SetsTable.model_fields and text.strip()
    }
    for key in _WHOLE_NUMBERS:
        if key in values:
            values[key] = _whole(str(values[key]), key)
    return sets_from_table(checked(SetsTable, TomlFile("", values, {})))


def _whole(text: str, key: str) -> int:
    try:
        return int(text)
    except ValueError:
        raise InputError(
            f"“{text}” is not a whole number", Where(field=key), "write it like 3"
        ) from None


def asked_from_form(old: PrescribedExercise, fields: Mapping[str, str]) -> PrescribedExercise:
    """An exercise's equipment, aids (by comma), because and note from a form; sets stay."""
    aids = [aid.strip() for aid in fields.get("aids", ", ".join(old.aids)).split(",")]
    return replace(
        old,
        equipment=fields.get("equipment", old.equipment).strip(),
        aids=tuple(aid for aid in aids if aid),
        because=fields.get("because", old.because).strip(),
        note=fields.get("note", old.note).strip(),
    )


def reason_from_form(text: str) -> Reason | None:
    """Why an exercise is replaced, from a form; empty says nothing."""
    return word_of(Reason)(text) if text.strip() else None
