"""The gym file: starters, round trip, and complaints that name the line."""

from __future__ import annotations

from fractions import Fraction
from importlib.resources import files

import jsonschema_rs
import pytest
import tomlkit
from hypothesis import given, settings
from hypothesis import strategies as st

from pennate.core.exercise import EquipmentKind
from pennate.core.gym import Bar, Gym, Ladder, Plate, Sled, Stack
from pennate.core.quantities import Mass, Unit
from pennate.errors import InputError
from pennate.files.gym import gym_from, read_gym
from pennate.files.gym_text import gym_values, render_gym
from pennate.files.schema import SCHEMAS

STARTERS = sorted(
    path.name for path in (files("pennate") / "data" / "gyms").iterdir() if path.is_file()
)


def starter(name: str) -> Gym:
    text = (files("pennate") / "data" / "gyms" / name).read_text(encoding="utf-8")
    return read_gym(text, name=name)


@pytest.mark.parametrize("name", STARTERS)
def test_starters_read_and_write_back(name: str) -> None:
    """Each starter gym is valid and survives writing, as a file and as form values."""
    gym = starter(name)
    assert gym.items
    assert read_gym(render_gym(gym)) == gym
    assert gym_from(gym_values(gym)) == gym


EXAMPLE = (files("pennate") / "data" / "examples" / "gym.toml").read_text(encoding="utf-8")


def test_the_shipped_example_reads_and_survives() -> None:
    """The example is a valid gym, to our reader and to the schema, and writes back."""
    gym = read_gym(EXAMPLE, name="gym.toml")
    assert read_gym(render_gym(gym)) == gym
    jsonschema_rs.validate(SCHEMAS["gym"](), tomlkit.parse(EXAMPLE).unwrap())


def keys_in(value: object) -> set[str]:
    """Every key of every table."""
    if isinstance(value, dict):
        return set(value).union(*(keys_in(one) for one in value.values()))
    return set().union(*(keys_in(one) for one in value)) if isinstance(value, list) else set()


def test_the_shipped_example_shows_every_key() -> None:
    """No key that the schema knows is missing from the example."""
    schema = SCHEMAS["gym"]()
    known = set(schema["properties"]).union(*(d["properties"] for d in schema["$defs"].values()))
    assert keys_in(tomlkit.parse(EXAMPLE).unwrap()) == known


@pytest.mark.parametrize("name", STARTERS)
def test_starters_satisfy_the_published_schema(name: str) -> None:
    """An independent validator accepts each starter file by the published schema."""
    text = (files("pennate") / "data" / "gyms" / name).read_text(encoding="utf-8")
    jsonschema_rs.validate(SCHEMAS["gym"](), tomlkit.parse(text).unwrap())


def test_the_contract_example_reads() -> None:
    """The keys that outsiders rely on are enough on their own."""
    gym = read_gym(
        '[[bar]]\nid = "bar"\nmass = 20\nunit = "kg"\n'
        '[[plate]]\nmass = 2.5\nunit = "lb"\npairs = 2\n'
        '[[stack]]\nid = "row"\nstart = 5\nstep = 2.5\nunit = "kg"\nratio = 0.5\n'
    )
    assert gym.item("bar") == Bar(
        id="bar", name="Bar", kind=EquipmentKind.BARBELL, mass=Mass.kg(20)
    )
    assert gym.plates == (Plate(Mass.lb("2.5"), 2),)
    row = gym.item("row")
    assert isinstance(row, Stack)
    assert row.ratio == Fraction(1, 2)


@pytest.mark.parametrize("written", ["0.5", '"1/2"', '"2:1"', "2", '"0,5"'])
def test_a_pulley_of_two_to_one_halves_the_stack(written: str) -> None:
    """Every usual way to write a 2:1 pulley means half of the label at the hand."""
    gym = read_gym(f'[[cable]]\nid = "c"\nstart = 5\nstep = 5\nratio = {written}\n')
    cable = gym.item("c")
    assert isinstance(cable, Stack)
    assert cable.ratio == Fraction(1, 2)


def test_ranges_of_masses_are_spelled_out() -> None:
    """“12-16 by 2” is 12, 14, 16; single masses may stand beside ranges."""
    gym = read_gym('[[dumbbells]]\nid = "d"\nmasses = ["12-16 by 2", 22.5]\n')
    dumbbells = gym.item("d")
    assert isinstance(dumbbells, Ladder)
    assert dumbbells.masses == tuple(Mass.kg(mass) for mass in ("12", "14", "16", "22.5"))


def test_decimals_are_exact() -> None:
    """A mass of 0.1 is a tenth, not the nearest binary number."""
    gym = read_gym("[[plate]]\nmass = 0.1\npairs = 1\n")
    assert gym.plates[0].mass.amount == Fraction(1, 10)


@pytest.mark.parametrize("unit", ["lb", "lbs", "Pounds"])
def test_units_as_they_are_spelt(unit: str) -> None:
    """A gym file takes every spelling that a log does."""
    gym = read_gym(f'[[plate]]\nmass = 45\nunit = "{unit}"\npairs = 2\n')
    assert gym.plates[0].mass == Mass.lb(45)


BAD = {
    "a word for a mass": ('[[bar]]\nid = "b"\nmass = "heavy"\n', "line 3", "heavy"),
    "no mass": ('[[bar]]\nid = "b"\n', "line 1", "mass"),
    "an unknown unit": ('[[bar]]\nid = "b"\nmass = 20\nunit = "kk"\n', "line 4", "kg"),
    "a negative mass": ('[[bar]]\nid = "b"\nmass = -20\n', "line 3", "-20"),
    "an unknown key": ('[[bar]]\nid = "b"\nmas = 20\n', "line", "mas"),
    "an id twice": (
        '[[bar]]\nid = "b"\nmass = 20\n[[stack]]\nid = "b"\nstart = 5\nstep = 5\n',
        "line 5",
        "twice",
    ),
    "a step of nothing": ('[[stack]]\nid = "s"\nstart = 5\nstep = 0\n', "line 4", "0"),
    "a top below the start": (
        '[[stack]]\nid = "s"\nstart = 50\nstep = 5\ntop = 5\n',
        "line 5",
        "top",
    ),
    "an endless stack": (
        '[[stack]]\nid = "s"\nstart = 0\nstep = 0.01\ntop = 100\n',
        "line 4",
        "pin places",
    ),
    "a backward range": ('[[dumbbells]]\nid = "d"\nmasses = ["5-3 by 1"]\n', "line 3", "5-3"),
    "half a pair": ("[[plate]]\nmass = 20\npairs = 2.5\n", "line 3", "2.5"),
    "not a number": ("[[plate]]\nmass = nan\n", "line 2", "nan"),
    "a steep sled": ('[[sled]]\nid = "s"\nmass = 40\nangle = 120\n', "line 4", "120"),
    "an impossible pulley": (
        '[[cable]]\nid = "c"\nstart = 5\nstep = 5\nratio = "100:1"\n',
        "line 5",
        "100:1",
    ),
    "nothing at all": ("# empty\n", "line 1", "nothing"),
}


@pytest.mark.parametrize("case", BAD)
def test_complaints_name_line_and_slip(case: str) -> None:
    """A wrong file is refused in one sentence with its line and what is wrong there."""
    text, line, slip = BAD[case]
    with pytest.raises(InputError) as caught:
        read_gym(text, name="gym.toml")
    sentence = str(caught.value)
    assert "gym.toml" in sentence
    assert line in sentence
    assert slip in sentence
    assert "\n" not in sentence


positive = st.fractions(min_value=Fraction(1, 100), max_value=500, max_denominator=400)
masses = st.builds(Mass, positive, st.sampled_from(Unit))
plates = st.builds(
    Plate,
    masses,
    st.integers(0, 20),
    st.none() | st.integers(50, 800),
    st.booleans(),
    st.none() | st.integers(1, 200),
)


@settings(max_examples=100, deadline=None)
@given(
    plates=st.lists(plates, max_size=6),
    bar=masses,
    picks=st.lists(masses, min_size=1, max_size=6),
    angle=st.none() | st.integers(1, 90).map(Fraction),
    name=st.text(min_size=1, max_size=30).filter(lambda text: text.strip() == text),
)
def test_any_gym_survives_its_file(
    plates: list[Plate], bar: Mass, picks: list[Mass], angle: Fraction | None, name: str
) -> None:
    """Writing a gym and reading it back loses nothing, whatever its masses and names."""
    gym = Gym(
        id="g",
        name=name,
        plates=tuple(plates),
        items=(
            Bar(id="b", name=name, kind=EquipmentKind.BARBELL, mass=bar),
            Ladder(
                id="d",
                name="Dumbbells",
                kind=EquipmentKind.DUMBBELLS,
                masses=tuple(sorted(set(picks))),
            ),
            Sled(id="s", name="Sled", kind=EquipmentKind.SLED, mass=bar, angle_deg=angle),
        ),
    )
    assert read_gym(render_gym(gym)) == gym
