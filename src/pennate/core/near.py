"""The words nearest to a mistyped one, for remedies."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from difflib import SequenceMatcher


def likeness(word: str, other: str) -> float:
    """How alike two words are, 0 to 1; a word found whole in the other counts as close."""
    left, right = word.casefold().replace("_", " "), other.casefold().replace("_", " ")
    ratio = SequenceMatcher(None, left, right).ratio()
    shared = set(left.split()) & set(right.split())
    return min(1.0, ratio + 0.2 * len(shared)) if shared else ratio


AS_NEAR = 0.1
"""A word this much less alike than the best is left out: it only looks like it by chance."""


def nearest(word: str, among: Iterable[str], *, most: int = 3, least: float = 0.6) -> list[str]:
    """The words most like this one, best first; ties in alphabetical order.

    Beside the best stand only words about as near, and those that hold all its words.
    """
    scored = sorted((-likeness(word, other), other) for other in set(among))
    near = [(-score, other) for score, other in scored if -score >= least]
    if not near:
        return []
    best, first = near[0]
    kept = [other for score, other in near if score >= best - AS_NEAR or _holds(other, first)]
    return kept[:most]


def _holds(name: str, words: str) -> bool:
    """Whether a name has all of these words, like “incline bench press” “bench press”."""
    return set(_plain(words).split()) <= set(_plain(name).split())


def _plain(text: str) -> str:
    return text.casefold().replace("_", " ").replace("-", " ")


def did_you_mean(word: str, among: Iterable[str], otherwise: str) -> str:
    """A remedy: the nearest words, or the other remedy when nothing is near."""
    return offered(nearest(word, among), otherwise)


def offered(words: Sequence[str], otherwise: str) -> str:
    """A remedy that asks whether one of these was meant; the other one if there are none."""
    if not words:
        return otherwise
    *firsts, last = [f"“{one}”" for one in words]
    return f"did you mean {', '.join(firsts)} or {last}?" if firsts else f"did you mean {last}?"
