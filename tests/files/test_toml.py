"""TOML from people: the line of every key, and complaints that help."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Any, Literal

import pytest
import tomlkit
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import BeforeValidator, Field

from pennate.errors import InputError
from pennate.files.toml import (
    MAX_BYTES,
    Entry,
    checked,
    did_you_mean,
    field_name,
    nearest,
    read_toml,
    said,
)
from pennate.files.toml_lines import key_lines


def _no_dash_end(value: object) -> str:
    if str(value).endswith("-"):
        raise InputError(f"“{value}” has no end", remedy="write 8-12")
    return str(value)


class Row(Entry):
    """A small table for these tests."""

    reps: Annotated[str, BeforeValidator(said(_no_dash_end))] = Field(examples=["8-12"])
    kind: Literal["working", "top"] = "working"
    places: int | None = Field(default=None, examples=[3])


class Sheet(Entry):
    """Rows of a small file for these tests."""

    name: str = Field(examples=["My sheet"])
    row: list[Row] = Field(default_factory=list)


def _complaint(text: str) -> InputError:
    with pytest.raises(InputError) as caught:
        checked(Sheet, read_toml(text, name="sheet.toml"))
    return caught.value


def test_every_key_has_its_line() -> None:
    """Headers, dotted keys, arrays over lines and text over lines keep the count right."""
    text = '\na = """\nx\n"""\n[[row]]\nreps = "5"\n[row.more]\nb.c = [\n 1,\n 2]\n[[row]]\n'
    lines = key_lines(text)
    assert lines[("a",)] == 2
    assert lines[("row", 0, "reps")] == 6
    assert lines[("row", 0, "more", "b", "c", 1)] == 10
    assert lines[("row", 1)] == 11


_keys = st.text(alphabet="abcdefgh", min_size=1, max_size=6)
_texts = st.text(alphabet="a \"'\\\n#=[]{},é", max_size=8)
_scalars = st.one_of(st.integers(-9, 9), _texts, st.booleans())
_tables = st.recursive(
    st.dictionaries(_keys, _scalars, max_size=3),
    lambda inner: st.dictionaries(
        _keys, st.one_of(_scalars, inner, st.lists(inner, min_size=1, max_size=3)), max_size=4
    ),
    max_leaves=12,
)


def _paths(value: Any, path: tuple[str | int, ...] = ()) -> list[tuple[str | int, ...]]:
    if isinstance(value, dict):
        return [path] * bool(path) + [p for k, v in value.items() for p in _paths(v, (*path, k))]
    if isinstance(value, list):
        return [p for i, v in enumerate(value) for p in _paths(v, (*path, i))]
    return [path]


@settings(deadline=None)
@given(_tables)
def test_lines_found_hold_the_key(data: dict[str, Any]) -> None:
    """In whatever tomlkit (an independent writer) writes, the named line holds the key."""
    text = tomlkit.dumps(data)
    lines, written = key_lines(text), text.split("\n")
    for path in _paths(data):
        key = next(step for step in reversed(path) if isinstance(step, str))
        assert key in written[lines[path] - 1]


def test_unknown_key_offers_the_nearest() -> None:
    """A mistyped key is named with its line and the key that was probably meant."""
    assert str(_complaint('name = "x"\n[[row]]\nreps = "5"\nkidn = "top"\n')) == (
        "sheet.toml, line 4, row 1, kidn: unknown key “kidn”; did you mean “kind”?"
    )


def test_missing_key_points_at_its_table() -> None:
    """What is missing has no line of its own, so the table's line is named."""
    problem = _complaint('name = "x"\n[[row]]\nkind = "top"\n')
    assert (problem.where.line, problem.where.field) == (2, "row 1, reps")
    assert problem.remedy == 'add reps = "8-12"'


def test_a_mistyped_key_is_not_also_missing() -> None:
    """Where a required key is mistyped, the mistyped key is told, and only that."""
    problem = _complaint('name = "x"\n[[row]]\nrepz = "5"\n')
    assert (
        str(problem) == "sheet.toml, line 3, row 1, repz: unknown key “repz”; did you mean “reps”?"
    )


def test_wrong_type_shows_an_example() -> None:
    """A value of the wrong type is quoted, and a right one shown."""
    problem = _complaint('name = "x"\n[[row]]\nreps = "5"\nplaces = "many"\n')
    assert problem.where.line == 4
    assert problem.remedy == "write it like places = 3"


def test_unknown_word_offers_the_nearest() -> None:
    """A word outside a fixed list brings the nearest of the list."""
    problem = _complaint('name = "x"\n[[row]]\nreps = "5"\nkind = "workin"\n')
    assert (problem.what, problem.remedy) == (
        "“workin” is not a known kind",
        "did you mean “working”?",
    )


def test_own_readers_keep_their_words() -> None:
    """A reader's sentence and remedy reach the lifter with the line added."""
    problem = _complaint('name = "x"\n[[row]]\nreps = "8-"\n')
    assert str(problem) == ("sheet.toml, line 3, row 1, reps: “8-” has no end; write 8-12")


def test_first_of_several_is_told_with_the_count() -> None:
    """The topmost complaint is told, and how many follow."""
    problem = _complaint('name = 1\n[[row]]\nreps = "8-"\n')
    assert problem.where.line == 1
    assert problem.remedy.endswith("(and 1 more after this one)")


@pytest.mark.parametrize(
    ("text", "line", "says"),
    [
        ("name = 5-7\n", 1, 'put the text in quotes, as in name = "5-7"'),
        ('a = 1\nname = "x\n', 2, "not readable as TOML"),
        ('name = "x"\nname = "y"\n', 2, "written twice"),
        ("[a]\n[a]\n", 2, "written twice"),
        ("a = " + "[" * 5000, None, "nested too deeply"),
    ],
)
def test_broken_toml_names_the_line(text: str, line: int | None, says: str) -> None:
    """What is not TOML is one sentence with the line, never a traceback."""
    with pytest.raises(InputError) as caught:
        read_toml(text, name="x.toml")
    assert caught.value.where.line == line
    assert says in str(caught.value)


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b"", "the file is empty; copy an example"),
        (b"\n \n", "the file is empty"),
        ("name = 'é'".encode("latin-1"), "line 1: the file is not UTF-8 text"),
        ('name = "x"'.encode("utf-16"), "not UTF-8"),
        (b"#" * (MAX_BYTES + 1), "the file has 1.0 MB, but at most 1 MB is read"),
    ],
    ids=["empty", "blank", "latin-1", "utf-16", "huge"],
)
def test_wrong_files_are_refused(tmp_path: Path, content: bytes, says: str) -> None:
    """Empty, huge and wrongly encoded files each bring one clear sentence."""
    path = tmp_path / "sheet.toml"
    path.write_bytes(content)
    with pytest.raises(InputError, match=r"sheet\.toml") as caught:
        read_toml(path, when_empty="copy an example")
    assert says in str(caught.value)


def test_missing_file_is_told(tmp_path: Path) -> None:
    """A path that leads nowhere is the caller's mistake, told as such."""
    with pytest.raises(InputError, match=r"none.toml: the file cannot be read \(no such file"):
        read_toml(tmp_path / "none.toml")


def test_editors_marks_do_no_harm(tmp_path: Path) -> None:
    """A byte-order mark and Windows line ends are read as if they were not there."""
    path = tmp_path / "sheet.toml"
    path.write_bytes(b'\xef\xbb\xbfname = "x"\r\n[[row]]\r\nreps = "5"\r\n')
    file = read_toml(path)
    assert checked(Sheet, file).row[0].reps == "5"
    assert file.lines[("row", 0, "reps")] == 3


def test_nearest_prefers_shared_words() -> None:
    """Ids that share a whole word come before ids that merely share letters."""
    ids = ["back_squat_free", "half_squat", "hack_squat", "lat_pulldown", "bench_press"]
    assert nearest("back squat", ids)[0] == "back_squat_free"
    assert did_you_mean("zzzz", ids, "see the list") == "see the list"


def test_paths_read_as_words() -> None:
    """Places count from one, as people count."""
    assert field_name(("day", 1, "exercise", 0, "reps")) == "day 2, exercise 1, reps"
