"""Less time today: leave out the sets that are worth least a minute, and keep the rest.

The minutes are those left from now: what is done is done and takes none of them.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from pennate.app.card_facts import minutes_of
from pennate.app.outline import DayInputs
from pennate.app.slots import Slot
from pennate.app.stand import stand
from pennate.app.standing import Standing
from pennate.core.dose import NO_DOSE
from pennate.core.evidence.session import LEAST_DOSE, PRIORITY_WORTH
from pennate.core.muscles import GROUP_SHARES, Part
from pennate.core.performed import SetKind
from pennate.core.prescribed import Week
from pennate.core.week_dose import set_credit, week_dose

LEAST_SAVED_MIN = 1 / 60
"""Leaving a set out is taken to save a second at least."""
Groups = dict[int, list[list[Slot]]]


@dataclass(frozen=True, slots=True)
class Given:
    """Sets given up together, and what that costs in √sets of the week's worth."""

    keys: tuple[str, ...]
    worth: float


@dataclass(frozen=True, slots=True)
class Shorter:
    """What is left out so that the rest of the session fits, and how long that is then."""

    keys: tuple[str, ...]
    minutes: float
    """From now on."""
    fits: bool


def shorten(inputs: DayInputs, week: Week, minutes: float) -> Shorter:
    """Leave out working sets, the least worth a minute first, until what is left fits.

    Two orders are tried: set by set, and with whole stops weighed too, since without any set the
    ramp and the way to a stop are saved. What fits again in the end is taken up, the dearest
    first; the order that costs less is taken. Every set already done stays.
    """
    standing = stand(replace(inputs, state=replace(inputs.state, left_out=frozenset())))
    found = [_cut(standing, inputs, order, minutes) for order in give_up(standing, inputs, week)]
    left = min(found, key=lambda gone: sum(one.worth for one in gone))
    now = _minutes(standing, inputs, left)
    return Shorter(tuple(key for one in left for key in one.keys), now, fits=now <= minutes)


def give_up(standing: Standing, inputs: DayInputs, week: Week) -> tuple[list[Given], list[Given]]:
    """All open sets in the order they are given up: set by set, and with whole stops weighed.

    Worth is the slope of the square-root dose curve at the week's dose, weighted by group
    size and priority; it grows as sets of a part are taken away.
    """
    return (
        _order(standing, inputs, week, whole=False),
        _order(standing, inputs, week, whole=True),
    )


def _order(standing: Standing, inputs: DayInputs, week: Week, *, whole: bool) -> list[Given]:
    dose, groups = _weekly_dose(week, inputs), _open_groups(standing)
    left: list[Given] = []
    while any(groups.values()):
        tails = [[(i, own[-1])] for i, own in groups.items() if own]
        if whole:
            tails += [tail for run in standing.outline.runs if (tail := _tail(run, groups))]
        cheapest = _cheapest(standing, inputs, week, dose, tails, left)
        for index, group in cheapest:
            groups[index].pop()
            left.append(_given(standing, index, group, dose, week))
    return left


def _tail(run: Sequence[int], groups: Groups) -> list[tuple[int, list[Slot]]]:
    """All that is open of stops done together, the last first."""
    return [(index, group) for index in run for group in reversed(groups.get(index, []))]


def _cheapest(
    standing: Standing,
    inputs: DayInputs,
    week: Week,
    dose: Mapping[Part, float],
    tails: Sequence[list[tuple[int, list[Slot]]]],
    left: Sequence[Given],
) -> list[tuple[int, list[Slot]]]:
    """The sets whose leaving costs least for each minute it really saves."""
    now = _minutes(standing, inputs, left)

    def cost(tail: list[tuple[int, list[Slot]]]) -> float:
        trial = dict(dose)
        gone = [_given(standing, index, group, trial, week) for index, group in tail]
        saved = now - _minutes(standing, inputs, [*left, *gone])
        return sum(one.worth for one in gone) / max(saved, LEAST_SAVED_MIN)

    return min(tails, key=cost)


def _given(
    standing: Standing, index: int, group: list[Slot], dose: dict[Part, float], week: Week
) -> Given:
    """A group given up; the dose falls by it."""
    weights = _weights(standing, index, group[0])
    worth = _worth(weights, dose, week)
    for part, weight in weights.items():
        dose[part] = max(dose[part] - weight, LEAST_DOSE)
    return Given(tuple(slot.key for slot in group), worth)


def _minutes(standing: Standing, inputs: DayInputs, left: Sequence[Given]) -> float:
    """Minutes from now with these sets left out."""
    state = replace(inputs.state, left_out=frozenset(key for one in left for key in one.keys))
    now, _ = minutes_of(standing, replace(inputs, state=state), done=standing.done.keys())
    return now.value


def _cut(
    standing: Standing, inputs: DayInputs, order: Sequence[Given], minutes: float
) -> list[Given]:
    """What is left out in this order so that the rest fits; all where nothing does."""
    count = 0
    while count < len(order) and _minutes(standing, inputs, order[:count]) > minutes:
        count += 1
    left, full = list(order[:count]), set[str]()
    for one in order[:count][::-1]:
        stop = one.keys[0].split(".")[0]
        without = [other for other in left if other is not one]
        if stop not in full and _minutes(standing, inputs, without) <= minutes:
            left = without
        else:
            full.add(stop)
    return left


def _weekly_dose(week: Week, inputs: DayInputs) -> dict[Part, float]:
    total = dict.fromkeys(Part, LEAST_DOSE)
    for parts in week_dose(week, inputs.catalogue).days.values():
        for part, dose in parts.items():
            total[part] += (dose or NO_DOSE).value
    return total


def _open_groups(standing: Standing) -> Groups:
    """The open sets of every stop in order: both sides together, with the drops they bring."""
    found: Groups = {}
    for index, slot in standing.outline.order:
        gone = slot.key in standing.done or standing.outline.plans[index].left_out
        if gone or slot.asked.kind is SetKind.WARM_UP:
            continue
        own = found.setdefault(index, [])
        alike = bool(own) and own[-1][0].key.split(".")[:3] == slot.key.split(".")[:3]
        if own and (alike or (slot.asked.kind is SetKind.DROP and slot.side is not None)):
            own[-1].append(slot)
        else:
            own.append([slot])
    return found


def _weights(standing: Standing, index: int, slot: Slot) -> Mapping[Part, float]:
    plan = standing.outline.plans[index]
    credit = set_credit(slot.asked)
    weights = plan.exercise.weights(plan.asked.variant)
    return {part: float(weight) * credit for part, weight in weights.items()}


def _worth(weights: Mapping[Part, float], dose: Mapping[Part, float], week: Week) -> float:
    """Benefit of one more set, in √sets: ½ / √dose for each part, by share and priority."""
    total = 0.0
    for group, shares in GROUP_SHARES.items():
        factor = PRIORITY_WORTH if group in week.priorities else 1.0
        for part, share in shares.items():
            total += factor * float(share) * weights.get(part, 0.0) / (2 * dose[part] ** 0.5)
    return total
