"""One exercise on one item over time: strength with its interval, sets as points, what next."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from pennate.app.back_again import after_rest, rested
from pennate.app.book import Book
from pennate.app.card_text import load_words
from pennate.app.coming import Ahead, asked_sets, odds_words, places_in
from pennate.app.ladders import Climb, LadderStanding, ladder_for
from pennate.app.own_units import gym_in_use
from pennate.app.replays import replayed
from pennate.app.step_advice import StepWords, step_words
from pennate.app.stops import item_for
from pennate.app.strength_words import item_words
from pennate.app.unnamed import Unnamed
from pennate.core.evidence.session import Z_80
from pennate.core.exercise import Catalogue, Exercise
from pennate.core.felt import body_share
from pennate.core.gym import Gym
from pennate.core.history import History
from pennate.core.load_words import done_load_words
from pennate.core.performed import PerformedSet, SetKind
from pennate.core.prescribed import PrescribedSets, Span, Week
from pennate.core.profile import Profile
from pennate.core.quantities import LoadReading
from pennate.core.rep_equations import epley, within_equations
from pennate.core.week_names import known_exercise
from pennate.estimate import (
    Explanation,
    Exposure,
    ExposureReader,
    NextStep,
    Plateau,
    StrengthModel,
    next_step,
    outcome_of,
    plateau,
    trace,
)
from pennate.estimate.curve import log_load_between
from pennate.loading import ladder

SAME_KG = 0.01
BARE_STEP = 0.05  # number: about a step of plates or pins; unnamed equipment has no steps to ask
WEEKS_AHEAD = 4
HALF_A_REP = 0.5
"""What a set without a full rep stands for."""


@dataclass(frozen=True, slots=True)
class StrengthPoint:
    """Felt load of one repetition on a day with its 80 % interval, in kilograms."""

    day: date
    middle: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class SetPoint:
    """One working set: felt load, reps, and the one-rep load it alone would mean, if fresh.

    `by_curve` is by her own curve, None where no load is felt; `by_equation` (Epley) is for
    comparison only, None where the equation is not valid.
    """

    day: date
    felt_kg: float
    reps: int
    effort: str
    by_curve: float | None
    by_equation: float | None
    done: PerformedSet
    told: bool
    """Whether its load is noted, or none is needed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Desk:
    """What the views of all exercises rest on, read and replayed once."""

    today: date
    catalogue: Catalogue
    gym: Gym | None
    week: Week | None
    profile: Profile
    history: History
    model: StrengthModel
    """With the sets of today in it."""
    reader: ExposureReader
    ahead: Ahead
    """The sessions to come, for what the card will ask."""
    unnamed: Mapping[str, Unnamed]
    """What sets without equipment count for, by exercise."""


def desk_of(book: Book, model: StrengthModel | None = None) -> Desk:
    """Everything laid out for today; `model` where the whole log was replayed already."""
    catalogue, history = book.catalogue, book.history()
    reader = book.reader_on(book.today)
    if model is None:
        model = book.model_before(book.today)
        for done in history.since(book.today):
            model.observe(reader.exposure(done), outcome_of(done))
    return Desk(
        today=book.today,
        catalogue=catalogue,
        gym=gym_in_use(book),
        week=book.week(),
        profile=book.profile(),
        history=history,
        model=model,
        reader=reader,
        ahead=Ahead(book, model),
        unnamed=book.unnamed(),
    )


@dataclass(frozen=True, slots=True)
class _Coming:
    """The next step, the sets it is judged by, and what a load more costs."""

    next: NextStep
    asked: PrescribedSets
    step: StepWords | None
    odds: str
    """What the probability of the next step is the chance of."""


@dataclass(frozen=True, slots=True)
class ExerciseView:
    """Everything the page of an exercise shows."""

    exercise: str
    item: str
    item_name: str
    strength: tuple[StrengthPoint, ...]
    sets: tuple[SetPoint, ...]
    now: StrengthPoint
    sets_behind: int
    ahead: tuple[StrengthPoint, ...]
    """Strength week by week from now on, if she trains on as before; the first is `now`."""
    trend_per_week: float
    trend_sd: float
    next: NextStep | None
    next_odds: str
    """What its probability is the chance of, in words."""
    next_load: str
    """The load of the next step, as the equipment says it; empty where it has none."""
    step: StepWords | None
    """What the next load up costs, and what to do while it is too far."""
    ladder: LadderStanding | None
    """The way to the unassisted rep, where there is one."""
    rested: bool
    """Left for so long that strength may be lost."""
    halt: Plateau | None
    asked: PrescribedSets | None
    """The sets her week asks for, which the next step is judged by."""
    holds: tuple[PerformedSet, ...]
    """Sets held for time, on any item; they have no load of one repetition."""
    planned: bool
    """Whether her week has the exercise."""
    label: bool
    """Whether the load is read off a machine that her gym does not describe."""
    other_items: tuple[tuple[str, str], ...]
    """Id and name of items it was also done on; strength there is another matter."""
    unnamed: str
    """What sets without equipment are taken to be done on, or could be; empty without any."""
    places: tuple[tuple[str, int], ...] = ()
    """The days of her week that have the exercise, each with its place there."""

    @property
    def planned_at(self) -> tuple[str, int] | None:
        """The first of them."""
        return self.places[0] if self.places else None


def told_of(sets: Sequence[SetPoint]) -> tuple[SetPoint, ...]:
    """The sets that tell of her strength: those whose load is known."""
    return tuple(one for one in sets if one.told)


def exercise_view(book: Book, exercise_id: str, item: str | None = None) -> ExerciseView:
    """The view of an exercise on the item named, or the one that comes next."""
    return view_at(desk_of(book), exercise_id, item)


def view_at(desk: Desk, exercise_id: str, item: str | None = None) -> ExerciseView:
    """The same from what is laid out already."""
    exercise = known_exercise(exercise_id, desk.catalogue)
    working = [
        one for one in desk.history.of_exercise(exercise.id) if one.kind is not SetKind.WARM_UP
    ]
    done = [one for one in working if one.seconds is None]
    place = _place(desk, exercise, done) if item is None else item
    there = tuple(one for one in done if one.equipment == place)
    asking = _asking(desk.today, exercise.id, place, there)
    sets = _set_points(desk, asking, there)
    found = desk.gym.item(place) if desk.gym else None
    estimate = desk.model.estimate(asking)
    coming = _coming(desk, asking, told_of(sets), place)
    following = coming.next if coming else None
    return ExerciseView(
        exercise=exercise.id,
        item=place,
        item_name=found.name if found else place,
        strength=_strength(desk.model, asking),
        sets=sets,
        now=_point(desk.today, estimate.one_rep_kg, estimate.sd_log),
        ahead=_ahead(desk, asking),
        sets_behind=estimate.sets_behind,
        trend_per_week=estimate.trend_per_week,
        trend_sd=estimate.trend_sd,
        next=following,
        next_odds=coming.odds if coming else "",
        next_load=_load(desk, exercise.id, place, following),
        step=coming.step if coming else None,
        ladder=ladder_for(desk.week, exercise.id, place, _climb(desk)),
        rested=(away := rested(there, desk.today)),
        halt=None if away else plateau(desk.model, asking),
        asked=coming.asked if coming else None,
        holds=tuple(one for one in working if one.seconds is not None),
        planned=asked_sets(desk.week, exercise.id) is not None,
        label=asking.label and found is None,
        other_items=tuple(
            (one, item_words(desk.gym, one))
            for one in sorted({one.equipment for one in done} - {place})
        ),
        unnamed=bare.words if (bare := desk.unnamed.get(exercise.id)) else "",
        places=places_in(desk.week, exercise.id),
    )


def _place(desk: Desk, exercise: Exercise, done: list[PerformedSet]) -> str:
    """The item that comes next where she has done it there; else the last, else the usual one.

    A set in a gym on the road would otherwise hide what her own gym asks next.
    """
    card = desk.ahead.of(exercise.id) if done else None
    if card is not None and any(one.equipment == card.item for one in done):
        return card.item
    usual = item_for(desk.gym, exercise) if desk.gym else None
    return done[-1].equipment if done else usual.id if usual else ""


def _strength(model: StrengthModel, asking: Exposure) -> tuple[StrengthPoint, ...]:
    """Strength on each day with the whole of its doubt.

    The trace knows the doubt of the level at the reps she mostly does; that of the curve,
    which leads from there to one rep, is the same on all days and is taken from the last of
    them. After sets of few reps one rep is known better than the level: then all shrink alike.
    """
    points = trace(model, asking)
    if not points:
        return ()
    last = points[-1]
    whole, level = model.estimate(replace(asking, when=last.day)).sd_log ** 2, last.sd_log**2
    more, share = max(whole - level, 0.0), min(whole / level, 1.0)
    return tuple(_point(p.day, p.one_rep_kg, math.sqrt(p.sd_log**2 * share + more)) for p in points)


def _ahead(desk: Desk, asking: Exposure) -> tuple[StrengthPoint, ...]:
    found = [desk.model.estimate(asking, ahead=float(week)) for week in range(WEEKS_AHEAD + 1)]
    return tuple(
        _point(desk.today + timedelta(weeks=week), one.one_rep_kg, one.sd_log)
        for week, one in enumerate(found)
    )


def _load(desk: Desk, exercise: str, place: str, following: NextStep | None) -> str:
    item = desk.gym.item(place) if desk.gym else None
    if desk.gym is None or item is None or following is None:
        return ""
    body = _body_kg(desk, exercise)
    for rung in ladder(desk.gym, item):
        if abs(rung.felt_kg + body - following.felt_kg) < SAME_KG:
            return load_words(rung) if rung.load.amount else ""
    return ""


def _body_kg(desk: Desk, exercise: str) -> float:
    """Her share of body mass that the exercise moves, in kilograms."""
    share = body_share(desk.catalogue[exercise], female=desk.profile.female)
    return float(share * (desk.profile.body_mass_kg or 0))


def _climb(desk: Desk) -> Climb:
    return Climb(
        catalogue=desk.catalogue, gym=desk.gym, profile=desk.profile, done=desk.history.sets
    )


def why_strength(book: Book, exercise_id: str, item: str) -> Explanation:
    """Which sets moved the estimate, exactly: by refitting without what each showed."""
    there = tuple(d for d in book.history().of_exercise(exercise_id) if d.equipment == item)
    return replayed(book).explain(book.history(), _asking(book.today, exercise_id, item, there))


def _asking(today: date, exercise: str, item: str, done: tuple[PerformedSet, ...]) -> Exposure:
    last = done[-1] if done else None
    return Exposure(
        when=today,
        session="asking",
        exercise=exercise,
        felt_kg=None,
        equipment=item,
        variant=last.variant if last else "",
        style=last.style if last else "",
        aids=last.aids if last else (),
        side=last.side if last else None,
        label=last is not None and last.reading is LoadReading.LABEL,
    )


def _set_points(
    desk: Desk, asking: Exposure, there: tuple[PerformedSet, ...]
) -> tuple[SetPoint, ...]:
    slope, shape = desk.model.settled().curve_of(asking)
    return tuple(_set_point(one, desk.reader.exposure(one), slope, shape) for one in there)


def _set_point(one: PerformedSet, seen: Exposure, slope: float, shape: float) -> SetPoint:
    felt = seen.felt_kg or 0.0
    known = within_equations(one.reps) and felt > 0
    by_equation = epley(felt, one.reps) if known else None
    above = log_load_between(1, max(one.reps, HALF_A_REP), slope, shape)
    return SetPoint(
        day=one.day,
        felt_kg=felt,
        reps=one.reps,
        effort=one.effort.value if one.effort else "",
        by_curve=felt * math.exp(above) if felt > 0 else None,
        by_equation=by_equation,
        done=one,
        told=not seen.unloaded,
    )


def _point(day: date, middle: float, sd_log: float) -> StrengthPoint:
    spread = math.exp(Z_80 * sd_log)
    return StrengthPoint(day, middle, middle / spread, middle * spread)


def _coming(desk: Desk, asking: Exposure, sets: tuple[SetPoint, ...], item: str) -> _Coming | None:
    """What the next session asks, or else the step from the last session's first working set."""
    card = desk.ahead.of(asking.exercise)
    asked = asked_sets(desk.week, asking.exercise, card.weekday if card else "")
    gym, model = desk.gym, desk.model
    place = gym.item(item) if gym else None
    if asked is None or asked.reps is None or not sets or (item and place is None):
        return None
    first = next(
        s for s in sets if (s.day, s.done.session) == (sets[-1].day, sets[-1].done.session)
    )
    body = _body_kg(desk, asking.exercise)
    rungs = ladder(gym, place) if gym and place else ()
    loads = [rung.felt_kg + body for rung in rungs]
    if place is None:
        loads = [first.felt_kg * (1 + step) for step in (-BARE_STEP, 0.0, BARE_STEP)]
    reserve = asked.reserve.low if asked.reserve else 0
    now = replace(asking, felt_kg=first.felt_kg, kind=asked.kind)
    span = Span(asked.reps.low, asked.reps.high or asked.reps.low)

    def reps_at(added_kg: float) -> float:
        return model.forecast(replace(now, felt_kg=added_kg + body)).mean

    at = first.felt_kg - body
    judged = next_step(model, now, span, loads, reserve=reserve)
    odds = odds_words(judged.step, span, reserve)
    judged = after_rest(judged, [one.done for one in sets], desk.today)
    if place is None and (said := done_load_words(first.done)):
        judged = replace(judged, reason=f"from {said}: {judged.reason}")
    by_card = card.step(judged, at) if card and place and card.item == item else judged
    return _Coming(
        by_card,
        asked,
        step_words(place, rungs, at, reps_at, body) if place and len(rungs) > 1 else None,
        card.odds if card and by_card is not judged else odds,
    )
