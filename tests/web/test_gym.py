"""The Gym page: what its forms change, and what they give back when they cannot."""

from __future__ import annotations

import re
from html import unescape

import pytest
from fastapi.testclient import TestClient

from pennate.app.book import Book
from pennate.app.gym_forms import form_fields
from pennate.app.gym_page import gym_of, take_starter
from pennate.core.exercise import Fixture
from pennate.core.gym import BandSet, Gym, Ladder, Sled, Stack
from pennate.core.quantities import Mass
from pennate.web.actions.gym import PLATE_FIELDS
from pennate.web.views.gym import KIND_WORDS
from pennate.web.views.gym_item import kind_of

ASKED: dict[str, dict[str, str]] = {
    "bar": {"name": "Short bar", "mass": "12.5"},
    "guided_bar": {"name": "Rails", "start": "8"},
    "dumbbells": {"name": "Pairs", "masses": "1-10 by 1; 12.5"},
    "fixed_barbells": {"name": "Fixed", "masses": "10-30 by 5"},
    "kettlebells": {"name": "Bells", "masses": "8; 12; 16"},
    "stack": {"name": "Pec", "start": "5", "step": "5", "label_only": "yes"},
    "cable": {"name": "Cross", "start": "2.5", "step": "2.5", "ratio": "2:1"},
    "sled": {"name": "Press", "mass": "40", "angle": "45"},
    "plate_loaded": {"name": "Lever", "mass": "15", "safeties": "yes"},
    "bands": {"name": "Loops", "band": "red 12 kg; black 20 kg", "assists": "yes"},
    "assisted": {"name": "Helper", "start": "5", "step": "5", "top": "60"},
    "body_weight": {"name": "Rings", "belt": "yes", "station": "rack"},
}


def fields_of(page: str, form: str) -> dict[str, str]:
    """What a form would send as it stands."""
    text = page[page.index(f'action="{form}"') :]
    text = text[: text.index("</form>")]
    found: dict[str, str] = {}
    for name, value in re.findall(
        r'<input type="(?:text|hidden)"[^>]* name="(\w+)" value="([^"]*)"', text
    ):
        found[name] = unescape(value)
    for name in re.findall(r'<input type="checkbox" name="(\w+)" value="yes" checked', text):
        found[name] = "yes"
    found.update(re.findall(r'<select[^>]* name="(\w+)">.*?value="(\w+)" selected', text))
    for name, value in re.findall(r'<textarea[^>]* name="(\w+)"[^>]*>([^<]*)<', text):
        found[name] = unescape(value)
    return found


def test_every_kind_can_be_asked_for(client: TestClient) -> None:
    """The page offers each kind of the gym file, and its form has every field."""
    assert set(KIND_WORDS) == set(ASKED)
    for kind in KIND_WORDS:
        page = client.get("/gym/item", params={"kind": kind}).text
        assert all(f'name="{field.key}"' in page for field in form_fields(kind)), kind


@pytest.mark.parametrize("kind", sorted(ASKED))
def test_a_thing_is_added_corrected_and_taken_away(
    client: TestClient, own_demo: Book, kind: str
) -> None:
    """Added by its form; saving that form as it stands changes nothing; then it is gone."""
    before = gym_of(own_demo)
    answer = client.post("/gym/item", data={"kind": kind, "unit": "kg", **ASKED[kind]})
    assert answer.status_code == 200, answer.text
    added = next(i for i in gym_of(own_demo).items if i.name == ASKED[kind]["name"])
    assert kind_of(added) == kind
    page = client.get("/gym/item", params={"item": added.id}).text
    assert client.post("/gym/item", data=fields_of(page, "/gym/item")).status_code == 200
    assert gym_of(own_demo).item(added.id) == added
    client.post("/gym/away", data={"gym": before.id, "item": added.id})
    assert set(gym_of(own_demo).items) == set(before.items)


def test_every_thing_of_a_gym_survives_its_form(client: TestClient, own_demo: Book) -> None:
    """Opening and saving each thing of the demo gym changes nothing."""
    before = gym_of(own_demo)
    for item in before.items:
        page = client.get("/gym/item", params={"item": item.id}).text
        client.post("/gym/item", data=fields_of(page, "/gym/item"))
        assert gym_of(own_demo).item(item.id) == item


SLIPS = [
    ("bar", {"name": "x", "mass": "heavy"}, "mass", "“heavy” is not a number"),
    ("bar", {"name": "x", "mass": ""}, "mass", "this is needed; like 20"),
    ("bar", {"name": "x", "mass": "20", "sleeve": "wide"}, "sleeve", "not a whole number"),
    ("bar", {"name": "x", "mass": "20", "for": "moon squat"}, "for", "moon squat"),
    ("dumbbells", {"masses": "30-10 by 2"}, "masses", "is not a range"),
    ("sled", {"name": "x", "mass": "9", "angle": "0"}, "angle", "cannot be the angle"),
    ("cable", {"name": "x", "start": "5", "step": "5", "ratio": "x"}, "ratio", "not a number"),
    ("stack", {"name": "x", "start": "50", "step": "5", "top": "5"}, "top", "below the start"),
    ("bands", {"band": "red"}, "band", "write it like red 12 kg"),
]


@pytest.mark.parametrize(("kind", "typed", "key", "told"), SLIPS)
def test_a_slip_stands_beside_its_field(
    client: TestClient, own_demo: Book, kind: str, typed: dict[str, str], key: str, told: str
) -> None:
    """The complaint is beside the field, every text is kept, and nothing is stored."""
    before = own_demo.ledger.position()
    answer = client.post("/gym/item", data={"kind": kind, "unit": "kg", **typed})
    assert answer.status_code == 422
    page = unescape(answer.text)
    beside = re.search(rf'id="w-{key}">([^<]*)<', page)
    assert beside
    assert told in beside[1]
    assert re.search(rf'id="f-{key}"[^>]*aria-invalid="true"', page)
    sent = fields_of(answer.text, "/gym/item")
    assert all(sent[name] == text for name, text in typed.items())
    assert own_demo.ledger.position() == before


def pairs_form(gym: Gym, **changed: str) -> dict[str, list[str]]:
    """The form of all pairs, some changed by the mass in words."""
    return {
        "mass": [str(float(plate.mass.amount)) for plate in gym.plates],
        "unit": [plate.mass.unit.value for plate in gym.plates],
        "pairs": [changed.get(f"m{float(p.mass.amount):g}", str(p.pairs)) for p in gym.plates],
    }


def test_pairs_are_saved_together(client: TestClient, own_demo: Book) -> None:
    """One kind fewer, another counted anew, the rest as they were."""
    before = gym_of(own_demo)
    client.post("/gym/plates", data=pairs_form(before, m45="0", m35="6"))
    after = {plate.mass: plate.pairs for plate in gym_of(own_demo).plates}
    expected = {plate.mass: plate.pairs for plate in before.plates}
    del expected[Mass.lb(45)]
    assert after == {**expected, Mass.lb(35): 6}


def test_a_wrong_count_keeps_all_counts(client: TestClient, own_demo: Book) -> None:
    """One slip among the pairs stores none of them and loses none of them."""
    before = gym_of(own_demo)
    answer = client.post("/gym/plates", data=pairs_form(before, m45="many", m35="6"))
    assert answer.status_code == 422
    assert re.search(r'value="many"[^>]*aria-invalid', answer.text)
    assert 'value="6"' in answer.text
    assert gym_of(own_demo) == before


def test_another_kind_of_plate(client: TestClient, own_demo: Book) -> None:
    """A new plate with its size; an impossible one comes back in its open form."""
    typed = dict.fromkeys(PLATE_FIELDS, "")
    good = {**typed, "mass": "0.5", "unit": "kg", "pairs": "2", "diameter": "135"}
    client.post("/gym/plate", data=good)
    added = next(p for p in gym_of(own_demo).plates if p.mass == Mass.kg("0.5"))
    assert (added.pairs, added.diameter_mm) == (2, 135)
    answer = client.post("/gym/plate", data={**good, "diameter": "9999"})
    assert answer.status_code == 422
    assert 'value="9999"' in answer.text
    assert 'id="w-diameter"' in answer.text


def test_small_things_and_the_name(client: TestClient, own_demo: Book) -> None:
    """Small things by commas; a name of its own, but none that is empty."""
    gym = gym_of(own_demo).id
    client.post("/gym/small", data={"gym": gym, "small": "straps, mat"})
    assert gym_of(own_demo).small == ("straps", "mat")
    client.post("/gym/name", data={"gym": gym, "name": "By the canal"})
    assert client.post("/gym/name", data={"gym": gym, "name": " "}).status_code == 422
    assert gym_of(own_demo).name == "By the canal"


def test_several_gyms_and_the_week_in_one(client: TestClient, own_demo: Book) -> None:
    """Taken, looked at, chosen: first it is shown what does not fit, then only the ticked goes."""
    week = own_demo.week()
    assert week
    answer = client.post("/gym/add", data={"starter": "travel"})
    assert answer.url.path == "/gym"
    assert "Train my week here" in answer.text
    shown = client.post("/gym/choose", data={"gym": "travel"})
    assert shown.url.path == "/gym/choose"
    assert own_demo.week() == week
    key = re.findall(r'name="replace" value="([^"]+)"', shown.text)[0]
    client.post("/gym/choose", data={"gym": "travel", "asked": "replace", "replace": [key]})
    moved = own_demo.week()
    assert moved
    assert moved.gym == "travel"
    day = next(i for i, d in enumerate(week.days) if d.day == key.split(":")[0])
    assert moved.days[day] != week.days[day]
    assert moved.days[:day] + moved.days[day + 1 :] == week.days[:day] + week.days[day + 1 :]


@pytest.mark.parametrize(("asked", "changes"), [("all", True), ("keep", False)])
def test_all_or_nothing_is_one_touch(
    client: TestClient,
    own_demo: Book,
    asked: str,
    changes: bool,  # noqa: FBT001 # a column of the table
) -> None:
    """Both ends of the choice need no ticking; the gym is the week's either way."""
    before = own_demo.week()
    assert before
    client.post("/gym/add", data={"starter": "travel"})
    client.post("/gym/choose", data={"gym": "travel", "asked": asked})
    after = own_demo.week()
    assert after
    assert after.gym == "travel"
    assert (after.days != before.days) is changes


def test_a_bare_gym_begins_with_a_floor(client: TestClient, own_demo: Book) -> None:
    """A name is all it needs; the floor cannot be taken away while it is all there is."""
    assert client.post("/gym/add", data={"name": " "}).status_code == 422
    client.post("/gym/add", data={"name": "Cellar"})
    assert [item.id for item in gym_of(own_demo, "cellar").items] == ["floor"]
    answer = client.post("/gym/away", data={"gym": "cellar", "item": "floor"})
    assert answer.status_code == 422
    assert gym_of(own_demo, "cellar").items


@pytest.mark.parametrize(
    ("path", "data"),
    [
        ("/gym/item", {"kind": "trampoline"}),
        ("/gym/away", {"gym": "moon", "item": "bar"}),
        ("/gym/add", {"starter": "moon"}),
        ("/gym/choose", {"gym": "moon"}),
    ],
)
def test_made_up_names_are_told(
    client: TestClient, own_demo: Book, path: str, data: dict[str, str]
) -> None:
    """A gym, kind or starter that is none is one sentence, and nothing changes."""
    before = own_demo.ledger.position()
    assert client.post(path, data=data).status_code == 422
    assert client.get("/gym/item", params={"at": "moon"}).status_code == 422
    assert own_demo.ledger.position() == before


def test_things_are_said_in_a_line(own_demo: Book, client: TestClient) -> None:
    """Dumbbells by their ends, a cable by its ratio, a sled by its angle, bands by their pull."""
    take_starter(own_demo, "travel")
    take_starter(own_demo, "commercial_kg")
    kinds = {type(item) for gym in own_demo.gyms() for item in gym.items}
    assert {Ladder, Stack, Sled, BandSet} <= kinds
    large = unescape(client.get("/gym?at=commercial_kg").text)
    assert "to pick from" in large
    assert "felt × 0.5" in large
    assert "rails at 45°" in large
    assert re.search(r"\w+ \d+ kg, \w+ \d+ kg", client.get("/gym?at=travel").text)


def test_what_there_is_to_hang_from_is_ticked(client: TestClient, own_demo: Book) -> None:
    """The Gym page shows what is there, and keeps what is ticked and nothing else."""
    gym = gym_of(own_demo)
    page = client.get("/gym").text
    assert page.count('name="fixture"') == len(Fixture)
    assert page.count('name="fixture" value="bench" checked') == 1
    client.post("/gym/fixtures", data={"gym": gym.id, "fixture": ["bench", "box"]})
    assert gym_of(own_demo).fixtures == (Fixture.BENCH, Fixture.BOX)
    client.post("/gym/fixtures", data={"gym": gym.id})
    assert gym_of(own_demo).fixtures == ()
    assert 'value="bench" checked' not in client.get("/gym").text
