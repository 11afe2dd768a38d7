"""Cautions as she meets them: each row of the growth evidence, section 11, on card and page.

The rules have their own tests; here every row is brought about by her records alone, and must
then stand on the card of the session or on the page, once a session, and nowhere without cause.
"""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import timedelta
from fractions import Fraction
from html import unescape
from pathlib import Path
from random import Random

import pytest
from fastapi.testclient import TestClient
from markupsafe import Markup

from pennate.app.body_notes import Choices, choose, save_intake, save_morning, save_period
from pennate.app.book import Book
from pennate.app.card_text import card_document
from pennate.app.illness import say_ill
from pennate.app.today import card_for
from pennate.core import caution_texts as say
from pennate.core.card import Card
from pennate.core.caution_texts import Caution
from pennate.core.profile import Profile
from pennate.core.readiness import Health, Ill
from pennate.ledger import uuid7
from pennate.ledger.sets import set_entry
from pennate.web.phone.document import day_document
from pennate.web.views.floor import Around, floor_set
from tests.web.conftest import MONDAY, Client, Clock

Arrange = Callable[[Book], None]


def card(book: Book, weekday: str) -> Card:
    """The card of a planned day, done today."""
    found = card_for(book, book.today, weekday=weekday)
    assert isinstance(found, Card)
    return found


def shown(found: Card) -> list[Caution]:
    """Every caution of a card, as often as it stands there."""
    return [*found.cautions, *(one for stop in found.stops for one in stop.cautions)]


def hurts(joint: str, *scores: int) -> Arrange:
    """Pain of a joint at the check-in of today and, further on, of the days before."""

    def arrange(book: Book) -> None:
        for past, score in enumerate(scores):
            body = {"weekday": "Sunday", "pain": {joint: score}}
            book.put("readiness", book.today - timedelta(days=past), body)

    return arrange


def morning(joint: str, score: int, *, alarming: bool = False) -> Arrange:
    """How a joint is said to feel this morning."""
    return lambda book: void(save_morning(book, book.today, joint, score, alarming=alarming))


def void(_: object) -> None:
    """Nothing, whatever was given back."""


def all_of(*steps: Arrange) -> Arrange:
    """Several records one after the other."""

    def arrange(book: Book) -> None:
        for step in steps:
            step(book)

    return arrange


def ill(when: Ill) -> Arrange:
    """What she says today of an illness; Monday's card is that of today."""
    return lambda book: say_ill(book, book.today, when)


def again(book: Book, sets: int, *, note: str = "", pain: Mapping[str, int] | None = None) -> None:
    """So many more sets of today like the last one of her log."""
    last = book.history().sets[-1]
    done = [
        replace(
            last,
            id=uuid7(book.now(), book.rng),
            when=book.today,
            session="sunday",
            number=number,
            note=note,
            pain=pain or {},
            seconds=None,
            extra={},
        )
        for number in range(1, sets + 1)
    ]
    book.ledger.append([set_entry(one, now=book.now(), rng=book.rng) for one in done])


def noted(text: str) -> Arrange:
    """A set of today with a note."""
    return lambda book: again(book, 1, note=text)


def hurt_at_a_set(joint: str, score: int) -> Arrange:
    """Pain named beside a set of today."""
    return lambda book: again(book, 1, pain={joint: score})


def person(health: Health, *, trained: bool = True) -> Arrange:
    """Who she is."""
    mass = Fraction(64)
    return lambda book: book.save_profile(
        Profile(health=health, female=True, body_mass_kg=mass, trained=trained)
    )


def only_lately(book: Book) -> None:
    """A log that began eight days ago."""
    for entry in book.ledger.entries("set"):
        if (book.today - entry.day).days > 8:
            book.ledger.retract(entry.id, now=book.now(), rng=book.rng, why="not of this log")


def bare_gym(book: Book) -> None:
    """Her gym without safeties and stops."""
    for entry in book.ledger.entries("gym"):
        text = str(entry.body["text"]).replace("safeties = true", "safeties = false")
        book.put("gym", book.today, {"text": text})


def ordinary(_: Book) -> None:
    """Nothing but her usual weeks."""


def chosen(**facts: bool) -> Arrange:
    """What she chose on the pages of the body; energy knows enough of her."""
    return lambda book: choose(book, Choices(height_cm=Fraction(165), age=Fraction(30), **facts))  # type: ignore[arg-type] # flags only


def periods(*days_ago: int) -> Arrange:
    """First days of periods, with the cycle turned on."""

    def arrange(book: Book) -> None:
        chosen(cycle=True)(book)
        for ago in days_ago:
            save_period(book, book.today - timedelta(days=ago))

    return arrange


def eats(kcal: int) -> Arrange:
    """Ten days of food, noted."""

    def arrange(book: Book) -> None:
        chosen()(book)
        for past in range(1, 11):
            save_intake(book, book.today - timedelta(days=past), Fraction(kcal))

    return arrange


@dataclass(frozen=True, slots=True)
class Row:
    """A line of the table: cause, where it must show, and a near cause that must stay silent."""

    caution: Caution
    cause: Arrange
    where: str
    """A planned day for its card, or a path."""
    silent: Arrange | None = ordinary
    """None where it shows whatever is so."""
    later: int = 0
    """Days after the end of the demo."""


LAYOFF = 35
NOVICE = person(Health.NONE, trained=False)

ROWS: Mapping[str, Row] = {
    "breakdown, first weeks": Row(
        say.BREAKDOWN,
        all_of(only_lately, NOVICE),
        "Sunday",
        all_of(only_lately, person(Health.NONE)),
    ),
    "breakdown, back from a layoff": Row(
        say.BREAKDOWN, lambda book: again(book, 6), "Sunday", later=LAYOFF
    ),
    "breakdown, jump in sets": Row(say.BREAKDOWN, lambda book: again(book, 90), "Sunday"),
    "new exercise, first two weeks": Row(say.NEW_EXERCISE, only_lately, "Sunday"),
    "new exercise, not done for four weeks": Row(
        say.NEW_EXERCISE, ordinary, "Sunday", None, later=LAYOFF
    ),
    "breath, sets to failure": Row(say.BREATH, ordinary, "Monday", person(Health.AVOID_STRAIN)),
    "breath, told to avoid strain": Row(
        say.BREATH_CLINICIAN, person(Health.AVOID_STRAIN), "Monday"
    ),
    "ill": Row(say.ILL, ill(Ill.NOW), "Sunday", ill(Ill.BEFORE)),
    "after an illness": Row(say.AFTER_ILLNESS, ill(Ill.BEFORE), "/today", ill(Ill.NO)),
    "strain, doctor first": Row(say.AVOID_STRAIN, person(Health.AVOID_STRAIN), "Monday"),
    "strain, before the first session": Row(say.STRAIN_FIRST, ordinary, "/start/health", None),
    "red flags, chest": Row(
        say.RED_FLAGS, noted("chest pain on the last rep"), "Sunday", noted("chest pad on 4")
    ),
    "red flags, weakness": Row(
        say.RED_FLAGS, noted("sudden weakness in the arm"), "Sunday", noted("weak day")
    ),
    "red flags, night pain": Row(
        say.RED_FLAGS, noted("shoulder pain at night"), "Sunday", noted("slept well last night")
    ),
    "red flags, joint gives way": Row(
        say.RED_FLAGS, noted("knee gave way"), "Sunday", noted("lock out at the top")
    ),
    "pain 3 to 5": Row(say.PAIN_REDUCE, hurts("knee", 3), "Sunday", hurts("knee", 2)),
    "pain 3 to 5, named at a set": Row(
        say.PAIN_REDUCE, hurt_at_a_set("knee", 5), "Sunday", hurt_at_a_set("knee", 2)
    ),
    "pain above 5": Row(say.PAIN_STOP, hurts("knee", 6), "Sunday", hurts("knee", 5)),
    "pain above 5, loaded slightly": Row(
        say.PAIN_SLIGHT, hurts("lower back", 6), "Sunday", hurts("lower back", 5)
    ),
    "pain, locking": Row(
        say.PAIN_STOP, morning("knee", 2, alarming=True), "Sunday", morning("knee", 2)
    ),
    "pain, not settled next morning": Row(
        say.PAIN_SWAP,
        all_of(hurts("knee", 0, 4), morning("knee", 3)),
        "Sunday",
        all_of(hurts("knee", 0, 4), morning("knee", 1)),
    ),
    "pain, rising week on week": Row(
        say.PAIN_SWAP,
        hurts("knee", 0, 4, 0, 0, 0, 0, 0, 0, 3),
        "Sunday",
        hurts("knee", 0, 3, 0, 0, 0, 0, 0, 0, 4),
    ),
    "pain, beyond two weeks": Row(
        say.PAIN_CLINICIAN, hurts("knee", *[3] * 17), "Sunday", hurts("knee", *[3] * 15)
    ),
    "knee pain": Row(say.SORE_KNEE, hurts("knee", 1), "Sunday", hurts("shoulder", 3)),
    "knee pain, some days ago": Row(
        say.SORE_KNEE, hurts("knee", 0, 0, 0, 4), "Sunday", hurts("knee", 0, *[0] * 9, 4)
    ),
    "periods absent": Row(say.NO_PERIOD, periods(90), "/body/cycle", periods(89)),
    "periods irregular": Row(
        say.NO_PERIOD, periods(10, 28, 78, 106), "/body/cycle", periods(10, 38, 66, 94)
    ),
    "stress fractures": Row(
        say.NO_PERIOD, chosen(bone_stress=True), "/body/food", chosen(bone_stress=False)
    ),
    "low energy": Row(say.LOW_ENERGY, eats(1000), "/body/food", eats(2600)),
    "under 18, supervised": Row(say.UNDER_18, person(Health.UNDER_18), "Monday"),
    "under 18, no target": Row(
        say.UNDER_18_TARGETS,
        all_of(person(Health.UNDER_18), chosen()),
        "/body/food?aim=200",
        all_of(person(Health.NONE), chosen()),
    ),
    "pregnancy, provider first": Row(say.PREGNANCY, person(Health.PREGNANCY), "Monday"),
    "pregnancy, stop signs": Row(say.PREGNANCY_STOP, person(Health.PREGNANCY), "Monday"),
    "numbers, girth": Row(say.BODY_NUMBERS, ordinary, "/body", None),
    "numbers, one site": Row(say.BODY_NUMBERS, ordinary, "/body/site/thigh", None),
    "numbers, weight": Row(say.BODY_NUMBERS, ordinary, "/body/weight", chosen(hide_weight=True)),
    "numbers, review": Row(say.BODY_NUMBERS, ordinary, "/review/week", None),
    "eating": Row(say.EATING, ordinary, "/body/food", None),
    "safeties, there": Row(say.SAFETIES_CHECK, ordinary, "Monday", bare_gym),
    "safeties, missing": Row(say.SAFETIES_MISSING, bare_gym, "Monday"),
    "stops, there": Row(say.STOPS_CHECK, ordinary, "Wednesday", bare_gym),
    "stops, missing": Row(say.STOPS_MISSING, bare_gym, "Wednesday"),
    "brace": Row(say.BRACE, ordinary, "Wednesday", person(Health.UNDER_18)),
}
"""Each line of section 11, in its order, then those of the product page “Safety”."""


@pytest.fixture
def book_for(short_demo: Path, tmp_path: Path) -> Iterator[Callable[[Row], Book]]:
    """Opens a copy of the records a row needs."""
    opened: list[Book] = []

    def make(row: Row) -> Book:
        folder = tmp_path / f"copy{len(opened)}"
        shutil.copytree(short_demo, folder)
        moment = MONDAY + timedelta(hours=1, days=row.later)
        opened.append(Book.open(folder, Clock(moment), Random(5)))
        return opened[-1]

    yield make
    for book in opened:
        book.close()


def times_shown(row: Row, book: Book, client_of: Client) -> int:
    """How often the caution of a row stands where it must."""
    if not row.where.startswith("/"):
        return shown(card(book, row.where)).count(row.caution)
    return unescape(client_of(book).get(row.where).text).count(row.caution.text)


@pytest.mark.parametrize("name", list(ROWS))
def test_a_row_shows_where_it_applies(
    name: str, book_for: Callable[[Row], Book], client_of: Client
) -> None:
    """Her records bring it, on the card or page, once unless the pain rule repeats it."""
    row = ROWS[name]
    book = book_for(row)
    row.cause(book)
    times = times_shown(row, book, client_of)
    assert times == 1 if row.caution.once_a_session else times >= 1


@pytest.mark.parametrize("name", [name for name, row in ROWS.items() if row.silent is not None])
def test_a_row_is_silent_just_short_of_it(
    name: str, book_for: Callable[[Row], Book], client_of: Client
) -> None:
    """Records one step milder bring nothing, or people stop reading."""
    row = ROWS[name]
    book = book_for(row)
    assert row.silent is not None
    row.silent(book)
    assert times_shown(row, book, client_of) == 0


def test_every_caution_has_a_row() -> None:
    """No caution is written that no record of hers brings up; the general line is everywhere."""
    assert {row.caution.id for row in ROWS.values()} | {say.GENERAL.id} == {
        one.id for one in say.EVERY_CAUTION
    }


EMERGENCIES = {
    "red flags": noted("chest pain on the last rep"),
    "breakdown": lambda book: again(book, 90),
    "pregnancy": person(Health.PREGNANCY),
}


def heeded(client: TestClient, book: Book, cautions: list[str]) -> set[str]:
    """What the phone says at every set of today: the day's own lines, and care after new work."""
    headers = {"sec-fetch-site": "same-origin"}
    care = client.get("/api/cards", params={"days": 1}, headers=headers).json()["care"]
    due = care["days"][book.today.isoformat()]["due"]
    return {*cautions, *([care["text"]] if due else [])}


@pytest.mark.parametrize("name", list(EMERGENCIES))
def test_emergency_lines_stand_at_every_set(name: str, own_demo: Book, client_of: Client) -> None:
    """On the Floor at every set, on the phone's copy too, on the session page, and in JSON."""
    EMERGENCIES[name](own_demo)
    found = card(own_demo, "Sunday")
    urgent = {one.text for one in shown(found) if one.emergency}
    assert urgent
    for stop in found.stops:
        for one in stop.sets:
            view = floor_set(
                found, one.key, Around(one.load), picture=Markup(), chosen="", now=own_demo.now()
            )
            assert urgent <= set(view.set_up)
    client = client_of(own_demo)
    phone = day_document(own_demo, own_demo.today, "Sunday")
    all_day = heeded(client, own_demo, phone["cautions"])
    for stop_there in phone["stops"]:
        assert all(urgent <= all_day | set(one["set_up"]) for one in stop_there["sets"].values())
    document = card_document(found)
    listed = [*document["cautions"], *(c for s in document["stops"] for c in s["cautions"])]
    assert urgent <= {one["text"] for one in listed if one["emergency"]}
    for _ in range(2):
        assert urgent & {text for text in urgent if text in unescape(client.get("/today").text)}


PAGES = ("/today", "/week", "/body", "/body/food", "/exercises", "/gym", "/data", "/review/week")


@pytest.mark.parametrize("path", [*PAGES, "/start/health"])
def test_the_general_line_is_on_every_page(path: str, own_demo: Book, client_of: Client) -> None:
    """Not medical advice, averages with a wide spread: everywhere but on the set itself."""
    assert unescape(client_of(own_demo).get(path).text).count(say.GENERAL.text) == 1


REFUSED = ("periods absent", "periods irregular", "stress fractures", "low energy")


@pytest.mark.parametrize("name", REFUSED)
def test_a_deficit_stops_with_its_caution(
    name: str, book_for: Callable[[Row], Book], client_of: Client
) -> None:
    """Mountjoy 2023: where a clinician is named, nothing below maintenance is offered."""
    row = ROWS[name]
    book = book_for(row)
    row.cause(book)
    page = client_of(book).get("/body/food?aim=200").text
    assert "No intake below maintenance is offered" in page
    assert "see a clinician" in page
