"""Run all measurements of the body's computations and write RESULTS.md beside this file.

    python -m bench.body --data FOLDER

FOLDER holds the open data `daily_weight`, `exscidata_cc0` and `ansur2`.
"""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from pathlib import Path

from bench.body import open_data, support, verdicts, weights

RESULTS = Path(__file__).parent / "RESULTS.md"


def report(data: Path) -> Iterator[str]:
    """The lines of the report."""
    yield "# The body: what was measured"
    yield ""
    yield "Repeat with `python -m bench.body --data FOLDER` (about three minutes on one core)."
    yield ""
    yield "## Verdict: false alarms and power"
    yield ""
    yield (
        f"{verdicts.PAIRS} simulated people a cell; changes in units of 1.96 true standard errors "
        "of the difference of two dates. ‘p’ is the chance of as many false alarms at 5 %."
    )
    yield ""
    yield from verdicts.alarm_table()
    yield ""
    yield (
        "The last two rows show what two dates alone cannot teach: with an error far from the "
        "prior, and no further dates to learn it from, the verdict is too bold or too shy. The "
        "readings of each date help, because her reading error says something of her day error. "
        "A beginner half again as loose as the prior keeps some false alarms too many even with a "
        "baseline of five dates."
    )
    yield ""
    yield support.twin_line(data)
    yield ""
    lifters = verdicts.simulated_lifters()
    yield "## Verdict: are the stated chances right"
    yield ""
    yield f"{verdicts.LIFTERS} simulated lifters with known truth, six dates in 12 weeks."
    yield ""
    yield from verdicts.reliability(lifters)
    yield ""
    yield from verdicts.words(lifters)
    yield ""
    yield "## Supporting evidence: its weight"
    yield ""
    yield from support.strength_table(data)
    yield ""
    yield support.dose_line(data)
    yield ""
    yield "## Data-entry check: girths of 6,068 people"
    yield ""
    yield from open_data.table(open_data.read(data))
    yield ""
    yield "## Weight: one week ahead"
    yield ""
    yield from weights.simulated_table()
    yield ""
    yield "Open series (Krone 2020, eight clean subjects, 63 days):"
    yield ""
    yield from weights.open_table(data)


def main() -> None:
    """Write the report."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--data", type=Path, required=True)
    lines = list(report(parser.parse_args().data))
    RESULTS.write_text("\n".join(lines) + "\n", encoding="utf-8")
    print("\n".join(lines))


if __name__ == "__main__":
    main()
