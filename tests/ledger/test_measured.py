"""Girths and weighings as entries: nothing is lost, nonsense is returned."""

from __future__ import annotations

from datetime import date
from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st

from pennate.core.body import Measurement, Site, TapeState, Weighing
from pennate.core.performed import Side
from pennate.ledger import Ledger
from pennate.ledger.measured import (
    girth_entries,
    measurement_of,
    measurements_from,
    weighing_of,
    weighings_from,
    weight_entry,
)

from .made import CHANCE, START, made

amounts = st.integers(1, 9999).map(lambda n: Fraction(n, 10))
texts = st.dictionaries(st.text(max_size=5), st.text(min_size=1, max_size=5), max_size=2)
rows = st.builds(
    Measurement,
    day=st.dates(date(2000, 1, 1), date(2026, 3, 31)),
    site=st.sampled_from(Site),
    side=st.one_of(st.none(), st.sampled_from(Side)),
    girths_cm=st.lists(amounts, max_size=7).map(tuple),
    skinfold_mm=st.one_of(st.none(), amounts),
    state=st.one_of(st.none(), st.sampled_from(TapeState)),
    body_mass_kg=st.one_of(st.none(), amounts),
    extra=texts,
)


@settings(deadline=None)
@given(rows)
def test_a_measurement_comes_back(row: Measurement) -> None:
    """Readings beyond three go to further entries; together they are what was measured."""
    first, *more = map(measurement_of, girth_entries(row, now=START, rng=CHANCE))
    assert first.girths_cm + tuple(g for one in more for g in one.girths_cm) == row.girths_cm
    assert (first.skinfold_mm, first.body_mass_kg, first.extra) == (
        row.skinfold_mm, row.body_mass_kg, row.extra,
    )  # fmt: skip
    assert {(one.day, one.site, one.side, one.state) for one in (first, *more)} == {
        (row.day, row.site, row.side, row.state)
    }


@settings(deadline=None)
@given(st.builds(Weighing, day=st.dates(), kg=amounts, extra=texts))
def test_a_weighing_comes_back(row: Weighing) -> None:
    """Entry and back is identity."""
    assert weighing_of(weight_entry(row, now=START, rng=CHANCE)) == row


def test_nonsense_is_returned(ledger: Ledger) -> None:
    """An entry that is no measurement hides no other."""
    good = Weighing(day=START.date(), kg=Fraction("62.4"))
    odd = [made({"kg": "heavy"}), made({"lb": "140"}), made({"kg": ["62"]})]
    tape = [made({"site": "ego"}, kind="girth"), made({"side": "left"}, kind="girth")]
    ledger.append([weight_entry(good, now=START, rng=CHANCE), *odd, *tape])
    weighings, problems = weighings_from(ledger)
    assert weighings == (good,)
    assert [problem.entry_id for problem in problems] == [entry.id for entry in odd]
    assert [problem.entry_id for problem in measurements_from(ledger)[1]] == [e.id for e in tape]
