"""What a day's focus allows: words of the trade to muscle groups."""

from __future__ import annotations

import re
from collections.abc import Mapping
from types import MappingProxyType

from pennate.core.exercise import Exercise
from pennate.core.muscles import GROUP_SHARES, Group
from pennate.core.week_dose import main_part

_LOWER = frozenset({Group.QUADS, Group.HAMSTRINGS, Group.GLUTES, Group.SIDE_GLUTES, Group.CALVES})
_PUSH = frozenset({Group.CHEST, Group.SHOULDERS, Group.TRICEPS})
_PULL = frozenset({Group.BACK, Group.BICEPS})
_WORDS: Mapping[str, frozenset[Group]] = MappingProxyType(
    {
        "lower": _LOWER,
        "legs": _LOWER,
        "upper": _PUSH | _PULL | {Group.SHOULDERS},
        "push": _PUSH,
        "pull": _PULL | {Group.SHOULDERS},
        "arms": frozenset({Group.BICEPS, Group.TRICEPS}),
        "full": frozenset(Group),
        "whole": frozenset(Group),
    }
)


def main_group(exercise: Exercise) -> Group | None:
    """The group of the part an exercise trains most; None for parts in no group."""
    part = main_part(exercise)
    return next((group for group, shares in GROUP_SHARES.items() if part in shares), None)


def focus_groups(focus: str) -> frozenset[Group]:
    """The groups a focus names; no word of the trade in it means all."""
    text = focus.casefold()
    found: set[Group] = set()
    for group in sorted(Group, key=lambda one: -len(one.value)):
        if re.search(rf"\b{group.value}\b", text):
            found.add(group)
            text = text.replace(group.value, " ")
    for word, groups in _WORDS.items():
        if re.search(rf"\b{word}\b", text):
            found |= groups
    return frozenset(found) if found else frozenset(Group)


def allowed_on(focus: str, exercise: Exercise) -> bool:
    """Whether an exercise fits a day's focus; core, and parts in no group, fit any day."""
    group = main_group(exercise)
    return group in {None, Group.CORE} or group in focus_groups(focus)
