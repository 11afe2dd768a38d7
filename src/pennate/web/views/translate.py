"""Girth, area and volume of a limb, one from another, so that a claim can be judged."""

from __future__ import annotations

from dataclasses import dataclass

from pennate.body.translate import (
    area_cm2,
    area_ratio,
    muscle_change,
    volume_cm3,
)
from pennate.core.percent import signed
from pennate.core.quantities import parse_number
from pennate.errors import InputError, Where


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What she typed, as typed."""

    before: str = ""
    after: str = ""
    fold: str = ""
    length: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class TranslatePage:
    """The page: what was typed, and what it means."""

    asked: Asked
    lines: tuple[tuple[str, str], ...]
    rule: str
    wrong: str = ""


RULE = (
    "The limb is taken as round and the bone as it was. Fat is a ring half a skinfold thick. If the"
    " girth grows, muscle grew by more where the fat was stretched thinner (its area kept) than"
    " where it kept its thickness. Formulas: geometry; rings as in DeFreitas 2010."
)
LEAST_CM, MOST_CM = 5.0, 250.0
FOLD_SHARE = 0.8
"""A skinfold's ring may take up at most this share of the girth."""


def translate_page(asked: Asked) -> TranslatePage:
    """The meaning of two girths; a value that makes no sense is told and kept."""
    if not asked.before and not asked.after:
        return TranslatePage(asked=asked, lines=(), rule=RULE)
    try:
        lines = _lines(asked)
    except InputError as error:
        return TranslatePage(asked=asked, lines=(), rule=RULE, wrong=str(error))
    return TranslatePage(asked=asked, lines=lines, rule=RULE)


def _number(text: str, field: str, low: float, high: float) -> float:
    value = float(parse_number(text))
    if not low <= value <= high:
        raise InputError(f"{value:g}", Where(field=field), f"between {low:g} and {high:g}")
    return value


def _lines(asked: Asked) -> tuple[tuple[str, str], ...]:
    before = _number(asked.before, "Girth before", LEAST_CM, MOST_CM)
    after = _number(asked.after, "Girth after", LEAST_CM, MOST_CM)
    ratio = after / before
    lines = [
        ("girth", f"{signed(100 * (ratio - 1))} %"),
        (
            "area of the limb",
            (
                f"{signed(100 * (area_ratio(ratio) - 1))} %, {area_cm2(before):.0f} to"
                f" {area_cm2(after):.0f} cm²"
            ),
        ),
    ]
    if asked.fold:
        most = FOLD_SHARE * 10 * before / 3.1416
        fold = _number(asked.fold, "Skinfold", 1.0, min(120.0, most))
        change = muscle_change(before, after, fold)
        held, kept = change.thickness_held, change.area_held
        lines += [
            ("muscle and bone before", f"{change.before:.0f} cm²"),
            (
                "fat as thick as before",
                f"{signed(held)} cm², {signed(100 * held / change.before)} %",
            ),
            ("fat of the same area", f"{signed(kept)} cm², {signed(100 * kept / change.before)} %"),
        ]
    if asked.length:
        length = _number(asked.length, "Length", 1.0, 100.0)
        grown = volume_cm3(after, after, length) - volume_cm3(before, before, length)
        lines.append((f"volume over {length:g} cm", f"{signed(grown)} cm³"))
    return tuple(lines)
