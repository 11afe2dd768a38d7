"""The passed-on routine as one page: everything in it, nothing asked of anybody.

The policy in its head allows the one style and the one script that are written into it, by
their hashes, and nothing else: no request, no picture from elsewhere, no form that is sent.
"""

from __future__ import annotations

import json
from base64 import b64encode
from collections.abc import Sequence
from functools import cache
from hashlib import sha256
from importlib.resources import files
from typing import Any

from jinja2 import Environment, StrictUndefined

from pennate.core.caution_texts import PREGNANCY_STOP, Caution
from pennate.core.exercise import EquipmentKind
from pennate.core.follow import Group, Option
from pennate.core.passed_on import Passed, PassedDay, PassedOption, PassedStop
from pennate.sheets.line import Stop, Stroke, stop_svg
from pennate.sheets.mark import mark_svg
from pennate.sheets.passed_words import LEAD, NUMBERS

COLUMNS = (5, 8, 10, 12, 15, 20)
"""Reps to failure of a remembered set that the printed table has a column for."""
HANDS = frozenset({EquipmentKind.DUMBBELLS, EquipmentKind.KETTLEBELLS})
PLATED = frozenset({EquipmentKind.SLED, EquipmentKind.PLATE_LOADED, EquipmentKind.GUIDED_BAR})


def page(routine: Passed) -> str:
    """The page, the same bytes for the same routine."""
    style, script = part("page.css"), part("page.js")
    environment = Environment(
        autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True
    )
    environment.filters["capitalised"] = _capitalised
    return environment.from_string(part("page.html")).render(
        routine=routine,
        policy=policy(style, script),
        style=style,
        script=script,
        tables=_embedded(tables(routine)),
        mark=mark_svg(colour="currentColor"),
        lead=LEAD,
        numbers=NUMBERS,
        columns=COLUMNS,
        starting=_starting,
        track=_track,
        on=_on,
        emergency=_emergency,
        load_label=_load_label,
        start_label=lambda kind: _starts(routine)[kind],
        step_label=_step_label,
    )


@cache
def part(name: str) -> str:
    """A file that passed-on documents are made from."""
    return files("pennate.sheets").joinpath("passed", name).read_text(encoding="utf-8")


def policy(style: str, script: str) -> str:
    """What the page may do: its own style and script, and nothing else."""
    return (
        f"default-src 'none'; style-src '{digest(style)}'; script-src '{digest(script)}'; "
        "base-uri 'none'; form-action 'none'"
    )


def digest(text: str) -> str:
    """The source expression that allows exactly this text (CSP level 3)."""
    return f"sha256-{b64encode(sha256(text.encode()).digest()).decode()}"


def _capitalised(text: str) -> str:
    return text[:1].upper() + text[1:]


def _embedded(document: dict[str, Any]) -> str:
    """JSON that no text in it can end early."""
    return json.dumps(document, ensure_ascii=True, separators=(",", ":")).replace("<", "\\u003c")


def tables(routine: Passed) -> dict[str, Any]:
    """What the page's script reads."""
    options = dict(_placed(routine))
    content = {
        "knots": routine.curves.knots,
        "tables": [
            [[[row[at] for row in rows] for at in (0, 1)] for rows in curve]
            for curve in routine.curves.tables
        ],
        "options": {
            place: _option(one, one.follow) for place, one in options.items() if one.follow
        },
    }
    digest = sha256(json.dumps([routine.name, content]).encode()).hexdigest()[:16]
    return {"name": f"passed-on-{digest}", **content}


def _placed(routine: Passed) -> Sequence[tuple[str, PassedOption]]:
    """Every option by the place it has on the page."""
    days = [day for day in routine.days if not day.rest]
    return [
        (f"e{d}-{s}-{e}-{o}", option)
        for d, day in enumerate(days, start=1)
        for s, stop in enumerate(day.stops, start=1)
        for e, one in enumerate(stop.exercises, start=1)
        for o, option in enumerate(one.options)
    ]


def _option(passed: PassedOption, follow: Option) -> dict[str, Any]:
    counts = {group.number: group.count for group in passed.groups}
    return {
        "key": follow.key,
        "kind": follow.kind,
        "curve": follow.curve,
        "carried": follow.carried,
        "together": follow.together,
        "helped": follow.helped,
        "bodily": follow.bodily,
        "helpable": follow.helpable,
        "each": passed.kind in HANDS,
        "groups": [
            _group(group, counts.get(number, 1)) for number, group in enumerate(follow.groups)
        ],
    }


def _group(group: Group, count: int) -> dict[str, Any]:
    return {
        "source": group.source.value,
        "shares": group.shares,
        "of": group.of,
        "share": group.share,
        "tired": group.tired,
        "reserve": group.reserve,
        "warm": group.warm_up,
        "count": count,
    }


def _starting(day: PassedDay) -> list[tuple[str, list[int]]]:
    """Rows of the printed table: an exercise's sets, and shares in whole per cents, down."""
    rows: dict[str, list[int]] = {}
    for stop in day.stops:
        for one in stop.exercises:
            option = one.asked
            if option.follow is None or option.follow.carried:
                continue
            for group in option.groups:
                if group.shares:
                    told = [group.shares[reps - 1] // 10 for reps in COLUMNS]
                    rows[f"{option.name}: {group.title}, {group.amount}"] = told
    return list(rows.items())


def _track(stop: PassedStop) -> str:
    strands = tuple(
        tuple(Stroke(group.kind) for group in one.asked.groups for _ in range(group.count))
        for one in stop.exercises
    )
    return stop_svg(Stop(strands))


def _emergency(caution: Caution) -> str:
    return "Emergency when pregnant." if caution is PREGNANCY_STOP else "Emergency."


def _on(option: PassedOption) -> str:
    return _capitalised(f"{option.on}, {option.variant}" if option.variant else option.on)


def _load_label(option: PassedOption) -> str:
    """What is asked for as the load of a remembered set."""
    follow = option.follow
    if follow is not None and follow.helped:
        return "Help, or 0"
    if follow is not None and follow.bodily:
        return "Load added"
    if follow is not None and follow.together:
        return "All you held"
    if option.kind in HANDS:
        return "One dumbbell"
    return "Load with bar" if option.kind is EquipmentKind.BARBELL else "Load"


def _starts(routine: Passed) -> dict[EquipmentKind, str]:
    return {steps.kind: steps.start for steps in routine.steps}


def _step_label(kind: EquipmentKind) -> str:
    if kind is EquipmentKind.BARBELL or kind in PLATED:
        return "Smallest pair of plates, together"
    return "Smallest step of one" if kind in HANDS else "Smallest step"
