"""What is wrong with a week: each check is a small function, a week in, findings out."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Set
from itertools import combinations

from pennate.core.evidence.audit import (
    JOINT_HEAVY_DAY,
    LEAST_PART_DOSE,
    LONG_DAY_MIN,
    NEGLECTED_PART_DOSE,
    PUSH_PULL_MOST,
    WEIGHT_CROWD,
    WEIGHT_DOSE,
    WEIGHT_JOINT,
    WEIGHT_SAFETY,
    WEIGHT_SMALL,
    WEIGHT_TIME,
)
from pennate.core.evidence.planner import CLOSE_CAP, SESSION_CAP, WEEK_CAP
from pennate.core.exercise import FailureSafety
from pennate.core.muscles import GROUP_SHARES, PART_NAMES, Group, Joint
from pennate.core.performed import SetKind
from pennate.core.prescribed import PrescribedExercise
from pennate.core.week_dose import (
    HOURS_A_DAY,
    hard_sets,
)
from pennate.core.week_effect import effect_of, part_benefit
from pennate.core.week_time import PLATED, multi_joint, stops_of
from pennate.plan.focus import main_group
from pennate.plan.recovery import reps_lost
from pennate.plan.schemes import CARRIED
from pennate.plan.seen import Finding, Seen

GRIP_NEEDED = 3
"""Joint level of the grip from which an exercise depends on it."""
HELD_BY_STRAPS = frozenset({"straps", "strap"})
GUARDS = frozenset({"spotter", "safeties", "safety", "stops", "pins"})


def _low(seen: Seen) -> Iterator[Finding]:
    for group, dose in seen.dose.groups.items():
        asked = seen.week.targets.get(group)
        least = float(asked.low) if asked else LEAST_PART_DOSE
        if dose.value >= least or not least:
            continue
        effect = effect_of(
            part_benefit([least]) - part_benefit([dose.value]), trained=seen.looking.trained
        )
        yield Finding(
            f"low:{group.value}",
            f"{group.value.capitalize()} get {dose.value:.1f} fractional sets a week, "
            f"{least:g} are {'asked' if asked else 'about the least that shows'}.",
            f"The missing sets are worth {effect.low:.1f} to {effect.high:.1f} % of size "
            "over 8–12 weeks, the first ones most.",
            f"{dose.value:.1f} of {least:g} (drops as none or one: {dose.low:.1f}–{dose.high:.1f})",
            "her target" if asked else "Pelland 2024, seen in a summary",
            "direction sure, size uncertain",
            WEIGHT_DOSE * (least - dose.value) / least * _rank(seen, group),
        )


def _rank(seen: Seen, group: Group) -> float:
    return 2.0 if group in seen.week.priorities else 1.0


def _neglected(seen: Seen) -> Iterator[Finding]:
    for group, shares in GROUP_SHARES.items():
        if len(shares) == 1 or seen.dose.groups[group].value < NEGLECTED_PART_DOSE:
            continue
        for part in shares:
            value = seen.dose.part(part).value
            if value >= NEGLECTED_PART_DOSE:
                continue
            yield Finding(
                f"neglected:{part.value}",
                f"{PART_NAMES[part].capitalize()} gets {value:.1f} fractional sets a week while "
                f"{group.value} get {seen.dose.groups[group].value:.1f}.",
                "Parts of a group are trained by different exercises; the sets of one do not "
                "grow the other.",
                f"{value:.1f} of {NEGLECTED_PART_DOSE:g}",
                "our choice: half the smallest dose with detectable growth (Pelland 2024)",
                "direction sure, size uncertain",
                WEIGHT_DOSE / 2 * (NEGLECTED_PART_DOSE - value) / NEGLECTED_PART_DOSE
                * _rank(seen, group),
            )  # fmt: skip


def _high(seen: Seen) -> Iterator[Finding]:
    for group, dose in seen.dose.groups.items():
        asked = seen.week.targets.get(group)
        most = float(asked.high) if asked and asked.high is not None else WEEK_CAP
        if dose.value <= most:
            continue
        last = part_benefit([dose.value / 2] * 2) - part_benefit([most / 2] * 2)
        effect = effect_of(last, trained=seen.looking.trained)
        yield Finding(
            f"high:{group.value}",
            f"{group.value.capitalize()} get {dose.value:.1f} fractional sets a week, "
            f"{most:g} {'are asked at most' if asked else 'is where gains get hard to see'}.",
            f"The sets above buy {max(effect.low, 0):.1f} to {max(effect.high, 0):.1f} % over "
            "8–12 weeks; their time may serve another muscle better.",
            f"{dose.value:.1f} of {most:g}",
            "her target" if asked else "Baz-Valle 2022; Pelland 2024",
            "contested: some gain beyond 20 sets is likely, small",
            WEIGHT_DOSE / 2 * (dose.value - most) / most,
        )


def _crowded(seen: Seen) -> Iterator[Finding]:
    for day, parts in seen.dose.days.items():
        for part, dose in parts.items():
            if dose.value <= SESSION_CAP or not any(part in s for s in GROUP_SHARES.values()):
                continue
            loss = part_benefit([dose.value / 2] * 2) - part_benefit([dose.value])
            effect = effect_of(loss, trained=seen.looking.trained)
            yield Finding(
                f"crowded:{part.value}:{day}",
                f"{day} gives {PART_NAMES[part]} {dose.value:.1f} fractional sets in one session.",
                f"Over two days the same sets would be worth {effect.low:.1f} to "
                f"{effect.high:.1f} % more over 8–12 weeks; small and uncertain.",
                f"{dose.value:.1f}, above {SESSION_CAP:g} little is gained",
                "Remmert 2025, preprint, from memory",
                "small and uncertain",
                WEIGHT_CROWD * (dose.value - SESSION_CAP) / SESSION_CAP,
            )


def _close(seen: Seen) -> Iterator[Finding]:
    for first, second in seen.close_days():
        for part, dose in seen.dose.days[first].items():
            after = seen.dose.days[second].get(part)
            if after is None or not any(part in s for s in GROUP_SHARES.values()):
                continue
            if max(dose.value, after.value) > SESSION_CAP or dose.value + after.value <= CLOSE_CAP:
                continue
            lost = reps_lost(HOURS_A_DAY, dose.value, multi=True)
            yield Finding(
                f"close:{part.value}:{first}",
                f"{PART_NAMES[part].capitalize()} is trained hard on {first} and again on "
                f"{second}, {dose.value + after.value:.1f} fractional sets within a day.",
                f"About {lost:.1f} reps a set are still missing after 24 hours.",
                f"{dose.value:.1f} + {after.value:.1f}",
                "Korak 2015",
                "spread between people is large",
                WEIGHT_CROWD / 2 * (dose.value + after.value - CLOSE_CAP) / CLOSE_CAP,
            )


def _joints(seen: Seen) -> Iterator[Finding]:
    for first, second in seen.close_days():
        for joint in Joint:
            loads = [seen.joints[day].get(joint, 0.0) for day in (first, second)]
            if joint is Joint.GRIP or min(loads) < JOINT_HEAVY_DAY:
                continue
            yield Finding(
                f"joint:{joint.value}:{first}",
                f"{first} and {second} are both heavy for the {joint.value}.",
                "A joint loaded on days in a row has less time to settle; if it complains, this "
                "is the first thing to change.",
                f"{loads[0]:.0f} and {loads[1]:.0f} (hard sets × level 0–3), heavy from "
                f"{JOINT_HEAVY_DAY:g}",
                "relative scale of our own; no trial of spacing found",
                "common practice",
                WEIGHT_JOINT * sum(loads) / (2 * JOINT_HEAVY_DAY),
            )


def _long(seen: Seen) -> Iterator[Finding]:
    for day in seen.days:
        minutes, most = seen.minutes[day.day], float(day.minutes or LONG_DAY_MIN)
        if minutes.value <= most:
            continue
        yield Finding(
            f"long:{day.day}",
            f"{day.day} takes about {minutes.value:.0f} minutes, {most:g} "
            f"{'are asked' if day.minutes else 'is already long'}.",
            "What comes last is what gets dropped or done tired.",
            f"{minutes.value:.0f} min ({minutes.low:.0f}–{minutes.high:.0f})",
            "time model: reps, rests, changeovers (Schoenfeld 2019)",
            f"within {minutes.high / minutes.value - 1:.0%}",
            WEIGHT_TIME * 2 * (minutes.value - most) / most,
        )


def _unsafe(seen: Seen) -> Iterator[Finding]:
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


def _grip_first(seen: Seen) -> Iterator[Finding]:
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


def _order(seen: Seen) -> Iterator[Finding]:
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


def _stations(seen: Seen) -> Iterator[Finding]:
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


def _push_pull(seen: Seen) -> Iterator[Finding]:
    push = pull = 0.0
    for day in seen.days:
        for asked in day.exercises:
            pattern = seen.known[asked.exercise].pattern
            sets = hard_sets(asked)
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
            WEIGHT_SMALL * min(1.0, high / max(low, 1.0) / PUSH_PULL_MOST / 2),
        )


Check = Callable[[Seen], Iterator[Finding]]
CHECKS: tuple[Check, ...] = (
    _unsafe,
    _low,
    _neglected,
    _high,
    _crowded,
    _close,
    _joints,
    _long,
    _grip_first,
    _order,
    _stations,
    _push_pull,
)
"""Adding a check is adding a function and its name."""


def findings(seen: Seen) -> tuple[Finding, ...]:
    """Everything to mend, most pressing first."""
    found = [finding for check in CHECKS for finding in check(seen)]
    return tuple(sorted(found, key=lambda one: (-one.points, one.id)))
