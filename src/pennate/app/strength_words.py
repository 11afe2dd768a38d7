"""Strength in words: what comes next at which load, a stall, and what an estimate rests on."""

from __future__ import annotations

from collections.abc import Iterator

from pennate.core.gym import Gym
from pennate.core.plural import plural
from pennate.estimate import Explanation, NextStep, Plateau, Step

COUNTED = "sets count through the session"

AT_LOAD = {
    Step.RAISE: "Raise the load to {}",
    Step.LOWER: "Lower the load to {}",
    Step.HOLD: "Hold the load, {}",
}
"""The other steps name the load they are for behind a comma."""


def step_sentence(found: NextStep, load: str) -> str:
    """The proposal with its load and why: “Hold the load, 170 lb. Saturday: 5 reps …”."""
    pattern = AT_LOAD.get(found.step, f"{found.step.value.capitalize()}, {{}}")
    step = pattern.format(load) if load else found.step.value.capitalize()
    return f"{step}. {sentence(found.reason)}"


def sentence(words: str) -> str:
    """Words with a capital and a full stop."""
    return f"{words[:1].upper()}{words[1:]}."


def no_load_words(count: int) -> str:
    """What stands in the place of a strength where no set says its load."""
    sets = f"in none of its {count} sets" if count > 1 else "in its one set"
    where = sets if count > 1 else f"not {sets}"
    return (
        f"No load noted: it stands {where}, so nothing is known of its strength. If your log has"
        " the loads in another column, call that load and import the log again."
    )


def halt_words(halt: Plateau | None, following: NextStep | None) -> str:
    """The gain of late beside the usual; empty where the proposal against a stall says it."""
    told = following is not None and following.step in {Step.MORE_SETS, Step.SWAP}
    return sentence(halt.words) if halt and not told else ""


def why_lines(found: Explanation, item: str, gym: Gym | None) -> Iterator[str]:
    """What an estimate rests on: her log against what is usual, the day, and the last sets."""
    yield found.rests_on
    if found.day_told:
        yield found.day_told
    told = [one for one in found.influences if one.told]
    count = len(found.influences)
    if told:
        sets = "its one set" if count == 1 else f"each of its last {count} sets"
        order = ", most first" if len(told) > 1 else ""
        how = f"found by fitting again without what the set showed; {COUNTED}"
        yield f"What {sets} did to the 1RM{order} ({how}):"
    for one in told:
        where = one.done.equipment
        yield one.words_on("" if where == item else item_words(gym, where))
    if rest := count - len(told):
        yield f"{plural(rest, 'other set')} moved it by less than 0.1 %{' each' * (rest > 1)}."


def item_words(gym: Gym | None, item: str) -> str:
    """The name of an item; its id where the gym does not have it."""
    found = gym.item(item) if gym else None
    return found.name if found else item or "no named item"
