"""How good and how fast the planner is: `python -m bench.plan`.

Solves every committed brief, checks each week by `bench.plan.rules`, re-plans it after a
missed day, times a substitution, and writes RESULTS.md beside this file. `--only 1,5`
solves some and prints them; `--page` measures the pages alone and puts them in their place.
"""

from __future__ import annotations

import argparse
import platform
import statistics
import time
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from bench.plan.page import page_times
from bench.plan.rules import complaints
from pennate.app.planning import Asking, audit_week, plan_week
from pennate.core.exercise import Catalogue, EquipmentKind
from pennate.core.prescribed import Week
from pennate.errors import NoAnswerError
from pennate.files.brief import read_brief
from pennate.files.catalogue import read_catalogue
from pennate.files.week import read_week
from pennate.plan.build import Setting, usable
from pennate.plan.replan import Happened, replan
from pennate.plan.solve import Progress
from pennate.plan.substitute import substitutes

HERE = Path(__file__).parent
PAGE = "On the Week page, over a year of the made-up lifter's log:"


@dataclass(frozen=True, slots=True)
class Row:
    """One brief's figures; times are wall clock and processor seconds.

    `longer_s` is the processor time of search or proof, whichever took more: what two cores
    that have nothing else to do would need at least.
    """

    name: str
    days: int
    exercises: int
    objective: float
    bound: float
    gap: float
    first_good_s: float
    wall_s: float
    cpu_s: float
    longer_s: float
    replan_s: float
    swap_ms: float
    audit_s: float
    in_a_row: int
    """Findings of its audit about joints loaded hard on days in a row."""
    broken: int
    feasible: bool = True


class Stopwatch:
    """Remembers when each better week was seen."""

    def __init__(self) -> None:
        self.began = time.process_time()
        self.seen: list[tuple[float, float]] = []

    def look(self, progress: Progress) -> bool:
        """Never asks to stop."""
        if not self.seen or progress.objective > self.seen[-1][1] + 1e-9:
            self.seen.append((time.process_time() - self.began, progress.objective))
        return False

    def first_good(self, final: float) -> float:
        """Seconds until the value was within 5 % of the final one."""
        good = (when for when, value in self.seen if final - value <= 0.05 * final)
        return next(good, float("nan"))


def measure(path: Path, catalogue: Catalogue) -> Row:
    """Solve one brief and measure."""
    brief = read_brief(path, catalogue)
    kinds = frozenset(brief.equipment or EquipmentKind)
    current = read_week(path.parent / brief.current, catalogue) if brief.current else None
    count = len(usable(brief, catalogue, Setting(kinds=kinds)))
    watch = Stopwatch()
    wall, cpu, own = time.perf_counter(), time.process_time(), time.thread_time()
    asking = Asking(kinds=kinds, current=current, watch=watch.look, with_more=False)
    try:
        planned = plan_week(brief, catalogue, asking)
    except NoAnswerError:
        took = time.perf_counter() - wall
        nan = float("nan")
        unknown = (nan, nan, nan, nan, took, nan, nan, nan, nan, nan)
        return Row(
            path.stem, len(brief.days), count, *unknown, in_a_row=0, broken=0, feasible=False
        )
    wall_s, cpu_s = time.perf_counter() - wall, time.process_time() - cpu
    own_s = time.thread_time() - own
    solved = planned.solved
    cpu = time.process_time()
    audited = audit_week(planned.week, catalogue.with_own(brief.own_exercises))
    audit_s = time.process_time() - cpu
    return Row(
        path.stem,
        len(brief.days),
        count,
        solved.objective,
        solved.bound,
        solved.gap,
        watch.first_good(solved.objective),
        wall_s,
        cpu_s,
        max(own_s, cpu_s - own_s),
        *_beside(planned.week, catalogue, kinds),
        audit_s,
        sum(one.id.startswith("joint:") for one in audited.findings),
        len(complaints(planned.week, brief, catalogue, kinds, current)),
    )


def _beside(
    week: Week, catalogue: Catalogue, kinds: frozenset[EquipmentKind]
) -> tuple[float, float]:
    """Seconds of a re-plan after the first day is missed, milliseconds of a substitution."""
    training = [day for day in week.days if not day.rest]
    cpu = time.process_time()
    if len(training) > 1:
        replan(week, Happened(missed={training[0].day}, kinds=kinds), catalogue)
    replan_s = time.process_time() - cpu
    cpu = time.process_time()
    substitutes(training[0].exercises[0].exercise, training[0], week, catalogue, kinds, {})
    return replan_s, 1000 * (time.process_time() - cpu)


def table(rows: Sequence[Row]) -> str:
    """The rows and their summary as Markdown."""
    lines = [
        (
            "| brief | days | exercises | objective | bound | gap % | first good s | cpu s "
            "| longer of two s | wall s | re-plan s | swap ms | audit s | joints in a row "
            "| rules broken |"
        ),
        "|" + "---|" * 15,
    ]
    for row in rows:
        if not row.feasible:
            lines.append(
                f"| {row.name} | {row.days} | {row.exercises} | no week meets the wishes"
                f" | | | | | | {row.wall_s:.1f} | | | | | |"
            )
            continue
        lines.append(
            f"| {row.name} | {row.days} | {row.exercises} | {row.objective:.3f} | {row.bound:.3f} "
            f"| {100 * row.gap:.2f} | {row.first_good_s:.2f} | {row.cpu_s:.1f} "
            f"| {row.longer_s:.1f} | {row.wall_s:.1f} | {row.replan_s:.2f} | {row.swap_ms:.1f} "
            f"| {row.audit_s:.2f} | {row.in_a_row} | {row.broken} |"
        )
    return "\n".join(lines)


def summary(rows: Sequence[Row]) -> str:
    """Medians and worst of all solved briefs, and of those of the stated size."""
    lines = []
    solved = [row for row in rows if row.feasible]
    stated = [row for row in solved if row.days == 6 and row.exercises >= 60]
    for name, some in (("all solved briefs", solved), ("6 days, 60 exercises or more", stated)):
        if not some:
            continue
        gaps = sorted(100 * row.gap for row in some)
        within = sum(gap <= 1 for gap in gaps)
        lines.append(
            f"- {name} ({len(some)}): gap median {statistics.median(gaps):.2f} %, worst "
            f"{gaps[-1]:.2f} %, at most 1 % in {within}; processor seconds median "
            f"{statistics.median(r.cpu_s for r in some):.1f}, worst "
            f"{max(r.cpu_s for r in some):.1f}, search or proof alone median "
            f"{statistics.median(r.longer_s for r in some):.1f}, worst "
            f"{max(r.longer_s for r in some):.1f}; "
            f"first good week worst {max(r.first_good_s for r in some):.2f} s; re-plan worst "
            f"{max(r.replan_s for r in some):.2f} s; substitution worst "
            f"{max(r.swap_ms for r in some):.1f} ms; audit with every fix worst "
            f"{max(r.audit_s for r in some):.2f} s; joints hard on days in a row "
            f"{sum(r.in_a_row for r in some)}; rules broken {sum(r.broken for r in some)}"
        )
    return "\n".join(lines)


def _page_alone() -> None:
    """Measure the pages again; the rest of the results stays."""
    results = HERE / "RESULTS.md"
    before, _, after = results.read_text(encoding="utf-8").partition(PAGE)
    page = "\n".join(page_times())
    print(page)
    table = after[after.index("\n\n| brief") :]
    results.write_text(f"{before}{PAGE}\n\n{page}{table}", encoding="utf-8")


def main() -> None:
    """Run the benchmark."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--only", help="numbers of briefs, like 1,5")
    parser.add_argument("--page", action="store_true", help="the pages alone")
    asked = parser.parse_args()
    if asked.page:
        _page_alone()
        return
    only = asked.only
    catalogue = read_catalogue()
    paths = sorted((HERE / "briefs").glob("*.toml"))
    if only:
        wanted = {f"{int(number):02d}" for number in only.split(",")}
        paths = [path for path in paths if path.stem in wanted]
    rows = []
    for path in paths:
        rows.append(measure(path, catalogue))
        print(table(rows[-1:]).splitlines()[-1], flush=True)
    print(summary(rows))
    if not only:
        head = (HERE / "HEAD.md").read_text(encoding="utf-8")
        machine = f"Python {platform.python_version()}, {platform.machine()}."
        page = "\n".join(page_times())
        text = f"{head}\n{machine}\n\n{summary(rows)}\n\n{PAGE}\n\n{page}\n\n{table(rows)}\n"
        (HERE / "RESULTS.md").write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
