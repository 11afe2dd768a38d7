"""Which plates come off before a drop set, and which go on."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from pennate.core.card import CardSet, CardStop
from pennate.core.loaded import Loaded
from pennate.core.performed import SetKind
from pennate.core.quantities import Mass, format_number


def pull_before(stop: CardStop, one: CardSet, now: Loaded | None) -> str:
    """What to pull for a drop set from what the set before it leaves on; empty for other sets."""
    if one.kind is not SetKind.DROP or now is None:
        return ""
    same = [s for s in stop.sets if s.side is one.side]
    place = next(i for i, s in enumerate(same) if s.key == one.key)
    return pull_words(same[place - 1].load if place else None, now)


def pull_words(before: Loaded | None, now: Loaded) -> str:
    """“pull 10 and 5 kg from each side”; what goes on is said too. Outer plates come first."""
    if before is None:
        return ""
    on, wanted = [p.mass for p in before.plates], [p.mass for p in now.plates]
    off, more = _beyond(on, wanted), _beyond(wanted, on)
    side = "each side" if before.each_side or now.each_side else ""
    parts = []
    if off:
        parts.append(f"pull {_masses(off[::-1])}" + (f" from {side}" if side else ""))
    if more:
        parts.append(f"put {_masses(more)} on" + (f" {side}" if side else ""))
    return ", ".join(parts)


def plate_names(load: Loaded) -> list[str]:
    """The plates of a load as a phone compares them, inner to outer."""
    return [_named(plate.mass) for plate in load.plates]


def _beyond(masses: Sequence[Mass], others: Sequence[Mass]) -> list[Mass]:
    """Those that others have none left of, the inner ones taken as shared."""
    left = Counter(others)
    found = []
    for mass in masses:
        if left[mass]:
            left[mass] -= 1
        else:
            found.append(mass)
    return found


def _masses(masses: Sequence[Mass]) -> str:
    """“10 and 5 kg”; each with its unit where they differ."""
    if len({mass.unit for mass in masses}) > 1:
        return " and ".join(_named(mass) for mass in masses)
    return " and ".join(format_number(mass.amount) for mass in masses) + f" {masses[0].unit}"


def _named(mass: Mass) -> str:
    return f"{format_number(mass.amount)} {mass.unit}"
