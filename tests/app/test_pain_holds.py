"""Alarming pain leaves an exercise out of the coming cards and plans until she says otherwise."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import date, datetime, timedelta
from pathlib import Path
from random import Random

import pytest

from pennate.app.body_notes import pain_reports, save_morning
from pennate.app.book import Book
from pennate.app.day import readiness_of, said_body
from pennate.app.exchange import export_dir, import_dir
from pennate.app.pain_holds import holds
from pennate.app.stops import LOADED_JOINT
from pennate.app.swaps import joint_limits
from pennate.app.today import card_for, check_in, open_session, skip, swap, take_up
from pennate.app.week_brief import brief_of, keep_wishes, known_wishes
from pennate.body.pain import PainCourse, courses
from pennate.core.brief import JointLimit
from pennate.core.card import Card, CardStop, SetState
from pennate.core.muscles import Joint
from pennate.core.readiness import PainAction, Readiness
from pennate.ledger import Ledger, uuid7
from pennate.ledger.sets import set_entry

LATER = 7


@pytest.fixture
def book(demo_book: Book) -> Book:
    """The made-up lifter, with a clock that tests move."""
    return Book(demo_book.ledger, Clock(demo_book.now()), Random(9))


class Clock:
    """A clock a second later whenever it is asked."""

    def __init__(self, moment: datetime) -> None:
        self.moment = moment

    def __call__(self) -> datetime:
        """The time."""
        self.moment += timedelta(seconds=1)
        return self.moment


def on(book: Book, days: int) -> Book:
    """The same records so many days on."""
    return Book(book.ledger, Clock(book.now() + timedelta(days=days)), book.rng)


def card(book: Book, weekday: str | None = None) -> Card:
    """The card of today's planned day."""
    found = card_for(book, book.today, weekday=weekday or first_day(book))
    assert isinstance(found, Card)
    return found


def first_day(book: Book) -> str:
    """The first planned day of her week."""
    week = book.week()
    assert week is not None
    return next(day.day for day in week.days if not day.rest)


def first_exercise(book: Book) -> str:
    """Its first exercise."""
    week = book.week()
    assert week is not None
    return next(day for day in week.days if not day.rest).exercises[0].exercise


def log(book: Book, *, note: str = "", pain: Mapping[str, int] | None = None) -> date:
    """A set of the first exercise today, with what it said; gives the day."""
    last = next(d for d in reversed(book.history().sets) if d.exercise == first_exercise(book))
    done = replace(
        last,
        id=uuid7(book.now(), book.rng),
        when=book.today,
        number=77,
        note=note,
        pain=pain or {},
        extra={},
    )
    book.ledger.append([set_entry(done, now=book.now(), rng=book.rng)])
    return book.today


def left_out(found: Card) -> dict[str, str]:
    """Exercises of which every open set is left out, with the reason that stands there."""
    return {
        stop.exercise: stop.replaced
        for stop in found.stops
        if all(one.state is not SetState.OPEN for one in stop.sets)
    }


SAID = {
    "above 5": ({"knee": 7}, "", "knee 7 of 10"),
    "sharp": ({"knee": 2}, "sharp pain on the way down", "knee 2 of 10, sharp pain"),
    "swelling": ({}, "swelling afterwards", "swelling"),
    "locking": ({}, "knee locked at the bottom", "locked"),
    "giving way": ({}, "it gave way", "gave way"),
}


@pytest.mark.parametrize("name", SAID)
def test_an_alarm_at_a_set_leaves_that_exercise_out_next_time(name: str, book: Book) -> None:
    """Evidence section 11 (Silbernagel 2007; Thomeé 1997): with what was said, and no other."""
    pain, note, words = SAID[name]
    day = log(book, note=note, pain=pain)
    later = on(book, LATER)
    why = f"left out until it has settled: {words} on {day.day} {day:%B}"
    assert left_out(card(later)) == {first_exercise(book): why}
    assert holds(on(book, 60), on(book, 60).today).exercises  # however long she says nothing


@pytest.mark.parametrize(
    ("pain", "note"), [({"knee": 5}, ""), ({}, "good pump"), ({}, "lock out at the top")]
)
def test_no_alarm_leaves_nothing_out(pain: dict[str, int], note: str, book: Book) -> None:
    """Five of ten reduces, words of every day say nothing: the next card is whole."""
    log(book, note=note, pain=pain)
    assert left_out(card(on(book, LATER))) == {}


def release_by_doing(book: Book) -> None:
    """She takes it up and does a set without pain."""
    take_up(book, book.today, first_day(book), 0)
    log(book)


def release_by_saying(book: Book) -> None:
    """She says in the morning that the joint is at 1."""
    save_morning(book, book.today, "knee", 1)


def release_at_check_in(book: Book) -> None:
    """She says at a check-in that it is at 2."""
    said = Readiness(day=book.today, pain={"knee": 2})
    check_in(book, book.today, first_day(book), said, None)


RELEASES = {one.__name__: one for one in (release_by_doing, release_by_saying, release_at_check_in)}


@pytest.mark.parametrize("name", RELEASES)
def test_she_ends_it_herself(name: str, book: Book) -> None:
    """Done without it, or reported low: from then on it is asked for again."""
    log(book, pain={"knee": 8})
    then = on(book, LATER)
    assert left_out(card(then))
    RELEASES[name](then)
    assert left_out(card(on(then, LATER))) == {}


def test_still_high_is_no_release(book: Book) -> None:
    """A 6 on another morning, or taking it up with the pain as before, changes nothing."""
    log(book, pain={"knee": 8})
    then = on(book, LATER)
    save_morning(then, then.today, "knee", 6)
    assert first_exercise(book) in left_out(card(on(then, 1), first_day(book)))
    log(then, pain={"knee": 6})
    assert first_exercise(book) in holds(on(then, 1), on(then, 1).today).exercises


def test_taking_it_up_is_for_that_day(book: Book) -> None:
    """Her word goes first; if she then does not do it, it is left out again."""
    log(book, note="it gave way")
    then = on(book, LATER)
    take_up(then, then.today, first_day(then), 0)
    assert left_out(card(then)) == {}
    skip(then, then.today, first_day(then), 0)
    assert left_out(card(then)) == {first_exercise(book): "left out today"}
    assert left_out(card(on(then, LATER)))


def test_another_exercise_may_take_its_place(book: Book) -> None:
    """Swapped for one that is not held, the stop is done."""
    log(book, pain={"elbow or wrist": 7})
    then = on(book, LATER)
    to = next(s for s in card(then).stops if s.exercise not in holds(then, then.today).exercises)
    swap(then, then.today, first_day(then), 0, {"exercise": to.exercise})
    assert left_out(card(then)) == {}


def loads(stop: CardStop, book: Book, joint: Joint) -> bool:
    """Whether an exercise loads a joint clearly."""
    return book.catalogue[stop.exercise].joints.get(joint, 0) >= LOADED_JOINT


def in_the_morning(book: Book) -> None:
    """A shoulder that catches."""
    save_morning(book, book.today, "shoulder", 3, alarming=True)


def at_check_in(book: Book) -> None:
    """A shoulder at 7 before a session."""
    said = Readiness(day=book.today, pain={"shoulder": 7})
    check_in(book, book.today, first_day(book), said, None)


@pytest.mark.parametrize("say", [in_the_morning, at_check_in])
def test_an_alarming_joint_leaves_out_what_loads_it(
    say: Callable[[Book], None], book: Book
) -> None:
    """Said of a joint, not of a set: each exercise that loads it clearly, and no other."""
    say(book)
    then = on(book, LATER)
    week = then.week()
    assert week is not None
    cards = [card(then, day.day) for day in week.days if not day.rest]
    for found in cards:
        assert set(left_out(found)) == {
            stop.exercise for stop in found.stops if loads(stop, then, Joint.SHOULDER)
        }
    assert any(left_out(found) for found in cards)
    assert any(not left_out(found) for found in cards)
    save_morning(then, then.today, "shoulder", 2)
    assert not any(left_out(card(on(then, 1), found.session)) for found in cards)


def test_the_card_of_the_day_itself_goes_on(book: Book) -> None:
    """On the day the caution speaks, and she decides; what is done stays done."""
    open_session(book, book.today, first_day(book))
    log(book, pain={"knee": 8})
    assert "settled" not in " ".join(left_out(card(book)).values())


def test_the_plan_is_asked_without_it(book: Book) -> None:
    """The form of the next plan bars the exercise and spares the joint; so does the brief."""
    log(book, pain={"elbow or wrist": 7})
    save_morning(book, book.today, "shoulder", 8)
    wishes = known_wishes(book)
    brief = brief_of(wishes, book.catalogue, [one.id for one in book.gyms()])
    assert first_exercise(book) in brief.preferences.barred
    assert brief.joint_limits[Joint.SHOULDER] is JointLimit.NONE


def test_what_pain_bars_is_not_kept_as_a_wish(book: Book) -> None:
    """Once it has settled the form is as she had it, her own wishes kept."""
    own = replace(known_wishes(book), barred="Hip thrust", joints={"knee": "light"})
    keep_wishes(book, own)
    log(book, pain={"elbow or wrist": 7})
    save_morning(book, book.today, "shoulder", 8)
    name = book.catalogue[first_exercise(book)].name
    asked = known_wishes(book)
    assert asked.barred == f"Hip thrust, {name}"
    assert asked.joints == {"knee": "light", "shoulder": "none"}
    keep_wishes(book, asked)
    then = on(book, LATER)
    for joint in ("elbow or wrist", "shoulder"):
        save_morning(then, then.today, joint, 1)
    assert (known_wishes(then).barred, known_wishes(then).joints) == (own.barred, own.joints)


SHARP = "sharp, swelling, locking or giving way"


def stop_sharp(book: Book, where: str = "shoulder", score: int = 2) -> date:
    """She stops the first exercise for sharp pain with a low number, no set closed with it."""
    day, muscle = first_day(book), where == "muscle"
    pain = {} if muscle else {where: score}
    if pain:
        said = Readiness(day=book.today).hurting(pain, alarming=True)
        check_in(book, book.today, day, said, None)
    note = f"muscle pain {score} of 10; {SHARP}" if muscle else SHARP
    skip(book, book.today, day, 0, exercise=first_exercise(book), pain=pain, note=note)
    return book.today


# Sharp stops at any number: evidence section 11 (Silbernagel 2007; Thomeé 1997).
def test_sharp_is_kept_with_its_low_number(book: Book) -> None:
    """Today what loads the joint is out, a clinician is named, the plan and swaps spare it."""
    stop_sharp(book)
    found = card(book)
    loading = {one.exercise for one in found.stops if loads(one, book, Joint.SHOULDER)}
    assert set(left_out(found)) == loading | {first_exercise(book)}
    assert left_out(found)[first_exercise(book)] == f"left out today: shoulder 2 of 10, {SHARP}"
    assert any(f"Shoulder 2 of 10, {SHARP}: what loads it is left out" in s for s in found.changes)
    report = next(one for one in pain_reports(book) if one.joint == "shoulder")
    assert (report.day, report.score, report.alarming) == (book.today, 2, True)
    assert courses(pain_reports(book), book.today)[0].course is PainCourse.CLINICIAN
    brief = brief_of(known_wishes(book), book.catalogue, [one.id for one in book.gyms()])
    assert brief.joint_limits[Joint.SHOULDER] is JointLimit.NONE
    assert joint_limits(found.readiness) == {Joint.SHOULDER: 0}


@pytest.mark.parametrize("where", ["shoulder", "elbow or wrist", "muscle"])
def test_what_was_stopped_as_sharp_is_out_next_time(where: str, book: Book) -> None:
    """The exercise itself too, where it hardly loads the joint or no joint was named."""
    day = stop_sharp(book, where)
    words = SHARP if where == "muscle" else f"{where} 2 of 10, {SHARP}"
    assert holds(on(book, 1), on(book, 1).today).exercises[first_exercise(book)].words == (
        f"{words} on {day:%-d %B}"
    )
    assert first_exercise(book) in left_out(card(on(book, LATER)))
    then = on(book, LATER)
    take_up(then, then.today, first_day(then), 0)
    log(then)
    save_morning(then, then.today, "shoulder", 1)
    assert first_exercise(book) not in holds(on(then, 1), on(then, 1).today).exercises


def test_taken_up_at_once_it_was_a_slip(book: Book) -> None:
    """Stopped by mistake and taken up the same day, the exercise is not held next time."""
    stop_sharp(book, "muscle")
    take_up(book, book.today, first_day(book), 0)
    assert left_out(card(book)) == {}
    assert holds(on(book, LATER), on(book, LATER).today).exercises == {}


def test_said_again_without_it_the_word_is_gone(book: Book) -> None:
    """Each joint has its own word; a new number without it takes the place of both."""
    said = Readiness(day=book.today).hurting({"knee": 2, "hip": 1}, alarming=True)
    again = said.hurting({"knee": 3}, alarming=False)
    assert (again.action("knee"), again.action("hip")) == (PainAction.REDUCE, PainAction.STOP)
    assert again.words("hip") == f"hip 1 of 10, {SHARP}"
    assert again.words("knee") == "knee 3 of 10"
    stored = readiness_of(book.today, said_body(again))
    assert stored == again


def test_the_word_is_exported_and_comes_back(book: Book, tmp_path: Path) -> None:
    """Taken out and brought into empty records, the joint and the exercise are held as before."""
    stop_sharp(book)
    export_dir(book.ledger, tmp_path / "out")
    with Ledger.open(tmp_path / "back.sqlite") as ledger:
        import_dir(ledger, tmp_path / "out", now=book.now(), rng=Random(4))
        later = on(book, 1).now()
        back = Book(ledger, Clock(later), Random(4))
        assert holds(back, back.today) == holds(on(book, 1), on(book, 1).today)
        assert "shoulder" in holds(back, back.today).joints
