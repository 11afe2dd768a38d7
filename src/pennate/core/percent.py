"""Shares and changes as people read them: a space before the sign, a real minus, no certainty."""

from __future__ import annotations

_SURE = 0.99
_MOST_PLACES = 4


def signed(value: float, places: int = 1) -> str:
    """A change with its sign and a real minus; what rounds to nought is “0.0”, of no sign."""
    text = f"{value:+.{places}f}"
    if float(text) == 0:
        return text[1:]
    return text.replace("-", "\N{MINUS SIGN}")


def signed_span(low: float, high: float, places: int = 1) -> str:
    """An interval, “+0.2 to +1.2”; one that leaves out nought does so in print too."""
    if low * high > 0 and places < _MOST_PLACES:
        nearest = min(abs(low), abs(high))
        if round(nearest, places) == 0:
            return signed_span(low, high, places + 1)
    return f"{signed(low, places)} to {signed(high, places)}"


def percent(share: float, places: int = 0) -> str:
    """A share or size in per cent: “12 %”."""
    return f"{100 * share:.{places}f} %".replace("-", "\N{MINUS SIGN}")


def signed_percent(share: float, places: int = 1) -> str:
    """A relative change in per cent: “+1.2 %”."""
    return f"{signed(100 * share, places)} %"


def chance(probability: float) -> str:
    """A chance in whole per cent; never a certainty."""
    if probability > _SURE:
        return "over 99 %"
    return "under 1 %" if probability < 1 - _SURE else percent(probability)
