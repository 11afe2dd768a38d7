"""The rest of a week after something happened: the smallest change that keeps most dose.

Every exercise of the old week may stay, lose sets, move to another day or give way to a
substitute; staying is rewarded and moving costs, so that nothing moves without need.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Set
from dataclasses import dataclass, replace
from itertools import combinations, product

from pennate.core.evidence.planner import (
    JOINT_CLOSE_COST,
    REPLAN_KEEP,
    REPLAN_MOVE,
    REPLAN_SWAP,
    SESSION_CAP,
    WEEK_CAP,
)
from pennate.core.exercise import Catalogue
from pennate.core.muscles import GROUP_SHARES, Group, Part
from pennate.core.prescribed import PlannedDay, PrescribedExercise, Week
from pennate.core.week_dose import WeekDose, day_joint_load, day_parts, week_dose
from pennate.core.week_effect import session_worth
from pennate.core.week_time import (
    day_minutes,
    preparation_seconds,
    stops_of,
)
from pennate.plan.absent import absent_words, back_with
from pennate.plan.build import close_mark, close_pairs
from pennate.plan.changes import changes_between, moved_from
from pennate.plan.happened import Happened
from pennate.plan.mend import MARKS
from pennate.plan.placed import Placed, block, cut, option_of
from pennate.plan.problem import (
    JOINTS,
    PARTS,
    Change,
    Option,
    PlanProblem,
    Rules,
    Scheme,
    Selection,
)
from pennate.plan.schemes import pairable
from pennate.plan.solve import QUICK, Effort, Solved, Watch, never, solve
from pennate.plan.stand_ins import Instead, Pairs, as_here, stand_ins, twice_a_day
from pennate.plan.substitute import one_twice

SPARE_MINUTES = 5  # number: within the interval of any day
"""Minutes a day may run over what it took before, where none are asked."""
ANY_LOAD = 3
"""The limit of a joint that may bear anything."""
TWICE_MOST = 8  # number: more than any week has had to be solved again
"""How often a week is solved again because a day has one exercise twice, under two names."""
__all__ = ["Happened", "Replanned", "replan"]


@dataclass(frozen=True, slots=True)
class Replanned:
    """The new week, what changed in words, and what of the dose is kept."""

    week: Week
    changes: tuple[str, ...]
    kept: Mapping[Group, float]
    """Dose after, by group."""
    before: Mapping[Group, float]
    solved: Solved


def replan(
    week: Week,
    happened: Happened,
    catalogue: Catalogue,
    *,
    effort: Effort = QUICK,
    watch: Watch = never,
) -> Replanned:
    """The rest of the week anew; days done are left alone."""
    known = catalogue.with_own(week.own_exercises) if week.own_exercises else catalogue
    ahead = tuple(
        day for day in week.days
        if not day.rest and day.day not in happened.missed and day.day not in happened.done
    )  # fmt: skip
    stops = list(_stops(week, happened, known))
    problem, origin = _problem(week, happened, known, (ahead, stops))
    solved = solve(problem, effort=effort, watch=watch, start=_as_it_was(problem, origin))
    hers = twice_a_day(week, known)
    for _ in range(TWICE_MOST):
        wrong = _twice(solved.selection, problem, origin, known, hers)
        if wrong is None or solved.stopped:
            break
        problem, origin = _without(problem, origin, wrong)
        solved = solve(problem, effort=effort, watch=watch, start=_as_it_was(problem, origin))
    days = {
        day.day: _rebuilt(day, [(origin[i], sets) for i, sets in chosen])
        for day, chosen in zip(ahead, solved.selection, strict=False)
    }
    for name, minutes in happened.minutes.items():
        if name in days:
            days[name] = replace(days[name], minutes=minutes)
    after_all = tuple(_day_after(day, days, happened) for day in week.days)
    new = replace(week, days=after_all, gym=happened.gym or week.gym)
    before, after = week_dose(week, known).groups, week_dose(new, known).groups
    asked = {one.exercise for day in week.days for one in day.exercises}
    why = {name: absent_words(known[name], happened) for name in asked}
    return Replanned(
        new,
        (
            *changes_between(week, new, known, missed=happened.missed, why_gone=why),
            *back_with(week, happened, known),
        ),
        {group: after[group].value for group in Group},
        {group: before[group].value for group in Group},
        solved,
    )


def _day_after(day: PlannedDay, days: Mapping[str, PlannedDay], happened: Happened) -> PlannedDay:
    if day.day in happened.missed:
        return replace(day, exercises=(), preparation=())
    return days.get(day.day, day)


def _twice(
    selection: Selection,
    problem: PlanProblem,
    origin: list[Placed],
    known: Catalogue,
    hers: Pairs,
) -> tuple[int, int] | None:
    """A day and an option on it that is there already under another name; None where all is well.

    Her own exercise on its own day stays; what has come there goes.
    """
    for number, chosen in enumerate(selection):
        stops = [index for index, _ in chosen if index < len(origin)]
        for a, b in combinations(stops, 2):
            pairs = product(problem.options[a].exercises, problem.options[b].exercises)
            if any(one_twice(known[x], known[y]) and {x, y} not in hers for x, y in pairs):
                return number, max((a, b), key=lambda i: _foreign(origin[i], problem.days[number]))
    return None


def _foreign(stop: Placed, day: str) -> tuple[bool, bool]:
    return bool(stop.instead_of), stop.home != day


def _without(
    problem: PlanProblem, origin: list[Placed], wrong: tuple[int, int]
) -> tuple[PlanProblem, list[Placed]]:
    """The problem with an option kept off a day, or left out where it has no other."""
    number, place = wrong
    option = problem.options[place]
    days = tuple(day for day in option.days if day != number)
    options = list(problem.options)
    if days:
        options[place] = replace(option, days=days)
        return replace(problem, options=tuple(options)), origin
    del options[place]
    return replace(problem, options=tuple(options)), [*origin[:place], *origin[place + 1 :]]


def _stops(week: Week, happened: Happened, known: Catalogue) -> Iterator[Placed]:
    found = stand_ins(week, happened, known)
    for day in week.days:
        if day.day not in happened.done:
            for members in stops_of(day):
                yield from _ways(members, day, found, (happened, known))


def _ways(
    members: tuple[PrescribedExercise, ...],
    day: PlannedDay,
    found: Instead,
    where: tuple[Happened, Catalogue],
) -> Iterator[Placed]:
    """A stop as it is; else what is left of it together, and substitutes for the rest.

    A substitute takes the place of the old exercise in a superset where the two can alternate.
    """
    happened, known = where
    family = f"{day.day} {members[0].exercise}"
    instead = {
        one: found[day.day, one.exercise] for one in members if (day.day, one.exercise) in found
    }
    stays = {
        one: as_here(one, known[one.exercise], happened) for one in members if one not in instead
    }
    left = tuple(stays.values())
    if not instead:
        yield Placed(day.day, left, family)
        return
    joined = list(_joined(members, stays, instead, known)) if left else []
    if joined:
        for choice, new in enumerate(joined):
            yield Placed(day.day, new, family, tuple(one.exercise for one in instead), choice)
        return
    if left:
        alone = left if len(left) > 1 else (replace(left[0], superset=""),)
        yield Placed(day.day, alone, f"{day.day} {left[0].exercise}")
    for one, others in instead.items():
        for choice, other in enumerate(others):
            single = (replace(other, superset=""),)
            yield Placed(day.day, single, f"{day.day} {one.exercise}", (one.exercise,), choice)


def _joined(
    members: tuple[PrescribedExercise, ...],
    stays: Mapping[PrescribedExercise, PrescribedExercise],
    instead: Mapping[PrescribedExercise, list[PrescribedExercise]],
    known: Catalogue,
) -> Iterator[tuple[PrescribedExercise, ...]]:
    """The superset with the best substitutes in their places, then with the next ones.

    Nothing where the best cannot alternate with the others: it is worth more than the turn.
    """
    others = [known[one.exercise] for one in stays]
    for found in zip(*instead.values(), strict=False):
        come = [known[one.exercise] for one in found]
        meet = [*product(come, others), *combinations(come, 2)]
        if not all(pairable(a, b, ()) for a, b in meet):
            return
        new = {**stays, **dict(zip(instead, found, strict=True))}
        yield tuple(replace(new[one], superset=one.superset) for one in members)


def _problem(
    week: Week,
    happened: Happened,
    known: Catalogue,
    parts: tuple[tuple[PlannedDay, ...], list[Placed]],
) -> tuple[PlanProblem, list[Placed]]:
    ahead, stops = parts
    options: list[Option] = []
    origin: list[Placed] = []
    for stop in stops:
        base = option_of(stop, known)
        home = tuple(i for i, day in enumerate(ahead) if day.day == stop.home)
        away = tuple(i for i, day in enumerate(ahead) if day.day != stop.home)
        # A lower substitute forgoes as much as a stop that does not stay, or its helpers win.
        swap = REPLAN_SWAP + REPLAN_KEEP * stop.choice if stop.instead_of else 0.0
        for places, cost in ((home, swap - REPLAN_KEEP), (away, swap + REPLAN_MOVE)):
            if places:
                options.append(replace(base, days=places, stop_cost=cost, family=stop.family))
                origin.append(stop)
    names = [name for option in options for name in option.exercises]
    trained = list(_trained(week, happened, known, len(ahead)))
    days = [*(day.day for day in ahead), *(day for day, _ in trained)]
    problem = PlanProblem(
        days=tuple(days),
        seconds=(*(_seconds(day, happened, known) for day in ahead), *(0.0 for _ in trained)),
        close=close_pairs(days),
        options=(*options, *(option for _, option in trained)),
        rules=replace(
            _rules(week, known, names, happened),
            required=frozenset(option.exercises[0] for _, option in trained),
        ),
        worth=_worth(week),
        change=Change({}, {}),
        done=_behind(week, happened, known),
    )
    return problem, origin


def _trained(
    week: Week, happened: Happened, known: Catalogue, ahead: int
) -> Iterator[tuple[str, Option]]:
    """Days done that loaded a sore joint, each with what it was as the only thing it can hold.

    So the day after counts it. Its dose is told apart (`done`); its time is over.
    """
    sore = [joint for joint in JOINTS if happened.joint_limits.get(joint, ANY_LOAD) < ANY_LOAD]
    for day in week.days:
        loads = day_joint_load(day, known) if day.day in happened.done else {}
        told = tuple((len(PARTS) + JOINTS.index(j), loads[j]) for j in sore if loads.get(j))
        if told:
            name, place = f"{day.day}, done", ahead
            ahead += 1
            yield day.day, Option((name,), Scheme.STRAIGHT, 1, 1, 0.0, 0.0, told, days=(place,))


def _as_it_was(problem: PlanProblem, origin: list[Placed]) -> Selection:
    """Every stop on its own day with all its sets, the first of its substitutes; days done too."""
    days: list[list[tuple[int, int]]] = [[] for _ in problem.days]
    seen: set[str] = set()
    for index, option in enumerate(problem.options[len(origin) :], start=len(origin)):
        days[option.days[0]].append((index, option.most))
    for index, (option, stop) in enumerate(zip(problem.options, origin, strict=False)):
        home = [day for day in option.days if problem.days[day] == stop.home]
        if home and option.family not in seen:
            seen.add(option.family)
            days[home[0]].append((index, option.most))
    return tuple(tuple(day) for day in days)


def _seconds(day: PlannedDay, happened: Happened, known: Catalogue) -> float:
    took = day_minutes(day, known, happened.pace).value
    minutes = happened.minutes.get(day.day, max(day.minutes or 0, took + SPARE_MINUTES))
    return 60 * minutes / happened.pace.factor - preparation_seconds(day)


def _rules(week: Week, known: Catalogue, names: list[str], happened: Happened) -> Rules:
    """Caps never below what the week asked already: a re-plan is no audit.

    Days in a row that load a sore joint hard cost; other joints keep her dose.
    """
    limits = happened.joint_limits
    sore = [limits.get(joint, ANY_LOAD) < ANY_LOAD for joint in JOINTS]
    dose = week_dose(week, known)
    free = (math.inf,) * len(JOINTS)
    caps = tuple(max(SESSION_CAP, 2 * _most_in_a_day(dose, part)) for part in PARTS) + free
    return Rules(
        sessions=7,
        exercises_a_day=len(names) + 1,
        days_an_exercise=7,
        supersets_a_day=len(names),
        drops_a_day=len(names),
        session_cap=caps,
        close_cap=caps,
        week_cap=tuple(max(WEEK_CAP, dose.part(part).value) for part in PARTS) + free,
        least={},
        most={},
        required=frozenset(),
        close_mark=(math.inf,) * len(PARTS)
        + tuple(close_mark(sore=True) if one else math.inf for one in sore),
        close_price=JOINT_CLOSE_COST,
    )


def _most_in_a_day(dose: WeekDose, part: Part) -> float:
    return max((parts[part].value for parts in dose.days.values() if part in parts), default=0.0)


def _worth(week: Week) -> tuple[float, ...]:
    rank = {group: 2.0 - place / 4 for place, group in enumerate(week.priorities[:3])}
    worth = {
        part: float(share) * rank.get(group, 1.0)
        for group, shares in GROUP_SHARES.items()
        for part, share in shares.items()
    }
    return (*(worth.get(part, 0.0) for part in PARTS), *(0.0,) * len(JOINTS))


def _behind(week: Week, happened: Happened, known: Catalogue) -> tuple[float, ...]:
    done = [day_parts(day, known) for day in week.days if day.day in happened.done]
    behind = (sum(session_worth(d[p].value) for d in done if p in d) for p in PARTS)
    return (*behind, *(0.0,) * len(JOINTS))


def _rebuilt(day: PlannedDay, chosen: list[tuple[Placed, int]]) -> PlannedDay:
    places = {one.exercise: place for place, one in enumerate(day.exercises)}

    def place(pair: tuple[Placed, int]) -> tuple[bool, int]:
        stop = pair[0]
        names = [*stop.instead_of, *(one.exercise for one in stop.members)]
        found = [places[name] for name in names if name in places and stop.home == day.day]
        return (not found, min(found, default=0))

    exercises: list[PrescribedExercise] = []
    for stop, sets in sorted(chosen, key=place):
        full = min(block(one) for one in stop.members)
        mark = _mark(stop, {one.superset for one in exercises}) if len(stop.members) > 1 else ""
        for one in cut(stop, full - sets):
            moved = "" if stop.home == day.day else moved_from(stop.home)
            because = "; ".join(filter(None, (one.because if stop.instead_of else "", moved)))
            because = because or one.because
            exercises.append(replace(one, superset=mark, because=because))
    return replace(day, exercises=tuple(exercises))


def _mark(stop: Placed, used: Set[str]) -> str:
    """Her mark of a superset; the next free one where a superset of another day has the same."""
    own = stop.members[0].superset
    return own if own not in used else next(mark for mark in MARKS if mark not in used)
