"""Constants of the strength model: curve, levels, days, learning and layoffs.

Strengths are natural logarithms of felt kilograms; 0.01 is one per cent.
"""

from pennate.core.evidence.strength_words import choice, fitted, memory, published

# The curve: log load against reps, anchored at ANCHOR_REPS.
ANCHOR_REPS = choice(
    "anchor_reps",
    10,
    "reps",
    (5, 12),
    "middle of what is logged, so that level and slope are told apart | anchor of the curve",
)
SHAPE = fitted(
    "shape",
    1.0,
    "exponent",
    (0.2, 1.7),
    "1 is the exponential (Mitter 2023, Wolfe 2024), 0 a power law, below it near hyperbolic "
    "| centre of the personal curve's second parameter",
)
SHAPE_PERSON_SD = fitted("shape_person_sd", 0.182, "exponent", (0.05, 0.6), "tuning folds")
SHAPE_EXERCISE_SD = fitted("shape_exercise_sd", 0.2, "exponent", (0.05, 0.6), "tuning folds")
SLOPE = published(
    "slope",
    0.0255,
    "log load per rep",
    (0.0097, 0.0368),
    "centre of published reps at fixed %1RM (Wolfe 2024, Richens 2014, Zourdos 2021) "
    "| slope where the movement says nothing",
)
SLOPE_KNEE = published(
    "slope_knee",
    0.021,
    "log load per rep",
    (0.017, 0.03),
    "Wolfe 2024 squat 0.0171 with a probably low 1RM, Zourdos 2021 0.0238 | squats, lunges",
)
SLOPE_HIP = published(
    "slope_hip", 0.022, "log load per rep", (0.017, 0.03), "Wolfe 2024 deadlift 0.0193 | hinges"
)
SLOPE_PRESS = published(
    "slope_press",
    0.024,
    "log load per rep",
    (0.019, 0.033),
    "Wolfe 2024 bench 0.0212, ACSM abstract 2019 machine bench 0.0297 | presses",
)
SLOPE_PULL = memory(
    "slope_pull",
    0.026,
    "log load per rep",
    (0.02, 0.033),
    "Hoeger 1990 pulldown, cells from memory | pulls and rows",
)
SLOPE_SINGLE = memory(
    "slope_single",
    0.028,
    "log load per rep",
    (0.022, 0.036),
    "Hoeger 1990 curl and knee extension, cells from memory | single-joint exercises",
)
SLOPE_LEG_CURL = memory(
    "slope_leg_curl",
    0.032,
    "log load per rep",
    (0.025, 0.052),
    "Hoeger 1990 leg curl, cells from memory | knee flexion",
)
SLOPE_WOMAN = fitted(
    "slope_woman",
    0.88,
    "factor",
    (0.7, 1.0),
    "Wolfe 2024 women against Zourdos 2021 men; Nuzzo 2024 finds little | women's slopes",
)
SLOPE_PERSON_SD = fitted(
    "slope_person_sd",
    0.131,
    "log slope",
    (0.1, 0.3),
    "tuned on the benchmark's tuning folds from 0.18 (CV of reps at fixed %1RM "
    "25–35 %, split between person and exercise)",
)
SLOPE_EXERCISE_SD = fitted(
    "slope_exercise_sd",
    0.222,
    "log slope",
    (0.1, 0.3),
    "tuned on the benchmark's tuning folds from 0.2 (CV of reps at fixed %1RM 25–35"
    " %, split between person and exercise)",
)

# Levels and how exercises inform each other.
GENERAL_SD = published(
    "general_sd",
    0.20,
    "log load",
    (0.1, 0.3),
    "ratios between regions vary by 0.20–0.30 (open data, untrained adults)",
)
MUSCLE_SD = published(
    "muscle_sd",
    0.18,
    "log load",
    (0.1, 0.25),
    "same muscle 0.13–0.18, other region 0.20–0.30 (open data, untrained adults)",
)
FAMILY_SD = published(
    "family_sd",
    0.14,
    "log load",
    (0.08, 0.2),
    "same muscle 0.13–0.18 (open data, untrained adults)",
)
SIBLING_SD = published(
    "sibling_sd", 0.07, "log load", (0.04, 0.1), "close variant, same path of the load: 0.06–0.09"
)
EQUIPMENT_SD = choice(
    "equipment_sd",
    0.10,
    "log load",
    (0.05, 0.3),
    "a number means something on its own machine only",
)
VARIANT_SD = published(
    "variant_sd",
    0.06,
    "log load",
    (0.03, 0.1),
    "close variant 0.06–0.09 | style, range aid, straps, stance",
)
SIDE_SD = published(
    "side_sd",
    0.05,
    "log load",
    (0.03, 0.09),
    "left/right difference 0.077–0.086 (open data): each side off their mean",
)
LEVEL_SD = choice(
    "level_sd", 0.20, "log load", (0.1, 0.4), "spread of our own table of usual loads, from memory"
)
FREE_SD = choice(
    "free_sd",
    3.0,
    "log load",
    (1.0, 5.0),
    "a machine's label or an unknown exercise: nothing is known before the first load",
)

# What the choice of a load says about strength.
CHOICE_RESERVE = fitted(
    "choice_reserve",
    13,
    "reps",
    (8, 16),
    "lifters pick loads they can lift about this often; Barbosa-Netto 2021 (16 ± 5) from memory "
    "| first load ever chosen on an exercise",
)
CHOICE_SD = fitted(
    "choice_sd", 0.173, "log load", (0.08, 0.3), "spread of the above, about five reps"
)
HABIT_SD = fitted(
    "habit_sd",
    0.05,
    "log load",
    (0.03, 0.15),
    "how sure her habits alone can make a level: two to three reps",
)
HABIT_RESERVE = fitted(
    "habit_reserve",
    1.95,
    "reps",
    (0.5, 4),
    "reserve lifters leave at a number they stop at; Steele 2022: self-chosen loads are light",
)
WARM_CHOICE_SD = choice(
    "warm_choice_sd",
    0.6,
    "log load",
    (0.3, 1.0),
    "warm-ups lie anywhere below the working load, first loads with six or more left likewise",
)
WARM_CHOICE_GAP = choice(
    "warm_choice_gap",
    0.5,
    "log load",
    (0.2, 1.0),
    "common practice: a ramp begins near 60 % of the working load",
)
REMEMBERED_SD = choice(
    "remembered_sd",
    0.10,
    "log load",
    (0.05, 0.2),
    "a set told from memory: best of many, rounded, some weeks old | first run",
)

# The day and the weeks.
DAY_SD = fitted(
    "day_sd",
    0.0221,
    "log load",
    (0.01, 0.042),
    "tuned on the benchmark's tuning folds from 0.021 (t₅ of scale 0.019 in trained"
    " people; Grgic 2020, Banyard 2017) | shared day effect",
)
DAY_SD_NOVICE = published(
    "day_sd_novice", 0.034, "log load", (0.02, 0.06), "novice day SD 0.04 in all"
)
DAY_MEMORY_DAYS = fitted("day_memory", 2.25, "days", (0.5, 10), "tuning folds")
OWN_DAY_SD = fitted(
    "own_day_sd",
    0.008,
    "log load",
    (0.005, 0.03),
    "a day effect of one exercise alone; left–right covariance in open data is 0.16–0.50",
)
OWN_DAY_TIRED = fitted(
    "own_day_tired",
    6,
    "1 / log load",
    (0, 25),
    "tuning folds | how much more fatigue takes on a worse day of the exercise: 1 % weaker, 10 %",
)
DRIFT = fitted(
    "drift", 0.003, "log load per √week", (0.002, 0.02), "slow random walk of one exercise"
)
WAYS_DRIFT = fitted(
    "ways_drift",
    0.1,
    "share of the spread between exercises per √week",
    (0, 0.3),
    "tuning folds | how an exercise's curve, and how it tires her, change with the weeks",
)
DRIFT_FROM = choice(
    "drift_from",
    4,
    "sessions",
    (2, 8),
    "before that surprises are mostly the start | her own speed of drift",
)
SHARED_DRIFT = fitted(
    "shared_drift",
    0.0021,
    "log load per √week",
    (0.001, 0.01),
    "slow random walk shared by all exercises",
)
TREND_SD = fitted(
    "trend_sd",
    0.003,
    "log load per week",
    (0.0005, 0.01),
    "11–15 % a year in competitors (Latella 2020) | shared trend",
)
OWN_TREND_SD = fitted(
    "own_trend_sd", 0.0015, "log load per week", (0.0005, 0.01), "an exercise's own trend"
)
OWN_GAIN_SD = fitted(
    "own_gain_sd",
    0.45,
    "share",
    (0.1, 0.8),
    "tuning folds | how far an exercise's slowing gain is from hers in general",
)
TREND_MEMORY_WEEKS = fitted("trend_memory", 22, "weeks", (4, 60), "tuning folds")
TREND = published(
    "trend",
    0.0015,
    "log load per week",
    (0, 0.004),
    "7.5–12.5 % in a competitive year (Latella preprint) | expected trend, trained",
)
GROWTH_LOG = published(
    "growth_log",
    0.10,
    "log load per log week",
    (0.076, 0.126),
    "Steele 2023: linear in log time, 30–50 % after a year | expected trend, novice",
)
JUMP_SD = fitted("jump_sd", 0.293, "log load", (0.1, 0.5), "a machine replaced by another")
JUMP_SHARE = fitted("jump_share", 0.0075, "probability", (0.001, 0.05), "an exercise's session")
GAIN_SD = fitted(
    "gain_sd",
    0.05,
    "log load per log week",
    (0.03, 0.13),
    "Steele 2023: linear in log time, 0.10 for beginners; the trained hardly gain that way "
    "| shared gain that slows down with the weeks since the first set",
)
LEARNING = fitted(
    "learning",
    0.0111,
    "log load",
    (0, 0.08),
    "tuned on the benchmark's tuning folds from 0.035 (first retest +3 to +8 % "
    "(open data)) | gain from the first to the second exposure",
)
LEARNING_SD = fitted("learning_sd", 0.0121, "log load", (0.01, 0.06), "spread of the above")
LEARNING_KEEP = fitted("learning_keep", 0.5, "factor", (0.2, 0.8), "per exposure")
LAYOFF_FREE_WEEKS = memory("layoff_free", 2, "weeks", (1, 4), "no loss to two weeks")
LAYOFF_LOSS = memory(
    "layoff_loss", 0.010, "log load per week", (0.0, 0.02), "0–2 % a week after that, wide"
)
LAYOFF_SD = fitted(
    "layoff_sd",
    0.003,
    "log load per week",
    (0.003, 0.02),
    "tuned on the benchmark's tuning folds from 0.008 (spread of it)",
)
LAYOFF_MOST = choice("layoff_most", 26, "weeks", (12, 104), "no further loss assumed")
REGAIN = memory("regain", 0.25, "share per week", (0.1, 0.5), "lost strength returns fast")
SLEEP_EFFECT = published(
    "sleep",
    -0.01,
    "log load",
    (-0.03, 0.0),
    "Craven 2022, strength part from memory: −1 ± 2 % | short sleep",
)
SLEEP_SD = published("sleep_sd", 0.02, "log load", (0.01, 0.03), "as above")
SLEEP_SHRINK = choice(
    "sleep_shrink",
    0.01,
    "log load",
    (0.005, 0.02),
    "how far her own effect is believed to leave the published one",
)
