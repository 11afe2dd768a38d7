"""The pages of the body: forms, verdicts that open, cautions, what stays hidden."""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import timedelta
from fractions import Fraction
from typing import Any

import pytest
from fastapi.testclient import TestClient

from pennate.app.body_notes import Choices, body_record, choices, choose, nights, save_period
from pennate.app.body_recovery import RECENT
from pennate.app.book import Book
from pennate.app.photos import folder_of
from pennate.body.next_reading import LIKELY
from pennate.core import caution_texts as say
from pennate.core.body import LANDMARKS, Site, TapeState
from pennate.core.evidence import every_constant
from pennate.core.percent import percent
from pennate.core.profile import Profile
from pennate.core.readiness import Health
from tests.app.test_photos import png

from .conftest import Client

BODY_PAGES = (
    "/body",
    "/body/girth?site=thigh",
    "/body/girth?site=waist",
    "/body/site/thigh",
    "/body/site/neck",
    "/body/weight",
    "/body/food",
    "/body/recovery",
    "/body/cycle",
    "/body/photos",
    "/body/translate?before=55&after=56,5&fold=18&length=20",
    "/review/week",
)


def shown(text: str) -> str:
    """The words of a page as people read them."""
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", text))


@pytest.mark.parametrize("path", BODY_PAGES)
def test_every_page_answers_under_the_strict_policy(demo: TestClient, path: str) -> None:
    """One heading, no inline script or style, nothing from elsewhere, no body-fat percentage."""
    answer = demo.get(path)
    assert answer.status_code == 200, answer.text
    text = answer.text
    assert len(re.findall(r"<h1[ >]", text)) == 1
    assert re.search(r"<script(?![^>]*\bsrc=)|<style|\sstyle=|\son[a-z]+=", text) is None
    assert re.search(r'(?:src|href|action)="(?:https?:)?//', text) is None
    assert re.search(r"body.fat|fat (?:per ?cent|percentage)", text, re.IGNORECASE) is None


@pytest.mark.parametrize("path", BODY_PAGES)
def test_an_empty_ledger_shows_calm_pages(client_of: Client, empty: Book, path: str) -> None:
    """Nothing noted: every page of the body still answers and asks for nothing."""
    answer = client_of(empty).get(path)
    assert answer.status_code == 200


@pytest.mark.parametrize("site", list(Site))
def test_the_tape_has_its_place_in_words(demo: TestClient, site: Site) -> None:
    """Each site says where the tape goes, beside its boxes."""
    page = demo.get("/body/girth", params={"site": site.value}).text
    words = LANDMARKS[site]
    assert f"{words[0].upper()}{words[1:]}." in page
    assert page.count('inputmode="decimal"') >= 4


def girths(**more: Any) -> dict[str, Any]:
    """A form with both sides of a thigh."""
    usual = {"site": "thigh", "left": ["55,1", "55.0", ""], "right": ["56", "", ""]}
    return {**usual, "state": "relaxed", **more}


def test_readings_of_both_sides_in_one_form(client_of: Client, empty: Book) -> None:
    """Comma and point, empty boxes left alone; then the next place."""
    client = client_of(empty)
    answer = client.post("/body/girth", data=girths(next="calf"), follow_redirects=False)
    assert answer.headers["location"].startswith("/body/girth?site=calf")
    rows = body_record(empty).measurements
    assert [row.girths_cm for row in rows] == [(Fraction("55.1"), 55), (56,)]


@pytest.mark.parametrize(
    ("wrong", "words"),
    [
        ({"left": ["55,1", "fifty", ""]}, "“fifty” is not a number"),
        ({"left": ["55.1", "551", ""]}, "millimetres"),
        ({"left": ["", "", ""], "right": ["", "", ""]}, "no reading is filled in"),
        ({"day": "2030-01-01"}, "still to come"),
        ({"left_fold": "400"}, "outside 1 to 120 mm"),
    ],
)
def test_what_was_typed_is_kept_on_an_error(
    client_of: Client, empty: Book, wrong: dict[str, Any], words: str
) -> None:
    """422 with the sentence, every box as it was typed, nothing stored."""
    answer = client_of(empty).post("/body/girth", data=girths(**wrong))
    assert answer.status_code == 422
    assert words in answer.text
    sent = [v for name in ("left", "right") for v in girths(**wrong)[name] if v]
    assert all(f'value="{value}"' in answer.text for value in sent)
    assert body_record(empty).measurements == ()


def test_a_pumped_reading_is_flagged(client_of: Client, empty: Book) -> None:
    """Said at once, kept with its state, and shown as not used."""
    client = client_of(empty)
    page = client.post("/body/girth", data=girths(state="pumped"))
    assert "no verdict uses it" in page.text
    assert {row.state for row in body_record(empty).measurements} == {TapeState.PUMPED}
    assert "pumped: not used" in client.get("/body/girth?site=thigh").text


def test_readings_after_a_session_are_asked_as_pumped(client_of: Client, own_demo: Book) -> None:
    """Within three hours of a logged set the form starts at “soon after training”."""
    client = client_of(own_demo)
    fresh = client.get("/body/girth?site=thigh").text
    assert 'value="relaxed" checked' in fresh
    client.post("/today/choose", data={"weekday": client_day(own_demo)})
    card_key = re.search(r'name="key" value="([^"]+)"', client.get("/floor").text)
    assert card_key
    client.post("/floor/close", data={"key": card_key[1], "reps": "5"})
    assert 'value="pumped" checked' in client.get("/body/girth?site=thigh").text


def client_day(book: Book) -> str:
    """A planned day of her week."""
    week = book.week()
    assert week is not None
    return next(day.day for day in week.days if not day.rest)


def test_a_note_is_taken_back(client_of: Client, empty: Book) -> None:
    """A reading just saved can be taken back on the form."""
    client = client_of(empty)
    client.post("/body/girth", data=girths())
    found = re.findall(r'name="id" value="([^"]+)"', client.get("/body/girth?site=thigh").text)
    client.post("/body/undo", data={"id": found[0], "site": "thigh"})
    assert len(body_record(empty).measurements) == 1


def test_verdicts_open_to_all_that_is_behind_them(demo: TestClient) -> None:
    """Inputs, rule, source, uncertainty and the reading that settles it, for every side."""
    page = demo.get("/body").text
    verdicts = re.findall(r'<details class="verdict">.*?</details>', page, re.DOTALL)
    assert len(verdicts) == 8
    for one in verdicts:
        assert re.search(r"growing|holding|losing|cannot tell yet", one)
        for term in ("change", "chances", "could tell", "rests on", "your error", "rule",
                     "next reading", "source", "freed of fat by"):  # fmt: skip
            assert f"<dt>{term}</dt>" in one


def test_left_and_right_with_their_error(demo: TestClient) -> None:
    """Every pair of sides says its difference, with the interval behind it."""
    page = shown(demo.get("/body").text)
    assert page.count("right less left") == 4
    assert "(95 %)" in page


def test_muscles_under_the_tape_are_named(demo: TestClient) -> None:
    """The verdict is for muscle groups, in gym words."""
    page = demo.get("/body").text
    assert "quads, hamstrings" in page
    assert "biceps, triceps" in page


@pytest.mark.parametrize("path", ["/body/girth.svg?site=thigh", "/body/weight.svg"])
def test_charts_are_drawn_and_have_a_table(demo: TestClient, path: str) -> None:
    """SVG by the chart library, wide and dark too; the numbers stand in a folded table."""
    for more in ("", "frame=wide", "frame=large", "look=dark"):
        answer = demo.get(path + ("&" if "?" in path else "?") + more)
        assert answer.headers["content-type"] == "image/svg+xml"
        assert "<svg" in answer.text
    page = demo.get("/body/site/thigh" if "girth" in path else "/body/weight").text
    assert page.count("<tr>") > 2


def test_weight_can_be_hidden_everywhere(client_of: Client, own_demo: Book) -> None:
    """Hidden, no page of the body and no review has a number of kilograms of hers."""
    client = client_of(own_demo)
    assert "kg a week" in client.get("/body").text
    client.post("/body/choices", data={"hide_weight": "yes", "back": "/body/weight"})
    for path in ("/body", "/body/weight", "/body/food", "/review/week"):
        text = client.get(path).text
        assert "kg a week" not in text
        assert re.search(r"\b6\d\.\d kg", shown(text)) is None
    assert client.get("/body/weight.svg").text.count("<path") < 60
    client.post("/body/choices", data={"hide_weight": "no"})
    assert "kg a week" in client.get("/body").text


def test_the_protein_range_is_the_published_one(client_of: Client, empty: Book) -> None:
    """Check value 55 (Morton 2018): 65 kg gives 67 to 143 g, 105 in the middle."""
    client = client_of(empty)
    client.post("/body/weight", data={"kg": "65,0"})
    assert "67 to 143 g a day, 105 in the middle" in client.get("/body/food").text


def test_maintenance_needs_to_know_her(client_of: Client, empty: Book) -> None:
    """What is missing is named; known, a range is given and never a point."""
    client = client_of(empty)
    client.post("/body/weight", data={"kg": "65"})
    assert "height, age, sex" in client.get("/body/food").text
    empty.save_profile(Profile(female=True))
    client.post("/body/choices", data={"height": "165", "age": "30", "back": "/body/food"})
    assert re.search(r"About \d{4} kcal a day, \d{4} to \d{4}", client.get("/body/food").text)


ABOUT = Choices(height_cm=Fraction(165), age=Fraction(30), cycle=True)


def known(book: Book, health: Health = Health.NONE, **more: Any) -> None:
    """A person of whom energy knows enough."""
    mass = Fraction(65)
    book.save_profile(Profile(health=health, female=True, body_mass_kg=mass, trained=True))
    choose(book, Choices(**{**{n: getattr(ABOUT, n) for n in ABOUT.__slots__}, **more}))


@pytest.mark.parametrize(
    ("health", "days_since", "guard"),
    [
        (Health.UNDER_18, 10, "No deficit under 18"),
        (Health.PREGNANCY, None, "No deficit in pregnancy"),
        (Health.NONE, 95, "No deficit while periods are absent"),
    ],
)
def test_guards_refuse_a_deficit(
    client_of: Client, empty: Book, health: Health, days_since: int | None, guard: str
) -> None:
    """Under 18, pregnant, or periods absent: nothing below maintenance is offered."""
    known(empty, health)
    if days_since is not None:
        save_period(empty, empty.today - timedelta(days=days_since))
    page = client_of(empty).get("/body/food?aim=300").text
    assert guard in page
    assert "No intake below maintenance is offered" in page


def test_a_deficit_has_a_floor(client_of: Client, empty: Book) -> None:
    """Murphy and Koehler 2022: about 500 kcal a day is the most that is ever offered."""
    known(empty)
    assert "Never more than 500 kcal" in client_of(empty).get("/body/food?aim=900").text


def test_the_cycle_says_nothing_until_it_is_on(client_of: Client, own_demo: Book) -> None:
    """Off by default; on, it counts days, and no page prescribes by a phase."""
    client = client_of(own_demo)
    assert "Turn it on" in client.get("/body/cycle").text
    client.post("/body/choices", data={"cycle": "yes", "back": "/body/cycle"})
    client.post("/body/period", data={"what": "start"})
    page = client.get("/body/cycle").text
    assert "Day 1" in page
    assert not re.search(r"follicular|luteal|phase.{0,20}(?:lift|train|load)", page)


def test_the_cycle_changes_no_load(client_of: Client, own_demo: Book) -> None:
    """The session is the same whatever is logged of the cycle."""
    client = client_of(own_demo)
    before = client.get("/floor").text
    client.post("/body/choices", data={"cycle": "yes"})
    client.post("/body/period", data={"what": "start"})
    after = client.get("/floor").text
    assert re.findall(r"\d+(?:\.\d+)?&nbsp;kg", after) == re.findall(
        r"\d+(?:\.\d+)?&nbsp;kg", before
    )


def test_absent_periods_bring_the_clinician_every_time(client_of: Client, empty: Book) -> None:
    """Check value 59: 90 days, notices stay on every visit and not where none is expected."""
    choose(empty, Choices(cycle=True))
    save_period(empty, empty.today - timedelta(days=90))
    client = client_of(empty)
    for _ in range(2):
        assert "No period for 90 days: see a clinician" in client.get("/body").text
    client.post("/body/choices", data={"expected": "no"})
    assert "clinician" not in client.get("/body").text


def test_nights_and_mornings_are_noted(client_of: Client, own_demo: Book) -> None:
    """Sleep with comma, a joint with its number; the joint's course is said."""
    client = client_of(own_demo)
    client.post("/body/sleep", data={"hours": "6,5"})
    client.post("/body/morning", data={"joint": "knee", "score": "6"})
    page = client.get("/body/recovery").text
    assert "<td>6.5</td>" in page
    assert "Stop what brought it on" in page


def test_her_own_relation_waits_for_evidence(demo: TestClient) -> None:
    """A lighter week or an effect of sleep is spoken of only when her log shows it."""
    page = shown(demo.get("/body/recovery").text)
    assert "No lighter week is called for" in page
    assert re.search(r"cannot be told yet|no sure effect|by your own log", page)


CAUTIONS: Mapping[str, tuple[say.Caution, dict[str, Any], tuple[str, ...]]] = {
    "numbers": (say.BODY_NUMBERS, {}, ("/body", "/body/weight", "/body/site/thigh")),
    "eating": (say.EATING, {}, ("/body/food",)),
    "no period": (say.NO_PERIOD, {"period": 95}, ("/body", "/body/food", "/body/cycle")),
    "under 18": (say.UNDER_18_TARGETS, {"health": Health.UNDER_18}, ("/body/food?aim=300",)),
}
SILENT: Mapping[str, tuple[str, ...]] = {
    "numbers": ("/body/food", "/body/cycle", "/body/photos"),
    "eating": ("/body", "/body/weight", "/body/recovery"),
    "no period": ("/body/photos",),
    "under 18": ("/body/food", "/body/food?aim=gain", "/body"),
}


def prepared(book: Book, facts: Mapping[str, Any]) -> None:
    """The records a caution is due in."""
    known(book, facts.get("health", Health.NONE))
    if "period" in facts:
        save_period(book, book.today - timedelta(days=facts["period"]))


@pytest.mark.parametrize("name", list(CAUTIONS))
def test_a_caution_appears_where_it_applies(client_of: Client, own_demo: Book, name: str) -> None:
    """On each page it applies to, for somebody who has not seen it today."""
    caution, facts, paths = CAUTIONS[name]
    prepared(own_demo, facts)
    for path in paths:
        assert caution.text in client_of(own_demo).get(path).text


@pytest.mark.parametrize("name", list(CAUTIONS))
def test_a_caution_stays_away_elsewhere(client_of: Client, own_demo: Book, name: str) -> None:
    """Not on other pages, and without its trigger not at all."""
    caution, facts, paths = CAUTIONS[name]
    prepared(own_demo, facts)
    for path in SILENT[name]:
        assert caution.text not in client_of(own_demo).get(path).text
    if facts:
        known(own_demo)
        save_period(own_demo, own_demo.today - timedelta(days=3))
        for path in paths:
            assert caution.text not in client_of(own_demo).get(path).text


@pytest.mark.parametrize("name", list(CAUTIONS))
def test_a_caution_comes_once_a_session(client_of: Client, own_demo: Book, name: str) -> None:
    """Seen once, it does not nag on the next page of the same day."""
    caution, facts, paths = CAUTIONS[name]
    prepared(own_demo, facts)
    client = client_of(own_demo)
    assert caution.text in client.get(paths[0]).text
    for path in paths:
        assert caution.text not in client.get(path).text


def test_low_energy_names_a_clinician(client_of: Client, empty: Book) -> None:
    """Ten days noted at 1,000 kcal leave less than 30 kcal per kg: the caution speaks."""
    known(empty)
    client = client_of(empty)
    for past in range(1, 11):
        day = (empty.today - timedelta(days=past)).isoformat()
        client.post("/body/intake", data={"kcal": "1000", "day": day})
    assert say.LOW_ENERGY.text in client_of(empty).get("/body/food").text
    for past in range(1, 11):
        day = (empty.today - timedelta(days=past)).isoformat()
        client.post("/body/intake", data={"kcal": "2300", "day": day})
    assert say.LOW_ENERGY.text not in client_of(empty).get("/body/food").text


def photo_form(**more: str) -> dict[str, str]:
    """What goes with a photo."""
    return {"pose": "front", "light": "window", **more}


def test_photos_stand_side_by_side_at_equal_scale(client_of: Client, empty: Book) -> None:
    """Two photos of other sizes: once marked, head and floor lie at the same heights."""
    client = client_of(empty)
    for width, height in ((300, 400), (400, 800)):
        file = {"file": ("me.png", png(width, height), "image/png")}
        client.post("/body/photos", data=photo_form(), files=file)
    ids = re.findall(r'<image href="/body/photos/([^/]+)/file"', client.get("/body/photos").text)
    assert len(ids) == 2
    for one, (top, floor) in zip(ids, ((10, 90), (25, 75)), strict=True):
        client.post(f"/body/photos/{one}/marks", data={"top": str(top), "floor": str(floor)})
    page = client.get("/body/photos").text
    boxes = re.findall(r'y="([-\d.]+)" width="[\d.]+" height="([\d.]+)"', page)
    bodies = [
        (float(y) + float(h) * top, float(h) * (floor - top))
        for (y, h), (top, floor) in zip(boxes, ((0.1, 0.9), (0.25, 0.75)), strict=True)
    ]
    assert bodies[0] == pytest.approx(bodies[1], abs=0.2)


def test_a_wrong_file_is_refused_in_a_sentence(client_of: Client, empty: Book) -> None:
    """No image, nothing kept, and what was typed comes back."""
    file = {"file": ("me.png", b"<script>alert(1)</script>", "image/png")}
    form = photo_form(light="one lamp")
    answer = client_of(empty).post("/body/photos", data=form, files=file)
    assert answer.status_code == 422
    assert "not a JPEG, PNG or WebP" in answer.text
    assert 'value="one lamp"' in answer.text
    assert not folder_of(empty).exists()


def test_an_image_is_served_as_what_it_is(client_of: Client, empty: Book) -> None:
    """The media type comes from the bytes, no cache keeps it, and no other name is served."""
    client = client_of(empty)
    file = {"file": ("me.html", png(), "text/html")}
    client.post("/body/photos", data=photo_form(), files=file)
    found = re.search(r'href="(/body/photos/[^/"]+)/file"', client.get("/body/photos").text)
    assert found
    answer = client.get(f"{found[1]}/file")
    assert answer.headers["content-type"] == "image/png"
    assert "no-store" in answer.headers["cache-control"]
    assert answer.content == png()
    assert client.get("/body/photos/../../pennate.sqlite/file").status_code == 404


def test_a_girth_is_translated(demo: TestClient) -> None:
    """Check value 22: +1 % of girth is +2.01 % of area; a third more is +78 %."""
    assert "+2.0 %" in demo.get("/body/translate?before=100&after=101").text
    assert "+77.8 %" in demo.get("/body/translate?before=30&after=40").text
    wrong = demo.get("/body/translate?before=abc&after=40")
    assert wrong.status_code == 422
    assert 'value="abc"' in wrong.text


def test_the_review_has_its_four_parts(demo: TestClient) -> None:
    """What changed, what comes next for every exercise, verdicts, what to measure."""
    page = demo.get("/review/week").text
    for part in ("What changed", "What comes next", "Is it growing", "What to measure"):
        assert part in page
    rows = page.split("<tbody>")[1].split("</tbody>")[0].count("<tr>")
    assert rows > 15


def test_the_review_is_linked(demo: TestClient) -> None:
    """From Body and from Today."""
    for path in ("/body", "/today"):
        assert 'href="/review/week"' in demo.get(path).text


@pytest.mark.parametrize(
    ("path", "data"),
    [
        ("/body/weight", {"kg": "abc"}),
        ("/body/weight", {"kg": "6"}),
        ("/body/intake", {"kcal": "much"}),
        ("/body/sleep", {"hours": "25"}),
        ("/body/choices", {"height": "16"}),
    ],
)
def test_wrong_numbers_come_back_as_typed(
    client_of: Client, empty: Book, path: str, data: dict[str, str]
) -> None:
    """422, one sentence, the value still in its box, nothing stored."""
    before = empty.ledger.position()
    answer = client_of(empty).post(path, data=data)
    assert answer.status_code == 422
    assert all(f'value="{value}"' in answer.text for value in data.values())
    assert empty.ledger.position() == before


def test_choices_change_only_what_the_form_carries(client_of: Client, empty: Book) -> None:
    """Hiding weight leaves the cycle as it was, and the other way round."""
    client = client_of(empty)
    client.post("/body/choices", data={"cycle": "yes"})
    client.post("/body/choices", data={"hide_weight": "yes"})
    assert choices(empty) == Choices(cycle=True, hide_weight=True)


NOTES: Mapping[str, tuple[str, dict[str, str], str]] = {
    "weight": ("/body/weight", {"kg": "64.2"}, "64.2 kg"),
    "sleep": ("/body/sleep", {"hours": "6.5"}, "slept 6.5 hours"),
    "food": ("/body/intake", {"kcal": "2100"}, "2100 kcal"),
    "pain": ("/body/morning", {"joint": "knee", "score": "4"}, "knee 4 in the morning"),
    "period": ("/body/period", {"what": "start"}, "a period began"),
    "bleeding": ("/body/period", {"what": "last"}, "bleeding ended"),
}


@pytest.mark.parametrize("name", NOTES)
def test_every_note_is_taken_back_on_its_page(client_of: Client, empty: Book, name: str) -> None:
    """The page that follows a note offers to take it back, without script; then it is gone."""
    client = client_of(empty)
    choose(empty, Choices(cycle=True))
    path, data, words = NOTES[name]
    page = client.post(path, data=data).text
    line = re.search(rf'name="id" value="([^"]+)".{{0,200}}?: {words}<', page, re.DOTALL)
    assert line, shown(page)
    back = re.search(r'name="back" value="([^"]+)"', page[line.start() :])
    assert back
    after = client.post("/body/undo", data={"id": line[1], "back": back[1]}).text
    assert "Taken back." in after
    assert f": {words}<" not in after


def test_a_check_in_is_taken_back_on_recovery(client_of: Client, own_demo: Book) -> None:
    """Said on Today, it stands on Recovery with all it says, and can be taken back there."""
    client = client_of(own_demo)
    own_demo.put("readiness", own_demo.today, {"low_energy": True, "pain": {"knee": 7}})
    words = ": low energy, knee hurts 7<"
    page = client.get("/body/recovery").text
    line = re.search(rf'name="id" value="([^"]+)".{{0,200}}?{words}', page, re.DOTALL)
    assert line
    after = client.post("/body/undo", data={"id": line[1], "back": "/body/recovery"}).text
    assert "Taken back." in after
    assert words not in after


def test_a_photo_is_put_back_or_deleted_on_its_page(client_of: Client, empty: Book) -> None:
    """Removed, the page offers both; put back it is shown again, deleted it is offered no more."""
    client = client_of(empty)
    file = {"file": ("a.png", png(), "image/png")}
    client.post("/body/photos", data=photo_form(), files=file)
    for then, left in (("put-back", 1), ("delete", 0)):
        kept = re.findall(r'<a href="/body/photos/([^"/]+)">', client.get("/body/photos").text)[-1]
        page = client.post(f"/body/photos/{kept}/remove").text
        assert page.count("/put-back") == page.count("/delete") == 1
        after = client.post(f"/body/photos/{kept}/{then}").text
        assert "put back</button>" not in after
        assert after.count("<image ") == left


def test_the_last_row_of_the_weighings_says_what_the_head_says(demo: TestClient) -> None:
    """One trend for a day: head, what opens, and the first row of the table agree."""
    page = demo.get("/body/weight").text
    head = re.search(r'<p class="m gap">(\d+\.\d) kg</p>', page)
    opened = re.search(r"<dd>(\d+\.\d\d) kg, (\S+ to \S+) \(95 %\)</dd>", page)
    row = re.search(r"<tbody><tr><td>[^<]+</td><td>[^<]*</td><td>(.*?)</td><td>(.*?)</td>", page)
    assert head
    assert opened
    assert row
    assert head[1] == row[1] == f"{float(opened[1]):.1f}"
    assert row[2] == opened[2]


def test_the_hours_a_night_open_to_the_nights_they_are_the_mean_of(
    demo: TestClient, demo_book: Book
) -> None:
    """How many nights are counted, what a short one is, and the start that her log moves."""
    page = demo.get("/body/recovery").text
    shown = re.search(r"<p>(\d+\.\d) hours a night over two weeks", page)
    counted = re.search(r"<dt>hours a night</dt><dd>the mean of (\d+) nights? noted", page)
    assert shown
    assert counted
    lately = [one.hours for one in nights(demo_book) if one.day > demo_book.today - RECENT]
    assert int(counted[1]) == len(lately) > 0
    assert f"{sum(lately) / len(lately):.1f}" == shown[1]
    known = {one.name: one.value for one in every_constant()}
    assert f"<dt>short</dt><dd>under {known['recovery.short_night']:g} hours</dd>" in page
    assert "\N{MINUS SIGN}1 ± 2 %" in page


def test_the_date_of_an_open_verdict_opens_to_its_rule(demo: TestClient) -> None:
    """Only where nobody can tell yet is a date told, and how likely it settles is defined."""
    page = demo.get("/body").text
    opened = re.findall(r'<details class="verdict">(.*?)</details>', page, re.DOTALL)
    for one in opened:
        assert ("<dt>its date</dt>" in one) == ("<strong>cannot tell yet</strong>" in one)
    assert f"a chance of {percent(LIKELY)} or more" in page
