"""Strength in words: what comes next at which load, a stall, and what an estimate rests on."""

from __future__ import annotations

import math
from collections.abc import Iterator

from pennate.app.card_text import done_load_words
from pennate.app.review_text import day_words
from pennate.core.gym import Gym
from pennate.core.percent import chance, percent, signed_percent
from pennate.core.performed import Effort, PerformedSet
from pennate.core.plural import plural
from pennate.estimate import Explanation, Influence, NextStep, Plateau, Step

SURE = 1.96
"""Standard deviations on each side of a 95 % interval."""

TOLD_FROM = 0.0005
"""Relative change from which an influence is not printed as 0.0 %."""

AT_LOAD = {
    Step.RAISE: "Raise the load to {}",
    Step.LOWER: "Lower the load to {}",
    Step.HOLD: "Hold the load, {}",
}
"""The other steps name the load they are for behind a comma."""

LEFT = {Effort.FAIL: "one more missed", Effort.NONE_LEFT: "none left"}


def step_sentence(found: NextStep, load: str) -> str:
    """The proposal with its load and why: “Hold the load, 170 lb. Saturday: 5 reps …”."""
    pattern = AT_LOAD.get(found.step, f"{found.step.value.capitalize()}, {{}}")
    step = pattern.format(load) if load else found.step.value.capitalize()
    return f"{step}. {sentence(found.reason)}"


def sentence(words: str) -> str:
    """Words with a capital and a full stop."""
    return f"{words[:1].upper()}{words[1:]}."


def trend_words(ends: tuple[float, float], per_week: float, sd: float) -> str:
    """The 80 % interval of the one-rep load, and the change in four weeks with its 95 % one."""
    month, give = math.expm1(4 * per_week), SURE * 4 * sd
    told = f"{ends[0]:.0f} to {ends[1]:.0f} kg, eight times in ten"
    if abs(month) < give:
        return (
            f"{told}; {signed_percent(month)} in four weeks, ± {percent(give, 1)}: cannot tell yet"
        )
    way = "rising" if month > 0 else "falling"
    return f"{told}; {way} by {percent(abs(month), 1)} in four weeks, ± {percent(give, 1)}"


def plateau_words(found: Plateau) -> str:
    """Gain with its 95 % interval beside the usual one, and the chance that it is a stall."""
    gain = f"{signed_percent(math.expm1(found.gain))} (± {percent(SURE * found.gain_sd, 1)})"
    usual = signed_percent(math.expm1(found.expected))
    return (
        f"over {found.weeks:.0f} weeks {gain}, where about {usual} is usual; the chance of a "
        f"stall, less than a quarter of the usual, is {chance(found.stalled)}"
    )


def why_lines(found: Explanation, item: str, gym: Gym | None) -> Iterator[str]:
    """What an estimate rests on: her log against what is usual, the day, and the last sets."""
    if not found.sets_behind:
        yield "No set of it yet: the estimate is what is usual, and its range is wide."
        return
    yield (
        f"Rests on {plural(found.sets_behind, 'working set')} of this exercise. The range is "
        f"{_width(found.prior_share)} as wide as before your first set, when only what is usual "
        "for others spoke."
    )
    if found.day is not None:
        yield f"The last session with it: {day_words(found.day)}."
    told = [one for one in found.influences if abs(one.moved) >= TOLD_FROM]
    count = len(found.influences)
    if told:
        last = "its one set" if count == 1 else f"each of its last {count} sets, most first"
        yield f"What the estimate owes to {last}:"
    yield from (_influence(one, item, gym) for one in told)
    if rest := count - len(told):
        yield f"{plural(rest, 'other set')} moved it by less than 0.1 %{' each' * (rest > 1)}."


def _width(share: float) -> str:
    """A share of variance as one of width, which is what the eye sees."""
    width = math.sqrt(share)
    return "less than 1 %" if width < 0.01 else percent(width)


def _influence(one: Influence, item: str, gym: Gym | None) -> str:
    way = "raised" if one.moved > 0 else "lowered"
    done = one.done
    where = "" if done.equipment == item else f" on {item_words(gym, done.equipment)}"
    set_words = f"{done.day:%-d %B %Y}, set {done.number}: {_set(done)}{where}"
    return f"{set_words} {way} it by {percent(abs(one.moved), 1)}"


def _set(done: PerformedSet) -> str:
    reps = plural(done.reps, "rep") + (f" {done.side.value}" if done.side else "")
    load = f" at {done_load_words(done)}" if done.load else ""
    if done.effort is None:
        return f"{reps}{load}, effort not noted,"
    left = LEFT.get(done.effort) or f"{done.effort.value.replace('-', '–')} left"
    return f"{reps}{load}, {left},"


def item_words(gym: Gym | None, item: str) -> str:
    """The name of an item; its id where the gym does not have it."""
    found = gym.item(item) if gym else None
    return found.name if found else item or "no named item"
