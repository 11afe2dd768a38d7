"""One exercise: how strong, how sure, what comes next and why."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from urllib.parse import urlencode

from pennate.app.catalogue import needs_line
from pennate.app.counted import counted_words
from pennate.app.exercise_view import ExerciseView, SetPoint, told_of
from pennate.app.strength_trend import trend_words
from pennate.app.strength_words import (
    halt_words,
    no_load_words,
    sentence,
    step_sentence,
)
from pennate.core.evidence.session import (
    LARGEST_RAISE,
    SURE_ENOUGH,
    SURE_ENOUGH_FIRST,
    SURE_ENOUGH_LATER,
)
from pennate.core.evidence.strength_steps import PLATEAU_WEEKS, STALLED_ABOVE
from pennate.core.exercise import Exercise
from pennate.core.facts import Facts
from pennate.core.load_words import done_load_words, told_load_words
from pennate.core.muscles import GROUP_SHARES, PART_NAMES, Part
from pennate.core.percent import chance, percent
from pennate.core.performed import Effort, PerformedSet
from pennate.core.plural import plural
from pennate.core.quantities import format_number
from pennate.estimate import Step
from pennate.sheets.strength_chart import Estimate, StrengthChart
from pennate.sheets.strength_chart import SetPoint as ChartPoint
from pennate.web.views.week import sets_words
from pennate.web.words import EFFORT_WORDS, KIND_WORDS

COUNTS = "bar and plates, both dumbbells, and your share of body mass where you lift it"
LABEL_COUNTS = "what this machine's mark says; it means nothing on another machine"

NEXT_RULE = (
    f"the load of last time is held while the low end has a chance of {percent(SURE_ENOUGH_LATER)}"
    " in every set and the top is not clearly passed; else the heaviest is taken at which the low"
    f" end has {percent(SURE_ENOUGH)} ({percent(SURE_ENOUGH_FIRST)} the first time somewhere),"
    f" {percent(LARGEST_RAISE)} or one step higher at most"
)


MOST_ROWS = 120
"""Sets in the table behind the chart, newest first."""
MOST_HOLDS = 20
"""Holds told, newest first."""
BY_HAND = {Step.EASIER, Step.WIDER_RANGE, Step.MORE_SETS, Step.SWAP}
"""Steps that change what the week asks for; a card only chooses loads."""
TO_THE_END = {Effort.FAIL.value, Effort.NONE_LEFT.value}


@dataclass(frozen=True, slots=True)
class SetRow:
    """One set in the table behind the chart."""

    day: str
    kind: str
    load: str
    reps: str
    effort: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ExercisePage:
    """Everything the page of an exercise shows."""

    id: str
    name: str
    about: str
    cue: str
    next: str
    next_facts: Facts
    step: str
    """What the next load up costs, where it is too far to take now."""
    meanwhile: tuple[str, ...]
    ladder: tuple[str, ...]
    """Where she stands on the way to the unassisted rep, and what comes next when."""
    rungs: tuple[tuple[str, bool], ...]
    """All rungs, easiest first, and which is hers."""
    has_chart: bool
    now: str
    counted: str
    """What the 1RM counts beside the load as written."""
    trend: str
    halt: str
    now_facts: Facts
    chart: str
    """Address of the chart, with the item in it."""
    why_at: str
    """Address of the same page with the sets that moved the estimate."""
    chart_alt: str
    chart_words: str
    rows: tuple[SetRow, ...]
    older: str
    nothing: str
    holds: tuple[str, ...]
    trains: Facts
    facts: Facts
    other_items: Facts
    unnamed: str
    """What its sets without equipment are taken to be done on."""
    choose_at: str
    """Where her week says what it is done on."""
    by_hand: Facts
    """Where the step is taken that no card takes for her: addresses and days."""
    why: tuple[str, ...] = ()


def group_of(exercise: Exercise) -> str:
    """The gym word for what an exercise trains most."""
    weights = exercise.weights()
    if not weights:
        return "other"
    best = max(Part, key=lambda part: weights.get(part, Fraction(0)))
    return next((group.value for group, parts in GROUP_SHARES.items() if best in parts), "other")


def exercise_page(
    exercise: Exercise, seen: ExerciseView, why: tuple[str, ...] = ()
) -> ExercisePage:
    """The page of an exercise on one item."""
    now = seen.now
    return ExercisePage(
        id=exercise.id,
        name=exercise.name,
        about=" · ".join(
            part for part in (seen.item_name, ", ".join(exercise.other_names)) if part
        ),
        cue=exercise.cue,
        next=_next(seen),
        next_facts=_next_facts(seen),
        step=_step(seen),
        meanwhile=_meanwhile(seen),
        ladder=seen.ladder.lines if seen.ladder else (),
        rungs=_rungs(seen),
        has_chart=bool(told_of(seen.sets)),
        now=f"1RM {now.middle:.0f} kg",
        counted=counted_words(exercise, seen),
        trend=trend_words(seen),
        halt=halt_words(seen.halt, seen.next),
        now_facts=_now_facts(seen),
        chart=f"/exercises/{exercise.id}/chart.svg?{urlencode({'item': seen.item})}",
        why_at=f"/exercises/{exercise.id}?{urlencode({'item': seen.item, 'why': 1})}#why",
        chart_alt=_spoken(exercise, seen),
        chart_words=(
            "Line: strength, with the range that holds it eight times in ten. Circles: sets to the"
            " end; triangles: sets stopped before, so at least that. A point is what the set alone"
            " would mean by your own curve, had you been fresh: tired sets lie lower. Dashed:"
            " the coming four weeks, if you train on as before."
        ),
        rows=tuple(_row(exercise, one) for one in reversed(seen.sets[-MOST_ROWS:])),
        older=_older(len(seen.sets)),
        nothing=_nothing(exercise, seen),
        holds=_holds(seen),
        trains=tuple(
            (PART_NAMES[part], f"{format_number(weight)} of a set")
            for part, weight in sorted(exercise.weights().items(), key=lambda pair: -pair[1])
        ),
        facts=_facts(exercise),
        other_items=seen.other_items,
        unnamed=sentence(seen.unnamed) if seen.unnamed else "",
        choose_at="/week/{}/{}".format(*seen.planned_at) if seen.planned_at else "",
        by_hand=_by_hand(seen),
        why=why,
    )


def _next(seen: ExerciseView) -> str:
    if seen.next is not None:
        return step_sentence(seen.next, seen.next_load)
    if not told_of(seen.sets):
        return ""
    if seen.planned and seen.other_items:
        return "Your week asks for it on another item: “also done on”, below, leads there."
    if seen.planned:
        return (
            "Your week asks for it on an item that has no set yet; the card of that day has the"
            " load, on the safe side until some sets have told more."
        )
    return "Your week does not ask for it, so nothing comes next; put it into a day on Week."


def _nothing(exercise: Exercise, seen: ExerciseView) -> str:
    """What stands in the place of the chart."""
    if seen.holds:
        return "Held for time: seconds have no load of one repetition, so no strength is drawn."
    if exercise.timed:
        return "Not done yet. Log a hold, and its seconds stand here."
    if seen.sets:
        return no_load_words(len(seen.sets))
    if seen.other_items:
        return f"Not done on {seen.item_name} yet: its strength shows from the first set on."
    return "Not done yet. Log a set, or remember one on the start page, and its strength shows."


def _holds(seen: ExerciseView) -> tuple[str, ...]:
    """The holds, newest first: “22 Nov 2026: 60 s”."""
    return tuple(_hold(one) for one in reversed(seen.holds[-MOST_HOLDS:]))


def _hold(done: PerformedSet) -> str:
    load = f" with {done_load_words(done)}" if done.load else ""
    side = f" {done.side.value}" if done.side else ""
    return f"{done.day:%-d %b %Y}: {format_number(done.seconds or 0)} s{side}{load}"


def _too_far(seen: ExerciseView) -> bool:
    """Whether the next load up is too far, and neither taken nor out of the question."""
    away = {Step.RAISE, Step.LOWER, Step.EASIER}
    wanted = seen.next is None or seen.next.step not in away
    return seen.step is not None and seen.step.too_big and wanted


def _step(seen: ExerciseView) -> str:
    """The cost of the step, where the proposal does not say it already."""
    told = seen.next is not None and seen.next.step is Step.WIDER_RANGE
    return seen.step.words if seen.step and _too_far(seen) and not told else ""


def _meanwhile(seen: ExerciseView) -> tuple[str, ...]:
    """What to do until the step is near enough, but for what the proposal says already."""
    if seen.step is None or not _too_far(seen):
        return ()
    told = seen.next.reason if seen.next else ""
    return tuple(line for line in seen.step.more if line.rstrip(".") not in told)


def _by_hand(seen: ExerciseView) -> Facts:
    if seen.next is None or seen.next.step not in BY_HAND:
        return ()
    return tuple((f"/week/{day}/{place}", day) for day, place in seen.places)


def _rungs(seen: ExerciseView) -> tuple[tuple[str, bool], ...]:
    if seen.ladder is None:
        return ()
    return tuple((words, place == seen.ladder.at) for place, words in enumerate(seen.ladder.rungs))


def _next_facts(seen: ExerciseView) -> Facts:
    if seen.next is None or seen.asked is None:
        return ()
    return (
        ("asked", sets_words(seen.asked)),
        ("step", seen.next.step.value),
        ("felt load", f"{seen.next.felt_kg:.1f} kg"),
        ("chance", f"{chance(seen.next.probability)}: {seen.next_odds}"),
        ("rule", NEXT_RULE),
        ("rests on", _behind(seen)),
        ("source", "your log; constants and sources: pennate evidence session"),
    )


def _behind(seen: ExerciseView) -> str:
    """How many sets speak here, and how many of the same exercise elsewhere."""
    here, all_told = len(told_of(seen.sets)), seen.sets_behind
    words = plural(here, "working set")
    return f"{words} here, {all_told - here} elsewhere" if all_told > here else words


def _now_facts(seen: ExerciseView) -> Facts:
    return (
        ("what", "the load you could feel moving once today, fresh, on this item"),
        ("counts", LABEL_COUNTS if seen.label else COUNTS),
        ("rests on", _behind(seen)),
        ("rule", "one model of your strength, updated set by set: the day, fatigue, reserve"),
        ("range", f"{seen.now.low:.1f} to {seen.now.high:.1f} kg holds it eight times in ten"),
        ("±", "95 times in a hundred the change lies within; if it could be nought: cannot tell"),
        (
            "in four weeks",
            f"{seen.ahead[-1].low:.0f} to {seen.ahead[-1].high:.0f} kg, if you train on as before",
        ),
        *_stall(seen),
        *_by_equation(seen),
        ("source", "your log; constants and sources: pennate evidence strength"),
    )


def _stall(seen: ExerciseView) -> Facts:
    """What a stall is measured against, and from when it is called one."""
    if seen.halt is None:
        return ()
    words = (
        f"the gain over {PLATEAU_WEEKS:g} weeks, or since a pause, beside what is usual of people"
        f" trained as long; called one from a chance of {percent(STALLED_ABOVE)}"
    )
    return (("a stall", words),)


def _by_equation(seen: ExerciseView) -> Facts:
    """What a published equation makes of the last session's best set, for comparison only."""
    last = [p for p in seen.sets if p.day == seen.sets[-1].day and p.by_equation is not None]
    best = max((p.by_equation or 0.0 for p in last), default=0.0)
    if not best:
        return ()
    words = f"{best:.0f} kg from the best set of {seen.sets[-1].day:%-d %B}, by Epley's equation"
    return (("for comparison", words),)


def _spoken(exercise: Exercise, seen: ExerciseView) -> str:
    if not seen.strength:
        return f"{exercise.name}: no strength to draw yet"
    first = seen.strength[0]
    return (
        f"{exercise.name}: strength from {first.middle:.0f} kg on {first.day:%-d %B %Y}"
        f" to {seen.now.middle:.0f} kg now, and in four weeks {seen.ahead[-1].low:.0f} to"
        f" {seen.ahead[-1].high:.0f} kg if you train on; the sets stand in the table below"
    )


def _older(count: int) -> str:
    return f"{plural(count - MOST_ROWS, 'older set')} not shown" if count > MOST_ROWS else ""


def _row(exercise: Exercise, point: SetPoint) -> SetRow:
    done = point.done
    return SetRow(
        day=f"{point.day:%-d %b %Y}",
        kind=KIND_WORDS[done.kind].removesuffix(" set"),
        load=told_load_words(done, exercise),
        reps=f"{done.reps} {done.side.value}" if done.side else str(done.reps),
        effort=EFFORT_WORDS[done.effort] if done.effort else "",
    )


def _facts(exercise: Exercise) -> Facts:
    return (
        ("evidence", exercise.evidence),
        ("sides", exercise.sides.value),
        ("equipment", ", ".join(kind.value for kind in exercise.equipment)),
        *((("needs", words),) if (words := needs_line(exercise)) else ()),
        ("to failure", exercise.failure_safety.value),
        ("joints", ", ".join(f"{joint.value} {load}" for joint, load in exercise.joints.items())),
    )


def chart_of(seen: ExerciseView) -> StrengthChart:
    """The chart's plain values."""
    return StrengthChart(
        unit="kg felt, one rep",
        line=[Estimate(p.day, p.middle, p.low, p.high) for p in (*seen.strength, seen.now)],
        points=[
            ChartPoint(p.day, p.by_curve, "fixed" if p.effort in TO_THE_END else "at least")
            for p in seen.sets
            if p.by_curve is not None
        ],
        ahead=[Estimate(p.day, p.middle, p.low, p.high) for p in seen.ahead],
    )
