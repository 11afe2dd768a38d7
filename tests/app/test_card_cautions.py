"""Cautions on the card of a session: each exactly where it applies, emergencies every time."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from fractions import Fraction

import pytest

from pennate.app.body_notes import save_morning
from pennate.app.book import Book
from pennate.app.card_facts import hard_new_days_ago
from pennate.app.today import card_for, inputs_for, planned_for
from pennate.core import caution_texts as say
from pennate.core.card import Card
from pennate.core.history import History
from pennate.core.muscles import Joint
from pennate.core.performed import PerformedSet
from pennate.core.profile import Profile
from pennate.core.readiness import Health
from pennate.ledger import uuid7
from pennate.ledger.sets import set_entry


def card(book: Book) -> Card:
    """Today's card of the made-up lifter."""
    found = card_for(book, book.today)
    assert isinstance(found, Card)
    return found


def ids(found: Card) -> list[str]:
    """Cautions of all stops, as often as they are shown."""
    return [one.id for stop in found.stops for one in stop.cautions]


def sore(book: Book, days: range, score: int) -> None:
    """A shoulder that hurt on these days past."""
    for past in days:
        book.put("readiness", book.today - timedelta(days=past), {"pain": {"shoulder": score}})


def shoulder_stops(
    found: Card, book: Book, levels: frozenset[int] = frozenset({1, 2, 3})
) -> set[str]:
    """Exercises of the card that load a sore shoulder so much."""
    return {
        stop.exercise
        for stop in found.stops
        if book.catalogue[stop.exercise].sore_load(Joint.SHOULDER) in levels
    }


def test_two_weeks_of_pain_name_a_clinician_once(demo_book: Book) -> None:
    """Sore for 16 days: a clinician, once a session, at an exercise that loads the joint."""
    sore(demo_book, range(1, 18), 3)
    found = card(demo_book)
    assert ids(found).count(say.PAIN_CLINICIAN.id) == 1
    shown = {s.exercise for s in found.stops if say.PAIN_CLINICIAN in s.cautions}
    assert shown <= shoulder_stops(found, demo_book)


def test_a_fortnight_is_not_yet_persistent(demo_book: Book) -> None:
    """Fourteen days: reduce and watch, no clinician yet."""
    sore(demo_book, range(1, 16), 3)
    assert say.PAIN_CLINICIAN.id not in ids(card(demo_book))


def test_an_unsettled_morning_asks_for_a_swap(demo_book: Book) -> None:
    """Yesterday 4, this morning 3: swap; this morning 1: nothing."""
    sore(demo_book, range(1, 2), 4)
    save_morning(demo_book, demo_book.today, "shoulder", 1)
    assert say.PAIN_SWAP.id not in ids(card(demo_book))
    save_morning(demo_book, demo_book.today, "shoulder", 3)
    assert say.PAIN_SWAP.id in ids(card(demo_book))


def warned(found: Card, caution: say.Caution) -> set[str]:
    """Exercises at which a caution stands."""
    return {stop.exercise for stop in found.stops if caution in stop.cautions}


# The joint scale, 0 to 3 with clear loads from 2 on: docs/evidence.md, `audit.joint_heavy_day`.
CLEAR, SLIGHT = frozenset({2, 3}), frozenset({1})


@pytest.mark.parametrize(("score", "how"), [(2, "sharp"), (7, "dull")])
def test_pain_that_stops_speaks_in_proportion(demo_book: Book, score: int, how: str) -> None:
    """What loads the joint clearly is stopped; slightly, done while free of pain; no others."""
    save_morning(demo_book, demo_book.today, "shoulder", score, alarming=how == "sharp")
    found = card(demo_book)
    slight = shoulder_stops(found, demo_book, SLIGHT)
    assert slight, "the day has an exercise that loads the shoulder slightly"
    assert warned(found, say.PAIN_STOP) == shoulder_stops(found, demo_book, CLEAR)
    assert warned(found, say.PAIN_SLIGHT) == slight
    named = {
        c.text for s in found.stops for c in s.cautions if c.id in {"pain_stop", "pain_slight"}
    }
    assert len(named) == 2
    assert all(text.startswith("Your shoulder") for text in named)


def test_a_sign_without_a_joint_names_none(demo_book: Book) -> None:
    """A note of a set that names no joint, and one joint among several that hurts less."""
    noted(demo_book, "it locked")
    save_morning(demo_book, demo_book.today, "knee", 3)
    texts = {c.text for s in card(demo_book).stops for c in s.cautions}
    assert say.PAIN_STOP.text in texts
    assert not any("Your knee" in text for text in texts)


def test_slight_loads_are_heeded_until_it_has_settled(demo_book: Book) -> None:
    """Sharp two days ago and nothing since: still on the condition; 4 today: no more of it."""
    told = demo_book.today - timedelta(days=2)
    demo_book.put("readiness", told, {"pain": {"shoulder": 2}, "alarming": ["shoulder"]})
    found = card(demo_book)
    assert warned(found, say.PAIN_SLIGHT) == shoulder_stops(found, demo_book, SLIGHT)
    sore(demo_book, range(1), 4)
    assert warned(card(demo_book), say.PAIN_SLIGHT) == set()


def noted(book: Book, note: str) -> None:
    """A first set of today with a note."""
    found = card(book)
    done = PerformedSet(
        id=uuid7(book.now(), book.rng),
        when=book.today,
        session=found.session,
        number=1,
        exercise=found.stops[0].exercise,
        reps=5,
        load=Fraction(20),
        note=note,
    )
    book.ledger.append([set_entry(done, now=book.now(), rng=book.rng)])


def test_a_warning_sign_in_a_note_brings_the_emergency_line(demo_book: Book) -> None:
    """Red flags: said for the whole day, every time the card is drawn."""
    assert say.RED_FLAGS not in card(demo_book).cautions
    noted(demo_book, "chest pain on the last rep")
    for _ in range(2):
        assert say.RED_FLAGS in card(demo_book).cautions


def test_an_ordinary_note_brings_nothing(demo_book: Book) -> None:
    """Everyday words alarm nobody."""
    noted(demo_book, "good pump, seat 4")
    assert card(demo_book).cautions == ()


@pytest.mark.parametrize(
    ("said", "watched"), [("years", "nothing"), ("new", "breakdown"), ("", "breakdown")]
)
def test_first_sessions_are_watched_unless_trained(
    demo_book: Book, said: str, watched: str
) -> None:
    """Evidence section 11: in the first week of new work the signs of breakdown are told."""
    planned = planned_for(demo_book, demo_book.today)
    assert planned is not None
    inputs = inputs_for(demo_book, demo_book.today, planned)
    trained = {"years": True, "new": False}.get(said)
    last = [one for one in inputs.history if (demo_book.today - one.day).days <= 3]
    assert last
    inputs = replace(
        inputs, history=History.of(last), profile=replace(inputs.profile, trained=trained)
    )
    found = hard_new_days_ago(inputs)
    assert (found is not None) is (watched == "breakdown")


def test_a_return_after_four_weeks_is_watched_for_five_days(demo_book: Book) -> None:
    """Days 0 to 5 after the first session back, and not on day 6."""
    planned = planned_for(demo_book, demo_book.today)
    assert planned is not None
    inputs = inputs_for(demo_book, demo_book.today, planned)
    sample = inputs.history.sets[-1]
    back = demo_book.today - timedelta(days=40)
    days = [back - timedelta(days=28 + 7 * n) for n in range(6, -1, -1)] + [back]
    history = History.of([replace(sample, when=day, session="x") for day in days])
    watched = [
        hard_new_days_ago(
            replace(
                inputs,
                history=history,
                state=replace(inputs.state, day=back + timedelta(days=later)),
            )
        )
        for later in range(8)
    ]
    assert watched == [0, 1, 2, 3, 4, 5, None, None]


def test_pregnancy_stop_signs_stand_at_every_exercise(demo_book: Book) -> None:
    """An emergency line is repeated; the advice to see somebody comes once."""
    demo_book.save_profile(Profile(health=Health.PREGNANCY, trained=True))
    found = card(demo_book)
    assert all(say.PREGNANCY_STOP in stop.cautions for stop in found.stops)
    assert ids(found).count(say.PREGNANCY.id) == 1


def test_an_ordinary_day_repeats_no_caution(demo_book: Book) -> None:
    """What is due once a session stands on the card once."""
    found = card(demo_book)
    once = [one.id for s in found.stops for one in s.cautions if one.once_a_session]
    assert len(once) == len(set(once))
    assert found.cautions == ()
