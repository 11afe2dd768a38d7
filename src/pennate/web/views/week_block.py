"""Several weeks: what rises, week by week, and what is expected by the end."""

from __future__ import annotations

from dataclasses import dataclass

from pennate.app.book import Book
from pennate.app.week_block import BlockPlan, BlockWish, Following, following
from pennate.core.muscles import Group
from pennate.plan.block import FEWEST_WEEKS, MOST_WEEKS, Ramp
from pennate.web.views.week_plan import Choices

RAMP_WORDS = (
    (Ramp.EFFORT.value, "effort, nearer failure by week"),
    (Ramp.SETS.value, "sets, up to two more"),
    (Ramp.NONE.value, "nothing"),
)


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
                f"{100 * one.low:+.0f} to {100 * one.high:+.0f} %".replace("-", "−"),
            )
            for one in plan.strength
        ),
        now=following(book),
    )
