"""A day without a session: what comes next, and what she may tell of the day."""

from __future__ import annotations

from dataclasses import dataclass

from pennate.app.today import RestDay
from pennate.core.cautions import Caution, CautionFacts, cautions_for
from pennate.core.readiness import Ill, Readiness
from pennate.web.views.today import Chip, chips_of

TOLD_AT_REST = {"short_sleep", "low_energy", "ill"}
"""What counts without a session; joints and hours of sleep have their place on Recovery."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RestView:
    """What the page of a rest day shows."""

    title: str
    words: str
    day: str
    choices: tuple[str, ...]
    chips: tuple[Chip, ...]
    ask: str
    cautions: tuple[Caution, ...]
    back: str
    """How sessions differ while she is ill, or after it."""


def rest_view(rest: RestDay, said: Readiness | None, back: str, ask: str = "") -> RestView:
    """The page of a rest day; `ask` opens whether she is ill or was."""
    words = "No day of your week has an exercise yet."
    if rest.next_date is not None:
        away = (rest.next_date - rest.day).days
        when = "tomorrow" if away == 1 else f"in {away} days"
        words = f"Nothing is planned. The next session is {rest.next_day}, {when}."
    ill = said.ill if said else Ill.NO
    return RestView(
        title=f"{rest.day:%A} · rest",
        words=words,
        day=rest.day.isoformat(),
        choices=rest.choices,
        chips=tuple(chip for chip in chips_of(said, None) if chip.value in TOLD_AT_REST),
        ask=ask,
        cautions=cautions_for(CautionFacts(ill=ill)),
        back=back,
    )
