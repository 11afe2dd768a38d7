"""Commands of the week: audit, plan, replan, swap, block."""

from __future__ import annotations

import signal
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from math import isfinite
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from pennate.cli.common import (
    DataDir,
    JsonFlag,
    clear_errors,
    keep_apart,
    print_json,
    this_day,
)
from pennate.cli.log_options import reads_log
from pennate.cli.replan import replan
from pennate.cli.week_files import (
    Kinds,
    OutFile,
    SoreJoints,
    WeekFile,
    records,
    tell_week,
    write_week,
)
from pennate.cli.week_words import day_of, kit_of, limits

if TYPE_CHECKING:
    from pennate.app.book import Book
    from pennate.app.planning import Planned
    from pennate.app.week_swaps import Ready
    from pennate.core.question import Question
    from pennate.files.how import How
    from pennate.plan.audit import Audited
    from pennate.plan.solve import Progress
    from pennate.plan.substitute import Substitute

SHOWN_SWAPS = 8
TELL_EVERY_S = 0.5


def register(app: typer.Typer) -> None:
    """Add the commands."""
    for command in (audit, plan, replan, swap, block):
        app.command()(command)


@reads_log
def audit(
    week: WeekFile,
    *,
    log: Annotated[
        Path | None, typer.Option("--log", help="A training log to read instead of your records.")
    ] = None,
    how: How,
    data: DataDir = None,
    as_json: JsonFlag = False,
) -> None:
    """Say what is wrong with a week, and which one change mends most.

    Your records, or `--log`, tell your pace, left and right, what is still tired, and how hard
    sets are that leave it open, and of a pause. A log is taken as of its last set; sets of days
    still to come are asked about and left out.
    """
    with (
        clear_errors(as_json=as_json),
        _log_orrecords(log, how, week, data) as (book, asked),
    ):
        from pennate.app.minutes_told import pace_words
        from pennate.app.planning_text import audit_document
        from pennate.app.week_audit import audit_file

        found = audit_file(week, book, this_day() if log else None, asked)
        if as_json:
            print_json(audit_document(found))
            return
        if all(day.rest for day in found.audited.week.days):
            typer.echo("No exercise is planned in this week yet: `pennate plan` plans one.")
            return
        _tell_audit(found.audited)
        if book is not None:
            typer.echo(f"\n{pace_words(found.pace)}")
        for line in found.pauses:
            typer.echo(line)
        for question in found.questions:
            typer.echo(f"To check: {question}")


@contextmanager
def _log_orrecords(
    log: Path | None, how: How, week: Path, data: Path | None
) -> Iterator[tuple[Book | None, tuple[Question, ...]]]:
    """A log read for the moment with what to ask of it, else her records, else nothing."""
    from pennate.app.week_audit import book_of_log

    if log is None:
        with records(data) as book:
            yield book, ()
        return
    with book_of_log(log, week, how) as read:
        yield read.book, read.questions


def _tell_audit(audited: Audited) -> None:
    from pennate.core.evidence.dose import DROP_CREDIT

    for group, dose in audited.groups.items():
        typer.echo(f"{group.value:12} {dose.value:5.1f} fractional sets")
    typer.echo(
        "A set counts whole for what it works directly, half for what helps;"
        f" a drop {DROP_CREDIT:g} (pennate evidence dose)."
    )
    for day, minutes in audited.minutes.items():
        typer.echo(f"{day:12} {minutes.value:5.0f} min ({minutes.low:.0f}–{minutes.high:.0f})")
    typer.echo("A day ends within its range nine times in ten (pennate evidence minutes).")
    if audited.good:
        typer.echo("Nothing to mend: a good week.")
        return
    for one in audited.findings:
        typer.echo(f"\n{one.what}\n  {one.why}\n  {one.number} · {one.source} · {one.certainty}")
        fix = audited.fixes.get(one.id)
        if fix:
            typer.echo(f"  → {fix.what} ({round(fix.minutes):+d} min)")
    if audited.best:
        typer.echo(f"\nOne change mends most: {audited.best.what}.")


def plan(
    brief: Annotated[Path, typer.Argument(metavar="BRIEF.toml", help="Time, place and wishes.")],
    *,
    current: Annotated[
        Path | None, typer.Option("--current", help="The week you train now; changes cost.")
    ] = None,
    out: OutFile = None,
    seed: Annotated[int, typer.Option(help="The same seed gives the same week.")] = 0,
    stop_after: Annotated[
        float | None, typer.Option("--stop-after", help="Stop after so many seconds.")
    ] = None,
    data: DataDir = None,
    as_json: JsonFlag = False,
) -> None:
    """Solve for the best week, with a bound that no week can pass.

    Ctrl-C keeps the best week so far. The brief is taken as the Week page takes
    its form: the week you train now (`--current`, the brief’s, or that of your
    records) stays where that costs little, and what the brief leaves open stays
    about as it is. `near = false` in the brief starts afresh.
    """
    with clear_errors(as_json=as_json), _interruptible() as asked_to_stop:
        from pennate.app.planning import Asking
        from pennate.app.planning_text import plan_document
        from pennate.app.week_asked import asked_by_file, plan_asked
        from pennate.files.catalogue import read_catalogue

        keep_apart(brief, "the brief", {"--out": out})
        watch = _watch(asked_to_stop, stop_after, quiet=as_json)
        asking = Asking(seed=seed, watch=watch, clock=time.perf_counter)
        with records(data) as book:
            asked = asked_by_file(brief, current, book, asking)
        planned = plan_asked(asked)
        write_week(planned.week, out)
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


def worth_words(objective: float, bound: float) -> str:
    """What a week is worth, and no other can pass; a bound may be infinite, as not found yet."""
    known = isfinite(bound)
    most = f"no week is worth more than {bound:.2f}" if known else "no bound was found yet"
    return f"Worth {objective:.2f}, {most}."


def _tell_plan(planned: Planned) -> None:
    from pennate.app.worth_told import WORTH

    tell_week(planned.week)
    solved = planned.solved
    typer.echo("")
    if solved.stopped:
        typer.echo("Stopped: this is the best found so far.")
    typer.echo(worth_words(solved.objective, solved.bound))
    typer.echo(f"Worth is {WORTH}.")
    for line in planned.binding:
        typer.echo(f"Binds: {line}.")
    for one in planned.more:
        low, high = one.effect.low, one.effect.high
        typer.echo(f"{one.what}: +{one.objective:.2f}, {low:.1f}–{high:.1f} % over all groups.")


def swap(
    exercise: Annotated[str, typer.Argument(help="The exercise to replace, by id or name.")],
    *,
    week: Annotated[Path | None, typer.Option("--week", help="The week it stands in.")] = None,
    day: Annotated[str, typer.Option("--day", help="The day it stands on.")] = "",
    sore: SoreJoints = None,
    kit: Kinds = None,
    gym: Annotated[
        str, typer.Option("--gym", help="A gym file, or a starter gym's id; else your own.")
    ] = "",
    data: DataDir = None,
    as_json: JsonFlag = False,
) -> None:
    """Rank what could replace an exercise, by muscle dose kept, joints and equipment.

    Each comes with its load: from your log and gym where there are records, else from
    `--gym` and people like you.
    """
    with clear_errors(as_json=as_json):
        from pennate.app.planning import swaps_for
        from pennate.app.planning_text import swap_document
        from pennate.files.catalogue import read_catalogue
        from pennate.files.week import read_week

        catalogue = read_catalogue()
        kinds, fixtures = kit_of(kit)
        found = swaps_for(
            exercise,
            read_week(week, catalogue) if week else None,
            catalogue,
            day=day_of(day) if day else "",
            kinds=kinds,
            fixtures=fixtures,
            joints=limits(sore),
        )
        ready = _with_loads(found, gym, data, itself=not (sore or kit))
        at = {(one.one.exercise, one.one.kind): one for one in ready}
        rest = [one for one in found if (one.exercise, one.kind) not in at]
        found = (*(one.one for one in ready), *rest)
        if as_json:
            print_json(swap_document(found, ready))
            return
        for one in found[: len(ready) or SHOWN_SWAPS]:
            here = at.get((one.exercise, one.kind))
            load = here.words if here else ""
            typer.echo(f"{one.name} ({one.kind.value}){': ' if load else ''}{load}")
            typer.echo(f"    {one.because}, {round(one.minutes):+d} min")


def _with_loads(
    found: Sequence[Substitute], gym: str, data: Path | None, *, itself: bool
) -> tuple[Ready, ...]:
    """The substitutes on items with loads; none where neither records nor a gym are there."""
    from datetime import datetime

    from pennate.app.gyms import open_gym
    from pennate.app.week_swaps import first_swaps, ready_swaps
    from pennate.files.catalogue import read_catalogue

    there = open_gym(gym) if gym else None
    with records(data) as book:
        if book is not None:
            return ready_swaps(book, found, there, most=SHOWN_SWAPS, itself=itself)
    if there is None:
        return ()
    now = datetime.now().astimezone()
    return first_swaps(found, there, read_catalogue(), now, most=SHOWN_SWAPS, itself=itself)


def block(
    week: WeekFile,
    *,
    weeks: Annotated[int, typer.Option("--weeks", help="How many weeks.")] = 6,
    ramp: Annotated[str, typer.Option("--ramp", help="What rises: effort, sets, nothing.")] = (
        "effort"
    ),
    lighter: Annotated[bool, typer.Option("--lighter", help="End in a lighter week.")] = False,
    out: Annotated[
        Path | None, typer.Option("--out", help="Write a week file for each week into this folder.")
    ] = None,
    data: DataDir = None,
    as_json: JsonFlag = False,
) -> None:
    """Several weeks of one week, with a ramp: habit, not evidence. Minutes at your pace."""
    with clear_errors(as_json=as_json):
        from pennate.app.planning_text import block_document
        from pennate.app.week_block import block_at, block_plan, wish_of
        from pennate.files.catalogue import read_catalogue
        from pennate.files.week import read_week

        wish = wish_of(str(weeks), ramp, lighter=lighter)
        with records(data) as book:
            catalogue = book.catalogue if book else read_catalogue()
            base = read_week(week, catalogue)
            plan = block_at(book, base, wish) if book else block_plan(base, catalogue, wish)
        for one in plan.weeks:
            write_week(one.week, out / f"week-{one.number}.toml" if out else None)
        if as_json:
            print_json(block_document(plan))
            return
        for one in plan.weeks:
            mark = ", lighter" if one.lighter else ""
            typer.echo(
                f"week {one.number}{mark}: {one.sets:.0f} hard sets, {one.reserve} in reserve, "
                f"{one.minutes:.0f} min"
            )
        typer.echo(f"\n{plan.note.capitalize()}.")
        told = [(group, effect) for group, effect in plan.expected.items() if effect.shows]
        if not told:
            typer.echo("In size, nothing that differs from the same week throughout.")
            return
        typer.echo("In size, against the same week throughout (90 % range):")
        for group, effect in told:
            typer.echo(f"{group.value:12} {effect.words}")
