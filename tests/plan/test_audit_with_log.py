"""The audit of a week file with her records, or with a log: as her page audits the same week."""

from __future__ import annotations

import json
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from fractions import Fraction
from pathlib import Path
from random import Random

import pytest
import typer
from typer.testing import CliRunner

from pennate.app.book import Book
from pennate.app.demo import make_demo
from pennate.app.exchange import import_log
from pennate.app.planning_text import audit_document
from pennate.app.week_audit import FileAudit, audit_file, audit_of, book_of_log
from pennate.app.week_effort import asked_credits, done_credits
from pennate.app.week_known import looking_at
from pennate.app.week_work import Work
from pennate.cli.week import register
from pennate.core.dose import forecast_credit
from pennate.core.muscles import Group
from pennate.core.performed import SetKind
from pennate.core.prescribed import (
    LoadFrom,
    LoadRule,
    PlannedDay,
    PrescribedExercise,
    PrescribedSets,
    Span,
    Week,
)
from pennate.core.quantities import Mass, Unit
from pennate.files.log import write_log
from pennate.files.week_text import render_week
from pennate.plan.audit import Audited
from pennate.plan.seen import open_sets

APP = typer.Typer()
register(APP)
RUN = CliRunner()
UNBALANCED = Path(__file__).parent / "unbalanced.toml"
NOW = datetime(2026, 11, 23, 17, 5, tzinfo=UTC)


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Book]:
    """Twelve weeks of the made-up lifter, told the same moment all along."""
    found = make_demo(tmp_path_factory.mktemp("demo"), lambda: NOW, weeks=12)
    yield found
    found.close()


def _week_file(folder: Path, week: Week) -> Path:
    path = folder / "week.toml"
    path.write_text(render_week(week), encoding="utf-8")
    return path


def _her_week(book: Book) -> Week:
    week = book.week()
    assert week is not None
    return week


def _as_page(book: Book, week: Week) -> FileAudit:
    """What the Week page is told, once its fixes are there."""
    work: Work[Audited] = Work()
    seen = audit_of(book, week, work, patience_s=60)
    assert seen.ready
    return FileAudit(seen.audited, seen.questions, looking_at(book, week).pace)


def _command(monkeypatch: pytest.MonkeyPatch, book: Book, *arguments: str) -> object:
    """What the command prints over these records, at their moment."""

    @contextmanager
    def opened(_where: Path | None) -> Iterator[Book]:
        yield book

    monkeypatch.setattr("pennate.cli.session.opened", opened)
    path = book.ledger.path
    assert path is not None
    result = RUN.invoke(APP, ["audit", *arguments, "--data", str(path.parent), "--json"])
    assert result.exit_code == 0, result.output
    return json.loads(result.stdout)


def test_command_and_page_agree_on_her_week(
    book: Book, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Findings, fixes, dose, minutes at her pace and questions of one week are the same twice."""
    week = _her_week(book)
    page = json.loads(json.dumps(audit_document(_as_page(book, week))))
    assert page["pace"]["sessions"] > 8
    assert _command(monkeypatch, book, str(_week_file(tmp_path, week))) == page


def test_command_and_page_agree_on_a_week_written_to_be_wrong(
    book: Book, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The same for a week with findings of every kind, and it has some."""
    week = replace(audit_file(UNBALANCED).audited.week, gym=_her_week(book).gym)
    page = json.loads(json.dumps(audit_document(_as_page(book, week))))
    assert len(page["findings"]) > 8
    assert _command(monkeypatch, book, str(_week_file(tmp_path, week))) == page


def test_without_records_minutes_are_the_models(tmp_path: Path) -> None:
    """No folder of records is made, and no pace is claimed."""
    nowhere = tmp_path / "none"
    result = RUN.invoke(APP, ["audit", str(UNBALANCED), "--data", str(nowhere), "--json"])
    assert json.loads(result.stdout)["pace"] == {"factor": 1.0, "sessions": 0}
    assert not nowhere.exists()


def test_a_log_file_is_read_as_of_its_last_set(book: Book, tmp_path: Path) -> None:
    """Minutes follow the clock of a log given as a file, whenever the command is run."""
    log = tmp_path / "log.csv"
    log.write_text(write_log(book.history()), encoding="utf-8")
    week = _week_file(tmp_path, _her_week(book))
    result = RUN.invoke(APP, ["audit", str(week), "--log", str(log), "--json"])
    assert result.exit_code == 0, result.output
    told = json.loads(result.stdout)
    her = looking_at(book, _her_week(book)).pace
    assert told["pace"]["sessions"] == pytest.approx(her.sessions, abs=2)
    assert told["pace"]["factor"] == pytest.approx(her.factor, rel=0.03)
    said = RUN.invoke(APP, ["audit", str(week), "--log", str(log)])
    assert "learned from the clock of" in said.output


def test_a_log_is_audited_alike_on_any_day(book: Book, tmp_path: Path) -> None:
    """Moved by 400 years, after which the calendar repeats; only how long ago it ended differs."""
    week, log = _week_file(tmp_path, _her_week(book)), tmp_path / "log.csv"
    told = []
    for century in ("20", "24"):
        log.write_text(write_log(book.history()).replace("2026-", f"{century}26-"))
        result = RUN.invoke(APP, ["audit", str(week), "--log", str(log), "--json"])
        assert (result.exit_code, result.stderr) == (0, "")
        found = json.loads(result.stdout)
        assert found.pop("pauses") is not None
        told.append(found)
    assert told[0]["pace"]["sessions"] > 8
    assert told[1] == told[0]


def _log_with_days(folder: Path, *days: date) -> Path:
    """A log of one exercise, three sets a day."""
    rows = [f"{day},a,{number},bench_press,60,kg,8" for day in days for number in (1, 2, 3)]
    folder.mkdir(exist_ok=True)
    path = folder / "days.csv"
    path.write_text("date,session,set,exercise,load,unit,reps\n" + "\n".join(rows) + "\n")
    return path


@pytest.mark.parametrize(
    ("ago", "today", "said"),
    [
        ((40, 36, 4, 1), 0, "First week back after 4 weeks: about 50 % of your usual sets"),
        ((60, 58, 20, 1), 0, "5 weeks without a session until 1 March 2026: pace"),
        ((20, 1), 49, "The log ends on 20 March 2026 and is taken as of then. 7 weeks off"),
        ((60, 40, 20, 1), 0, ""),
        ((160, 100, 70, 50, 30, 10, 1), 0, ""),  # eight weeks and more ago: nothing rests on it
        ((20, 1), 0, ""),
    ],
)
def test_a_pause_in_the_log_is_told(
    tmp_path: Path, ago: tuple[int, ...], today: int, said: str
) -> None:
    """Four weeks without a session change what the next two weeks ask, and what pace rests on."""
    last = date(2026, 3, 21)
    log = _log_with_days(tmp_path, *(last - timedelta(days=one) for one in ago))
    with book_of_log(log, UNBALANCED) as read:
        found = audit_file(UNBALANCED, read.book, last + timedelta(days=today))
    assert len(found.pauses) == bool(said)
    assert all(one.startswith(said) for one in found.pauses)
    assert audit_document(found)["pauses"] == found.pauses


def test_the_command_tells_of_a_log_that_ended_long_ago(tmp_path: Path) -> None:
    """Once, with what it means; her own records are of today and need no such word."""
    log = _log_with_days(tmp_path, date(2024, 3, 1), date(2024, 3, 4))
    result = RUN.invoke(APP, ["audit", str(UNBALANCED), "--log", str(log)])
    assert result.output.count("The log ends on 4 March 2024") == 1
    assert "The week above is the usual one." in result.output


def test_a_slip_of_the_year_does_not_make_the_log_long_ago(tmp_path: Path) -> None:
    """What, where, the likely slip and the remedy; the rest is read as of its own last day."""
    days = [date(2026, 3, 20) - timedelta(days=one) for one in range(0, 28, 3)]
    heard, plain = (
        RUN.invoke(APP, ["audit", str(UNBALANCED), "--log", str(log)]).output.splitlines()
        for log in (
            _log_with_days(tmp_path / "slip", *days, date(2999, 3, 17)),
            _log_with_days(tmp_path / "plain", *days),
        )
    )
    [told] = [line for line in heard if line not in plain]
    assert told.startswith("To check: days.csv, line ")
    assert ", date: 2999-03-17 is still to come, as today is " in told
    assert "is the year wrong, and " in told
    assert told.endswith("Mend the date in the file; until then the sets of that day are left out.")
    assert any("The log ends on 20 March 2026" in line for line in heard)
    assert [line for line in heard if line != told] == plain


def test_the_json_asks_about_that_day_too(tmp_path: Path) -> None:
    """Another program sees the question where it sees those of the week."""
    log = _log_with_days(tmp_path, date(2026, 3, 1), date(2999, 3, 4))
    result = RUN.invoke(APP, ["audit", str(UNBALANCED), "--log", str(log), "--json"])
    asked = json.loads(result.stdout)["questions"]
    [told] = [one for one in asked if "2999-03-04" in one["text"]]
    assert told["where"] == "days.csv, line 5, date"


def test_a_log_that_lies_ahead_as_a_whole_is_no_slip(tmp_path: Path) -> None:
    """Where every day is to come the clock is wrong, or it is tried out: nothing is left out."""
    log = _log_with_days(tmp_path, date(2999, 3, 1), date(2999, 3, 4))
    with book_of_log(log, UNBALANCED) as read:
        assert read.book.today == date(2999, 3, 4)
        assert len(read.book.history()) == 6
        assert read.questions == ()


def test_a_wrong_log_is_one_sentence(tmp_path: Path) -> None:
    """A log that cannot be read ends the command with its sentence and exit status."""
    log = tmp_path / "log.csv"
    log.write_text("date,exercise\n2026-01-01,curl\n", encoding="utf-8")
    result = RUN.invoke(APP, ["audit", str(UNBALANCED), "--log", str(log)])
    assert result.exit_code == 2
    assert len(result.stderr.strip().splitlines()) == 1


@pytest.mark.parametrize("unit", ["lb", "lbs", "Pounds"])
def test_a_unit_is_taken_as_it_is_spelt(tmp_path: Path, unit: str) -> None:
    """Loads without a unit are pounds, however that is written; another word is a sentence."""
    log = tmp_path / "log.csv"
    log.write_text(
        "date,session,set,exercise,load,reps\n2026-01-01,a,1,curl,20,8\n", encoding="utf-8"
    )
    words = ["audit", str(UNBALANCED), "--log", str(log), "--unit"]
    assert RUN.invoke(APP, [*words, unit]).exit_code == 0
    wrong = RUN.invoke(APP, [*words, "stone"])
    assert wrong.exit_code == 2
    assert wrong.stderr.strip() == "--unit: “stone” is not a unit; write kg or lb"


def test_improbable_numbers_are_asked_about(tmp_path: Path) -> None:
    """A curl of 400 kg in a week file is kept and asked about, as on the page."""
    heavy = LoadRule(LoadFrom.FIXED, mass=Mass(Fraction(400), Unit.KG))
    asked = PrescribedExercise(
        exercise="curl", sets=(PrescribedSets(reps=Span(10, 10), load=heavy),)
    )
    week = Week(name="slip", days=(PlannedDay(day="Monday", exercises=(asked,)),))
    path, nowhere = _week_file(tmp_path, week), str(tmp_path / "none")
    told = RUN.invoke(APP, ["audit", str(path), "--data", nowhere, "--json"])
    assert [one["value"] for one in json.loads(told.stdout)["questions"]] == ["400 kg"]
    said = RUN.invoke(APP, ["audit", str(path), "--data", nowhere])
    assert "To check: " in said.output
    assert "400 kg" in said.output


def _bench(kg: int, **more: object) -> Week:
    load = LoadRule(LoadFrom.FIXED, mass=Mass(Fraction(kg), Unit.KG))
    sets = replace(PrescribedSets(count=3, reps=Span(8, 8), load=load), **more)  # type: ignore[arg-type] # fields by name
    asked = PrescribedExercise(exercise="bench_press", sets=(sets,))
    return Week(name="bench", days=(PlannedDay(day="Tuesday", exercises=(asked,)),))


@pytest.fixture
def bencher(tmp_path: Path) -> Iterator[Book]:
    """Six weeks of about 8 reps of bench near 60 kg, stopped by feel: 80 kg is far too heavy."""
    rows = ["date,session,set,exercise,load,unit,reps,rir"]
    for visit in range(12):
        day = (NOW - timedelta(days=42 - 3.5 * visit)).date()
        kg, reps = ((60, 8), (62, 7), (57.5, 9))[visit % 3]
        rows += [
            f"{day},a,{number},bench_press,{kg},kg,{reps},{2 if number < 3 else 1}"
            for number in (1, 2, 3)
        ]
    log = tmp_path / "log.csv"
    log.write_text("\n".join(rows) + "\n", encoding="utf-8")
    found = Book.open(tmp_path / "records", lambda: NOW, Random(1))
    import_log(found.ledger, log, now=NOW, rng=found.rng)
    yield found
    found.close()


def test_open_effort_counts_by_forecast(bencher: Book) -> None:
    """Eight reps at her usual load are hard sets; at 30 kg they are warm-ups, whatever is said.

    A set counts by effort, not by its label: stated common practice.
    """
    chest = {
        kg: audit_file(_week_file_of(bencher, _bench(kg)), bencher)
        .audited.groups[Group.CHEST]
        .value
        for kg in (30, 50, 60)
    }
    assert chest[30] < 0.2
    assert chest[30] < chest[50] < chest[60]
    assert chest[60] > 0.9 * _said(bencher)


def _week_file_of(book: Book, week: Week) -> Path:
    path = book.ledger.path
    assert path is not None
    return _week_file(path.parent, week)


def _said(book: Book) -> float:
    """Chest dose where the reserve is written."""
    week = _bench(30, reserve=Span(1, 1))
    return audit_file(_week_file_of(book, week), book).audited.groups[Group.CHEST].value


def test_what_says_its_effort_is_not_forecast(bencher: Book) -> None:
    """A written reserve, a ramp set and a set to failure are left as asked."""
    for more in (
        {"reserve": Span(2, 2)},
        {"to_failure": True},
        {"kind": SetKind.WARM_UP},
        {"kind": SetKind.AMRAP},
        {"load": LoadRule()},
    ):
        assert asked_credits(bencher, _bench(60, **more)) == {}


def test_an_exercise_never_logged_is_not_forecast(bencher: Book) -> None:
    """The population's guess is no forecast of hers: the usual credit stands."""
    curl = PrescribedExercise(exercise="curl", sets=_bench(20).days[0].exercises[0].sets)
    assert asked_credits(bencher, _with(curl)) == {}


def _with(asked: PrescribedExercise) -> Week:
    return Week(name="one", days=(PlannedDay(day="Tuesday", exercises=(asked,)),))


def test_the_key_of_a_forecast_knows_no_count() -> None:
    """Taking a set away in a fix keeps what the others count."""
    asked = _bench(60).days[0].exercises[0]
    fewer = replace(asked.sets[0], count=2)
    assert open_sets(asked, asked.sets[0]) == open_sets(asked, fewer)


def test_logged_sets_without_effort_count_by_forecast(bencher: Book) -> None:
    """Five easy reps at 60 kg count less than eight; a set with its effort is not touched."""
    day = NOW.date()
    easy, hard = (
        replace(
            next(iter(bencher.history())),
            id=name,
            when=day,
            session=name,
            effort=None,
            load=Fraction(60),
            reps=reps,
        )
        for name, reps in (("easy", 3), ("hard", 8))
    )
    history = type(bencher.history()).of([easy, hard, replace(hard, id="told", session="c")])
    told = next(iter(bencher.history()))
    found = done_credits(bencher, type(history).of([easy, hard, told]))
    assert set(found) == {easy.identity, hard.identity}
    assert found["easy"] < 0.5 < found["hard"]


def test_credit_is_the_mean_over_the_forecast() -> None:
    """Half a chance of 10 reps and half of 16: 10 reps done count (1 + 0) / 2.

    Full at 0–3 in reserve, none from 6 (stated common practice); more than she could is failure.
    """
    chances = [0.0] * 17
    chances[10] = chances[16] = 0.5
    assert forecast_credit(chances, 10) == 0.5
    assert forecast_credit(chances, 16) == 1.0


def test_a_log_leaves_nothing_behind(book: Book, tmp_path: Path) -> None:
    """The records a log is read into are gone once the audit is said."""
    log = tmp_path / "log.csv"
    log.write_text(write_log(book.history()), encoding="utf-8")
    with book_of_log(log, _week_file(tmp_path, _her_week(book))) as read:
        where = read.book.ledger.path
        assert where is not None
        assert where.exists()
    assert not where.exists()
