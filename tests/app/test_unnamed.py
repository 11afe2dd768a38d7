"""A log without equipment: its sets count where her week or gym has the exercise."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from random import Random

import pytest

from pennate.app.book import Book
from pennate.app.exchange import How, ImportReport, export_dir, import_dir, import_log
from pennate.app.exercise_view import exercise_view
from pennate.app.gyms import starter_gym
from pennate.app.import_notes import import_notes
from pennate.app.kit import kit_gym
from pennate.app.record import Recorded, record
from pennate.app.start import take_starter_gym, take_starter_week
from pennate.app.today import card_for
from pennate.app.unnamed import MOSTLY
from pennate.app.week_effort import asked_credits
from pennate.app.week_review_text import week_review_lines, week_words
from pennate.app.why_text import why_of, why_text
from pennate.core.card import Card, CardStop
from pennate.core.exercise import EquipmentKind
from pennate.core.performed import SetKind
from pennate.core.prescribed import (
    LoadFrom,
    LoadRule,
    PlannedDay,
    PrescribedExercise,
    PrescribedSets,
    Span,
)
from pennate.core.quantities import LoadReading, Mass
from pennate.estimate import Step

NOW = datetime(2026, 3, 3, 18, 0, tzinfo=UTC)
WEEKS = 12
LOADS = {  # as she writes them: bars whole, pins as they say, dumbbells both together
    "back_squat_free": ("62.5", 5),
    "bench_press": ("42.5", 8),
    "lat_pulldown": ("45", 10),
    "leg_extension": ("50", 12),
    "romanian_deadlift": ("70", 8),
    "shoulder_press": ("16", 8),
    "chin_up": ("", 6),
    "lateral_raise": ("12", 14),
}
APART = "shoulder_press"
"""No bar of the gym weighs so little, and several other things could be it."""


class Clock:
    """A time that a test sets."""

    now = NOW

    def __call__(self) -> datetime:
        """The time it is."""
        return self.now


@pytest.fixture
def clock() -> Clock:
    """Evening of a Tuesday."""
    return Clock()


@pytest.fixture
def book(tmp_path: Path, clock: Clock) -> Iterator[Book]:
    """Records with nothing in them."""
    opened = Book.open(tmp_path / "records", clock, Random(3))
    yield opened
    opened.close()


def log_of(folder: Path, **columns: str) -> Path:
    """Twelve weeks of a spreadsheet, three sets an exercise, every exercise once a week.

    `columns` are further ones, with what stands in every row of them.
    """
    rows = [",".join(("date,session,set,exercise,load,unit,reps", *columns))]
    for week in range(WEEKS):
        day = date(2025, 12, 8) + timedelta(weeks=week)
        number = 0
        for exercise, (load, reps) in LOADS.items():
            for done in range(3):
                number += 1
                unit, got = "kg" if load else "", reps + (week + done) % 2 - done
                cells = (day, "gym", number, exercise, load, unit, got, *columns.values())
                rows.append(",".join(map(str, cells)))
    path = folder / "log.csv"
    path.write_text("\n".join(rows) + "\n")
    return path


def bring(book: Book, path: Path) -> ImportReport:
    """Import a log."""
    return import_log(book.ledger, path, How(), now=book.now(), rng=book.rng)


def settle(book: Book) -> None:
    """The largest gym and a week of four days, neither of which names equipment."""
    take_starter_gym(book, "commercial_kg")
    take_starter_week(book, "4_days")


@pytest.fixture
def brought(book: Book, tmp_path: Path) -> Book:
    """Her gym, her week, her old log."""
    settle(book)
    bring(book, log_of(tmp_path))
    return book


def choose(book: Book, exercise: str, item: str) -> None:
    """Her week names what an exercise is done on, as the Week page does."""
    week = book.week()
    assert week is not None
    days = [
        replace(
            day,
            exercises=tuple(
                replace(one, equipment=item) if one.exercise == exercise else one
                for one in day.exercises
            ),
        )
        for day in week.days
    ]
    book.save_week(replace(week, days=tuple(days)))


def stop_of(book: Book, exercise: str) -> CardStop:
    """An exercise on the card of the day that has it."""
    seen = exercise_view(book, exercise)
    assert seen.planned_at is not None
    card = card_for(book, book.today, weekday=seen.planned_at[0])
    assert isinstance(card, Card)
    return next(stop for stop in card.stops if stop.exercise == exercise)


def item_of(book: Book, exercise: str) -> str | None:
    """What the old sets of an exercise count for."""
    item = book.unnamed()[exercise].item
    return item.id if item else None


def test_every_old_exercise_has_a_row_in_the_review(brought: Book) -> None:
    """Exercises of her log that her week has come back in the review, each with its next step."""
    week = brought.week()
    assert week is not None
    planned = {one.exercise for day in week.days for one in day.exercises}
    rows = {row.exercise: row for row in week_words(brought).rows}
    assert set(rows) == planned & set(LOADS)
    assert [one for one, row in rows.items() if not row.load] == [APART, "chin_up"]


def test_the_step_is_of_what_the_card_asks(brought: Book) -> None:
    """Page, review and card speak of one thing and one load."""
    rows = {row.exercise: row for row in week_words(brought).rows}
    for exercise in ("back_squat_free", "leg_extension", "bench_press", "lateral_raise"):
        seen, stop = exercise_view(brought, exercise), stop_of(brought, exercise)
        assert stop.item is not None
        assert (seen.item, seen.next_load) == (stop.item.id, rows[exercise].load)
        assert len(seen.sets) == 3 * WEEKS


@pytest.mark.parametrize(
    ("exercise", "written"), [("leg_extension", 50), ("lat_pulldown", 45), ("bench_press", 42.5)]
)
def test_the_card_goes_on_where_the_log_stopped(
    brought: Book, exercise: str, written: float
) -> None:
    """After twelve weeks at a load the card asks for one within a step of it, and tests nothing."""
    stop = stop_of(brought, exercise)
    first = next(one for one in stop.sets if one.kind is not SetKind.WARM_UP)
    assert first.load is not None
    assert float(first.load.load.amount) == pytest.approx(written, rel=0.12)
    assert not any("more could you" in one.asked.note for one in stop.sets)


def test_a_log_that_says_nothing_of_aids_is_no_stranger(brought: Book) -> None:
    """Safeties that the week asks for do not make thirty-six old squats a first time."""
    stop = stop_of(brought, "back_squat_free")
    assert stop.asked.aids == ("safeties",)
    assert not any("more could you" in one.asked.note for one in stop.sets)


def test_a_bare_number_on_a_pin_is_its_mark(brought: Book) -> None:
    """A stack whose numbers mean nothing elsewhere keeps one strength, logged before or now."""
    done = brought.history().of_exercise("leg_extension")
    assert {(one.equipment, one.reading) for one in done} == {("leg_extension", LoadReading.LABEL)}


def test_the_order_of_the_first_steps_does_not_matter(book: Book, tmp_path: Path) -> None:
    """The log may come before gym and week: once they are there, its sets count the same."""
    bring(book, log_of(tmp_path))
    assert {one.item for one in book.unnamed().values()} == {None}
    assert all(not one.words for one in book.unnamed().values())
    settle(book)
    assert item_of(book, "back_squat_free") == "rack_bar"
    assert {row.exercise for row in week_words(book).rows} >= {"back_squat_free", "leg_extension"}


def test_without_a_gym_the_step_stands_without_a_load(book: Book, tmp_path: Path) -> None:
    """A week alone is enough for a step; no load is rounded to plates nobody described."""
    take_starter_week(book, "4_days")
    bring(book, log_of(tmp_path))
    rows = {row.exercise: row for row in week_words(book).rows}
    assert set(rows) >= {"back_squat_free", "bench_press"}
    assert all(row.load == "" and row.step and row.reason for row in rows.values())


def test_several_could_be_meant(brought: Book) -> None:
    """A sentence names them; the step stands without a load; nothing is guessed."""
    found = brought.unnamed()[APART]
    seen = exercise_view(brought, APART)
    assert found.item is None
    assert {one.id for one in found.others} >= {"dumbbells", "light_bar"}
    assert "rack_bar" not in {one.id for one in found.others}
    assert seen.item == ""
    assert seen.next is not None
    assert seen.next_load == ""
    assert any(
        "choose which in your week" in line for line in week_review_lines(week_words(brought))
    )


def test_the_card_of_that_day_says_so(brought: Book) -> None:
    """Before loads are tested anew, the session says what old sets of the exercise wait for."""
    day = exercise_view(brought, APART).planned_at
    assert day is not None
    for choice, lines in (("", 1), ("dumbbells", 0)):
        choose(brought, APART, choice)
        card = card_for(brought, brought.today, weekday=day[0])
        assert isinstance(card, Card)
        assert sum("stand apart" in line for line in card.changes) == lines
        told = list(why_text(why_of(brought, APART)))
        assert sum("sets without equipment" in line for line in told) == 1


def test_her_week_decides_between_them(brought: Book) -> None:
    """Named in the week, the same sets count there, with a load and nothing left to ask."""
    choose(brought, APART, "dumbbells")
    seen = exercise_view(brought, APART)
    assert (seen.item, len(seen.sets)) == ("dumbbells", 3 * WEEKS)
    assert seen.next_load.endswith("each")
    assert week_words(brought).apart == ()
    assert "choose" not in seen.unnamed


def test_the_week_s_own_choice_comes_first(brought: Book) -> None:
    """Another bar named in the week takes the sets that the gym's usual one had."""
    assert item_of(brought, "back_squat_free") == "rack_bar"
    choose(brought, "back_squat_free", "light_bar")
    assert item_of(brought, "back_squat_free") == "light_bar"
    assert exercise_view(brought, "back_squat_free").item == "light_bar"


def test_a_gym_that_cannot_carry_the_loads_gets_none(book: Book, tmp_path: Path) -> None:
    """Sixty kilograms were never lifted on bands: such sets stand apart, and that is said."""
    take_starter_gym(book, "travel")
    bring(book, log_of(tmp_path))
    found = book.unnamed()["romanian_deadlift"]
    assert found.item is None
    assert "carries such loads" in found.words


def test_a_slip_moves_no_exercise(brought: Book, tmp_path: Path) -> None:
    """One mistyped load in thirty-six leaves the others where they are."""
    text = log_of(tmp_path).read_text().replace("62.5", "6250", 1)
    (tmp_path / "log.csv").write_text(text)
    bring(brought, tmp_path / "log.csv")
    assert MOSTLY < 35 / 36
    assert item_of(brought, "back_squat_free") == "rack_bar"


def log_first(book: Book, exercise: str) -> None:
    """The first set by the card, on the piece it names."""
    seen = exercise_view(book, exercise)
    assert seen.planned_at is not None
    day = seen.planned_at[0]
    stop = stop_of(book, exercise)
    record(book, book.today, stop.sets[-1].key, Recorded(reps=8), weekday=day)


def test_what_comes_later_moves_nothing_lifted_before(brought: Book, clock: Clock) -> None:
    """Once done here by name, another bar in the week and another gym leave the old sets alone."""
    log_first(brought, "bench_press")
    clock.now = NOW + timedelta(days=30)
    choose(brought, "bench_press", "chest_press")
    assert item_of(brought, "bench_press") == "bench_bar"
    take_starter_gym(brought, "home")
    assert item_of(brought, "bench_press") == "bench_bar"
    assert "choose" not in brought.unnamed()["bench_press"].words


def test_a_set_more_leaves_what_a_fresh_look_gives(
    brought: Book, tmp_path: Path, clock: Clock
) -> None:
    """Logged set by set, and a set of an earlier day after it: the same as read anew."""
    for exercise, away in (("bench_press", 0), ("lat_pulldown", -7), ("back_squat_free", 0)):
        clock.now = NOW + timedelta(days=away)
        log_first(brought, exercise)
        clock.now = NOW
        again = Book.open(tmp_path / "records", clock, Random(4))
        assert again.unnamed() == brought.unnamed()
        assert again.history() == brought.history()
        again.close()


def test_a_trip_moves_nothing(brought: Book) -> None:
    """A kit for the road is not where she trained for months."""
    brought.save_gym(kit_gym({EquipmentKind.BANDS}, frozenset(), brought.gym()))
    assert item_of(brought, "back_squat_free") == "rack_bar"


def test_the_log_stays_as_it_was_written(brought: Book, tmp_path: Path) -> None:
    """What a set is taken to be done on is told, never written: the export names no equipment."""
    assert {one.equipment for one in brought.as_written()} == {""}
    export_dir(brought.ledger, tmp_path / "out")
    again = import_dir(brought.ledger, tmp_path / "out", now=NOW, rng=Random(1))
    assert (again.added, again.corrected) == (0, ())
    assert "rack_bar" not in (tmp_path / "out" / "log.csv").read_text()


def test_a_load_chosen_anew_is_told_against_the_last(brought: Book) -> None:
    """Where the week asks for fewer kilograms than she last lifted, the step says lower."""
    seen = exercise_view(brought, "back_squat_free")
    assert seen.next is not None
    assert seen.next.felt_kg < 62.5
    assert seen.next.step is Step.LOWER


def test_a_load_in_other_units_is_the_same_load(book: Book, tmp_path: Path) -> None:
    """110 lb on a stack of 5 kg steps is its 50 kg: the next step holds it, and raises nothing."""
    settle(book)
    path = log_of(tmp_path)
    path.write_text(path.read_text().replace("leg_extension,50,kg", "leg_extension,110,lb"))
    bring(book, path)
    seen = exercise_view(book, "leg_extension")
    assert seen.next is not None
    assert seen.next.step is Step.HOLD
    assert seen.next_load == "50 kg on the pin"


def test_a_step_without_a_load_starts_from_the_last(brought: Book) -> None:
    """Where no load is told, the per cent of the next step have what they are of."""
    seen = exercise_view(brought, APART)
    assert seen.next is not None
    assert seen.next.reason.startswith("from 16 kg: ")


def test_how_a_dumbbell_s_number_is_read_is_told(brought: Book) -> None:
    """“12” taken as two of six would mislead in silence."""
    assert "read as both dumbbells together" in exercise_view(brought, "lateral_raise").unnamed
    assert "together" not in exercise_view(brought, "bench_press").unnamed


def test_a_written_load_counts_on_what_it_is_done_on(brought: Book) -> None:
    """How hard a set of 62.5 kg is asks the bar it is done on, whether her week names it or not."""
    week = brought.week()
    assert week is not None
    load = LoadRule(LoadFrom.FIXED, mass=Mass.kg("62.5"))
    squat = PrescribedExercise(
        exercise="back_squat_free", sets=(PrescribedSets(reps=Span(5, 5), load=load),)
    )
    bare, named = (
        asked_credits(
            brought, replace(week, days=(PlannedDay(day="Monday", exercises=(one,)),))
        ).values()
        for one in (squat, replace(squat, equipment="rack_bar"))
    )
    assert list(bare) == list(named)
    assert all(0.5 < credit <= 1 for credit in bare)


def test_equipment_that_is_written_is_left_alone(book: Book, tmp_path: Path) -> None:
    """A name of her own keeps its own strength, and the import says that no gym has it."""
    settle(book)
    report = bring(book, log_of(tmp_path, equipment="barbell"))
    assert book.unnamed() == {}
    assert any("No gym of yours has “barbell”" in line for line in import_notes(book, report))


def test_the_import_says_what_it_took(book: Book, tmp_path: Path) -> None:
    """What old sets count for, what could be several things, and what dumbbells' loads mean."""
    settle(book)
    told = " ".join(import_notes(book, bring(book, log_of(tmp_path))))
    assert "Back squat for “Bar at the rack”" in told
    assert "Overhead press: 36 sets without equipment stand apart" in told
    assert "both dumbbells together (Overhead press, Lateral raise)" in told


def test_the_import_before_a_gym_says_what_is_missing(book: Book, tmp_path: Path) -> None:
    """Nothing is lost without a gym, and the sentence says what would help."""
    (told,) = import_notes(book, bring(book, log_of(tmp_path)))
    assert told.startswith("288 sets without equipment: once there is a gym")


@pytest.mark.parametrize(
    ("column", "words"),
    [
        ("effort", "Call it rir"),
        ("Weight (kg)", "Kept, but not read"),
        ("mood", "Kept, but"),
        ("sets", "a row is one set"),
    ],
)
def test_a_column_that_is_not_read_is_told(
    book: Book, tmp_path: Path, column: str, words: str
) -> None:
    """Effort under another name would be lost in silence; the name to use is said."""
    told = import_notes(book, bring(book, log_of(tmp_path, **{column: "1"})))
    assert any(line.startswith((words, f"The column “{column}”")) for line in told)
    assert any(words in line for line in told)


def test_starter_gym_has_what_these_tests_name() -> None:
    """The pieces named here are in the gym."""
    gym = starter_gym("commercial_kg")
    assert all(gym.item(one) for one in ("rack_bar", "light_bar", "bench_bar", "chest_press"))
