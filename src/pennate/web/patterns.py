"""All components on one page, with examples; for development only."""

from __future__ import annotations

from dataclasses import dataclass

from fastapi import APIRouter
from markupsafe import Markup
from starlette.requests import Request
from starlette.responses import Response

from pennate.core.performed import Effort, SetKind
from pennate.sheets.lanes import Lane
from pennate.sheets.line import Standing, Stop, Stroke, stop_svg
from pennate.web.render import page
from pennate.web.views.floor import Closing, EffortKey, Rest
from pennate.web.views.line import LineStop, PartWords
from pennate.web.views.week import LaneView, lane_views
from pennate.web.words import EFFORT_WORDS

pages = APIRouter()


@dataclass(frozen=True, slots=True)
class PatternsView:
    """One example or more of every component."""

    stops: tuple[LineStop, ...]
    closings: tuple[Closing, ...]
    efforts: tuple[EffortKey, ...]
    rests: tuple[Rest, ...]
    lanes: tuple[LaneView, ...]
    cautions: tuple[str, ...]
    facts: tuple[tuple[str, str], ...]


@pages.get("/patterns")
def patterns(request: Request) -> Response:
    """Every component, to be seen at a glance."""
    return page(request, "patterns", examples())


def examples() -> PatternsView:
    """Examples that show each state once."""
    return PatternsView(
        stops=_stops(),
        closings=(
            Closing((8, 9, 10, 11, 12), 10, "reps", done=True, question="As asked?"),
            Closing((4, 5, 6, 7, 8), 6, "reps", done=False, question="How many?"),
            Closing((30, 35, 40, 45, 50), 40, "seconds", done=False, question="How many seconds?"),
        ),
        efforts=tuple(
            EffortKey(effort.value, words, effort is Effort.ONE)
            for effort, words in EFFORT_WORDS.items()
        ),
        rests=(Rest(150, "2:30", 102, "1:42"), Rest(150, "2:30", None, ""), Rest(0, "", 4, "0:04")),
        lanes=lane_views(
            (
                Lane(group="back", doses=(8, 0, 0, 9.5, 0, 0, 0), asked=(14, 22), priority=True),
                Lane(group="hamstrings", doses=(0, 5, 0, 0, 3, 0, 0), asked=(10, 18)),
                Lane(group="calves", doses=(0, 3, 0, 0.5, 4, 0, 0)),
            ),
            dict.fromkeys(("back", "hamstrings", "calves"), (("a week", "17.5, 8, 7.5"),)),
        ),
        cautions=("Set the safeties just below your lowest point and test them empty.",),
        facts=(("value", "57.5 kg"), ("from", "14 sets"), ("give or take", "5 %")),
    )


def _stops() -> tuple[LineStop, ...]:
    ramp = (Stroke(SetKind.WARM_UP, Standing.DONE),) * 2
    top = (Stroke(SetKind.TOP, Standing.NOW), Stroke(SetKind.BACK_OFF))
    drops = (Stroke(SetKind.WORKING), Stroke(SetKind.DROP), Stroke(SetKind.DROP))
    rounds = (Stroke(SetKind.WORKING),) * 3
    done = (Stroke(SetKind.WORKING, Standing.DONE),) * 3
    skipped = (Stroke(SetKind.WORKING, Standing.SKIPPED),) * 3
    return (
        _stop("0", (done,), Standing.DONE, "Done"),
        _stop("9", ((*ramp, *top),), Standing.NOW, "Now, with a ramp"),
        _stop("22", (drops,), Standing.OPEN, "Ahead, with drops"),
        _stop("31", (skipped,), Standing.SKIPPED, "Skipped"),
        _stop("31", (rounds, rounds), Standing.OPEN, "Two", "in a superset"),
        _stop("45", (rounds, rounds, rounds), Standing.OPEN, "Three", "in", "a round"),
    )


def _stop(
    at: str, strands: tuple[tuple[Stroke, ...], ...], standing: Standing, *names: str
) -> LineStop:
    drawing = Markup(stop_svg(Stop(strands, standing)))  # noqa: S704 # our own drawing
    lines = ("3 × 8–12 at 40 kg, one left",)
    state = {Standing.DONE: "done", Standing.SKIPPED: "skipped today"}.get(standing, "")
    parts = tuple(
        PartWords(0, "example", name, lines, (), "", standing.value, state) for name in names
    )
    together = "3 rounds, no rest inside, 2 min after each" if len(names) > 1 else ""
    return LineStop(at, drawing, parts, standing.value, len(names) > 1, together)
