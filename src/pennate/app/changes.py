"""What today changed, in one line each: plain, with the number that caused it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from pennate.app.back_again import Back, back_in_all, back_words
from pennate.app.gyms import KIT
from pennate.app.illness import asked_of
from pennate.app.outline import DayInputs
from pennate.app.session_stop import SAME_LOAD_KG
from pennate.app.slots import Slot
from pennate.app.standing import Standing
from pennate.core.evidence.session import DAY_WORTH_SAYING, PAIN_LOAD_SHARE
from pennate.core.evidence.strength import SLEEP_EFFECT
from pennate.core.exercise import OWN_NUMBERS
from pennate.core.loaded import Loaded
from pennate.core.percent import percent
from pennate.core.performed import SetKind
from pennate.core.plural import plural
from pennate.core.quantities import Mass, format_number
from pennate.core.readiness import PainAction, Readiness


def change_of(index: int, slot: Slot, standing: Standing) -> str:
    """“2 reps under what was likely: the next set is 5 kg lighter”."""
    planned = standing.planned.laid[slot.key].load
    now = standing.now.laid[slot.key].load
    way = now.felt_kg - planned.felt_kg if now and planned else 0.0
    cause = _own_surprise(index, standing, way) or _day_words(standing, way)
    return f"{cause}: {_difference(planned, now)}"


def _own_surprise(index: int, standing: Standing, way: float) -> str:
    """The last working set of this exercise today against what was likely before it.

    Nothing of a set at another load than it was likely for, nor of one that ended the other way
    than the load goes (`way`, in kilograms): neither is why the load changes.
    """
    done = [
        (one, slot.key)
        for i, slot in standing.outline.order
        if i == index
        and slot.asked.kind is not SetKind.WARM_UP
        and (one := standing.done.get(slot.key))
    ]
    if not done:
        return ""
    performed, key = max(done, key=lambda pair: pair[0].number)
    likely = standing.planned.laid[key].likely
    gap = performed.reps - likely.middle if likely and _as_planned(key, standing) else 0
    if not gap or gap * way < 0:
        return ""
    side = "over" if gap > 0 else "under"
    return f"{plural(abs(gap), 'rep')} {side} what was likely"


def _as_planned(key: str, standing: Standing) -> bool:
    """Whether a done set was done at the load planned for it."""
    planned, done = standing.planned.laid[key].load, standing.on.get(key)
    if planned is None or done is None:
        return planned is done
    return abs(done.felt_kg - planned.felt_kg) < SAME_LOAD_KG


def _day_words(standing: Standing, way: float) -> str:
    shift, _ = standing.day
    if abs(shift) < DAY_WORTH_SAYING or shift * way < 0:
        return "after what was done so far"
    return f"today runs about {percent(abs(shift))} {'over' if shift > 0 else 'under'}"


def _difference(planned: Loaded | None, now: Loaded | None) -> str:
    if planned is None or now is None:
        return "the load is another"
    if planned.reading is now.reading and planned.load.unit is now.load.unit:
        gap = Mass(now.load.amount - planned.load.amount, now.load.unit)
        word = "heavier" if gap.amount > 0 else "lighter"
        return f"{format_number(abs(gap.amount))} {gap.unit} {word}"
    return f"{now.load} instead of {planned.load}"


@dataclass(frozen=True, slots=True)
class _Eased:
    """What being back changes about a stop."""

    back: Back
    lighter: bool
    fewer: bool
    reserve: int
    out_of_reach: bool
    """Fewer reps than asked are likely in its first set."""


def _eased(index: int, standing: Standing) -> _Eased | None:
    outline = standing.outline
    plan, back = outline.plans[index], outline.stops[index].back
    own = [slot for slot in outline.slots[index] if slot.asked.kind is not SetKind.WARM_UP]
    if back is None or not own or plan.left_out:
        return None
    first = own[0]
    before = standing.planned.anchors.get((index, first.block))
    load = standing.planned.laid[first.key].load
    asked = [sets for sets in plan.asked.sets if sets.kind is not SetKind.WARM_UP]
    done = {(slot.block, slot.key.split(".")[2]) for slot in own}
    likely, reps = standing.planned.laid[first.key].likely, first.asked.reps
    return _Eased(
        back,
        lighter=before is not None and load is not None and load.felt_kg < before - SAME_LOAD_KG,
        fewer=len(done) < sum(sets.count for sets in asked),
        reserve=first.asked.reserve.low if first.asked.reserve else 0,
        out_of_reach=likely is not None and reps is not None and likely.middle < reps.low,
    )


def back_of(index: int, standing: Standing) -> str:
    """What stands at the first set of a stop come back to: only what the head does not say."""
    eased = _eased(index, standing)
    if eased is None:
        return ""
    pause = "illness" if eased.back.easing else "the pause"
    lighter = f"lighter after {pause}" if eased.lighter else ""
    return "; ".join(filter(None, (lighter, OUT_OF_REACH if eased.out_of_reach else "")))


OUT_OF_REACH = "fewer reps than asked are likely: take what comes, or an easier exercise"


def back_lines(standing: Standing) -> tuple[str, ...]:
    """A line for all stops come back to alike, with their names unless it is every stop."""
    plans = [plan for plan in standing.outline.plans.values() if not plan.left_out]
    alike: dict[bool, list[tuple[Back, str, str]]] = {}
    for plan in plans:
        if (eased := _eased(plan.index, standing)) is not None:
            words = back_words(eased.back, eased.reserve, lighter=eased.lighter, fewer=eased.fewer)
            alike.setdefault(eased.back.first_time, []).append(
                (eased.back, plan.exercise.name, words)
            )
    return tuple(_back_line(found, whole=len(found) == len(plans)) for found in alike.values())


def _back_line(found: Sequence[tuple[Back, str, str]], *, whole: bool) -> str:
    said = {words for _, _, words in found}
    shortest = min((back for back, _, _ in found), key=lambda back: back.days)
    words = said.pop() if len(said) == 1 else back_in_all(shortest)
    if whole:
        return words[0].upper() + words[1:]
    return f"{', '.join(name for _, name, _ in found)}: {words}"


def remarks_of(inputs: DayInputs, standing: Standing) -> tuple[str, ...]:
    """Lines for the head of the card: first time back, readiness, left-out stops, the day."""
    remarks = (*inputs.apart, *standing.outline.remarks, *back_lines(standing))
    asked = filter(None, (ill_line(inputs), away_line(inputs, standing)))
    said = readiness_lines(inputs.state.readiness)
    return (*asked, *remarks, *said, *_day_line(standing.day))


def away_line(inputs: DayInputs, standing: Standing) -> str:
    """That the machines of a kit for the road are others than hers; empty where there are none.

    Each begins with a test set.
    """
    if inputs.gym is None or inputs.gym.id != KIT:
        return ""
    plans = standing.outline.plans.values()
    names = [
        plan.exercise.name
        for plan in plans
        if plan.item is not None and plan.item.kind in OWN_NUMBERS and not plan.left_out
    ]
    return f"{', '.join(dict.fromkeys(names))}: {ANOTHER_MACHINE}" if names else ""


ANOTHER_MACHINE = (
    "another machine than yours, where the same number may be lighter or heavier; let the first "
    "set tell, and change the load"
)


def ill_line(inputs: DayInputs) -> str:
    """Whether she was ill, asked today after days without a session; else empty."""
    day = inputs.state.day
    if day != inputs.now.date():
        return ""
    return asked_of(inputs.history, day, inputs.state.readiness)


SAID = {
    "short_sleep": f"Short sleep: loads are taken {percent(abs(SLEEP_EFFECT))} lighter, "
    "which is all that studies support; your own log will say more",
    "low_energy": "Low energy changes no load by itself: the first hard set decides",
    "sore": "Sore ({}): warm up a little longer there, then let the sets decide",
    PainAction.GO_ON.name.lower(): "go on, and watch it",
    PainAction.REDUCE.name.lower(): f"what loads it is {percent(1 - PAIN_LOAD_SHARE)} lighter "
    "today; go on only if it does not rise, and has settled by tomorrow morning",
    PainAction.STOP.name.lower(): "what loads it is left out today; if it lasts, see a clinician",
}
"""What each answer to the one question changes; of pain by the pain rule."""


def readiness_lines(said: Readiness | None) -> tuple[str, ...]:
    """What her answers change, a line each."""
    if said is None:
        return ()
    lines = []
    if said.short_sleep:
        lines.append(SAID["short_sleep"])
    if said.low_energy:
        lines.append(SAID["low_energy"])
    if said.sore:
        lines.append(SAID["sore"].format(", ".join(said.sore)))
    for joint in said.pain:
        words = said.words(joint)
        rule = SAID[said.action(joint).name.lower()]
        lines.append(f"{words[0].upper()}{words[1:]}: {rule}")
    return tuple(lines)


def _day_line(day: tuple[float, float]) -> tuple[str, ...]:
    shift, sd = day
    if abs(shift) < DAY_WORTH_SAYING or abs(shift) < sd:
        return ()
    size = f"{percent(abs(shift))} {'up' if shift > 0 else 'down'}, ± {percent(sd)}"
    return (f"Today runs {size}: that is a day, not a gain or a loss",)
