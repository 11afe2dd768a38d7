"""Hand-made cards of a made-up lifter, so that pages can be drawn without a model."""

from __future__ import annotations

from datetime import UTC, date, datetime
from fractions import Fraction

from pennate.core.card import Card, CardSet, CardStop, Likely, OwnNotes, SetState
from pennate.core.exercise import EquipmentKind
from pennate.core.gym import Bar, Plate
from pennate.core.loaded import Loaded
from pennate.core.performed import PerformedSet, SetKind, Side
from pennate.core.prescribed import Preparation, PrescribedExercise, PrescribedSets, Span
from pennate.core.quantities import LoadReading, Mass, Unit

DAY = date(2026, 5, 12)
NOW = datetime(2026, 5, 12, 18, 30, tzinfo=UTC)

BAR = Bar(
    id="rack-bar",
    name="bar in the rack",
    kind=EquipmentKind.BARBELL,
    mass=Mass.kg(20),
    safeties=True,
)


def bar_load(kg: str, *side: str) -> Loaded:
    """A barbell load with these plates on each side."""
    return Loaded(
        item_id="rack-bar",
        load=Mass.kg(kg),
        reading=LoadReading.TOTAL,
        felt=Mass.kg(kg).in_kg,
        each_side=tuple(Plate(Mass.kg(plate), 4) for plate in side),
        words=f"20 kg bar, each side: {', '.join(side)}" if side else "20 kg bar, empty",
    )


def label_load(kg: str) -> Loaded:
    """A pin in a stack."""
    return Loaded(
        item_id="stack",
        load=Mass.kg(kg),
        reading=LoadReading.LABEL,
        felt=Mass.kg(kg).in_kg,
        label=Mass.kg(kg),
        words=f"pin at {kg} kg",
    )


def one_set(
    key: str,
    kind: SetKind,
    reps: Span | None,
    load: Loaded | None = None,
    *,
    reserve: int | None = None,
    to_failure: bool = False,
    seconds: Span | None = None,
    side: Side | None = None,
    round_number: int | None = None,
    rest_s: int = 150,
) -> CardSet:
    """One open set."""
    asked = PrescribedSets(
        kind=kind,
        reps=reps,
        seconds=seconds,
        reserve=None if reserve is None else Span(reserve, reserve),
        to_failure=to_failure,
    )
    return CardSet(
        key=key, kind=kind, asked=asked, load=load, reps=reps, seconds=seconds, side=side,
        round=round_number, rest_s=rest_s, likely=Likely(5, 6, 7) if reps else None,
    )  # fmt: skip


def done(one: CardSet, number: int, reps: int) -> CardSet:
    """The set closed with these reps."""
    performed = PerformedSet(
        id=f"set-{number}",
        when=datetime(2026, 5, 12, 18, 28, 18, tzinfo=UTC),
        session="tuesday",
        number=number,
        exercise="front_squat",
        reps=reps,
        kind=one.kind,
        load=one.load.load.amount if one.load else None,
        unit=Unit.KG if one.load else None,
    )
    return CardSet(
        key=one.key, kind=one.kind, asked=one.asked, load=one.load, reps=one.reps,
        rest_s=one.rest_s, state=SetState.DONE, done=performed, round=one.round,
    )  # fmt: skip


def stop(
    index: int, exercise: str, name: str, sets: tuple[CardSet, ...], **more: object
) -> CardStop:
    """One stop with these sets."""
    values: dict[str, object] = {"item": BAR, "notes": OwnNotes(), "cue": ""}
    values.update(more)
    return CardStop(
        index=index,
        exercise=exercise,
        name=name,
        asked=PrescribedExercise(exercise=exercise, sets=tuple(s.asked for s in sets)),
        sets=sets,
        **values,  # type: ignore[arg-type] # a test table, checked by the dataclass at run time
    )


def front_squat() -> tuple[CardSet, ...]:
    """Ramp, two top sets, a back-off."""
    return (
        one_set("1.0.1", SetKind.WARM_UP, Span(8, 8), bar_load("20"), rest_s=60),
        one_set("1.0.2", SetKind.WARM_UP, Span(4, 4), bar_load("40", "10"), rest_s=60),
        one_set("1.1.1", SetKind.TOP, Span(5, 7), bar_load("57.5", "15", "2.5", "1.25"), reserve=1),
        one_set("1.1.2", SetKind.TOP, Span(5, 7), bar_load("57.5", "15", "2.5", "1.25"), reserve=1),
        one_set("1.2.1", SetKind.BACK_OFF, Span(8, 10), bar_load("50", "15"), reserve=1),
    )


def leg_press() -> tuple[CardSet, ...]:
    """Two fixed sets and two drops."""
    return (
        one_set("2.1.1", SetKind.WORKING, Span(10, 10), label_load("140"), reserve=2),
        one_set("2.1.2", SetKind.WORKING, Span(10, 10), label_load("140"), reserve=2),
        one_set("2.2.1", SetKind.DROP, Span(6, 12), label_load("110"), to_failure=True, rest_s=10),
        one_set("2.2.2", SetKind.DROP, Span(6, 12), label_load("90"), to_failure=True, rest_s=10),
    )


def _round(stop_number: int, number: int, *, one_sided: bool) -> tuple[CardSet, ...]:
    sides = (Side.LEFT, Side.RIGHT) if one_sided else (None,)
    return tuple(
        one_set(
            f"{stop_number}.1.{number}" + (f".{side.value}" if side else ""),
            SetKind.WORKING, Span(10, 12), bar_load("20"), reserve=1, side=side,
            round_number=number, rest_s=120,
        )
        for side in sides
    )  # fmt: skip


def tuesday(*, closed: int = 0) -> Card:
    """A lower-body session with a ramp, drops, a superset and a hold; the first sets closed."""
    squat = tuple(
        done(one, number, 6) if number <= closed else one
        for number, one in enumerate(front_squat(), start=1)
    )
    step_up = tuple(one for n in (1, 2, 3) for one in _round(3, n, one_sided=True))
    calves = tuple(one for n in (1, 2, 3) for one in _round(4, n, one_sided=False))
    plank = tuple(
        one_set(f"5.1.{n}.{side.value}", SetKind.WORKING, None, seconds=Span(40, 40), side=side)
        for n in (1, 2)
        for side in Side
    )
    stops = (
        stop(
            0, "front_squat", "Front squat", squat, minutes=17.0,
            notes=OwnNotes(settings={"rack": "11", "safeties": "6"}, next_time="try 60 if easy"),
            cue="Elbows lead on the way up.",
        ),
        stop(1, "leg_press", "Leg press", leg_press(), starts_at_min=17.0, minutes=12.0),
        stop(2, "step_up", "Step-up", step_up, starts_at_min=29.0, minutes=16.0, superset="A"),
        stop(3, "calf_raise", "Standing calf raise", calves, starts_at_min=29.0, superset="A"),
        stop(4, "side_plank", "Side plank", plank, starts_at_min=46.0, minutes=8.0, item=None),
    )  # fmt: skip
    braid = [s.key for n in (1, 2, 3) for s in (*step_up, *calves) if s.round == n]
    order = (*(s.key for s in (*squat, *leg_press())), *braid, *(s.key for s in plank))
    return Card(
        day=DAY, session="tuesday", title="Tuesday · lower body", gym_name="The gym by the canal",
        preparation=(Preparation("leg swings", reps=10), Preparation("bike", seconds=300)),
        stops=stops, order=order, minutes=54.0, minutes_low=48.0, minutes_high=61.0,
    )  # fmt: skip


def body_mass() -> Fraction:
    """The made-up lifter's mass in kilograms."""
    return Fraction("64.5")
