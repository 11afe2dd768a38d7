"""What she notes of her body: stored, read back, taken back, and what cannot be so."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction
from pathlib import Path
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pennate.app import body_notes as notes
from pennate.app.body_masses import with_masses
from pennate.app.body_undo import take_back
from pennate.app.book import Book
from pennate.app.exchange import export_dir
from pennate.core.body import Measurement, Site, TapeState, Weighing
from pennate.core.performed import Side
from pennate.core.profile import Profile
from pennate.core.readiness import Health
from pennate.errors import InputError

DAY = date(2026, 3, 2)
THIGH = notes.Taped(
    day=DAY,
    site=Site.THIGH,
    girths={
        Side.LEFT: (Fraction("55.1"), Fraction(55), Fraction("55.2")),
        Side.RIGHT: (Fraction(56),),
    },
)


def test_both_sides_are_kept_with_every_reading(empty_book: Book) -> None:
    """Three readings left and one right come back exactly as written."""
    assert len(notes.save_girths(empty_book, THIGH)) == 2
    rows = notes.body_record(empty_book).measurements
    assert [(row.side, row.girths_cm) for row in rows] == [
        (Side.LEFT, (Fraction("55.1"), Fraction(55), Fraction("55.2"))),
        (Side.RIGHT, (Fraction(56),)),
    ]


def test_the_trunk_has_no_sides(empty_book: Book) -> None:
    """A waist is one girth, whatever sides a form may send."""
    notes.save_girths(
        empty_book, notes.Taped(day=DAY, site=Site.WAIST, girths={None: (Fraction(70),)})
    )
    assert [row.side for row in notes.body_record(empty_book).measurements] == [None]


def test_more_readings_than_a_row_holds_stay_together(empty_book: Book) -> None:
    """Five readings of one girth are all there."""
    five: dict[Side | None, tuple[Fraction, ...]] = {
        Side.LEFT: tuple(Fraction(280 + n, 10) for n in range(5))
    }
    notes.save_girths(empty_book, notes.Taped(day=DAY, site=Site.UPPER_ARM, girths=five))
    kept = [g for row in notes.body_record(empty_book).measurements for g in row.girths_cm]
    assert sorted(kept) == sorted(five[Side.LEFT])


@pytest.mark.parametrize(
    ("changed", "words"),
    [
        ({"girths": {Side.LEFT: (Fraction(551),)}}, "millimetres"),
        ({"girths": {Side.LEFT: (Fraction(0),)}}, "no girth of a thigh"),
        ({"girths": {}}, "no reading is filled in"),
        ({"girths": {Side.LEFT: (Fraction(55),) * 10}}, "10 readings"),
        ({"skinfolds": {Side.LEFT: Fraction(500)}}, "outside 1 to 120 mm"),
        ({"day": DAY + timedelta(days=9)}, "still to come"),
        ({"day": date(1980, 1, 1)}, "long ago"),
    ],
)
def test_what_cannot_be_is_refused_and_nothing_is_kept(
    empty_book: Book, changed: dict[str, object], words: str
) -> None:
    """All or nothing: the sentence names the slip, and the ledger stays empty."""
    with pytest.raises(InputError, match=words):
        notes.save_girths(empty_book, replace(THIGH, **changed))  # type: ignore[arg-type] # cases mix fields
    assert notes.body_record(empty_book).measurements == ()


def test_a_pumped_reading_is_kept_and_flagged(empty_book: Book) -> None:
    """Soon after training: in the record with its state, for the verdict to leave out."""
    notes.save_girths(empty_book, replace(THIGH, state=TapeState.PUMPED))
    assert {row.state for row in notes.body_record(empty_book).measurements} == {TapeState.PUMPED}


def test_a_note_can_be_taken_back_once(empty_book: Book) -> None:
    """Taken back it is gone from the record; a second time says so."""
    kept = notes.save_weight(empty_book, DAY, Fraction("64.2"))
    take_back(empty_book, kept)
    assert notes.body_record(empty_book).weighings == ()
    with pytest.raises(InputError, match="no such note"):
        take_back(empty_book, kept)


def test_only_notes_of_the_body_can_be_taken_back(demo_book: Book) -> None:
    """A set is not undone by a form of the body."""
    with pytest.raises(InputError, match="no such note"):
        take_back(demo_book, demo_book.history().sets[-1].id)


@pytest.mark.parametrize("kg", [Fraction(24), Fraction(351)])
def test_impossible_weights_are_refused(empty_book: Book, kg: Fraction) -> None:
    """The bounds are those of the weights file."""
    with pytest.raises(InputError, match="outside 25 to 350 kg"):
        notes.save_weight(empty_book, DAY, kg)


def test_a_second_night_replaces_the_first(empty_book: Book) -> None:
    """One night a day; the same note again adds no entry."""
    notes.save_sleep(empty_book, DAY, Fraction(6))
    notes.save_sleep(empty_book, DAY, Fraction("7.5"))
    before = empty_book.ledger.position()
    notes.save_sleep(empty_book, DAY, Fraction("7.5"))
    assert [(n.day, n.hours) for n in notes.nights(empty_book)] == [(DAY, 7.5)]
    assert empty_book.ledger.position() == before


def test_food_is_a_day_each(empty_book: Book) -> None:
    """Energy with protein where she knows it."""
    notes.save_intake(empty_book, DAY, Fraction(2100), Fraction(110))
    notes.save_intake(empty_book, DAY - timedelta(days=1), Fraction(1900))
    assert [(e.kcal, e.protein_g) for e in notes.eaten(empty_book)] == [(1900, None), (2100, 110)]


def test_the_cycle_is_off_until_she_turns_it_on(empty_book: Book) -> None:
    """Off by default: what was noted is kept, and used for nothing."""
    notes.save_period(empty_book, DAY)
    assert not notes.choices(empty_book).cycle
    assert notes.body_record(empty_book).periods == ()
    notes.choose(empty_book, notes.Choices(cycle=True))
    assert notes.body_record(empty_book).periods == (DAY,)


def test_bleeding_counts_both_ends(empty_book: Book) -> None:
    """First and last day counted; the same day twice is one note."""
    for _ in range(2):
        notes.save_period(empty_book, DAY - timedelta(days=4))
        notes.save_period(empty_book, DAY, last=True)
    assert notes.periods(empty_book) == (DAY - timedelta(days=4),)
    assert notes.bleeding_days(empty_book) == 5


def test_pregnancy_expects_no_periods(empty_book: Book) -> None:
    """The answer to the health question is enough; no second question."""
    empty_book.save_profile(Profile(health=Health.PREGNANCY))
    notes.choose(empty_book, notes.Choices(cycle=True))
    assert not notes.choices(empty_book).periods_expected


def test_choices_are_kept_exactly(empty_book: Book) -> None:
    """What she chose comes back, numbers exact."""
    chosen = notes.Choices(
        hide_weight=True, height_cm=Fraction("165.5"), age=Fraction(31), fat_kg=Fraction("15.25")
    )
    notes.choose(empty_book, chosen)
    assert notes.choices(empty_book) == chosen


def test_the_next_morning_belongs_to_the_day_before(empty_book: Book) -> None:
    """Pain of a check-in and the morning after are one report (pain rule, check value 54)."""
    eve = DAY - timedelta(days=1)
    empty_book.put("readiness", eve, {"pain": {"knee": 4}})
    notes.save_morning(empty_book, DAY, "knee", 3)
    (report,) = notes.pain_reports(empty_book)
    assert (report.day, report.score, report.next_morning) == (eve, 4, 3)


def test_a_sore_morning_stands_alone(empty_book: Book) -> None:
    """Without pain the day before, a morning is a report of its own; alarm is kept."""
    notes.save_morning(empty_book, DAY, "knee", 2, alarming=True)
    (report,) = notes.pain_reports(empty_book)
    assert (report.day, report.score, report.alarming) == (DAY, 2, True)


@given(st.lists(st.integers(-10, 10), max_size=6))
def test_a_girth_takes_the_mass_about_its_day(offsets: list[int]) -> None:
    """The mean of weighings within three days, and of none further off."""
    row = Measurement(day=DAY, site=Site.CALF, girths_cm=(Fraction(36),))
    weighed = tuple(Weighing(day=DAY + timedelta(days=o), kg=Fraction(60 + o)) for o in offsets)
    (found,) = with_masses((row,), weighed)
    near = [Fraction(60 + o) for o in offsets if abs(o) <= 3]
    assert found.body_mass_kg == (sum(near) / len(near) if near else None)


def test_a_mass_written_beside_stays(empty_book: Book) -> None:
    """Her own number wins over the scale's diary."""
    row = Measurement(day=DAY, site=Site.CALF, girths_cm=(Fraction(36),), body_mass_kg=Fraction(61))
    assert with_masses((row,), (Weighing(day=DAY, kg=Fraction(70)),)) == (row,)


def test_notes_of_the_body_leave_the_strength_model_alone(demo_book: Book) -> None:
    """A weighing costs no replay of her training."""
    before = demo_book.model_before(demo_book.today)
    kept = demo_book._models
    notes.save_weight(demo_book, demo_book.today, Fraction(64))
    demo_book.model_before(demo_book.today)
    assert demo_book._models is kept
    assert before.day_effects == demo_book.model_before(demo_book.today).day_effects


def test_girths_and_weighings_survive_export(
    empty_book: Book, tmp_path_factory: pytest.TempPathFactory
) -> None:
    """Out as open files and in again elsewhere: the same record."""
    from pennate.app.exchange import import_dir

    notes.save_girths(empty_book, THIGH)
    notes.save_weight(empty_book, DAY, Fraction("64.2"))
    notes.save_sleep(empty_book, DAY, Fraction(7))
    folder = tmp_path_factory.mktemp("out")
    export_dir(empty_book.ledger, folder)
    other = Book.open(Path(tmp_path_factory.mktemp("in")), empty_book.now, Random(8))
    import_dir(other.ledger, folder, now=other.now(), rng=other.rng)
    assert notes.body_record(other).measurements == notes.body_record(empty_book).measurements
    assert notes.nights(other) == notes.nights(empty_book)
    other.close()
