"""How the fast update and NUTS compare, as a table."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np


@dataclass
class Compared:
    """One lifter: differences in posterior SDs, and seconds."""

    laws: str
    sets: int
    gaps: list[float]
    missed: list[tuple[float, float]]
    """Filter and NUTS minus the truth, in log load, exercise by exercise."""
    fast_s: float
    nuts_s: float
    worst_rhat: float


def lines_of(found: list[Compared], draws: int) -> list[str]:
    """The table as Markdown."""
    gaps = np.abs(np.concatenate([one.gaps for one in found]))
    lines = [
        "# The fast update against NUTS",
        "",
        "Made by `python -m bench.forecast.nuts`: the same generative model in NumPyro, two",
        f"chains of {draws} draws. Gap = (filter − NUTS) / posterior SD of log strength, every",
        "exercise with ten or more sets. An R-hat above 1.05 means that the reference itself has",
        "not settled: then its row judges nothing.",
        "",
        "| laws of the lifter | sets | gaps | filter | NUTS | faster | worst R-hat |",
        "|---|---|---|---|---|---|---|",
    ]
    for one in found:
        told = ", ".join(f"{gap:+.2f}" for gap in one.gaps)
        lines.append(
            f"| {one.laws} | {one.sets} | {told} | {one.fast_s * 1e3:.0f} ms | {one.nuts_s:.0f} s "
            f"| {one.nuts_s / one.fast_s:,.0f} × | {one.worst_rhat:.2f} |"
        )
    near = f"Within 0.15 SD: {np.mean(gaps <= 0.15):.0%} (target 90 %)"
    ours, theirs = np.sqrt(
        np.mean(np.square(np.concatenate([one.missed for one in found])), axis=0)
    )
    return [
        *lines,
        "",
        f"{near}; largest {gaps.max():.2f} (target 0.5); {len(gaps)} strengths.",
        "",
        "The lifter's laws are not the model's, so the exact answer need not be the nearer one:",
        f"root mean square error of the ten-rep load {ours:.1%} filter, {theirs:.1%} NUTS.",
    ]
