"""Names in an old log that no exercise has: asked for on the Data page, one form, no script."""

from __future__ import annotations

import csv
import io
import re
from html import unescape

import pytest
from axe_playwright_python.sync_playwright import Axe
from fastapi.testclient import TestClient
from hypothesis import given
from hypothesis import strategies as st
from playwright.sync_api import Browser, expect

from pennate.app.book import Book
from pennate.errors import InputError
from pennate.files.catalogue import read_catalogue
from pennate.files.week import read_week
from pennate.web.carried import packed, unpacked

from .conftest import Client, served, turned

ROWS = [
    '2026-03-02,A,1,Flat bench thing,60,kg,8,"slow, then\nfast"',
    "2026-03-02,A,2,Flat bench thing,60,kg,7,",
    "2026-03-09,A,1,Flat bench thing,62.5,kg,6,",
    "2026-03-09,A,2,Grandmother's swing,24,kg,15,",
    "2026-03-09,A,3,hip_thrust,80,kg,8,",
]
LOG = "\n".join(("date,session,set,exercise,load,unit,reps,note", *ROWS)) + "\n"
OWN = """
name = "Own"
[[exercise]]
id = "swing"
name = "Grandmother's swing"
muscles = { "glutes" = 1 }
equipment = ["kettlebells"]
[[day]]
day = "Monday"
[[day.exercise]]
exercise = "hip_thrust"
sets = [{ sets = 3, reps = "8-12" }]
"""


@pytest.fixture
def client(client_of: Client, empty: Book) -> TestClient:
    """Pages with nothing logged."""
    return client_of(empty)


def bring(client: TestClient, log: str = LOG, **choices: str) -> str:
    """The Data page after a file was chosen."""
    files = {"file": ("old.csv", log, "text/csv")}
    return client.post("/data/import", files=files, data=choices).text


def say(client: TestClient, text: str, *means: str) -> str:
    """The page after its form was sent with these answers, all else as it was drawn."""
    form = text.split('action="/data/names"')[1].split("</form>", maxsplit=1)[0]
    drawn = re.findall(r'<input type="hidden" name="(\w+)" value="([^"]*)"', form)
    fields: dict[str, list[str]] = {"means": list(means)}
    for name, value in drawn:
        fields.setdefault(name, []).append(unescape(value))
    return client.post("/data/names", data=fields).text


def test_names_are_asked_and_answered_in_one_form(client: TestClient, empty: Book) -> None:
    """Nothing comes in before every name is said; then all does, with the note as it was."""
    page = bring(client)
    assert "2 names are no exercises known here" in page
    assert "3 sets, 2 March 2026 to 9 March 2026" in page
    assert len(empty.history()) == 0
    half = say(client, page, "bench_press", "")
    assert "“Grandmother's swing” is no exercise known here" in unescape(half)
    assert len(empty.history()) == 0
    assert 'value="bench_press" selected' in half, "what she said is not asked again"
    done = unescape(say(client, half, "bench_press", "+new"))
    assert "5 sets added" in done
    sets = empty.as_written().sets
    assert [one.exercise for one in sets].count("bench_press") == 3
    assert [one.exercise for one in sets].count("Grandmother's swing") == 1
    assert sets[0].note == "slow, then\nfast"


def test_what_was_kept_apart_can_be_said_later(client: TestClient, empty: Book) -> None:
    """The page after the import still asks; said then, the set is corrected, not doubled."""
    kept = say(client, bring(client), "bench_press", "+new")
    assert "Kept apart, and on no page" in unescape(kept)
    later = unescape(say(client, bring(client), "bench_press", "hip_thrust"))
    assert "1 set corrected" in later
    assert "What these names mean" not in later
    assert {one.exercise for one in empty.as_written()} == {"bench_press", "hip_thrust"}
    assert len(empty.as_written()) == 5


def test_names_said_before_a_refusal_are_kept(client: TestClient, empty: Book) -> None:
    """Another row is wrong: nothing comes in, that is what is said, and no name is asked again."""
    wrong = bring(client, LOG.replace("62.5", "62.5.0"))
    refused = unescape(say(client, wrong, "bench_press", "+new"))
    assert "“62.5.0” is not a number" in refused
    assert "Nothing of old.csv is taken in yet" in refused
    assert "Some sets are kept apart" not in refused
    assert len(empty.history()) == 0
    mended = unescape(bring(client))
    assert "5 sets added" in mended
    assert {one.exercise for one in empty.as_written()} >= {"bench_press", "Grandmother's swing"}


def test_the_same_log_again_asks_nothing(client: TestClient, empty: Book) -> None:
    """What was said once holds; the page shows it folded, where it can still be mended."""
    say(client, bring(client), "bench_press", "hip_thrust")
    before = empty.ledger.position()
    again = unescape(bring(client))
    assert "0 sets added, 5 known already" in again
    assert empty.ledger.position() == before
    assert "<summary>what was said of old.csv</summary>" in again
    mended = say(client, again, "back_squat_free", "hip_thrust")
    assert "3 sets corrected" in mended
    assert "0 sets added, 5 known already" in bring(client)


def test_a_half_answer_is_kept_too(client: TestClient) -> None:
    """She went away after the first name; back with the file, only the second is open."""
    say(client, bring(client), "bench_press", "")
    assert "“Grandmother's swing” is no exercise known here" in unescape(bring(client))


def test_an_answer_that_is_no_exercise_is_not_kept(client: TestClient, empty: Book) -> None:
    """A form tampered with says so, and leaves the records as they were."""
    answer = say(client, bring(client), "no_such_thing", "+new")
    assert "there is no exercise “no_such_thing”" in unescape(answer)
    assert empty.ledger.position() == 0


def test_described_in_her_week_it_is_known(client: TestClient, empty: Book) -> None:
    """An exercise of her own takes in what was kept apart under its name, without a question."""
    say(client, bring(client), "bench_press", "+new")
    empty.save_week(read_week(OWN, read_catalogue()))
    page = unescape(bring(client))
    assert "Grandmother's swing</b>" not in page
    say(client, page, "bench_press")
    assert [one.exercise for one in empty.as_written()].count("swing") == 1


def test_other_slips_are_told_beside_the_names(client: TestClient, empty: Book) -> None:
    """One look shows all that is to be done: the row that cannot be read and the names."""
    page = unescape(bring(client, LOG.replace("62.5", "62.5.0")))
    assert "old.csv, line 5, load: “62.5.0” is not a number" in page
    assert "2 names are no exercises known here" in page
    assert len(empty.history()) == 0


def test_units_and_order_are_carried_along(client: TestClient, empty: Book) -> None:
    """What was chosen with the file still holds when the names are said."""
    log = "date,exercise,load,reps\n2026-03-02,Flat bench thing,135,8\n"
    page = bring(client, log, unit="lb", in_order="1")
    assert "1 set added" in say(client, page, "bench_press")
    done = empty.as_written().sets[0]
    assert (str(done.unit), done.number) == ("lb", 1)


def test_a_large_log_is_carried_too(client: TestClient, empty: Book) -> None:
    """Thirty years of sets, well above what a form field may hold as a part of its own."""
    rows = io.StringIO()
    writer = csv.writer(rows)
    writer.writerow(("date", "session", "set", "exercise", "reps", "note"))
    for number in range(1, 20_001):
        writer.writerow(
            ("2026-03-02", "A", number, "hip_thrust", 8, f"{number * 7919 % 10007:x}" * 12)
        )
    rows.write("2026-03-03,A,1,Flat bench thing,8,\n")
    assert len(rows.getvalue()) > 1_000_000
    page = bring(client, rows.getvalue())
    assert "20001 sets added" in say(client, page, "bench_press")
    assert len(empty.as_written()) == 20_001


@pytest.mark.parametrize("log", ["", "no log", "eJwD", "ü"])
def test_a_log_that_did_not_come_back_is_told(client: TestClient, empty: Book, log: str) -> None:
    """A form cut short or tampered with changes nothing, and says what to do."""
    answer = client.post("/data/names", data={"log": log, "name": "x", "means": "hip_thrust"})
    assert answer.status_code == 422
    assert "choose the file once more" in answer.text
    assert len(empty.history()) == 0


@given(st.binary(max_size=2000))
def test_a_carried_file_comes_back_byte_for_byte(content: bytes) -> None:
    """Whatever its line ends, as a form would change them in plain text."""
    text = packed(content)
    assert re.fullmatch(r"[\w=-]+", text, re.ASCII)
    assert unpacked(text) == content


def test_a_file_that_swells_is_not_taken(client: TestClient) -> None:
    """A few kilobytes that would unpack to more than a log may have are refused."""
    with pytest.raises(InputError, match="choose the file once more"):
        unpacked(packed(bytes(60_000_000)))


@pytest.mark.browser
def test_the_form_in_a_browser_without_script(chromium: Browser, empty: Book) -> None:
    """Chosen, answered and taken in by plain forms; usable by all, and nothing sticks out."""
    with served(empty) as address:
        page = chromium.new_page(viewport={"width": 390, "height": 844}, reduced_motion="reduce")
        page.goto(f"{address}/data")
        file = {"name": "old.csv", "mimeType": "text/csv", "buffer": LOG.encode()}
        page.locator("#f-log").set_input_files(file)  # type: ignore[arg-type] # a payload
        turned(page, page.get_by_role("button", name="Import"))
        assert Axe().run(page).violations_count == 0
        for width in (320, 390, 1280):
            page.set_viewport_size({"width": width, "height": 844})
            assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0
        page.close()
        plain = chromium.new_page(java_script_enabled=False)
        plain.goto(f"{address}/data")
        plain.locator("#f-log").set_input_files(file)  # type: ignore[arg-type] # a payload
        turned(plain, plain.get_by_role("button", name="Import"))
        plain.get_by_label("Flat bench thing").select_option("bench_press")
        plain.get_by_label("Grandmother's swing").select_option(
            "a new exercise of mine, kept apart"
        )
        turned(plain, plain.locator("form[action='/data/names'] button"))
        expect(plain.get_by_role("status")).to_contain_text("5 sets added")
        plain.close()
    assert len(empty.as_written()) == 5
