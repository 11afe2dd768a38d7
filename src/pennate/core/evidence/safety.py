"""Constants of cautions: when they appear and how long they stay."""

from pennate.core.evidence.register import Status, constant

NEW_AGAIN_DAYS = constant(
    "safety.new_again",
    28,
    "days",
    low=21,
    high=42,
    status=Status.COMMON_PRACTICE,
    source="untrained legs lost 12–24 % of strength a day after a new exercise, trained ones at "
    "most 5 % (Maeo 2021); that protection fades over weeks, the cut itself is practice",
    used_for="an exercise not done for this long counts as new",
)
BACK_RESERVE = constant(
    "safety.back_reserve",
    2,
    "reps in reserve",
    low=1,
    high=4,
    status=Status.COMMON_PRACTICE,
    source="common practice: short of failure in the first session of something new or taken up "
    "again; damage follows unaccustomed work (Maeo 2021)",
    used_for="the least reserve the first time back with an exercise after four weeks or more",
)
NEW_CARE_DAYS = constant(
    "safety.new_care",
    14,
    "days",
    low=7,
    high=21,
    status=Status.COMMON_PRACTICE,
    source="early change after new work is mostly swelling for about four sessions (Damas 2018)",
    used_for="how long a new exercise keeps its caution",
)
SETS_JUMP = constant(
    "safety.sets_jump",
    0.5,
    "share of usual sets",
    low=0.3,
    high=1,
    status=Status.OUR_CHOICE,
    source="muscle breakdown follows unaccustomed or maximal work (Scalco 2016; Honda 2017); no "
    "study gives a threshold",
    used_for="a rise in sets that brings the warning signs of muscle breakdown",
    contested="no published threshold",
)
BREAKDOWN_DAYS = constant(
    "safety.breakdown_days",
    5,
    "days",
    low=3,
    high=7,
    status=Status.PUBLISHED,
    source="signs appear one to five days after unaccustomed work (Scalco 2016)",
    used_for="how long the warning signs of muscle breakdown are shown",
)
CAREFUL_RESERVE = constant(
    "safety.careful_reserve",
    4,
    "reps in reserve",
    low=3,
    high=5,
    status=Status.OUR_CHOICE,
    source="blood pressure climbs most in the last reps before failure (MacDougall 1985; "
    "Nery 2010); the number is ours",
    used_for="least reserve for under 18, pregnancy, or told to avoid strain",
)
PAIN_REDUCE_FROM = constant(
    "safety.pain_reduce_from",
    3,
    "of 10",
    low=3,
    high=4,
    status=Status.FROM_MEMORY,
    source="0–2 safe, 2–5 acceptable, above 5 too high (Thomeé 1997; Silbernagel 2007); the "
    "original cut from memory, the stricter one used",
    used_for="pain from which load, range or exercise is reduced",
    contested="published cuts differ: 2 or 3, and 5",
)
PAIN_STOP_ABOVE = constant(
    "safety.pain_stop_above",
    5,
    "of 10",
    status=Status.PUBLISHED,
    source="pain-monitoring trial in tendon patients (Silbernagel 2007)",
    used_for="pain above which an exercise is stopped",
    contested="the trial let clinicians allow up to 5",
)
PAIN_PERSISTS_DAYS = constant(
    "safety.pain_persists",
    14,
    "days",
    low=7,
    high=28,
    status=Status.COMMON_PRACTICE,
    source="common practice: pain that lasts more than two weeks is looked at",
    used_for="when joint pain brings the clinician line",
)
KNEE_LOAD_LEVEL = constant(
    "safety.knee_load",
    2,
    "of 3",
    low=2,
    high=3,
    status=Status.OUR_CHOICE,
    source="our relative joint scale; deep knee bend loads the kneecap most (Song 2023; Hart 2022)",
    used_for="joint load from which a sore knee brings a caution",
)
BRACE_LOAD_LEVEL = constant(
    "safety.brace_load",
    2,
    "of 3",
    low=2,
    high=3,
    status=Status.OUR_CHOICE,
    source="our relative joint scale; compression in Cholewicki 1991, Hartmann 2016",
    used_for="lower-back load from which a hard set brings the bracing line",
)
NO_PERIOD_DAYS = constant(
    "safety.no_period",
    90,
    "days",
    status=Status.PUBLISHED,
    source="three months without a period is a reason to see a clinician (Mountjoy 2023; "
    "gynaecological criteria)",
    used_for="the clinician line of the cycle log",
)
LOW_ENERGY_KCAL_KG = constant(
    "safety.low_energy",
    30,
    "kcal per kg fat-free mass a day",
    low=25,
    high=45,
    status=Status.PUBLISHED,
    source="low energy availability in women (Mountjoy 2023; Areta 2021)",
    used_for="stopping a deficit and the clinician line",
    contested="from five laboratory days in lean, sedentary young women; field estimates are rough",
)
ILL_EASY_A_DAY = constant(
    "safety.ill_easy",
    1,
    "easy days a day away",
    low=1,
    high=2,
    status=Status.COMMON_PRACTICE,
    source="common practice after an illness with fever: ease in for about as long as it kept one "
    "away; from memory",
    used_for="how long sessions have fewer sets and two left after an illness, two weeks at most",
)
ILL_EASY_LEAST = constant(
    "safety.ill_easy_least",
    3,
    "days",
    low=2,
    high=7,
    status=Status.OUR_CHOICE,
    source="our choice: a short illness eases at least the first sessions",
    used_for="the fewest easy days after an illness",
)
ILL_ASK_DAYS = constant(
    "safety.ill_ask",
    5,
    "days",
    low=4,
    high=10,
    status=Status.OUR_CHOICE,
    source="our choice: longer than a week of five sessions leaves between two",
    used_for="days without a session after which she is asked whether she was ill",
)
