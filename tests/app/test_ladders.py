"""The way to the unassisted rep: where she stands, and when the next rung is due."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction

import pytest

from pennate.app.book import Book
from pennate.app.card_text import card_lines
from pennate.app.exercise_view import exercise_view
from pennate.app.gyms import starter_gym
from pennate.app.ladders import Climb, LadderStanding, ladder_for, ladder_of
from pennate.app.today import card_for
from pennate.core.card import Card
from pennate.core.gym import Gym
from pennate.core.performed import PerformedSet
from pennate.core.prescribed import (
    LadderStep,
    LoadFrom,
    LoadRule,
    PlannedDay,
    PrescribedExercise,
    PrescribedSets,
    Span,
    Week,
)
from pennate.core.profile import Profile
from pennate.core.quantities import LoadReading, Mass, Unit
from pennate.files.catalogue import read_catalogue

LARGE, HOME = starter_gym("commercial_kg"), starter_gym("home")
DAY = date(2026, 3, 3)
SETS = (PrescribedSets(count=3, reps=Span(6, 8)),)
CHIN = PrescribedExercise(exercise="chin_up", sets=SETS, equipment="assisted_chin")
MASS = Fraction(60)
SHARE = 0.9612
"""All but forearms and hands, women: segment masses of de Leva 1996 (2403/2500)."""


def done(
    reps: Sequence[int], load: str | None, day: date = DAY, **more: object
) -> list[PerformedSet]:
    """One session of an exercise with help, as a label with a minus."""
    values: dict[str, object] = {"exercise": "chin_up", "equipment": "assisted_chin", **more}
    return [
        PerformedSet(
            id=f"{day}-{number}", when=day, session="tuesday", number=number, reps=count,
            load=None if load is None else Fraction(load), unit=None if load is None else Unit.KG,
            reading=LoadReading.LABEL,
            **values,  # type: ignore[arg-type] # a test table, checked by the dataclass at run time
        )
        for number, count in enumerate(reps, start=1)
    ]  # fmt: skip


def standing(
    asked: PrescribedExercise,
    sets: Sequence[PerformedSet],
    gym: Gym = LARGE,
    item: str = "assisted_chin",
) -> LadderStanding:
    """Where she stands with these sets behind her."""
    profile = Profile(female=True, body_mass_kg=MASS)
    climb = Climb(catalogue=read_catalogue(), gym=gym, profile=profile, done=sets)
    found = ladder_of(asked, gym.item(item), climb)
    assert found
    return found


def test_the_machine_s_ladder_goes_from_most_help_to_none() -> None:
    """5 kg steps of help down to none; what is left is her share of 60 kg less the help."""
    found = standing(CHIN, done([8, 7, 6], "-20"))
    assert found.rungs[-1] == "no help at all"
    assert found.at is not None
    left = SHARE * 60 - 20
    here = f"20 kg of help, {left:.0f}"
    assert found.rungs[found.at].startswith(here)
    assert "15 kg of help" in found.rungs[found.at + 1]


def test_the_next_rung_waits_for_every_set() -> None:
    """Two of three sets at the top of the range are not all of them."""
    found = standing(CHIN, done([8, 8, 7], "-20"))
    assert not found.due
    assert "when every set reaches 8; last time 8, 8, 7." in found.lines[1]
    assert found.brief.endswith("; 15 kg of help when every set reaches 8")


def test_the_next_rung_is_due() -> None:
    """Every set reached the top of the range: less help now."""
    found = standing(CHIN, done([8, 9, 8], "-20"))
    assert found.due
    assert found.lines[1].startswith("Due now: 15 kg of help")
    assert found.brief.endswith("; due now: 15 kg of help")


def test_only_the_last_session_counts() -> None:
    """An older session on another rung does not hold her there."""
    sets = [*done([8, 8], "-30", DAY - timedelta(days=7)), *done([5, 4], "-15")]
    found = standing(CHIN, sets)
    assert found.at is not None
    assert found.rungs[found.at].startswith("15 kg of help")
    assert found.last == (5, 4)


def test_before_the_first_set_it_says_where_it_begins() -> None:
    """Without a set there is no rung of hers."""
    found = standing(CHIN, [])
    assert found.at is None
    assert found.lines == (f"Your ladder begins with {found.rungs[0]}.",)


def test_no_help_left_is_the_last_rung() -> None:
    """Sets without help stand at the end."""
    found = standing(CHIN, done([5, 5], None, equipment="chin_up_bar"))
    assert found.at == len(found.rungs) - 1
    assert found.lines[1] == "The last rung; last time 5, 5."
    assert found.brief.endswith(", the last")


def _climbing(asked: PrescribedExercise, item: str) -> list[LadderStanding]:
    """Where she stands with every help from 5 to 45 kg in turn."""
    return [
        standing(asked, done([8], f"-{kg}", equipment=item), HOME, item) for kg in range(5, 50, 5)
    ]


def test_bands_say_how_unsure_they_are() -> None:
    """Bands overlap, so a rung that is not surely harder says how likely it is."""
    helping = next(item for item in HOME.items if item.id == "helping_bands")
    asked = replace(CHIN, equipment=helping.id)
    spread = standing(asked, done([8], "-30", equipment=helping.id), HOME, helping.id)
    assert any("±" in words for words in spread.rungs)
    assert any("probability" in spread_at.lines[1] for spread_at in _climbing(asked, helping.id))
    assert spread.rungs[-1] == "no help at all"


OWN = replace(
    CHIN,
    ladder=(
        LadderStep(exercise="lat_pulldown", until=Span(12, 12)),
        LadderStep(load=LoadRule(LoadFrom.FIXED, mass=Mass.kg(-20)), until=Span(8, 8)),
        LadderStep(style="slow_lowering", until=Span(5, 5)),
        LadderStep(load=LoadRule(LoadFrom.BODY_WEIGHT)),
    ),
)


@pytest.mark.parametrize(
    ("sets", "rung", "due"),
    [
        (done([12, 12], "40", exercise="lat_pulldown", equipment="pulldown"), 0, True),
        (done([8, 7], "-15"), 1, False),
        (done([8, 8], "-20"), 1, True),
        (done([5, 5], "-25", style="slow_lowering"), 2, True),
        (done([6, 5], None, equipment="chin_up_bar"), 3, False),
        (done([3, 2], None, equipment="chin_up_bar"), None, False),
    ],
)
def test_her_own_ladder_wins(sets: list[PerformedSet], rung: int | None, due: bool) -> None:  # noqa: FBT001 # a column of the table
    """The written rungs, whatever the gym's help could give; a try short of the low end is none."""
    found = standing(OWN, sets)
    assert found.own
    assert len(found.rungs) == 4
    assert (found.at, found.due) == (rung, due)


def test_more_help_than_written_is_no_rung() -> None:
    """With more help than the easiest written rung she has not begun it."""
    assert standing(OWN, done([8], "-40")).at is None


def test_a_step_of_a_ladder_finds_it() -> None:
    """The page of an easier exercise shows the ladder it is on."""
    week = Week(name="mine", days=(PlannedDay(day="Tuesday", exercises=(OWN,)),), gym=LARGE.id)
    climb = Climb(catalogue=read_catalogue(), gym=LARGE, profile=Profile(), done=())
    found = ladder_for(week, "lat_pulldown", "pulldown", climb)
    assert found
    assert found.own
    assert ladder_for(week, "crunch", "floor", climb) is None
    assert ladder_for(None, "chin_up", "assisted_chin", climb) is None


def test_without_help_there_is_no_ladder() -> None:
    """Body weight alone, or an exercise that moves no body mass, has none to climb."""
    climb = Climb(catalogue=read_catalogue(), gym=LARGE, profile=Profile(), done=())
    assert ladder_of(CHIN, LARGE.item("chin_up_bar"), climb) is None
    curl = replace(CHIN, exercise="curl", equipment="")
    assert ladder_of(curl, LARGE.item("dumbbells"), climb) is None


def test_the_exercise_page_and_the_card_show_it(demo_book: Book) -> None:
    """A week that asks for help shows the way up on the page of the exercise."""
    week, gym = demo_book.week(), demo_book.gym()
    assert week
    assert gym
    helper = next(item for item in gym.items if item.kind.value == "assisted machine")
    asked = replace(CHIN, equipment=helper.id)
    days = (replace(week.days[0], exercises=(asked,)), *week.days[1:])
    demo_book.save_week(replace(week, days=days))
    view = exercise_view(demo_book, "chin_up", helper.id)
    assert view.ladder
    assert "of help" in view.ladder.rungs[0]
    card = card_for(demo_book, demo_book.today, weekday=week.days[0].day)
    assert isinstance(card, Card)
    assert card.stops[0].ladder == view.ladder.brief
    assert view.ladder.brief in "\n".join(card_lines(card))
