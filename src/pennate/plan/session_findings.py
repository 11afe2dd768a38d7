"""What is wrong with how a session is put together: safety, order, stations, balance."""

from __future__ import annotations

from collections.abc import Iterator, Set
from itertools import combinations

from pennate.core.evidence.audit import (
    LEAST_PART_DOSE,
    PUSH_PULL_MOST,
    WEIGHT_SAFETY,
    WEIGHT_SMALL,
)
from pennate.core.exercise import FailureSafety
from pennate.core.muscles import GROUP_SHARES, Group, Joint
from pennate.core.performed import SetKind
from pennate.core.prescribed import PrescribedExercise
from pennate.core.week_dose import hard_sets
from pennate.core.week_time import PLATED, multi_joint, stops_of
from pennate.plan.focus import main_group
from pennate.plan.schemes import CARRIED
from pennate.plan.seen import Finding, Seen

GRIP_NEEDED = 3
"""Joint level of the grip from which an exercise depends on it."""
HELD_BY_STRAPS = frozenset({"straps", "strap"})
GUARDS = frozenset({"spotter", "safeties", "safety", "stops", "pins"})


def unsafe(seen: Seen) -> Iterator[Finding]:
    """Sets to failure under a load with nothing to catch it."""
    for day in seen.days:
        for asked in day.exercises:
            need = seen.known[asked.exercise].failure_safety
            fails = any(s.to_failure or s.kind is SetKind.AMRAP for s in asked.sets)
            if not fails or need not in {FailureSafety.SAFETIES_OR_SPOTTER, FailureSafety.STOPS}:
                continue
            if asked.equipment in seen.looking.safe_items or _aided(asked, GUARDS):
                continue
            sets = sum(s.count for s in asked.sets if s.to_failure or s.kind is SetKind.AMRAP)
            yield Finding(
                f"unsafe:{asked.exercise}:{day.day}",
                f"{seen.known[asked.exercise].name} goes to failure on {day.day} without "
                f"{need.value}.",
                "A missed rep leaves you under the load. Stopping one rep short costs no growth "
                "that trials could show.",
                f"{sets} sets to failure",
                "common practice; failure adds nothing clear for size (Refalo 2023)",
                "sure",
                WEIGHT_SAFETY,
            )


def _aided(asked: PrescribedExercise, words: Set[str]) -> bool:
    text = " ".join((*asked.aids, asked.note)).casefold()
    return any(word in text for word in words)


def grip_first(seen: Seen) -> Iterator[Finding]:
    """A grip-limited exercise before one that needs the grip, without straps."""
    if not seen.looking.order_matters:
        return
    for day in seen.days:
        for before, after in combinations(day.exercises, 2):
            first, second = seen.known[before.exercise], seen.known[after.exercise]
            strapped = _aided(before, HELD_BY_STRAPS) or _aided(after, HELD_BY_STRAPS)
            level = second.joints.get(Joint.GRIP, 0)
            if first.grip_limited and level >= GRIP_NEEDED and not strapped:
                yield Finding(
                    f"grip:{after.exercise}:{day.day}",
                    f"{first.name} tires the grip before {second.name} on {day.day}.",
                    "Then the hands end the set, not the muscle. Straps, or the other order.",
                    f"{second.name} needs grip level {level} of 3",
                    "common practice",
                    "plausible, not measured",
                    WEIGHT_SMALL / 2,
                )
                break


def _trains(seen: Seen, asked: PrescribedExercise, group: Group) -> bool:
    """Whether an exercise trains a group directly."""
    weights = seen.known[asked.exercise].weights(asked.variant)
    return any(weights.get(part, 0) == 1 for part in GROUP_SHARES[group])


def order(seen: Seen) -> Iterator[Finding]:
    """The first priority does not come first; a preference, for strength only."""
    if not seen.looking.order_matters or not seen.week.priorities:
        return
    for day in seen.days:
        groups = [main_group(seen.known[asked.exercise]) for asked in day.exercises]
        for group in seen.week.priorities[:1]:
            lifts = [i for i, asked in enumerate(day.exercises)
                     if groups[i] is group and multi_joint(seen.known[asked.exercise])]  # fmt: skip
            if lifts and lifts[0] > 0 and not _trains(seen, day.exercises[0], group):
                name = seen.known[day.exercises[lifts[0]].exercise].name
                yield Finding(
                    f"order:{group.value}:{day.day}",
                    f"{name} comes {lifts[0] + 1}. on {day.day} although {group.value} come first.",
                    "What comes first gains more strength; for size no effect of order is shown.",
                    "strength ES 0.32 for multi-joint lifts done first; size ES 0.03",
                    "Nunes 2021",
                    "a preference, for strength only",
                    WEIGHT_SMALL / 2,
                )


def stations(seen: Seen) -> Iterator[Finding]:
    """Two exercises that alternate need the same place."""
    for day in seen.days:
        for members in stops_of(day):
            for a, b in combinations(members, 2):
                kinds = {seen.known[one.exercise].equipment[0] for one in (a, b)}
                if kinds <= CARRIED:
                    continue
                same = bool(a.equipment) and a.equipment == b.equipment
                unnamed = not (a.equipment and b.equipment)
                if same or (unnamed and len(kinds) == 1 and kinds <= PLATED):
                    yield Finding(
                        f"station:{a.exercise}:{day.day}",
                        f"{seen.known[a.exercise].name} and {seen.known[b.exercise].name} "
                        f"alternate on {day.day} but need the same {next(iter(kinds)).value}.",
                        "One of the two is reloaded or lost every round.",
                        "one station for two",
                        "common practice",
                        "sure" if same else "likely; name the items to be sure",
                        WEIGHT_SMALL,
                    )  # fmt: skip


def push_pull(seen: Seen) -> Iterator[Finding]:
    """Far more pushing than pulling, or the reverse."""
    push = pull = 0.0
    for day in seen.days:
        for asked in day.exercises:
            pattern = seen.known[asked.exercise].pattern
            sets = hard_sets(asked, seen.looking.credit_of)
            push += sets * ("push" in pattern)
            pull += sets * ("pull" in pattern)
    low, high = sorted((push, pull))
    if high > LEAST_PART_DOSE and high > PUSH_PULL_MOST * low:
        more, less = ("pushing", "pulling") if push > pull else ("pulling", "pushing")
        yield Finding(
            "balance:push-pull",
            f"{high:g} hard sets of {more} against {low:g} of {less}.",
            f"Shoulders are usually kept happier with about as much {less}.",
            f"{high:g} to {low:g}",
            "common practice; no trial found",
            "a rule of thumb",
            WEIGHT_SMALL * (high - PUSH_PULL_MOST * low) / high,
        )
