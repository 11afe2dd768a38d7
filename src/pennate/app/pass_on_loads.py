"""How a follower's loads are found: the groups of an exercise with their tabled shares."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import NamedTuple

from pennate.app.pass_on_words import thousandths
from pennate.app.stranger import Stranger, needed
from pennate.app.stranger_day import Place, tiring
from pennate.core.evidence.loading import (
    RAMP_FIRST_SHARE,
    RAMP_SECOND_SHARE,
)
from pennate.core.evidence.session import DROP_SHARE, RAMP_SHARE
from pennate.core.exercise import Catalogue, EquipmentKind, Exercise
from pennate.core.felt import body_share
from pennate.core.follow import THOUSAND, Curves, Group, Option, Source
from pennate.core.performed import SetKind
from pennate.core.prescribed import LoadFrom, PlannedDay, PrescribedExercise, PrescribedSets
from pennate.core.week_time import multi_joint, needs_ramp

HANDS = frozenset({EquipmentKind.DUMBBELLS, EquipmentKind.KETTLEBELLS})
UNTIRED = (1.0, 1.0)


class Found(NamedTuple):
    """How the loads of an exercise are found; no option where none has a number.

    Working groups come first, as warm-up sets are shares of the first of them; `numbers` say
    where each of the sets as they are asked stands among the groups.
    """

    option: Option | None
    groups: tuple[Group, ...]
    numbers: tuple[int, ...]


class Finder:
    """Finds how the loads of each exercise of a routine are found."""

    def __init__(self, catalogue: Catalogue) -> None:
        self._catalogue = catalogue
        self._stranger = Stranger(catalogue)
        self._days: dict[PlannedDay, dict[Place, tuple[float, float]]] = {}

    def curves(self) -> Curves:
        """The tables of reps of all that was asked for."""
        return self._stranger.curves()

    def option(self, day: PlannedDay, index: int, kind: EquipmentKind) -> Found:
        """How the loads of one exercise of a day are found on a kind of equipment."""
        asked = day.exercises[index]
        exercise = self._catalogue[asked.exercise]
        at = sorted(range(len(asked.sets)), key=lambda n: asked.sets[n].kind is SetKind.WARM_UP)
        numbers = {place: number for number, place in enumerate(at)}
        groups = [self._group(day, index, place, number, kind) for number, place in enumerate(at)]
        if _ramped(exercise, asked):
            groups += _ramp(exercise)
        rooted = _rooted(groups)
        told = tuple(numbers[place] for place in range(len(asked.sets)))
        if all(group.source in {Source.NONE, Source.OF} for group in groups):
            return Found(None, rooted, told)
        return Found(self._made(exercise, kind, rooted), rooted, told)

    def _made(self, exercise: Exercise, kind: EquipmentKind, groups: tuple[Group, ...]) -> Option:
        carried = thousandths(body_share(exercise, female=None))
        return Option(
            key=f"{exercise.id}|{kind.value}",
            groups=groups,
            curve=self._stranger.curve(exercise.id),
            kind=kind.value,
            carried=carried,
            together=bool(carried) and kind in HANDS,
            helped=kind is EquipmentKind.ASSISTED,
            bodily=kind is EquipmentKind.BODY_WEIGHT,
            helpable=can_be_helped(exercise, kind),
        )

    def _group(
        self, day: PlannedDay, index: int, place: int, number: int, kind: EquipmentKind
    ) -> Group:
        asked = day.exercises[index]
        sets, exercise = asked.sets[place], self._catalogue[asked.exercise]
        warm_up = sets.kind is SetKind.WARM_UP
        if _wordy(sets, exercise, kind):
            return Group(source=Source.NONE, warm_up=warm_up)
        if sets.load.source is LoadFrom.EMPTY_BAR:
            return Group(source=Source.LIGHTEST, warm_up=True)
        tired = self._tired(day).get((index, place), UNTIRED)
        reserve = sets.reserve.low if sets.reserve else 0
        told = (round(tired[0] * THOUSAND), round(tired[1] * THOUSAND))
        share = _share(sets)
        if share is not None and (number or warm_up):
            top = warm_up or sets.load.source is LoadFrom.OF_TOP
            of = 0 if top else number - 1
            return Group(
                source=Source.OF, of=of, share=share, tired=told, reserve=reserve, warm_up=warm_up
            )
        shares = self._stranger.shares(exercise.id, needed(sets), tired)
        return Group(source=Source.TABLE, shares=shares, tired=told, reserve=reserve)

    def _tired(self, day: PlannedDay) -> dict[Place, tuple[float, float]]:
        if day not in self._days:
            self._days[day] = tiring(day, self._catalogue, self._stranger)
        return self._days[day]


def can_be_helped(exercise: Exercise, kind: EquipmentKind) -> bool:
    """Whether a band or a machine can take some of her weight off where it is too much."""
    return kind is EquipmentKind.BODY_WEIGHT and EquipmentKind.ASSISTED in exercise.equipment


def _rooted(groups: Sequence[Group]) -> tuple[Group, ...]:
    """The groups, where a share of what has no number has none either."""
    rooted: list[Group] = []
    for group in groups:
        loose = group.source is Source.OF and rooted[group.of].source is Source.NONE
        rooted.append(replace(group, source=Source.NONE) if loose else group)
    return tuple(rooted)


def _wordy(sets: PrescribedSets, exercise: Exercise, kind: EquipmentKind) -> bool:
    """Whether no number can be found: a band, a hold, reps left open, body weight as written."""
    return (
        kind is EquipmentKind.BANDS
        or exercise.timed
        or sets.reps is None
        or sets.load.source is LoadFrom.BODY_WEIGHT
    )


def _share(sets: PrescribedSets) -> int | None:
    """The share of an earlier load that is asked, in thousandths; None where it is not."""
    if sets.load.source in {LoadFrom.OF_TOP, LoadFrom.OF_PREVIOUS} and sets.load.share is not None:
        return thousandths(sets.load.share)
    if sets.kind is SetKind.DROP:
        return thousandths(DROP_SHARE)
    return thousandths(RAMP_SHARE) if sets.kind is SetKind.WARM_UP else None


def _ramped(exercise: Exercise, asked: PrescribedExercise) -> bool:
    return needs_ramp(exercise) and not any(one.kind is SetKind.WARM_UP for one in asked.sets)


def _ramp(exercise: Exercise) -> list[Group]:
    """The warm-up scheme as groups, two for what moves several joints."""
    shares = (
        (RAMP_FIRST_SHARE, RAMP_SECOND_SHARE) if multi_joint(exercise) else (RAMP_SECOND_SHARE,)
    )
    return [
        Group(source=Source.OF, of=0, share=round(share * THOUSAND), warm_up=True)
        for share in shares
    ]
