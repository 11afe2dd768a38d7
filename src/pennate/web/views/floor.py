"""The Floor: one set at a time, everything about it and nothing else."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from markupsafe import Markup

from pennate.app.card_text import effort_words
from pennate.core.card import Card, CardSet, CardStop, Likely, SetState
from pennate.core.caution_texts import Caution
from pennate.core.exercise import EquipmentKind
from pennate.core.gym import AnyItem, BandSet, Bar, Sled, usual_reading
from pennate.core.loaded import Loaded
from pennate.core.performed import PerformedSet, SetKind
from pennate.core.plural import plural
from pennate.core.quantities import LoadReading, exact_text, format_number
from pennate.web.views.plates import pull_before
from pennate.web.words import (
    EFFORT_WORDS,
    READING_CHOICES,
    amount_words,
    clock,
    done_words,
    likely_words,
    load_suffix,
    load_words,
    place_words,
)

SET_UP = ("safeties", "stops", "pain")
"""Cautions about what to set up or to change, by the beginning of their ids."""
NUMBERS = 5
"""Rep numbers offered to close an open-ended set."""
HOLD_STEP_S = 5
"""Seconds between the numbers offered for a hold."""


@dataclass(frozen=True, slots=True)
class Around:
    """The load shown and its neighbours on this item, with what is likely at it."""

    here: Loaded | None
    lighter: Loaded | None = None
    heavier: Loaded | None = None
    likely: Likely | None = None
    by_hand: bool = False
    """The lifter moved the load away from the one planned."""


@dataclass(frozen=True, slots=True)
class LoadWords:
    """The load in the parts the page sets apart."""

    number: str
    unit: str
    suffix: str
    words: str
    """What to put on, for the name of the drawing."""
    amount: str
    """Exact value for the form; empty for body weight alone."""
    form_unit: str
    reading: str


@dataclass(frozen=True, slots=True)
class Step:
    """A neighbouring load the − or + goes to."""

    value: str
    words: str


@dataclass(frozen=True, slots=True)
class Closing:
    """How the set is closed in one touch: `done` with a fixed value, or one of five numbers."""

    numbers: tuple[int, ...]
    middle: int
    unit: str
    """`reps` or `seconds`."""
    done: bool
    question: str


@dataclass(frozen=True, slots=True)
class EffortKey:
    """One answer to how much was left."""

    value: str
    words: str
    chosen: bool


@dataclass(frozen=True, slots=True)
class Rest:
    """The rest before this set: asked, and passed since the last set where known."""

    asked_s: int
    asked: str
    passed_s: int | None
    passed: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FloorSet:
    """Everything the page shows about the set to be done."""

    key: str
    stop_index: int
    exercise: str
    item_id: str
    name: str
    place: str
    together: str
    settings: tuple[tuple[str, str], ...]
    cue: str
    next_time: str
    set_up: tuple[str, ...]
    """Cautions to heed before the load goes on."""
    cautions: tuple[str, ...]
    replaced: str
    load: LoadWords
    picture: Markup
    lighter: Step | None
    heavier: Step | None
    by_hand: bool
    moves: str
    pull: str
    """Which plates to pull before a drop."""
    amount: str
    amount_unit: str
    effort: str
    extra: str
    likely: str
    why: str
    step: tuple[str, ...]
    """What the next load up costs, where it was too far to take."""
    ladder: str
    """Where she stands on the way to the unassisted rep."""
    offer: str
    """A lighter load that likely meets the asked reps, which she may take."""
    change: str
    keep: str
    other_load: str
    """What another load is asked for as: load, or help."""
    readings: tuple[tuple[str, str], ...]
    usual_reading: str
    closing: Closing
    efforts: tuple[EffortKey, ...]
    rest: Rest
    then: str


@dataclass(frozen=True, slots=True)
class Last:
    """The set closed last, which can be undone until the next one is closed."""

    id: str
    words: str


def floor_set(
    card: Card, key: str, around: Around, *, picture: Markup, chosen: str, now: datetime
) -> FloorSet:
    """The set with this key as the page shows it; raises KeyError for an unknown key."""
    found = card.find(key)
    if found is None:
        raise KeyError(key)
    stop, one = found
    amount, unit = _split_amount(one)
    whole_day = (caution for caution in card.cautions if caution.emergency)
    cautions = (*whole_day, *_cautions(stop, one))
    return FloorSet(
        key=key,
        stop_index=stop.index,
        exercise=stop.exercise,
        item_id=stop.item.id if stop.item else "",
        name=stop.name,
        place=place_words(one, stop.sets),
        together=_partners(card, stop),
        settings=tuple(stop.notes.settings.items()),
        cue=stop.cue,
        next_time=stop.notes.next_time,
        set_up=tuple(c.text for c in cautions if before_loading(c)),
        cautions=tuple(c.text for c in cautions if not before_loading(c)),
        replaced=stop.replaced,
        load=load_parts(around.here),
        picture=picture,
        lighter=_step(around.lighter),
        heavier=_step(around.heavier),
        by_hand=around.by_hand,
        moves=_moves(stop, one),
        pull=pull_before(stop, one, around.here),
        amount=amount,
        amount_unit=unit,
        effort=effort_words(one.asked),
        extra=_extra(one),
        likely=_likely(around.likely or one.likely, one),
        why=one.why,
        step=one.step,
        ladder=stop.ladder,
        offer="" if around.by_hand or not one.offer else offer_line(one.offer),
        change="" if around.by_hand else one.change,
        keep=load_words(one.refusable) if one.refusable and not around.by_hand else "",
        other_load="Help" if stop.item and takes_off(stop.item) else "Load",
        readings=READING_CHOICES,
        usual_reading=_usual_reading(stop, one),
        closing=closing_of(one, around.likely or one.likely),
        efforts=_efforts(chosen),
        rest=_rest(card, one, now),
        then=_then(card, key),
    )


def offer_line(offer: str) -> str:
    """An offer with the key that takes it."""
    return f"{offer}; − takes it."


def takes_off(item: AnyItem) -> bool:
    """Whether a number on this item is help: she writes it without a sign."""
    return item.kind is EquipmentKind.ASSISTED or (isinstance(item, BandSet) and item.assists)


def _usual_reading(stop: CardStop, one: CardSet) -> str:
    """How a load of this item is said: of the load shown, else of the item."""
    if one.load is not None:
        return one.load.reading.value
    return (usual_reading(stop.item) if stop.item else LoadReading.TOTAL).value


def last_done(card: Card) -> Last | None:
    """The set closed last today, if any."""
    done = _latest(card)
    return Last(done.id, done_words(done)) if done else None


def load_parts(load: Loaded | None) -> LoadWords:
    """A load cut into number, unit and what the number counts."""
    if load is None or (not load.load.amount and not load.felt):
        return LoadWords("body weight", "", "", "body weight", "", "", "")
    mass = load.load
    return LoadWords(
        number=format_number(abs(mass.amount)),
        unit=str(mass.unit),
        suffix="" if load.reading is LoadReading.LABEL else load_suffix(load),
        words=load.words or load_words(load),
        amount=exact_text(mass.amount),
        form_unit=str(mass.unit),
        reading=str(load.reading),
    )


def closing_of(one: CardSet, likely: Likely | None) -> Closing:
    """Done for a fixed target short of failure, else five numbers around what is likely."""
    if one.seconds is not None:
        low, high = one.seconds.low, one.seconds.high
        fixed = high == low and not one.asked.to_failure
        middle = low if high is None else (low + high) // 2
        return Closing(_numbers(middle, HOLD_STEP_S), middle, "seconds", fixed, "How many seconds?")
    reps = one.reps or one.asked.reps
    open_ended = one.asked.to_failure or one.kind in {SetKind.AMRAP, SetKind.DROP}
    fixed = reps is not None and reps.low == reps.high and not open_ended
    if fixed and reps is not None:
        return Closing(_numbers(reps.low, 1), reps.low, "reps", done=True, question="As asked?")
    middle = likely.middle if likely else _middle(one)
    return Closing(_numbers(middle, 1), middle, "reps", done=False, question="How many?")


def _middle(one: CardSet) -> int:
    reps = one.reps or one.asked.reps
    if reps is None:
        return 10
    return reps.low if reps.high is None else (reps.low + reps.high) // 2


def _numbers(middle: int, step: int) -> tuple[int, ...]:
    first = max(step, middle - step * (NUMBERS // 2))
    return tuple(first + step * index for index in range(NUMBERS))


def _split_amount(one: CardSet) -> tuple[str, str]:
    if one.seconds is not None:
        return str(one.seconds), "seconds"
    words = amount_words(one).replace(" or more", "+")
    if not words[0].isdigit():
        return words, ""
    return words, "rep" if words == "1" else "reps"


def _extra(one: CardSet) -> str:
    parts = []
    if one.asked.partials:
        parts.append(f"then {plural(one.asked.partials, 'partial rep')}")
    if one.asked.style:
        parts.append(one.asked.style.replace("_", " "))
    if one.asked.tempo:
        parts.append(f"tempo {one.asked.tempo}")
    if one.test:
        parts.append(f"{one.asked.note} The loads after it follow from that.")
    return " · ".join(parts)


def _likely(likely: Likely | None, one: CardSet) -> str:
    if likely is None or one.kind is SetKind.WARM_UP or one.seconds is not None:
        return ""
    return likely_words(likely)


def _moves(stop: CardStop, one: CardSet) -> str:
    """Plates to put on or take off; nothing else is moved a side."""
    if not one.moves or not isinstance(stop.item, Bar | Sled):
        return ""
    return f"{plural(one.moves, 'plate move')} a side"


def _cautions(stop: CardStop, one: CardSet) -> tuple[Caution, ...]:
    """Emergency lines at every set; the rest once, at the first hard set of the exercise."""
    hard = [s for s in stop.sets if s.kind is not SetKind.WARM_UP]
    first = bool(hard) and hard[0].key == one.key
    return tuple(caution for caution in stop.cautions if caution.emergency or first)


def before_loading(caution: Caution) -> bool:
    """Whether a caution asks to set something up, or to stop, before anything is lifted."""
    return caution.emergency or caution.id.startswith(SET_UP)


def _partners(card: Card, stop: CardStop) -> str:
    if not stop.superset:
        return ""
    names = [s.name for s in card.stops if s.superset == stop.superset and s is not stop]
    return "with " + " and ".join(names) if names else ""


def _step(load: Loaded | None) -> Step | None:
    if load is None:
        return None
    return Step(f"{exact_text(load.load.amount)} {load.load.unit}", load_words(load))


def _efforts(chosen: str) -> tuple[EffortKey, ...]:
    return tuple(
        EffortKey(effort.value, words, effort.value == chosen)
        for effort, words in EFFORT_WORDS.items()
    )


def _latest(card: Card) -> PerformedSet | None:
    done = [
        one.done
        for stop in card.stops
        for one in stop.sets
        if one.state is SetState.DONE and one.done
    ]
    return max(done, key=lambda d: d.number, default=None)


def _rest(card: Card, one: CardSet, now: datetime) -> Rest:
    latest = _latest(card)
    passed = None
    if latest is not None and isinstance(latest.when, datetime):
        when = latest.when
        passed = max(0, int((now.replace(tzinfo=when.tzinfo) - when).total_seconds()))
    return Rest(
        one.rest_s,
        clock(one.rest_s) if one.rest_s else "",
        passed,
        "" if passed is None else clock(passed),
    )


def _then(card: Card, key: str) -> str:
    """What comes after this set, in one line."""
    keys: Sequence[str] = card.order
    rest = keys[keys.index(key) + 1 :] if key in keys else ()
    for later in rest:
        found = card.find(later)
        if found and found[1].state is SetState.OPEN:
            return _then_words(found, card.find(key))
    return "that was the last set"


def _then_words(found: tuple[CardStop, CardSet], before: tuple[CardStop, CardSet] | None) -> str:
    stop, one = found
    name = "" if before and before[0] is stop else f"{stop.name}: "
    amount, unit = _split_amount(one)
    asked = f"{amount} {unit}".strip()
    return f"{name}{place_words(one, stop.sets)}, {asked} at {load_words(one.load)}"
