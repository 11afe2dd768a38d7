"""Generated weeks: sound ones of every shape, for the laws that all weeks must obey."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from hypothesis import strategies as st

from pennate.core.muscles import Group
from pennate.core.performed import SetKind
from pennate.core.prescribed import (
    WEEKDAYS,
    LadderStep,
    LoadFrom,
    LoadRule,
    PlannedDay,
    Preferences,
    Preparation,
    PrescribedExercise,
    PrescribedSets,
    Reason,
    Span,
    Week,
)
from pennate.core.quantities import LoadReading, Mass, Unit
from pennate.files.catalogue import own_exercise, read_catalogue

CATALOGUE = read_catalogue()
OWN = own_exercise({"name": "Own “row”", "muscles": {"back": 1}, "equipment": ["bands"]})
IDS = (*sorted(CATALOGUE.exercises), OWN.id)

texts = st.text(alphabet='ab \t\n"\\é–#=[]{}\x7f\x01,', max_size=12)
ids = st.sampled_from(IDS)
numbers = st.fractions(min_value=-400, max_value=400, max_denominator=60)
fixed_loads = st.builds(
    lambda amount, unit, reading: LoadRule(
        LoadFrom.FIXED, mass=Mass(amount, unit), reading=reading
    ),
    numbers,
    st.sampled_from(Unit),
    st.sampled_from(LoadReading),
)
free_loads = st.one_of(
    st.sampled_from([LoadRule(), LoadRule(LoadFrom.BODY_WEIGHT), LoadRule(LoadFrom.EMPTY_BAR)]),
    fixed_loads,
)


def shares(source: LoadFrom) -> st.SearchStrategy[LoadRule]:
    """Loads relative to another set."""
    share = st.fractions(min_value=Fraction(1, 60), max_value=2, max_denominator=60)
    return share.map(lambda value: LoadRule(source, share=value))


@st.composite
def spans(draw: st.DrawFn, least: int = 1, most: int = 60) -> Span:
    """A range, perhaps open-ended."""
    low = draw(st.integers(least, most))
    return Span(low, draw(st.none() | st.integers(low, most)))


@st.composite
def sets(draw: st.DrawFn, kind: SetKind, loads: st.SearchStrategy[LoadRule]) -> PrescribedSets:
    """Alike sets of a kind: counted, or held."""
    held = draw(st.booleans())
    failure = draw(st.booleans())
    return PrescribedSets(
        kind=kind,
        count=draw(st.integers(1, 2)),
        reps=None if held else draw(spans()),
        seconds=draw(spans()) if held else None,
        to_failure=failure,
        reserve=None if failure else draw(st.none() | spans(0, 6)),
        load=draw(loads),
        rest_s=draw(st.none() | st.integers(0, 900)),
        style=draw(texts),
        tempo=draw(st.sampled_from(["", "3-1-1", "4-0-x-1"])),
        partials=draw(st.integers(0, 6)),
        note=draw(texts),
    )


@st.composite
def all_sets(draw: st.DrawFn) -> tuple[PrescribedSets, ...]:
    """Ramp, top or working sets, then back-offs and drops."""
    top = draw(st.sampled_from([SetKind.TOP, SetKind.WORKING, SetKind.AMRAP]))
    ramp = draw(st.lists(sets(SetKind.WARM_UP, free_loads), max_size=1))
    main = draw(sets(top, free_loads))
    later = free_loads | shares(LoadFrom.OF_PREVIOUS)
    if top is SetKind.TOP:
        later |= shares(LoadFrom.OF_TOP)
    kinds = st.sampled_from([SetKind.BACK_OFF, SetKind.DROP])
    rest = draw(st.lists(kinds.flatmap(lambda kind: sets(kind, later)), max_size=3))
    return (*ramp, main, *rest)


rungs = st.builds(
    LadderStep,
    exercise=st.just("") | ids,
    load=free_loads,
    style=texts,
    until=st.none() | spans(),
)


@st.composite
def exercises(draw: st.DrawFn) -> PrescribedExercise:
    """An exercise as asked for, outside a superset."""
    exercise = draw(ids)
    variants = [v.id for v in CATALOGUE.exercises[exercise].variants] if exercise != OWN.id else []
    replaces = draw(st.just("") | ids)
    return PrescribedExercise(
        exercise=exercise,
        sets=draw(all_sets()),
        equipment=draw(texts),
        variant=draw(st.sampled_from(["", *variants])),
        aids=tuple(draw(st.lists(texts, max_size=2))),
        ladder=tuple(draw(st.lists(rungs, max_size=2))),
        replaces=replaces,
        reason=draw(st.none() | st.sampled_from(Reason)) if replaces else None,
        because=draw(texts),
        note=draw(texts),
    )


@st.composite
def days(draw: st.DrawFn, name: str) -> PlannedDay:
    """A day with up to four exercises, some of them in a superset."""
    asked = draw(st.lists(exercises(), max_size=4))
    first = draw(st.integers(0, 4))
    marked = tuple(
        _in_superset(one) if len(asked) - first >= 2 and place >= first else one
        for place, one in enumerate(asked)
    )
    preparation = st.builds(
        Preparation, texts, st.none() | st.integers(1, 30), st.none() | st.integers(1, 300)
    )
    return PlannedDay(
        day=name,
        focus=draw(texts),
        minutes=draw(st.none() | st.integers(5, 300)),
        preparation=tuple(draw(st.lists(preparation, max_size=2))),
        exercises=marked,
    )


def _in_superset(asked: PrescribedExercise) -> PrescribedExercise:
    return replace(asked, superset="A")


reasons = st.dictionaries(ids, texts, max_size=2)


@st.composite
def weeks(draw: st.DrawFn) -> Week:
    """A sound week."""
    names = draw(st.sets(st.sampled_from(WEEKDAYS), min_size=1, max_size=3))
    groups = st.sampled_from(Group)
    return Week(
        name=draw(texts),
        days=tuple(draw(days(name)) for name in WEEKDAYS if name in names),
        gym=draw(texts),
        priorities=tuple(draw(st.lists(groups, unique=True, max_size=3))),
        targets=draw(st.dictionaries(groups, spans(0, 30), max_size=2)),
        preferences=Preferences(liked=draw(reasons), barred=draw(reasons), required=draw(reasons)),
        own_exercises=(OWN,),
        note=draw(texts),
    )
