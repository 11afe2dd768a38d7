"""Constants of the planner: objective, soft costs, caps and set schemes."""

from pennate.core.evidence.register import Status, constant

PRIORITY_FIRST = constant(
    "plan.priority_first",
    2.0,
    "times",
    low=1.5,
    high=3.0,
    status=Status.OUR_CHOICE,
    source="our choice: the first wish counts twice an unnamed group",
    used_for="planner objective",
)
PRIORITY_STEP = constant(
    "plan.priority_step",
    0.25,
    "times",
    low=0.1,
    high=0.5,
    status=Status.OUR_CHOICE,
    source="our choice: each later wish counts a little less, never less than 1.25",
    used_for="planner objective",
)
PRIORITY_LEAST = constant(
    "plan.priority_least",
    1.25,
    "times",
    low=1.1,
    high=1.5,
    status=Status.OUR_CHOICE,
    source="our choice",
    used_for="planner objective",
)
STOP_COST = constant(
    "plan.stop_cost",
    0.01,
    "√sets per exercise",
    low=0.0,
    high=0.05,
    status=Status.OUR_CHOICE,
    source="our choice: of two weeks alike the one with fewer stations to set up",
    used_for="planner soft cost",
)
JOINT_COST = constant(
    "plan.joint_cost",
    0.0005,
    "√sets per set and level",
    low=0.0,
    high=0.005,
    status=Status.OUR_CHOICE,
    source="our choice: of two weeks alike the one that is easier on the joints",
    used_for="planner soft cost; ten times that for a joint she limits",
)
SORE_JOINT_TIMES = constant(
    "plan.sore_joint_times",
    10,
    "times",
    low=5,
    high=20,
    status=Status.OUR_CHOICE,
    source="our choice",
    used_for="planner soft cost of a joint she limits or that hurts a little",
)
JOINT_CLOSE_COST = constant(
    "plan.joint_close_cost",
    0.02,
    "√sets per set and level",
    low=0.005,
    high=0.1,
    status=Status.OUR_CHOICE,
    source="our choice: a tenth to a quarter of what a set is worth, so that days in a row are "
    "hard on a joint only where nothing else serves as well",
    used_for="planner soft cost of joint load above the mark on two days in a row; for a joint "
    "that is sore or that she limits a lower mark is a hard rule",
)
CHURN_COST = constant(
    "plan.churn_cost",
    0.08,
    "√sets per exercise",
    low=0.0,
    high=0.3,
    status=Status.OUR_CHOICE,
    source="our choice: a change must be worth about half a weekly set of a small dose",
    used_for="planner soft cost of each exercise new or dropped against the current week",
)
NEAR_TIMES = constant(
    "plan.near_times",
    4,
    "times",
    low=2,
    high=8,
    status=Status.OUR_CHOICE,
    source="our choice: a better week of hers keeps most of it; a lift she knows goes only for "
    "about a set and a half of a muscle she puts first",
    used_for="planner soft cost of change where she wants to stay near her week",
)
MOVE_COST = constant(
    "plan.move_cost",
    0.6,
    "√sets per stop",
    low=0.1,
    high=1.0,
    status=Status.OUR_CHOICE,
    source="our choice: a stop of hers stays on its day unless more than a set is gained",
    used_for="planner soft cost of a stop of her week on another day, where she stays near it",
)
OPEN_GROUP_SETS = constant(
    "plan.open_group_sets",
    10,
    "fractional sets a week",
    low=6,
    high=12,
    status=Status.COMMON_PRACTICE,
    source="common practice: about ten hard sets a week keep a muscle growing moderately "
    "(Schoenfeld 2017 parts low from high volume there)",
    used_for="the most of a group left open in the brief, where her week has less",
)
LIKED_WORTH = constant(
    "plan.liked_worth",
    0.1,
    "√sets per exercise",
    low=0.0,
    high=0.3,
    status=Status.OUR_CHOICE,
    source="our choice: what she likes stays unless something is clearly better",
    used_for="planner reward for each liked exercise in the week",
)
SETS_LEAST = constant(
    "plan.sets_least",
    2,
    "sets",
    low=1,
    high=3,
    status=Status.COMMON_PRACTICE,
    source="common practice; 2–3 sets an exercise beat one (Krieger 2010)",
    used_for="fewest sets of an exercise in the planner",
)
SETS_MOST = constant(
    "plan.sets_most",
    4,
    "sets",
    low=3,
    high=6,
    status=Status.COMMON_PRACTICE,
    source="common practice; effect by sets per exercise flattens after 4–6 (Krieger 2010)",
    used_for="most sets of an exercise in the planner",
)
EXERCISES_A_DAY = constant(
    "plan.exercises_a_day",
    9,
    "exercises",
    low=6,
    high=12,
    status=Status.COMMON_PRACTICE,
    source="common practice",
    used_for="most exercises a day where the brief says nothing",
)
DAYS_AN_EXERCISE = constant(
    "plan.days_an_exercise",
    2,
    "days a week",
    low=1,
    high=3,
    status=Status.COMMON_PRACTICE,
    source="common practice; frequency itself shows no effect on size at equal sets",
    used_for="most days a week with the same exercise",
)
SESSION_CAP = constant(
    "plan.session_cap",
    12,
    "fractional sets of a part",
    low=8,
    high=15,
    status=Status.FROM_MEMORY,
    source="about the dose beyond which no gain was detectable (Remmert 2025, from memory)",
    used_for="planner cap on one session, and on two sessions within 24 hours together (spacing)",
)
WEEK_CAP = constant(
    "plan.week_cap",
    30,
    "fractional sets of a part",
    low=20,
    high=42,
    status=Status.FROM_MEMORY,
    source="bands of efficiency end at 30–42 sets (Pelland 2024, from memory); in trained men no "
    "clear gain above 20 was seen (Baz-Valle 2022)",
    used_for="planner cap on a week where no higher dose is asked; audit calls more too much",
    contested="slope stays positive beyond 30 sets in the meta-regression; the square root "
    "makes the planner go there only when time is plenty",
)
DROPS_A_SET = constant(
    "plan.drops_a_set",
    2,
    "drops",
    low=1,
    high=3,
    status=Status.COMMON_PRACTICE,
    source="1–3 drops of 20–25 % (common practice); see dose.drop_credit",
    used_for="the set scheme top + drops in the planner",
)
DROP_REPS = constant(
    "plan.drop_reps",
    8,
    "reps",
    low=5,
    high=12,
    status=Status.COMMON_PRACTICE,
    source="common practice",
    used_for="minutes and reps of a planned drop",
)
DROP_STRIP = constant(
    "plan.drop_strip",
    0.22,
    "share of the load",
    low=0.2,
    high=0.25,
    status=Status.COMMON_PRACTICE,
    source="−20 to −25 % each, from memory",
    used_for="load of a planned drop",
)
BACK_OFF_STRIP = constant(
    "plan.back_off_strip",
    0.1,
    "share of the load",
    low=0.05,
    high=0.2,
    status=Status.COMMON_PRACTICE,
    source="common practice",
    used_for="load of planned back-off sets",
)
TOP_REPS_LOW = constant(
    "plan.top_reps_low",
    6,
    "reps",
    low=3,
    high=8,
    status=Status.COMMON_PRACTICE,
    source="common practice",
    used_for="reps of a planned top set",
)
TOP_REPS_HIGH = constant(
    "plan.top_reps_high",
    8,
    "reps",
    low=5,
    high=10,
    status=Status.COMMON_PRACTICE,
    source="common practice",
    used_for="reps of a planned top set",
)
SUPERSETS_A_DAY = constant(
    "plan.supersets_a_day",
    2,
    "supersets",
    low=0,
    high=4,
    status=Status.OUR_CHOICE,
    source="our choice: supersets keep size (Burke 2024) but cost strength on some lifts "
    "(Iversen 2024), so a day is not made of them",
    used_for="most supersets a day in the planner",
)
DROP_EXERCISES_A_DAY = constant(
    "plan.drop_exercises_a_day",
    1,
    "exercises",
    low=0,
    high=3,
    status=Status.OUR_CHOICE,
    source="our choice: how a drop counts is contested, so a day does not lean on it",
    used_for="most exercises with drops a day in the planner",
)
TRAINED_YEARS = constant(
    "plan.trained_years",
    1,
    "years",
    low=1,
    high=3,
    status=Status.COMMON_PRACTICE,
    source="common practice: the first year is a novice's",
    used_for="which experience factor the expected effect takes",
)
PAIRS_AN_EXERCISE = constant(
    "plan.pairs_an_exercise",
    2,
    "pairs",
    low=1,
    high=6,
    status=Status.OUR_CHOICE,
    source="our choice: keeps the model small",
    used_for="supersets the planner considers",
)
PAIRS_MOST = constant(
    "plan.pairs_most",
    16,
    "pairs",
    low=0,
    high=100,
    status=Status.OUR_CHOICE,
    source="our choice: keeps the model small",
    used_for="supersets the planner considers",
)
ORDER_SHARED = constant(
    "plan.order_shared",
    0.02,
    "share of a lift for each shared part",
    low=0.0,
    high=0.03,
    status=Status.FROM_MEMORY,
    source="earlier work takes 0–3 % of the next lift where muscles differ, more where they "
    "share (from memory; Simao 2005 gives the direction)",
    used_for="order within a day",
)
ORDER_NEXT = constant(
    "plan.order_next",
    0.04,
    "share of a lift for each shared part",
    low=0.02,
    high=0.12,
    status=Status.FROM_MEMORY,
    source="the same muscle to failure within 5 minutes takes 8–12 % of the next lift, from memory",
    used_for="order within a day: neighbours that share muscle",
)
ORDER_PRIORITY = constant(
    "plan.order_priority",
    0.1,
    "share of a lift",
    low=0.0,
    high=0.3,
    status=Status.OUR_CHOICE,
    source="our choice: what she cares for comes first; order helps strength (ES 0.32 for "
    "multi-joint lifts done first) and not size (ES 0.03), Nunes 2021",
    used_for="order within a day",
)
ORDER_GRIP = constant(
    "plan.order_grip",
    0.5,
    "share of a lift",
    low=0.1,
    high=1.0,
    status=Status.OUR_CHOICE,
    source="our choice: a tired grip ends the set before the muscle does",
    used_for="order within a day",
)
REPLAN_KEEP = constant(
    "plan.replan_keep",
    0.4,
    "√sets per stop",
    low=0.0,
    high=1.0,
    status=Status.OUR_CHOICE,
    source="our choice: a stop stays where it was unless more than a set is gained",
    used_for="re-plan: reward for a stop on its own day",
)
REPLAN_MOVE = constant(
    "plan.replan_move",
    0.2,
    "√sets per stop",
    low=0.0,
    high=1.0,
    status=Status.OUR_CHOICE,
    source="our choice: the smallest change",
    used_for="re-plan: cost of a stop on another day",
)
REPLAN_SWAP = constant(
    "plan.replan_swap",
    0.1,
    "√sets per stop",
    low=0.0,
    high=0.5,
    status=Status.OUR_CHOICE,
    source="our choice: the smallest change",
    used_for="re-plan: cost of a substitute",
)
BLOCK_STUDY_WEEKS = constant(
    "plan.block_study_weeks",
    10,
    "weeks",
    low=8,
    high=12,
    status=Status.PUBLISHED,
    source="length of the pooled studies, roughly 8–12 weeks (Pelland 2024)",
    used_for="expected difference by the end of a block",
)
CLOSE_CAP = constant(
    "plan.close_cap",
    16,
    "fractional sets of a part",
    low=10,
    high=20,
    status=Status.OUR_CHOICE,
    source="our choice: a third more than one session; at 24 h multi-joint sets still lack "
    "1.7 ± 1.5 reps (Korak 2015)",
    used_for="spacing: planner cap on two sessions within 24 hours together, audit of close days",
)
