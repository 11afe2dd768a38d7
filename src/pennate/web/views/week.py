"""The week: lanes by muscle group, then the days with what is asked on each."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from markupsafe import Markup

from pennate.app.body_recovery import coming_back
from pennate.app.book import Book
from pennate.app.card_text import effort_words
from pennate.app.minutes_told import day_minutes_facts, week_minutes_facts, whole_minutes
from pennate.app.week_audit import audit_of
from pennate.app.week_block import Following, following
from pennate.app.week_changes import LastChange, ends_on, last_change
from pennate.app.week_known import looking_at
from pennate.app.week_log import standing_now
from pennate.app.week_work import Work
from pennate.core.dose import dose_by_group
from pennate.core.exercise import Catalogue
from pennate.core.facts import Facts
from pennate.core.muscles import Group
from pennate.core.performed import SetKind
from pennate.core.plural import plural
from pennate.core.prescribed import (
    WEEKDAYS,
    PlannedDay,
    PrescribedExercise,
    PrescribedSets,
    Span,
    Week,
)
from pennate.core.week_dose import CreditOf, WeekDose, week_dose
from pennate.core.week_names import stand_in_words, why_here
from pennate.core.week_time import Minutes, Pace, day_minutes
from pennate.plan.audit import Audited
from pennate.sheets.lanes import Gap, Lane, feather_svg, number, range_svg, tallest
from pennate.web.views.lane_opened import opened_lanes
from pennate.web.views.week_audit import (
    AuditView,
    StandingView,
    audit_view,
    standing_view,
)
from pennate.web.words import KIND_WORDS, load_rule_words, minutes_words

SHORT_DAYS = tuple(day[:3] for day in WEEKDAYS)


@dataclass(frozen=True, slots=True)
class Mark:
    """A feather on a day, 1 to 7."""

    day: int
    drawing: Markup


@dataclass(frozen=True, slots=True)
class Hours:
    """Hours between two days, 1 to 7."""

    first: int
    second: int
    hours: int


@dataclass(frozen=True, slots=True, kw_only=True)
class LaneView:
    """One lane ready to be drawn."""

    group: str
    priority: bool
    total: str
    spoken: str
    outside: str
    range: Markup
    feathers: tuple[Mark, ...]
    gaps: tuple[Hours, ...]
    facts: Facts = ()
    """What the total is made of, and the rule it is counted by."""


@dataclass(frozen=True, slots=True)
class AskedView:
    """One exercise of a day, in words."""

    place: int
    exercise: str
    name: str
    lines: tuple[str, ...]
    superset: str
    joined: bool
    """It alternates with the one after it."""
    opens: bool
    """It is the first of its superset."""
    because: str
    stands_in: str
    """What it replaces, and why."""


@dataclass(frozen=True, slots=True)
class DayView:
    """One day of the week."""

    day: str
    focus: str
    about: str
    minutes: str
    exercises: tuple[AskedView, ...]
    facts: Facts
    """What its minutes are made of."""


@dataclass(frozen=True, slots=True)
class WeekView:
    """Everything the Week page shows."""

    title: str
    about: str
    lanes: tuple[LaneView, ...]
    days: tuple[DayView, ...]
    free_days: tuple[str, ...]
    short_days: tuple[str, ...]
    audit: AuditView
    last: LastChange | None
    standing: StandingView | None
    minutes: Facts
    """What the minutes of the week are made of."""
    block: Following | None
    until: str
    """That a week is for some days only, and its last day."""
    back: str
    """How the first two weeks after a pause differ from the week as written."""
    first_day: str
    """Where an empty week is begun."""

    @property
    def empty(self) -> bool:
        """Whether no day asks for anything yet."""
        return not any(day.exercises for day in self.days)


def week_view(book: Book, week: Week, work: Work[Audited]) -> WeekView:
    """The page of her week."""
    catalogue = book.catalogue
    audited = audit_of(book, week, work)
    told = looking_at(book, week)
    pace = told.pace
    known = catalogue.with_own(week.own_exercises)
    days = tuple(day_view(day, known, pace) for day in week.days)
    taken = {day.day for day in week.days}
    return WeekView(
        title=week.name,
        about=about_words(week, audited.audited.minutes),
        lanes=week_lanes(week, known, told.credit_of),
        days=days,
        free_days=tuple(day for day in WEEKDAYS if day not in taken),
        short_days=SHORT_DAYS,
        audit=audit_view(audited),
        last=last_change(book),
        standing=standing_view(standing_now(book)),
        minutes=week_minutes_facts(audited.audited.minutes, pace),
        block=following(book),
        until=_until(book),
        back=_back_words(book),
        first_day=f"/week/{days[0].day}" if days else "#days",
    )


def _until(book: Book) -> str:
    ends = ends_on(book)
    if ends is None:
        return ""
    if (ends - book.today).days < len(WEEKDAYS):
        return f"This week only, until {ends:%A}"
    return f"Until {ends:%A %-d %B}"


def _back_words(book: Book) -> str:
    back = coming_back(book)
    if back is None or back.sets >= 1:
        return ""
    return f"{back.say} Today asks for that by itself; the week below is the usual one."


def about_words(week: Week, minutes: Mapping[str, Minutes]) -> str:
    """Days, minutes and priorities in a line."""
    days = sum(not day.rest for day in week.days)
    about = [plural(days, "day"), minutes_words(whole_minutes(minutes.values()))]
    if not days:
        about = [f"{plural(len(week.days), 'day')} to fill"] if week.days else []
    if week.priorities:
        about.append("first: " + ", ".join(group.value for group in week.priorities))
    return " · ".join(about)


def lanes_of(week: Week, dose: WeekDose) -> tuple[Lane, ...]:
    """The lanes of a week: priorities first, then in the usual order of groups."""
    by_day = {day: dose_by_group(parts) for day, parts in dose.days.items()}
    order = [*week.priorities, *(group for group in Group if group not in week.priorities)]
    return tuple(
        Lane(
            group=group.value,
            doses=tuple(by_day[day][group].value if day in by_day else 0.0 for day in WEEKDAYS),
            asked=_ends(week.targets.get(group)),
            priority=group in week.priorities,
        )
        for group in order
    )


def _ends(asked: Span | None) -> tuple[float, float] | None:
    if asked is None:
        return None
    return asked.low, asked.low if asked.high is None else asked.high


def week_lanes(
    week: Week, known: Catalogue, credit_of: CreditOf | None = None
) -> tuple[LaneView, ...]:
    """The lanes of a week; each opens to the exercises its total is made of."""
    lanes = lanes_of(week, week_dose(week, known, credit_of))
    return lane_views(lanes, opened_lanes(week, known, credit_of))


def lane_views(lanes: tuple[Lane, ...], opened: Mapping[str, Facts]) -> tuple[LaneView, ...]:
    """Lanes with their drawings, all on one scale, and what opens behind each."""
    top = tallest(lanes)
    most = max([1.0, *(max(lane.total, lane.asked[1] if lane.asked else 0) for lane in lanes)])
    return tuple(_lane_view(lane, top, most, opened[lane.group]) for lane in lanes)


def _lane_view(lane: Lane, top: float, most: float, facts: Facts) -> LaneView:
    feathers = tuple(
        Mark(day, Markup(feather_svg(dose, top)))  # noqa: S704 # our own drawing
        for day, dose in enumerate(lane.doses, start=1)
        if round(dose * 2)
    )
    return LaneView(
        group=lane.group,
        priority=lane.priority,
        total=number(lane.total),
        spoken=_spoken(lane),
        outside=lane.outside,
        range=Markup(range_svg(lane, most)),  # noqa: S704 # our own drawing
        feathers=feathers,
        gaps=tuple(_hours(gap) for gap in lane.gaps),
        facts=facts,
    )


def _hours(gap: Gap) -> Hours:
    return Hours(gap.first + 1, gap.second + 1, gap.hours)


def _spoken(lane: Lane) -> str:
    days = [
        f"{day} {number(dose)}"
        for day, dose in zip(WEEKDAYS, lane.doses, strict=True)
        if round(dose * 2)
    ]
    return f"{lane.group}, hard sets: {', '.join(days)}" if days else f"{lane.group}: no hard sets"


def day_view(
    day: PlannedDay, catalogue: Catalogue, pace: Pace = Pace(), room: int | None = None
) -> DayView:
    """One day in words; `room` is the minutes it was planned for, if she has just asked for it."""
    took = day_minutes(day, catalogue, pace)
    minutes = minutes_words(took.value) if day.exercises else ""
    about = [f"{minutes} ({took.low:.0f}–{took.high:.0f})"] if minutes else ["no exercise"]
    if room:
        about.append(f"planned for {room} min")
    elif day.minutes:
        about.append(f"{day.minutes} min wanted")
    exercises = tuple(
        _asked_view(place, asked, day, catalogue) for place, asked in enumerate(day.exercises)
    )
    facts = day_minutes_facts(took, pace)
    return DayView(day.day, day.focus, " · ".join(about), minutes, exercises, facts)


def _asked_view(
    place: int, asked: PrescribedExercise, day: PlannedDay, catalogue: Catalogue
) -> AskedView:
    before = day.exercises[place - 1] if place else None
    after = day.exercises[place + 1] if place + 1 < len(day.exercises) else None
    return AskedView(
        place=place,
        exercise=asked.exercise,
        name=catalogue[asked.exercise].name,
        lines=tuple(sets_words(sets) for sets in asked.sets),
        superset=asked.superset,
        joined=bool(asked.superset and after and after.superset == asked.superset),
        opens=bool(asked.superset and not (before and before.superset == asked.superset)),
        because=why_here(asked, catalogue),
        stands_in=stand_in_words(asked, catalogue),
    )


def sets_words(sets: PrescribedSets) -> str:
    """A group of alike sets: “top 2 × 5–7, one left, rest 3:00”."""
    name = (
        KIND_WORDS[sets.kind].removesuffix(" set") + " " if sets.kind is not SetKind.WORKING else ""
    )
    amount = f"{sets.seconds} s" if sets.seconds else str(sets.reps or "as many as you can")
    parts = [f"{name}{sets.count} × {amount}"]
    if effort := effort_words(sets):
        parts.append(effort)
    if load := load_rule_words(sets.load):
        parts.append(load)
    if sets.style:
        parts.append(sets.style)
    return ", ".join(parts)
