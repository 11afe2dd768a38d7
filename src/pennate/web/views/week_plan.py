"""The brief's form, the work while it is done, and the week that comes of it."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from pennate.app.book import Book
from pennate.app.gyms import starter_gyms
from pennate.app.minutes_told import week_minutes_facts
from pennate.app.week_brief import PLACES, RESERVES, Wishes, priority_words
from pennate.app.week_plan import Proposal
from pennate.app.week_work import Task
from pennate.app.worth_told import WORTH_FACTS
from pennate.core.brief import JointLimit
from pennate.core.exercise import Catalogue
from pennate.core.facts import Facts
from pennate.core.muscles import Group, Joint
from pennate.core.plural import plural
from pennate.core.prescribed import WEEKDAYS, Week
from pennate.core.week_dose import WeekDose, week_dose
from pennate.core.week_effect import Effect
from pennate.core.week_time import Minutes, Pace, day_minutes
from pennate.plan.changes import turnover
from pennate.sheets.lanes import number
from pennate.web.views.effect_opened import effect_facts
from pennate.web.views.week import (
    SHORT_DAYS,
    DayView,
    LaneView,
    about_words,
    day_view,
    week_lanes,
)
from pennate.web.views.week_asked import exercise_names
from pennate.web.words import clock

LIMIT_WORDS: Mapping[str, str] = {
    "": "fine",
    JointLimit.MODERATE.value: "moderate load at most",
    JointLimit.LIGHT.value: "light load only",
    JointLimit.NONE.value: "nothing that loads it",
}
RESERVE_WORDS: Mapping[str, str] = {
    "": "not said",
    "fail": "to failure",
    "0-1": "none or one left",
    "1-2": "one or two left",
    "2-3": "two or three left",
}
TOLD = 0.5
"""Fractional sets by which a dose has changed enough to be told."""
LEAST_TOLD = 0.1
"""Percent; a smaller gap would read as none, which nothing proves."""
FEW_CHANGES = 8
"""Changes that are shown line by line; more are summed up first."""

Choices = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BriefView:
    """The form of the brief with what is known filled in."""

    wishes: Wishes
    weekdays: tuple[str, ...]
    places: tuple[str, ...]
    muscles: Choices
    groups: tuple[str, ...]
    gyms: Choices
    joints: tuple[str, ...]
    limits: Choices
    reserves: Choices
    names: tuple[str, ...]
    has_week: bool


def brief_view(book: Book, wishes: Wishes) -> BriefView:
    """The form with these wishes in it."""
    own = {gym.id: gym.name for gym in book.gyms()}
    starters = {one.id: one.name for one in starter_gyms() if one.id not in own}
    return BriefView(
        wishes=wishes,
        weekdays=WEEKDAYS,
        places=PLACES,
        muscles=(("", "no wish"), *((word, word) for word in priority_words())),
        groups=tuple(group.value for group in Group),
        gyms=tuple({**own, **starters}.items()),
        joints=tuple(joint.value for joint in Joint if joint is not Joint.GRIP),
        limits=tuple(LIMIT_WORDS.items()),
        reserves=tuple((value, RESERVE_WORDS[value]) for value in RESERVES),
        names=exercise_names(book.catalogue),
        has_week=book.week() is not None,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkingView:
    """What is known while a week is being solved for."""

    key: str
    now: str
    stopping: bool


def working_view(task: Task[Proposal]) -> WorkingView:
    """Progress in a sentence; “82.4 % of what any week could give” is a proven figure."""
    known = task.progress
    parts = [f"{clock(task.seconds)} so far", known.stage]
    if math.isfinite(known.objective) and math.isfinite(known.bound) and known.bound > 0:
        share = 100 * max(known.objective, 0.0) / known.bound
        parts.append(f"the best week yet is worth {share:.1f} % of what any week could be")
    elif math.isfinite(known.objective) and known.objective > 0:
        parts.append("a first good week is found")
    return WorkingView(key=task.key, now="; ".join(parts) + ".", stopping=task.stopping)


@dataclass(frozen=True, slots=True, kw_only=True)
class DoseRow:
    """One group in both weeks."""

    group: str
    was: str
    now: str
    expected: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ProposalView:
    """A proposed week beside hers."""

    key: str
    title: str
    about: str
    clash: str
    proof: str
    use: str
    """What stands on the button."""
    back: str
    """When her usual week comes back; empty where it does not."""
    lanes: tuple[LaneView, ...]
    before: tuple[LaneView, ...]
    before_about: str
    short_days: tuple[str, ...]
    doses: tuple[DoseRow, ...]
    turnover: Choices
    """Exercises new, gone and kept, where that says more than line by line."""
    changes: tuple[str, ...]
    binding: tuple[str, ...]
    more: Choices
    days: tuple[DayView, ...]
    effect_facts: Facts
    """What stands behind an expected difference in size."""
    worth: Facts
    """What “worth” means in the proof."""
    minutes: Facts
    """What its minutes are made of."""
    again: str
    """Where the question can be asked differently."""


def proposal_view(key: str, found: Proposal, catalogue: Catalogue) -> ProposalView:
    """Everything the page of a proposed week shows."""
    known = catalogue.with_own(found.week.own_exercises)
    dose = week_dose(found.week, known)
    was = week_dose(found.current, known) if found.current else None
    replanned = found.replanned
    return ProposalView(
        key=key,
        title=_title(found, replanned=replanned),
        about=about_words(found.week, _minutes(found.week, known, found.pace)),
        clash=found.clash,
        proof=proof_words(found, replanned=replanned),
        use=USE.get(found.weeks, "use it these weeks"),
        back=_back(found.weeks),
        lanes=week_lanes(found.week, known),
        before=week_lanes(found.current, known) if found.current else (),
        before_about=about_words(found.current, _minutes(found.current, known, found.pace))
        if found.current
        else "",
        short_days=SHORT_DAYS,
        doses=_dose_rows(dose, was, found.against),
        turnover=_turnover(found, known),
        changes=found.changes,
        binding=found.binding,
        more=tuple((one.what, one.effect.words) for one in found.more),
        days=tuple(
            day_view(day, known, found.pace, found.room.get(day.day))
            for day in found.week.days
            if not day.rest
        ),
        effect_facts=effect_facts(),
        worth=WORTH_FACTS if found.solved else (),
        minutes=week_minutes_facts(_minutes(found.week, known, found.pace), found.pace),
        again="/week/changed" if replanned else "/week/brief",
    )


USE = {0: "use this week", 1: "use it this week"}


def _back(weeks: int) -> str:
    if weeks <= 1:
        return "Your usual week comes back on Monday." if weeks else ""
    return f"It holds for {plural(weeks, 'week')} with this one; then your usual week comes back."


def _turnover(found: Proposal, known: Catalogue) -> Choices:
    if found.current is None or found.replanned or len(found.changes) <= FEW_CHANGES:
        return ()
    moved = turnover(found.current, found.week)
    if not moved.come and not moved.gone:
        return (("kept", "every exercise"),)
    rows = (("new", moved.come), ("gone", moved.gone), ("kept", moved.kept))
    return tuple(
        (word, ", ".join(known[one].name for one in names)) for word, names in rows if names
    )


def _title(found: Proposal, *, replanned: bool) -> str:
    if found.clash:
        return "No week meets every wish"
    if not replanned:
        return "A week for your brief"
    return "The rest of the week" if found.weeks == 1 else "Your week, changed"


def _minutes(week: Week, known: Catalogue, pace: Pace) -> dict[str, Minutes]:
    return {day.day: day_minutes(day, known, pace) for day in week.days if not day.rest}


def proof_words(found: Proposal, *, replanned: bool) -> str:
    """How good the week is proven to be, in her words."""
    solved = found.solved
    if solved is None:
        return ""
    kind = (
        "the smallest change found that keeps most of the dose" if replanned else "the best found"
    )
    if not math.isfinite(solved.bound):
        return "Stopped early: this is the best week found so far, and nothing is proven about it."
    told = f"{max(100 * solved.gap, LEAST_TOLD):.1f}\N{NO-BREAK SPACE}%"
    proven = f"This is {kind}; no other week with these wishes is worth more than {told} above it."
    return f"Stopped early. {proven}" if solved.stopped else proven


def _dose_rows(
    dose: WeekDose, was: WeekDose | None, against: Mapping[Group, Effect]
) -> tuple[DoseRow, ...]:
    rows = []
    for group in Group:
        new = dose.groups[group].value
        old = was.groups[group].value if was else 0.0
        if was is not None and abs(new - old) < TOLD:
            continue
        effect = against.get(group)
        expected = effect.words if effect else ""
        rows.append(DoseRow(group=group.value, was=number(old), now=number(new), expected=expected))
    return tuple(rows)
