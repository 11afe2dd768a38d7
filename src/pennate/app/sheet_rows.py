"""The rows of a response sheet, as they travel: plain JSON, described once."""

from __future__ import annotations

from datetime import date

from pydantic import BaseModel


class Rung(BaseModel):
    """One loadable load of an item: what is felt without body mass, and how it is written."""

    felt: float
    amount: str
    unit: str
    reading: str


class BlockRow(BaseModel):
    """How the load of one block is found once today has spoken."""

    block: int
    held: int
    """The step it holds unless its sets speak against it."""
    most: int
    """The heaviest step to go to at once."""
    of: int | None = None
    """The block whose load it follows by a share; None where the forecast decides."""
    follows: list[int] = []
    """For each step of that block, the step of this one."""
    spare: int = 0
    """The step to go to when a joint hurts."""
    fixed: bool = False
    """As written: no result changes it."""


class SetRow(BaseModel):
    """One set to come."""

    key: str
    block: int
    rung: int | None
    """Step planned for it; None where there is no load to choose."""
    seconds: float
    """From the end of the set before to the end of this one."""
    expected: float | None = None
    """Mean reps to failure at the planned load."""
    curve: list[float] = []
    """The same at each step of the item."""
    spread: tuple[float, float, float] = (0.0, 0.0, 0.0)
    """From the mean to the 10 %, 50 % and 90 % points."""
    stops_at: list[tuple[float, float]] = []
    """Capacity to reps done: stopped where range and reserve say."""
    lower_below: float | None = None
    """Expected reps below which the load is too heavy."""
    raise_from: float | None = None
    """Expected reps from which it is too light."""
    enough: float | None = None
    """Expected reps a load must leave to be chosen anew."""
    sure: float | None = None
    """The same for the first set of a block, which is surer."""
    silent: dict[str, list[float]] = {}
    """By later set: shift for reps over or under, nothing said about reserve."""
    said: dict[str, list[float]] = {}
    """By later set: shift for reps and reserve together over or under."""
    as_asked: dict[str, float] = {}
    """By later set: shift when it is closed as asked."""


class StopRow(BaseModel):
    """One exercise: the steps of its item, its blocks and its sets."""

    index: int
    rungs: list[Rung]
    blocks: list[BlockRow]
    sets: list[SetRow]


class GivenUp(BaseModel):
    """Sets given up together: both sides, and the drops that hang on them."""

    keys: list[str]


class Between(BaseModel):
    """Reps by which the sets of `stop` fall when all of `before` is done before it."""

    stop: int
    before: int
    shift: float


class ResponseSheet(BaseModel):
    """All rows of a session; `knots` are the surprises the shifts are given for."""

    day: date
    weekday: str
    knots: list[float]
    changeover_s: float
    stops: list[StopRow]
    instead: dict[int, list[StopRow]]
    """Two substitutes for each stop, with rows of their own."""
    give_up: list[GivenUp]
    """Sets in the order they are given up for lack of time, least worth a minute first."""
    order: list[Between]
