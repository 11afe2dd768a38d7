"""After the session: what was learned, what comes next, and how each number is opened."""

from __future__ import annotations

import pytest

from pennate.app.book import Book
from pennate.app.exercise_view import exercise_view, why_strength
from pennate.app.log_words import Words, log_words, pain_from, recorded_from
from pennate.app.notes import notes_for, save_notes
from pennate.app.record import Recorded, record
from pennate.app.review import review
from pennate.app.review_text import review_lines
from pennate.app.start import take_starter_gym, take_starter_week
from pennate.app.swaps import offers
from pennate.app.today import card_for
from pennate.core.card import Card
from pennate.core.performed import Effort
from pennate.errors import InputError, NoAnswerError
from pennate.web.views.review import review_view

SATURDAY = "Saturday"


def _log_all(book: Book, *, short_by: int = 0) -> None:
    """Log a whole session as likely, or so many reps short of it."""
    while True:
        card = card_for(book, book.today, weekday=SATURDAY)
        assert isinstance(card, Card)
        if card.next_key is None:
            return
        found = card.find(card.next_key)
        assert found is not None
        likely = found[1].likely
        said = Recorded()
        if likely is not None:
            said = Recorded(reps=max(0, likely.middle - short_by), effort=Effort.NONE_LEFT)
        record(book, book.today, card.next_key, said, weekday=SATURDAY)


def test_a_weak_day_is_not_called_a_loss(demo_book: Book) -> None:
    """Every set two reps short: the day takes the larger part of the blame."""
    _log_all(demo_book, short_by=2)
    found = review(demo_book, demo_book.today, weekday=SATURDAY)
    assert found.sets_done == found.sets_asked
    assert found.day_effect is not None
    assert found.day_effect[0] < -0.02
    mean = sum(one.change for one in found.learned) / len(found.learned)
    assert found.day_effect[0] < mean
    assert any("not a gain or a loss" in line for line in review_lines(found))


def test_first_sets_are_no_change_of_strength(empty_book: Book) -> None:
    """Where nothing of hers was known, half the usual load is neither a loss nor a gain."""
    take_starter_gym(empty_book, "commercial_kg")
    take_starter_week(empty_book, "5_days")
    _log_all(empty_book, short_by=6)
    found = review(empty_book, empty_book.today, weekday=SATURDAY)
    assert any(abs(one.change) > 0.05 for one in found.learned)
    lines = "\n".join(review_lines(found))
    assert "by its first sets so; no change can be told yet" in lines
    assert "from what was believed before" not in lines
    assert not any(
        "up by" in words or "down by" in words for _, _, words in review_view(found).learned
    )


def test_next_time_has_a_load_a_chance_and_a_rule(demo_book: Book) -> None:
    """Each exercise with a load says what is next, how likely the range is, and why."""
    _log_all(demo_book)
    steps = review(demo_book, demo_book.today, weekday=SATURDAY).next_time
    assert len(steps) >= 4
    assert all(step.why and (step.chance is None or 0 <= step.chance <= 1) for step in steps)


def test_the_chance_of_next_time_is_the_one_its_rule_speaks_of(demo_book: Book) -> None:
    """A load held although the low end is unlikely never stands beside a high chance."""
    _log_all(demo_book, short_by=4)
    steps = review(demo_book, demo_book.today, weekday=SATURDAY).next_time
    doubted = [one for one in steps if one.change == "the same" and "unlikely" in one.why]
    assert doubted
    assert all(one.chance is not None and one.chance < 0.7 for one in doubted)


def test_next_time_says_the_load_as_the_card_does(demo_book: Book) -> None:
    """A pair is “each”, a stack “on the pin”, and body weight is never 0 kg."""
    _log_all(demo_book)
    day = demo_book.today
    loads = {o.name: o.load_next for o in review(demo_book, day, weekday=SATURDAY).next_time}
    assert not any(load.startswith("0 ") for load in loads.values())
    assert any(load.endswith((" each", " on the pin")) for load in loads.values())


def test_nothing_logged_is_no_review(demo_book: Book) -> None:
    """Looking back before the first set says so instead of showing zeros."""
    with pytest.raises(NoAnswerError, match="no set"):
        review(demo_book, demo_book.today, weekday=SATURDAY)


def test_strength_over_time_holds_every_set(demo_book: Book) -> None:
    """The page of an exercise shows each working set and an interval on every day."""
    view = exercise_view(demo_book, "back_squat_free")
    done = [d for d in demo_book.history().of_exercise("back_squat_free") if d.kind != "warm-up"]
    assert len(view.sets) == len(done)
    assert all(point.low < point.middle < point.high for point in view.strength)
    assert view.next is not None
    machine = exercise_view(demo_book, "lat_pulldown")
    assert len(machine.strength) >= 5


def test_an_estimate_names_the_sets_that_moved_it(demo_book: Book) -> None:
    """“Why” lists sets with their exact effect, the largest first."""
    why = why_strength(demo_book, "back_squat_free", "rack_bar")
    moved = [abs(one.moved) for one in why.influences]
    assert moved
    assert moved == sorted(moved, reverse=True)


def test_two_substitutes_come_with_their_loads(demo_book: Book) -> None:
    """Rack taken: two other exercises, none on that rack, each with a load that can be made."""
    found = offers(demo_book, demo_book.today, "Monday", 0, taken="rack_bar")
    assert len(found) == 2
    assert all(one.item != "rack_bar" and one.keeps > 0.5 and one.first for one in found)


def test_her_notes_replace_ours(demo_book: Book) -> None:
    """Settings, cue and the note for next time stand on the card where they are needed."""
    save_notes(
        demo_book,
        "lat_pulldown",
        "pulldown",
        settings={"seat": "5", " ": "x"},
        cue="Thumbs over the bar",
    )
    assert notes_for(demo_book)["lat_pulldown", "pulldown"].settings == {"seat": "5"}
    card = card_for(demo_book, demo_book.today, weekday="Tuesday")
    assert isinstance(card, Card)
    stop = next(s for s in card.stops if s.exercise == "lat_pulldown")
    assert (stop.cue, stop.notes.settings) == ("Thumbs over the bar", {"seat": "5"})


def test_words_become_sets_undo_and_an_end(demo_book: Book) -> None:
    """The command line's words do what the phone's taps do."""
    day = demo_book.today
    said = log_words(demo_book, day, SATURDAY, Words(reps=5, effort="1", note="good"))
    assert said.line.startswith("Logged 0.")
    assert log_words(demo_book, day, SATURDAY, Words(undo=True)).document["undone"]
    assert log_words(demo_book, day, SATURDAY, Words(finish=True)).document["finished"]


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (Words(effort="7"), "one of: fail"),
        (Words(load="abc"), "load: “abc” is not a number"),
        (Words(load="50", unit="stone"), "one of: kg, lb"),
        (Words(load="50", load_is="half"), "one of: total"),
        (Words(pain="knee:11"), "0 to 10"),
        (Words(pain="nose:2"), "one of: knee"),
    ],
)
def test_wrong_words_are_told_with_a_remedy(words: Words, message: str) -> None:
    """Each wrong word is answered with what may be written instead."""
    with pytest.raises(InputError, match=message):
        recorded_from(words)


def test_pain_pairs_are_read() -> None:
    """Several joints in one go, in the log's own notation."""
    assert pain_from("knee:3; lower back: 1") == {"knee": 3, "lower back": 1}
