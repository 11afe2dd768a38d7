"""What the Floor shows and how a set is closed in one touch."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

from hypothesis import given
from hypothesis import strategies as st
from markupsafe import Markup

from pennate.core.card import Likely
from pennate.core.performed import SetKind
from pennate.core.prescribed import Span
from pennate.core.quantities import LoadReading
from pennate.web.views.floor import Around, FloorSet, closing_of, floor_set, last_done, load_parts

from .cards import NOW, bar_load, label_load, one_set, tuesday


def _floor(key: str, *, closed: int = 0, around: Around | None = None) -> FloorSet:
    card = tuesday(closed=closed)
    found = card.find(key)
    assert found
    near = around or Around(found[1].load)
    return floor_set(card, key, near, picture=Markup(), chosen="", now=NOW)


def test_a_fixed_target_short_of_failure_is_closed_by_done() -> None:
    """Ten reps with two in reserve need one word, so closing is one touch and truthful."""
    closing = closing_of(one_set("a", SetKind.WORKING, Span(10, 10), reserve=2), None)
    assert closing.done
    assert closing.middle == 10


def test_a_range_is_closed_by_a_number() -> None:
    """Of 5–7 no number can be presumed, so five are offered around what is likely."""
    closing = closing_of(one_set("a", SetKind.TOP, Span(5, 7)), Likely(4, 6, 8))
    assert not closing.done
    assert closing.numbers == (4, 5, 6, 7, 8)


def test_failure_amrap_and_drops_are_closed_by_a_number() -> None:
    """Where the end is open the count must be said, even if one number is asked."""
    for one in (
        one_set("a", SetKind.WORKING, Span(8, 8), to_failure=True),
        one_set("a", SetKind.AMRAP, Span(8, 8)),
        one_set("a", SetKind.DROP, Span(8, 8)),
    ):
        assert not closing_of(one, None).done


def test_a_lighter_load_is_offered_until_she_moves_the_load() -> None:
    """The offer names the key that takes it; once she chose a load herself it is gone."""
    card = tuesday()
    key = card.order[2]
    stops = tuple(
        replace(
            stop,
            sets=tuple(
                replace(one, offer="One step lighter") if one.key == key else one
                for one in stop.sets
            ),
        )
        for stop in card.stops
    )
    offering, load = replace(card, stops=stops), bar_load("40", "10")
    for by_hand, words in ((False, "One step lighter; − takes it."), (True, "")):
        around = Around(load, by_hand=by_hand)
        found = floor_set(offering, key, around, picture=Markup(), chosen="", now=NOW)
        assert found.offer == words
    assert _floor(key).offer == ""


@given(low=st.integers(1, 40), middle=st.integers(0, 40))
def test_five_numbers_hold_the_likely_one_and_never_zero(low: int, middle: int) -> None:
    """The numbers rise by one from at least one, and the likely count is among them."""
    one = one_set("a", SetKind.AMRAP, Span(low, None))
    numbers = closing_of(one, Likely(max(0, middle - 2), middle, middle + 2)).numbers
    assert numbers == tuple(range(numbers[0], numbers[0] + 5))
    assert numbers[0] >= 1
    assert max(middle, 1) in numbers


def test_a_hold_is_closed_by_seconds() -> None:
    """A fixed hold is done; an open one offers seconds in steps of five."""
    fixed = one_set("a", SetKind.WORKING, None, seconds=Span(40, 40))
    assert closing_of(fixed, None).done
    ranged = replace(fixed, seconds=Span(30, 50))
    assert closing_of(ranged, None).numbers == (30, 35, 40, 45, 50)


def test_settings_and_cue_come_with_the_set() -> None:
    """Her seat and her words are there before the load."""
    shown = _floor("1.1.1")
    assert shown.settings == (("rack", "11"), ("safeties", "6"))
    assert shown.cue == "Elbows lead on the way up."


def test_load_is_cut_into_number_and_unit() -> None:
    """The number stands apart; what it counts is said where it is not the total."""
    assert load_parts(bar_load("57.5", "15")).number == "57.5"
    each = replace(bar_load("20"), reading=LoadReading.EACH)
    assert load_parts(each).suffix == "each"
    assert load_parts(label_load("45")).words == "pin at 45 kg"
    assert load_parts(None).number == "body weight"


def test_rest_is_what_has_passed() -> None:
    """The clock says how long ago the last set was closed, and what is usual."""
    shown = _floor("1.1.2", closed=3)
    assert (shown.rest.passed, shown.rest.asked) == ("1:42", "2:30")
    assert _floor("1.0.1").rest.passed_s is None


def test_rest_never_runs_backwards() -> None:
    """A clock set back gives zero, not a negative rest."""
    card = tuesday(closed=3)
    early = NOW - timedelta(hours=1)
    shown = floor_set(card, "1.1.2", Around(None), picture=Markup(), chosen="", now=early)
    assert shown.rest.passed_s == 0


def test_what_comes_next_is_named() -> None:
    """The next set is said with its exercise where that changes."""
    assert _floor("1.1.2").then == "back-off set, 8–10 reps at 50 kg"
    assert _floor("1.2.1").then.startswith("Leg press: set 1 of 2")
    assert _floor("5.1.2.right").then == "that was the last set"


def test_a_superset_names_its_partner() -> None:
    """In a round the other exercise is said, so it is not forgotten."""
    assert _floor("3.1.2.left").together == "with Standing calf raise"
    assert _floor("3.1.2.left").place == "round 2 of 3, left side"


def test_last_set_can_be_taken_back() -> None:
    """The set closed last is named beside undo."""
    assert last_done(tuesday()) is None
    last = last_done(tuesday(closed=3))
    assert last
    assert last.words == "6 reps at 57.5 kg"
