"""Ill, or back after it: asked once, told plainly, and eased into.

That nobody trains with fever, begins again some days without it, and then eases in for about as
long as the illness lasted is common practice in sport, from memory; the days are in the register.
"""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from datetime import date, timedelta
from pathlib import Path
from random import Random

import pytest

from pennate.app.body_recovery import coming_back
from pennate.app.body_undo import noted_lately, take_back
from pennate.app.book import Book
from pennate.app.card_text import card_lines
from pennate.app.exchange import export_dir, import_dir
from pennate.app.illness import ASK, ill_days, illness, say_ill
from pennate.app.today import card_for, check_in
from pennate.app.week_review_text import week_review_lines, week_words
from pennate.core.card import Card, CardSet
from pennate.core.caution_texts import AFTER_ILLNESS, ILL
from pennate.core.history import History
from pennate.core.performed import SetKind
from pennate.core.readiness import Ill, Readiness
from tests.app.conftest import NOW
from tests.app.test_back_again import _last_most, _planned, _set_on

DAY = date(2026, 6, 1)
Away = Callable[[int], Book]


@pytest.fixture
def away(demo_folder: Path, tmp_path: Path) -> Iterator[Away]:
    """The made-up lifter so many days after her last set; a second time, later in the same log."""
    opened: list[Book] = []
    folder = tmp_path / "ill"
    shutil.copytree(demo_folder, folder)

    def book_after(days: int) -> Book:
        book = Book.open(folder, lambda: NOW, Random(5))
        last = max(done.day for done in book.history().sets)
        book.close()
        now = NOW + (last + timedelta(days=days) - NOW.date())
        opened.append(Book.open(folder, lambda: now, Random(days)))
        return opened[-1]

    yield book_after
    for book in opened:
        book.close()


def _card(book: Book, weekday: str = "Monday") -> Card:
    found = card_for(book, book.today, weekday=weekday)
    assert isinstance(found, Card)
    return found


def _hard(card: Card) -> list[CardSet]:
    return [one for stop in card.stops for one in stop.sets if one.kind is not SetKind.WARM_UP]


@pytest.mark.parametrize(
    ("trained", "said", "days"),
    [
        ([-10], {0: Ill.BEFORE}, 10),  # as many as she was away
        ([-1], {0: Ill.BEFORE}, 3),  # a short one: the first sessions
        ([-90], {0: Ill.BEFORE}, 14),  # two weeks at most
        ([], {0: Ill.BEFORE}, 3),
        ([-10], {0: Ill.NOW}, 1),  # today alone, if at all
        ([-10, 1], {0: Ill.BEFORE, 2: Ill.BEFORE}, 10),  # said again: the longer one holds
        ([-10], {}, 0),
    ],
)
def test_how_long_it_stays_easy(trained: list[int], said: dict[int, Ill], days: int) -> None:
    """As many easy days as days away, three at least and two weeks at most."""
    history = History.of(_set_on(DAY + timedelta(days=ago)) for ago in trained)
    told = {DAY + timedelta(days=on): ill for on, ill in said.items()}
    easy = [illness(history, told, DAY + timedelta(days=ahead)) is not None for ahead in range(30)]
    assert easy == [ahead < days for ahead in range(30)]


def test_nobody_is_eased_before_she_said_so() -> None:
    """What is said on a day says nothing of the days before it."""
    history = History.of([_set_on(DAY - timedelta(days=9))])
    assert illness(history, {DAY: Ill.BEFORE}, DAY - timedelta(days=1)) is None


def test_after_days_away_she_is_asked(away: Away) -> None:
    """Five days without a session bring the question, four do not; an answer ends it."""
    assert not any(ASK in line for line in _card(away(4)).changes)
    book = away(9)
    asked = [line for line in _card(book).changes if ASK in line]
    assert [line.split()[0] for line in asked] == ["9"]
    assert not any(ASK in line for line in _other_day(book).changes)
    say_ill(book, book.today, Ill.BEFORE)
    assert not any(ASK in line for line in _card(book).changes)


def _other_day(book: Book) -> Card:
    """A card made ahead: she may have trained by then."""
    found = card_for(book, book.today + timedelta(days=1), weekday="Monday")
    assert isinstance(found, Card)
    return found


def test_the_sessions_after_it_are_easy(away: Away) -> None:
    """No failure, no drop, two left, fewer sets and no load above last time's, on every day."""
    book = away(9)
    usual = {weekday: _hard(_card(book, weekday)) for weekday in _planned(book)}
    say_ill(book, book.today, Ill.BEFORE)
    for weekday, before in usual.items():
        card = _card(book, weekday)
        sets = _hard(card)
        assert len(sets) < len(before)
        assert not any(one.asked.to_failure or one.kind is SetKind.DROP for one in sets)
        assert min(one.asked.reserve.low for one in sets if one.asked.reserve) >= 2
        for stop in card.stops:
            most = _last_most(book, stop)
            loads = [one.load.felt_kg for one in _hard(card) if one in stop.sets and one.load]
            assert most is None or not loads or max(loads) <= most + 0.02


def test_it_is_told_once_with_whom_to_ask(away: Away) -> None:
    """One caution that names the doctor and the signs to stop at, one line on what is easier."""
    book = away(9)
    say_ill(book, book.today, Ill.BEFORE)
    text = "\n".join(card_lines(_card(book)))
    assert text.count(AFTER_ILLNESS.text) == 1
    assert "ask your doctor" in AFTER_ILLNESS.text
    assert "Chest pain" in AFTER_ILLNESS.text
    assert text.count("asing in after illness, day 1 of 9") == 1
    assert "since the last time" not in text
    back = coming_back(book)
    assert back is not None
    assert back.say.startswith("Day 1 of 9")
    assert any("Day 1 of 9" in line for line in week_review_lines(week_words(book)))


def test_it_ends_by_itself(away: Away) -> None:
    """The caution stands on its day only; after as many easy days the week is the usual one."""
    book = away(9)
    day = book.today
    say_ill(book, day, Ill.BEFORE)
    for ahead, share in ((1, 0.5), (7, 0.75), (9, 1.0)):
        later = away(9 + ahead)
        assert (later.today - day).days == ahead
        assert AFTER_ILLNESS not in _card(later).cautions
        said = [line for line in _card(later).changes if "after illness" in line]
        assert len(said) == (share < 1)
        back = coming_back(later)
        assert back is not None  # in the end of eighteen days off alone, with all of the sets
        assert back.sets == share


def test_ill_now_is_told_not_to_train(away: Away) -> None:
    """Fever: not today; what she does all the same is easy, and tomorrow is no longer meant."""
    book = away(2)
    say_ill(book, book.today, Ill.NOW)
    card = _card(book)
    assert ILL in card.cautions
    assert "do not train" in ILL.text
    assert any(line.startswith("Ill today") for line in card.changes)
    assert min(one.asked.reserve.low for one in _hard(card) if one.asked.reserve) >= 2
    later = away(3)
    assert ILL not in _card(later).cautions
    assert coming_back(later) is None


def test_four_weeks_away_stay_four_weeks(away: Away) -> None:
    """Ill for five weeks: the pause decides as ever, and the caution stands beside it."""
    book = away(35)
    before = _hard(_card(book))
    say_ill(book, book.today, Ill.BEFORE)
    card = _card(book)
    assert [one.load for one in _hard(card)] == [one.load for one in before]
    assert AFTER_ILLNESS in card.cautions
    assert any("5 weeks" in line for line in card.changes)


def test_it_keeps_what_else_was_said_and_is_taken_back(away: Away) -> None:
    """Said from the command line it leaves her other answers; a slip is taken back like them."""
    book = away(9)
    said = Readiness(day=book.today, short_sleep=True, pain={"knee": 2})
    check_in(book, book.today, "Monday", said, 45)
    say_ill(book, book.today, Ill.BEFORE)
    readiness = _card(book).readiness
    assert readiness is not None
    assert (readiness.ill, readiness.short_sleep, dict(readiness.pain)) == (
        Ill.BEFORE,
        True,
        {"knee": 2},
    )
    noted = noted_lately(book, "readiness")[0]
    assert noted.what.startswith("was ill, short sleep")
    take_back(book, noted.id)
    assert ill_days(book) == {}


def test_it_travels_with_the_records(away: Away, tmp_path: Path) -> None:
    """An export taken in elsewhere keeps the easy days."""
    book = away(9)
    say_ill(book, book.today, Ill.BEFORE)
    export_dir(book.ledger, tmp_path / "out")
    other = Book.open(tmp_path / "other", book.now, Random(8))
    import_dir(other.ledger, tmp_path / "out", now=book.now(), rng=Random(1))
    assert ill_days(other) == ill_days(book) == {book.today: Ill.BEFORE}
    other.close()
