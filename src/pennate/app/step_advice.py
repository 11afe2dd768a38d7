"""What the next load up costs in reps on an item, and what to do while it costs too much."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf

from pennate.app.card_text import load_words
from pennate.core.exercise import EquipmentKind
from pennate.core.gym import AnyItem
from pennate.core.loaded import Loaded
from pennate.core.plural import plural
from pennate.core.prescribed import Span
from pennate.core.quantities import LoadReading, Mass, format_number
from pennate.loading import Advice, Remedy, RepsAt, step_cost

THINGS = {
    EquipmentKind.DUMBBELLS: ("dumbbell", "pair of dumbbells"),
    EquipmentKind.KETTLEBELLS: ("kettlebell", "pair of kettlebells"),
    EquipmentKind.FIXED_BARBELLS: ("fixed barbell", "fixed barbell"),
    EquipmentKind.STACK: ("pin place", "pin place"),
    EquipmentKind.CABLE: ("pin place", "pin place"),
    EquipmentKind.ASSISTED: ("pin place", "pin place"),
    EquipmentKind.BANDS: ("band", "band"),
}
"""What the next step is called, one and two of it; loads of plates are just loads."""

MEANWHILE = {
    Remedy.REPS_FIRST: "more reps first",
    Remedy.WIDER_RANGE: "a wider range",
    Remedy.HARDER_REPS: "harder reps",
    Remedy.SMALL_PLATES: "small plates",
    Remedy.OTHER_ITEM: "another machine",
}


NO_REP = "no full rep"

MEETS, NEARER = "likely meets the", "comes nearer to the"
OFFER_SLACK = 1  # number: ours; less than two reps, by which results differ as a rule
"""Reps by which the forecast of the moment may speak against an offer once made."""


@dataclass(frozen=True, slots=True)
class StepWords:
    """The cost of the step in one line, and the remedies with their numbers in order."""

    words: str
    too_big: bool
    more: tuple[str, ...] = ()

    @property
    def lines(self) -> tuple[str, ...]:
        """Everything, the cost first."""
        return (self.words, *self.more)


def step_words(
    item: AnyItem, rungs: Sequence[Loaded], at: float, reps_at: RepsAt, body_kg: float = 0.0
) -> StepWords:
    """What the step up from felt load `at` costs; `body_kg` is the body mass moved."""
    cost = step_cost(rungs, at, reps_at, body_kg)
    more = tuple(_sentence(one.words) for one in cost.advice)
    if cost.next is None:
        return StepWords(more[0], cost.too_big)
    step = f"{_thing(item, cost.next)}, {_load(cost.next)}, is {_share(cost.share)} up"
    told = f"The next {step}, about {_reps(cost.reps_lost)} fewer"
    if not cost.too_big:
        return StepWords(f"{told}.", cost.too_big)
    return StepWords(f"{told}; {_meanwhile(cost.advice)}.", cost.too_big, more)


def below_words(rungs: Sequence[Loaded], load: Loaded, reps_at: RepsAt, where: str) -> str:
    """Reps to failure in a set at a load that is too heavy, and at the next load down."""
    whole = round(reps_at(load.felt_kg))
    told = f"about {plural(whole, 'rep')}" if whole > 0 else NO_REP
    here = f"{told} to failure in {where}"
    following = next_down(rungs, load)
    if following is None:
        return f"{here}, and nothing lighter can be made"
    more = round(reps_at(following.felt_kg))
    there = f"about {more}" if more > 0 else NO_REP
    return f"{here}, {there} at {load_words(following)}, the next load down"


def next_down(rungs: Sequence[Loaded], load: Loaded) -> Loaded | None:
    """The next load the item makes below this one."""
    lighter = [one for one in rungs if one.felt < load.felt]
    return max(lighter, key=lambda one: one.felt, default=None)


def offer_words(
    rungs: Sequence[Loaded],
    load: Loaded,
    sets: Sequence[RepsAt],
    reps: Span,
    left: Span,
    *,
    made: bool = False,
    off: int = 0,
) -> str:
    """The next load down, where it likely meets the asked reps in every set and this one not.

    `sets` tell reps to failure in each set to come; `left` is the reserve asked for. An offer once
    `made` stands until the forecast, `off` by so many reps, clearly speaks against it.
    """
    following = next_down(rungs, load)
    if following is None or not sets:
        return ""
    here, there = (
        [max(0, round(at(one.felt_kg)) + off) for at in sets] for one in (load, following)
    )
    low, most = max(reps.low + left.low, 1), _most(reps, left)  # a range from nought asks for one
    missed, miss_here = (_missed(counts, low, most) for counts in (there, here))
    slack = OFFER_SLACK if made else 0
    if min(here) >= low + slack or missed > slack or missed >= max(miss_here, 1):
        return ""
    return (
        f"One step lighter, {load_words(following)}, {NEARER if missed else MEETS} {reps} reps: "
        f"about {_counts(there)} to failure there, {_counts(here)} here"
    )


def offers_off(
    rungs: Sequence[Loaded], load: Loaded, sets: Sequence[RepsAt], reps: Span, left: Span
) -> tuple[tuple[int, str], ...]:
    """An offer made, by how many reps the forecast comes to be off, as long as it stands."""
    found = {}
    for way in (1, -1):
        off = min(way, 0)
        while words := offer_words(rungs, load, sets, reps, left, made=True, off=off):
            found[off] = words
            off += way
    return tuple(sorted(found.items()))


def _missed(counts: Sequence[int], low: int, most: float) -> float:
    """By how many reps the worst of these sets misses the range; none inside it."""
    return max(low - min(counts), max(counts) - most, 0)


def _most(reps: Span, left: Span) -> float:
    """The most reps to failure with which the asked ones still leave what is asked."""
    return inf if reps.high is None or left.high is None else reps.high + left.high


def _counts(reps: Sequence[int]) -> str:
    """“8”, or “8–10” over the sets; none is said as that."""
    low, high = min(reps), max(reps)
    return str(Span(low, high)) if high else "none"


def _thing(item: AnyItem, following: Loaded) -> str:
    one, two = THINGS.get(item.kind, ("load", "load"))
    return two if following.count > 1 else one


def _load(following: Loaded) -> str:
    helping = following.load.amount < 0
    words = _mass(-following.load if helping else following.load)
    if helping:
        return f"{words} of help"
    return f"{words} each" if following.reading is LoadReading.EACH else words


def _mass(mass: Mass) -> str:
    return f"{format_number(mass.amount)} {mass.unit}"


def _share(share: float) -> str:
    return f"{100 * share:.0f} %" if share >= 0.01 else "less than 1 %"


def _reps(lost: float) -> str:
    whole = max(1, round(lost))
    return f"{whole} rep" if whole == 1 else f"{whole} reps"


def _meanwhile(advice: Sequence[Advice]) -> str:
    """“more reps first, then a wider range, harder reps or another machine”."""
    first, *rest = (MEANWHILE[one.remedy] for one in advice)
    if not rest:
        return first
    *early, last = rest
    return f"{first}, then {', '.join(early)} or {last}" if early else f"{first}, then {last}"


def _sentence(words: str) -> str:
    bare = words.removeprefix("or ")
    return f"{bare[:1].upper()}{bare[1:]}."
