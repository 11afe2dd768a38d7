"""The words of a passed-on routine: how many, how hard, after what rest, at which load."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from pennate.app.stranger import needed
from pennate.core.evidence.loading import (
    RAMP_FIRST_REPS,
    RAMP_FIRST_SHARE,
    RAMP_SECOND_REPS,
    RAMP_SECOND_SHARE,
)
from pennate.core.exercise import EquipmentKind
from pennate.core.follow import Group, Source
from pennate.core.performed import SetKind
from pennate.core.plural import plural
from pennate.core.prescribed import LoadFrom, PrescribedExercise, PrescribedSets
from pennate.core.week_time import rest_before_s, round_rest_s

UNTURNED = frozenset({SetKind.WARM_UP, SetKind.DROP})
"""Sets that are no round of a superset: before it, or hard upon a set."""
NAMES = {
    SetKind.WARM_UP: "warm-up set",
    SetKind.WORKING: "set",
    SetKind.TOP: "top set",
    SetKind.BACK_OFF: "back-off set",
    SetKind.DROP: "drop set",
    SetKind.AMRAP: "set of as many reps as you can",
}


def title_words(sets: PrescribedSets) -> str:
    """“2 top sets”."""
    if sets.kind is SetKind.AMRAP and sets.count > 1:
        return f"{sets.count} sets of as many reps as you can"
    return plural(sets.count, NAMES[sets.kind])


def amount_words(sets: PrescribedSets) -> str:
    """“8–12 reps”, “30–45 s held”; empty where the title has it."""
    if sets.reps is None and sets.seconds is not None:
        return f"{sets.seconds} s held"
    if sets.reps is None:
        return "" if sets.kind is SetKind.AMRAP else "reps left open"
    return f"{sets.reps} reps" if str(sets.reps) != "1" else "1 rep"


def effort_words(sets: PrescribedSets) -> str:
    """“stopping 1–2 before failure”; empty where it is left open."""
    if sets.to_failure:
        return "to failure"
    if sets.reserve is None:
        return ""
    if sets.reserve.high == 0:
        return "until no further rep is left"
    last = sets.reserve.low if sets.reserve.high is None else sets.reserve.high
    unit = "rep" if last == 1 else "reps"
    return f"stopping {sets.reserve} {unit} before failure"


@dataclass(frozen=True, slots=True)
class Turn:
    """The place of an exercise in a superset; without a mark it is in none."""

    mark: str = ""
    round_s: float = 0.0
    """Seconds of rest after a round."""

    @property
    def partner(self) -> bool:
        """Whether it follows another at once, so that no rest is told of it."""
        return bool(self.mark) and not self.mark.endswith("1")


def turn_of(letter: str, place: int, members: Sequence[PrescribedExercise]) -> Turn:
    """The turn of one member; after a round all rest as long as the one that needs it most."""
    if not letter:
        return Turn()
    hard = (sets for one in members for sets in one.sets if sets.kind not in UNTURNED)
    return Turn(f"{letter}{place + 1}", round_rest_s(map(rest_before_s, hard)))


def rest_words(sets: PrescribedSets, turn: Turn) -> str:
    """The rest before each set; inside a round of a superset there is none."""
    seconds = rest_before_s(sets)
    if not seconds:
        return "no rest before it"
    if turn.partner:
        return ""
    if sets.kind is SetKind.DROP:
        return f"{round(seconds)} s after the set before"
    if turn.mark and sets.kind not in UNTURNED:
        return f"rest {clock(max(seconds, turn.round_s))} after a round"
    return f"rest {clock(seconds)}"


def clock(seconds: float) -> str:
    """Seconds as minutes and seconds: 2:30."""
    minutes, rest = divmod(round(seconds), 60)
    return f"{minutes}:{rest:02d}"


def manner_words(sets: PrescribedSets, turn: Turn, *, styles: bool) -> list[str]:
    """Rest, tempo, style and partial reps; the style only where it may be told."""
    return [
        *filter(None, [rest_words(sets, turn)]),
        *([f"tempo {sets.tempo}: seconds down, held, up"] if sets.tempo else []),
        *([sets.style] if sets.style and styles else []),
        *([f"then {plural(sets.partials, 'partial rep')}"] if sets.partials else []),
    ]


RULES = {
    EquipmentKind.BANDS: "a band you could pull {times}",
    EquipmentKind.BODY_WEIGHT: "body weight, with so much added that you could do it {times}",
    EquipmentKind.ASSISTED: "so much help that you could do it {times}",
}
HELPABLE = (
    "body weight, with so much added, or taken off by a band or a machine, that you could do it "
    "{times}"
)
AS_WRITTEN = {
    LoadFrom.BODY_WEIGHT: "body weight alone",
    LoadFrom.EMPTY_BAR: "the empty bar",
}


def rule_words(
    sets: PrescribedSets, group: Group, kind: EquipmentKind, *, helpable: bool = False
) -> str:
    """How to find the load without arithmetic."""
    if sets.load.source in AS_WRITTEN:
        return AS_WRITTEN[sets.load.source]
    if group.source is Source.OF:
        of = "top load" if sets.load.source is LoadFrom.OF_TOP else "load before"
        of = "first working load" if group.warm_up else of
        return f"{group.share / 10:g} % of the {of}"
    if sets.reps is None:
        return "what you could hold for longer" if sets.seconds else "a load you know well"
    rule = HELPABLE if helpable else RULES.get(kind, "a load you could lift {times}")
    return rule.format(times=plural(needed(sets), "time"))


SHORT = {
    SetKind.WARM_UP: "warm-up ",
    SetKind.TOP: "top ",
    SetKind.BACK_OFF: "back-off ",
    SetKind.DROP: "drop ",
}


def short_words(sets: PrescribedSets, group: Group, turn: Turn) -> str:
    """“top 2 × 5–7, 1 left, rest 3:00”: what is asked in trade shorthand, for paper."""
    count = "" if sets.count == 1 and sets.kind is SetKind.WARM_UP else f"{sets.count} × "
    amount = f"{sets.seconds} s" if sets.reps is None and sets.seconds else str(sets.reps or "")
    amount = amount or "as many as you can"
    left = "" if sets.reserve is None else f"{sets.reserve} left"
    told = [
        f"{SHORT.get(sets.kind, '')}{count}{amount}",
        "to failure" if sets.to_failure else left,
        _short_rule(sets, group),
        "" if sets.kind is SetKind.WARM_UP else rest_words(sets, turn),
        f"tempo {sets.tempo}" if sets.tempo else "",
        f"{sets.partials} partials" if sets.partials else "",
    ]
    return ", ".join(filter(None, told))


def _short_rule(sets: PrescribedSets, group: Group) -> str:
    if sets.load.source in AS_WRITTEN:
        return AS_WRITTEN[sets.load.source]
    if group.source is not Source.OF:
        return ""
    of = "top" if sets.load.source is LoadFrom.OF_TOP and not group.warm_up else "the one before"
    return f"{group.share / 10:g} %" + ("" if group.warm_up else f" of {of}")


def ramp_words(*, two: bool) -> tuple[str, ...]:
    """The warm-up scheme: one set or two that rise to the first working load."""
    first = f"{RAMP_FIRST_REPS:g} reps at {RAMP_FIRST_SHARE * 100:g} % of the first load"
    second = f"{RAMP_SECOND_REPS:g} reps at {RAMP_SECOND_SHARE * 100:g} % of it"
    alone = f"{RAMP_SECOND_REPS:g} reps at {RAMP_SECOND_SHARE * 100:g} % of the first load"
    return (first, second) if two else (alone,)


def thousandths(share: Fraction | float) -> int:
    """A share in whole thousandths, rounded down."""
    return int(share * 1000)
