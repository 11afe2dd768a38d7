"""TOML from people: parsing with the line of every key, and complaints they can act on.

A file is read once into plain values (`read_toml`), checked against a Pydantic model
(`checked`), and every complaint names file, line, field, the likely slip and the remedy.
"""

from __future__ import annotations

import json
import re
import tomllib
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from types import UnionType
from typing import Any, TypeVar, Union, get_args, get_origin

from pydantic import BaseModel, ConfigDict, ValidationError
from pydantic.fields import FieldInfo
from pydantic_core import ErrorDetails, PydanticCustomError

from pennate.core.near import did_you_mean, nearest
from pennate.errors import InputError, Where
from pennate.files.toml_lines import KeyPath, key_lines
from pennate.files.toml_text import value_text
from pennate.files.unread import unread

__all__ = [
    "At",
    "Entry",
    "TomlFile",
    "checked",
    "checked_part",
    "did_you_mean",
    "field_name",
    "nearest",
    "read_toml",
    "said",
]

MAX_BYTES = 1_000_000
"""A file people type is far smaller; more is a wrong file, and is not read at all."""

M = TypeVar("M", bound=BaseModel)
T = TypeVar("T")


class Entry(BaseModel):
    """Base of all tables: unknown keys are errors, values are not coerced."""

    model_config = ConfigDict(extra="forbid", strict=True, frozen=True)


@dataclass(frozen=True, slots=True)
class TomlFile:
    """A parsed file: its values, and where each key stands. Paths are keys and 0-based places."""

    name: str
    data: Mapping[str, Any]
    lines: Mapping[KeyPath, int]

    def where(self, *path: str | int) -> Where:
        """The place of this path, or of the nearest table around it."""
        known = path
        while known and known not in self.lines:
            known = known[:-1]
        return Where(self.name or None, self.lines.get(known), field_name(path) or None)


@dataclass(frozen=True, slots=True)
class At:
    """A place in a file, for complaints about what stands there."""

    file: TomlFile
    path: KeyPath = ()

    def down(self, *steps: str | int) -> At:
        """The place further in."""
        return At(self.file, (*self.path, *steps))

    def error(self, what: str, remedy: str) -> InputError:
        """A complaint about this place."""
        return InputError(what, self.file.where(*self.path), remedy)


def field_name(path: Iterable[str | int]) -> str:
    """A path in words: `("day", 1, "exercise", 0, "reps")` is “day 2, exercise 1, reps”."""
    words: list[str] = []
    for step in path:
        if isinstance(step, int) and words:
            words[-1] = f"{words[-1]} {step + 1}"
        else:
            words.append(str(step))
    return ", ".join(words)


def read_toml(source: Path | str, *, name: str = "", when_empty: str = "") -> TomlFile:
    """Parse a path, or text given as a string; `name` is what complaints call it.

    Raises InputError when the file is missing, empty, huge, not UTF-8 or not TOML.
    """
    label = name or (source.name if isinstance(source, Path) else "")
    text = _text_of(source, Where(label or None)).replace("\r\n", "\n")
    if not text.strip():
        raise InputError("the file is empty", Where(label or None), when_empty)
    return TomlFile(label, _parsed(text, label), key_lines(text))


def _text_of(source: Path | str, where: Where) -> str:
    if isinstance(source, str):
        size, raw = len(source), b""
    else:
        try:
            with source.open("rb") as file:
                raw = file.read(MAX_BYTES + 1)  # a device or a pipe may never end
            size = max(source.stat().st_size, len(raw))
        except OSError as problem:
            raise unread(source, problem, where.file or "") from problem
    if size > MAX_BYTES:
        what = f"the file has {size / 1e6:.1f} MB, but at most {MAX_BYTES // 10**6} MB is read"
        raise InputError(what, where, "check that it is the right file")
    if isinstance(source, str):
        return source
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as problem:
        line = raw.count(b"\n", 0, problem.start) + 1
        raise InputError(
            "the file is not UTF-8 text", Where(where.file, line), "save it again as UTF-8"
        ) from problem


def _parsed(text: str, name: str) -> dict[str, Any]:
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as problem:
        raise _not_toml(str(problem), text, name) from problem
    except RecursionError:
        raise InputError(
            "brackets are nested too deeply", Where(name or None), "close each bracket"
        ) from None


def _not_toml(message: str, text: str, name: str) -> InputError:
    """The topmost complaint; a missing key is not told beside a mistyped one in its table."""
    found = re.search(r"\(at line (\d+)", message)
    line = int(found.group(1)) if found else len(text.splitlines())
    what = re.sub(r" \(at .*\)$", "", message)
    if what.startswith(("Cannot overwrite", "Cannot declare", "Cannot mutate")):
        return InputError("this key is written twice", Where(name or None, line), "keep one")
    lines = text.splitlines()
    key = re.match(r"\s*([\w-]+)\s*=\s*(?![\s\"'\[{])(.+)", lines[line - 1]) if lines else None
    remedy = "write key = value, with text in quotes"
    if key:
        remedy = f'put the text in quotes, as in {key.group(1)} = "{key.group(2).strip()}"'
    slip = f"not readable as TOML ({what[:1].lower()}{what[1:]})"
    return InputError(slip, Where(name or None, line), remedy)


def checked(model: type[M], file: TomlFile) -> M:
    """The file's values as this model; raises InputError about the first wrong one."""
    return checked_part(model, file, file.data, ())


def checked_part(model: type[M], file: TomlFile, values: Any, at: KeyPath) -> M:
    """Like `checked`, for a table that stands at path `at` of the file."""
    try:
        return model.model_validate(values)
    except ValidationError as problem:
        raise _first_complaint(problem, model, file, at) from None


def said(read: Callable[[Any], T]) -> Callable[[Any], T]:
    """Let a reader that raises InputError serve as a Pydantic before-validator."""

    def reader(value: Any) -> T:
        try:
            return read(value)
        except InputError as problem:
            raise PydanticCustomError(
                "said", "{what}", {"what": problem.what, "remedy": problem.remedy}
            ) from problem

    return reader


def _first_complaint(
    problem: ValidationError, model: type[BaseModel], file: TomlFile, at: KeyPath
) -> InputError:
    """The topmost complaint; a missing key is not told beside a mistyped one in its table."""
    found = [(_steps(model, error["loc"]), error) for error in problem.errors(include_url=False)]
    mistyped = {path[:-1] for path, error in found if error["type"] == "extra_forbidden"}
    told = [
        (file.where(*at, *path), path, error)
        for path, error in found
        if error["type"] != "missing" or path[:-1] not in mistyped
    ]
    where, path, error = min(told, key=lambda one: (one[0].line or 0, len(one[1])))
    what, remedy = _worded(error, model, path)
    more = len({(where.line, path) for where, path, _ in told}) - 1
    return InputError(what, where, f"{remedy} (and {more} more after this one)" if more else remedy)


def _steps(model: type[BaseModel], loc: tuple[str | int, ...]) -> KeyPath:
    """Pydantic's location without the union branches it puts in."""
    steps: list[str | int] = []
    here: Any = model
    for step in loc:
        below = _below(here, step)
        if below is None and not (isinstance(here, type) and issubclass(here, BaseModel)):
            continue
        steps.append(step)
        here = below
    return tuple(steps)


def _below(annotation: Any, step: str | int) -> Any:
    """The annotation one step further down, None where there is none."""
    for option in _options(annotation):
        origin = get_origin(option)
        if isinstance(step, int) and origin in {list, tuple}:
            return get_args(option)[0]
        if isinstance(step, str) and origin is dict:
            return get_args(option)[1]
        if isinstance(option, type) and issubclass(option, BaseModel):
            field = _field(option, step)
            if field is not None:
                return field.annotation
    return None


def _options(annotation: Any) -> tuple[Any, ...]:
    if get_origin(annotation) in {Union, UnionType}:
        return get_args(annotation)
    return (annotation,)


def _field(model: type[BaseModel], key: str | int) -> FieldInfo | None:
    for name, field in model.model_fields.items():
        if key == (field.alias or name):
            return field
    return None


def _table_at(model: type[BaseModel], path: KeyPath) -> type[BaseModel] | None:
    here: Any = model
    for step in path:
        here = _below(here, step)
    for option in _options(here):
        if isinstance(option, type) and issubclass(option, BaseModel):
            return option
    return None


def _worded(error: ErrorDetails, model: type[BaseModel], path: KeyPath) -> tuple[str, str]:
    """What is wrong and what to do, for one Pydantic error."""
    kind, key = error["type"], str(path[-1]) if path else ""
    context: Mapping[str, Any] = error.get("ctx", {})
    table = _table_at(model, path[:-1]) if path else None
    if kind == "said":
        return str(context["what"]), str(context["remedy"])
    if kind == "extra_forbidden":
        keys = sorted(field.alias or name for name, field in (table or model).model_fields.items())
        return f"unknown key “{key}”", did_you_mean(key, keys, f"known here: {', '.join(keys)}")
    if kind == "missing":
        return f"“{key}” is missing", f"add {_example(table, key)}"
    if kind in {"literal_error", "enum"}:
        words = re.findall(r"'([^']*)'", str(context.get("expected", "")))
        given = str(error["input"])
        return f"“{given}” is not a known {key}", did_you_mean(
            given, words, f"one of: {', '.join(words)}"
        )
    if kind == "list_type" and isinstance(error["input"], dict):
        header = ".".join(str(step) for step in path if isinstance(step, str))
        return f"“{key}” may come more than once", f"write [[{header}]] in double brackets"
    return _refused(error), f"write it like {_example(table, key)}"


MUST_BE = {
    "list_type": "a list in square brackets",
    "int_type": "a whole number",
    "string_type": "text in quotes",
    "bool_type": "true or false",
    "dict_type": "a table",
    "model_type": "a table",
}
BEYOND = {
    "greater_than_equal": "is less than {ge}",
    "greater_than": "is not more than {gt}",
    "less_than_equal": "is more than {le}",
    "less_than": "is not less than {lt}",
    "too_long": "has more than {max_length} entries",
    "too_short": "has fewer entries than {min_length}",
    "string_too_long": "has more than {max_length} characters",
    "string_too_short": "has fewer characters than {min_length}",
}


def _refused(error: ErrorDetails) -> str:
    """What is wrong with a value of the wrong type or beyond a limit."""
    given = json.dumps(error["input"], default=str, ensure_ascii=False)
    short = given if len(given) <= 40 else f"{given[:37]}…"
    if error["type"] in MUST_BE:
        return f"{short} must be {MUST_BE[error['type']]}"
    if error["type"] in BEYOND:
        return f"{short} {BEYOND[error['type']].format(**error.get('ctx', {}))}"
    return f"{short}: {error['msg'][:1].lower()}{error['msg'][1:]}"


def _example(table: type[BaseModel] | None, key: str) -> str:
    field = _field(table, key) if table else None
    if field is None or not field.examples:
        return f"{key} = …"
    return f"{key} = {value_text(field.examples[0])}"
