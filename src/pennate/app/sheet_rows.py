"""The rows of a response sheet, as they travel: plain JSON, described once."""

from __future__ import annotations

from datetime import date

from pydantic import BaseModel


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
    guessed: bool = False
    """A first guess: what today shows counts more than holding on to it."""


class Limits(BaseModel):
    """Loads against strength, in thousandths of a logarithm: to be shifted as strength is."""

    heavy: int
    """Above it the low end has become unlikely."""
    enough: int
    """Up to it the low end is as likely as not."""
    sure: int
    """Up to it the low end is likely enough for the first set of a block."""
    light: int | None = None
    """Down from it the top is passed; None where there is no top."""
    passed: int | None = None
    """Down from it the top is as likely passed as not: the next time a step more is due."""


class SetRow(BaseModel):
    """One set to come."""

    key: str
    block: int
    rung: int | None
    """Step planned for it; None where there is no load to choose."""
    spare: int = 0
    """The step a warm-up or test set goes to when a joint hurts; a block says it for its sets."""
    seconds: float
    """From the end of the set before to the end of this one."""
    expected: float | None = None
    """Mean reps to failure at the planned load."""
    gap: int = 0
    """Planned load against strength, in thousandths of a logarithm."""
    spread: tuple[float, float, float] = (0.0, 0.0, 0.0)
    """From the mean to the 10 %, 50 % and 90 % points."""
    learned_spread: tuple[float, float, float] | None = None
    """The same once sets of this exercise were logged, where that differs."""
    stops_at: list[tuple[float, float]] = []
    """Capacity to reps done: stopped where range and reserve say."""
    short: int | None = None
    """Reps at or below which a set near failure shows that its load was too heavy."""
    limits: Limits | None = None
    learned: Limits | None = None
    """The same once sets of this exercise were logged, where that differs."""
    silent: dict[str, list[int]] = {}
    """By later set, and for the next time: shift of strength for reps over or under, nothing said
    about reserve."""
    said: dict[str, list[int]] = {}
    """By later set: shift for reps and reserve together over or under."""
    as_asked: dict[str, int] = {}
    """By later set: shift when it is closed as asked."""
    missed: float = 1.0
    """How many times as far strength falls where a rep was tried and missed."""


class StopRow(BaseModel):
    """One exercise: the steps of its item, its blocks and its sets."""

    index: int
    loads: list[int]
    """Logarithm of the whole felt load of each step, in thousandths."""
    gaps: list[int]
    """Loads against strength at which `reps` are given, ascending."""
    reps: list[float]
    """Mean reps to failure there."""
    blocks: list[BlockRow]
    sets: list[SetRow]
    short: list[str] = []
    """Ramp sets that a session short of time goes without."""


class GivenUp(BaseModel):
    """Sets given up together: both sides, and the drops that hang on them."""

    keys: list[str]
    worth: float
    """What that costs, in √sets of the week's worth."""


class Between(BaseModel):
    """Strength, in thousandths of a logarithm, that `before` takes from `stop` after it."""

    stop: int
    before: int
    shift: int


class ResponseSheet(BaseModel):
    """All rows of a session; `knots` are the surprises the shifts are given for."""

    day: date
    weekday: str
    knots: list[float]
    changeover_s: float
    prepare_s: float
    """Preparation without load before the first stop."""
    pace: float
    """How long her sessions take against these seconds."""
    short_sleep: int
    """What a short night takes from strength, in thousandths of a logarithm; below nought."""
    stops: list[StopRow]
    instead: dict[int, list[StopRow]]
    """Two substitutes for each stop, with rows of their own."""
    give_up: list[list[GivenUp]]
    """Sets in the orders they are given up for lack of time; the one that costs less is taken."""
    order: list[Between]
