"""The review and the page of an exercise speak of the load that the session will ask for."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from datetime import timedelta
from math import log

import pytest

from pennate.app.body_today import body_today
from pennate.app.book import Book
from pennate.app.card import STILL_HEAVY
from pennate.app.card_text import load_words
from pennate.app.exercise_view import desk_of, view_at
from pennate.app.gyms import starter_gym
from pennate.app.record import Recorded, record
from pennate.app.response_sheet import prepare
from pennate.app.step_advice import below_words, offer_words, offers_off
from pennate.app.today import card_for, open_session
from pennate.app.week_review import week_review
from pennate.app.week_review_text import week_words, words_of
from pennate.core.card import Card, CardSet
from pennate.core.evidence.strength_steps import LOWER_BELOW
from pennate.core.performed import Effort, SetKind
from pennate.core.prescribed import WEEKDAYS, Span
from pennate.estimate import Step
from pennate.ledger.sets import set_entry
from pennate.loading import Loaded, ladder

BELOW = re.compile(
    r"about (?P<here>\d+) reps? to failure in the first set, about (?P<there>\d+) at [^,]+, "
    r"the next load down; (?P<asked>[^ ]+) are asked"
)


def _asked(book: Book) -> dict[str, tuple[str, CardSet]]:
    """The first working set of each exercise on the first day to come that has it."""
    week, found = book.week(), dict[str, tuple[str, CardSet]]()
    assert week is not None
    for ahead in range(7):
        day = book.today + timedelta(days=ahead)
        name = WEEKDAYS[day.weekday()]
        planned = week.day(name)
        if planned is None or planned.rest:
            continue
        for stop in prepare(book, day, name, substitutes=False).card.stops:
            hard = [one for one in stop.sets if one.kind is not SetKind.WARM_UP]
            if hard:
                found.setdefault(stop.exercise, (name, hard[0]))
    return found


def test_the_review_names_the_load_of_the_card(demo_book: Book) -> None:
    """Row by row, the load of “what comes next” is the one on the card of the day it names."""
    asked, seen = _asked(demo_book), 0
    for row in week_words(demo_book).rows:
        day, one = asked[row.exercise]
        if row.load and one.load is not None and row.step in {"raise", "lower", "hold"}:
            seen += 1
            assert row.load == load_words(one.load), row.name
            assert row.reason.startswith(day)
    assert seen > 10


@pytest.mark.parametrize("done", [0, 4], ids=["opened", "under way"])
def test_a_session_done_on_another_day_is_what_its_exercises_ask_next(
    demo_book: Book, done: int
) -> None:
    """Monday's session opened on a Tuesday: its exercises' pages say the loads Today shows.

    They spoke of the Monday to come, with other loads than the Monday on the screen.
    """
    week, today = demo_book.week(), demo_book.today
    assert week is not None
    name = next(d.day for d in week.days if not d.rest and d.day != WEEKDAYS[today.weekday()])
    open_session(demo_book, today, name)
    for _ in range(done):
        card = card_for(demo_book, today, weekday=name)
        assert isinstance(card, Card)
        assert card.next_key
        record(demo_book, today, card.next_key, Recorded(), weekday=name)
    card = card_for(demo_book, today, weekday=name)
    assert isinstance(card, Card)
    ahead, seen = desk_of(demo_book).ahead, 0
    for stop in card.stops:
        hard = [one for one in stop.sets if one.kind is not SetKind.WARM_UP]
        coming = ahead.of(stop.exercise)
        if coming is None or any(one.done for one in hard):
            continue
        seen += 1
        assert (coming.weekday, coming.first) == (name, hard[0])
    assert seen > 2


def test_a_held_load_is_one_she_can_do(demo_book: Book) -> None:
    """Nothing whose low end is unlikely is called “hold”: it is made easier, and that is said."""
    desk = desk_of(demo_book)
    week = demo_book.week()
    assert week is not None
    steps = [view_at(desk, one.exercise).next for day in week.days for one in day.exercises]
    found = [step for step in steps if step is not None]
    assert all(one.probability >= LOWER_BELOW for one in found if one.step is Step.HOLD)
    easier = [one for one in found if one.step is Step.EASIER]
    assert all("easier exercise" in one.reason for one in easier)
    assert len(found) > 10


def test_two_chances_are_not_read_as_a_fraction(demo_book: Book) -> None:
    """The top of the range has a chance of its own: “15 or more: 9 %”, never “15 of 9 %”."""
    reasons = [row.reason for row in week_words(demo_book).rows if row.step == "hold"]
    assert any(re.search(r", \d+ or more: (under )?\d+ %", one) for one in reasons)
    assert not any(re.search(r", \d+ of ", one) for one in reasons)


def test_a_clear_change_says_what_its_give_is(demo_book: Book) -> None:
    """Strength that clearly moves is told with its ±, the unit of it, and how often it holds."""
    seen = week_review(demo_book)
    clear = replace(seen.exercises[0], month=0.05, month_give=0.02)
    told = words_of(replace(seen, exercises=(clear,)), body_today(demo_book)).changed
    assert f"{clear.name}: strength +5.0 % in four weeks (± 2.0 %, 95 times in a hundred)." in told


def test_a_change_of_load_says_why(demo_book: Book) -> None:
    """A raised or lowered load stands beside what was likely at the load before."""
    for by in (6, -4):  # every exercise far better than last time, then far worse
        repeat_last(demo_book, by)
        rows = [row for row in week_words(demo_book).rows if row.step in {"raise", "lower"}]
        assert rows
        assert all("at the load before" in row.reason for row in rows)


def test_a_load_held_though_too_heavy_says_what_to_expect_of_it_and_of_the_next(
    demo_book: Book,
) -> None:
    """Reps to failure here and one load down, both as forecast, and what is asked, in the review
    and on the page; the load down is one her gym makes, with none between.
    """
    repeat_last(demo_book, -2)
    desk, rows = desk_of(demo_book), {row.exercise: row for row in week_words(demo_book).rows}
    held = [(name, one) for name, (_, one) in _asked(demo_book).items() if STILL_HEAVY in one.why]
    below = [(name, one, found) for name, one in held if (found := BELOW.search(one.why))]
    assert len(below) > 2
    for name, one, found in below:
        assert one.load is not None
        assert one.forecast is not None
        assert int(found["here"]) == round(one.forecast.median)
        assert int(found["there"]) > int(found["here"])
        assert found["asked"] == str(one.reps)
        assert found[0] in (rows[name].reason or "")
        page = view_at(desk, name).next
        assert page is not None
        assert found[0] in page.reason
    bare = [one for _, one in held if "nothing lighter can be made" in one.why]
    assert len(below) + len(bare) == len(held)


def _dumbbells() -> tuple[tuple[Loaded, ...], Loaded]:
    """The loads two dumbbells make, and the pair of 14 kg."""
    gym = starter_gym("commercial_kg")
    item = gym.item("dumbbells")
    assert item is not None
    rungs = ladder(gym, item, 2)
    return rungs, next(one for one in rungs if one.felt == 28)


def _fresh(felt: float) -> float:
    """Reps to failure of a made-up curve: 4 at 28 kg, 10 at 24."""
    return 1 - log(felt / 30) / 0.0255


def test_the_next_load_down_is_the_one_the_item_makes() -> None:
    """From 14 to 12 kg dumbbells ln(14/12)/0.0255 is 6 reps of this curve more; from the lightest
    there is nothing, and no full rep is said as that.
    """
    rungs, load = _dumbbells()
    assert below_words(rungs, load, _fresh, "the first set") == (
        "about 4 reps to failure in the first set, about 10 at 12 kg each, the next load down"
    )
    assert below_words(rungs, rungs[0], lambda _: 0.4, "this set") == (
        "no full rep to failure in this set, and nothing lighter can be made"
    )


def test_one_step_lighter_is_offered_where_it_meets_the_range() -> None:
    """By ln(load ratio)/0.0255 of this curve: 4 reps with 28 kg, 10 with 24, two fewer in the last
    set. Six to ten with none or one left are met by the lighter pair only; one or two by the held
    one too, nine to ten by neither in the last set, four to eight not in the first.
    """
    rungs, load = _dumbbells()

    def offered(low: int, high: int | None, left: Span) -> str:
        sets = (_fresh, lambda felt: _fresh(felt) - 2)
        return offer_words(rungs, load, sets, Span(low, high), left)

    told = "One step lighter, 12 kg each, likely meets the 6–10 reps: "
    assert offered(6, 10, Span(0, 1)) == (f"{told}about 8–10 to failure there, 2–4 here")
    assert "likely meets the 8 or more reps" in offered(8, None, Span(0, 0))
    assert "likely meets the 6–9 reps" in offered(6, 9, Span(0, 1)), "ten to failure leave one"
    for low, high in ((1, 2), (9, 10), (4, 8), (12, 15)):
        assert offered(low, high, Span(0, 1)) == ""
    assert offered(8, 10, Span(1, 1)) == "", "eight to failure leave seven"
    lightest = offer_words(rungs, rungs[0], (lambda _: 4.0,), Span(8, 10), Span(0, 0))
    assert lightest == ""


def test_an_offer_made_stands_until_clearly_spoken_against() -> None:
    """The same curve, 6–10 with none or one left: 8–10 at the lighter pair, 2–4 at the held one.

    A rep or two off, the offer stays and says the counts of the moment; it goes when the held pair
    meets the range with a rep to spare, or the lighter misses it by more than one.
    """
    rungs, load = _dumbbells()
    sets = (_fresh, lambda felt: _fresh(felt) - 2)
    found = dict(offers_off(rungs, load, sets, Span(6, 10), Span(0, 1)))
    assert found[0] == offer_words(rungs, load, sets, Span(6, 10), Span(0, 1))
    assert sorted(found) == [-3, -2, -1, 0, 1, 2]
    assert "likely meets the 6–10 reps: about 9–11 to failure there, 3–5 here" in found[1]
    assert "comes nearer to the 6–10 reps: about 10–12 to failure there, 4–6 here" in found[2]
    assert "comes nearer to the 6–10 reps: about 5–7 to failure there, 0–1 here" in found[-3]
    assert offer_words(rungs, load, sets, Span(6, 10), Span(0, 1), off=-3) == "", "not made anew"


def _offering(book: Book) -> Iterator[tuple[str, list[CardSet]]]:
    """Every exercise of the week done today with several sets that offer a lighter load."""
    for weekday in WEEKDAYS:
        card = card_for(book, book.today, weekday=weekday) if _trains(book, weekday) else None
        for stop in card.stops if isinstance(card, Card) else ():
            offered = [one for one in stop.sets if one.offer and one.likely]
            if len(offered) > 1:
                yield weekday, offered


def _trains(book: Book, weekday: str) -> bool:
    week = book.week()
    planned = week.day(weekday) if week else None
    return planned is not None and not planned.rest


@pytest.mark.parametrize("over", [-1, 0, 1])
def test_the_offer_stands_after_a_set_as_good_as_forecast(demo_book: Book, over: int) -> None:
    """A set a rep better or worse than was likely takes no offer from the sets after it."""
    repeat_last(demo_book, -2)
    weekday, (first, *after) = next(_offering(demo_book))
    assert first.likely
    done = Recorded(reps=first.likely.middle + over)
    record(demo_book, demo_book.today, first.key, done, weekday=weekday)
    card = card_for(demo_book, demo_book.today, weekday=weekday)
    assert isinstance(card, Card)
    now = [found[1] for one in after if (found := card.find(one.key))]
    assert [one.load for one in now] == [one.load for one in after]
    assert all(one.offer for one in now)


def test_the_offer_stands_on_the_card_and_moves_no_load(demo_book: Book) -> None:
    """Held though too heavy: where the next load down meets the range it is said, and not taken."""
    repeat_last(demo_book, -2)
    held = [one for _, one in _asked(demo_book).values() if STILL_HEAVY in one.why]
    offered = [one for one in held if one.offer]
    assert offered
    for one in offered:
        assert one.asked.reps is not None
        assert f"likely meets the {one.asked.reps} reps" in one.offer
        assert "the next load down likely meets that" in one.why
        assert one.refusable is None
        assert one.load is not None
        there = re.search(r"about (\d+) at ([^,]+), the next load down", one.why)
        assert there
        assert there[2] in one.offer
        assert there[1] in one.offer
        assert load_words(one.load) != there[2]
    others = [one for one in held if not one.offer]
    assert not any("likely meets" in one.why for one in others)


def repeat_last(book: Book, by: int) -> None:
    """Log the last working set of every exercise once more, so many reps better, to the end."""
    last = {o.exercise: o for o in book.history() if o.kind is SetKind.WORKING and o.load}
    again = [
        replace(
            one,
            id="",
            when=book.today - timedelta(days=1),
            session=f"again {by}",
            number=number,
            reps=max(1, one.reps + by),
            effort=Effort.NONE_LEFT,
        )
        for number, one in enumerate(last.values(), start=1)
    ]
    book.ledger.append([set_entry(one, now=book.now(), rng=book.rng) for one in again])


def test_a_range_from_nought_ends_the_search_for_offers() -> None:
    """Where no full rep is left and none is asked for, there is no offer, and no endless search."""
    rungs, load = _dumbbells()
    assert offers_off(rungs, load, (lambda _: 0.2,), Span(0, 5), Span(0, 0)) == ()
