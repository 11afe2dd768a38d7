"""The response sheet against the model it was read off, asked the long way round."""

from __future__ import annotations

import itertools
from datetime import timedelta
from fractions import Fraction

import pytest

from pennate.app.book import Book
from pennate.app.record import Recorded, record
from pennate.app.response_sheet import prepare, response_sheet
from pennate.app.responses import KNOTS
from pennate.app.sheet_rows import ResponseSheet, SetRow
from pennate.core.performed import Effort
from pennate.core.quantities import Unit
from tests.web.conftest import MONDAY
from tests.web.test_session import card_of

DAY = MONDAY.date()


@pytest.fixture
def sheet(own_demo: Book) -> ResponseSheet:
    """The sheet of the demo's Monday, without substitutes."""
    return alone(own_demo)


def alone(book: Book) -> ResponseSheet:
    """The sheet of Monday as it stands, without substitutes."""
    return response_sheet(book, DAY, "Monday", substitutes=False)


def rows(sheet: ResponseSheet) -> dict[str, SetRow]:
    """Every set row by key."""
    return {row.key: row for stop in sheet.stops for row in stop.sets}


def test_every_set_of_the_card_has_its_row(own_demo: Book) -> None:
    """Sheet and card agree: same sets, same loads, same expectation."""
    prepared = prepare(own_demo, DAY, "Monday", substitutes=False)
    card, found = card_of(own_demo), rows(prepared.sheet)
    for stop in card.stops:
        for one in stop.sets:
            row = found[one.key]
            if one.load is not None and row.rung is not None:
                step = prepared.steps[stop.index][row.rung]
                assert step.felt_kg == pytest.approx(one.load.felt_kg, 1e-3)
            if one.forecast is not None:
                assert row.expected == pytest.approx(one.forecast.mean, abs=0.02)


def test_heavier_loads_leave_fewer_reps(sheet: ResponseSheet) -> None:
    """Steps rise, and along the loads of a stop the expected reps fall."""
    for stop in sheet.stops:
        assert stop.loads == sorted(set(stop.loads))
        assert stop.gaps == sorted(stop.gaps)
        assert all(a >= b for a, b in itertools.pairwise(stop.reps))


def test_limits_are_in_order(sheet: ResponseSheet) -> None:
    """Sure is lighter than enough, enough lighter than too heavy; too light is lightest."""
    for row in rows(sheet).values():
        for limits in (row.limits, row.learned):
            if limits is not None:
                assert limits.sure <= limits.enough <= limits.heavy
                assert limits.light is None or limits.light < limits.enough


@pytest.mark.parametrize(
    ("over", "effort"), [(-2, Effort.NONE_LEFT), (2, Effort.NONE_LEFT), (-5, Effort.FAIL)]
)
def test_a_surprise_shifts_what_follows_as_the_model_says(
    own_demo: Book, over: int, effort: Effort
) -> None:
    """A logged surprise moves later strength as the sheet said it would, to one per cent."""
    key, later = "0.1.1", "0.1.2"
    morning = alone(own_demo)
    before, sheet_loads = rows(morning), morning.stops[0].loads
    while (opening := card_of(own_demo).next_key) != key:
        assert opening
        record(own_demo, DAY, opening, Recorded(), weekday="Monday")
    expected = before[key].expected
    assert expected is not None
    reps = max(0, round(expected) + over)
    record(own_demo, DAY, key, Recorded(reps=reps, effort=effort), weekday="Monday")
    stop, first = alone(own_demo).stops[0], sheet_loads
    after = rows(alone(own_demo))[later]
    moved = stop.loads[after.rung or 0] - first[before[later].rung or 0]
    further = before[key].missed if effort is Effort.FAIL else 1.0
    said = before[later].gap + moved - further * before[key].said[later][KNOTS.index(over)]
    assert after.gap == pytest.approx(said, abs=10)


def test_substitutes_bring_rows_of_their_own(own_demo: Book) -> None:
    """Two for a stop, on another item, with loads and expectations."""
    prepared = prepare(own_demo, DAY, "Monday")
    for index, found in prepared.instead.items():
        assert len(found) <= 2
        for one in found:
            assert one.stop.index == index
            assert one.row.sets
    assert any(len(found) == 2 for found in prepared.instead.values())


def test_sets_to_give_up_are_working_sets_each_once(sheet: ResponseSheet) -> None:
    """The lists for less time name every working set once and no ramp."""
    working = [row.key for row in rows(sheet).values() if row.block >= 0]
    for order in sheet.give_up:
        assert sorted(key for group in order for key in group.keys) == sorted(working)


def test_a_day_to_come_is_known_today(own_demo: Book) -> None:
    """Sheets of later days rest on today's sets too, and travel as JSON unchanged."""
    sheet = response_sheet(own_demo, DAY + timedelta(days=2), "Wednesday", substitutes=False)
    assert ResponseSheet.model_validate_json(sheet.model_dump_json()) == sheet
    assert sheet.day == DAY + timedelta(days=2)


def test_a_back_off_follows_the_top_set_she_moved_by_hand(own_demo: Book) -> None:
    """Heavier top sets of her own choice bring heavier back-off sets, never the empty bar."""
    while (key := card_of(own_demo).next_key) != "0.2.1":
        assert key
        top = key.startswith("0.1")
        moved = Recorded(reps=6, load=Fraction(85), unit=Unit.LB) if top else Recorded()
        record(own_demo, DAY, key, moved, weekday="Monday")
    found = card_of(own_demo).find("0.2.1")
    assert found
    assert found[1].load
    assert found[1].load.load.amount > 65


def test_a_ramp_does_not_raise_what_the_morning_raised(own_demo: Book) -> None:
    """A tenth more at once is enough: until a working set has spoken, the load stays as planned."""
    first = next(one for one in card_of(own_demo).stops[0].sets if one.key == "0.1.1")
    row = rows(alone(own_demo))["0.1.1"]
    assert row.limits is not None
    assert row.limits.light is None, "planned lighter than she could, so nothing raises it yet"
    while (opening := card_of(own_demo).next_key) != "0.1.1":
        assert opening
        record(own_demo, DAY, opening, Recorded(), weekday="Monday")
    now = next(one for one in card_of(own_demo).stops[0].sets if one.key == "0.1.1")
    assert first.load is not None
    assert now.load is not None
    assert now.load.felt_kg == first.load.felt_kg
