"""The lifter's own report before a session, and the pain rule."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from enum import StrEnum

ALARM = "sharp, swelling, locking or giving way"
"""What stops an exercise whatever the number; the words are stored, so they stay as they are."""


class Health(StrEnum):
    """Answer to the one skippable question of the first run; stays on this machine."""

    UNDER_18 = "under 18"
    PREGNANCY = "pregnant or recently gave birth"
    AVOID_STRAIN = "told to avoid strain, high blood pressure, heart, eye or hernia trouble"
    NONE = "none"
    NOT_SAID = "rather not say"

    @property
    def careful(self) -> bool:
        """Whether sets stay well short of failure and a clinician is named."""
        return self in {Health.UNDER_18, Health.PREGNANCY, Health.AVOID_STRAIN}


class Ill(StrEnum):
    """Whether she is ill, or was and comes back; the values are stored."""

    NO = ""
    NOW = "now"
    BEFORE = "before"


class PainAction(StrEnum):
    """What the pain rule asks for."""

    GO_ON = "go on"
    REDUCE = "reduce load, range or exercise now"
    STOP = "stop this exercise"


@dataclass(frozen=True, slots=True)
class Readiness:
    """What is different today, as far as she says."""

    day: date
    short_sleep: bool = False
    low_energy: bool = False
    sore: tuple[str, ...] = ()
    pain: Mapping[str, int] = field(default_factory=dict)
    alarming: frozenset[str] = frozenset()
    """Joints whose pain is sharp, or which swell, lock or give way."""
    ill: Ill = Ill.NO
    corrected: frozenset[str] = frozenset()
    """Joints of which she told otherwise before by mistake: at a set of this day too."""

    def action(self, joint: str) -> PainAction:
        """What the pain rule asks for of what loads this joint."""
        return pain_action(self.pain.get(joint, 0), alarming=joint in self.alarming)

    def words(self, joint: str) -> str:
        """“shoulder 2 of 10, sharp, swelling, locking or giving way”."""
        alarm = f", {ALARM}" if joint in self.alarming else ""
        return f"{joint} {self.pain.get(joint, 0)} of 10{alarm}"

    def hurting(
        self, pain: Mapping[str, int], *, alarming: bool, corrects: bool = False
    ) -> Readiness:
        """The same with what is said of these joints now, in the place of what was said before.

        It `corrects` where that was a mistake, and has not changed since.
        """
        told = frozenset(pain)
        alarmed = (self.alarming - told) | (told if alarming else frozenset())
        corrected = (self.corrected - told) | (told if corrects else frozenset())
        pain = {**self.pain, **pain}
        return replace(self, pain=pain, alarming=alarmed, corrected=corrected)


def pain_action(score: int, *, alarming: bool = False) -> PainAction:
    """The pain rule: 0–2 go on, 3–5 reduce, above 5 stop.

    `alarming` is sharp, swelling, locking or giving way: always stop. The stricter of
    the published cuts (Silbernagel 2007; Thomeé 1997), see the evidence register.
    """
    if not 0 <= score <= 10:
        raise ValueError("pain is a number from 0 to 10")
    if alarming or score > 5:
        return PainAction.STOP
    return PainAction.REDUCE if score >= 3 else PainAction.GO_ON
