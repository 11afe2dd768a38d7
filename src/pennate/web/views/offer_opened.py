"""What stands behind an exercise offered instead: what it keeps, its load, and how sure that is."""

from __future__ import annotations

from pennate.app.swaps import Offer
from pennate.core.card import CardSet
from pennate.core.facts import Facts
from pennate.web.views.exercise import NEXT_RULE

KEPT = (
    "the share of what the one gives each part that the other gives too, by the size of the parts;"
    " the shares stand on the page of each exercise"
)
SOURCE = (
    "your log, and what alike exercises tell of one not done yet; constants and sources:"
    " pennate evidence session"
)


def offer_facts(one: Offer) -> Facts:
    """Why it is offered, its load with the reps likely there, rule and source."""
    return (
        ("why", one.because),
        ("what it keeps", KEPT),
        *_load(one.first),
        ("source", SOURCE),
    )


def _load(first: CardSet | None) -> Facts:
    if first is None:
        return ()
    told = first.likely
    likely = f"{told.middle}, between {told.low} and {told.high} eight times in ten" if told else ""
    facts = (("load", first.why), ("likely reps", likely), ("rule", NEXT_RULE))
    return tuple((term, text) for term, text in facts if text)
