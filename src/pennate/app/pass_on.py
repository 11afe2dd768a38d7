"""A week made ready to be passed on: others' loads on others' equipment, nothing of hers.

Only the week file is read. What a follower needs of it is taken over piece by piece; loads,
notes, reasons, wishes and the gym stay behind. Text in her own words passes only if it says
nothing of pain, body, cycle or loads.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from operator import attrgetter
from pathlib import Path

from pennate.app import pass_on_words as say
from pennate.app.card_text import preparation_words
from pennate.app.gyms import STARTER_ORDER, open_gym
from pennate.app.pass_on_loads import Finder, can_be_helped
from pennate.app.planning import gym_beside
from pennate.app.slots import fallen, one_by_one
from pennate.app.stops import help_asked, helps, item_asked
from pennate.core import caution_texts as care
from pennate.core.cautions import Caution
from pennate.core.evidence import pass_on as usual
from pennate.core.exercise import Catalogue, EquipmentKind, Exercise, FailureSafety, Sides
from pennate.core.follow import Group, Source
from pennate.core.gym import Gym
from pennate.core.passed_on import (
    Passed,
    PassedDay,
    PassedExercise,
    PassedGroup,
    PassedOption,
    PassedStop,
    Steps,
)
from pennate.core.performed import SetKind
from pennate.core.prescribed import (
    LoadRule,
    PlannedDay,
    Preparation,
    PrescribedExercise,
    PrescribedSets,
    Week,
)
from pennate.core.private_words import private_words
from pennate.core.week_time import PLATED, day_minutes, multi_joint, needs_ramp, stops_of
from pennate.errors import InputError, NoAnswerError
from pennate.files.catalogue import read_catalogue
from pennate.files.week import read_week
from pennate.plan.substitute import Substitute, other_kinds, substitutes

INSTEAD = 2
UNNAMED = "A routine"


def passed_file(path: Path) -> Passed:
    """The routine of a week file, ready to be drawn. Raises InputError, NoAnswerError."""
    catalogue = read_catalogue()
    week = read_week(path, catalogue)
    return passed(week, catalogue.with_own(week.own_exercises), _gym(week, path))


def _gym(week: Week, path: Path) -> Gym | None:
    """The gym the week names, for the kinds of its items; None where it is not at hand."""
    beside = gym_beside(week.gym, path.parent)
    if beside is not None:
        return open_gym(str(beside))
    return open_gym(week.gym) if week.gym in STARTER_ORDER else None


def passed(week: Week, catalogue: Catalogue, gym: Gym | None = None) -> Passed:
    """The routine of a week, ready to be drawn. Raises InputError, NoAnswerError."""
    if all(day.rest for day in week.days):
        raise NoAnswerError("no exercise is planned in this week, so there is nothing to pass on")
    making = _Making(week, catalogue, gym)
    days = tuple(making.day(day) for day in week.days)
    return Passed(
        name=making.told(week.name, "the week’s name") or UNNAMED,
        days=days,
        steps=tuple(_steps(kind) for kind in EquipmentKind if kind in making.kinds),
        curves=making.finder.curves(),
        emergencies=(care.RED_FLAGS, care.BREAKDOWN, care.PREGNANCY_STOP),
        cautions=_cautions(week, catalogue),
        weighs=any(_weighs(one) for one in _options(days)),
        left_out=tuple(dict.fromkeys(making.left_out)),
    )


def _options(days: Sequence[PassedDay]) -> Iterator[PassedOption]:
    for day in days:
        for stop in day.stops:
            for one in stop.exercises:
                yield from one.options


def _weighs(option: PassedOption) -> bool:
    return option.follow is not None and option.follow.carried > 0


def _cautions(week: Week, catalogue: Catalogue) -> tuple[Caution, ...]:
    """The cautions of a routine for somebody unknown, the most urgent first."""
    asked = [one for day in week.days for one in day.exercises]
    safety = {catalogue[one.exercise].failure_safety for one in asked}
    chosen = {
        care.PAIN_STOP,
        care.PAIN_REDUCE,
        care.PAIN_SWAP,
        care.PAIN_CLINICIAN,
        care.UNDER_18,
        care.PREGNANCY,
        care.STRAIN_FIRST,
        care.BREATH,
        care.NEW_EXERCISE,
        care.GENERAL,
    }
    if FailureSafety.SAFETIES_OR_SPOTTER in safety:
        chosen |= {care.SAFETIES_MISSING, care.SAFETIES_CHECK}
    if FailureSafety.STOPS in safety:
        chosen |= {care.STOPS_MISSING, care.STOPS_CHECK}
    return tuple(one for one in care.EVERY_CAUTION if one in chosen)


def _steps(kind: EquipmentKind) -> Steps:
    pair = (usual.PAIR_KG, usual.PAIR_LB)
    if kind in {EquipmentKind.BARBELL, EquipmentKind.FIXED_BARBELLS}:
        return Steps(kind, "empty bar", (usual.BAR_KG, pair[0]), (usual.BAR_LB, pair[1]))
    if kind in {EquipmentKind.BODY_WEIGHT, EquipmentKind.ASSISTED}:
        return Steps(kind, "", (0, pair[0]), (0, pair[1]))
    if kind in {EquipmentKind.STACK, EquipmentKind.CABLE}:
        kg, lb = usual.PIN_KG, usual.PIN_LB
        return Steps(kind, "lightest", (kg, kg), (lb, lb))
    if kind in PLATED:
        return Steps(kind, "without plates, as you count it", (0, pair[0]), (0, pair[1]))
    kg, lb = usual.HAND_KG, usual.HAND_LB
    return Steps(kind, "lightest", (kg, kg), (lb, lb))


class _Making:
    """One routine in the making: what it has met, and what it left out."""

    def __init__(self, week: Week, catalogue: Catalogue, gym: Gym | None) -> None:
        self._week, self._catalogue, self._gym = week, catalogue, gym
        self.finder = Finder(catalogue)
        self.kinds: set[EquipmentKind] = set()
        self.left_out: list[str] = []
        if week.gym and gym is None:
            self.left_out.append(
                f"the gym “{week.gym}” is not beside the week, so each exercise stands on its "
                "usual equipment"
            )

    def told(self, text: str, what: str) -> str:
        """Her own words, where they may be passed on; else nothing, and it is noted."""
        found = private_words(text)
        if found:
            self.left_out.append(f"{what} speaks of “{found}”")
        return "" if found else text

    def day(self, day: PlannedDay) -> PassedDay:
        """One day; a rest day says only that."""
        minutes = None
        if not day.rest:
            took = day_minutes(day, self._catalogue)
            minutes = (round(took.value), round(took.low), round(took.high))
        return PassedDay(
            day=day.day,
            focus=self.told(day.focus, f"the focus of {day.day}"),
            minutes=minutes,
            preparation=tuple(filter(None, (self._prepared(day, one) for one in day.preparation))),
            stops=tuple(self._stops(day)),
        )

    def _prepared(self, day: PlannedDay, one: Preparation) -> str:
        what = self.told(one.what, f"the preparation of {day.day}")
        return preparation_words(one) if what else ""

    def _stops(self, day: PlannedDay) -> Iterator[PassedStop]:
        first = marks = 0
        for members in stops_of(day):
            letter = ""
            if len(members) > 1:
                letter, marks = chr(ord("A") + marks), marks + 1
            yield PassedStop(
                tuple(
                    self._exercise(day, first + at, say.turn_of(letter, at, members))
                    for at in range(len(members))
                ),
                _turns(members) if letter else "",
            )
            first += len(members)

    def _exercise(self, day: PlannedDay, index: int, turn: say.Turn) -> PassedExercise:
        asked = day.exercises[index]
        kind = self._kind(asked)
        ranked = self._ranked(self._catalogue[asked.exercise], day, kind)
        instead = tuple(
            self._option(_with(day, index, one.asked), index, one.kind, turn)
            for one in ranked[:INSTEAD]
        )
        return PassedExercise(self._option(day, index, kind, turn), instead, turn.mark)

    def _ranked(self, exercise: Exercise, day: PlannedDay, kind: EquipmentKind) -> list[Substitute]:
        """What can be done where this equipment is missing, best first: on other, or another."""
        others = substitutes(
            exercise.id, day, self._week, self._catalogue, frozenset(EquipmentKind), {}
        )
        elsewhere = [one for one in exercise.equipment if one is not kind]
        itself = other_kinds(exercise, day, self._week, elsewhere)
        return sorted((*itself, *others), key=attrgetter("rank"))

    def _kind(self, asked: PrescribedExercise) -> EquipmentKind:
        exercise = self._catalogue[asked.exercise]
        item = self._gym.item(asked.equipment) if self._gym and asked.equipment else None
        if help_asked(asked) is None or (item is not None and helps(item)):
            return item.kind if item else exercise.equipment[0]
        at_hand = item_asked(self._gym, exercise, asked) if self._gym else None
        if at_hand is not None and helps(at_hand):
            return at_hand.kind
        helping = [kind for kind in exercise.equipment if kind is EquipmentKind.ASSISTED]
        return (*helping, *exercise.equipment)[0]

    def _option(
        self, day: PlannedDay, index: int, kind: EquipmentKind, turn: say.Turn
    ) -> PassedOption:
        whole, day = day.exercises[index], _one_by_one(day)
        asked = day.exercises[index]
        exercise = self._catalogue[asked.exercise]
        self._nameable(exercise)
        found = self.finder.option(day, index, kind)
        if found.option is not None:
            self.kinds.add(kind)
        ramped = needs_ramp(exercise) and not any(s.kind is SetKind.WARM_UP for s in asked.sets)
        words = say.ramp_words(two=multi_joint(exercise)) if ramped and found.option else ()
        where = f"{exercise.name} on {day.day}"
        return PassedOption(
            name=exercise.name,
            kind=kind,
            each_side=exercise.sides_in(asked.variant) is Sides.ONE,
            variant=_variant(exercise, asked.variant),
            cue=self.told(exercise.cue, f"the cue of {exercise.name}"),
            aids=tuple(filter(None, (self.told(aid, f"an aid of {where}") for aid in asked.aids))),
            ramp=tuple((word, number) for number, word in enumerate(words, len(asked.sets))),
            groups=tuple(
                self._group(
                    sets,
                    number,
                    found.groups[number],
                    kind,
                    turn,
                    where,
                    of,
                    helpable=can_be_helped(exercise, kind),
                )
                for number, sets, of in zip(found.numbers, asked.sets, _wholes(whole), strict=True)
            ),
            follow=found.option,
        )

    def _nameable(self, exercise: Exercise) -> None:
        found = private_words(exercise.name) if exercise.own else ""
        if found:
            raise InputError(
                f"the name of your exercise “{exercise.name}” speaks of “{found}”, which is not "
                "passed on",
                remedy="give it a name that can be passed on",
            )

    def _group(
        self,
        sets: PrescribedSets,
        number: int,
        group: Group,
        kind: EquipmentKind,
        turn: say.Turn,
        where: str,
        whole: PrescribedSets | None,
        *,
        helpable: bool,
    ) -> PassedGroup:
        return PassedGroup(
            kind=sets.kind,
            count=sets.count,
            title=say.title_words(sets),
            amount=say.amount_words(sets),
            effort=say.effort_words(sets),
            manner=tuple(
                say.manner_words(
                    sets,
                    turn,
                    styles=bool(self.told(sets.style, f"the style of {where}")),
                )
            ),
            rule=say.rule_words(sets, group, kind, helpable=helpable),
            short=say.short_words(whole, group, turn) if whole else "",
            number=number,
            shares=group.shares if group.source is Source.TABLE else (),
        )


def _one_by_one(day: PlannedDay) -> PlannedDay:
    return replace(day, exercises=tuple(one_by_one(asked) for asked in day.exercises))


def _wholes(asked: PrescribedExercise) -> Iterator[PrescribedSets | None]:
    """For each set told by itself the sets it belongs to, where it is their first."""
    for sets in asked.sets:
        yield sets
        yield from (None for _ in fallen(sets)[1:])


def _with(day: PlannedDay, index: int, asked: PrescribedExercise) -> PlannedDay:
    """The day with another exercise in this place, its loads left open."""
    sets = tuple(replace(one, load=_relative(one.load)) for one in asked.sets)
    here = replace(asked, sets=sets, superset=day.exercises[index].superset)
    exercises = (*day.exercises[:index], here, *day.exercises[index + 1 :])
    return replace(day, exercises=exercises)


def _relative(rule: LoadRule) -> LoadRule:
    return rule if rule.mass is None else LoadRule()


def _turns(members: Sequence[PrescribedExercise]) -> str:
    word = "Superset" if len(members) == 2 else "Giant set"
    return f"{word}: one set of each in turn, rest after each round."


def _variant(exercise: Exercise, variant: str) -> str:
    return next((one.name for one in exercise.variants if one.id == variant), "")
