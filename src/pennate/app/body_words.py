"""Verdicts and girths to take in words, the same on a page and on the command line."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from pennate.app.body_pages import MeasureNext
from pennate.body.verdict import SiteVerdict, Verdict
from pennate.core.evidence.body import HOLDING_SESSIONS, HOLDING_WEEKS, SAME_BAND
from pennate.core.percent import signed, signed_span


@dataclass(frozen=True, slots=True, kw_only=True)
class ToMeasure:
    """A girth to take: both sides at once where both are due."""

    site: str
    name: str
    when: str
    say: str
    due: bool


VERDICT_RULE = (
    "Growing or losing: the 95 % interval leaves out nought. Holding: the 90 % interval lies"
    f" within ±{SAME_BAND:g} % of the girth, {HOLDING_WEEKS:.0f} weeks apart or more"
    f" ({HOLDING_SESSIONS:.0f} sessions where a log tells). Else nobody can tell yet."
)
LONG_AGO = timedelta(weeks=4)  # number: the usual time between two readings; then they are late


def verdict_line(one: SiteVerdict, today: date) -> str:
    """What follows the word of a verdict: the change or what may be, in cm, and till when.

    That last only where the readings are old: what grew before a pause need not grow in it.
    """
    if today - one.end <= LONG_AGO:
        return _span_words(one)
    return f"{_span_words(one)}, as read until {one.end:%-d %B %Y}"


def _span_words(one: SiteVerdict) -> str:
    span = f"{signed_span(one.low95, one.high95)} cm"
    if one.verdict is Verdict.OPEN:
        return f"anything from {span} fits"
    if one.verdict is Verdict.HOLDING:
        return f"no change beyond 1 % ({span})"
    return f"{signed(one.change_cm)} cm ({span})"


def to_measure(asked: Sequence[MeasureNext]) -> tuple[ToMeasure, ...]:
    """Girths to take, the sides of a place together, the soonest first."""
    by_site: dict[str, list[MeasureNext]] = {}
    for one in asked:
        by_site.setdefault(one.site, []).append(one)
    rows = [_measure(site, group) for site, group in by_site.items()]
    return tuple(row for _, row in sorted(rows, key=lambda pair: pair[0]))


def _measure(site: str, group: Sequence[MeasureNext]) -> tuple[str, ToMeasure]:
    first = min(group, key=lambda one: one.day)
    sides = [one.side for one in group if one.side]
    name = f"{site.capitalize()}, both sides" if len(sides) > 1 else site.capitalize()
    if len(sides) == 1:
        name = f"{site.capitalize()}, {sides[0]}"
    when = "now" if first.due else f"{first.day:%A %-d %B}"
    say = next((one.say for one in group if "settled on" in one.say), first.say)
    row = ToMeasure(site=site, name=name, when=when, say=say, due=first.due)
    return first.day.isoformat(), row
