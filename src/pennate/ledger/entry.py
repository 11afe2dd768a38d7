"""One entry of the ledger: dated, immutable, with an id its maker chose."""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime
from random import Random
from typing import Any

from pennate.errors import InputError, Where

ID_FORM = re.compile(r"[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}")
KIND_FORM = re.compile(r"[a-z][a-z_-]{0,31}")

RETRACTION = "retraction"
"""Kind of an entry that takes another back."""
SETTLED = "settled"
"""Kind of an entry that says a conflict has been looked at."""


def uuid7(now: datetime, rng: Random) -> str:
    """A time-ordered identifier, version 7 of RFC 9562: milliseconds, then chance."""
    milliseconds = int(now.timestamp() * 1000) & (1 << 48) - 1
    number = milliseconds << 80 | 7 << 76 | rng.getrandbits(12) << 64
    number |= 2 << 62 | rng.getrandbits(62)
    text = f"{number:032x}"
    return "-".join((text[:8], text[8:12], text[12:16], text[16:20], text[20:]))


def is_entry_id(text: str) -> bool:
    """Whether the text is a version 7 identifier in lower case, as entries carry."""
    return ID_FORM.fullmatch(text) is not None


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """A dated fact. A correction is a new entry whose `replaces` names the old one.

    `day` is the local day the fact is about, `made_at` when it was written (UTC).
    Raises InputError when a field cannot be right.
    """

    id: str
    kind: str
    day: date
    made_at: datetime
    body: Mapping[str, Any]
    """JSON values only; exact numbers are text."""
    replaces: str | None = None

    def __post_init__(self) -> None:
        if not is_entry_id(self.id):
            raise _wrong("id", f"“{self.id}” is not a version 7 identifier")
        if KIND_FORM.fullmatch(self.kind) is None:
            raise _wrong("kind", f"“{self.kind}” is not a lower-case word")
        if self.made_at.tzinfo is None:
            raise _wrong("made_at", "the time has no time zone")
        if self.replaces is not None and not is_entry_id(self.replaces):
            raise _wrong("replaces", f"“{self.replaces}” is not a version 7 identifier")
        if self.replaces == self.id:
            raise _wrong("replaces", "an entry cannot replace itself")
        object.__setattr__(self, "made_at", self.made_at.astimezone(UTC))

    def as_json(self) -> dict[str, Any]:
        """The entry as one JSON object, for sending and for export."""
        return {
            "id": self.id,
            "kind": self.kind,
            "day": self.day.isoformat(),
            "made_at": stamp(self.made_at),
            "replaces": self.replaces,
            "body": dict(self.body),
        }


def entry_from_json(document: object) -> Entry:
    """Read an entry that `as_json` wrote; raises InputError naming the field."""
    if not isinstance(document, Mapping):
        raise InputError("an entry is a JSON object")
    try:
        body = document["body"]
        if not isinstance(body, Mapping):
            raise _wrong("body", "the body is not a JSON object")
        return Entry(
            id=str(document["id"]),
            kind=str(document["kind"]),
            day=date.fromisoformat(str(document["day"])),
            made_at=datetime.fromisoformat(str(document["made_at"])),
            replaces=None if document.get("replaces") is None else str(document["replaces"]),
            body=body,
        )
    except KeyError as missing:
        raise _wrong(str(missing.args[0]), "the field is missing") from None
    except ValueError as error:
        raise InputError(f"an entry has a wrong date: {error}") from None


def stamp(moment: datetime) -> str:
    """A moment in UTC as text that sorts like time."""
    return moment.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%S.%fZ")


def body_text(body: Mapping[str, Any]) -> str:
    """The one way a body is written; raises InputError for what JSON cannot say."""
    try:
        return json.dumps(
            body, ensure_ascii=False, sort_keys=True, separators=(",", ":"), allow_nan=False
        )
    except (TypeError, ValueError) as error:
        raise _wrong("body", f"the body is not JSON ({error})") from None


def digest_of(kind: str, day: str, replaces: str | None, body: str) -> str:
    """What tells two contents apart; when it was written down does not count."""
    content = "\x1f".join((kind, day, replaces or "", body))
    return hashlib.sha256(content.encode()).hexdigest()


def _wrong(field: str, what: str) -> InputError:
    return InputError(what, Where(field=f"entry {field}"))
