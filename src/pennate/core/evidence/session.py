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
    used_for="choosing the load the first time an exercise is done on an item",
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
CAREFUL_RESERVE = constant(
    "session.careful_reserve",
    4,
    "reps in reserve",
    low=3,
    high=6,
    status=Status.OUR_CHOICE,
    source="well short of failure while a clinician has not agreed to more",
    used_for="the least reserve asked under a health answer that calls for care",
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
MINUTES_SD_SHARE = constant(
    "time.session_sd_share",
    0.12,
    "share of the session",
    low=0.05,
    high=0.25,
    status=Status.OUR_CHOICE,
    source="no published figure; queues and talk, from memory, until her own log says better",
    used_for="the interval of a session's minutes",
)
