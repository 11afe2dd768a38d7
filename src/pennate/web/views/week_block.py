"""Several weeks: what rises, week by week, and what is expected by the end."""

from __future__ import annotations

from dataclasses import dataclass

from pennate.app.book import Book
from pennate.app.minutes_told import minutes_facts
from pennate.app.week_block import BlockPlan, BlockWish, Following, following
from pennate.core.facts import Facts
from pennate.core.muscles import Group
from pennate.core.percent import signed_span
from pennate.plan.block import FEWEST_WEEKS, MOST_WEEKS, Ramp
from pennate.web.views.effect_opened import effect_facts, hard_sets_facts
from pennate.web.views.week_plan import Choices

RAMP_WORDS = (
    (Ramp.EFFORT.value, "effort, nearer failure by week"),
    (Ramp.SETS.value, "sets, up to two more"),
    (Ramp.NONE.value, "nothing"),
)
IN_TABLE = "of each week the sum of its days, each rounded as on the Week page"


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockRow:
    """One week of the block."""

    name: str
    sets: str
    reserve: str
    time: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockView:
    """The block's form and what the chosen block comes to."""

    weeks: int
    ramp: str
    lighter: bool
    counts: Choices
    ramps: Choices
    note: str
    rows: tuple[BlockRow, ...]
    size: Choices
    nothing: bool
    """Whether no muscle is expected to differ from repeating the week."""
    strength: Choices
    week_facts: Facts
    """What the figures of a week are made of."""
    effect_facts: Facts
    now: Following | None


def block_view(book: Book, plan: BlockPlan, wish: BlockWish) -> BlockView:
    """The page of a block."""
    names = book.catalogue.exercises
    size = [
        (group.value, plan.expected[group].words) for group in Group if plan.expected[group].shows
    ]
    return BlockView(
        weeks=wish.weeks,
        ramp=wish.ramp.value,
        lighter=wish.lighter,
        counts=tuple((str(n), f"{n} weeks") for n in range(FEWEST_WEEKS, MOST_WEEKS + 1)),
        ramps=RAMP_WORDS,
        note=plan.note,
        rows=tuple(
            BlockRow(
                name=f"{one.number}{', lighter' if one.lighter else ''}",
                sets=f"{one.sets:.0f}",
                reserve=one.reserve,
                time=f"{round(one.minutes) // 60}:{round(one.minutes) % 60:02d}",
            )
            for one in plan.weeks
        ),
        size=tuple(size),
        nothing=not size,
        strength=tuple(
            (
                names[one.exercise].name,
                f"{signed_span(100 * one.low, 100 * one.high)} %",
            )
            for one in plan.strength
        ),
        week_facts=(*hard_sets_facts(), *minutes_facts(IN_TABLE, "", plan.pace)),
        effect_facts=effect_facts(),
        now=following(book),
    )
