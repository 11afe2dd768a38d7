"""Looking at a coming set: which parts of the belief it rests on, and what they say."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from pennate.core.evidence import strength_levels as lv
from pennate.core.evidence import strength_sets as t
from pennate.core.performed import SetKind
from pennate.estimate import belief as b
from pennate.estimate.curve import Array, thresholds
from pennate.estimate.fatigue import Lift
from pennate.estimate.priors import WOMAN
from pennate.estimate.slips import likely_load
from pennate.estimate.track import NOTHING_USUAL
from pennate.estimate.view import Guess, Noise, Square, View, along_thresholds

if TYPE_CHECKING:
    from pennate.estimate.exposure import Exposure
    from pennate.estimate.state import State
    from pennate.estimate.track import Track


EASED_MOST = 0.9  # number: of the fatigue; on the best of days it is still none the better for


class Today(NamedTuple):
    """What day, sleep and fatigue do to log capacity together, fatigue alone, its own error."""

    shift: float
    owed: float
    wrong: float


def usual_slow_s(model: State) -> float:
    """Population time scale of the slow part, by sex where it is said."""
    woman = WOMAN[model.person.female]
    return float(model.settings.slow_s * (t.SLOW_S_WOMAN / t.SLOW_S) ** woman)


def loadings(model: State, track: Track) -> Array:
    """Loadings of a track's log strength, log slope and shape, day and fatigue left out."""
    known = model.belief.loadings.get(track.key)
    if known is None:
        known = model.belief.loadings[track.key] = _loadings(model, track)
    return known


def _loadings(model: State, track: Track) -> Array:
    rows = np.zeros((3, len(model.belief.mean)))
    level, slope, shape = rows
    family = track.prior.family
    start = model.belief.offsets[family]
    level[b.GENERAL] = level[start + b.LEVEL] = 1.0
    for index, share in track.prior.shares:
        level[b.MUSCLES + index] = share
    names = model.belief.nodes[family]
    for name, _ in track.nodes:
        level[start + b.FAMILY + names.index(name)] = 1.0
    slope[b.SLOPE] = slope[start + b.OWN_SLOPE] = 1.0
    shape[b.SHAPE] = shape[start + b.OWN_SHAPE] = 1.0
    return rows


def level_of(model: State, track: Track) -> tuple[float, float]:
    """Mean and variance of a track's log strength, day and fatigue left out."""
    row = loadings(model, track)[0]
    variance = float(row.dot(model.belief.cov).dot(row))
    return track.prior.level + float(row.dot(model.belief.mean)), variance


def own_levels(model: State) -> dict[str, Array]:
    """Loadings of each woken family's own levels on its elements, as last done.

    A row for each exercise; several ways of it on one day, or both sides, in equal parts.
    """
    levels = {}
    for family, start in model.belief.offsets.items():
        end = start + b.FAMILY + len(model.belief.nodes[family])
        rows = [
            np.mean([loadings(model, model.known_track(key))[0, start:end] for key in keys], axis=0)
            for keys in model.ways[family].values()
        ]
        levels[family] = np.array(rows)
    return levels


def look(model: State, exposure: Exposure, track: Track, *, rested: bool = False) -> View:
    """The view of a coming set; `rested` leaves day and fatigue out."""
    mean, cov = model.belief.mean, model.belief.cov
    rows = loadings(model, track).copy()
    level = track.prior.level + float(rows[0].dot(mean))
    log_load = None
    if exposure.felt_kg is not None:
        log_load = math.log(believed_load(model, exposure, track))
        level -= log_load
    now = Today(0.0, 0.0, 0.0) if rested else today(model, exposure, track, log_load, rows[0])
    level += now.shift
    covered = rows.dot(cov)
    among: Square = covered.dot(rows.T).tolist()
    settings = model.settings
    curve = thresholds(*model.curve(track))
    factor = model.learned.noise.variance_factor
    noise = Noise(settings.set_noise, settings.set_noise_rep, now.wrong, factor)
    return View(
        track,
        level,
        among,
        covered,
        curve,
        *along_thresholds(level, among, curve, noise),
        log_load,
        now.owed,
        None if rested else guess_of(model, exposure, track),
    )


def today(
    model: State, exposure: Exposure, track: Track, log_load: float | None, row: Array
) -> Today:
    """Add day, sleep and fatigue to the loadings.

    An exercise's own day also says how much fatigue takes from it: what was misjudged of one
    set's fatigue is met again by the next.
    """
    mean = model.belief.mean.item
    start = model.belief.offsets[track.prior.family]
    row[b.DAY] = row[start + b.OWN_DAY] = 1.0
    total = mean(b.DAY) + mean(start + b.OWN_DAY)
    if exposure.short_sleep:
        row[b.SLEEP] = 1.0
        total += mean(b.SLEEP)
    session, settings = model.open, model.settings
    if session is None:
        return Today(total, 0.0, 0.0)
    lift = lift_of(model, track, log_load)
    tired = session.deficit(exposure, track.prior, lift)
    slower = mean(b.SLOW_S) - session.log_slow
    longer = mean(b.ACUTE_S) - session.log_acute
    slow = lift.slow * max(tired.slow + tired.slow_by_log_s * slower, 0.0)
    acute = lift.acute * max(tired.acute + tired.acute_by_log_s * longer, 0.0)
    row[start + b.OWN_DAY] += settings.own_day_tired * (slow + acute) / lift.eased
    row[b.SLOW] = row[start + b.OWN_SLOW] = -slow
    row[b.ACUTE] = row[start + b.OWN_ACUTE] = -acute
    row[b.SLOW_S] = -lift.slow * tired.slow_by_log_s
    row[b.ACUTE_S] = -lift.acute * tired.acute_by_log_s
    row[b.LIGHTER] = -lift.slow * tired.slow_by_power - lift.acute * tired.acute_by_power
    wrong = (settings.slow_error * slow) ** 2 + (settings.acute_error * acute) ** 2
    wrong += lift.slow**2 * tired.slow_variance + lift.acute**2 * tired.acute_variance
    return Today(total - slow - acute, slow + acute, wrong)


def lift_of(model: State, track: Track, log_load: float | None) -> Lift:
    """A load as her fatigue meets it, by what is believed of her."""
    mean, settings = model.belief.mean.item, model.settings
    start = model.belief.offsets[track.prior.family]
    eased = 1.0 - min(settings.own_day_tired * mean(start + b.OWN_DAY), EASED_MOST)
    usual = track.prior.tiring * eased
    return Lift(
        log_load,
        min(max(settings.lighter + mean(b.LIGHTER), 0.0), 1.0),
        usual * settings.slow * math.exp(mean(b.SLOW) + mean(start + b.OWN_SLOW)),
        usual * settings.acute * math.exp(mean(b.ACUTE) + mean(start + b.OWN_ACUTE)),
        eased,
    )


def believed_load(model: State, exposure: Exposure, track: Track) -> float:
    """The load she probably lifted, slips of the pen set right."""
    felt = exposure.felt_kg or lv.FELT_LEAST
    if not exposure.chosen:
        return felt
    usual = model.usual.get(track.key)
    if usual is not None:
        return likely_load(exposure, usual.log_load)
    if track.key[-1] or not track.prior.known or track.prior.family not in model.belief.offsets:
        return felt
    if exposure.carried_kg:  # too little is known of her to tell a slip from a first choice
        return felt
    return likely_load(exposure, level_of(model, track)[0])


def guess_of(model: State, exposure: Exposure, track: Track) -> Guess | None:
    """Another explanation: another machine of the same name, or a number that means other kilos.

    The first in the first set of an exercise today; the second in the first sets with numbers
    that mean nothing elsewhere, while few of them are known.
    """
    if model.open is None or exposure.kind is SetKind.WARM_UP:
        return None
    usual = model.usual.get(track.key, NOTHING_USUAL)
    if track.strange and exposure.chosen and usual.sets < t.STRANGE_SETS:
        return Guess(equipment_node(model, track), t.DOUBT_SD**2, t.STRANGE_SHARE)
    if exposure.exercise in model.open.done or model.exposures.get(exposure.exercise, 0) < 2:
        return None
    node = equipment_node(model, track)
    return Guess(node, model.settings.jump_sd**2, model.settings.jump_share)


def equipment_node(model: State, track: Track) -> int:
    """Where the belief has what is the equipment's own in a track whose family is awake."""
    family = track.prior.family
    place = model.belief.nodes[family].index(track.nodes[0][0])
    return model.belief.offsets[family] + b.FAMILY + place
