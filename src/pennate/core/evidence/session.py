"""Constants of choosing and changing loads within a session."""

from pennate.core.evidence.register import Status, constant

SURE_ENOUGH = constant(
    "session.sure_enough",
    0.7,
    "probability",
    low=0.5,
    high=0.9,
    status=Status.OUR_CHOICE,
    source="the load is the heaviest at which the low end of the range is at least this likely",
    used_for="choosing the load of a set when the exercise is known",
)
SURE_ENOUGH_LATER = constant(
    "session.sure_enough_later",
    0.5,
    "probability",
    low=0.3,
    high=0.7,
    status=Status.OUR_CHOICE,
    source="straight sets hold one load: the last of them must still be as likely as not",
    used_for="choosing one load for several straight sets, and keeping a planned load",
)
SURE_ENOUGH_FIRST = constant(
    "session.sure_enough_first",
    0.84,
    "probability",
    low=0.7,
    high=0.95,
    status=Status.COMMON_PRACTICE,
    source="start low with a new exercise: one standard deviation below the middle, "
    "the usual margin for an unseen exercise",
    used_for="choosing the load the first time an exercise is done on an item; never below its "
    "test set while the low end stays likely",
)
TRIED_ELSEWHERE = constant(
    "session.tried_elsewhere",
    0.5,
    "share",
    low=0.4,
    high=0.7,
    status=Status.COMMON_PRACTICE,
    source="pulleys and cams make a stack's number stand for half or twice another's",
    used_for="the test set on a machine that is not hers: this share of the number she lifts as "
    "often on the one she knows",
)
TRIAL_OUTGROWN = constant(
    "session.trial_outgrown",
    1.5,
    "times",
    low=1.2,
    high=2.0,
    status=Status.OUR_CHOICE,
    source="far more than a set too hard or too easy changes in a session",
    used_for="last time's heaviest set is held in place of its first where it was so many times "
    "as heavy: the first was a trial",
)
TOO_HEAVY = constant(
    "session.too_heavy",
    0.35,
    "probability",
    low=0.2,
    high=0.5,
    status=Status.OUR_CHOICE,
    source="a planned load is lowered within the session only when the low end of the range "
    "has become clearly unlikely, so that noise is not chased",
    used_for="lowering a planned load within the session",
)
TOO_LIGHT = constant(
    "session.too_light",
    0.7,
    "probability",
    low=0.6,
    high=0.9,
    status=Status.OUR_CHOICE,
    source="a planned load is raised only when passing the top of the range by two reps "
    "is at least this likely, so that noise is not chased",
    used_for="raising a planned load within the session",
)
REPS_OVER_TOP = constant(
    "session.reps_over_top",
    2,
    "reps",
    low=1,
    high=3,
    status=Status.PUBLISHED,
    source="two reps over the goal is the usual sign for more load (ACSM 2009: 1–2 reps)",
    used_for="raising a planned load within the session",
)
FAMILIAR_SETS = constant(
    "session.familiar_sets",
    3,
    "working sets",
    low=1,
    high=6,
    status=Status.OUR_CHOICE,
    source="after a first session of three working sets the exercise is no longer new",
    used_for="telling a first exposure from a known exercise",
)
DROP_SHARE = constant(
    "session.drop_share",
    0.78,
    "share of the load before",
    low=0.7,
    high=0.85,
    status=Status.COMMON_PRACTICE,
    source="20–25 % less per drop, common practice",
    used_for="a drop set whose load is left open",
)
PAIN_LOAD_SHARE = constant(
    "session.pain_load_share",
    0.8,
    "share of the planned load",
    low=0.5,
    high=0.9,
    status=Status.OUR_CHOICE,
    source="the pain rule asks to reduce; how much is common practice, a fifth to start",
    used_for="a joint at 3–5 of 10 that the exercise loads",
)
CLEARLY_SHORT = constant(
    "session.clearly_short",
    2,
    "reps",
    low=1,
    high=4,
    status=Status.OUR_CHOICE,
    source="one rep is within the noise of a set (0.7–1.1 reps, Mitter 2022); two below the low "
    "end near failure are not",
    used_for="drawing back-off sets anew after a top set that was too heavy",
)
LARGEST_RAISE = constant(
    "session.largest_raise",
    0.10,
    "share of the load",
    low=0.02,
    high=0.10,
    status=Status.PUBLISHED,
    source="ACSM 2009: raise by 2–10 % when the range is passed",
    used_for="the most a load is raised at once",
)
RAMP_SHARE = constant(
    "session.ramp_share",
    0.6,
    "share of the first working load",
    low=0.4,
    high=0.8,
    status=Status.COMMON_PRACTICE,
    source="one set at 50–60 % and one at 80 % before the first heavy set, see the ramp",
    used_for="a written warm-up set whose load is left open",
)
LAST_TIME_DAYS = constant(
    "session.last_time_days",
    28,
    "days",
    low=14,
    high=42,
    status=Status.OUR_CHOICE,
    source="from four weeks away an exercise counts as new again, see the cautions",
    used_for="how long the load of last time is held on to",
)
DAY_WORTH_SAYING = constant(
    "session.day_worth_saying",
    0.015,
    "share of strength",
    low=0.01,
    high=0.03,
    status=Status.OUR_CHOICE,
    source="below the usual day-to-day spread of 2–4 % (Grgic 2020) nothing is worth a line",
    used_for="saying that today runs up or down",
)
LEAST_DOSE = constant(
    "session.least_dose",
    1,
    "fractional sets a week",
    low=0.5,
    high=2,
    status=Status.OUR_CHOICE,
    source="the square root is endlessly steep at nothing; one set is where it begins to count",
    used_for="the worth of a set of a part that gets next to nothing",
)
PRIORITY_WORTH = constant(
    "session.priority_worth",
    2,
    "times",
    low=1,
    high=3,
    status=Status.OUR_CHOICE,
    source="what she puts first counts double when time is short",
    used_for="which sets are left out when time is short",
)
HEAVY_REPS = constant(
    "session.heavy_reps",
    8,
    "reps",
    low=6,
    high=10,
    status=Status.COMMON_PRACTICE,
    source="common practice: below about eight reps a load is ramped up to even when warm",
    used_for="a ramp set before a heavy exercise of muscles that are warm already",
)
Z_80 = constant(
    "session.z_80",
    1.2816,
    "standard deviations",
    status=Status.STANDARD,
    source="normal distribution: 80 % lie within ± 1.2816",
    used_for="80 % intervals shown beside estimates",
)
