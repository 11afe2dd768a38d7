"""Learning from one set: the update of the belief, of habits and of personal variances."""

from __future__ import annotations

import math
from functools import partial
from typing import TYPE_CHECKING

import numpy as np

from pennate.core.dose import RESERVE_OF
from pennate.core.evidence import strength_sets as t
from pennate.core.performed import Effort, SetKind
from pennate.estimate import belief as b
from pennate.estimate import effort as ef
from pennate.estimate.curve import MOST_REPS, ONES, REPS, Array, log_load_between
from pennate.estimate.fatigue import cost_of
from pennate.estimate.learned import seen_part
from pennate.estimate.look import believed_load, equipment_node, lift_of, look
from pennate.estimate.track import NOTHING_USUAL, Usual
from pennate.estimate.update import Asked, Push, push, rises_of
from pennate.estimate.view import Guess, Square, View, probabilities

if TYPE_CHECKING:
    from pennate.estimate.exposure import Exposure, Outcome
    from pennate.estimate.state import State
    from pennate.estimate.track import Track

Mix = tuple[float, float, float]
"""Loadings on level, log slope and shape."""


def learn(model: State, exposure: Exposure, outcome: Outcome, view: View, survival: Array) -> None:
    """Take in one performed set whose view is at hand."""
    if exposure.hold or exposure.unloaded or model.open is None:
        return
    pmf = probabilities(survival)
    said = _said(model, exposure, outcome, pmf)
    straight = exposure.kind not in {SetKind.WARM_UP, SetKind.DROP}
    if straight and _is_no_slip(model, view.track, float(said.weights[0].dot(pmf))):
        view = _unsettled(model, exposure, view.track)
        pmf = probabilities(view.survival())
    could = said.weights[0]
    if said.exact is None:
        could = possible(pmf, could, outcome.reps)
    if said.stopped is not None:
        reps = min(outcome.reps, MOST_REPS)
        left = could[reps : reps + ef.MOST_FELT] * said.stopped
        model.habits.take_reserve((exposure.exercise, exposure.kind is SetKind.DROP), left)
    expected = float(could.dot(REPS))
    new = view.track.key not in model.usual
    mix = _mix(view, expected if new else float(pmf.dot(REPS)))
    variance = _update(model, exposure, outcome, view, said, mix)
    _variances(model, outcome, view, variance, expected, guessed=said.guessed)
    book(model, exposure, outcome, could, view)


def _is_no_slip(model: State, track: Track, likely: float) -> bool:
    """Whether the last set of this track was as little to be expected as this one.

    One such set may be a slip; two in a row are none: what was believed is wrong.
    """
    doubted = likely < t.DOUBT_BELOW
    before = track.key in model.doubted
    if doubted is not before:
        model.doubted = model.doubted ^ {track.key}
    elif doubted:
        model.doubted = model.doubted - {track.key}
        return True
    return False


def _unsettled(model: State, exposure: Exposure, track: Track) -> View:
    """The set as it is met when little is taken for granted of this exercise on this equipment."""
    model.belief.widen(equipment_node(model, track), t.DOUBT_SD**2)
    return look(model, exposure, track)


def possible(pmf: Array, weights: Array, reps: int) -> Array:
    """Probabilities of reps to failure after the set; just the reps done if nothing fits.

    Below the reps done no number has a weight.
    """
    likely = pmf * weights
    mass = float(likely.dot(ONES))
    if mass > 1e-9:
        likely /= mass
        return likely
    return ef.exact(reps)


def _said(model: State, exposure: Exposure, outcome: Outcome, pmf: Array) -> ef.Said:
    """What her ending says; also takes in how she ended the set."""
    key = (exposure.exercise, exposure.kind is SetKind.DROP)
    habits = model.habits
    if outcome.effort is not None:
        return _told(model, exposure, outcome, pmf, key)
    if exposure.kind is SetKind.WARM_UP:
        weights = ef.at_least(outcome.reps)[None, :]
        return ef.Said(weights, float(weights[0].dot(ONES)))
    shares = habits.shares(key)
    failed, stopped, felt = ef.unreported(
        outcome.reps, habits.target_shares(key), shares, habits.reserve_by_feel(key)
    )
    if exposure.kind is SetKind.AMRAP:
        stopped = stopped / 10
    chances = (float(failed.dot(pmf)), float(stopped.dot(pmf)), float(felt.dot(pmf)))
    total = sum(chances)
    if total > 1e-12:
        ending = (chances[0] / total, chances[1] / total, chances[2] / total)
        habits.take(key, ending, outcome.reps)
    weights = failed + stopped + felt
    return ef.Said(weights[None, :], float(weights.dot(ONES)))


def _told(model: State, exposure: Exposure, outcome: Outcome, pmf: Array, key: ef.Key) -> ef.Said:
    """What a report of effort says; of a warm-up not whether she stopped."""
    habits, reps = model.habits, min(outcome.reps, MOST_REPS)
    failed, whole, exact = 0.0, 1.0, None
    guessed = habits.guesses(key, reps)
    weights = ef.reported(
        outcome,
        model.settings,
        guessed=guessed,
        honesty=model.learned.honesty.sd_factor,
        offset=model.belief.mean.item(b.BIAS),
        offset_sd=math.sqrt(model.belief.cov.item(b.BIAS, b.BIAS)),
    )
    if outcome.effort is Effort.FAIL:
        failed, exact = 1.0, reps
    elif outcome.effort is Effort.NONE_LEFT:
        odds = habits.failure_odds(key)
        failed = _plain_failure(weights, reps, pmf, odds)
        whole += odds
    elif outcome.effort is Effort.SIX_UP:
        whole = float(weights[0].dot(ONES))
    if exposure.kind is SetKind.WARM_UP:
        return ef.Said(weights, whole, exact, guessed=guessed)
    ending = ef.ending_of(failed, habits.target_share(key, reps))
    habits.take(key, ending, outcome.reps, t.TOLD_WEIGHT)
    return ef.Said(weights, whole, exact, 1.0 - failed, guessed)


def _plain_failure(weights: Array, reps: int, pmf: Array, odds: float) -> float:
    """Add to a report of no reserve that she simply failed; returns how likely she did."""
    failed, other = odds * pmf.item(reps), float(weights[0].dot(pmf))
    weights[:, reps] += odds
    return failed / (failed + other) if failed > 0.0 else 0.0


def _mix(view: View, reps: float) -> Mix:
    """How the scalar a set speaks of is made of level, log slope and shape.

    Slope and shape enter by their derivatives at the reps foreseen: taken at the outcome,
    noise of either sign would look like a flatter curve.
    """
    reps = min(max(reps, 1.0), MOST_REPS - 1.0)
    at = int(reps)
    part = reps - at
    slope, shape = view.curve.turn(at)
    next_slope, next_shape = view.curve.turn(at + 1)
    return 1.0, slope + part * (next_slope - slope), shape + part * (next_shape - shape)


def _update(
    model: State, exposure: Exposure, outcome: Outcome, view: View, said: ef.Said, mix: Mix
) -> float:
    """Update by the scalar of this mix of level, log slope and shape; returns its variance."""
    belief, guess = model.belief, view.guess
    rows = np.zeros((2 if guess is None else 3, len(belief.mean)))
    np.array(mix).dot(view.rows, rows[0])
    rows[1] = belief.cov[b.BIAS]
    variance = _variance(view.cov, mix)
    asked = Asked(
        view.gap,
        view.noise,
        said.weights if said.exact is not None else rises_of(said.weights),
        ef.slip(said, outcome, exposure.kind, model.settings.outlier),
        rows.item(0, b.BIAS),
        rows.item(1, b.BIAS),
        said.exact,
    )
    found = push(asked, variance)
    if guess is None:
        scalar, both, offset = found.curvature
        belief.shift(rows, np.array((found.gradient, (scalar, both), (both, offset))))
    else:
        rows[2, guess.element] = 1.0
        belief.shift(rows, _mixed(found, push(asked, variance + guess.extra), guess))
    return variance


def _variance(cov: Square, mix: Mix) -> float:
    (own, with_slope, with_shape), (_, by_slope, both), (_, _, by_shape) = cov
    _, slope, shape = mix
    rest = slope * (2.0 * with_slope + slope * by_slope)
    return own + rest + shape * (2.0 * (with_shape + slope * both) + shape * by_shape)


def _mixed(plain: Push, wide: Push, guess: Guess) -> Array:
    """Gradient and curvature of two explanations as one Gaussian of the same mean and covariance.

    By the scalar, the report's offset, and the element that may be wider: there a step of
    the scalar's gradient also moves the element, by its extra variance.
    """
    extra = guess.extra
    chance = guess.share * wide.likelihood
    chance /= chance + (1.0 - guess.share) * plain.likelihood
    rest = 1.0 - chance
    (one, two), (other, another) = plain.gradient, wide.gradient
    # How far the explanations' steps are apart, in each of the three.
    first, second, third = other - one, another - two, extra * other
    gradient = (one + chance * first, two + chance * second, chance * third)
    between = chance * rest
    (a, ab, bb), (c, cd, dd) = plain.curvature, wide.curvature
    scalar = rest * a + chance * c + between * first * first
    both = rest * ab + chance * cd + between * first * second
    offset = rest * bb + chance * dd + between * second * second
    by_scalar = chance * extra * c + between * first * third
    by_offset = chance * extra * cd + between * second * third
    own = chance * extra * (1.0 + extra * c) + between * third * third
    return np.array(
        (
            gradient,
            (scalar, both, by_scalar),
            (both, offset, by_offset),
            (by_scalar, by_offset, own),
        )
    )


def _variances(
    model: State, outcome: Outcome, view: View, variance: float, expected: float, *, guessed: bool
) -> None:
    """Learn how noisy her sets and her reports are."""
    if outcome.effort is None or outcome.as_asked or outcome.effort is Effort.SIX_UP:
        return
    at = min(max(round(expected), 1), MOST_REPS)
    per_rep = view.curve.per_rep(at)
    noise = view.noise.item(at) / (per_rep * per_rep)
    believed = variance / (per_rep * per_rep)
    gap = view.gap.item(at)
    reserve = RESERVE_OF[outcome.effort]
    seen = outcome.reps + reserve
    surprise = gap / per_rep + at - 0.5 - seen
    report = ef.report_sd(reserve, seen, model.settings, guessed=guessed) ** 2
    report *= model.learned.honesty.variance_factor if reserve else 0.0
    total = believed + noise + report
    family = view.track.prior.family
    part = model.open.drifted.pop(family, 0.0) if model.open is not None else 0.0
    if part > 0.0:
        drifted = part / (per_rep * per_rep)
        model.learned.drift = seen_part(model.learned.drift, drifted, total, surprise)
    if reserve:
        model.learned.honesty = seen_part(model.learned.honesty, report, total, surprise)
    else:
        model.learned.noise = seen_part(model.learned.noise, noise, total, surprise)


def book(model: State, exposure: Exposure, outcome: Outcome, could: Array, view: View) -> None:
    """Book the fatigue and what is usual now.

    `could` are probabilities of reps to failure, none below the reps done; `view` is that
    of the set before it was done.
    """
    session = model.open
    if session is None:
        return
    track = view.track
    settings = model.settings
    slope, shape = model.curve(track)
    expected = max(float(could.dot(REPS)), 1.0)
    room = view.owed + log_load_between(1, expected, slope, shape)
    written = view.log_load
    if written is None:
        written = math.log(believed_load(model, exposure, track))
    reps = min(outcome.reps, MOST_REPS)
    cost = cost_of(reps, could, (written, room), settings.acute_most, settings.reserve_power)
    session.add(exposure, track.prior, reps, cost, partial(lift_of, model, track, written))
    if exposure.kind is SetKind.WARM_UP:
        return
    usual = model.usual.get(track.key, NOTHING_USUAL)
    if exposure.kind is SetKind.DROP and usual.sets:
        written = usual.log_load
    elif exposure.carried_kg and exposure.felt_kg:  # taken for a slip again and again, it is none
        written = math.log(exposure.felt_kg)
    pull = 0.3 if usual.sets else 1.0  # number: how fast the usual load follows
    level = usual.log_load + pull * (written - usual.log_load)
    model.usual[track.key] = Usual(level, usual.sets + 1)
    model.behind[exposure.exercise] = model.behind.get(exposure.exercise, 0) + 1
