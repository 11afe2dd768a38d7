"""The same thing happened, said by file and by form, gives the same rest of the week."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest
import time_machine
import typer
from fastapi.testclient import TestClient
from typer.testing import CliRunner

from pennate.app.body_notes import save_morning
from pennate.app.book import Book
from pennate.app.record import Recorded, finish, record
from pennate.app.today import card_for
from pennate.app.week_happened import (
    DONE,
    MISSED,
    TO_COME,
    AskedAgain,
    Told,
    day_states,
    happened_by_file,
    happened_to,
    sore_joints,
)
from pennate.app.week_known import gym_of_week
from pennate.cli.week import register
from pennate.core.brief import JointLimit
from pennate.core.card import Card
from pennate.core.exercise import EquipmentKind
from pennate.core.muscles import Joint
from pennate.core.performed import SetKind
from pennate.core.prescribed import Week
from pennate.core.week_time import Pace
from pennate.errors import InputError
from pennate.files.week import read_week
from pennate.files.week_text import render_week
from pennate.web.server import make_app
from tests.app.conftest import NOW

APP = typer.Typer()
register(APP)
TRIP = frozenset({EquipmentKind.BANDS})


def _week(book: Book) -> Week:
    week = book.week()
    assert week is not None
    return week


@pytest.fixture
def week_file(demo_book: Book, tmp_path: Path) -> Path:
    """The week she follows, as a file."""
    path = tmp_path / "week.toml"
    path.write_text(render_week(_week(demo_book)), encoding="utf-8")
    return path


def _by_form(book: Book, told: Told) -> AskedAgain:
    """As the page asks it, with every day as its form is filled in."""
    week = _week(book)
    said = replace(
        told,
        states={**day_states(book, week), **told.states},
        joint_limits={**sore_joints(book), **told.joint_limits},
    )
    happened = happened_to(week, said, gym_of_week(book, week), book, book.catalogue)
    return AskedAgain(week, happened, book.catalogue, {})


@pytest.mark.parametrize(
    "told",
    [
        Told(),
        Told(states={"Monday": MISSED}),
        Told(gone=frozenset({"hip_thrust"})),
        Told(joint_limits={Joint.KNEE: 1}, minutes={"Wednesday": 40}),
        Told(kit=TRIP),
    ],
    ids=["nothing", "missed", "gone", "knee and time", "trip"],
)
def test_by_file_and_by_form_it_is_one_question(
    demo_book: Book, week_file: Path, told: Told
) -> None:
    """Pace, gym, strength, days and joints: all of it alike, and so the rest of the week."""
    file, form = happened_by_file(week_file, told, demo_book), _by_form(demo_book, told)
    assert file.happened == form.happened
    assert file.happened.pace.sessions > 0
    assert file.happened.pace != Pace()


FORM = {
    **{f"state_{day}": TO_COME for day in ("Wednesday", "Thursday", "Friday", "Sunday")},
    "state_Monday": MISSED,
    "minutes_Wednesday": "45",
    "joint_knee": JointLimit.LIGHT.value,
    "gone": "hip_thrust",
    "for": "1",
}
ASKED = [
    "--missed",
    "Monday",
    "--minutes",
    "Wednesday=45",
    "--sore",
    "knee",
    "--lost",
    "Hip thrust",
]


def test_page_and_command_give_one_week(demo_book: Book, week_file: Path, tmp_path: Path) -> None:
    """The form is sent as a browser sends it, the command as a shell does: one answer."""
    app = make_app(demo_book)
    client = TestClient(app, base_url="http://localhost")
    sent = client.post("/week/changed", data=FORM, follow_redirects=False)
    task = app.state.plans.find(sent.headers["location"].rsplit("/", 1)[-1])
    assert task.wait(240)
    page = task.outcome()
    out = tmp_path / "rest.toml"
    where = ["--data", str(tmp_path / "demo"), "--out", str(out), "--json"]
    with time_machine.travel(NOW, tick=False):
        ran = CliRunner().invoke(APP, ["replan", str(week_file), *ASKED, *where])
    assert ran.exit_code == 0, ran.output
    told = json.loads(ran.stdout)
    assert told["changes"] == list(page.changes)
    assert told["changes"]
    assert read_week(out, demo_book.catalogue).days == page.week.days


def test_days_she_does_not_name_stand_as_her_log_has_them(demo_book: Book, week_file: Path) -> None:
    """Her Monday is in the log; what she says of a day wins, and another week has no such days."""
    assert day_states(demo_book, _week(demo_book))["Monday"] in {DONE, MISSED}
    by_log = happened_by_file(week_file, Told(), demo_book)
    assert by_log.by_log.keys() == {"Monday"}
    said = happened_by_file(week_file, Told(states={"Monday": TO_COME}), demo_book)
    assert not said.by_log
    assert not said.happened.missed | said.happened.done
    hers = _week(demo_book)
    week_file.write_text(render_week(replace(hers, days=hers.days[:3])), encoding="utf-8")
    assert not happened_by_file(week_file, Told(), demo_book).by_log


def test_what_hurts_is_spared_without_being_said_again(demo_book: Book, week_file: Path) -> None:
    """A shoulder at 8 this morning is spared by the command as by the form."""
    save_morning(demo_book, demo_book.today, "shoulder", 8)
    asked = happened_by_file(week_file, Told(), demo_book)
    assert asked.happened.joint_limits[Joint.SHOULDER] == JointLimit.NONE.highest


def test_what_is_gone_is_known_by_any_of_its_names(demo_book: Book, week_file: Path) -> None:
    """An exercise by its name, an item by its id; a slip is refused with one name each."""
    gym = demo_book.gym()
    assert gym is not None
    item = gym.items[0]
    told = Told(gone=frozenset({"Hip thrust", item.name}))
    assert {"hip_thrust", item.id} <= happened_by_file(week_file, told, demo_book).happened.lost
    with pytest.raises(InputError, match="Bench press") as refused:
        happened_by_file(week_file, Told(gone=frozenset({"bench pres"})), demo_book)
    assert "bench_press" not in str(refused.value)
    assert str(refused.value).casefold().count("“bench press”") == 1


def test_warm_up_sets_alone_are_no_session(demo_book: Book) -> None:
    """Still to come; closed, it is missed, so that its sets are made up; one hard set is done."""
    name = "Tuesday"
    week = replace(_week(demo_book), days=(replace(_week(demo_book).days[0], day=name),))
    demo_book.save_week(week)
    book = demo_book  # it is a Tuesday
    for key in _keys(book, name, SetKind.WARM_UP)[:2]:
        record(book, book.today, key, Recorded(), weekday=name)
    assert day_states(book, week) == {name: TO_COME}
    finish(book, book.today, weekday=name)
    assert day_states(book, week) == {name: MISSED}
    record(book, book.today, _keys(book, name, SetKind.TOP)[0], Recorded(), weekday=name)
    assert day_states(book, week) == {name: DONE}


def test_a_session_done_on_another_date_is_the_day_it_was_planned_as(demo_book: Book) -> None:
    """Thursday's session on a Tuesday leaves Tuesday's own to come."""
    first = _week(demo_book).days[0]
    week = replace(
        _week(demo_book), days=tuple(replace(first, day=d) for d in ("Tuesday", "Thursday"))
    )
    demo_book.save_week(week)
    book = demo_book  # it is a Tuesday
    key = _keys(book, "Thursday", SetKind.TOP)[0]
    record(book, book.today, key, Recorded(), weekday="Thursday")
    assert day_states(book, week) == {"Tuesday": TO_COME, "Thursday": DONE}


def _keys(book: Book, weekday: str, kind: SetKind) -> list[str]:
    """The sets of a kind on a day's card."""
    card = card_for(book, book.today, weekday=weekday)
    assert isinstance(card, Card)
    return [one.key for stop in card.stops for one in stop.sets if one.kind is kind]
