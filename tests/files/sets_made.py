"""Any set a lifter could log, for property tests."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta, timezone
from fractions import Fraction
from typing import Any

from hypothesis import strategies as st

from pennate.core.performed import Effort, PerformedSet, SetKind, Side
from pennate.core.quantities import LoadReading, Unit

EXERCISES = ("back_squat_free", "hip_thrust", "lat_pulldown")

printable = st.characters(codec="utf-8", exclude_characters="\x00")
words = st.text(printable, max_size=12).map(str.strip)
names = st.text(printable, min_size=1, max_size=8).map(str.strip).filter(bool)
tags = st.text(st.characters(codec="utf-8", categories=["L", "N"]), min_size=1, max_size=6)
decimals = st.integers(0, 10**6).map(lambda n: Fraction(n, 1000))
exact = st.one_of(decimals, st.fractions(0, 500, max_denominator=97))
moments = st.one_of(
    st.dates(date(1990, 1, 1), date(2026, 3, 31)),
    st.integers(10**8, 17 * 10**8).map(lambda s: datetime.fromtimestamp(s, UTC)),
    st.integers(10**8, 17 * 10**8).map(
        lambda s: datetime.fromtimestamp(s, timezone(timedelta(hours=-5, minutes=-30)))
    ),
    st.integers(10**8, 17 * 10**8).map(
        lambda s: datetime.fromtimestamp(s, UTC).replace(tzinfo=None)
    ),
)


@st.composite
def loads(draw: st.DrawFn) -> dict[str, Any]:
    """A load with its unit, assistance, or body weight alone."""
    load = draw(st.one_of(st.none(), exact, exact.map(lambda kg: -kg)))
    units = st.sampled_from(Unit) if load else st.one_of(st.none(), st.sampled_from(Unit))
    return {"load": load, "unit": draw(units)}


@st.composite
def performed_sets(draw: st.DrawFn) -> PerformedSet:
    """A set with any mix of what may be noted."""
    return PerformedSet(
        id=draw(st.one_of(st.just(""), tags)),
        when=draw(moments),
        session=draw(names),
        number=draw(st.integers(1, 60)),
        exercise=draw(st.sampled_from(EXERCISES)),
        reps=draw(st.integers(0, 120)),
        kind=draw(st.sampled_from(SetKind)),
        **draw(loads()),
        reading=draw(st.sampled_from(LoadReading)),
        effort=draw(st.one_of(st.none(), st.sampled_from(Effort))),
        rest_s=draw(st.one_of(st.none(), exact)),
        seconds=draw(st.one_of(st.none(), exact)),
        side=draw(st.one_of(st.none(), st.sampled_from(Side))),
        group=draw(words),
        round=draw(st.one_of(st.none(), st.integers(0, 9))),
        equipment=draw(words),
        variant=draw(words),
        style=draw(words),
        aids=tuple(draw(st.lists(tags, max_size=3))),
        pain=draw(st.dictionaries(tags, st.integers(0, 10), max_size=3)),
        as_asked=draw(st.booleans()),
        body_mass_kg=draw(st.one_of(st.none(), decimals)),
        settings=draw(words),
        note=draw(words),
        extra=draw(st.dictionaries(st.sampled_from(["Mood", "Gym bag", "µ"]), words, max_size=3)),
    )


def logs() -> st.SearchStrategy[list[PerformedSet]]:
    """A log in which no identity repeats."""
    return st.lists(performed_sets(), min_size=1, max_size=6, unique_by=lambda d: d.identity)
