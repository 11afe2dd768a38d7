"""What hurts during a set, as an address and a form carry it: “knee:4”, “muscle:7”, “hip:2!”."""

from __future__ import annotations

from dataclasses import dataclass

from pennate.core.readiness import PainAction, pain_action

MUSCLE = "muscle"
"""The one place that is no joint: the muscle being trained."""
WORST = 10


@dataclass(frozen=True, slots=True)
class PainSaid:
    """Where it hurts, how much from 0 to 10, and whether it is sharp, swells or gives way."""

    where: str
    score: int
    alarming: bool

    @property
    def action(self) -> PainAction:
        """What the pain rule asks for."""
        return pain_action(self.score, alarming=self.alarming)


def pain_said(text: str) -> PainSaid | None:
    """What the text says; an exclamation mark makes it alarming, and None is no such text."""
    where, _, said = text.partition(":")
    score = said.removesuffix("!")
    if not where or not score.isdecimal() or int(score) > WORST:
        return None
    return PainSaid(where, int(score), said.endswith("!"))
