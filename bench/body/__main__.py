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
    yield "Repeat with `python -m bench.body --data FOLDER` (about ten minutes on one core)."
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
        "People, tapes and seeds here are held out: the constants of the error model were chosen "
        "on others. The last two rows show what two dates alone cannot teach: with an error far "
        "from the prior, and no further dates to learn it from, the verdict is too bold or too "
        "shy. The readings of each date help, because her reading error says something of her "
        "day error, and none of them is thrown away because the tape is loose. The whole change "
        "comes after the last date but one: where the dates lie evenly along the way, as in the "
        "rows of four and of six fortnightly dates, the line drawn through them makes such a jump "
        "smaller, and it is called less often."
    )
    yield ""
    yield support.twin_line(data)
    yield ""
    yield "## When holding can be said"
    yield ""
    yield (
        "The rule asks for a 90 % interval within ±1 % of the girth, so the standard error of the "
        "change must be below 0.6 %. One reading's error of 0.9 % makes that of a change between "
        "two dates of three readings about 1 %: two dates can never say ‘holding’. It takes "
        f"several dates at each end. Dates two days apart, the ends {verdicts.WEEKS_APART} weeks; "
        f"{verdicts.HOLDING_PEOPLE} people a row. ‘Wrong’ is how often it is said where 2 % were "
        "gained."
    )
    yield ""
    yield from verdicts.holding_table()
    yield ""
    yield from _settling()
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


def _settling() -> Iterator[str]:
    yield "## Does the reading that is asked settle it"
    yield ""
    yield (
        f"{verdicts.SETTLING_PEOPLE} simulated lifters a row whose growth goes on as before; those "
        "whose verdict is open and who are told a date read the tape as asked until then. ‘So’ is "
        "how many have a word on that date."
    )
    yield ""
    yield from verdicts.settling_table()
    yield ""


def main() -> None:
    """Write the report."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--data", type=Path, required=True)
    lines = list(report(parser.parse_args().data))
    RESULTS.write_text("\n".join(lines) + "\n", encoding="utf-8")
    print("\n".join(lines))


if __name__ == "__main__":
    main()
