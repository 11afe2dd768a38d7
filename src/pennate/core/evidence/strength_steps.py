"""Constants of the next step and of plateaus."""

from pennate.core.evidence.strength_words import choice, memory

RAISE_ABOVE = choice(
    "raise_above",
    0.7,
    "probability",
    (0.5, 0.9),
    "a step must be likely to keep the range | raising the load",
)
LOWER_BELOW = choice(
    "lower_below",
    0.3,
    "probability",
    (0.1, 0.5),
    "a range that is unlikely twice is too heavy | lowering the load",
)
BIG_STEP = choice(
    "big_step",
    0.06,
    "share of the load",
    (0.04, 0.12),
    "2–10 % per step (ACSM 2009); 2.5 % is about one rep | widening the range first",
)
WIDER_BY = choice("wider_by", 3, "reps", (1, 5), "5 % is about two reps | wider range")
PLATEAU_WEEKS = choice(
    "plateau_weeks",
    8,
    "weeks",
    (4, 16),
    "shorter spans are within the day noise | plateau",
)
PLATEAU_SESSIONS = choice(
    "plateau_sessions",
    6,
    "sessions",
    (4, 12),
    "fewer sessions cannot show a stall | plateau",
)
STALLED_ABOVE = choice("stalled_above", 0.8, "probability", (0.6, 0.95), "plateau called")
SWAP_AFTER_WEEKS = memory("swap_after", 14, "weeks", (8, 26), "common practice | swap proposed")
