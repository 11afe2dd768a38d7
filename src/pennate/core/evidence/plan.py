"""Constants of the week: time of a session, effect of a dose, recovery, audit and planner."""

from pennate.core.evidence.register import Status, constant

USUAL_REPS = constant(
    "plan.usual_reps",
    10,
    "reps",
    low=6,
    high=15,
    status=Status.COMMON_PRACTICE,
    source="common practice; growth is alike from about 6 to 20 reps near failure (Lopez 2021)",
    used_for="minutes of a set whose reps are left open, and the reps a planned set asks for",
)
OPEN_RESERVE = constant(
    "plan.open_reserve",
    2,
    "reps in reserve",
    low=0,
    high=5,
    status=Status.COMMON_PRACTICE,
    source="common practice: a working set with nothing said is taken to within a few reps",
    used_for="dose of an asked set that leaves the reserve open and has no forecast",
)
RAMP_REPS_FIRST = constant(
    "plan.ramp_reps_first",
    6,
    "reps",
    low=5,
    high=8,
    status=Status.COMMON_PRACTICE,
    source="1 × 5–8 at 50–60 %; Ribeiro 2014 and Neves 2020 find near-load sets enough",
    used_for="minutes of the first ramp set before a muscle's first loaded exercise",
)
RAMP_REPS_SECOND = constant(
    "plan.ramp_reps_second",
    4,
    "reps",
    low=3,
    high=5,
    status=Status.COMMON_PRACTICE,
    source="1 × 3–5 at 80 % of the working load; Neves 2020",
    used_for="minutes of the second ramp set",
)
PLATE_MOVES_A_STOP = constant(
    "plan.plate_moves_a_stop",
    6,
    "moves",
    low=2,
    high=12,
    status=Status.OUR_CHOICE,
    source="three plates a side put on or taken off beyond what fits into rests; from memory",
    used_for="minutes of a stop on a bar, sled or plate-loaded machine",
)
SUPERSET_STEP_S = constant(
    "plan.superset_step",
    15,
    "s",
    low=5,
    high=30,
    status=Status.COMMON_PRACTICE,
    source="common practice: walking to the partner; with it 6 × 4 sets take about a third less, "
    "Burke 2024 measured 36 % less",
    used_for="time between the partners of a superset round",
)
TIME_SD_LOG = constant(
    "plan.time_sd_log",
    0.12,
    "log",
    low=0.05,
    high=0.25,
    status=Status.FROM_MEMORY,
    source="from memory; replaced by her own log as soon as there are sessions with times",
    used_for="interval of a session's minutes",
)
PACE_PRIOR_SESSIONS = constant(
    "plan.pace_prior_sessions",
    4,
    "sessions",
    low=2,
    high=10,
    status=Status.OUR_CHOICE,
    source="our choice: how many logged sessions outweigh the time model",
    used_for="calibrating minutes to her log",
)
Z_90 = constant(
    "plan.z_90",
    1.645,
    "standard deviations",
    status=Status.STANDARD,
    source="95th percentile of the normal distribution",
    used_for="90 % intervals of minutes and expected effects",
)
GROWTH_PER_ROOT_SET = constant(
    "plan.growth_per_root_set",
    1.68,
    "% of size per √(sets a week) over 8–12 weeks",
    low=1.05,
    high=2.31,
    status=Status.FROM_MEMORY,
    source="square-root form and 0.24 % per set at 12.25 sets, Pelland 2024, from memory; the "
    "range carries its credible interval of 0.15–0.33 % per set",
    used_for="expected effect of a weekly dose; only differences between weeks are shown",
    contested="single trials above 20 weekly sets are few and find little more",
)
TRAINED_FACTOR = constant(
    "plan.trained_factor",
    0.35,
    "share",
    low=0.05,
    high=0.9,
    status=Status.FROM_MEMORY,
    source="from memory, with a wide 90 % range; the mean growth of 31 trained men over six weeks "
    "(Haun 2018/2019, open data) lies inside what it predicts, see bench/plan/TRAINED.md",
    used_for="expected effect for a lifter with years behind her",
    contested="that sample is too small and its readings too noisy to narrow the range",
)
NOVICE_FACTOR = constant(
    "plan.novice_factor",
    1.0,
    "share",
    low=0.21,
    high=1.79,
    status=Status.PUBLISHED,
    source="mean response of the pooled trials; spread between people CV 0.48 (Hubal 2005), 90 %",
    used_for="expected effect for a lifter in her first year",
)
SESSION_HALF_SETS = constant(
    "plan.session_half_sets",
    11,
    "fractional sets of a part in one session",
    low=6,
    high=20,
    status=Status.FROM_MEMORY,
    source="beyond about 11 fractional sets of a muscle in one session no further gain was "
    "detectable (Remmert 2025, preprint, from memory); no inverted U",
    used_for="within-session saturation: the dose at which one more set is worth half",
    contested="a preprint; with volume equated frequency shows no meaningful effect",
)
SESSION_CURVE = constant(
    "plan.session_curve",
    4,
    "exponent",
    low=2,
    high=8,
    status=Status.OUR_CHOICE,
    source="our choice: nearly straight up to 6–7 sets of a part in a session, since frequency at "
    "equal weekly sets shows no meaningful effect (Schoenfeld 2019, Pelland 2024)",
    used_for="within-session saturation: how sharply it bends near the half-worth dose",
)
HARD_DAY_DOSE = constant(
    "plan.hard_day_dose",
    1,
    "fractional sets",
    low=0.5,
    high=3,
    status=Status.OUR_CHOICE,
    source="our choice: one hard set makes a day count as training for a group",
    used_for="hours since the last hard sets of a group",
)
NO_GROUP_SHARE = constant(
    "plan.no_group_share",
    0.15,
    "share",
    low=0.0,
    high=0.5,
    status=Status.OUR_CHOICE,
    source="our choice: adductors, hip flexors and grip belong to no group but a substitute "
    "that keeps them is a little closer",
    used_for="ranking substitutes",
)
SWAP_EXTRA_COST = constant(
    "plan.swap_extra_cost",
    0.15,
    "share per fractional set",
    low=0.05,
    high=0.3,
    status=Status.OUR_CHOICE,
    source="our choice: work the old exercise did not ask for tires what comes later",
    used_for="ranking substitutes",
)
SWAP_JOINT_COST = constant(
    "plan.swap_joint_cost",
    0.05,
    "share per level of joint load",
    low=0.0,
    high=0.2,
    status=Status.OUR_CHOICE,
    source="our choice: of two alike the one that is easier on the joints",
    used_for="ranking substitutes",
)
SWAP_KIN_BONUS = constant(
    "plan.swap_kin_bonus",
    0.1,
    "share",
    low=0.0,
    high=0.2,
    status=Status.OUR_CHOICE,
    source="our choice: a close variant, or one of the same pattern (half), needs no learning",
    used_for="ranking substitutes",
)
SWAP_LIKED_BONUS = constant(
    "plan.swap_liked_bonus",
    0.05,
    "share",
    low=0.0,
    high=0.2,
    status=Status.OUR_CHOICE,
    source="our choice: of two alike the one she likes",
    used_for="ranking substitutes",
)
SWAP_REACH = constant(
    "plan.swap_reach",
    0.5,
    "probability",
    low=0.3,
    high=0.8,
    status=Status.OUR_CHOICE,
    source="our choice: as likely as not some load of the item ends a set in the reps asked",
    used_for="ranking substitutes: what cannot be made heavy or light enough comes late",
)
SWAP_REPS_OVER = constant(
    "plan.swap_reps_over",
    4,
    "reps",
    low=2,
    high=8,
    status=Status.COMMON_PRACTICE,
    source="common practice: a set stopped more than about four reps early is no hard set",
    used_for="ranking substitutes: reps to failure over the range from which it is too light",
)
USUAL_HOLD_LOW_S = constant(
    "plan.usual_hold_low",
    20,
    "s",
    low=10,
    high=40,
    status=Status.COMMON_PRACTICE,
    source="common practice",
    used_for="seconds asked of a hold that replaces counted reps",
)
USUAL_HOLD_HIGH_S = constant(
    "plan.usual_hold_high",
    40,
    "s",
    low=30,
    high=60,
    status=Status.COMMON_PRACTICE,
    source="common practice",
    used_for="seconds asked of a hold that replaces counted reps",
)
USUAL_REPS_LOW = constant(
    "plan.usual_reps_low",
    8,
    "reps",
    low=5,
    high=12,
    status=Status.COMMON_PRACTICE,
    source="common practice; growth is alike from about 6 to 20 reps near failure (Lopez 2021)",
    used_for="reps asked of a planned set",
)
USUAL_REPS_HIGH = constant(
    "plan.usual_reps_high",
    12,
    "reps",
    low=8,
    high=20,
    status=Status.COMMON_PRACTICE,
    source="common practice; growth is alike from about 6 to 20 reps near failure (Lopez 2021)",
    used_for="reps asked of a planned set",
)
UNLOADED_REPS_LOW = constant(
    "plan.unloaded_reps_low",
    10,
    "reps",
    low=8,
    high=15,
    status=Status.COMMON_PRACTICE,
    source="common practice: where the load cannot be set, reps rise until the set is hard",
    used_for="reps asked of a stand-in at body weight or on bands",
)
UNLOADED_REPS_HIGH = constant(
    "plan.unloaded_reps_high",
    20,
    "reps",
    low=15,
    high=30,
    status=Status.COMMON_PRACTICE,
    source="common practice; growth is alike from about 6 to 20 reps near failure (Lopez 2021)",
    used_for="reps asked of a stand-in at body weight or on bands",
)
HUNG_REPS_LOW = constant(
    "plan.hung_reps_low",
    6,
    "reps",
    low=3,
    high=8,
    status=Status.COMMON_PRACTICE,
    source="common practice: chin-ups, pull-ups and dips move nearly all of her",
    used_for="reps asked of a stand-in hung from a bar or on dip bars",
)
HUNG_REPS_HIGH = constant(
    "plan.hung_reps_high",
    12,
    "reps",
    low=8,
    high=15,
    status=Status.COMMON_PRACTICE,
    source="common practice: chin-ups, pull-ups and dips move nearly all of her",
    used_for="reps asked of a stand-in hung from a bar or on dip bars",
)
LOWERED_REPS_LOW = constant(
    "plan.lowered_reps_low",
    4,
    "reps",
    low=3,
    high=6,
    status=Status.COMMON_PRACTICE,
    source="common practice: a slow lowering that few can do ten times",
    used_for="reps asked of a Nordic curl that stands in",
)
LOWERED_REPS_HIGH = constant(
    "plan.lowered_reps_high",
    8,
    "reps",
    low=6,
    high=12,
    status=Status.COMMON_PRACTICE,
    source="common practice: a slow lowering that few can do ten times",
    used_for="reps asked of a Nordic curl that stands in",
)
HINGE_REPS_LOW = constant(
    "plan.hinge_reps_low",
    6,
    "reps",
    low=5,
    high=8,
    status=Status.COMMON_PRACTICE,
    source="common practice: in long sets of deadlifts the back tires before the hips",
    used_for="reps asked of a heavy hinge that stands in for longer sets",
)
HINGE_REPS_HIGH = constant(
    "plan.hinge_reps_high",
    10,
    "reps",
    low=8,
    high=12,
    status=Status.COMMON_PRACTICE,
    source="common practice: in long sets of deadlifts the back tires before the hips",
    used_for="reps asked of a heavy hinge that stands in for longer sets",
)
