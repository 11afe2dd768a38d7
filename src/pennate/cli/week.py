"""Commands of the week: audit, plan, replan, swap."""

from __future__ import annotations

import signal
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from pennate.cli.common import JsonFlag, clear_errors, print_json

if TYPE_CHECKING:
    from pennate.app.planning import Planned
    from pennate.core.exercise import EquipmentKind
    from pennate.core.muscles import Joint
    from pennate.core.prescribed import Week
    from pennate.plan.audit import Audited
    from pennate.plan.solve import Progress

SHOWN_SWAPS = 8
TELL_EVERY_S = 0.5
WeekFile = Annotated[Path, typer.Argument(metavar="WEEK.toml", help="A week file.")]
OutFile = Annotated[Path | None, typer.Option("--out", help="Write the week to this file.")]
SoreJoints = Annotated[
    list[str] | None,
    typer.Option("--sore", help="A sore joint, knee, or with its pain, knee=4."),
]
Kinds = Annotated[
    list[str] | None, typer.Option("--kit", help="Only this kind of equipment: bands, dumbbells …")
]


def register(app: typer.Typer) -> None:
    """Add the commands."""
    for command in (audit, plan, replan, swap):
        app.command()(command)


def audit(week: WeekFile, *, as_json: JsonFlag = False) -> None:
    """Say what is wrong with a week, and which one change mends most."""
    with clear_errors(as_json=as_json):
        from pennate.app.planning import audit_file
        from pennate.app.planning_text import audit_document

        audited = audit_file(week)
        if as_json:
            print_json(audit_document(audited))
            return
        _tell_audit(audited)


def _tell_audit(audited: Audited) -> None:
    for group, dose in audited.groups.items():
        typer.echo(f"{group.value:12} {dose.value:5.1f} fractional sets")
    for day, minutes in audited.minutes.items():
        typer.echo(f"{day:12} {minutes.value:5.0f} min ({minutes.low:.0f}–{minutes.high:.0f})")
    if audited.good:
        typer.echo("Nothing to mend: a good week.")
        return
    for one in audited.findings:
        typer.echo(f"\n{one.what}\n  {one.why}\n  {one.number} · {one.source} · {one.certainty}")
        fix = audited.fixes.get(one.id)
        if fix:
            typer.echo(f"  → {fix.what} ({fix.minutes:+.0f} min)")
    if audited.best:
        typer.echo(f"\nOne change mends most: {audited.best.what}.")


def plan(
    brief: Annotated[Path, typer.Argument(metavar="BRIEF.toml", help="Time, place and wishes.")],
    *,
    current: Annotated[
        Path | None, typer.Option("--current", help="The week she trains now; changes cost.")
    ] = None,
    out: OutFile = None,
    seed: Annotated[int, typer.Option(help="The same seed gives the same week.")] = 0,
    stop_after: Annotated[
        float | None, typer.Option("--stop-after", help="Stop after so many seconds.")
    ] = None,
    as_json: JsonFlag = False,
) -> None:
    """Solve for the best week, with a bound that no week can pass. Ctrl-C keeps the best."""
    with clear_errors(as_json=as_json), _interruptible() as asked_to_stop:
        from pennate.app.planning import Asking, plan_file
        from pennate.app.planning_text import plan_document
        from pennate.files.catalogue import read_catalogue

        watch = _watch(asked_to_stop, stop_after, quiet=as_json)
        planned = plan_file(brief, current, Asking(seed=seed, watch=watch, clock=time.perf_counter))
        _write(planned.week, out)
        if as_json:
            print_json(plan_document(planned, read_catalogue()))
            return
        _tell_plan(planned)


def _watch(
    asked_to_stop: Callable[[], bool], stop_after: float | None, *, quiet: bool
) -> Callable[[Progress], bool]:
    began = told = time.perf_counter()

    def look(progress: Progress) -> bool:
        nonlocal told
        now = time.perf_counter()
        if not quiet and now - told > TELL_EVERY_S:
            told = now
            known = f", bound {progress.bound:.2f}" if progress.bound < float("inf") else ""
            typer.echo(f"{progress.stage}: {progress.objective:.2f}{known}", err=True)
        return asked_to_stop() or (stop_after is not None and now - began > stop_after)

    return look


@contextmanager
def _interruptible() -> Iterator[Callable[[], bool]]:
    """Ctrl-C sets a flag instead of ending the work at once."""
    stopped = False

    def stop(*_: object) -> None:
        nonlocal stopped
        stopped = True

    before = signal.signal(signal.SIGINT, stop)
    try:
        yield lambda: stopped
    finally:
        signal.signal(signal.SIGINT, before)


def _write(week: Week, out: Path | None) -> None:
    from pennate.errors import InputError
    from pennate.files.week_text import render_week

    if out is None:
        return
    try:
        out.write_text(render_week(week), encoding="utf-8")
    except OSError as error:
        raise InputError(f"cannot write {out}: {error.strerror}") from None


def _tell_week(week: Week) -> None:
    from pennate.core.week_names import why_here
    from pennate.files.catalogue import read_catalogue

    known = read_catalogue().with_own(week.own_exercises)
    for day in week.days:
        typer.echo(f"\n{day.day}" + (": rest" if day.rest else ""))
        for asked in day.exercises:
            sets = sum(sets.count for sets in asked.sets)
            mark = f" [{asked.superset}]" if asked.superset else ""
            typer.echo(f"  {sets} × {known[asked.exercise].name}{mark}  {why_here(asked, known)}")


def _tell_plan(planned: Planned) -> None:
    _tell_week(planned.week)
    solved = planned.solved
    typer.echo("")
    if solved.stopped:
        typer.echo("Stopped: this is the best found so far.")
    typer.echo(f"Worth {solved.objective:.2f}, no week is worth more than {solved.bound:.2f}.")
    for line in planned.binding:
        typer.echo(f"Binds: {line}.")
    for one in planned.more:
        low, high = one.effect.low, one.effect.high
        typer.echo(f"{one.what}: +{one.objective:.2f}, {low:.1f}–{high:.1f} % over all groups.")


def replan(
    week: WeekFile,
    *,
    missed: Annotated[list[str] | None, typer.Option("--missed", help="A day missed.")] = None,
    done: Annotated[list[str] | None, typer.Option("--done", help="A day already done.")] = None,
    lost: Annotated[
        list[str] | None, typer.Option("--lost", help="An exercise or item that is gone.")
    ] = None,
    sore: SoreJoints = None,
    kit: Kinds = None,
    minutes: Annotated[
        list[str] | None, typer.Option("--minutes", help="Less time: Tuesday=45.")
    ] = None,
    out: OutFile = None,
    as_json: JsonFlag = False,
) -> None:
    """Change the rest of a week as little as possible after something happened."""
    with clear_errors(as_json=as_json):
        from pennate.app.planning import replan_week
        from pennate.app.planning_text import replan_document
        from pennate.files.catalogue import read_catalogue
        from pennate.files.week import read_week
        from pennate.plan.replan import Happened

        catalogue = read_catalogue()
        happened = Happened(
            missed=frozenset(_day(text) for text in missed or ()),
            done=frozenset(_day(text) for text in done or ()),
            lost=frozenset(lost or ()),
            kinds=_kinds(kit),
            joint_limits=_limits(sore),
            minutes=dict(_minutes_of(text) for text in minutes or ()),
        )
        found = replan_week(read_week(week, catalogue), happened, catalogue)
        _write(found.week, out)
        if as_json:
            print_json(replan_document(found, catalogue))
            return
        _tell_week(found.week)
        typer.echo("\n" + "\n".join(found.changes or ("Nothing changes.",)))


def swap(
    exercise: Annotated[str, typer.Argument(help="The exercise to replace, by id or name.")],
    *,
    week: Annotated[Path | None, typer.Option("--week", help="The week it stands in.")] = None,
    day: Annotated[str, typer.Option("--day", help="The day it stands on.")] = "",
    sore: SoreJoints = None,
    kit: Kinds = None,
    as_json: JsonFlag = False,
) -> None:
    """Rank what could replace an exercise, by muscle dose kept, joints and equipment."""
    with clear_errors(as_json=as_json):
        from pennate.app.planning import swaps_for
        from pennate.app.planning_text import swap_document
        from pennate.files.catalogue import read_catalogue
        from pennate.files.week import read_week

        catalogue = read_catalogue()
        found = swaps_for(
            exercise,
            read_week(week, catalogue) if week else None,
            catalogue,
            day=_day(day) if day else "",
            kinds=_kinds(kit),
            joints=_limits(sore),
        )
        if as_json:
            print_json(swap_document(found))
            return
        for one in found[:SHOWN_SWAPS]:
            typer.echo(f"{one.name} ({one.kind.value}): {one.because}, {one.minutes:+.0f} min")


def _day(text: str) -> str:
    from pennate.core.near import did_you_mean
    from pennate.core.prescribed import WEEKDAYS
    from pennate.errors import InputError

    for day in WEEKDAYS:
        if len(text) >= len("Mon") and day.casefold().startswith(text.casefold()):
            return day
    raise InputError(f"“{text}” is no day", remedy=did_you_mean(text, WEEKDAYS, "like Monday"))


def _minutes_of(text: str) -> tuple[str, int]:
    from pennate.errors import InputError

    day, _, minutes = text.partition("=")
    if not minutes.isdigit() or not int(minutes):
        raise InputError(f"“{text}” is no day with minutes", remedy="write it like Tuesday=45")
    return _day(day), int(minutes)


def _kinds(texts: list[str] | None) -> frozenset[EquipmentKind]:
    from pennate.core.exercise import EquipmentKind
    from pennate.core.near import did_you_mean
    from pennate.errors import InputError

    known = {kind.value: kind for kind in EquipmentKind}
    for text in texts or ():
        if text.casefold() not in known:
            remedy = did_you_mean(text, tuple(known), f"one of: {', '.join(known)}")
            raise InputError(f"“{text}” is no kind of equipment", remedy=remedy)
    asked = frozenset(known[text.casefold()] for text in texts or ())
    return asked | {EquipmentKind.BODY_WEIGHT} if asked else frozenset(EquipmentKind)


def _limits(texts: list[str] | None) -> dict[Joint, int]:
    """A joint with its pain by the pain rule; a joint alone counts as pain that reduces."""
    from pennate.core.muscles import Joint
    from pennate.core.near import did_you_mean
    from pennate.core.readiness import PainAction, pain_action
    from pennate.errors import InputError

    known = {joint.value: joint for joint in Joint}
    allowed = {PainAction.GO_ON: 3, PainAction.REDUCE: 1, PainAction.STOP: 0}
    limits: dict[Joint, int] = {}
    for text in texts or ():
        name, _, score = text.partition("=")
        if name.casefold() not in known:
            remedy = did_you_mean(name, tuple(known), f"one of: {', '.join(known)}")
            raise InputError(f"“{name}” is no joint", remedy=remedy)
        if score and not (score.isdigit() and int(score) <= 10):
            raise InputError(f"“{score}” is no pain from 0 to 10", remedy="write it like knee=4")
        action = pain_action(int(score)) if score else PainAction.REDUCE
        limits[known[name.casefold()]] = allowed[action]
    return limits
