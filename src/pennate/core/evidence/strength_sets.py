"""Constants of the strength model within a session: fatigue, set noise, reports, habits."""

from pennate.core.evidence.strength_words import choice, fitted, published

# Fatigue within the session.
SLOW = fitted(
    "slow",
    0.013,
    "log load per rep",
    (0.006, 0.025),
    "Ratamess 2010, 2012; Willardson & Burkett 2005 | slow part left by each rep at failure",
)
TIRING_WOMAN = published(
    "tiring_woman",
    0.5,
    "factor",
    (0.4, 1.0),
    "Ratamess 2010, 2012: women keep more reps from set to set | fatigue of women",
)
TIRING_LOWER = published(
    "tiring_lower",
    0.52,
    "factor",
    (0.4, 1.0),
    "Willardson & Burkett 2005: squat 1 : 1.28 where bench is 1 : 1.50 | squats and hinges",
)
SLOW_SD = fitted("slow_sd", 0.455, "log", (0.2, 0.6), "between people")
SLOW_OWN_SD = fitted("slow_own_sd", 0.288, "log", (0.1, 0.6), "between exercises")
SLOW_S = published(
    "slow_s",
    180,
    "s",
    (75, 400),
    "Ratamess 2010 by sex: 75 s women to 250 s men | how fast the slow part leaves",
)
SLOW_S_WOMAN = published("slow_s_woman", 90, "s", (60, 250), "as above")
SLOW_S_SD = fitted(
    "slow_s_sd",
    0.488,
    "log",
    (0.3, 0.7),
    "tuned on the benchmark's tuning folds from 0.5 (between people)",
)
RESERVE_POWER = fitted(
    "reserve_power",
    0.5,
    "exponent",
    (0.488, 1.2),
    "tuned on the benchmark's tuning folds from 0.8 (Refalo 2023: stopping one "
    "short halves fatigue, three short leaves a third)",
)
ACUTE = fitted(
    "acute",
    0.625,
    "share",
    (0.3, 1),
    "share of what failure at this load implies | acute part at failure",
)
ACUTE_SD = fitted("acute_sd", 0.439, "log", (0.1, 0.5), "between people")
ACUTE_S = fitted("acute_s", 94, "s", (15, 120), "gone within a minute or two")
ACUTE_S_SD = fitted("acute_s_sd", 0.254, "log", (0.2, 0.8), "between people")
ACUTE_OWN_SD = fitted("acute_own_sd", 0.5, "log", (0.1, 0.8), "between exercises")
SLOW_ERROR = fitted("slow_error", 0.033, "share", (0, 0.4), "what the slow law gets wrong")
ACUTE_ERROR = fitted("acute_error", 0.067, "share", (0, 0.5), "what the acute law gets wrong")
LIGHTER = fitted(
    "lighter",
    0.2,
    "exponent",
    (0, 1),
    "0: weaker by a share of strength, 1: fewer by a share of the reps, as when a work capacity "
    "is drawn on (Skiba 2012) | how fatigue grows with the room above a lighter load",
)
LIGHTER_SD = fitted("lighter_sd", 0.25, "exponent", (0.05, 0.6), "between people")
ACUTE_MOST = fitted(
    "acute_most",
    0.08,
    "log load",
    (0.05, 0.5),
    "at light loads discomfort ends the set before the muscle fails",
)
ACUTE_POWER = choice("acute_power", 2, "exponent", (1, 4), "share of the set done")
OVERLAP = fitted(
    "overlap",
    0.39,
    "factor",
    (0.3, 1),
    "tuned on the benchmark's tuning folds from 0.6 (same-muscle exercise before: "
    "−8 to −12 %; unrelated 0 to −3 %)",
)
USUAL_REST = choice("usual_rest", 150, "s", (60, 240), "rest not noted")
USUAL_DROP_REST = choice("usual_drop_rest", 15, "s", (8, 25), "rest before a drop not noted")
REP_SECONDS = published("rep_seconds", 3, "s", (2, 4), "ACSM 2009 | time a set takes")

# What a performed set tells.
SET_NOISE = fitted(
    "set_noise",
    0.182,
    "reps",
    (0.182, 0.8),
    "tuned on the benchmark's tuning folds from 0.45 (SEM 0.7 rep at 90 %, 1.1 at "
    "70 % (Mitter 2022), days taken out)",
)
SET_NOISE_REP = published("set_noise_rep", 0.04, "reps per rep", (0.02, 0.08), "as above")
REPORT_BIAS = fitted(
    "report_bias",
    0.169,
    "reps",
    (-0.5, 1),
    "tuned on the benchmark's tuning folds from 0.05 (between Refalo 2024 and "
    "Zourdos 2021) | reserve is under-reported",
)
REPORT_BIAS_REP = fitted(
    "report_bias_rep",
    0.19,
    "reps per rep in reserve",
    (0, 0.3),
    "tuned on the benchmark's tuning folds from 0.12 (as above)",
)
REPORT_FAR = published("report_far", 12, "reps", (10, 14), "Halperin 2022")
REPORT_FAR_BIAS = fitted(
    "report_far_bias",
    0.0731,
    "reps per rep",
    (0, 0.5),
    "tuned on the benchmark's tuning folds from 0.15 (Zourdos 2021, shrunk; "
    "Halperin 2022 0.47) | beyond 12 reps",
)
REPORT_NOISE = fitted(
    "report_noise",
    0.211,
    "reps",
    (0.211, 1),
    "tuned on the benchmark's tuning folds from 0.5 (Refalo 2024, Zourdos 2021)",
)
REPORT_NOISE_REP = fitted(
    "report_noise_rep",
    0.2,
    "reps per rep in reserve",
    (0.1, 0.5),
    "as above; the tuning folds agree",
)
REPORT_FAR_NOISE = published("report_far_noise", 0.2, "reps per rep", (0, 0.4), "as above")
REPORT_PERSON_SD = fitted(
    "report_person_sd",
    0.13,
    "reps",
    (0.05, 1.5),
    "tuned on the benchmark's tuning folds from 0.6 (person offset); people differ more, but a "
    "wider one takes for her offset what her fatigue does otherwise than believed",
)
GUESS_FROM = choice(
    "guess_from",
    0.4,
    "probability",
    (0.2, 0.7),
    "a number so usual was asked; then reserve is guessed",
)
GUESS_BIAS = fitted(
    "guess_bias",
    0.1,
    "reps",
    (0, 0.4),
    "tuning folds | added to the bias of a report after stopping at the number asked",
)
GUESS_NOISE = fitted(
    "guess_noise",
    0.35,
    "reps",
    (0, 0.6),
    "tuning folds | added likewise: who stops by feel stops where she wished, who stops at a "
    "number guesses afterwards",
)
GUESS_NOISE_REP = fitted(
    "guess_noise_rep", 0.1, "reps per rep in reserve", (0, 0.2), "tuning folds | added likewise"
)
OUTLIER = fitted("outlier", 0.00634, "probability", (0.001, 0.05), "slips of any kind")
SLIP_SHARE = choice(
    "slip_share", 0.005, "probability", (0.001, 0.02), "a load written ten times too high or low"
)
DOUBT_BELOW = choice(
    "doubt_below",
    1e-6,
    "probability",
    (1e-9, 1e-4),
    "so little expected, a set is taken for a slip; the next one like it on the same equipment is "
    "none",
)
DOUBT_SD = choice(
    "doubt_sd",
    0.7,
    "log load",
    (0.3, 1.0),
    "a factor of two: pulleys halve a stack's number | how unsure she is of an exercise on one "
    "equipment after two sets that were hardly to be expected",
)
STRANGE_SETS = choice(
    "strange_sets", 6, "sets", (2, 12), "of an unknown number so many may still correct the first"
)
STRANGE_SHARE = choice(
    "strange_share",
    0.02,
    "probability",
    (0.005, 0.1),
    "a set: what was believed of a number that means nothing elsewhere is far off",
)
HABIT_SPREAD = choice(
    "habit_spread", 0.25, "log load", (0.1, 0.5), "how far a load strays from the usual one"
)
AS_ASKED_WEIGHT = choice(
    "as_asked_weight",
    0.5,
    "weight",
    (0.2, 0.9),
    "a value left as asked may not have been looked at",
)
STOP_FAILURE = fitted("stop_failure", 0.09, "probability", (0.05, 0.6), "effort not noted")
STOP_TARGET = fitted("stop_target", 0.504, "probability", (0.2, 0.8), "effort not noted")
STOP_MEMORY = choice("stop_memory", 0.98, "factor per set", (0.9, 0.999), "habits change slowly")
STOP_WEIGHT = fitted("stop_weight", 17, "sets", (4, 40), "weight of the above beside her own")
VARIANCE_WEIGHT = fitted(
    "variance_weight",
    30,
    "sessions",
    (8, 80),
    "weight of the population's variances beside her own",
)
USUAL_TARGETS = {
    reps: choice(f"target_{reps}", weight, "weight", (0.2, 8), "round numbers of the trade | asked")
    for reps, weight in {5: 2, 6: 2, 8: 4, 10: 4, 12: 4, 15: 3, 20: 1}.items()
}
OTHER_TARGET = choice("target_other", 0.3, "weight", (0.02, 1), "any other number | asked reps")
TARGET_WEIGHT = choice("target_weight", 1.5, "sets", (0.5, 5), "weight of usual targets")
TARGET_MEMORY = choice("target_memory", 0.9, "factor per set", (0.7, 0.98), "targets change")
FEEL_RESERVE = tuple(
    choice(f"feel_{reserve}", share, "probability", (0.0, 0.6), "reserve when stopping by feel")
    for reserve, share in enumerate((0.06, 0.15, 0.20, 0.20, 0.14, 0.10, 0.07, 0.05, 0.03))
)
FEEL_WEIGHT = fitted(
    "feel_weight", 8, "sets", (2, 40), "tuning folds | weight of the above beside her reports"
)
FEEL_OWN_WEIGHT = fitted(
    "feel_own_weight",
    1,
    "sets",
    (0.5, 20),
    "tuning folds | weight of what she reports elsewhere beside reports in one exercise",
)
TOLD_WEIGHT = fitted(
    "told_weight",
    3,
    "sets",
    (1, 10),
    "tuning folds | a set with effort noted says how she ends sets; others are guessed at",
)
ENDING_WEIGHT = choice(
    "ending_weight",
    4,
    "sets",
    (1, 12),
    "her usual endings beside those of one exercise | effort not noted",
)
FEEL_SHARE = choice(
    "feel_share", 0.2, "probability", (0.05, 0.5), "a usual number may also be reached by feel"
)
NONE_LEFT_ODDS = fitted(
    "none_left_odds",
    0.25,
    "factor",
    (0.05, 1),
    "tuning folds | odds that “none left” was plain failure, beside those of failure at all: who "
    "fails mostly says so",
)
DROP_FAILURE = choice(
    "drop_failure",
    0.9,
    "probability",
    (0.5, 0.95),
    "common practice: drops are taken to failure | effort not noted",
)
