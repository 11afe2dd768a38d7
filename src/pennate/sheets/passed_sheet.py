"""The passed-on routine on paper: a page for each day, with room to write by hand."""

from __future__ import annotations

from jinja2 import Environment, StrictUndefined

from pennate.core.caution_texts import RED_FLAGS
from pennate.core.passed_on import Passed, PassedDay, PassedOption
from pennate.core.performed import SetKind
from pennate.sheets.passed_page import digest, part

KEY = (
    "Each box is a set: load × reps; put the reps you had left in brackets. Asked: sets × reps, "
    "the reps to stop before failure (left), the rest before each set. A1, A2: one set of each in "
    "turn. Warm-ups are shares of the first load. First time on an exercise: begin light."
)
NAMES = {SetKind.TOP: "top", SetKind.BACK_OFF: "back-off", SetKind.DROP: "drop"}


def sheet(routine: Passed) -> str:
    """The sheet, the same bytes for the same routine. It has no script."""
    style = part("sheet.css")
    environment = Environment(
        autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True
    )
    return environment.from_string(part("sheet.html")).render(
        routine=routine,
        policy=f"default-src 'none'; style-src '{digest(style)}'; base-uri 'none'; "
        "form-action 'none'",
        style=style,
        equipment=_equipment,
        lines=_lines,
        boxes=_boxes,
        key=KEY,
        emergency=RED_FLAGS.text,
    )


def _equipment(day: PassedDay) -> str:
    """What is used, in the order of its first use."""
    used = (one.asked.on for stop in day.stops for one in stop.exercises)
    return ", ".join(dict.fromkeys(used))


def _lines(option: PassedOption) -> list[str]:
    """What is asked: the warm-up in one line, then a line for each group of alike sets."""
    written = [group.short for group in option.told if group.kind is SetKind.WARM_UP]
    warm = "; ".join([words for words, _ in option.ramp] or written)
    side = ", each side" if option.each_side else ""
    asked = [f"{g.short}{side}" for g in option.told if g.kind is not SetKind.WARM_UP]
    told = f"warm up: {warm}" if option.ramp else warm
    return [_unbroken(line) for line in (told, *asked) if line]


def _unbroken(line: str) -> str:
    """A line whose numbers keep what belongs to them."""
    return line.replace(" %", "\N{NO-BREAK SPACE}%").replace("rest ", "rest\N{NO-BREAK SPACE}")


def _boxes(option: PassedOption) -> list[str]:
    """A box for each set that counts, with the word for its kind where it has one."""
    return [
        NAMES.get(group.kind, "")
        for group in option.groups
        if group.kind is not SetKind.WARM_UP
        for _ in range(group.count)
    ]
