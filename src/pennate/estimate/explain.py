"""Which sets moved an estimate, and by how much: by refitting without what each of them showed.

Stated influence is therefore exact. The set itself stays done, with its time and what it tired:
were it gone from the log, the next set would seem to follow hard upon the one before, and be
read as a feat. A log is replayed once, with copies of the model on the way; leaving out what a
set showed goes on from the model as it was just before it.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import takewhile
from typing import TYPE_CHECKING, NamedTuple

from pennate.core.history import History
from pennate.core.load_words import done_load_words, lacks_load
from pennate.core.percent import percent, signed_percent
from pennate.core.performed import Effort, SetKind
from pennate.core.plural import plural
from pennate.estimate.exposure import Exposure, ExposureReader, Outcome, Person, outcome_of
from pennate.estimate.look import believed_load
from pennate.estimate.model import StrengthModel
from pennate.estimate.steps import SURE, give_words

if TYPE_CHECKING:
    from pennate.core.exercise import Catalogue
    from pennate.core.felt import Carrier
    from pennate.core.performed import PerformedSet

TOLD_FROM = 0.0005  # number: relative change from which one is not printed as 0.0 %

_COPY_EVERY = 250  # number: sets; going on from a copy costs a fiftieth of a second on average
_MOST_REFITTED = 6000  # number: sets taken in anew for one answer, about a second
_LEAST_TRIED = 3  # number: sets left out in any case, however much was logged since
_NARROW = 0.01  # number: less is not told in whole per cent
_AS_WIDE = 0.995  # number: what rounds to the whole of the range

_LEFT = {
    Effort.FAIL: "one more missed",
    Effort.NONE_LEFT: "none left",
    Effort.SIX_UP: "6 or more left",
}


@dataclass(frozen=True, slots=True)
class Influence:
    """One set and what it did: the estimate with it over the estimate without it, less one."""

    done: PerformedSet
    moved: float
    in_sd: float

    @property
    def told(self) -> bool:
        """Whether it moved the estimate by enough to be told as a number."""
        return abs(self.moved) >= TOLD_FROM

    @property
    def words(self) -> str:
        """The set with its load, and which way it moved the estimate."""
        return self.words_on("")

    def words_on(self, item: str) -> str:
        """The same with the name of the item it was done on, where that is another one."""
        return f"{_set_words(self.done)}{f' on {item}' if item else ''}{self._moved()}"

    def _moved(self) -> str:
        if not self.told:
            return " moved it by less than 0.1 %"
        return f" {'raised' if self.moved > 0 else 'lowered'} it by {percent(abs(self.moved), 1)}"


@dataclass(frozen=True, slots=True)
class Explanation:
    """Why an estimate is what it is.

    `prior_share` is the part of the prior's variance that the log has not removed, from 0
    (the log alone speaks) to 1 (nothing is known but the prior). `day` is what the last
    session with the exercise, on `last`, was off the usual: mean and SD on log strength.
    """

    one_rep_kg: float
    sd_log: float
    sets_behind: int
    prior_share: float
    day: tuple[float, float] | None
    last: date | None
    influences: tuple[Influence, ...]

    @property
    def words(self) -> str:
        """The prior's part, the day, and the set that moved it most."""
        told = [self.rests_on, self.day_told]
        if self.influences and self.influences[0].told:
            told.append(f"Most: {self.influences[0].words}.")
        elif self.influences:
            told.append(
                f"None of its last {plural(len(self.influences), 'set')} moved it by 0.1 %."
            )
        return " ".join(one for one in told if one)

    @property
    def rests_on(self) -> str:
        """How many sets speak, and how much of the first range is left."""
        if not self.sets_behind and self._width > _AS_WIDE:
            return "No set of it yet: the 1RM is what is usual for others, and its range is wide."
        if not self.sets_behind:
            return (
                "No set of it yet: the 1RM is what is usual for others, moved by the rest of what "
                f"you logged or remembered. Its range is {self._left} as wide as by the usual "
                "alone."
            )
        sets = plural(self.sets_behind, "working set")
        return (
            f"The 1RM rests on {sets} of this exercise. Its range is {self._left} as wide as at "
            "the start, when only what is usual for others spoke."
        )

    @property
    def day_told(self) -> str:
        """How the last session with the exercise ran; empty where there is none."""
        if self.day is None or self.last is None:
            return ""
        return f"The exercise's last session, {self.last:%-d %B %Y}: {day_words(self.day)}."

    @property
    def _width(self) -> float:
        """The share of variance as one of width, which is what the eye sees of a range."""
        return math.sqrt(self.prior_share)

    @property
    def _left(self) -> str:
        return "less than 1 %" if self._width < _NARROW else percent(self._width)


def day_words(effect: tuple[float, float]) -> str:
    """How a day ran against the usual, and that it is no gain or loss; always with its ±."""
    mean, sd = effect
    give = give_words(sd)
    if abs(mean) < SURE * sd:
        return f"an ordinary day, as far as the sets can tell: {signed_percent(mean)} ({give})"
    side = "over" if mean > 0 else "under"
    size = f"{percent(abs(mean), 1)} {side} your usual ({give})"
    return f"the day ran about {size}: a day, not a gain or a loss"


def _set_words(done: PerformedSet) -> str:
    side = f", {done.side.value} side" if done.side else ""
    load = done_load_words(done) or "body weight"
    joined = "with" if done.load is not None and done.load < 0 else "at"
    reps = f"{plural(done.reps, 'rep')} {joined} {load}"
    when = f"{done.day:%-d %B %Y}, set {done.number}"
    return f"{when}{side}: {reps}, {_effort_words(done.effort)},"


def _effort_words(effort: Effort | None) -> str:
    if effort is None:
        return "effort not noted"
    return _LEFT.get(effort) or f"{effort.value.replace('-', '–')} left"


class _Kept(NamedTuple):
    """Sets replayed so far, and the model after some numbers of them, fewest first."""

    sets: tuple[PerformedSet, ...]
    copies: tuple[tuple[int, StrengthModel], ...]


class Replayed:
    """A log replayed, with copies of the model on the way, for whoever asks more than once.

    A log that has grown or was corrected is replayed from the last copy whose past is still
    the same. Threads may share it: what is kept is only ever put in place as a whole.
    """

    def __init__(
        self,
        catalogue: Catalogue,
        person: Person = Person(),
        carriers: Mapping[str, Carrier] | None = None,
        remembered: Iterable[PerformedSet] = (),
    ) -> None:
        self._start = StrengthModel.start(catalogue, person)
        self._reading = (catalogue, person, carriers)
        model, reader = self._start.copy(), self._reader(())
        for done in remembered:
            model.remembered(reader.exposure(done), done.reps)
        self._kept = _Kept((), ((0, model),))

    def after(self, sets: tuple[PerformedSet, ...]) -> StrengthModel:
        """The model after these sets and what she remembered; the caller may change it."""
        kept = self._kept
        pairs = zip(kept.sets, sets, strict=False)
        same = sum(1 for _ in takewhile(lambda p: p[0] is p[1] or p[0] == p[1], pairs))
        copies = [one for one in kept.copies if one[0] <= same]
        done, model = copies[-1][0], copies[-1][1].copy()
        reader = self._reader(sets[:done])
        for place in range(done, len(sets)):
            if place - copies[-1][0] >= _COPY_EVERY:
                copies.append((place, model.copy()))
            model.observe(reader.exposure(sets[place]), outcome_of(sets[place]))
        if same < len(sets):
            self._kept = _Kept(sets, tuple(copies))
        return model

    def explain(self, history: History, asked: Exposure, *, sets: int = 10) -> Explanation:
        """Explain the strength of an exercise on a day by its last working sets."""
        past = tuple(done for done in history if done.day <= asked.day)
        telling = _working(past, asked.exercise, self._reading[0])
        tried = _affordable(telling[-sets:], len(past))
        run = self._run(past, tried)
        whole = run.model.estimate(asked)
        influences = [
            _influence(past[place], whole.one_rep_kg, run.without(place, asked), whole.sd_log)
            for place in tried
        ]
        prior = self._start.estimate(asked)
        last = next((one for one, _ in reversed(run.seen) if one.exercise == asked.exercise), None)
        return Explanation(
            one_rep_kg=whole.one_rep_kg,
            sd_log=whole.sd_log,
            sets_behind=whole.sets_behind,
            prior_share=min(1.0, (whole.sd_log / prior.sd_log) ** 2),
            day=run.model.settled().day_effect(last) if last else None,
            last=last.day if last else None,
            influences=tuple(sorted(influences, key=lambda one: -abs(one.moved))),
        )

    def _reader(self, sets: Sequence[PerformedSet]) -> ExposureReader:
        return ExposureReader(*self._reading).after(reversed(sets))

    def _run(self, past: tuple[PerformedSet, ...], tried: Sequence[int]) -> _Run:
        """Take in what came from the first set tried on, with a copy before each of them."""
        start = tried[0] if tried else len(past)
        model, reader = self.after(past[:start]), self._reader(past[:start])
        seen, before = [], {}
        for place in range(start, len(past)):
            if place in tried:
                before[place] = model.copy()
            seen.append((reader.exposure(past[place]), outcome_of(past[place])))
            model.observe(*seen[-1])
        return _Run(start, seen, before, model)


class _Run(NamedTuple):
    """What was taken in from a place of the log on, and the models on the way."""

    start: int
    seen: list[tuple[Exposure, Outcome]]
    before: Mapping[int, StrengthModel]
    model: StrengthModel

    def without(self, place: int, asked: Exposure) -> float:
        """The estimate refitted without what the set at a place of the log showed."""
        model = self.before[place].copy()
        exposure, outcome = self.seen[place - self.start]
        load = believed_load(model, exposure, model.track(exposure))
        model.assume(exposure.at(load), outcome.reps)
        for exposure, outcome in self.seen[place + 1 - self.start :]:
            model.observe(exposure, outcome)
        return model.estimate(asked).one_rep_kg


def explain(
    history: History,
    asked: Exposure,
    catalogue: Catalogue,
    person: Person = Person(),
    carriers: Mapping[str, Carrier] | None = None,
    *,
    sets: int = 10,
) -> Explanation:
    """Explain one estimate; whoever asks for several of a log keeps a `Replayed`."""
    return Replayed(catalogue, person, carriers).explain(history, asked, sets=sets)


def _working(past: Sequence[PerformedSet], exercise: str, catalogue: Catalogue) -> list[int]:
    """Places of the sets that tell of an exercise's strength."""
    known = catalogue.exercises.get(exercise)
    return [
        place
        for place, done in enumerate(past)
        if done.exercise == exercise
        and done.kind is not SetKind.WARM_UP
        and done.seconds is None
        and not lacks_load(done, known)
    ]


def _affordable(places: Sequence[int], count: int) -> list[int]:
    """The last of these places whose refits take a second; each costs what came after it."""
    chosen: list[int] = []
    cost = 0
    for place in reversed(places):
        cost += count - place
        if cost > _MOST_REFITTED and len(chosen) >= _LEAST_TRIED:
            break
        chosen.insert(0, place)
    return chosen


def _influence(done: PerformedSet, whole: float, without: float, sd: float) -> Influence:
    moved = math.log(whole / without)
    return Influence(done, math.expm1(moved), moved / sd if sd > 0 else 0.0)
