"""The same generative model by NUTS, as the reference for the fast update.

`python -m bench.forecast.nuts` writes NUTS.md. Needs the `bench` extra. Hyper-parameters are
the register's; what the fast filter learns beside the Gaussian belief (personal variances,
jumps, slips, habits) is switched off in both, so that both answer the same question.
"""

from __future__ import annotations

import argparse
import math
import time
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, NamedTuple
from unittest.mock import patch

import jax
import jax.numpy as jnp
import numpy as np
import numpyro
import numpyro.distributions as dist
from jax.scipy.special import ndtr

from bench.forecast.nuts_table import Compared, lines_of
from bench.forecast.people import make_lifter
from bench.forecast.posterior import draw
from bench.forecast.training import EXERCISES, SCENARIOS, SPLIT, train
from pennate.core.evidence import strength as s
from pennate.core.evidence import strength_sets as ts
from pennate.core.evidence.strength import ANCHOR_REPS
from pennate.core.performed import Effort, PerformedSet, SetKind
from pennate.estimate import Exposure, ExposureReader, Person, StrengthModel, outcome_of
from pennate.estimate import learning as learning_module
from pennate.estimate.clock import expected_growth
from pennate.estimate.curve import MOST_REPS, log_load_gap
from pennate.estimate.effort import _BANDS, Habits, Key
from pennate.estimate.fatigue import Cost
from pennate.estimate.look import EASED_MOST
from pennate.estimate.priors import ExercisePrior, exercise_prior, overlap
from pennate.estimate.settings import DEFAULTS
from pennate.estimate.track import track_key
from pennate.files.catalogue import read_catalogue

SETTINGS = replace(
    DEFAULTS,
    variance_weight=1e9, jump_share=1e-9, outlier=1e-9, habit_sd=9.0,
    own_trend_sd=1e-9, own_gain_sd=1e-9, shared_drift=1e-9, ways_drift=0.0,
)  # fmt: skip
NAMES = SPLIT[0]
WEEKS = 9
"""Long enough for ten working sets of most exercises, short enough for NUTS."""
PASSES = 5
"""Of the filter over a log; the median counts."""
CATALOGUE = read_catalogue()
NOBODY = Person()
RESULTS = Path(__file__).parent / "NUTS.md"
LAWS = (
    ("exponential", "two exponentials"), ("linear", "two exponentials"), ("hyperbola", "power"),
    ("asymptote", "two pools"), ("kinked", "reservoir"),
)  # fmt: skip


@dataclass
class Data:
    """A log as arrays, one row a set."""

    reps: np.ndarray
    low: np.ndarray
    high: np.ndarray
    failed: np.ndarray
    odds: np.ndarray
    guessed: np.ndarray
    exercise: np.ndarray
    session: np.ndarray
    visit: np.ndarray
    """Index of the exercise's session, over all exercises."""
    log_load: np.ndarray
    first: np.ndarray
    weights: np.ndarray
    gaps: np.ndarray
    cost: np.ndarray
    """Per earlier set of the session: slow, its variance, acute, its variance."""
    last: np.ndarray
    """Whether an earlier set is the last of its exercise so far."""
    weeks: np.ndarray
    visit_exercise: np.ndarray
    visit_gap: np.ndarray
    visit_number: np.ndarray
    visit_week: np.ndarray


def short_log(seed: int, curve: str, fatigue: str) -> tuple[list[PerformedSet], dict[str, float]]:
    """Working sets of one day of the split until the first layoff, and true log ten-rep loads."""
    lifter = make_lifter(60_000 + seed, curve, fatigue, CATALOGUE, EXERCISES)
    diary = train(lifter, replace(SCENARIOS["effort noted"], weeks=WEEKS))
    rows: list[PerformedSet] = []
    true: dict[str, float] = {}
    for done, truth in zip(diary.rows, diary.truth, strict=True):
        if done.exercise not in NAMES or done.kind is not SetKind.WORKING:
            continue
        if done.effort is None or done.effort is Effort.SIX_UP or done.reps > 30:
            continue
        if rows and (done.when - rows[-1].when).days > 13:
            break
        rows.append(done)
        ten = lifter.skills[done.exercise].curve.share(ANCHOR_REPS)
        true[done.exercise] = truth.level + math.log(ten)
    return rows, true


class Taken(NamedTuple):
    """What the filter made of one set, that its habits decide: given to both."""

    cost: Cost
    """The fatigue it booked."""
    odds: float
    """That a report of no reserve means plain failure, beside a report like others."""
    guessed: bool
    """Whether a report is a guess, after a stop at the number asked."""


def _seconds(rows: list[PerformedSet]) -> float:
    """How long the filter takes for the log, once."""
    begin = time.perf_counter()
    model, reader = StrengthModel.start(CATALOGUE, NOBODY, SETTINGS), ExposureReader(CATALOGUE)
    for done in rows:
        model.observe(reader.exposure(done), outcome_of(done))
    return time.perf_counter() - begin


def fast(rows: list[PerformedSet]) -> tuple[StrengthModel, list[Taken], float]:
    """The filter's answer, what it made of each set, and its seconds."""
    costs: list[Cost] = []
    odds: list[float] = []
    guessed: list[bool] = []
    plain_cost, plain_odds = learning_module.cost_of, Habits.failure_odds
    plain_guesses = Habits.guesses

    def booked(*given: Any) -> Cost:
        costs.append(plain_cost(*given))
        return costs[-1]

    def believed(habits: Habits, key: Key) -> float:
        odds[-1] = plain_odds(habits, key)
        return odds[-1]

    def asked(habits: Habits, key: Key, reps: int) -> bool:
        guessed.append(plain_guesses(habits, key, reps))
        return guessed[-1]

    with (
        patch.object(learning_module, "cost_of", booked),
        patch.object(Habits, "guesses", asked),
        patch.object(Habits, "failure_odds", believed),
    ):
        model, reader = StrengthModel.start(CATALOGUE, NOBODY, SETTINGS), ExposureReader(CATALOGUE)
        for done in rows:
            odds.append(0.0)
            model.observe(reader.exposure(done), outcome_of(done))
    spent = float(np.median([_seconds(rows) for _ in range(PASSES)]))
    taken = [Taken(*one) for one in zip(costs, odds, guessed, strict=True)]
    return model.settled(), taken, spent


def arrays(rows: list[PerformedSet], taken: list[Taken], priors: list[ExercisePrior]) -> Data:
    """The log and what the filter made of it as arrays."""
    reader = ExposureReader(CATALOGUE)
    days = sorted({done.when for done in rows})
    start = days[0]
    visits: dict[tuple[int, int], int] = {}
    fields: dict[str, list[Any]] = {name: [] for name in Data.__annotations__}
    seen: set[int] = set()
    past: list[tuple[int, float, Cost]] = []
    clock = 0.0
    numbers = dict.fromkeys(range(len(NAMES)), 0)
    week_before: dict[int, float] = {}
    for index, done in enumerate(rows):
        if index == 0 or rows[index - 1].when != done.when:
            past, clock = [], 0.0
        name = NAMES.index(done.exercise)
        session = days.index(done.when)
        week = (done.when - start).days / 7
        if (name, session) not in visits:
            visits[name, session] = len(visits)
            numbers[name] += 1
            fields["visit_exercise"].append(name)
            fields["visit_gap"].append(week - week_before.get(name, week))
            fields["visit_number"].append(numbers[name])
            fields["visit_week"].append(week)
            week_before[name] = week
        if past:
            clock += 150.0 if done.rest_s is None else float(done.rest_s)
        pad = 40 - len(past)
        weight = [
            1.0 if one == name else SETTINGS.overlap * overlap(priors[one].work, priors[name].work)
            for one, _, _ in past
        ]
        later = {one: place for place, (one, _, _) in enumerate(past)}
        fields["weights"].append(weight + [0.0] * pad)
        fields["gaps"].append([clock - at for _, at, _ in past] + [0.0] * pad)
        fields["cost"].append([list(cost[:4]) for _, _, cost in past] + [[0.0] * 4] * pad)
        fields["last"].append(
            [float(later[one] == place) for place, (one, _, _) in enumerate(past)] + [0.0] * pad
        )
        clock += ts.REP_SECONDS * done.reps
        past.append((name, clock, taken[index].cost))
        effort = done.effort or Effort.FAIL
        low, high = _BANDS.get(effort, (0.0, 1.0))
        fields["low"].append(low)
        fields["high"].append(high)
        fields["failed"].append(effort is Effort.FAIL)
        fields["odds"].append(taken[index].odds)
        fields["guessed"].append(float(taken[index].guessed))
        fields["reps"].append(done.reps)
        fields["exercise"].append(name)
        fields["session"].append(session)
        fields["visit"].append(visits[name, session])
        fields["log_load"].append(math.log(reader.exposure(done).felt_kg or 1.0))
        fields["first"].append(name not in seen)
        seen.add(name)
    fields["weeks"] = [(day - start).days / 7 for day in days]
    return Data(**{name: np.array(values) for name, values in fields.items()})


_LEAST = 1e-300
_BEYOND = 50.0
REPS = jnp.arange(MOST_REPS + 1.0)
RATIO = jnp.maximum(REPS - 0.5, 0.5) / ANCHOR_REPS


def _normal(name: str, sd: Any, shape: tuple[int, ...] = ()) -> Any:
    return sd * numpyro.sample(name, dist.Normal(jnp.zeros(shape), 1.0))


def _together(cov: np.ndarray) -> Any:
    return dist.MultivariateNormal(jnp.zeros(len(cov)), cov)


def _shared_cov(count: int, person_sd: float, own_sd: float) -> np.ndarray:
    """Of one number per exercise: a person's own part and each exercise's."""
    return person_sd**2 * np.ones((count, count)) + own_sd**2 * np.eye(count)


def _level_cov(priors: list[ExercisePrior]) -> np.ndarray:
    """Of the exercises' levels: strength in general, of shared muscles, and their own."""
    shares = np.zeros((len(priors), 11))
    for row, prior in enumerate(priors):
        for index, share in prior.shares:
            shares[row, index] = share
    own_sd = math.sqrt(s.FAMILY_SD**2 + s.EQUIPMENT_SD**2 + s.LEVEL_SD**2)
    shared = s.MUSCLE_SD**2 * shares @ shares.T
    return _shared_cov(len(priors), s.GENERAL_SD, own_sd) + shared


def generative(data: Data, priors: list[ExercisePrior]) -> None:
    """The model of `pennate.estimate`, written down once more."""
    g, count = SETTINGS, len(priors)
    level = numpyro.sample("level", _together(_level_cov(priors)))
    slope = numpyro.sample(
        "slope", _together(_shared_cov(count, g.slope_person_sd, g.slope_exercise_sd))
    )
    slope = slope + jnp.array([prior.log_slope for prior in priors])
    shape = numpyro.sample(
        "shape", _together(_shared_cov(count, g.shape_person_sd, g.shape_exercise_sd))
    )
    shape = jnp.clip(g.shape + shape, 0.15, 2.0)
    slow = numpyro.sample("slow", _together(_shared_cov(count, g.slow_sd, g.slow_own_sd)))
    acute = numpyro.sample("acute", _together(_shared_cov(count, g.acute_sd, g.acute_own_sd)))
    slow_s = g.slow_s * math.sqrt(ts.SLOW_S_WOMAN / ts.SLOW_S)
    slow_s = slow_s * jnp.exp(_normal("slow_s", g.slow_s_sd))
    acute_s = g.acute_s * jnp.exp(_normal("acute_s", g.acute_s_sd))
    bias = _normal("bias", g.report_person_sd)
    trend = (_normal("trend", g.trend_sd), _normal("gain", g.gain_sd))
    day = _days(data)
    now = _levels(data, priors, level, trend)
    today = _normal("own_day", g.own_day_sd, (len(data.visit_gap),))[data.visit]
    eased = 1.0 - jnp.minimum(g.own_day_tired * today, EASED_MOST)
    owed, wrong = _fatigue(data, priors, (slow, acute, slow_s, acute_s), eased)
    x = data.exercise
    capacity = now[data.visit] + today + day[data.session] - owed - data.log_load
    scale = jnp.exp(slope[x])[:, None] * ANCHOR_REPS
    curved = shape[x][:, None]
    at = scale * (RATIO**curved - 1.0) / curved
    per_rep = scale / ANCHOR_REPS * RATIO ** (curved - 1.0)
    noise = (g.set_noise + g.set_noise_rep * REPS) * per_rep
    z = (capacity[:, None] - at) / jnp.sqrt(noise**2 + wrong[:, None])
    likely = (_exactly(z) * _outcome(data, bias)).sum(axis=1)
    numpyro.factor("sets", jnp.log(likely + _LEAST).sum())
    aims = jnp.array([log_load_gap(g.choice_reserve, prior.log_slope, g.shape) for prior in priors])
    gap = (capacity - aims[x]) / g.choice_sd
    numpyro.factor("choices", -0.5 * (gap**2 * data.first).sum())


def _exactly(z: Any) -> Any:
    """Probability of each number of reps, where z says how far its threshold is passed.

    Differences of the nearer tail: far out there must still be a slope to climb, or the
    search for the mode stays where every set is impossible.
    """
    end = jnp.full((len(z), 1), _BEYOND)
    low, high = jnp.concatenate((end, z[:, 1:]), axis=1), jnp.concatenate((z[:, 1:], -end), axis=1)
    return jnp.maximum(jnp.where(high > 0, ndtr(-high) - ndtr(-low), ndtr(low) - ndtr(high)), 0.0)


def _days(data: Data) -> Any:
    g = SETTINGS
    fresh = numpyro.sample("day", dist.Normal(jnp.zeros(len(data.weeks)), 1.0))
    keep = np.exp(-7.0 * np.diff(data.weeks, prepend=data.weeks[0]) / g.day_memory)
    out = [fresh[0] * g.day_sd]
    for index in range(1, len(data.weeks)):
        innovation = g.day_sd * math.sqrt(1 - keep[index] ** 2)
        out.append(keep[index] * out[-1] + innovation * fresh[index])
    return jnp.stack(out)


def _levels(data: Data, priors: list[ExercisePrior], base: Any, trend: tuple[Any, Any]) -> Any:
    """Log strength at every visit: start, growth, learning and drift."""
    g, x = SETTINGS, data.visit_exercise
    again = data.visit_number > 1
    fresh = np.where(again, g.learning_keep ** np.maximum(data.visit_number - 2.0, 0.0), 0.0)
    sd = np.sqrt(g.drift**2 * data.visit_gap + (g.learning_sd * fresh) ** 2)
    steps = g.learning * fresh + sd * numpyro.sample("drift", dist.Normal(jnp.zeros(len(x)), 1.0))
    growth = np.array([expected_growth(0.0, week, NOBODY) for week in data.visit_week])
    walked = jnp.zeros(len(x))
    for name in range(len(priors)):
        mine = x == name
        walked = walked + jnp.where(mine, jnp.cumsum(jnp.where(mine, steps, 0.0)), 0.0)
    level = jnp.array([prior.level for prior in priors])[x] + base[x]
    steady, slowing = trend
    return level + walked + growth + steady * data.visit_week + slowing * np.log1p(data.visit_week)


def _fatigue(
    data: Data, priors: list[ExercisePrior], latent: tuple[Any, ...], eased: Any
) -> tuple[Any, Any]:
    slow, acute, slow_s, acute_s = latent
    g, x = SETTINGS, data.exercise
    usual = np.array([prior.tiring for prior in priors])[x]
    keep = jnp.exp(-data.gaps / slow_s) * data.weights
    left = jnp.exp(-data.gaps / acute_s) * data.weights * data.last
    amount = usual * g.slow * jnp.exp(slow[x])
    share = usual * g.acute * jnp.exp(acute[x])
    slow_now = eased * amount * (keep * data.cost[:, :, 0]).sum(axis=1)
    acute_now = eased * share * (left * data.cost[:, :, 2]).sum(axis=1)
    wrong = (g.slow_error * slow_now) ** 2 + (g.acute_error * acute_now) ** 2
    amount, share = eased * amount, eased * share
    wrong = wrong + amount**2 * (keep**2 * data.cost[:, :, 1]).sum(axis=1)
    wrong = wrong + share**2 * (left**2 * data.cost[:, :, 3]).sum(axis=1)
    return slow_now + acute_now, wrong


def _outcome(data: Data, bias: Any) -> Any:
    """Weights over reps to failure, as in `pennate.estimate.effort.reported`."""
    g = SETTINGS
    left = REPS[None, :] - data.reps[:, None]
    inside = left >= 0
    near = jnp.clip(left, 0.0, 1.0)
    far = jnp.maximum(REPS - ts.REPORT_FAR, 0.0)[None, :] * near
    guess = data.guessed[:, None]
    offset = g.report_bias + guess * g.guess_bias + g.report_bias_rep * left + bias
    felt = left - near * offset - far * g.report_far_bias
    noise_rep = g.report_noise_rep + guess * g.guess_noise_rep
    spread = g.report_noise + guess * g.guess_noise + noise_rep * jnp.maximum(left, 0.0)
    spread = spread + far * g.report_far_noise
    told = ndtr((data.high[:, None] - felt) / spread) - ndtr((data.low[:, None] - felt) / spread)
    told = jnp.where(inside, told, 0.0)
    told = told / jnp.maximum(told.sum(axis=1, keepdims=True), 1e-9)
    told = told + data.odds[:, None] * (left == 0)
    return jnp.where(data.failed[:, None], left == 0, told)


def compare(seed: int, draws: int) -> Compared:
    """Filter against NUTS on one log."""
    laws = LAWS[seed % len(LAWS)]
    rows, true = short_log(seed, *laws)
    priors = [exercise_prior(name, CATALOGUE, NOBODY) for name in NAMES]
    model, taken, seconds = fast(rows)
    data = arrays(rows, taken, priors)
    begin = time.perf_counter()
    drawn = draw(generative, (data, priors), draws, seed)
    spent = time.perf_counter() - begin
    final = _final_levels(drawn.pooled(), data, priors)
    gaps, missed = _gaps(model, rows, final, true)
    return Compared(" + ".join(laws), len(rows), gaps, missed, seconds, spent, drawn.worst_rhat)


def _final_levels(draws: dict[str, Any], data: Data, priors: list[ExercisePrior]) -> np.ndarray:
    """Log strength of every exercise at its last visit, draw by draw."""

    def one(sample: dict[str, Any]) -> Any:
        with numpyro.handlers.seed(rng_seed=0), numpyro.handlers.condition(data=sample):
            trend = (SETTINGS.trend_sd * sample["trend"], SETTINGS.gain_sd * sample["gain"])
            return _levels(data, priors, sample["level"], trend)

    levels = np.asarray(jax.lax.map(one, draws))
    ends = [np.flatnonzero(data.visit_exercise == name)[-1] for name in range(len(priors))]
    return levels[:, ends]


def _gaps(
    model: StrengthModel, rows: list[PerformedSet], final: np.ndarray, true: dict[str, float]
) -> tuple[list[float], list[tuple[float, float]]]:
    """Filter minus NUTS over the NUTS SD for exercises with ten sets, and what both miss by."""
    gaps, missed = [], []
    for place, name in enumerate(NAMES):
        mine = [done for done in rows if done.exercise == name]
        if len(mine) < 10:
            continue
        asked = Exposure(when=mine[-1].when, session="a", exercise=name, felt_kg=None)
        ours, theirs = model.points[track_key(asked)][-1].log_load, float(final[:, place].mean())
        gaps.append(float((ours - theirs) / final[:, place].std()))
        missed.append((ours - true[name], theirs - true[name]))
    return gaps, missed


def main() -> None:
    """Compare on five lifters or more and write the table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--lifters", type=int, default=5)
    parser.add_argument("--draws", type=int, default=300)
    given = parser.parse_args()
    numpyro.enable_x64()
    found = []
    for seed in range(given.lifters):
        found.append(compare(seed, given.draws))
        RESULTS.write_text("\n".join(lines_of(found, given.draws)) + "\n", encoding="utf-8")
    print(f"written: {RESULTS.name}")


if __name__ == "__main__":
    main()
