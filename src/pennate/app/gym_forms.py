"""What a form about an item or a plate asks, and its texts as values of the gym file."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from functools import cache
from types import MappingProxyType
from typing import Any, get_args

from pennate.core.gym import AnyItem, Plate
from pennate.errors import InputError, Where
from pennate.files.gym import KIND_OF
from pennate.files.gym_tables import BandTable, GymTable, Measured
from pennate.files.gym_text import item_pairs, plate_pairs

PLATE = "plate"
_YES = {"1", "on", "true", "yes"}
_WORDS = MappingProxyType(
    {
        "for": "made for",
        "top": "heaviest label",
        "start": "starts at",
        "add_ons": "small masses to lay on",
        "label_only": "numbers mean nothing elsewhere",
        "masses": "masses in the rack",
        "sleeve": "sleeve, mm",
        "diameter": "diameter, mm",
        "thickness": "thickness, mm",
        "competition": "competition plates",
        "one_end": "one end in a joint",
        "assists": "they take load off",
        "band": "bands",
        "belt": "plates on a belt",
        "most_on_belt": "plates the belt takes",
        "units": "units of plates on it",
        "angle": "angle from the floor",
        "collars": "both collars together",
        "safeties": "safeties or stops can be set",
    }
)


_BAND_EXAMPLE = "red 12 kg; black 20 kg"


class Entry(StrEnum):
    """How a field is filled in."""

    TEXT = "text"
    NUMBER = "number"
    WHOLE = "whole number"
    YES = "yes or no"
    LIST = "list"


@dataclass(frozen=True, slots=True, kw_only=True)
class FormField:
    """One question of a form."""

    key: str
    label: str
    entry: Entry
    required: bool
    example: str
    help: str


@cache
def form_fields(kind: str) -> tuple[FormField, ...]:
    """The questions about a kind of item (a key of `KIND_OF`) or about a plate.

    The first ones are enough; raises InputError for an unknown kind.
    """
    schema = _table(kind).model_json_schema(by_alias=True)
    required = set(schema.get("required", []))
    fields = [_field(key, rule, required) for key, rule in schema["properties"].items()]
    return tuple(sorted((f for f in fields if f.key != "id"), key=lambda one: not one.required))


def _field(key: str, rule: Mapping[str, Any], required: set[str]) -> FormField:
    example = (rule.get("examples") or [""])[0]
    shown = _BAND_EXAMPLE if key == "band" else _shown(example)
    return FormField(
        key=key,
        label=_WORDS.get(key, key.replace("_", " ")),
        entry=_entry(rule),
        required=key in required,
        example=shown,
        help=str(rule.get("description", "")),
    )


_ENTRIES = (
    ("array", Entry.LIST),
    ("boolean", Entry.YES),
    ("number", Entry.NUMBER),
    ("integer", Entry.WHOLE),
)


def _entry(rule: Mapping[str, Any]) -> Entry:
    """How a field is filled in, from the types that its schema allows."""
    kinds: set[str] = set()
    for option in (rule, *rule.get("anyOf", [])):
        allowed = option.get("type", [])
        kinds |= {allowed} if isinstance(allowed, str) else set(allowed)
    return next((entry for kind, entry in _ENTRIES if kind in kinds), Entry.TEXT)


def _table(kind: str) -> type[Measured]:
    for name, field in GymTable.model_fields.items():
        if (field.alias or name) == kind and (kind == PLATE or kind in KIND_OF):
            found: type[Measured] = get_args(field.annotation)[0]
            return found
    raise InputError(f"“{kind}” is not a kind of equipment", remedy=f"one of: {', '.join(KIND_OF)}")


def values_from_form(kind: str, fields: Mapping[str, Any]) -> dict[str, Any]:
    """A form's texts as values of the table: numbers, yes or no, and lists.

    Empty texts say nothing; values that are no text stay as they are, and so do keys the
    table does not have, which the table then complains about. Lists are split at semicolons
    and line ends, masses also at commas followed by a space. Raises InputError for a whole
    number that is none.
    """
    known = {field.key: field for field in form_fields(kind)}
    found: dict[str, Any] = {}
    for key, value in fields.items():
        if value is None or (isinstance(value, str) and not value.strip()):
            continue
        field = known.get(key)
        found[key] = _value(field, value.strip()) if field and isinstance(value, str) else value
    return found


def _value(field: FormField, text: str) -> Any:
    if field.entry is Entry.YES:
        return text.casefold() in _YES
    if field.entry is Entry.WHOLE:
        if not re.fullmatch(r"\d{1,6}", text):
            where = Where(None, None, field.label)
            raise InputError(f"“{text}” is not a whole number", where, "write digits only")
        return int(text)
    if field.entry is Entry.LIST:
        parts = [part.strip() for part in re.split(r"[;\n]|,\s", text) if part.strip()]
        return [_band(part) for part in parts] if field.key == "band" else parts
    return text


def _band(text: str) -> dict[str, str]:
    """A band as “red 12”, “red 12 kg” or “red 12 kg ± 0.2”, its spread as a share."""
    found = re.fullmatch(r"(.+?)\s+([\d.,]+)\s*([^\W\d_]+\.?)?(?:\s*±\s*([\d.,/]+))?", text)
    if found is None:
        raise InputError(f"“{text}” is not a band with its pull", remedy="write it like red 12 kg")
    keys = ("name", "tension", "unit", "spread")
    return {key: given for key, given in zip(keys, found.groups(), strict=True) if given}


def shown_values(thing: AnyItem | Plate) -> dict[str, str]:
    """What a form about this item or plate is filled with; reading it back changes nothing."""
    pairs = plate_pairs(thing) if isinstance(thing, Plate) else item_pairs(thing)
    return {name: _shown(value) for name, value in pairs}


def _shown(value: Any) -> str:
    if isinstance(value, bool):
        return "yes" if value else ""
    if isinstance(value, list):
        return "; ".join(_shown(one) for one in value)
    if isinstance(value, dict):
        usual = BandTable.model_fields["spread"].default
        said = Fraction(str(value["spread"]))
        spread = f" ± {value['spread']}" if said != usual else ""
        return f"{value['name']} {value['tension']} {value['unit']}{spread}"
    return str(value)
