"""The weekly review: what changed, what comes next for each exercise, what to measure."""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import date, timedelta

from pennate.app.body_pages import BodyReview, review_of
from pennate.app.body_today import BodyToday, body_today
from pennate.app.book import Book
from pennate.app.exercise_view import Desk, ExerciseView, desk_of, view_at
from pennate.app.today import the_week
from pennate.app.unnamed import apart_lines
from pennate.body.recovery import LayoffReturn, LighterWeek
from pennate.core.evidence.strength_steps import STALLED_ABOVE
from pennate.core.performed import SetKind
from pennate.core.prescribed import Week
from pennate.estimate import NextStep
from pennate.estimate.steps import SURE

DAYS = 7
FOUR_WEEKS = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class ExerciseNext:
    """One exercise of her week: the next step, the load it means here, and its trend."""

    exercise: str
    name: str
    days: tuple[str, ...]
    """Planned days that have it."""
    next: NextStep | None
    load: str
    """The load of the next step, as the equipment says it; empty where it has none."""
    month: float
    """Relative change of strength in four weeks."""
    month_give: float
    """Half of its 95 % interval."""
    rested: bool
    """Left for so long that no trend of late can be told."""
    halt: str
    """What is said where it has stalled; else empty."""
    sets: int
    """Working sets in the week looked back on."""

    @property
    def clear(self) -> bool:
        """Whether the trend leaves out nought."""
        return not self.rested and abs(self.month) > self.month_give


@dataclass(frozen=True, slots=True, kw_only=True)
class WeekReview:
    """Everything the weekly review says."""

    since: date
    until: date
    sessions: int
    planned: int
    sets: int
    sets_month: int
    """Working sets of the four weeks before."""
    exercises: tuple[ExerciseNext, ...]
    apart: tuple[str, ...]
    """Exercises whose sets without equipment could be of several things: a sentence each."""
    body: BodyReview
    questions: tuple[str, ...]
    lighter: LighterWeek | None
    layoff: LayoffReturn | None

    @property
    def sets_before(self) -> float:
        """Working sets a week over the four weeks before."""
        return self.sets_month / FOUR_WEEKS


def week_review(book: Book) -> WeekReview:
    """Look back on the last seven days. Raises NoAnswerError before there is a week."""
    week, now = the_week(book), body_today(book)
    until = book.today
    since = until - timedelta(days=DAYS)
    working = [one for one in book.history() if one.kind is not SetKind.WARM_UP]
    lately = [one for one in working if since < one.day <= until]
    month = since - timedelta(weeks=FOUR_WEEKS)
    asked = [one.exercise for day in week.days for one in day.exercises]
    return WeekReview(
        since=since + timedelta(days=1),
        until=until,
        sessions=len({(one.day, one.session) for one in lately}),
        planned=sum(1 for day in week.days if not day.rest),
        sets=len(lately),
        sets_month=sum(1 for one in working if month < one.day <= since),
        exercises=_exercises(book, week),
        apart=tuple(f"{line}." for line in apart_lines(book.unnamed(), book.catalogue, asked)),
        body=_body(now, since),
        questions=now.page.growth.questions,
        lighter=now.recovery.lighter,
        layoff=now.recovery.layoff,
    )


def _body(now: BodyToday, since: date) -> BodyReview:
    return review_of(now.page, now.record, since, now.today)


def _exercises(book: Book, week: Week) -> tuple[ExerciseNext, ...]:
    """The counted exercises of her week, in its order."""
    days: dict[str, list[str]] = {}
    for day in week.days:
        for one in day.exercises:
            days.setdefault(one.exercise, []).append(day.day)
    desk = desk_of(book)
    counted = ((one, on) for one, on in days.items() if not desk.catalogue[one].timed)
    return tuple(_next(desk, view_at(desk, one), tuple(dict.fromkeys(on))) for one, on in counted)


def _next(desk: Desk, seen: ExerciseView, days: tuple[str, ...]) -> ExerciseNext:
    since = desk.today - timedelta(days=DAYS)
    stalled = seen.halt is not None and seen.halt.stalled > STALLED_ABOVE
    return ExerciseNext(
        exercise=seen.exercise,
        name=desk.catalogue[seen.exercise].name,
        days=days,
        next=seen.next,
        load=seen.next_load,
        month=math.expm1(FOUR_WEEKS * seen.trend_per_week),
        month_give=SURE * FOUR_WEEKS * seen.trend_sd,
        rested=seen.rested,
        halt=seen.halt.words if seen.halt is not None and stalled else "",
        sets=sum(1 for one in seen.sets if one.day > since),
    )
