"""Import and export: everything travels, nothing doubles, all or nothing."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from fractions import Fraction
from pathlib import Path
from random import Random

import pytest
from hypothesis import given, settings

from pennate.app.exchange import (
    How,
    ImportReport,
    export_dir,
    import_dir,
    import_log,
    take_in,
)
from pennate.app.keep import Place
from pennate.app.merge import content
from pennate.app.questions import answer, open_questions
from pennate.core.body import Measurement, Site, TapeState, Weighing
from pennate.core.performed import PerformedSet, Side
from pennate.core.quantities import Unit
from pennate.errors import InputError, StateError
from pennate.files.log import write_log
from pennate.ledger import Entry, Ledger, uuid7
from pennate.ledger.measured import girth_entries, measurements_from, weighings_from, weight_entry
from pennate.ledger.sets import set_entry, sets_from
from tests.files.sets_made import logs

NOW = datetime(2026, 3, 31, 12, 0, tzinfo=UTC)
CHANCE = Random(3)
HEADER = "date,session,set,exercise,load,unit,reps,Mood"
ROWS = [f"2026-03-02,A,{n},hip_thrust,40,kg,8,ok" for n in range(1, 6)]


def pain_of(day: str) -> str:
    """A line of `entries.jsonl`: a knee that hurt on a day."""
    body = {"joint": "knee", "level": 3}
    entry = Entry(
        id=uuid7(NOW, CHANCE), kind="pain", day=date.fromisoformat(day), made_at=NOW, body=body
    )
    return json.dumps(entry.as_json()) + "\n"


@pytest.fixture
def ledger(tmp_path: Path) -> Iterator[Ledger]:
    """An empty ledger."""
    with Ledger.open(tmp_path / "ledger.sqlite") as opened:
        yield opened


def take(
    ledger: Ledger, folder: Path, *rows: str, header: str = HEADER, **how: object
) -> ImportReport:
    """Import a log of these rows."""
    path = folder / "log.csv"
    path.write_text("\n".join((header, *rows)) + "\n")
    return import_log(ledger, path, How(**how), now=NOW, rng=CHANCE)  # type: ignore[arg-type]  # passed on


def sets_of(ledger: Ledger) -> list[tuple[str, ...]]:
    """What every stored set says, ids left out."""
    return [content(done) for done in sets_from(ledger)[0]]


def put(ledger: Ledger, kind: str, body: dict[str, object]) -> Entry:
    """Write an entry as a page would."""
    entry = Entry(id=uuid7(NOW, CHANCE), kind=kind, day=NOW.date(), made_at=NOW, body=body)
    ledger.append([entry])
    return entry


def test_importing_again_adds_nothing(ledger: Ledger, tmp_path: Path) -> None:
    """The same file twice is the same record."""
    assert take(ledger, tmp_path, *ROWS).added == 5
    before = ledger.position()
    again = take(ledger, tmp_path, *ROWS)
    assert (again.added, again.unchanged, again.corrected) == (0, 5, ())
    assert ledger.position() == before


def test_a_changed_row_is_a_correction(ledger: Ledger, tmp_path: Path) -> None:
    """It is shown cell by cell and never becomes a second set; the old content is kept."""
    take(ledger, tmp_path, *ROWS)
    old = sets_from(ledger)[0].sets[1].id
    report = take(ledger, tmp_path, *ROWS[:1], ROWS[1].replace("40,kg,8,ok", "42.5,kg,7,fine"))
    (corrected,) = report.corrected
    assert str(corrected).endswith("load 40 → 42.5, reps 8 → 7, Mood ok → fine")
    assert len(sets_from(ledger)[0]) == 5
    assert [entry.body["reps"] for entry in ledger.chain(old)] == [8, 7]


def test_a_column_that_is_missing_erases_nothing(ledger: Ledger, tmp_path: Path) -> None:
    """A file that knows less leaves what it does not speak of; an emptied cell is a change."""
    take(ledger, tmp_path, *ROWS)
    short = "date,session,set,exercise,reps"
    report = take(ledger, tmp_path, "2026-03-02,A,1,hip_thrust,8", header=short)
    assert (report.unchanged, report.corrected) == (1, ())
    emptied = take(ledger, tmp_path, ROWS[0].replace("ok", ""))
    assert [change.column for change in emptied.corrected[0].changes] == ["Mood"]


def test_nothing_is_written_when_a_row_is_wrong(ledger: Ledger, tmp_path: Path) -> None:
    """Ninety-nine good rows and a bad one leave the ledger as it was."""
    with pytest.raises(InputError):
        take(ledger, tmp_path, *ROWS, "2026-03-02,A,6,hip_thrust,40,kg,many,")
    assert ledger.position() == 0


def test_a_new_exercise_is_accepted_once(ledger: Ledger, tmp_path: Path) -> None:
    """What was accepted before needs no second word."""
    row = "2026-03-02,B,1,garden rope,40,kg,8,"
    with pytest.raises(InputError, match="--new"):
        take(ledger, tmp_path, row)
    assert take(ledger, tmp_path, row, new=frozenset({"garden rope"})).added == 1
    assert take(ledger, tmp_path, row).unchanged == 1


def test_the_unit_of_a_whole_file(ledger: Ledger, tmp_path: Path) -> None:
    """A unit given for the file belongs to its rows; another one later is a correction."""
    header, row = "date,session,set,exercise,load,reps", "2026-03-02,A,1,hip_thrust,40,8"
    take(ledger, tmp_path, row, header=header, unit=Unit.LB)
    report = take(ledger, tmp_path, row, header=header, unit=Unit.KG)
    assert str(report.corrected[0]).endswith("unit lb → kg")


def test_a_known_id_wins_over_the_place(ledger: Ledger, tmp_path: Path) -> None:
    """A set that was moved to another session is corrected, not copied."""
    header = "id,date,session,set,exercise,reps"
    take(ledger, tmp_path, "r1,2026-03-02,A,1,hip_thrust,8", header=header)
    report = take(ledger, tmp_path, "r1,2026-03-03,B,4,hip_thrust,8", header=header)
    assert [change.column for change in report.corrected[0].changes] == ["date", "session", "set"]
    assert [done.id for done in sets_from(ledger)[0]] == ["r1"]


def test_the_same_set_under_a_new_id_is_known(ledger: Ledger, tmp_path: Path) -> None:
    """The original file and an export from elsewhere meet in one record."""
    take(ledger, tmp_path, "2026-03-02,A,1,hip_thrust,40,kg,8,ok")
    row = "r1,2026-03-02,A,1,hip_thrust,40,kg,8,ok"
    assert take(ledger, tmp_path, row, header=f"id,{HEADER}").unchanged == 1
    other = take(
        ledger, tmp_path, row.replace("r1", "r2").replace("40", "50"), header=f"id,{HEADER}"
    )
    assert other.added == 1
    assert "there twice" in other.questions[0].text


def test_what_she_took_back_stays_back(ledger: Ledger, tmp_path: Path) -> None:
    """Importing the old file again does not bring back a set she deleted."""
    take(ledger, tmp_path, *ROWS)
    ledger.retract(sets_from(ledger)[0].sets[2].id, now=NOW + timedelta(hours=1), rng=CHANCE)
    report = take(ledger, tmp_path, *ROWS)
    assert (report.added, report.unchanged, report.taken_back) == (0, 4, 1)


def test_a_set_taken_back_may_return_changed(ledger: Ledger, tmp_path: Path) -> None:
    """A row with the id of a deleted set and other content brings it back, as the same set."""
    take(ledger, tmp_path, *ROWS)
    first = sets_from(ledger)[0].sets[0].id
    ledger.retract(first, now=NOW, rng=CHANCE)
    row = f"{first},{ROWS[0].replace(',8,', ',9,')}"
    assert take(ledger, tmp_path, row, header=f"id,{HEADER}").added == 1
    assert ledger.conflicts() == ()
    back = sets_from(ledger)[0].sets[0]
    assert (back.id, back.reps) == (first, 9)
    assert take(ledger, tmp_path, row, header=f"id,{HEADER}").unchanged == 1


def test_questions_are_stored_until_answered(ledger: Ledger, tmp_path: Path) -> None:
    """An improbable value is imported, listed with its line, and asked about only once."""
    rows = [*ROWS[:2], ROWS[2].replace("40", "400"), *ROWS[3:]]
    (question,) = take(ledger, tmp_path, *rows).questions
    assert str(question.where) == "log.csv, line 4, load"
    assert take(ledger, tmp_path, *rows).questions == ()
    ((key, stored),) = open_questions(ledger)
    assert (stored.text, stored.where.line) == (question.text, 4)
    assert stored.about == sets_from(ledger)[0].sets[2].id
    answer(ledger, key, now=NOW + timedelta(hours=1), rng=CHANCE)
    assert open_questions(ledger) == ()


def test_mending_the_set_closes_its_question(ledger: Ledger, tmp_path: Path) -> None:
    """A corrected value needs no answer."""
    take(ledger, tmp_path, *ROWS[:4], ROWS[4].replace("40", "400"))
    assert len(open_questions(ledger)) == 1
    assert len(take(ledger, tmp_path, *ROWS).corrected) == 1
    assert open_questions(ledger) == ()


def test_new_rows_are_judged_by_what_is_stored(ledger: Ledger, tmp_path: Path) -> None:
    """One new set of 400 kg is asked about because of the 40 kg of last month."""
    take(ledger, tmp_path, *ROWS)
    report = take(ledger, tmp_path, "2026-03-09,A,1,hip_thrust,400,kg,8,")
    assert [question.field for question in report.questions] == ["load"]


def test_jumbled_rows_are_asked_about(ledger: Ledger, tmp_path: Path) -> None:
    """Rows out of order are taken by their number, and she is asked."""
    report = take(ledger, tmp_path, ROWS[0], ROWS[3], ROWS[1], ROWS[2])
    (question,) = report.questions
    assert (question.field, question.where.line) == ("set", 4)


def dated(folder: Path, name: str, *days: str) -> Path:
    """A folder with one file of an export, a record for each of the days."""
    head, row = {
        "log.csv": (f"{HEADER}\n", "{day},A,{n},hip_thrust,40,kg,8,ok\n"),
        "measures.csv": ("date,site,side,girth_cm\n", "{day},thigh,left,5{n}\n"),
        "weights.csv": ("date,kg\n", "{day},6{n}\n"),
        "entries.jsonl": ("", "{pain}"),
    }[name]
    rows = (row.format(day=day, n=n, pain=pain_of(day)) for n, day in enumerate(days, 1))
    folder.mkdir(exist_ok=True)
    (folder / name).write_text(head + "".join(rows))
    return folder


RECORDS = {
    "log.csv": "set",
    "measures.csv": "girth",
    "weights.csv": "weight",
    "entries.jsonl": "pain",
}
"""What a file of an export holds."""


@pytest.mark.parametrize(
    ("name", "where", "about"),
    [
        ("log.csv", "log.csv, line 3, date", "hip thrust, set 2"),
        ("measures.csv", "measures.csv, line 3, date", "girth"),
        ("weights.csv", "weights.csv, line 3, date", "weight"),
        ("entries.jsonl", "entries.jsonl, line 2, day", "pain"),
    ],
)
def test_a_day_to_come_is_kept_and_asked_about(
    ledger: Ledger, tmp_path: Path, name: str, where: str, about: str
) -> None:
    """Line, today and the day likely meant, once for a day; nothing is refused, nothing lost."""
    folder = dated(tmp_path / "in", name, "2026-03-02", "2027-03-02", "2027-03-02", "2026-04-02")
    report = import_dir(ledger, folder, now=NOW, rng=CHANCE)
    assert str(report.questions[0]) == (
        f"{where}: 2027-03-02 is still to come, as today is 2026-03-31; "
        f"is the year wrong, and 2026-03-02 meant? ({about})"
    )
    assert [question.text.partition("and ")[2][:10] for question in report.questions] == [
        "2026-03-02",
        "2025-04-02",
    ]
    assert len(ledger.entries(RECORDS[name])) == 4
    assert [str(asked) for _, asked in open_questions(ledger)] == list(map(str, report.questions))
    before = ledger.position()
    assert import_dir(ledger, folder, now=NOW, rng=CHANCE).questions == ()
    assert ledger.position() == before


@pytest.mark.parametrize("name", RECORDS)
def test_a_question_of_a_day_waits_and_lapses(ledger: Ledger, tmp_path: Path, name: str) -> None:
    """It is answered, or closed by taking the record back."""
    folder = dated(tmp_path / "in", name, "2027-03-02", "2028-03-02")
    import_dir(ledger, folder, now=NOW, rng=CHANCE)
    (key, _), (_, other) = open_questions(ledger)
    answer(ledger, key, now=NOW + timedelta(hours=1), rng=CHANCE)
    assert [asked for _, asked in open_questions(ledger)] == [other]
    ledger.retract(other.about, now=NOW + timedelta(hours=2), rng=CHANCE)
    assert open_questions(ledger) == ()


@pytest.mark.parametrize("name", RECORDS)
def test_a_day_ahead_is_today_further_east(ledger: Ledger, tmp_path: Path, name: str) -> None:
    """Midnight comes earlier in the east; two days ahead it is nowhere."""
    folder = dated(tmp_path / "in", name, "2026-04-01", "2026-04-02")
    (question,) = import_dir(ledger, folder, now=NOW, rng=CHANCE).questions
    assert question.text.startswith("2026-04-02 is still to come")


def test_an_export_with_days_to_come_is_taken_back(ledger: Ledger, tmp_path: Path) -> None:
    """All of it travels; what is asked about already is not asked about twice."""
    for name in RECORDS:
        import_dir(ledger, dated(tmp_path / "in", name, "2027-03-02"), now=NOW, rng=CHANCE)
    (key,) = (key for key, asked in open_questions(ledger) if "(pain)" in asked.text)
    answer(ledger, key, now=NOW + timedelta(hours=1), rng=CHANCE)
    export_dir(ledger, tmp_path / "out")
    with Ledger.open(tmp_path / "other.sqlite") as other:
        import_dir(other, tmp_path / "out", now=NOW, rng=CHANCE)
        for kind in RECORDS.values():
            assert [e.day for e in other.entries(kind)] == [date(2027, 3, 2)]
        waiting = [asked.text for _, asked in open_questions(other)]
        assert sorted(text.partition(" (")[2] for text in waiting) == [
            "girth)",
            "hip thrust, set 1)",
            "weight)",
        ]


def full(ledger: Ledger) -> None:
    """Records of every kind."""
    done = PerformedSet(
        id="", when=date(2026, 3, 2), session="A", number=1, exercise="hip_thrust", reps=8,
        load=Fraction(1, 3), unit=Unit.LB, note="zwei\r\nZeilen", extra={"Mood": "ok"},
    )  # fmt: skip
    tape = Measurement(
        day=date(2026, 3, 1), site=Site.THIGH, side=Side.LEFT, state=TapeState.RELAXED,
        girths_cm=tuple(Fraction(n, 10) for n in (561, 563, 562, 564)), extra={"Tape": "blue"},
    )  # fmt: skip
    ledger.append([set_entry(done, now=NOW, rng=CHANCE)])
    ledger.append([*girth_entries(tape, now=NOW, rng=CHANCE)])
    for kg in ("62.4", "62.9"):
        weighed = Weighing(day=date(2026, 3, 1), kg=Fraction(kg))
        ledger.append([weight_entry(weighed, now=NOW, rng=CHANCE)])
    put(ledger, "week", {"text": WEEK})
    put(ledger, "gym", {"text": GYM})
    put(ledger, "gym", {"text": GYM.replace('"city"', '"home/2"')})
    put(ledger, "profile", {"unit": "kg", "female": True, "trained": None, "health": "none"})
    settings_of = {"seat": "4", "pulley height": "„oben“"}
    put(
        ledger,
        "note",
        {"exercise": "hip_thrust", "item": "", "settings": settings_of, "cue": "chin"},
    )
    put(ledger, "readiness", {"short_sleep": True, "sore": ["knee"], "gone": None})
    put(ledger, "remembered", {"exercise": "hip_thrust", "load": "40", "unit": "kg", "reps": 8})


WEEK = """# her own words stay
name = "My week"

[[day]]
day = "Monday"

[[day.exercise]]
exercise = "hip_thrust"

[[day.exercise.sets]]
sets = 3
reps = "8-12"
"""
GYM = """id = "city"

[[bar]]
id = "bar"
mass = 20
unit = "kg"
"""


def state(ledger: Ledger) -> dict[str, object]:
    """Everything current, without ids and times of making."""
    plain = {"set", "girth", "weight"}
    rest = sorted(
        (e.kind, str(sorted((k, str(v)) for k, v in e.body.items() if v is not None)))
        for e in ledger.entries()
        if e.kind not in plain
    )
    return {
        "sets": sets_of(ledger),
        "girths": measurements_from(ledger),
        "weights": weighings_from(ledger),
        "rest": rest,
    }


def test_everything_travels(ledger: Ledger, tmp_path: Path) -> None:
    """An export into an empty ledger gives the same records, and exports the same files."""
    full(ledger)
    names = export_dir(ledger, tmp_path / "out")
    with Ledger.open(tmp_path / "other.sqlite") as other:
        import_dir(other, tmp_path / "out", now=NOW, rng=CHANCE)
        assert state(other) == state(ledger)
        assert export_dir(other, tmp_path / "again") == names
    for name in names:
        assert (tmp_path / "out" / name).read_bytes() == (tmp_path / "again" / name).read_bytes()


def test_taking_back_an_export_changes_nothing(ledger: Ledger, tmp_path: Path) -> None:
    """Export and import on the same records adds not one entry."""
    full(ledger)
    export_dir(ledger, tmp_path / "out")
    before = ledger.position()
    report = import_dir(ledger, tmp_path / "out", now=NOW, rng=CHANCE)
    assert (ledger.position(), report.others, report.unchanged) == (before, {}, 1)


def test_texts_travel_as_written(ledger: Ledger, tmp_path: Path) -> None:
    """Comments and layout of her week and gym are hers."""
    full(ledger)
    export_dir(ledger, tmp_path)
    assert (tmp_path / "week.toml").read_text() == WEEK
    assert (tmp_path / "gyms" / "city.toml").read_text() == GYM


@settings(max_examples=15, deadline=None)
@given(logs())
def test_any_log_makes_the_round(
    tmp_path_factory: pytest.TempPathFactory, sets: list[PerformedSet]
) -> None:
    """Import, export, import: nothing lost, nothing doubled, unknown columns included."""
    folder = tmp_path_factory.mktemp("round")
    (folder / "log.csv").write_text(write_log(sets), newline="")
    with Ledger.open(folder / "one.sqlite") as one, Ledger.open(folder / "two.sqlite") as two:
        import_log(one, folder / "log.csv", now=NOW, rng=CHANCE)
        export_dir(one, folder / "out")
        import_dir(two, folder / "out", now=NOW, rng=CHANCE)
        assert sorted(sets_of(two)) == sorted(content(done) for done in sets)
        for ledger in (one, two):
            position = ledger.position()
            import_log(ledger, folder / "log.csv", now=NOW, rng=CHANCE)
            import_dir(ledger, folder / "out", now=NOW, rng=CHANCE)
            assert ledger.position() == position


@pytest.mark.parametrize(
    ("name", "text", "words"),
    [
        ("week.toml", "name = ", "week.toml"),
        ("gyms/city.toml", "[[bar]]\n", "city.toml"),
        ("profile.toml", "unit = kg", "profile.toml"),
        ("notes.toml", "x = 1", "[[note]]"),
        ("notes.toml", "[[note]]\ncue = 'x'", "names no exercise"),
        ("entries.jsonl", "{}\nnonsense", "line 1"),
        ("entries.jsonl", "nonsense", "not JSON"),
        ("measures.csv", "date,site\n", "measures.csv"),
        ("weights.csv", "date,kg\n2026-03-01,heavy\n", "weights.csv"),
        ("log.csv", "date\n2026-03-01\n", "log.csv"),
        ("weights.csv", "date,kg\n9999-12-31,65\n", "weights.csv, line 2, date: the year 9999"),
        ("measures.csv", "date,site,girth_cm\n9999-12-31,waist,70\n", "line 2, date: the year"),
        ("log.csv", f"{HEADER}\n9999-12-31,A,1,hip_thrust,40,kg,8,\n", "line 2, date: the year"),
        ("log.csv", f"{HEADER}\n9999-12-31T18:30,A,1,curl,9,kg,8,\n", "line 2, date: the year"),
        ("entries.jsonl", pain_of("9999-12-31"), "entries.jsonl, line 1: the year 9999"),
    ],
)
def test_one_wrong_file_stops_the_folder(
    ledger: Ledger, tmp_path: Path, name: str, text: str, words: str
) -> None:
    """The sentence names the file, and nothing of the others is written."""
    full(ledger)
    export_dir(ledger, tmp_path / "out")
    (tmp_path / "out" / name).write_text(text)
    with Ledger.open(tmp_path / "other.sqlite") as other:
        with pytest.raises(InputError, match=words.replace("[", r"\[")):
            import_dir(other, tmp_path / "out", now=NOW, rng=CHANCE)
        assert other.position() == 0


def test_names_of_hers_travel(ledger: Ledger, tmp_path: Path) -> None:
    """An export comes straight back: what she said of names comes along, and so do her own."""
    rows = [row.replace("hip_thrust", name) for row, name in zip(ROWS, NAMES, strict=False)]
    said = How(names={"Bridge": "hip_thrust"}, new=frozenset({"Belt march"}))
    take(ledger, tmp_path, *rows, names=said.names, new=said.new)
    older = next(done for done in sets_from(ledger)[0] if done.exercise == "hip_thrust")
    ledger.append([set_entry(replace(older, id="", number=9, exercise="Old rope"),
                             now=NOW, rng=CHANCE)])  # fmt: skip # before choices were kept
    export_dir(ledger, tmp_path / "out")
    with Ledger.open(tmp_path / "other.sqlite") as other:
        assert import_dir(other, tmp_path / "out", now=NOW, rng=CHANCE).added == 3
        assert sets_of(other) == sets_of(ledger)
        later = [row.replace("03-02", "03-09") for row in rows]
        assert take(other, tmp_path, *later).added == 2
        before = other.position()
        import_dir(other, tmp_path / "out", now=NOW, rng=CHANCE)
        assert other.position() == before


NAMES = ("Bridge", "Belt march")


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ('[choice]\nof = "name"\n', r"no \[\[choice\]\] tables"),
        ('[[choice]]\nof = "name"\nwritten = "Bridge"\n', "has no means"),
        ("choice", "not TOML"),
    ],
)
def test_a_wrong_file_of_choices_is_refused(
    ledger: Ledger, tmp_path: Path, text: str, words: str
) -> None:
    """The sentence names the file, and nothing is written."""
    (tmp_path / "choices.toml").write_text(text)
    with pytest.raises(InputError, match=rf"choices\.toml.*{words}"):
        import_dir(ledger, tmp_path, now=NOW, rng=CHANCE)
    assert ledger.position() == 0


def test_a_folder_without_an_export(ledger: Ledger, tmp_path: Path) -> None:
    """An empty folder is refused in a sentence."""
    with pytest.raises(InputError, match="none of the files"):
        import_dir(ledger, tmp_path, now=NOW, rng=CHANCE)


def test_an_export_never_mixes_with_another(ledger: Ledger, tmp_path: Path) -> None:
    """A week that is not hers may not slip back in with the next import."""
    (tmp_path / "week.toml").write_text(WEEK)
    with pytest.raises(InputError, match=r"week\.toml is there already"):
        export_dir(ledger, tmp_path)
    assert (tmp_path / "week.toml").read_text() == WEEK


def test_an_empty_ledger_makes_the_round(ledger: Ledger, tmp_path: Path) -> None:
    """An export of nothing is a header, and taking it back is no error."""
    assert export_dir(ledger, tmp_path) == ("log.csv",)
    assert import_dir(ledger, tmp_path, now=NOW, rng=CHANCE).added == 0


def test_a_set_that_cannot_be_read_stops_the_export(ledger: Ledger, tmp_path: Path) -> None:
    """Nothing is left out in silence."""
    put(ledger, "set", {"reps": "many"})
    with pytest.raises(StateError, match="cannot be read"):
        export_dir(ledger, tmp_path)


def test_a_folder_that_cannot_be_written(ledger: Ledger, tmp_path: Path) -> None:
    """A file in the way is a sentence, not a traceback."""
    (tmp_path / "out").write_text("")
    with pytest.raises(StateError, match="cannot be written"):
        export_dir(ledger, tmp_path / "out")


def test_an_export_is_whole_or_not_there(
    ledger: Ledger, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The disk is full at the last file: none of the others is left."""
    full(ledger)
    real = Path.write_bytes

    def write(self: Path, data: bytes) -> int:
        if "entries" in self.name:
            raise OSError(28, "No space left on device")
        return real(self, data)

    monkeypatch.setattr(Path, "write_bytes", write)
    with pytest.raises(StateError, match="no space left"):
        export_dir(ledger, tmp_path / "out")
    assert [path for path in (tmp_path / "out").rglob("*") if path.is_file()] == []


def test_somebody_makes_records_meanwhile(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A first import that was overtaken by another one doubles nothing."""
    place = Place(tmp_path / "data")
    log = tmp_path / "log.csv"
    log.write_text("\n".join((HEADER, *ROWS)))
    real = Place.open

    def open_late(self: Place) -> Ledger:
        opened = real(self)
        if self == place and opened.position() == 0:
            import_log(opened, log, now=NOW, rng=CHANCE)
        return opened

    monkeypatch.setattr(Place, "open", open_late)
    assert take_in(place, log, now=NOW, rng=CHANCE).unchanged == 5


def test_somebody_writes_meanwhile(
    ledger: Ledger, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """An import that was overtaken looks again before it writes, so that nothing doubles."""
    real, overtaken = Ledger.append, list[int]()

    def append(self: Ledger, entries: object, *, only_at: int | None = None) -> object:
        if only_at is not None and not overtaken:
            overtaken.append(1)
            take(self, tmp_path, *ROWS)
        return real(self, entries, only_at=only_at)  # type: ignore[arg-type]  # passed on

    monkeypatch.setattr(Ledger, "append", append)
    assert take(ledger, tmp_path, *ROWS).unchanged == 5
    assert len(sets_from(ledger)[0]) == 5
