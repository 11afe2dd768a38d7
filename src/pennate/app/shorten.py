"""Less time today: leave out the sets that are worth least a minute, and keep the rest."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass, replace

from pennate.app.card_facts import minutes_of, set_seconds
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


@dataclass(frozen=True, slots=True)
class Shorter:
    """What is left out so that the session fits, and how long it is then."""

    keys: tuple[str, ...]
    minutes: float
    fits: bool


def shorten(inputs: DayInputs, week: Week, minutes: float) -> Shorter:
    """Leave out working sets, the least worth a minute first, until the session fits.

    Worth is the slope of the square-root dose curve at the week's dose, weighted by group
    size and priority; it grows as sets of a part are taken away. Every set already done stays.
    """
    standing = stand(replace(inputs, state=replace(inputs.state, left_out=frozenset())))
    dose = _weekly_dose(week, inputs)
    left: list[str] = []
    while True:
        state = replace(inputs.state, left_out=frozenset(left))
        now, _ = minutes_of(standing.outline, standing.planned.laid, replace(inputs, state=state))
        if now.value <= minutes:
            return Shorter(tuple(left), now.value, fits=True)
        last = _last_sets(standing, set(left))
        if not last:
            return Shorter(tuple(left), now.value, fits=False)
        index = min(last, key=lambda i: _worth_a_second(standing, i, last[i], dose, week))
        left.extend(slot.key for slot in last[index])
        for part, weight in _weights(standing, index, last[index][0]).items():
            dose[part] = max(dose[part] - weight, LEAST_DOSE)


def _weekly_dose(week: Week, inputs: DayInputs) -> dict[Part, float]:
    total: dict[Part, float] = defaultdict(lambda: LEAST_DOSE)
    for parts in week_dose(week, inputs.catalogue).days.values():
        for part, dose in parts.items():
            total[part] += (dose or NO_DOSE).value
    return total


def _last_sets(standing: Standing, left: set[str]) -> dict[int, list[Slot]]:
    """The last open set of every stop, both sides of it, with the drops that hang on it."""
    found: dict[int, list[Slot]] = {}
    for index, slot in standing.outline.order:
        gone = slot.key in left or slot.key in standing.done
        if gone or slot.asked.kind is SetKind.WARM_UP or standing.outline.plans[index].left_out:
            continue
        before = found.get(index)
        alike = before and before[0].key.split(".")[:3] == slot.key.split(".")[:3]
        if before and (alike or (slot.asked.kind is SetKind.DROP and slot.side is not None)):
            before.append(slot)
        else:
            found[index] = [slot]
    return found


def _weights(standing: Standing, index: int, slot: Slot) -> Mapping[Part, float]:
    plan = standing.outline.plans[index]
    credit = set_credit(slot.asked)
    weights = plan.exercise.weights(plan.asked.variant)
    return {part: float(weight) * credit for part, weight in weights.items()}


def _worth_a_second(
    standing: Standing, index: int, sets: list[Slot], dose: Mapping[Part, float], week: Week
) -> float:
    plan, laid = standing.outline.plans[index], standing.planned.laid
    seconds = sum(set_seconds(plan, slot, laid, first=False, shared=False) for slot in sets)
    return _worth(standing, index, sets[0], dose, week) / max(seconds, 1.0)


def _worth(
    standing: Standing, index: int, slot: Slot, dose: Mapping[Part, float], week: Week
) -> float:
    """Benefit of one more set, in √sets: ½ / √dose for each part, by share and priority."""
    weights = _weights(standing, index, slot)
    total = 0.0
    for group, shares in GROUP_SHARES.items():
        factor = PRIORITY_WORTH if group in week.priorities else 1.0
        for part, share in shares.items():
            total += factor * float(share) * weights.get(part, 0.0) / (2 * dose[part] ** 0.5)
    return total
