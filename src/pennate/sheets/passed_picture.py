"""One day of a passed-on routine as a picture to post: the line with its stops, and words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from html import escape
from textwrap import wrap

from pennate.core.caution_texts import GENERAL, RED_FLAGS
from pennate.core.passed_on import Passed, PassedDay, PassedStop
from pennate.sheets.line import NODE_Y, Stop, Stroke, X, stop_height, stop_svg

WIDTH, HEIGHT = 1080, 1350
EDGE = 60
TEXT_X = 190
INK, SOFT, ACCENT = "#15171a", "#43474d", "#0a5c66"
TRACK = 1.5
"""How much larger than on a page the line is drawn."""
NODE = (NODE_Y - 8) * TRACK
"""Where the ring of a stop begins, below the top of its drawing."""
TITLE, NAME, ASKED, FOOT = 52, 38, 28, 22
LEAD = 1.25
GAP = 26
WIDEST = 0.52
"""Width of a usual sign of the typeface as a share of its size, on the wide side."""
REST = "rest\N{NO-BREAK SPACE}"
BEGIN = "Your own loads: begin light. “1 left” means to stop one rep before failure."


@dataclass(frozen=True, slots=True)
class _Line:
    """A line of text, its size, and whether it is a name."""

    text: str
    size: int
    bold: bool = False


def picture_svg(routine: Passed, day: PassedDay) -> str:
    """The picture of a day; what does not fit at full size is drawn smaller."""
    head = _head(routine, day)
    foot = list(_lines((BEGIN, GENERAL.text, f"Emergency: {RED_FLAGS.text}"), FOOT, 2 * EDGE))
    top = EDGE + _height(head) + GAP
    bottom = HEIGHT - EDGE - _height(foot)
    body, tall = _body(day)
    scale = min(1.0, (bottom - GAP - top) / tall)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {HEIGHT}" '
        f'width="{WIDTH}" height="{HEIGHT}" color="{INK}" '
        'font-family="Liberation Sans, Arial, sans-serif">'
        "<style>.dot{display:none}</style>"
        f'<rect width="{WIDTH}" height="{HEIGHT}" fill="#ffffff"/>'
        f'<rect width="{WIDTH}" height="12" fill="{ACCENT}"/>'
        f"{_text(head, EDGE, EDGE)}"
        f'<g transform="translate({EDGE} {top:g}) scale({scale:.4g})">{body}</g>'
        f"{_text(foot, EDGE, bottom)}</svg>"
    )


def picture_words(routine: Passed, day: PassedDay) -> str:
    """What the picture shows, for those who do not see it."""
    told = [line.text for line in _head(routine, day)]
    told += [line.text for stop in day.stops for line in _stop_lines(stop)]
    return " ".join((*told, BEGIN))


def picture(routine: Passed, day: PassedDay) -> bytes:
    """The picture as PNG."""
    import vl_convert

    return bytes(vl_convert.svg_to_png(picture_svg(routine, day)))


def _head(routine: Passed, day: PassedDay) -> list[_Line]:
    title = f"{day.day}: {day.focus}" if day.focus else day.day
    about = f" · about {day.minutes[0]} minutes" if day.minutes else ""
    return [
        *_lines((title,), TITLE, 2 * EDGE, bold=True),
        *_lines((f"{routine.name}{about}",), ASKED, 2 * EDGE),
    ]


def _lines(texts: Sequence[str], size: int, taken: float, *, bold: bool = False) -> Iterator[_Line]:
    """Texts broken into lines that fit beside what is taken of the width."""
    signs = int((WIDTH - taken) / (size * WIDEST))
    for text in texts:
        for part in wrap(text, signs):
            yield _Line(part, size, bold)


def _height(lines: Sequence[_Line]) -> float:
    return sum(line.size * LEAD for line in lines)


def _text(lines: Sequence[_Line], x: float, y: float) -> str:
    """Lines one below the other, the first beginning at this height."""
    parts = []
    for line in lines:
        weight = ' font-weight="700"' if line.bold else ""
        colour = INK if line.bold else SOFT
        parts.append(
            f'<text x="{x:g}" y="{y + line.size:g}" font-size="{line.size}"{weight} '
            f'fill="{colour}">{escape(line.text)}</text>'
        )
        y += line.size * LEAD
    return "".join(parts)


def _body(day: PassedDay) -> tuple[str, float]:
    """All stops one below the other, and how tall they are together."""
    parts, y = [], 0.0
    for number, stop in enumerate(day.stops, start=1):
        lines = list(_stop_lines(stop))
        track = _track(stop)
        tall = max(_height(lines), stop_height(track) * TRACK) + GAP
        if number < len(day.stops):
            parts.append(
                f'<path d="M{X * TRACK:g} {y + stop_height(track) * TRACK:g}V{y + tall + NODE:g}" '
                f'stroke="{INK}" stroke-width="3"/>'
            )
        drawn = stop_svg(track)
        parts.append(f'<g transform="translate(0 {y:g}) scale({TRACK})">{drawn}</g>')
        parts.append(_text(lines, TEXT_X - EDGE, y))
        y += tall
    return "".join(parts), y


def _track(stop: PassedStop) -> Stop:
    return Stop(
        tuple(
            tuple(Stroke(group.kind) for group in one.asked.groups for _ in range(group.count))
            for one in stop.exercises
        )
    )


def _stop_lines(stop: PassedStop) -> Iterator[_Line]:
    for one in stop.exercises:
        mark = f"{one.mark} " if one.mark else ""
        side = ", each side" if one.asked.each_side else ""
        yield from _lines((f"{mark}{one.asked.name}",), NAME, TEXT_X + EDGE, bold=True)
        asked = [f"{group.short}{side}".replace("rest ", REST) for group in one.asked.told]
        yield from _lines(asked, ASKED, TEXT_X + EDGE)
