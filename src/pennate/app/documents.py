"""Records that travel as text files: week, gyms, profile, notes, and all others as JSON lines."""

from __future__ import annotations

import json
import tomllib
from collections.abc import Iterable, Iterator, Mapping
from typing import Any
from urllib.parse import quote

import tomlkit

from pennate.core.exercise import Catalogue
from pennate.core.still_to_come import dated
from pennate.errors import InputError, Where
from pennate.files.catalogue import read_catalogue
from pennate.ledger import Entry, Ledger, entry_from_json

OWN_FILES = frozenset(
    {"set", "girth", "weight", "week", "gym", "profile", "note", "choice", "retraction"}
)
"""Kinds with a file of their own (a retraction shows in what is missing)."""


USUAL_GYM = "gym"
"""The id of a gym whose file states none."""


def newest(entries: Iterable[Entry]) -> Entry | None:
    """The entry that was written last."""
    return max(entries, key=lambda entry: (entry.made_at, entry.id), default=None)


def gyms_of(ledger: Ledger) -> dict[str, Entry]:
    """The newest text of every gym, by its id."""
    found: dict[str, Entry] = {}
    for entry in sorted(ledger.entries("gym"), key=lambda e: (e.made_at, e.id)):
        found[gym_id(str(entry.body.get("text", "")))] = entry
    return found


def notes_of(ledger: Ledger) -> dict[tuple[str, str], Entry]:
    """The newest note of every exercise on every item."""
    found: dict[tuple[str, str], Entry] = {}
    for entry in sorted(ledger.entries("note"), key=lambda e: (e.made_at, e.id)):
        found[note_key(entry.body)] = entry
    return found


def note_key(body: Mapping[str, Any]) -> tuple[str, str]:
    """What a note is about: exercise and item."""
    return str(body.get("exercise", "")), str(body.get("item", ""))


def gym_id(text: str) -> str:
    """The id a gym file states, or the one it has by default."""
    try:
        return str(tomllib.loads(text).get("id", USUAL_GYM))
    except tomllib.TOMLDecodeError:
        return USUAL_GYM


def gym_file(gym: str) -> str:
    """A file name for a gym, whatever its id holds."""
    return f"gyms/{quote(gym, safe=' ')}.toml"


def said(body: Mapping[str, Any]) -> dict[str, Any]:
    """A body without what is not said, as TOML has no word for nothing."""
    return {
        key: said(value) if isinstance(value, Mapping) else value
        for key, value in sorted(body.items())
        if value is not None
    }


def profile_text(body: Mapping[str, Any]) -> str:
    """The profile as TOML."""
    return tomlkit.dumps(said(body))


def notes_text(notes: Iterable[Entry]) -> str:
    """Her notes as TOML, a table each."""
    return tomlkit.dumps({"note": [said(entry.body) for entry in notes]})


def read_notes(text: str, name: str) -> list[dict[str, Any]]:
    """Notes from `notes_text`; raises InputError when it is another file."""
    tables = parsed(text, name).get("note")
    if not isinstance(tables, list) or not all(isinstance(one, dict) for one in tables):
        raise InputError("there are no [[note]] tables", Where(name))
    for one in tables:
        if not isinstance(one.get("exercise"), str):
            raise InputError("a note names no exercise", Where(name, field="note"))
    return tables


def choices_text(choices: Iterable[Mapping[str, Any]]) -> str:
    """What was said of logs as TOML, a table each."""
    return tomlkit.dumps({"choice": [dict(one) for one in choices]})


def read_choices(text: str, name: str) -> list[dict[str, Any]]:
    """Choices from `choices_text`; raises InputError when it is another file."""
    tables = parsed(text, name).get("choice")
    if not isinstance(tables, list) or not all(isinstance(one, dict) for one in tables):
        raise InputError("there are no [[choice]] tables", Where(name))
    for one in tables:
        for key in ("of", "written", "means"):
            if not isinstance(one.get(key), str):
                raise InputError(f"a choice has no {key}", Where(name, field="choice"))
    return tables


def parsed(text: str, name: str) -> dict[str, Any]:
    """TOML as a dict; raises InputError with the line."""
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise InputError(f"this is not TOML ({error})", Where(name)) from None


def catalogue_of(ledger: Ledger, week_text: str | None = None) -> Catalogue:
    """The shipped exercises and those of her week, or of the week that comes with a log."""
    from pennate.files.week import read_week

    if week_text is None:
        week = newest(ledger.entries("week"))
        week_text = str(week.body.get("text", "")) if week else ""
    if not week_text:
        return read_catalogue()
    return read_catalogue(read_week(week_text, read_catalogue(), name="your week").own_exercises)


def others_text(ledger: Ledger) -> str:
    """Every current entry without a file of its own, one JSON object a line."""
    kinds = sorted(ledger.kinds() - OWN_FILES)
    entries = ledger.entries(*kinds) if kinds else ()
    return "".join(json.dumps(entry.as_json(), ensure_ascii=False) + "\n" for entry in entries)


def read_others(text: str, name: str) -> Iterator[tuple[int, Entry]]:
    """Entries from JSON lines, each with its line; raises InputError with the line."""
    for number, line in enumerate(text.splitlines(), start=1):
        if not line.strip():
            continue
        try:
            entry = entry_from_json(json.loads(line))
            dated(entry.day)
        except ValueError:
            raise InputError("the line is not JSON", Where(name, number)) from None
        except InputError as error:
            raise InputError(str(error), Where(name, number)) from None
        yield number, entry
