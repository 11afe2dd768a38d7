"""Sets, loads, reps and effort in the words a lifter uses."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import groupby

from pennate.app.card_text import effort_words, reps_or_more
from pennate.core.card import CardSet, Likely, SetState
from pennate.core.load_words import READING_WORDS, done_load_words
from pennate.core.loaded import Loaded
from pennate.core.performed import Effort, PerformedSet, SetKind, Side
from pennate.core.plural import plural
from pennate.core.prescribed import LoadFrom, LoadRule, Span
from pennate.core.quantities import LoadReading, Mass, format_number

EFFORT_WORDS: Mapping[Effort, str] = {
    Effort.FAIL: "missed one",
    Effort.NONE_LEFT: "none left",
    Effort.ONE: "1",
    Effort.TWO: "2",
    Effort.THREE: "3",
    Effort.FOUR_FIVE: "4–5",
    Effort.SIX_UP: "6 or more",
}

KIND_WORDS: Mapping[SetKind, str] = {
    SetKind.WARM_UP: "warm-up set",
    SetKind.WORKING: "set",
    SetKind.TOP: "top set",
    SetKind.BACK_OFF: "back-off set",
    SetKind.DROP: "drop",
    SetKind.AMRAP: "AMRAP set",
}

READING_CHOICES: tuple[tuple[str, str], ...] = (
    (LoadReading.TOTAL.value, "all together"),
    (LoadReading.EACH.value, "each of two"),
    (LoadReading.SIDE.value, "plates on one side"),
    (LoadReading.PLATES.value, "plates alone, all"),
    (LoadReading.LABEL.value, "the mark on it"),
)
"""The five ways to count a load, as a form offers them."""


def mass_words(mass: Mass) -> str:
    """A mass as written, with a true minus sign."""
    return f"{format_number(mass.amount)} {mass.unit}".replace("-", "−")


def load_suffix(load: Loaded) -> str:
    """What the number counts, where that is not the total."""
    if load.load.amount < 0:
        return "of help"
    return "" if load.bands else READING_WORDS[load.reading]


def load_words(load: Loaded | None) -> str:
    """A load in a line of text."""
    if load is None:
        return "body weight"
    if not load.load.amount:
        return "body weight" if load.felt == 0 else mass_words(load.load)
    mass = -load.load if load.load.amount < 0 else load.load
    return f"{mass_words(mass)} {load_suffix(load)}".rstrip()


def amount_words(one: CardSet) -> str:
    """Reps or seconds asked, without effort: “5–7”, “40 s”, “as many as you can”."""
    if one.seconds is not None:
        return f"{one.seconds} s"
    reps = one.reps or one.asked.reps
    if reps is None:
        return "as many as you can"
    return str(reps)


def on_item(name: str, item: str) -> str:
    """An exercise with what it is done on: “Overhead press · Dumbbells”."""
    return f"{name} · {item}" if item else name


def side_words(side: Side | None) -> str:
    """The side in words."""
    return "" if side is None else f"{side.value} side"


def place_words(one: CardSet, sets: Sequence[CardSet]) -> str:
    """Which of its kind a set is: “top set 2 of 2”, “round 2 of 3, left side”."""
    kind = (one.kind, one.test, one.side)
    same = [s for s in sets if (s.kind, s.test, s.side) == kind]
    number = next(i for i, s in enumerate(same, start=1) if s.key == one.key)
    name = "test set" if one.test else KIND_WORDS[one.kind]
    words = f"{name} {number} of {len(same)}"
    if len(same) == 1:
        words = "one set" if one.kind is SetKind.WORKING else name
    if one.round is not None and one.kind is not SetKind.WARM_UP:
        last = max(s.round or 0 for s in sets)
        words = f"round {one.round} of {last}" + (", drop" if one.kind is SetKind.DROP else "")
    return f"{words}, {side_words(one.side)}" if one.side else words


AFTER_TEST = "the lighter sets below are a careful guess until then"
"""Why working sets are lighter than the test set before them: few easy reps against many hard."""


def lighter_after(test: CardSet, sets: Sequence[CardSet]) -> bool:
    """Whether the first working set is lighter than the test set before it."""
    first = next((one for one in sets if one.kind is not SetKind.WARM_UP), None)
    if first is None or first.load is None or test.load is None:
        return False
    same = first.load.load.unit is test.load.load.unit and first.load.reading is test.load.reading
    return same and 0 < first.load.load.amount < test.load.load.amount


def stop_lines(sets: Sequence[CardSet]) -> list[str]:
    """The sets of an exercise in a few lines, alike ones gathered: “top 2 × 5–7 at 57.5 kg”."""
    one_side = [s for s in sets if s.side is not Side.RIGHT]
    each = ", each side" if any(s.side for s in sets) else ""
    lines = []
    for (kind, test), group in groupby(one_side, key=lambda s: (s.kind, s.test)):
        members = list(group)
        if kind is SetKind.WARM_UP:
            loads = _loads(members)
            why = f": {AFTER_TEST}" if test and lighter_after(members[-1], one_side) else ""
            lines.append(f"{'test' if test else 'warm-up'} {loads}{why}")
        elif kind is SetKind.DROP:
            lines.append(f"{plural(len(members), 'drop')} to {_loads(members)}")
        else:
            lines.extend(_alike(kind, members))
    if lines and each:
        lines[-1] += each
    return lines


def done_lines(sets: Sequence[CardSet]) -> list[str]:
    """What was done, sets at one load gathered: “150 lb × 5, 3”; warm-ups are left out."""
    done = [
        one.done
        for one in sets
        if one.state is SetState.DONE and one.done and one.kind is not SetKind.WARM_UP
    ]
    lines = []
    for load, group in groupby(done, key=done_load_words):
        counts = ", ".join(done_amount(one) for one in group)
        lines.append(f"{load} × {counts}" if load else counts)
    return lines


def done_amount(done: PerformedSet) -> str:
    """Reps or seconds done, with the side where there is one: “6”, “30 s left”."""
    amount = f"{format_number(done.seconds)} s" if done.seconds is not None else str(done.reps)
    return f"{amount} {done.side.value}" if done.side else amount


def _loads(members: Sequence[CardSet]) -> str:
    """Several loads with the unit named once: “20 · 40 kg”."""
    loads = [one.load for one in members]
    known = [load for load in loads if load is not None and load.load.amount > 0]
    if len(known) == len(loads) and len({(x.load.unit, x.reading) for x in known}) == 1:
        numbers = " · ".join(format_number(load.load.amount) for load in known)
        return f"{numbers} {known[0].load.unit} {load_suffix(known[0])}".rstrip()
    return " · ".join(load_words(load) for load in loads)


def _alike(kind: SetKind, members: Sequence[CardSet]) -> list[str]:
    name = "" if kind is SetKind.WORKING else KIND_WORDS[kind].removesuffix(" set") + " "
    lines = []
    for (amount, load, effort), group in groupby(
        members, key=lambda s: (amount_words(s), load_words(s.load), effort_words(s.asked))
    ):
        text = f"{name}{len(list(group))} × {amount}"
        text += f" at {load}" if load != "body weight" else ""
        lines.append(f"{text}, {effort}" if effort else text)
    return lines


def done_words(done: PerformedSet) -> str:
    """A set as it was done: “6 reps at 57.5 kg, 1 left”."""
    held = done.seconds is not None
    amount = done_amount(done) if held or done.side else plural(done.reps, "rep")
    load = done_load_words(done)
    parts = [f"{amount} at {load}" if load else amount]
    if done.effort is not None:
        words = EFFORT_WORDS[done.effort]
        parts.append(f"{words} left" if words[0].isdigit() else words)
    return ", ".join(parts)


def load_rule_words(rule: LoadRule) -> str:
    """How the load is found, where it is not the forecast that chooses."""
    if rule.source in {LoadFrom.OF_TOP, LoadFrom.OF_PREVIOUS} and rule.share is not None:
        of = "the top set" if rule.source is LoadFrom.OF_TOP else "the set before"
        return f"{format_number(rule.share * 100, 0)} % of {of}"
    if rule.source is LoadFrom.BODY_WEIGHT:
        return "body weight"
    if rule.mass is None:
        return "" if rule.source is LoadFrom.MODEL else str(rule.source)
    help_words = " of help" if rule.mass.amount < 0 else ""
    mass = -rule.mass if rule.mass.amount < 0 else rule.mass
    return f"at {mass_words(mass)} {READING_WORDS[rule.reading]}".rstrip() + help_words


def clock(seconds: float) -> str:
    """Seconds as minutes and seconds: 2:30."""
    minutes, rest = divmod(int(seconds), 60)
    return f"{minutes}:{rest:02d}"


def minutes_words(minutes: float) -> str:
    """Minutes as people say them: 64 min, 1 h 25 min."""
    hours, rest = divmod(round(minutes), 60)
    if not hours:
        return f"{rest} min"
    return f"{hours} h {rest} min" if rest else f"{hours} h"


def range_words(span: Span | None) -> str:
    """A span or a dash."""
    return "–" if span is None else str(span)


def likely_words(likely: Likely) -> str:
    """“likely 7, between 5 and 9”; at the most that is ever forecast “or more”."""
    if likely.low == likely.high:
        return f"likely {reps_or_more(likely.middle)}"
    span = f"between {likely.low} and {reps_or_more(likely.high)}"
    return f"likely {reps_or_more(likely.middle)}, {span}"
