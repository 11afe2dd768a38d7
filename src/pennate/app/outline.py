"""The outline of a session before any load: its stops on items, their sets, the order."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from fractions import Fraction

from pennate.app.back_again import Pause, back_at, gentle, gently, pause_before
from pennate.app.day import DayState
from pennate.app.first_load import known_sets
from pennate.app.session_stop import Stop
from pennate.app.slots import Slot, in_order, slots_of, superset_runs
from pennate.app.stops import SHARED_KINDS, StopPlan, stop_plans
from pennate.app.written_loads import held_count, written_loads
from pennate.body.pain import PainReport
from pennate.core.cautions import Limits, limits_for
from pennate.core.evidence.dose import USUAL_REST_S, WARM_UP_REST_S
from pennate.core.evidence.session import FAMILIAR_SETS, HEAVY_REPS
from pennate.core.evidence.strength_levels import USUAL_MASS
from pennate.core.exercise import Catalogue
from pennate.core.felt import body_share
from pennate.core.gym import Gym, usual_reading
from pennate.core.history import History
from pennate.core.performed import PerformedSet, SetKind, Side
from pennate.core.prescribed import LoadFrom, LoadRule, PlannedDay, PrescribedSets, Span
from pennate.core.profile import Profile
from pennate.core.quantities import LoadReading
from pennate.core.session_time import TimedSet
from pennate.core.week_time import Pace, group_key, needs_ramp, warm_key
from pennate.estimate import Exposure, StrengthModel
from pennate.loading import RampSet, Warmth, calibration, ladder, ramp

CARD_KEY = "card_key"
"""Column of the log that ties a performed set to its place on the card."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DayInputs:
    """All that a session card is made from; nothing else enters it."""

    planned: PlannedDay
    state: DayState
    catalogue: Catalogue
    gym: Gym | None
    profile: Profile
    history: History
    """All sets, today's included."""
    model: StrengthModel
    """As of the morning: replayed from every set before today."""
    now: datetime
    remembered: frozenset[str] = frozenset()
    """Exercises with a remembered set."""
    pain: tuple[PainReport, ...] = ()
    """Every pain of a joint she named, with the morning after where she noted it."""
    apart: tuple[str, ...] = ()
    """What old sets of today's exercises wait for before they count: a sentence each."""
    illness: Pause | None = None
    """The easy days of an illness that this day lies in."""
    pace: Pace = Pace()
    """How long her sessions take against the time model, as for the week."""

    @property
    def done_today(self) -> tuple[PerformedSet, ...]:
        """Sets of this session that are in the ledger."""
        return tuple(
            done
            for done in self.history.since(self.state.day)
            if done.day == self.state.day and done.session == self.state.session
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline:
    """Stops, sets and order, before loads."""

    plans: Mapping[int, StopPlan]
    stops: Mapping[int, Stop]
    slots: Mapping[int, tuple[Slot, ...]]
    runs: tuple[tuple[int, ...], ...]
    order: tuple[tuple[int, Slot], ...]
    remarks: tuple[str, ...]


def outline_of(inputs: DayInputs, known: Outline | None = None) -> Outline:
    """Everything about the session that does not depend on strength.

    Stops that stand as in `known`, an outline of the same day, are taken from it.
    """
    plans = stop_plans(inputs.planned, inputs.state, inputs.catalogue, inputs.gym)
    limits = limits_for(inputs.profile.health)
    stops = {plan.index: _known(plan, known) or stop_of(plan, inputs) for plan in plans}
    slots = {plan.index: _slots(plan, stops[plan.index], limits) for plan in plans}
    runs, remarks = _runs(plans)
    for plan in plans:
        if plan.asked.superset and (plan.index,) in runs:
            slots[plan.index] = _with_own_rest(slots[plan.index])
    return Outline(
        plans={plan.index: plan for plan in plans},
        stops=stops,
        slots=slots,
        runs=runs,
        order=in_order(runs, slots),
        remarks=remarks,
    )


def _known(plan: StopPlan, known: Outline | None) -> Stop | None:
    return known.stops[plan.index] if known and known.plans.get(plan.index) == plan else None


def _slots(plan: StopPlan, stop: Stop, limits: Limits) -> tuple[Slot, ...]:
    """The sets of a stop; fewer and gentler back after four weeks."""
    if stop.back is None:
        return slots_of(plan.index, plan.asked, plan.exercise, limits)
    return slots_of(plan.index, gently(plan.asked, stop.back), plan.exercise, gentle(limits))


def _runs(plans: tuple[StopPlan, ...]) -> tuple[tuple[tuple[int, ...], ...], tuple[str, ...]]:
    """Stops done together; partners that need the same place are done one after the other."""
    runs: list[tuple[int, ...]] = []
    remarks = []
    for places in superset_runs(tuple(plan.asked for plan in plans)):
        members = [plans[place] for place in places]
        if _clash(members):
            names = " and ".join(plan.exercise.name.lower() for plan in members)
            remarks.append(f"{names} need the same place here, so they are done in turn")
            runs.extend((plan.index,) for plan in members)
        else:
            runs.append(tuple(plan.index for plan in members))
    return tuple(runs), tuple(remarks)


def _with_own_rest(slots: tuple[Slot, ...]) -> tuple[Slot, ...]:
    """Sets of a superset that is done in turn after all: each is rested for."""
    return tuple(
        replace(slot, rest_s=int(USUAL_REST_S))
        if slot.rest_s == 0 and slot.side is not Side.RIGHT and slot.asked.kind is not SetKind.DROP
        else slot
        for slot in slots
    )


def _clash(members: list[StopPlan]) -> bool:
    places = [
        plan.item.station or plan.item.id
        for plan in members
        if plan.item is not None and plan.item.kind not in SHARED_KINDS
    ]
    free = [place for place in places if place]
    return len(free) != len(set(free))


def stop_of(plan: StopPlan, inputs: DayInputs) -> Stop:
    """What the chooser needs of a stop."""
    mass = inputs.profile.body_mass_kg or Fraction(USUAL_MASS)
    share = body_share(plan.exercise, female=inputs.profile.female)
    readiness = inputs.state.readiness
    base = Exposure(
        when=inputs.now,
        session=inputs.state.session,
        exercise=plan.exercise.id,
        felt_kg=None,
        equipment=plan.item.id if plan.item else "",
        variant=plan.asked.variant,
        aids=plan.asked.aids,
        group=plan.asked.superset,
        label=plan.item is not None and usual_reading(plan.item) is LoadReading.LABEL,
        short_sleep=readiness is not None and readiness.short_sleep,
    )
    stop = Stop(
        index=plan.index,
        base=base,
        body_kg=float(share * mass),
        spared=plan.spared,
        back=back_at(
            inputs.history.of_exercise(plan.exercise.id),
            pause_before(inputs.history, inputs.state.day) or inputs.illness,
            inputs.state.day,
        ),
    )
    return _with_loads(stop, plan, inputs)


def _with_loads(stop: Stop, plan: StopPlan, inputs: DayInputs) -> Stop:
    """The stop with the loads its item can make, and those that the week writes."""
    if inputs.gym is None or plan.item is None:
        return stop
    known = known_sets(inputs.model, stop.base) >= FAMILIAR_SETS
    written = written_loads(plan.asked.sets, inputs.gym, plan.item, known=known)
    count = held_count(plan.asked.sets, plan.item)
    return replace(
        stop,
        rungs=tuple(rung.felt_kg for rung in ladder(inputs.gym, plan.item, count)),
        fixed=written.felt_kg,
        unmade=written.unmade,
        count=count,
    )


def with_ramps(
    outline: Outline,
    working_kg: Mapping[int, float],
    test_kg: Mapping[int, float],
    *,
    short: bool,
) -> Outline:
    """The outline with ramp sets before each stop that needs them and does not write its own.

    A stop of `test_kg` is unknown: one test set at that felt load stands in for its ramp.
    """
    warm: set[str] = set()
    helped: set[str] = set()
    slots = dict(outline.slots)
    for index in (i for run in outline.runs for i in run):
        plan, stop = outline.plans[index], outline.stops[index]
        key = warm_key(plan.exercise, plan.asked.variant)
        if index in test_kg:
            test = _test_slot(index, test_kg[index], working_kg.get(index, 0.0))
            own = slots[index]
            written = sum(slot.asked.kind is SetKind.WARM_UP for slot in own)
            slots[index] = (*own[:written], test, *own[written:])
        elif index in working_kg and stop.has_load and needs_ramp(plan.exercise):
            warmth = Warmth.WARM if key in warm else Warmth.COLD
            if key not in warm and key in helped:
                warmth = Warmth.LUKEWARM
            slots[index] = (
                *_ramp(outline, index, working_kg[index], warmth, short=short),
                *slots[index],
            )
        warm.add(key)
        helped |= {group_key(part) for part, w in plan.exercise.weights().items() if w * 2 >= 1}
    return replace(outline, slots=slots, order=in_order(outline.runs, slots))


def _ramp(
    outline: Outline, index: int, working_kg: float, warmth: Warmth, *, short: bool
) -> tuple[Slot, ...]:
    if any(sets.kind is SetKind.WARM_UP for sets in outline.plans[index].asked.sets):
        return ()
    stop = outline.stops[index]
    first = outline.plans[index].asked.sets[0]

    def made(*, short: bool) -> tuple[RampSet, ...]:
        return ramp(
            working_kg,
            warmth,
            body_kg=stop.body_kg,
            lightest_kg=stop.lightest_kg,
            heavy=first.reps is not None and first.reps.low <= HEAVY_REPS,
            short=short,
        )

    found = made(short=short)
    # Short of time the first ones go: the others keep their numbers, by which they are known.
    gone = len(made(short=False)) - len(found)
    return tuple(
        _ramp_slot(index, number, one.reps, one.target.felt_kg / max(working_kg, 1e-9))
        for number, one in enumerate(found, start=1 + gone)
    )


def _test_slot(stop: int, test_kg: float, working_kg: float) -> Slot:
    """A few easy reps and a question, before the first working set of something unknown."""
    asking = calibration(test_kg)
    slot = _ramp_slot(stop, 1, asking.reps, test_kg / (working_kg or 1.0))
    return replace(slot, asked=replace(slot.asked, note=asking.question))


def _ramp_slot(stop: int, number: int, reps: int, share: float) -> Slot:
    rule = LoadRule(LoadFrom.OF_TOP, share=Fraction(share).limit_denominator(1000))
    asked = PrescribedSets(kind=SetKind.WARM_UP, reps=Span(reps, reps), load=rule)
    return Slot(key=f"{stop}.0.{number}", block=-1, asked=asked, rest_s=int(WARM_UP_REST_S))


def timed(slot: Slot, reps: float, seconds_per_rep: float, handling_s: float) -> TimedSet:
    """One set of the card as time; a side is its own set here."""
    held = slot.asked.seconds
    hold = 0.0 if held is None or slot.asked.reps is not None else float(held.low)
    return TimedSet(
        reps=0.0 if hold else reps + slot.asked.partials / 2,
        hold_s=hold,
        rest_s=slot.rest_s,
        seconds_per_rep=seconds_per_rep,
        handling_s=max(0.0, handling_s - slot.rest_s),
    )
