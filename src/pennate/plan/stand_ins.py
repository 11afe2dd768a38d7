"""What stands in for an exercise that cannot be done, chosen over the whole week in order.

The same muscle first; not what the day has already under another name; nothing more than
twice a week. What can still be done, on other equipment, is asked for as it makes sense there.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Set
from dataclasses import dataclass, replace
from itertools import combinations

from pennate.core.evidence.planner import DAYS_AN_EXERCISE
from pennate.core.exercise import UNLOADED, Catalogue, EquipmentKind, Exercise
from pennate.core.muscles import Joint
from pennate.core.prescribed import (
    LoadFrom,
    LoadRule,
    PlannedDay,
    PrescribedExercise,
    Reason,
    Week,
)
from pennate.plan.fitting import fitting
from pennate.plan.focus import main_group
from pennate.plan.happened import Happened
from pennate.plan.substitute import Substitute, on_kind, one_twice, substitutes, within_limits

TRIED = 2
"""Substitutes tried for each exercise that cannot be done."""
KEEPS_LEAST = 0.5
"""Share of muscle dose below which a substitute is another exercise, not a substitute."""
HELPS_LEAST = 0.6  # number: a little more where no prime mover is worked directly
EASED_LEAST = 0.4  # number: a little less where a joint is sore: hip work for what it spares
MOST_LOAD = 3
"""The most a joint can be loaded."""
Pairs = Set[frozenset[str]]


def can(exercise: Exercise, asked: PrescribedExercise, happened: Happened) -> bool:
    """Whether an exercise of the week can be done after all."""
    item = "" if happened.away else asked.equipment
    return (
        exercise.id not in happened.lost
        and item not in happened.lost - {""}
        and bool(exercise.kinds_in(happened.kinds, happened.fixtures))
        and within_limits(exercise, happened.joint_limits)
    )


def as_here(
    asked: PrescribedExercise, exercise: Exercise, happened: Happened
) -> PrescribedExercise:
    """An exercise that stays, as it makes sense on what there is."""
    usual = exercise.kinds_in(happened.kinds, happened.fixtures)[0]
    kind = happened.on.get(exercise.id, usual)
    if not happened.away and kind not in exercise.also_on:
        return asked
    if kind is exercise.equipment[0]:
        return replace(asked, equipment="")
    fitted = _bare(fitting(asked, exercise, kind), kind)
    return replace(fitted, equipment="", ladder=(), because=kind_words(kind))


def _bare(asked: PrescribedExercise, kind: EquipmentKind) -> PrescribedExercise:
    """At body weight without any load, whatever her own gym would have for it."""
    if kind is not EquipmentKind.BODY_WEIGHT:
        return asked
    alone = LoadRule(LoadFrom.BODY_WEIGHT)
    return replace(asked, sets=tuple(replace(one, load=alone) for one in asked.sets))


def kind_words(kind: EquipmentKind) -> str:
    """“on bands”, “at body weight”: what it is done on here."""
    return f"{'at' if kind is EquipmentKind.BODY_WEIGHT else 'on'} {kind.value}"


def twice_a_day(week: Week, known: Catalogue) -> Pairs:
    """Pairs of exercises that are as good as one and that her week has on one day all the same."""
    return {
        frozenset((a.exercise, b.exercise))
        for day in week.days
        for a, b in combinations(day.exercises, 2)
        if one_twice(known[a.exercise], known[b.exercise])
    }


@dataclass(frozen=True, slots=True)
class _Search:
    """What stands on each day so far, and how often an exercise is in the week."""

    week: Week
    happened: Happened
    known: Catalogue
    hers: Pairs
    on_day: Mapping[str, list[str]]
    days: Counter[str]

    def instead_of(self, asked: PrescribedExercise, day: PlannedDay) -> list[PrescribedExercise]:
        """The best substitutes in its sets; never body weight beside a load."""
        ranked = substitutes(
            asked.exercise,
            day,
            self.week,
            self.known,
            self.happened.kinds,
            self.happened.joint_limits,
            lost_equipment=self.happened.lost,
            fixtures=self.happened.fixtures,
        )
        on = self.happened.on
        here = (on_kind(one, on.get(one.exercise, one.kind), self.known) for one in ranked)
        near = [one for one in here if self._near(one) and self._new(one.exercise, day.day)]
        near.sort(key=lambda one: one.rank)
        if self._eased(asked.exercise):
            near = [one for one in near if not self._harsh(one)]
        alike = [one for one in near if one.rank[:2] == near[0].rank[:2]]
        alike = [one for one in alike if not self._harsh(one)] or alike
        misfits = self.happened.misfits
        best = sorted(alike[:TRIED], key=lambda one: misfits.get(one.exercise, 0.0))
        chosen = [one for one in best if one.exercise not in misfits] or best[:1]
        return [self._asked(one, self.known[asked.exercise]) for one in chosen]

    def _eased(self, old: str) -> bool:
        """Whether an exercise goes because a joint is sore."""
        return not within_limits(self.known[old], self.happened.joint_limits)

    def _near(self, one: Substitute) -> bool:
        """Whether it is worth its time: most of the dose, and for the same muscle first.

        Hip work may stand in for what a sore joint cannot bear.
        """
        old, new = self.known[one.instead_of], self.known[one.exercise]
        same = one.direct or (main_group(old) is main_group(new) and one.keeps >= HELPS_LEAST)
        if self._eased(old.id):
            return one.keeps >= EASED_LEAST
        return same and one.keeps >= KEEPS_LEAST

    def _harsh(self, one: Substitute) -> bool:
        """Whether it loads a joint most that the old one did not, or any where one is sore."""
        old, new = self.known[one.instead_of], self.known[one.exercise]
        before = {} if self._eased(old.id) else old.joints
        return any(
            load == MOST_LOAD and before.get(joint, 0) < MOST_LOAD
            for joint, load in new.joints.items()
            if joint is not Joint.GRIP
        )

    def _new(self, name: str, day: str) -> bool:
        """Whether a day has a use for it, and the week has it seldom enough."""
        if self.days[name] >= DAYS_AN_EXERCISE:
            return False
        return not any(
            other == name
            or (
                one_twice(self.known[name], self.known[other])
                and frozenset((name, other)) not in self.hers
            )
            for other in self.on_day[day]
        )

    def _asked(self, one: Substitute, old: Exercise) -> PrescribedExercise:
        reason = Reason.SORE_JOINT if self._eased(old.id) else Reason.TAKEN
        told = kind_words(one.kind) if self.happened.away and one.kind in UNLOADED else ""
        if one.kind is EquipmentKind.BODY_WEIGHT and one.exercise in _BY_NAME:
            told = ""
        asked = _bare(one.asked, one.kind) if self.happened.away else one.asked
        return replace(asked, reason=reason if asked.replaces else None, because=told)


_BY_NAME = frozenset({"push_up", "knee_push_up", "body_weight_squat", "plank", "crunch", "v_up"})
"""What nobody does but at body weight."""

Instead = Mapping[tuple[str, str], list[PrescribedExercise]]
"""By day and exercise."""


def stand_ins(week: Week, happened: Happened, known: Catalogue) -> Instead:
    """Substitutes, best first, for every exercise not yet done that cannot be done."""
    ahead = [day for day in week.days if day.day not in happened.done]
    on_day = {
        day.day: [
            one.exercise
            for one in day.exercises
            if day.day in happened.done or can(known[one.exercise], one, happened)
        ]
        for day in week.days
    }
    days = Counter(name for names in on_day.values() for name in names)
    search = _Search(week, happened, known, twice_a_day(week, known), on_day, days)
    found: dict[tuple[str, str], list[PrescribedExercise]] = {}
    for day, asked in _cannot(ahead, known, happened):
        chosen = search.instead_of(asked, day)
        found[day.day, asked.exercise] = chosen
        for one in chosen[:1]:
            on_day[day.day].append(one.exercise)
            days[one.exercise] += 1
    return found


def _cannot(
    days: Iterable[PlannedDay], known: Catalogue, happened: Happened
) -> Iterator[tuple[PlannedDay, PrescribedExercise]]:
    for day in days:
        for asked in day.exercises:
            if not can(known[asked.exercise], asked, happened):
                yield day, asked
