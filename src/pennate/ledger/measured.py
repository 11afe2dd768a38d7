"""Girths and weighings as entries and back; what makes no sense is returned, not raised."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import datetime
from fractions import Fraction
from random import Random
from typing import Any, TypeVar

from pennate.core.body import Measurement, Site, TapeState, Weighing
from pennate.core.performed import Side
from pennate.core.quantities import exact_text
from pennate.ledger.entry import Entry, uuid7
from pennate.ledger.sets import Problem
from pennate.ledger.store import Ledger

GIRTH = "girth"
WEIGHT = "weight"
READINGS = 3
"""Readings of one girth that an entry, like a row of the file, holds."""

_T = TypeVar("_T")


def measurements_from(ledger: Ledger) -> tuple[tuple[Measurement, ...], tuple[Problem, ...]]:
    """Every current measurement by day, and entries that are none."""
    return _understood(ledger, GIRTH, measurement_of)


def weighings_from(ledger: Ledger) -> tuple[tuple[Weighing, ...], tuple[Problem, ...]]:
    """Every current weighing by day, and entries that are none."""
    return _understood(ledger, WEIGHT, weighing_of)


def girth_entries(measured: Measurement, *, now: datetime, rng: Random) -> tuple[Entry, ...]:
    """The measurement as entries: one, and one more for every three further readings."""
    return tuple(
        Entry(id=uuid7(now, rng), kind=GIRTH, day=part.day, made_at=now, body=girth_body(part))
        for part in _in_threes(measured)
    )


def weight_entry(weighed: Weighing, *, now: datetime, rng: Random) -> Entry:
    """The weighing as an entry."""
    body = weight_body(weighed)
    return Entry(id=uuid7(now, rng), kind=WEIGHT, day=weighed.day, made_at=now, body=body)


def girth_body(measured: Measurement) -> dict[str, Any]:
    """A measurement as JSON, exact numbers as text; what is not said is left out."""
    body: dict[str, Any] = {
        "site": measured.site.value,
        "side": measured.side.value if measured.side else None,
        "girths_cm": [exact_text(girth) for girth in measured.girths_cm],
        "skinfold_mm": _text(measured.skinfold_mm),
        "state": measured.state.value if measured.state else None,
        "body_mass_kg": _text(measured.body_mass_kg),
        "extra": dict(measured.extra),
    }
    return {key: value for key, value in body.items() if value}


def weight_body(weighed: Weighing) -> dict[str, Any]:
    """A weighing as JSON."""
    extra = {"extra": dict(weighed.extra)} if weighed.extra else {}
    return {"kg": exact_text(weighed.kg), **extra}


def measurement_of(entry: Entry) -> Measurement:
    """The measurement an entry holds; raises ValueError, KeyError or TypeError if none."""
    body = entry.body
    return Measurement(
        day=entry.day,
        site=Site(body["site"]),
        side=Side(body["side"]) if body.get("side") else None,
        girths_cm=tuple(Fraction(girth) for girth in body.get("girths_cm", ())),
        skinfold_mm=_number(body.get("skinfold_mm")),
        state=TapeState(body["state"]) if body.get("state") else None,
        body_mass_kg=_number(body.get("body_mass_kg")),
        extra=dict(body.get("extra", {})),
    )


def weighing_of(entry: Entry) -> Weighing:
    """The weighing an entry holds; raises ValueError, KeyError or TypeError if none."""
    extra = dict(entry.body.get("extra", {}))
    return Weighing(day=entry.day, kg=Fraction(entry.body["kg"]), extra=extra)


def _understood(
    ledger: Ledger, kind: str, read: Callable[[Entry], _T]
) -> tuple[tuple[_T, ...], tuple[Problem, ...]]:
    found, problems = [], []
    for entry in ledger.entries(kind):
        try:
            found.append(read(entry))
        except KeyError as missing:
            problems.append(Problem(entry.id, f"the {kind} has no {missing.args[0]}"))
        except (ValueError, TypeError, ZeroDivisionError) as error:
            problems.append(Problem(entry.id, f"the {kind} cannot be read: {error}"))
    return tuple(found), tuple(problems)


def _in_threes(measured: Measurement) -> Iterator[Measurement]:
    girths = measured.girths_cm
    yield replace(measured, girths_cm=girths[:READINGS])
    for start in range(READINGS, len(girths), READINGS):
        rest = girths[start : start + READINGS]
        yield replace(measured, girths_cm=rest, skinfold_mm=None, body_mass_kg=None, extra={})


def _text(value: Fraction | None) -> str | None:
    return None if value is None else exact_text(value)


def _number(text: str | None) -> Fraction | None:
    return None if text is None else Fraction(text)
