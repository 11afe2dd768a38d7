"""How long pages wait over a year of the made-up lifter's log: audit, re-plan, substitutes."""

from __future__ import annotations

import time
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory

from pennate.app.book import Book
from pennate.app.demo import make_demo
from pennate.app.planning import swaps_for
from pennate.app.read_ahead import read_ahead
from pennate.app.response_sheet import prepare
from pennate.app.swaps import offers
from pennate.app.today import card_for
from pennate.app.week_audit import audit_of
from pennate.app.week_happened import MISSED, Told
from pennate.app.week_known import looking_at
from pennate.app.week_plan import Proposal, start_replan
from pennate.app.week_swaps import ready_swaps
from pennate.app.week_work import Work
from pennate.core.exercise import EquipmentKind
from pennate.core.muscles import Joint
from pennate.core.prescribed import Week
from pennate.files.week import read_week
from pennate.plan.audit import Audited

NOW = datetime(2026, 11, 23, 17, 5, tzinfo=UTC)
UNBALANCED = Path(__file__).parents[2] / "tests" / "plan" / "unbalanced.toml"
PATIENCE_S = 600
SHOWN = 8


def page_times() -> Iterator[str]:
    """Lines of a list: what was asked, processor and wall seconds until it was there."""
    with TemporaryDirectory() as folder:
        book = make_demo(Path(folder) / "demo", lambda: NOW, weeks=52)
        try:
            yield from _times(book)
        finally:
            book.close()


def _times(book: Book) -> Iterator[str]:
    week = book.week()
    if week is None:
        raise SystemExit("the made-up lifter follows no week")
    with _Watch() as watch:
        read_ahead(book)
    yield f"- the log read and learned from when the server begins: {watch}"
    with _Watch() as watch:
        looking_at(book, week)
    yield f"- what the log says to the week, the first time: {watch}"
    for name, one in (
        ("her week", week),
        ("the unbalanced week", read_week(UNBALANCED, book.catalogue)),
    ):
        yield from _audit(book, name, one)
    times = []
    for name, told in _events(week):
        work: Work[Proposal] = Work()
        with _Watch() as watch:
            task = start_replan(book, work, told, this_week=True)
            task.wait(PATIENCE_S)
            task.outcome()
        times.append(watch.cpu)
        yield f"- re-plan after {name}: {watch}"
    yield f"- re-plan on the page, worst: {max(times):.2f} s of the processor; wanted 2 s"
    yield from _swaps(book, week)


def _swaps(book: Book, week: Week) -> Iterator[str]:
    """Substitutes for every exercise of the week: on the page, in the terminal, taken along."""
    page, terminal, along = [], [], []
    for day in week.days:
        if day.rest:
            continue
        card_for(book, book.today, weekday=day.day)  # the page that the question stands on
        for stop, asked in enumerate(day.exercises):
            with _Watch() as watch:
                offers(book, book.today, day.day, stop)
            page.append(watch.cpu)
            with _Watch() as watch:
                ranked = swaps_for(asked.exercise, week, book.catalogue, day=day.day)
                found = ready_swaps(book, ranked, None, most=SHOWN)
            terminal.append(watch.cpu / max(1, len(found)))
        times = []
        for wanted in (True, False):
            with _Watch() as watch:
                prepare(book, book.today, day.day, substitutes=wanted)
            times.append(watch.cpu)
        along.append((times[0] - times[1]) / len(day.exercises))
    for where, took in (
        ("on the page, two substitutes with their loads, an exercise", page),
        ("in the terminal, each of eight with its load", terminal),
        ("ahead of time for the phone, two with all it needs out of reach, an exercise", along),
    ):
        middle, most = 1000 * median(took), 1000 * max(took)
        yield f"- {where}: median {middle:.0f} ms of the processor, worst {most:.0f}; wanted 50"


def _audit(book: Book, name: str, week: Week) -> Iterator[str]:
    work: Work[Audited] = Work()
    with _Watch() as watch:
        audit_of(book, week, work, patience_s=0)
    yield f"- audit of {name}, findings shown: {watch}"
    with _Watch() as watch:
        audit_of(book, week, work, patience_s=PATIENCE_S)
    yield f"- audit of {name}, every fix computed after that: {watch}"


def _events(week: Week) -> Iterator[tuple[str, Told]]:
    training = [day.day for day in week.days if not day.rest]
    lost = week.days[0].exercises[0].exercise
    yield "a missed day", Told(states=dict.fromkeys(training[:1], MISSED))
    yield "two missed days", Told(states=dict.fromkeys(training[:2], MISSED))
    yield "a lost machine", Told(gone={lost})
    yield "a sore knee", Told(joint_limits={Joint.KNEE: 1})
    yield "45 minutes a day", Told(minutes=dict.fromkeys(training, 45))
    yield "a trip with bands", Told(kit={EquipmentKind.BANDS})


class _Watch:
    """Processor and wall seconds of a piece of work, helpers of this process included."""

    def __enter__(self) -> _Watch:
        self._cpu, self._wall = time.process_time(), time.perf_counter()
        return self

    def __exit__(self, *_: object) -> None:
        self.cpu = time.process_time() - self._cpu
        self.wall = time.perf_counter() - self._wall

    def __str__(self) -> str:
        return f"{self.cpu:.2f} s of the processor ({self.wall:.2f} s passed)"
