"""What is wrong with a week: each check is a small function, a week in, findings out."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from pennate.core.evidence.audit import (
    JOINT_HEAVY_DAY,
    JOINT_LEAST,
    JOINT_TWO_DAYS,
    LEAST_PART_DOSE,
    LONG_DAY_MIN,
    NEGLECTED_PART_DOSE,
    WEIGHT_CROWD,
    WEIGHT_DOSE,
    WEIGHT_JOINT,
    WEIGHT_TIME,
)
from pennate.core.evidence.planner import CLOSE_CAP, SESSION_CAP, WEEK_CAP
from pennate.core.muscles import GROUP_SHARES, PART_NAMES, Group, Joint
from pennate.core.percent import percent
from pennate.core.week_dose import HOURS_A_DAY
from pennate.core.week_effect import effect_of, part_benefit
from pennate.core.week_time import group_key
from pennate.plan.log_findings import side_sets, side_strength, too_soon
from pennate.plan.recovery import reps_lost
from pennate.plan.seen import Finding, Seen, few
from pennate.plan.session_findings import grip_first, order, push_pull, stations, unsafe

ONE_THING = frozenset({Group.CHEST, Group.BACK, Group.CORE})
"""Groups that are spoken of as one thing, not as several."""

LEAST_AGAIN = 3  # as in the studies: sets of a bout that costs reps, and that can lose them
JOINT_BASE = 0.5
"""Share of the weight that two days at the mark have; the rest grows with the load."""


def _get(group: Group) -> str:
    return f"{group.value} {'gets' if group in ONE_THING else 'get'}"


def _low(seen: Seen) -> Iterator[Finding]:
    for group, dose in seen.dose.groups.items():
        asked = seen.week.targets.get(group)
        least = float(asked.low) if asked else LEAST_PART_DOSE
        if dose.value >= least or not least:
            continue
        effect = effect_of(
            part_benefit([least]) - part_benefit([dose.value]), trained=seen.looking.trained
        )
        ends = few(dose.low), few(dose.high)
        drops = f" (drops as none or one: {'–'.join(ends)})" if ends[0] != ends[1] else ""
        yield Finding(
            f"low:{group.value}",
            f"{_get(group).capitalize()} {few(dose.value)} fractional sets a week, "
            f"{least:g} are {'asked' if asked else 'about the least that shows'}.",
            f"The missing sets are worth {effect.low:.1f} to {effect.high:.1f} % of size "
            "over 8–12 weeks, the first ones most.",
            f"{few(dose.value)} of {least:g}{drops}",
            "your target" if asked else "Pelland 2024, seen in a summary",
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
                f"{PART_NAMES[part].capitalize()} gets {few(value)} fractional sets a week while "
                f"{_get(group)} {few(seen.dose.groups[group].value)}.",
                "Parts of a group are trained by different exercises; the sets of one do not "
                "grow the other.",
                f"{few(value)} of {NEGLECTED_PART_DOSE:g}",
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
            f"{_get(group).capitalize()} {few(dose.value)} fractional sets a week, "
            f"{most:g} {'are asked at most' if asked else 'is where gains get hard to see'}.",
            f"The sets above buy {max(effect.low, 0):.1f} to {max(effect.high, 0):.1f} % over "
            "8–12 weeks; their time may serve another muscle better.",
            f"{few(dose.value)} of {most:g}",
            "your target" if asked else "Baz-Valle 2022; Pelland 2024",
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
                f"{day} gives {PART_NAMES[part]} {few(dose.value)} fractional sets in one session.",
                f"Over two days the same sets would be worth {effect.low:.1f} to "
                f"{effect.high:.1f} % more over 8–12 weeks; small and uncertain.",
                f"{few(dose.value)}, above {SESSION_CAP:g} little is gained",
                "Remmert 2025, preprint, from memory",
                "small and uncertain",
                WEIGHT_CROWD * (dose.value - SESSION_CAP) / SESSION_CAP,
            )


def _close(seen: Seen) -> Iterator[Finding]:
    for first, second in seen.close_days():
        for shares in GROUP_SHARES.values():
            pairs = [
                (seen.dose.part_on(first, part), seen.dose.part_on(second, part), part)
                for part in shares
            ]
            before, after, part = max(pairs, key=lambda one: one[0] + one[1])
            if before + after <= CLOSE_CAP or min(before, after) < LEAST_AGAIN:
                continue
            lost = reps_lost(HOURS_A_DAY, before)
            yield Finding(
                f"close:{group_key(part)}:{first}",
                f"{PART_NAMES[part].capitalize()}: hard sets on {first} and again on {second}, "
                f"{few(before + after)} fractional sets within a day.",
                f"About {lost:.1f} reps a set are still missing after 24 hours.",
                f"{few(before)} + {few(after)}",
                "Korak 2015",
                "spread between people is large",
                WEIGHT_CROWD / 2 * (before + after - CLOSE_CAP) / CLOSE_CAP,
            )


def _joints(seen: Seen) -> Iterator[Finding]:
    for first, second in seen.close_days():
        for joint in Joint:
            loads = [seen.joints[day].get(joint, 0.0) for day in (first, second)]
            most = JOINT_TWO_DAYS * JOINT_HEAVY_DAY
            if (
                joint is Joint.GRIP
                or min(loads) < JOINT_LEAST * JOINT_HEAVY_DAY
                or sum(loads) < most
            ):
                continue
            yield Finding(
                f"joint:{joint.value}:{first}",
                f"{first} and {second} load the {joint.value} hard, a day apart.",
                "A joint loaded on days in a row has less time to settle; if it complains, this "
                "is the first thing to change.",
                f"{loads[0]:.0f} + {loads[1]:.0f} (hard sets × level 0–3), much from {most:g}",
                "relative scale of our own; no trial of spacing found",
                "common practice",
                WEIGHT_JOINT * (sum(loads) / most - 1 + JOINT_BASE),
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
            f"within {percent(minutes.high / minutes.value - 1)}",
            WEIGHT_TIME * 2 * (minutes.value - most) / most,
        )


Check = Callable[[Seen], Iterator[Finding]]
CHECKS: tuple[Check, ...] = (
    unsafe,
    _low,
    _neglected,
    _high,
    _crowded,
    _close,
    _joints,
    _long,
    grip_first,
    order,
    stations,
    push_pull,
    side_sets,
    side_strength,
    too_soon,
)
"""Adding a check is adding a function and its name."""


def findings(seen: Seen) -> tuple[Finding, ...]:
    """Everything to mend, most pressing first."""
    found = [finding for check in CHECKS for finding in check(seen)]
    return tuple(sorted(found, key=lambda one: (-one.points, one.id)))
