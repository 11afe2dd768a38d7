"""Days, minutes, kinds and joints as they are typed after a command's options."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pennate.core.exercise import EquipmentKind, Fixture
    from pennate.core.muscles import Joint


def day_of(text: str) -> str:
    """A weekday from its name or first letters; raises InputError."""
    from pennate.core.near import did_you_mean
    from pennate.core.prescribed import WEEKDAYS
    from pennate.core.week_names import weekday_meant
    from pennate.errors import InputError

    if (day := weekday_meant(text)) in WEEKDAYS:
        return day
    raise InputError(f"“{text}” is no day", remedy=did_you_mean(text, WEEKDAYS, "like Monday"))


def minutes_of(text: str) -> tuple[str, int]:
    """“Tuesday=45” as a day and minutes; raises InputError."""
    from pennate.errors import InputError

    weekday, _, minutes = text.partition("=")
    if not minutes.isdigit() or not int(minutes):
        raise InputError(f"“{text}” is no day with minutes", remedy="write it like Tuesday=45")
    return day_of(weekday), int(minutes)


def kit_of(texts: list[str] | None) -> tuple[frozenset[EquipmentKind], frozenset[Fixture]]:
    """Kinds of equipment, body weight always among them, and what there is to hang from and lie on.

    A kit has only what it names; without one there is everything. Raises InputError.
    """
    from pennate.core.exercise import EVERY_FIXTURE, EquipmentKind, Fixture
    from pennate.core.near import did_you_mean
    from pennate.errors import InputError

    kinds = {kind.value: kind for kind in EquipmentKind}
    fixtures = {one.value: one for one in Fixture}
    named = [text.casefold() for text in texts or ()]
    for text in named:
        if text not in {**kinds, **fixtures}:
            known = (*kinds, *fixtures)
            remedy = did_you_mean(text, known, f"one of: {', '.join(known)}")
            raise InputError(f"“{text}” is no kind of equipment", remedy=remedy)
    if not named:
        return frozenset(EquipmentKind), EVERY_FIXTURE
    at_hand = frozenset(kinds[text] for text in named if text in kinds)
    stands = frozenset(fixtures[text] for text in named if text in fixtures)
    return at_hand | {EquipmentKind.BODY_WEIGHT}, stands


def limits(texts: list[str] | None) -> dict[Joint, int]:
    """A joint with its pain by the pain rule; a joint alone counts as pain that reduces."""
    from pennate.core.muscles import Joint
    from pennate.core.near import did_you_mean
    from pennate.core.readiness import PainAction, pain_action
    from pennate.errors import InputError

    known = {joint.value: joint for joint in Joint}
    allowed = {PainAction.GO_ON: 3, PainAction.REDUCE: 1, PainAction.STOP: 0}
    limits: dict[Joint, int] = {}
    for text in texts or ():
        name, _, score = text.partition("=")
        if name.casefold() not in known:
            remedy = did_you_mean(name, tuple(known), f"one of: {', '.join(known)}")
            raise InputError(f"“{name}” is no joint", remedy=remedy)
        if score and not (score.isdigit() and int(score) <= 10):
            raise InputError(f"“{score}” is no pain from 0 to 10", remedy="write it like knee=4")
        action = pain_action(int(score)) if score else PainAction.REDUCE
        limits[known[name.casefold()]] = allowed[action]
    return limits
