"""The pages Recovery and Cycle: what her own log shows, and nothing that it does not."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta
from math import expm1

from pennate.app.body_notes import BLEEDING, PAIN, READINESS, SLEEP
from pennate.app.body_record import PERIOD
from pennate.app.body_recovery import CycleView, settled_question
from pennate.app.body_today import BodyToday, Shown, cautions_on
from pennate.app.body_undo import Noted, noted_lately
from pennate.app.pain_holds import held_words
from pennate.body.recovery import Effect
from pennate.core.cautions import Caution
from pennate.core.evidence.body_recovery import LEAST_MARKED
from pennate.core.facts import Facts
from pennate.core.muscles import Joint
from pennate.core.percent import percent, signed
from pennate.core.plural import plural
from pennate.core.readiness import ALARM
from pennate.web.views.recovery_opened import (
    back_facts,
    cycle_effect_facts,
    lighter_facts,
    reports_facts,
    sleep_facts,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class RecoveryPage:
    """The page Recovery."""

    hours: str
    sleep: str
    sleep_facts: Facts
    reports: str
    reports_facts: Facts
    lighter_facts: Facts
    layoff_facts: Facts
    joints: tuple[str, ...]
    morning: str
    morning_joint: str
    pain: tuple[tuple[str, str, str, str], ...]
    lighter: str
    layoff: str
    joints_known: tuple[str, ...]
    today: str
    typed: str
    nights: tuple[tuple[str, str], ...]
    noted: tuple[Noted, ...]
    held: tuple[str, ...]
    """What pain keeps out of the coming sessions."""


def recovery_page(now: BodyToday, typed: str = "") -> RecoveryPage:
    """The page Recovery."""
    seen, asked = now.recovery, settled_question(now.book)
    return RecoveryPage(
        hours=f"{seen.mean_hours:.1f} hours a night over two weeks" if seen.mean_hours else "",
        sleep=_relation(seen.sleep, "a short night"),
        sleep_facts=sleep_facts(seen),
        reports=_relation(seen.reports, "low energy or soreness"),
        reports_facts=reports_facts(seen),
        lighter_facts=lighter_facts(seen),
        layoff_facts=back_facts(seen.layoff) if seen.layoff else (),
        joints=tuple(one.say[0].upper() + one.say[1:] for one in seen.joints),
        morning=f"Your {asked.joint} hurt yesterday, {asked.score}. This morning?" if asked else "",
        morning_joint=asked.joint if asked else "",
        pain=tuple(
            (
                f"{r.day:%-d %b}",
                r.joint,
                f"{r.score}, {ALARM}" if r.alarming else str(r.score),
                "" if r.next_morning is None else str(r.next_morning),
            )
            for r in seen.pain
        ),
        lighter=seen.lighter.say if seen.lighter else "",
        layoff=seen.layoff.say if seen.layoff else "",
        joints_known=tuple(joint.value for joint in Joint),
        today=now.today.isoformat(),
        typed=typed,
        nights=tuple((f"{n.day:%-d %b}", f"{n.hours:g}") for n in reversed(seen.nights)),
        noted=noted_lately(now.book, SLEEP, PAIN, READINESS),
        held=held_words(now.book, now.today + timedelta(days=1)),
    )


def _relation(effect: Effect, what: str) -> str:
    """Her own relation in words; spoken of only once her log shows it."""
    if effect.shown:
        way = "weaker" if effect.mean < 0 else "stronger"
        low, high = sorted((abs(expm1(effect.low95)), abs(expm1(effect.high95))))
        return (
            f"After {what} you were {percent(abs(expm1(effect.mean)), 1)} {way}"
            f" ({percent(low, 1)} to {percent(high, 1)}), by your own log."
        )
    fewest = int(LEAST_MARKED)
    if min(effect.marked, effect.others) < fewest:
        return (
            f"The effect of {what} on your strength cannot be told yet: "
            f"{effect.marked} such sessions of the {fewest} needed."
        )
    return (
        f"Your log shows no sure effect of {what}: {signed(100 * effect.low95)} to"
        f" {signed(100 * effect.high95)}\u00a0%."
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class CyclePage:
    """The page Cycle. Off, it offers to be turned on and says nothing else."""

    on: bool
    expected: bool
    day: str
    coming: str
    length: str
    length_facts: Facts
    effect: str
    effect_facts: Facts
    notices: tuple[str, ...]
    starts: tuple[str, ...]
    today: str
    noted: tuple[Noted, ...]
    cautions: tuple[Caution, ...]


def cycle_page(now: BodyToday) -> CyclePage:
    """The page Cycle."""
    seen = now.cycle
    return CyclePage(
        on=seen is not None,
        expected=now.choices.periods_expected,
        day=f"Day {seen.day}" if seen and seen.day is not None else "",
        coming=_coming(seen),
        length=_length(seen),
        length_facts=_length_facts(seen),
        effect=_relation(seen.effect, "the first days of a period") if seen else "",
        effect_facts=cycle_effect_facts(seen.effect) if seen else (),
        notices=seen.notices if seen else (),
        starts=tuple(f"{day:%-d %B %Y}" for day in reversed(seen.starts)) if seen else (),
        today=now.today.isoformat(),
        noted=noted_lately(now.book, PERIOD, BLEEDING) if seen else (),
        cautions=cautions_on(now, Shown()),
    )


def _coming(seen: CycleView | None) -> str:
    if seen is None or seen.coming is None:
        return ""
    first, last = seen.coming
    return f"The next likely starts {first:%-d %B} to {last:%-d %B} (eight times in ten)."


def _length(seen: CycleView | None) -> str:
    if seen is None:
        return ""
    return f"{seen.length.low:.0f} to {seen.length.high:.0f} days"


def _length_facts(seen: CycleView | None) -> Facts:
    if seen is None:
        return ()
    own = plural(seen.length.cycles, "cycle")
    skipped = (
        f"; {plural(seen.length.skipped, 'length')} looks like two" if seen.length.skipped else ""
    )
    return (
        ("rests on", f"{own} of yours, and everybody's{skipped}"),
        ("middle", f"{seen.length.middle:.1f} days"),
        ("rule", "days counted from logged first days only; no phase is inferred"),
        ("use", "compares weight and girth at like days; no load changes by it"),
        ("source", "Bull 2019, 612,613 cycles; Fehring 2006"),
    )
