"""Use cases of the week: audit, plan, re-plan, swap, blocks, and the lanes of the Week page."""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Iterable, Mapping, Set
from dataclasses import dataclass, field
from pathlib import Path

from pennate.app.gyms import open_gym
from pennate.app.stops import item_for
from pennate.core.brief import Brief
from pennate.core.exercise import (
    EVERY_FIXTURE,
    UNLOADED,
    Catalogue,
    EquipmentKind,
    Exercise,
    Fixture,
)
from pennate.core.gym import BodyWeight, Gym
from pennate.core.muscles import Group, Joint
from pennate.core.near import did_you_mean
from pennate.core.prescribed import WEEKDAYS, PlannedDay, Week
from pennate.core.week_dose import week_dose
from pennate.core.week_effect import Effect, compare_weeks
from pennate.core.week_names import known_exercise, why_here
from pennate.core.week_time import Minutes, Pace, day_minutes, preparation_seconds
from pennate.errors import InputError, NoAnswerError
from pennate.plan.assemble import assemble
from pennate.plan.audit import Audited, audit
from pennate.plan.build import Setting, build_problem, set_aside
from pennate.plan.explain import Clash, More, binding, clash_of, worth_of_more
from pennate.plan.hers import as_now
from pennate.plan.problem import PlanProblem
from pennate.plan.replan import Happened, Replanned, replan
from pennate.plan.seen import Looking
from pennate.plan.solve import Effort, Progress, Solved, Watch, never, solve
from pennate.plan.substitute import Substitute, substitutes

BOUND_EXCLUDES = (
    "the order of exercises within a day is settled after the bound, exactly; it moves no dose, "
    "and no minutes since a change of station counts alike between any two; stations that two "
    "exercises of a superset would share are inside"
)
TRAINED_FROM_YEARS = 1
SOME_YEARS = 2
"""Years of training from which strength may be guessed where there is no log."""


def gym_named(named: str, folder: Path | None = None) -> Gym | None:
    """The gym a week or brief names: a starter id, or a file beside it; None for nothing."""
    if not named:
        return None
    there = gym_beside(named, folder)
    return open_gym(str(there) if there else named)


def gym_beside(named: str, folder: Path | None) -> Path | None:
    """The gym file in a folder that a week or brief names, by its file's name or id.

    A week may bear the name of its gym: a file that names a gym itself is none.
    """
    if folder is None or not named:
        return None
    files = (folder / one for one in (named, f"{named}.toml"))
    return next((file for file in files if file.is_file() and not _names_a_gym(file)), None)


def _names_a_gym(file: Path) -> bool:
    try:
        return "gym" in tomllib.loads(file.read_text("utf-8"))
    except ValueError:  # whoever opens it as a gym says what is wrong with it
        return False


def possible_in(gym: Gym | None, catalogue: Catalogue) -> frozenset[str] | None:
    """The exercises that some item of the gym carries; None without a gym."""
    if gym is None:
        return None
    known = catalogue.exercises.values()
    return frozenset(one.id for one in known if item_for(gym, one) is not None)


def unloaded_in(gym: Gym | None, catalogue: Catalogue) -> dict[str, EquipmentKind]:
    """The exercises that this gym carries without a load that can be set, and on what."""
    if gym is None:
        return {}
    items = ((one.id, item_for(gym, one)) for one in catalogue.exercises.values())
    return {
        name: item.kind
        for name, item in items
        if item is not None
        and item.kind in UNLOADED
        and not (isinstance(item, BodyWeight) and item.belt)
    }


def impossible_in(gym: Gym | None, catalogue: Catalogue) -> frozenset[str]:
    """The exercises that nothing in the gym carries; none without a gym."""
    possible = possible_in(gym, catalogue)
    return frozenset() if possible is None else frozenset(catalogue.exercises) - possible


def looking(catalogue: Catalogue, gym: Gym | None, *, pace: Pace = Pace()) -> Looking:
    """What the audit is told: the exercises, what the gym carries, where safeties can be set."""
    safe = frozenset(item.id for item in gym.items if item.safeties) if gym else frozenset()
    items = ((e.id, item_for(gym, e)) for e in catalogue.exercises.values()) if gym else ()
    on = {name: item.kind for name, item in items if item is not None}
    available = frozenset(on) if gym else None
    return Looking(catalogue=catalogue, safe_items=safe, available=available, on=on, pace=pace)


def audit_week(
    week: Week, catalogue: Catalogue, gym: Gym | None = None, *, pace: Pace = Pace()
) -> Audited:
    """The audit of a week, with the best single fix of each finding."""
    return audit(week, looking(catalogue, gym, pace=pace))


@dataclass(frozen=True, slots=True, kw_only=True)
class Planned:
    """A planned week with its proof and its reasons."""

    week: Week
    solved: Solved
    binding: tuple[str, ...]
    more: tuple[More, ...]
    """What ten more minutes and one more day would buy."""
    minutes: Mapping[str, Minutes]
    against_current: Mapping[Group, Effect]
    """Expected difference to the current week; empty without one."""
    seconds: float
    excludes: str = BOUND_EXCLUDES


class NoSuchWeekError(NoAnswerError):
    """No week meets every wish; `week` is the nearest that can be trained."""

    def __init__(self, reason: str, nearest: Mapping[str, object], week: Week) -> None:
        super().__init__(reason, nearest)
        self.week = week


@dataclass(frozen=True, slots=True, kw_only=True)
class Asking:
    """Everything beside the brief that a plan depends on."""

    kinds: Set[EquipmentKind] = frozenset(EquipmentKind)
    current: Week | None = None
    lost: Set[str] = frozenset()
    """Exercises that no item of the gym carries, although their kind is there."""
    unfit: Set[str] = frozenset()
    """Exercises at body weight that are far from the effort asked; see `app.reach`."""
    pinch: bool = False
    """Whether bands may do what is usually done with iron: the gym is known."""
    churn: float = 1.0
    """Times the usual cost of changing the current week."""
    moving: float = 0.0
    """Cost of a stop of the current week on another day, √sets."""
    pace: Pace = Pace()
    seed: int = 0
    effort: Effort = Effort()
    watch: Watch = never
    clock: Callable[[], float] = field(default=lambda: 0.0)
    """Seconds, for reporting how long it took."""
    with_more: bool = True


def plan_week(brief: Brief, catalogue: Catalogue, asking: Asking = Asking()) -> Planned:
    """The best week for a brief.

    Raises NoAnswerError with the clashing wishes in words and the nearest feasible week.
    """
    began = asking.clock()
    setting = setting_of(asking)
    problem = build_problem(brief, catalogue, setting)
    near = asking.current if asking.moving else None
    solved = solve(
        problem,
        seed=asking.seed,
        effort=asking.effort,
        start=as_now(problem, near) if near else None,
        watch=asking.watch,
    )
    if solved.missing and not solved.stopped:
        clash = clash_of(problem, brief, solved, seed=asking.seed)
        _refuse(problem, brief, catalogue, asking, clash)
    took = asking.clock() - began
    week = assemble(problem, solved.selection, brief, catalogue, asking.current)
    known = catalogue.with_own(brief.own_exercises)
    more: tuple[More, ...] = ()
    buying = Progress("asking what more time would buy", solved.objective, solved.bound)
    if asking.with_more and not solved.stopped and not asking.watch(buying):
        more = worth_of_more(brief, catalogue, setting, (problem, solved))
    return Planned(
        week=week,
        solved=solved,
        binding=(
            *binding(problem, solved.selection, brief, setting),
            *_aside_words(set_aside(brief, known, setting)),
        ),
        more=more,
        minutes=_minutes(week, known, asking.pace),
        against_current=_against(week, asking.current, known, brief),
        seconds=took,
    )


def _aside_words(aside: tuple[Exercise, ...]) -> tuple[str, ...]:
    if not aside:
        return ()
    names = ", ".join(one.name.lower() for one in aside)
    return (f"left out, at body weight likely far too light or too heavy for hard sets: {names}",)


def setting_of(asking: Asking) -> Setting:
    """What the planner is told beside the brief."""
    return Setting(
        kinds=asking.kinds,
        lost=asking.lost,
        unfit=asking.unfit,
        pinch=asking.pinch,
        churn=asking.churn,
        moving=asking.moving,
        pace=asking.pace,
        current=asking.current,
        preparation_s=_preparations(asking.current),
    )


def _preparations(current: Week | None) -> dict[str, float]:
    return {day.day: preparation_seconds(day) for day in current.days} if current else {}


def _minutes(week: Week, known: Catalogue, pace: Pace) -> dict[str, Minutes]:
    return {day.day: day_minutes(day, known, pace) for day in week.days if not day.rest}


def _against(
    week: Week, current: Week | None, known: Catalogue, brief: Brief
) -> Mapping[Group, Effect]:
    if current is None:
        return {}
    trained = brief.years is None or brief.years >= TRAINED_FROM_YEARS
    return compare_weeks(week_dose(week, known), week_dose(current, known), trained=trained)


def _refuse(
    problem: PlanProblem,
    brief: Brief,
    catalogue: Catalogue,
    asking: Asking,
    clash: Clash | None,
) -> None:
    if clash is None:
        raise NoAnswerError(
            "no week that meets every wish was found within the effort allowed; "
            "ask for less, or for more days"
        )
    week = assemble(problem, clash.selection, brief, catalogue, asking.current)
    nearest = {
        "missing": {name: round(amount, 2) for name, amount in clash.missing.items()},
        "days": day_documents(week, catalogue.with_own(brief.own_exercises), asking.pace),
    }
    raise NoSuchWeekError(clash.reason, nearest, week)


def day_documents(week: Week, known: Catalogue, pace: Pace = Pace()) -> list[dict[str, object]]:
    """The days of a week as plain data: minutes and what is asked, in order."""
    return [
        {
            "day": day.day,
            "minutes": round(day_minutes(day, known, pace).value, 1),
            "exercises": [
                {
                    "exercise": asked.exercise,
                    "sets": asked.working_sets,
                    "superset": asked.superset,
                    "because": why_here(asked, known),
                }
                for asked in day.exercises
            ],
        }
        for day in week.days
    ]


def kinds_of(gym: Gym | None, otherwise: Iterable[EquipmentKind] = ()) -> frozenset[EquipmentKind]:
    """Kinds of equipment of a gym; without one those named, else all."""
    if gym is not None:
        return frozenset(item.kind for item in gym.items)
    return frozenset(otherwise) or frozenset(EquipmentKind)


def some_years(brief: Brief) -> bool:
    """Whether she is a few years in, so that beginner's exercises are not hard sets."""
    return brief.years is not None and brief.years >= SOME_YEARS


def replan_week(
    week: Week, happened: Happened, catalogue: Catalogue, *, watch: Watch = never
) -> Replanned:
    """The rest of a week after something happened. Raises InputError, NoAnswerError."""
    known = {day.day for day in week.days}
    for day in [*happened.missed, *happened.done, *happened.minutes]:
        if day not in known:
            remedy = did_you_mean(day, sorted(known), f"its days: {', '.join(sorted(known))}")
            raise InputError(f"“{week.name}” has no {day}", remedy=remedy)
    ahead = known - happened.missed - happened.done
    if not any(day.day in ahead and not day.rest for day in week.days):
        raise NoAnswerError(
            "no training day is left this week", {"days": [], "done": sorted(happened.done)}
        )
    return replan(week, happened, catalogue, watch=watch)


def swaps_for(
    exercise: str,
    week: Week | None,
    catalogue: Catalogue,
    *,
    day: str = "",
    kinds: Set[EquipmentKind] = frozenset(EquipmentKind),
    fixtures: Set[Fixture] = EVERY_FIXTURE,
    joints: Mapping[Joint, int] | None = None,
) -> tuple[Substitute, ...]:
    """Ranked substitutes for an exercise; raises InputError for an unknown name."""
    known = catalogue.with_own(week.own_exercises) if week else catalogue
    found = known_exercise(exercise, known)
    where = week or Week(name="", days=())
    here = next((one for one in where.days if one.day == day), None) or _day_with(where, found.id)
    ranked = substitutes(found.id, here, where, known, kinds, joints or {}, fixtures=fixtures)
    if not ranked:
        raise NoAnswerError(f"nothing here replaces {found.name}", {"exercise": found.id})
    return ranked


def _day_with(week: Week, exercise: str) -> PlannedDay:
    holds = (d for d in week.days if any(one.exercise == exercise for one in d.exercises))
    return next(holds, PlannedDay(day=WEEKDAYS[0]))
