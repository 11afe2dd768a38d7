"""“70 % of the set before”: each of several sets is a share of the one just lifted."""

from __future__ import annotations

import itertools
from fractions import Fraction
from pathlib import Path

import pytest

from pennate.app.book import Book
from pennate.app.pass_on import passed
from pennate.app.record import Recorded, record
from pennate.app.response_sheet import prepare
from pennate.core.follow import Source, Typed, loads_for
from pennate.core.performed import SetKind
from pennate.core.quantities import Unit
from pennate.files.catalogue import read_catalogue
from tests.app.own_week import DAY, exercise, hard, kg, plan, stop_of

DROPS = (
    '{ kind = "top", reps = "8-12", load = "LOAD" }, { kind = "drop", sets = 3, reps = "8-15",'
    ' reserve = "fail", load = "70 % of the set before", rest = "0:10" }'
)


def _three(name: str, load: str, *more: str) -> str:
    return exercise(name, DROPS.replace("LOAD", load), *more)


@pytest.mark.parametrize(
    ("name", "load", "item", "asked"),
    [
        ("curl", "20 kg each", "dumbbells", [40, 28, 20, 14]),
        ("hip_thrust", "100 kg", "platform_bar", [100, 70, 50, 35]),
        ("leg_extension", "100 kg label", "leg_extension", [100, 70, 50, 35]),
    ],
)
def test_every_drop_is_a_share_of_the_set_before_it(
    empty_book: Book, tmp_path: Path, name: str, load: str, item: str, asked: list[float]
) -> None:
    """70, 49 and 34 % of the top set, as near as this gym can make them, not 70 % three times."""
    plan(empty_book, tmp_path, _three(name, load, f'equipment = "{item}"'))
    assert [kg(one) for one in hard(stop_of(empty_book, name))] == pytest.approx(asked)


def test_drops_left_open_fall_one_after_another(empty_book: Book, tmp_path: Path) -> None:
    """Without a written share every drop still takes its usual part off the one before."""
    sets = '{ reps = "8-12", load = "40 kg label" }, { kind = "drop", sets = 3, reps = "8-15" }'
    plan(empty_book, tmp_path, exercise("leg_extension", sets))
    loads = [kg(one) for one in hard(stop_of(empty_book, "leg_extension"))]
    assert all(later < before for before, later in itertools.pairwise(loads))


def test_a_drop_of_her_own_is_what_the_next_is_a_share_of(empty_book: Book, tmp_path: Path) -> None:
    """She strips more than was asked: the next drop is 70 % of that, whatever the top was."""
    plan(empty_book, tmp_path, _three("hip_thrust", "100 kg"))
    top, first, second, _ = hard(stop_of(empty_book, "hip_thrust"))
    kept = Recorded(load=Fraction(100), unit=Unit.KG, reps=8)
    hers = Recorded(load=Fraction(50), unit=Unit.KG, reps=8)
    for key, said in ((top.key, kept), (first.key, hers)):
        record(empty_book, empty_book.today, key, said, weekday=DAY)
    now = {one.key: kg(one) for one in hard(stop_of(empty_book, "hip_thrust"))}
    assert now[second.key] == 35


def test_a_changed_top_does_not_hide_the_drop_done_after_it(
    empty_book: Book, tmp_path: Path
) -> None:
    """After a lighter top and a drop of her own the next drop follows the drop."""
    plan(empty_book, tmp_path, _three("hip_thrust", "100 kg"))
    top, first, second, _ = hard(stop_of(empty_book, "hip_thrust"))
    for key, load in ((top.key, 90), (first.key, 50)):
        said = Recorded(load=Fraction(load), unit=Unit.KG, reps=8)
        record(empty_book, empty_book.today, key, said, weekday=DAY)
    now = {one.key: kg(one) for one in hard(stop_of(empty_book, "hip_thrust"))}
    assert now[second.key] == 35


def test_the_phone_takes_every_drop_of_the_one_before(empty_book: Book, tmp_path: Path) -> None:
    """On the sheet taken along each drop follows the one before it, step for step as here."""
    plan(empty_book, tmp_path, _three("hip_thrust", "100 kg"))
    prepared = prepare(empty_book, empty_book.today, DAY, substitutes=False)
    row = prepared.sheet.stops[0]
    felt = [step.felt_kg for step in prepared.steps[0]]
    _, first, second, third = row.blocks
    assert (second.of, third.of) == (first.block, second.block)
    for before, drop in ((first, second), (second, third)):
        assert felt[drop.follows[before.held]] == felt[drop.held]
        at_fifty = felt[drop.follows[felt.index(50.0)]]
        assert at_fifty == pytest.approx(35, abs=2.5)


def test_a_follower_is_told_every_drop_by_itself(empty_book: Book, tmp_path: Path) -> None:
    """From 125 kg lifted 8 times: three falling loads on the page, one line on paper."""
    plan(empty_book, tmp_path, _three("hip_thrust", "100 kg"))
    week = empty_book.week()
    assert week is not None
    told = passed(week, read_catalogue())
    option = next(day for day in told.days if not day.rest).stops[0].exercises[0].asked
    drops = [group for group in option.groups if group.kind is SetKind.DROP]
    assert [group.count for group in drops] == [1, 1, 1]
    assert option.follow
    typed = Typed(load=125_000, reps=8, lightest=20_000, step=2_500)
    loads = loads_for(option.follow, typed, told.curves)
    found = [loads[group.number] for group in option.groups]
    lifted = [one.load for one in found if one and one.load]
    for before, after in itertools.pairwise(lifted):
        assert 0 <= before * 7 // 10 - after < 2_500
    assert [option.follow.groups[one.number].source for one in drops] == [Source.OF] * 3
    assert [one.short for one in option.told if one.kind is SetKind.DROP] == [
        "drop 3 × 8–15, to failure, 70 % of the one before, 10 s after the set before"
    ]
