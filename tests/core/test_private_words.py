"""What may not be passed on is seen, and ordinary cues pass."""

from __future__ import annotations

import pytest

from pennate.core.private_words import private_words


@pytest.mark.parametrize(
    "text",
    [
        "spare the left knee",
        "since my surgery",
        "stop when the shoulder hurts",
        "period week, go easy",
        "I did 92.5 kg here",
        "top at 135 lb",
        "my max",
        "after the birth: postpartum",
        "bad back today",
        "lose body fat",
        "light until the fever is gone for good",
        "was ill in May, build up slowly",
        "after the flu",
        "on antibiotics",
    ],
)
def test_private_text_is_seen(text: str) -> None:
    """Pain, joints of hers, cycle, body and loads are found in common wordings."""
    assert private_words(text)


@pytest.mark.parametrize(
    "text",
    [
        "knees over the toes, chest up",
        "keep the elbows still",
        "easy bike or walk",
        "hip circles, each side",
        "quads and glutes",
        "slow lowering, pause at the bottom",
        "band pull-apart",
        "back and biceps",
        "still at the top, drill the start, fill the lungs",
    ],
)
def test_ordinary_text_passes(text: str) -> None:
    """A cue may name a joint, and a focus a muscle: only what is personal stays behind."""
    assert private_words(text) == ""
