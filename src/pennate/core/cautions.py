"""The plain rules that say which caution applies where.

A caution is shown where it applies, once a session; emergency lines every time. Facts are
plain values, so the same rules serve the card, the phone and the body pages.
"""

from __future__ import annotations

import re
from collections.abc import Collection
from dataclasses import dataclass

from pennate.core import caution_texts as say
from pennate.core.caution_texts import EVERY_CAUTION, Caution
from pennate.core.evidence.safety import (
    BRACE_LOAD_LEVEL,
    BREAKDOWN_DAYS,
    CAREFUL_RESERVE,
    KNEE_LOAD_LEVEL,
    LOW_ENERGY_KCAL_KG,
    NEW_AGAIN_DAYS,
    NEW_CARE_DAYS,
    NO_PERIOD_DAYS,
    PAIN_PERSISTS_DAYS,
    SETS_JUMP,
)
from pennate.core.exercise import EquipmentKind, Exercise, FailureSafety
from pennate.core.readiness import Health, Ill, PainAction, pain_action

__all__ = [
    "EVERY_CAUTION",
    "JOINT_SIGNS",
    "WARNING_SIGNS",
    "BodyFacts",
    "Caution",
    "CautionFacts",
    "Limits",
    "alarming_joint_words",
    "alarming_words",
    "body_cautions",
    "cautions_for",
    "failure_safety_on",
    "hard_new_work",
    "limits_for",
    "unseen",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """What the answer to the one health question rules out."""

    least_reserve: int = 0
    failure: bool = True
    """Sets to failure and maximal tests are allowed."""
    deficit_targets: bool = True


def limits_for(health: Health | None) -> Limits:
    """Limits of a careful profile: reserve of four, no failure; under 18 no deficit either."""
    if health is None or not health.careful:
        return Limits()
    return Limits(
        least_reserve=int(CAREFUL_RESERVE),
        failure=False,
        deficit_targets=health is not Health.UNDER_18,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class CautionFacts:
    """What is so about one exercise as it stands on today's card, or about the day."""

    health: Health | None = None
    first_time: bool = False
    days_away: int = 0
    """Days since the exercise was last done."""
    days_in: int | None = None
    """Days since it was taken up, or taken up again after four weeks; None is long ago."""
    to_failure: bool = False
    hard: bool = False
    """Asked with at most one in reserve."""
    safety: FailureSafety = FailureSafety.NONE
    """What must be in place on the equipment used; see `failure_safety_on`."""
    safeties: bool = False
    """Safeties, stops or a spotter are there."""
    lumbar_load: int = 0
    knee_load: int = 0
    knee_sore: bool = False
    pain: int = 0
    """Worst pain now of a joint it loads clearly, 0 to 10."""
    alarming_pain: bool = False
    """Sharp, swelling, locking or giving way in such a joint; see `alarming_joint_words`."""
    slight_pain: bool = False
    """A joint it loads slightly has pain that stops what loads it clearly."""
    pain_unsettled: bool = False
    """Not settled by next morning, or rising from week to week."""
    pain_days: int = 0
    """Days the joint has been sore."""
    hard_new_days_ago: int | None = None
    """Days since a jump in sets or the first session after a layoff; see `hard_new_work`."""
    ill: Ill = Ill.NO
    """What she says of it today."""
    alarming_note: bool = False
    """A note of today names a warning sign; see `alarming_words`."""


def hard_new_work(sets: float, usual_sets: float, days_off: int) -> bool:
    """Whether a session is hard new work: half as much again as usual, or after four weeks off.

    `sets` and `usual_sets` count hard sets over the same span of days.
    """
    if days_off >= NEW_AGAIN_DAYS:
        return True
    return sets > 0 and sets >= usual_sets * (1 + SETS_JUMP)


def cautions_for(facts: CautionFacts) -> tuple[Caution, ...]:
    """Cautions that apply, the most urgent first."""
    chosen = (
        *_emergencies(facts),
        *_health_lines(facts.health),
        *_ill_lines(facts.ill),
        *_pain_lines(facts),
        *_failure_lines(facts),
        *_exercise_lines(facts),
    )
    return _in_order(chosen)


def _in_order(chosen: Collection[Caution]) -> tuple[Caution, ...]:
    return tuple(caution for caution in EVERY_CAUTION if caution in chosen)


def _emergencies(facts: CautionFacts) -> list[Caution]:
    lines = []
    if facts.alarming_note:
        lines.append(say.RED_FLAGS)
    ago = facts.hard_new_days_ago
    if ago is not None and 0 <= ago <= BREAKDOWN_DAYS:
        lines.append(say.BREAKDOWN)
    if facts.health is Health.PREGNANCY:
        lines.append(say.PREGNANCY_STOP)
    return lines


def _health_lines(health: Health | None) -> list[Caution]:
    lines = {
        Health.UNDER_18: say.UNDER_18,
        Health.PREGNANCY: say.PREGNANCY,
        Health.AVOID_STRAIN: say.AVOID_STRAIN,
    }
    return [lines[health]] if health in lines else []


def _ill_lines(ill: Ill) -> list[Caution]:
    lines = {Ill.NOW: say.ILL, Ill.BEFORE: say.AFTER_ILLNESS}
    return [lines[ill]] if ill in lines else []


def _pain_lines(facts: CautionFacts) -> list[Caution]:
    lines = []
    action = pain_action(facts.pain, alarming=facts.alarming_pain)
    if action is PainAction.STOP:
        lines.append(say.PAIN_STOP)
    elif action is PainAction.REDUCE:
        lines.append(say.PAIN_REDUCE)
    if facts.slight_pain and action is not PainAction.STOP:
        lines.append(say.PAIN_SLIGHT)
    if facts.pain_unsettled:
        lines.append(say.PAIN_SWAP)
    if facts.pain_days > PAIN_PERSISTS_DAYS:
        lines.append(say.PAIN_CLINICIAN)
    return lines


def _failure_lines(facts: CautionFacts) -> list[Caution]:
    lines = []
    hard = facts.to_failure or facts.hard
    if facts.health is not None and facts.health.careful:
        lines.append(say.BREATH_CLINICIAN)
    elif hard:
        lines.append(say.BREATH)
    if hard and facts.lumbar_load >= BRACE_LOAD_LEVEL:
        lines.append(say.BRACE)
    if facts.to_failure and facts.safety is FailureSafety.SAFETIES_OR_SPOTTER:
        lines.append(say.SAFETIES_CHECK if facts.safeties else say.SAFETIES_MISSING)
    if facts.to_failure and facts.safety is FailureSafety.STOPS:
        lines.append(say.STOPS_CHECK if facts.safeties else say.STOPS_MISSING)
    return lines


def _exercise_lines(facts: CautionFacts) -> list[Caution]:
    lines = []
    lately = facts.days_in is not None and facts.days_in < NEW_CARE_DAYS
    if facts.first_time or lately or facts.days_away >= NEW_AGAIN_DAYS:
        lines.append(say.NEW_EXERCISE)
    if facts.knee_sore and facts.knee_load >= KNEE_LOAD_LEVEL:
        lines.append(say.SORE_KNEE)
    return lines


@dataclass(frozen=True, slots=True, kw_only=True)
class BodyFacts:
    """What is so about the pages on body, cycle and energy."""

    health: Health | None = None
    days_since_period: int | None = None
    """None where no cycle is logged, or periods are not to be expected."""
    newly_irregular: bool = False
    repeated_bone_stress: bool = False
    energy_left_kcal_kg: float | None = None
    """Estimated energy availability per kilogram of fat-free mass and day."""
    deficit: bool = False
    """A deficit is planned or asked for."""
    shows_change: bool = False
    """A change of girth or weight is shown."""
    shows_energy: bool = False
    """Intake or a weight target is shown."""


def body_cautions(facts: BodyFacts) -> tuple[Caution, ...]:
    """Cautions of the body, cycle and energy pages, the most urgent first."""
    days, left = facts.days_since_period, facts.energy_left_kcal_kg
    no_period = days is not None and days >= NO_PERIOD_DAYS
    applies = (
        (say.NO_PERIOD, no_period or facts.newly_irregular or facts.repeated_bone_stress),
        (say.LOW_ENERGY, left is not None and left < LOW_ENERGY_KCAL_KG),
        (say.UNDER_18_TARGETS, facts.deficit and facts.health is Health.UNDER_18),
        (say.BODY_NUMBERS, facts.shows_change),
        (say.EATING, facts.shows_energy),
    )
    return _in_order([caution for caution, so in applies if so])


def unseen(cautions: Collection[Caution], seen: Collection[str]) -> tuple[Caution, ...]:
    """Cautions still to be shown this session; `seen` are ids already shown in it."""
    return tuple(one for one in cautions if not one.once_a_session or one.id not in seen)


_BAR_KINDS = {EquipmentKind.BARBELL, EquipmentKind.FIXED_BARBELLS}
_HAND_KINDS = {EquipmentKind.DUMBBELLS, EquipmentKind.KETTLEBELLS}
_RAIL_KINDS = {EquipmentKind.GUIDED_BAR, EquipmentKind.SLED}


def failure_safety_on(exercise: Exercise, kind: EquipmentKind) -> FailureSafety:
    """What must be in place before a set to failure of this exercise on this equipment."""
    usual = exercise.failure_safety
    if kind in _RAIL_KINDS:
        return FailureSafety.STOPS
    if kind in _HAND_KINDS:
        return FailureSafety.EASY_TO_DROP
    if kind in _BAR_KINDS:
        return FailureSafety.SAFETIES_OR_SPOTTER if usual is FailureSafety.STOPS else usual
    if kind is EquipmentKind.PLATE_LOADED and usual is FailureSafety.STOPS:
        return FailureSafety.STOPS
    return FailureSafety.NONE


_CATCHING = r"g(?:ave|ives|iving|ive) way|lock(?:s|ed|ing)(?! ?out)"
_RED_FLAGS = re.compile(
    r"chest (?:pain|tight)|pain in (?:my |the )?chest|faint(?!ly)|pass(?:ed)? out|black(?:ed)? out"
    r"|breathless|can(?:no|')t breathe|(?:worst|severe) headache|sudden(?:ly)? [^.]{0,20}headache"
    r"|\bnumb(?:ness)?\b|bladder|incontinen|(?:dark|brown|cola)[^.]{0,12} urine"
    r"|sudden(?:ly)? [^.]{0,12}weak|\bweakness\b|weak (?:arm|hand|leg|foot)"
    r"|fever[^.]{0,20} back|back [^.]{0,20}fever|pain [^.]{0,12}(?:at|in the|by) night"
    r"|night pain|(?:pain|hurts|aches) [^.]{0,12}at rest|rest pain|" + _CATCHING,
    re.IGNORECASE,
)
_JOINT_ALARM = re.compile(
    _CATCHING + r"|swollen|swell(?:s|ed|ing)|sharp [^.]{0,20}pain|stabbing", re.IGNORECASE
)


WARNING_SIGNS, JOINT_SIGNS = _RED_FLAGS.pattern, _JOINT_ALARM.pattern
"""What notes are searched for, whatever the case, in words that a browser reads alike."""


def alarming_words(note: str) -> tuple[str, ...]:
    """The general warning signs a note names, as written; empty when none is recognised.

    A plain search of words: it finds common wordings only, and does not understand “no”.
    """
    return tuple(found.group(0).lower() for found in _RED_FLAGS.finditer(note))


def alarming_joint_words(note: str) -> tuple[str, ...]:
    """Signs that stop an exercise, such as giving way or locking, as the note writes them."""
    return tuple(found.group(0).lower() for found in _JOINT_ALARM.finditer(note))
