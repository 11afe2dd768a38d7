"""Constants of counting sets and time."""

from pennate.core.evidence.register import Status, constant

FULL_CREDIT_RESERVE = constant(
    "dose.full_credit_reserve",
    3,
    "reps in reserve",
    low=2,
    high=4,
    status=Status.COMMON_PRACTICE,
    source="0–3 in reserve counts as a hard set; Robinson 2024 finds more growth nearer failure, "
    "without a published slope per rep",
    used_for="the effort at which a set still counts in full",
    contested="how fast the effect falls off with reserve is not known",
)
NO_CREDIT_RESERVE = constant(
    "dose.no_credit_reserve",
    6,
    "reps in reserve",
    low=5,
    high=8,
    status=Status.COMMON_PRACTICE,
    source="common practice: 6 or more in reserve is a warm-up",
    used_for="the effort from which a set counts nothing; linear between",
)
DROP_CREDIT = constant(
    "dose.drop_credit",
    0.5,
    "set",
    low=0,
    high=1,
    status=Status.OUR_CHOICE,
    source="drop sets match straight sets at a third to half of the time "
    "(Coleman 2022, Sødal 2023); how to count one is not settled",
    used_for="dose of a drop; the audit shows the range from 0 to 1",
    contested="counted as anything from nothing to a whole set",
)
SECONDS_PER_REP = constant(
    "time.seconds_per_rep",
    3,
    "s",
    low=2,
    high=4,
    status=Status.PUBLISHED,
    source="1–2 s up and 1–2 s down, ACSM 2009; session times of Schoenfeld 2019 are met by 2–3 s",
    used_for="minutes of a set when no tempo is given",
)
SET_UP_S = constant(
    "time.set_up",
    8,
    "s",
    low=5,
    high=10,
    status=Status.COMMON_PRACTICE,
    source="5–10 s to take position, common practice",
    used_for="minutes of a set",
)
CHANGEOVER_S = constant(
    "time.changeover",
    120,
    "s",
    low=60,
    high=180,
    status=Status.PUBLISHED,
    source="reproduces the session times of Schoenfeld 2019 (13, 40, 68 minutes)",
    used_for="minutes between two exercises at different stations",
)
USUAL_REST_S = constant(
    "time.usual_rest",
    120,
    "s",
    low=60,
    high=180,
    status=Status.PUBLISHED,
    source="Singer 2024: a small benefit of more than 60 s, none clear beyond 90 s; "
    "reps are kept better with 2–3 min (Ratamess 2010)",
    used_for="rest before a working set when none is asked",
    contested="credible intervals of all rest bands overlap for growth",
)
DROP_REST_S = constant(
    "time.drop_rest",
    15,
    "s",
    low=10,
    high=20,
    status=Status.COMMON_PRACTICE,
    source="common practice: only the time to change the load",
    used_for="rest before a drop set",
)
WARM_UP_REST_S = constant(
    "time.warm_up_rest",
    45,
    "s",
    low=30,
    high=90,
    status=Status.COMMON_PRACTICE,
    source="common practice",
    used_for="rest before a ramp set; the first working set has its own",
)
PLATE_MOVE_S = constant(
    "time.plate_move",
    6,
    "s",
    low=4,
    high=10,
    status=Status.OUR_CHOICE,
    source="a plate on or off each side, timed by nobody; from memory",
    used_for="time to change the load",
)
