"""A day without a session."""

from __future__ import annotations

from dataclasses import dataclass

from pennate.app.today import RestDay


@dataclass(frozen=True, slots=True)
class RestView:
    """What the page of a rest day shows."""

    title: str
    words: str
    day: str
    choices: tuple[str, ...]


def rest_view(rest: RestDay) -> RestView:
    """The page of a rest day."""
    words = "No day of your week has an exercise yet."
    if rest.next_date is not None:
        away = (rest.next_date - rest.day).days
        when = "tomorrow" if away == 1 else f"in {away} days"
        words = f"Nothing is planned. The next session is {rest.next_day}, {when}."
    return RestView(f"{rest.day:%A} · rest", words, rest.day.isoformat(), rest.choices)
