"""Nothing is planned or offered where there is nothing to hang from, lie on or step on."""

from __future__ import annotations

from dataclasses import replace

import pytest

from pennate.app.gym_page import FLOOR
from pennate.app.gyms import STARTER_ORDER, starter_gym, with_fixtures, without_item
from pennate.app.planning import impossible_in, possible_in
from pennate.app.stops import items_for
from pennate.core.exercise import EVERY_FIXTURE, EquipmentKind, Fixture
from pennate.core.gym import BodyWeight, Gym
from pennate.errors import InputError
from pennate.files.catalogue import read_catalogue
from pennate.files.gym import read_gym
from pennate.files.gym_text import render_gym

KNOWN = read_catalogue()
NEEDED = {
    "chin_up": Fixture.CHIN_UP_BAR,
    "pull_up": Fixture.CHIN_UP_BAR,
    "hanging_leg_raise": Fixture.CHIN_UP_BAR,
    "dead_hang": Fixture.CHIN_UP_BAR,
    "inverted_row": Fixture.LOW_BAR,
    "dip": Fixture.DIP_BARS,
    "rear_foot_elevated_split_squat": Fixture.BENCH,
    "step_up": Fixture.BOX,
    "nordic_curl": Fixture.FOOT_ANCHOR,
    "back_extension": Fixture.BACK_BENCH,
    "wheel_rollout": Fixture.AB_WHEEL,
}
"""Common practice: what each of these cannot be done without at body weight."""
FLOOR_ONLY = Gym(id="room", name="A room", items=(FLOOR,), fixtures=())


@pytest.mark.parametrize(("exercise", "fixture"), NEEDED.items())
def test_an_exercise_is_possible_with_what_it_needs_and_not_without(
    exercise: str, fixture: Fixture
) -> None:
    """Common practice: no chin-up without a bar to hang from, no dip without dip bars."""
    assert not items_for(FLOOR_ONLY, KNOWN[exercise])
    assert items_for(replace(FLOOR_ONLY, fixtures=(fixture,)), KNOWN[exercise])


def test_a_gym_that_says_nothing_has_them_all() -> None:
    """Gym files written before there was such a list allow what they allowed."""
    gym = replace(FLOOR_ONLY, fixtures=None)
    assert gym.has == EVERY_FIXTURE
    assert all(items_for(gym, KNOWN[exercise]) for exercise in NEEDED)


def test_what_is_made_for_an_exercise_is_what_it_needs() -> None:
    """A bar that is there for chin-ups needs no second mention."""
    bar = BodyWeight(id="bar", name="Bar", kind=EquipmentKind.BODY_WEIGHT, serves=("chin_up",))
    gym = replace(FLOOR_ONLY, items=(bar, FLOOR))
    assert items_for(gym, KNOWN["chin_up"]) == (bar,)
    assert not items_for(gym, KNOWN["pull_up"])


def test_a_hotel_room_with_bands_has_nothing_to_hang_from() -> None:
    """Common practice: on a trip with bands one rows and pulls down, and does not hang."""
    travel = possible_in(starter_gym("travel"), KNOWN)
    assert travel is not None
    assert not travel & {"chin_up", "pull_up", "hanging_leg_raise", "dip", "back_extension"}
    assert {"push_up", "lat_pulldown", "face_pull", "romanian_deadlift", "step_up"} <= travel


def test_bands_that_take_load_off_are_no_pulldown() -> None:
    """A loop on the chin-up bar helps with chin-ups; it cannot make a lat pulldown heavy."""
    home = impossible_in(starter_gym("home"), KNOWN)
    assert {"lat_pulldown", "face_pull", "leg_extension"} <= home
    assert not home & {"chin_up", "nordic_curl", "push_up", "rear_foot_elevated_split_squat"}


@pytest.mark.parametrize("gym_id", STARTER_ORDER)
def test_every_starter_says_what_it_has_and_reads_back(gym_id: str) -> None:
    """Written to a file and read, a gym has the same to hang from and lie on."""
    gym = starter_gym(gym_id)
    assert gym.fixtures
    assert read_gym(render_gym(gym)) == gym
    assert without_item(gym, gym.items[0].id).fixtures == gym.fixtures


def test_having_none_is_not_having_said_nothing() -> None:
    """An empty list survives the file: a bare room stays bare."""
    assert read_gym(render_gym(FLOOR_ONLY)).fixtures == ()
    assert with_fixtures(FLOOR_ONLY, ["bench", "chin-up bar"]).fixtures == (
        Fixture.CHIN_UP_BAR,
        Fixture.BENCH,
    )


def test_a_mistyped_fixture_gets_one_sentence() -> None:
    """The line, the slip and the nearest word."""
    with pytest.raises(InputError, match="chin-up bar"):
        read_gym('fixtures = ["chinup bar"]\n[[bar]]\nid = "bar"\nmass = 20\n')
