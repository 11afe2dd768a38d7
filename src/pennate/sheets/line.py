"""The session as a line with stops: one stop an exercise, a superset as braided strands.

Short strokes beside the line are the sets: short for a ramp set, long for a hard one,
falling steps for drops. What is done is solid, what is to come is thin. Each stop is one
small drawing; the page puts words beside it and lets the line run on between stops.

How far a set has come is the class of its stroke and is drawn by the stylesheet, so that a
phone out of reach can move a drawing on without making one.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from pennate.core.performed import SetKind

X = 22.0
"""Where the line runs, from the left edge of every drawing."""
WIDTH = 64.0
NODE_Y = 15.0
EDGE = 9.0
"""Room for a place at either edge."""
FIRST_STROKE = 36.0
STROKE_GAP = 10.0
LANE = 22.0
"""Distance between two strands of a superset."""
ROUND = 40.0
"""Height of one round of a superset."""
PART = 0.75
"""Share of a round in which the strands part, and in which they join."""

STROKE_LENGTH = {
    SetKind.WARM_UP: 9.0,
    SetKind.WORKING: 20.0,
    SetKind.TOP: 24.0,
    SetKind.BACK_OFF: 16.0,
    SetKind.AMRAP: 20.0,
}
STEP_WIDTH, STEP_FALL = 6.0, 7.0


class Standing(StrEnum):
    """How far a set or a stop has come."""

    OPEN = "open"
    NOW = "now"
    DONE = "done"
    SKIPPED = "skipped"


@dataclass(frozen=True, slots=True)
class Stroke:
    """One set on the line; `standing` is a `Standing`, or what a phone puts one in place of."""

    kind: SetKind
    standing: str = Standing.OPEN


@dataclass(frozen=True, slots=True)
class Stop:
    """One stop: a strand for each exercise done there, more than one in a superset."""

    strands: tuple[tuple[Stroke, ...], ...]
    standing: str = Standing.OPEN


def stop_svg(stop: Stop) -> str:
    """The drawing of one stop; decoration, as the words beside it say the same."""
    body, height = _braid(stop) if len(stop.strands) > 1 else _single(stop)
    return (
        f'<svg viewBox="0 0 {WIDTH:g} {height:g}" width="{WIDTH:g}" height="{height:g}"'
        f' class="track" aria-hidden="true">{body}</svg>'
    )


def stop_height(stop: Stop) -> float:
    """How tall the drawing of a stop is."""
    return (_braid(stop) if len(stop.strands) > 1 else _single(stop))[1]


def _path(data: str, standing: str, more: str = "") -> str:
    return (
        f'<path d="{data}" fill="none" stroke="currentColor" stroke-width="2"'
        f' class="{standing}{more}"/>'
    )


def _node(x: float, y: float, standing: str, radius: float = 8.0) -> str:
    """A place on the line: a ring, filled once it is done; a dot in it while it is now."""
    place = f'cx="{x:g}" cy="{y:g}"'
    return (
        f'<circle {place} r="{radius:g}" fill="#fff" stroke="currentColor" stroke-width="2"'
        f' class="{standing} ground"/><circle {place} r="{radius / 2:g}" class="dot"/>'
    )


def _single(stop: Stop) -> tuple[str, float]:
    strokes, bottom = _strokes(stop.strands[0] if stop.strands else ())
    height = max(bottom, NODE_Y + 12)
    line = _path(f"M{X:g} {NODE_Y:g}V{height:g}", stop.standing, " way")
    return line + strokes + _node(X, NODE_Y, stop.standing), height


def _strokes(sets: Sequence[Stroke]) -> tuple[str, float]:
    """The sets of one exercise downwards; a drop goes on where the set above it ended."""
    start = X + 12
    end, y, parts = start, FIRST_STROKE - STROKE_GAP, []
    for one in sets:
        if one.kind is SetKind.DROP:
            parts.append(_path(f"M{end:g} {y:g}v{STEP_FALL:g}h-{STEP_WIDTH:g}", one.standing))
            end, y = max(start, end - STEP_WIDTH), y + STEP_FALL
        else:
            y += STROKE_GAP
            end = start + STROKE_LENGTH[one.kind]
            parts.append(_path(f"M{start:g} {y:g}H{end:g}", one.standing))
    return "".join(parts), y + STROKE_GAP


def _braid(stop: Stop) -> tuple[str, float]:
    """Strands that part, change places once a round, and join again."""
    rounds = max(len(strand) for strand in stop.strands)
    first = NODE_Y + ROUND * PART
    last = first + ROUND * (rounds - 1)
    bottom = last + ROUND * PART
    lanes = _lanes(len(stop.strands))
    count = len(lanes)
    paths, nodes = [], []
    for index, strand in enumerate(stop.strands):
        paths.append(_strand(X, NODE_Y, lanes[index], first, _standing(strand, 0)))
        end = lanes[(index + rounds - 1) % count]
        paths.append(_strand(end, last, X, bottom, _standing(strand, rounds - 1)))
        for number in range(rounds):
            x = lanes[(index + number) % count]
            nodes.append(_node(x, first + ROUND * number, _standing(strand, number), 6))
    for number in range(1, rounds):
        order = range(count) if number % 2 else reversed(range(count))
        for index in order:
            start, end = (lanes[(index + n) % count] for n in (number - 1, number))
            y = first + ROUND * (number - 1)
            standing = _standing(stop.strands[index], number)
            paths.append(_strand(start, y, end, y + ROUND, standing, over=True))
    return "".join(paths + nodes) + _node(X, NODE_Y, stop.standing), bottom


def _lanes(count: int) -> list[float]:
    """Where the strands run, in the middle of the line or as far left as the drawing goes."""
    apart = min(LANE, (WIDTH - 2 * EDGE) / (count - 1))
    left = max(EDGE, X - apart * (count - 1) / 2)
    return [left + apart * lane for lane in range(count)]


def _standing(strand: Sequence[Stroke], number: int) -> str:
    """How far the set of this round has come; before the first, as far as the first."""
    if not strand:
        return Standing.OPEN
    return strand[min(max(number, 0), len(strand) - 1)].standing


def _strand(  # two points and how the curve is drawn
    x1: float, y1: float, x2: float, y2: float, standing: str, *, over: bool = False
) -> str:
    """A curve between two points; one that goes over another hides it where they cross."""
    middle = (y1 + y2) / 2
    data = f"M{x1:g} {y1:g}C{x1:g} {middle:g} {x2:g} {middle:g} {x2:g} {y2:g}"
    under = f'<path d="{data}" fill="none" stroke="#fff" class="under" stroke-width="9"/>'
    line = _path(data, standing)
    return under + line if over else line
