"""What opens behind the statements of Recovery and Cycle: inputs, rule, doubt, source."""

from __future__ import annotations

from pennate.app.body_recovery import COMPLAINTS, Recovery
from pennate.body.recovery import BEFORE_DAYS, FEWEST, RECENT_DAYS, Effect, LayoffReturn
from pennate.core.evidence import constant_named
from pennate.core.evidence.body_pages import PERIOD_DAYS, SHORT_NIGHT_HOURS
from pennate.core.evidence.body_recovery import (
    CYCLE_EFFECT_SPREAD,
    DROP_CERTAINTY,
    DROP_THAT_COUNTS,
    LAYOFF_FREE_WEEKS,
    LAYOFF_LOSS_HIGH,
    LAYOFF_LOSS_LOW,
    LAYOFF_MOST_LOSS,
    LEAST_MARKED,
    NEW_WORK_WEEKS,
    RETURN_SETS,
    RETURN_SETS_LATER,
    SLEEP_PRIOR,
    SLEEP_PRIOR_SPREAD,
)
from pennate.core.evidence.safety import BACK_RESERVE, ILL_EASY_LEAST, NEW_CARE_DAYS
from pennate.core.facts import Facts
from pennate.core.percent import chance, percent, signed
from pennate.core.plural import plural

HERS = "your log and notes, the start from memory; constants: pennate evidence recovery"
CYCLE = "your log and notes, the start is our choice; constants: pennate evidence cycle"


def sleep_facts(seen: Recovery) -> Facts:
    """Behind what a short night does to her."""
    marked = "after a short night"
    facts = _effect_facts(seen.sleep, marked, (SLEEP_PRIOR, SLEEP_PRIOR_SPREAD), HERS)
    return (*_mean_facts(seen), ("short", f"under {SHORT_NIGHT_HOURS:g} hours"), *facts)


def reports_facts(seen: Recovery) -> Facts:
    """Behind what low energy or soreness does to her."""
    marked = "with low energy or soreness told before them"
    return _effect_facts(seen.reports, marked, (0.0, SLEEP_PRIOR_SPREAD), HERS)


def cycle_effect_facts(effect: Effect) -> Facts:
    """Behind what the first days of a period do to her."""
    marked = f"on day 1 to {PERIOD_DAYS:g} of a cycle"
    return _effect_facts(effect, marked, (0.0, CYCLE_EFFECT_SPREAD), CYCLE)


def _mean_facts(seen: Recovery) -> Facts:
    """What the hours a night are the mean of."""
    if seen.mean_hours is None:
        return ()
    return (("hours a night", f"the mean of {plural(seen.counted_nights, 'night')} noted"),)


def _effect_facts(effect: Effect, marked: str, start: tuple[float, float], source: str) -> Facts:
    """Inputs, value and rule of an effect on strength, begun at `start` ± its spread."""
    centre, give = start
    own = min(effect.marked, effect.others) > 0
    return (
        ("inputs", f"{plural(effect.marked, 'session')} {marked}, {effect.others} others"),
        (
            "value" if own else "to begin with",
            (
                f"{signed(100 * effect.mean)} %, {signed(100 * effect.low95)} to"
                f" {signed(100 * effect.high95)} (95 %)"
            ),
        ),
        (
            "rule",
            (
                "each session’s day against what was expected of it; the difference is drawn"
                f" towards {signed(100 * centre, 0)} ± {100 * give:.0f} %, and told only when it"
                f" leaves out nought and {LEAST_MARKED:g} sessions of each are there"
            ),
        ),
        ("source", source),
    )


def lighter_facts(seen: Recovery) -> Facts:
    """Behind a lighter week, called for or not: both of its conditions as they stand."""
    stretch = seen.fortnight
    sessions = f"{plural(stretch.recent, 'session')} in {RECENT_DAYS} days, {stretch.before} before"
    if stretch.drop is None:
        strength = f"{sessions}: {FEWEST} of each are needed"
    else:
        strength = (
            f"{sessions}: {signed(100 * stretch.drop)} %; a fall of {percent(DROP_THAT_COUNTS)} or"
            f" more has a chance of {chance(stretch.certainty)}"
        )
    return (
        ("strength", strength),
        ("you report", "yes, as the rule has it" if seen.complaint else "nothing the rule counts"),
        (
            "rule",
            (
                f"strength in the last {RECENT_DAYS} days against the days before, back to"
                f" {BEFORE_DAYS}: down by {percent(DROP_THAT_COUNTS)} with a chance of"
                f" {percent(DROP_CERTAINTY)} or more; and you report it: {COMPLAINTS} short nights"
                f" or days of low energy in {RECENT_DAYS} days, or a joint that asks for a swap or"
                " a clinician"
            ),
        ),
        ("contested", constant_named("recovery.drop_that_counts").contested),
        ("source", "your log and notes; both limits are our choice: pennate evidence recovery"),
    )


def back_facts(back: LayoffReturn) -> Facts:
    """Behind what is said after days off, or after an illness."""
    return _illness_facts() if back.ill else _layoff_facts()


def _illness_facts() -> Facts:
    return (
        (
            "rule",
            (
                f"as many easy days as you were away, {ILL_EASY_LEAST:g} at least and"
                f" {NEW_CARE_DAYS:g} at most: {percent(RETURN_SETS)} of the sets in the first week,"
                f" {percent(RETURN_SETS_LATER)} after it, {BACK_RESERVE:g} or more left in each"
            ),
        ),
        ("how sure", "practice, not measured; go by how you feel, and by a doctor’s word"),
        ("source", constant_named("safety.ill_easy").source),
    )


def _layoff_facts() -> Facts:
    named = ("layoff_free", "layoff_loss_high", "new_work_weeks", "return_sets")
    sources = [constant_named(f"recovery.{one}").source for one in named]
    return (
        (
            "rule",
            (
                f"up to {LAYOFF_FREE_WEEKS:g} weeks nothing is lost, then"
                f" {100 * LAYOFF_LOSS_LOW:.0f} to {percent(LAYOFF_LOSS_HIGH)} a week, at most"
                f" {percent(LAYOFF_MOST_LOSS)}; after {NEW_WORK_WEEKS:g} weeks"
                f" {percent(RETURN_SETS)} of the sets in the first week and"
                f" {percent(RETURN_SETS_LATER)} in the second"
            ),
        ),
        ("how sure", "a range for people like you; your first sets replace it"),
        ("source", "; ".join(sources)),
    )
