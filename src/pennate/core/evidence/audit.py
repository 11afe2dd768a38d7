"""Constants of the audit: where a week is called too little, too much, too long or too close."""

from pennate.core.evidence.register import Status, constant

LEAST_PART_DOSE = constant(
    "audit.least_part_dose",
    4,
    "fractional sets a week",
    low=2,
    high=6,
    status=Status.PUBLISHED,
    source="about 4 fractional sets a week is the smallest dose with detectable growth "
    "(Pelland 2024, seen in a summary)",
    used_for="the least weekly dose of a group where nothing is asked",
)
NEGLECTED_PART_DOSE = constant(
    "audit.neglected_part_dose",
    2,
    "fractional sets a week",
    low=1,
    high=4,
    status=Status.OUR_CHOICE,
    source="our choice: half the smallest dose with detectable growth",
    used_for="the dose below which a part of a trained group counts as left out",
)
JOINT_HEAVY_DAY = constant(
    "audit.joint_heavy_day",
    20,
    "hard sets × joint level",
    low=10,
    high=30,
    status=Status.OUR_CHOICE,
    source="our choice: ten hard sets at level 2; the joint scale itself is relative and ours",
    used_for="when days in a row count as heavy for a joint: twice this together",
)
SIDE_SD_TIMES = constant(
    "audit.side_sd_times",
    2.3,
    "times",
    low=1,
    high=3,
    status=Status.FITTED,
    source="made-up lifters of known sides, noise of one rep: the model's own 95 % interval missed "
    "the truth in 54 of 216, most where the sides differ much and one load never changes",
    used_for="how much wider the difference between left and right is told than the model says",
)
JOINT_TWO_DAYS = constant(
    "audit.joint_two_days",
    2.5,
    "heavy marks",
    low=1.5,
    high=4,
    status=Status.OUR_CHOICE,
    source="our choice: no trial of spacing by joint load was found",
    used_for="load of a joint on two days in a row from which they are called hard on it",
)
JOINT_LEAST = constant(
    "audit.joint_least",
    0.75,
    "heavy marks",
    low=0.5,
    high=1,
    status=Status.OUR_CHOICE,
    source="our choice",
    used_for="load that each of two days in a row has at least to be called hard on a joint",
)
LONG_DAY_MIN = constant(
    "audit.long_day",
    90,
    "min",
    low=75,
    high=120,
    status=Status.COMMON_PRACTICE,
    source="common practice",
    used_for="when a day is long although no minutes are asked",
)
PUSH_PULL_MOST = constant(
    "audit.push_pull_most",
    2,
    "times",
    low=1.5,
    high=3,
    status=Status.COMMON_PRACTICE,
    source="common practice; no trial of balance and injury found",
    used_for="when pushing and pulling are called unequal",
)
REPS_LOST_MULTI = constant(
    "audit.reps_lost_multi",
    1.7,
    "reps a set, 24 h after failure",
    low=0.2,
    high=3.2,
    status=Status.PUBLISHED,
    source="multi-joint −1.7 ± 1.5 (Korak 2015, 10 men)",
    used_for="reps expected to be lost if trained again after a day",
)
REPS_LOST_SINGLE = constant(
    "audit.reps_lost_single",
    0.5,
    "reps a set, 24 h after failure",
    low=0.0,
    high=2.3,
    status=Status.PUBLISHED,
    source="single-joint −0.5 ± 1.8 (Korak 2015, 10 men)",
    used_for="reps expected to be lost if trained again after a day",
)
RECOVERY_HALF_H = constant(
    "audit.recovery_half",
    24,
    "h",
    low=12,
    high=36,
    status=Status.OUR_CHOICE,
    source="our choice between 24 h (−1.7 reps) and 48 h (80 % of men within one rep, Korak 2015)",
    used_for="how fast the expected loss fades with hours",
)
WEIGHT_SAFETY = constant(
    "audit.weight_safety",
    10,
    "points",
    low=5,
    high=20,
    status=Status.OUR_CHOICE,
    source="our choice: safety is named first",
    used_for="order of findings, and which single change mends most",
)
WEIGHT_DOSE = constant(
    "audit.weight_dose",
    3,
    "points for a group without any dose",
    low=1,
    high=6,
    status=Status.OUR_CHOICE,
    source="our choice",
    used_for="order of findings, and which single change mends most",
)
WEIGHT_CROWD = constant(
    "audit.weight_crowd",
    2,
    "points for twice the cap",
    low=0.5,
    high=4,
    status=Status.OUR_CHOICE,
    source="our choice",
    used_for="order of findings, and which single change mends most",
)
WEIGHT_JOINT = constant(
    "audit.weight_joint",
    1.5,
    "points for two days at the heavy mark",
    low=0.5,
    high=4,
    status=Status.OUR_CHOICE,
    source="our choice",
    used_for="order of findings, and which single change mends most",
)
WEIGHT_TIME = constant(
    "audit.weight_time",
    2,
    "points for a half longer than asked",
    low=0.5,
    high=4,
    status=Status.OUR_CHOICE,
    source="our choice",
    used_for="order of findings, and which single change mends most",
)
WEIGHT_SMALL = constant(
    "audit.weight_small",
    0.5,
    "points",
    low=0.1,
    high=1,
    status=Status.OUR_CHOICE,
    source="our choice: order, balance and stations matter less than dose",
    used_for="order of findings, and which single change mends most",
)
LOST_WORTH = constant(
    "audit.lost_worth",
    0.75,
    "points per √set of a group's benefit given up",
    low=0.3,
    high=1.5,
    status=Status.OUR_CHOICE,
    source="our choice: a mend that takes dose must mend more than the dose was worth",
    used_for="which single change mends most",
)
CHANGE_COST = constant(
    "audit.change_cost",
    0.06,
    "points per unit of group dose or 5 minutes changed",
    low=0.0,
    high=0.2,
    status=Status.OUR_CHOICE,
    source="our choice: of two mends alike the smaller",
    used_for="which single change mends most",
)
SIDES_SETS_APART = constant(
    "audit.sides_sets_apart",
    0.1,
    "share of the side with more",
    low=0.05,
    high=0.3,
    status=Status.OUR_CHOICE,
    source="our choice: beyond a set forgotten now and then",
    used_for="when left and right are called uneven in sets",
)
FEWEST_SETS_APART = constant(
    "audit.fewest_sets_apart",
    3,
    "sets",
    low=2,
    high=6,
    status=Status.OUR_CHOICE,
    source="our choice: fewer may be a slip of the log",
    used_for="when left and right are called uneven in sets",
)
SIDES_STRENGTH_APART = constant(
    "audit.sides_strength_apart",
    0.03,
    "share of strength",
    low=0.02,
    high=0.1,
    status=Status.OUR_CHOICE,
    source="our choice: about one rep; differences of 5 to 10 % are ordinary, from memory",
    used_for="the smallest clear difference of strength between sides that is told",
)
SOON_REPS = constant(
    "audit.soon_reps",
    1,
    "reps a set",
    low=0.5,
    high=2,
    status=Status.OUR_CHOICE,
    source="our choice: 80 % of men were within one rep after 48 h (Korak 2015)",
    used_for="the expected loss from which the next session is called too soon for a group",
)
SOON_DOSE = constant(
    "audit.soon_dose",
    3,
    "fractional sets",
    low=1,
    high=6,
    status=Status.OUR_CHOICE,
    source="our choice: the dose of the recovery studies",
    used_for="the dose of the next session from which hours since the last one matter",
)
