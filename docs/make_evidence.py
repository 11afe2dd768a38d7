"""Render the evidence register as `docs/evidence.md`: `python docs/make_evidence.py`."""

from __future__ import annotations

from itertools import groupby
from pathlib import Path

from pennate.core.evidence import Constant, Status, every_constant

PAGE = Path(__file__).parent / "evidence.md"

INTRO = """# Evidence: every number the product rests on

Made from the register by `python docs/make_evidence.py`; do not edit by hand. Each constant is
declared once in `src/pennate/core/evidence/`; `pennate evidence NAME` shows one of them.
"How known" is one of: {statuses}. A range is what the number could plausibly be.
"""


def evidence_page() -> str:
    """The whole page as Markdown, one table an area."""
    every = every_constant()
    statuses = ", ".join(status.value for status in Status)
    parts = [INTRO.format(statuses=statuses), _counts(every)]
    for area, constants in groupby(every, key=lambda one: one.name.split(".")[0]):
        parts.append(f"## {area.capitalize()}\n\n{_table(list(constants))}")
    return "\n".join(parts)


def _counts(every: tuple[Constant, ...]) -> str:
    known = {status: sum(one.status is status for one in every) for status in Status}
    listed = ", ".join(f"{count} {status.value}" for status, count in known.items() if count)
    return f"{len(every)} constants: {listed}.\n"


def _table(constants: list[Constant]) -> str:
    rows = [
        "| name | value | range | how known | source | used for | contested |",
        "|---|---|---|---|---|---|---|",
    ]
    rows += [_row(one) for one in constants]
    return "\n".join(rows) + "\n"


def _row(one: Constant) -> str:
    spread = f"{one.low:g} to {one.high:g}" if one.low < one.high else "–"
    value = f"{one.value:g} {one.unit}".strip()
    cells = (f"`{one.name}`", value, spread, one.status.value, one.source, one.used_for)
    texts = (*cells, one.contested or "–")
    return "| " + " | ".join(text.replace("|", "\\|") for text in texts) + " |"


if __name__ == "__main__":
    PAGE.write_text(evidence_page(), encoding="utf-8")
