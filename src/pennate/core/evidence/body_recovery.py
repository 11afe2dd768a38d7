"""Constants of recovery: sleep, pain over time, layoffs, lighter weeks, the cycle."""

from __future__ import annotations

from pennate.core.evidence.register import Status, constant

SLEEP_PRIOR = constant(
    "recovery.sleep_prior",
    -0.01,
    "log strength",
    low=-0.05,
    high=0.0,
    status=Status.FROM_MEMORY,
    source="short sleep costs about a per cent, −1 ± 2 %, from memory",
    used_for="where her own relation of sleep and performance starts",
)
SLEEP_PRIOR_SPREAD = constant(
    "recovery.sleep_prior_spread",
    0.02,
    "log strength",
    low=0.01,
    high=0.04,
    status=Status.FROM_MEMORY,
    source="as above",
    used_for="how strongly her own relation is held to the prior",
)
CYCLE_EFFECT_SPREAD = constant(
    "recovery.cycle_effect_spread",
    0.01,
    "log strength",
    low=0.005,
    high=0.02,
    status=Status.PUBLISHED,
    source="McNulty 2020, 78 studies: effect size −0.06, trivial; Colenso-Semple 2023: premature "
    "to conclude any",
    used_for="her own effect of a stretch of the cycle: nought until her log shows one",
    contested="phase was poorly verified in the studies",
)
SESSION_SPREAD = constant(
    "recovery.session_spread",
    0.03,
    "log strength",
    low=0.02,
    high=0.06,
    status=Status.OUR_CHOICE,
    source="day effect 0.025 (trained) with what one session cannot tell",
    used_for="spread of one session's performance about what was expected, before it is learned",
)
LEAST_MARKED = constant(
    "recovery.least_marked",
    8,
    "sessions",
    low=6,
    high=20,
    status=Status.OUR_CHOICE,
    source="our choice: fewer could be one bad month",
    used_for="her own effect of sleep or cycle is not spoken of before that many on each side",
)
PAIN_LINGERS_DAYS = constant(
    "recovery.pain_clinician_days",
    14,
    "days",
    low=14,
    high=42,
    status=Status.COMMON_PRACTICE,
    source="pain of 3 or more for longer than two weeks: common practice",
    used_for="naming a clinician",
)
PAIN_COUNTS = constant(
    "recovery.pain_counts",
    3,
    "of 10",
    low=3,
    high=4,
    status=Status.PUBLISHED,
    source="Thomeé 1997 and Silbernagel 2007: 0–2 is safe (the stricter cut; original from memory)",
    used_for="pain that counts, and what ‘settled by next morning’ means",
    contested="a looser cut of 3 and 5 circulates",
)
PAIN_GAP_DAYS = constant(
    "recovery.pain_gap",
    8,
    "days",
    low=7,
    high=14,
    status=Status.OUR_CHOICE,
    source="our choice: a week and a day without pain ends a spell",
    used_for="what counts as one spell of pain",
)
LAYOFF_FREE_WEEKS = constant(
    "recovery.layoff_free",
    2,
    "weeks",
    low=2,
    high=4,
    status=Status.FROM_MEMORY,
    source="no loss of strength to about two weeks, from memory",
    used_for="loads after days off",
)
LAYOFF_LOSS_LOW = constant(
    "recovery.layoff_loss_low",
    0.0,
    "log per week",
    status=Status.FROM_MEMORY,
    source="0–2 % a week after that, from memory",
    used_for="loads after a layoff, the better case",
)
LAYOFF_LOSS_HIGH = constant(
    "recovery.layoff_loss_high",
    0.02,
    "log per week",
    low=0.01,
    high=0.03,
    status=Status.FROM_MEMORY,
    source="0–2 % a week after that, from memory",
    used_for="loads after a layoff, the worse case",
)
LAYOFF_MOST_LOSS = constant(
    "recovery.layoff_most_loss",
    0.3,
    "log",
    low=0.2,
    high=0.4,
    status=Status.OUR_CHOICE,
    source="our choice: strength does not fall without end",
    used_for="bound of the expected loss",
)
NEW_WORK_WEEKS = constant(
    "recovery.new_work_weeks",
    4,
    "weeks",
    low=3,
    high=6,
    status=Status.PUBLISHED,
    source="Maeo 2021: protection of earlier bouts; an exercise not done for four weeks is new",
    used_for="fewer sets after a layoff, because soreness and damage are large again",
)
RETURN_SETS = constant(
    "recovery.return_sets",
    0.5,
    "share of usual sets",
    low=0.3,
    high=0.7,
    status=Status.COMMON_PRACTICE,
    source="common practice: half of the sets in the first week back",
    used_for="the first week after a layoff",
)
RETURN_SETS_LATER = constant(
    "recovery.return_sets_later",
    0.75,
    "share of usual sets",
    low=0.5,
    high=1.0,
    status=Status.OUR_CHOICE,
    source="our choice: half-way back to the usual sets; new work keeps its caution for two weeks",
    used_for="the second week after a layoff",
)
DROP_THAT_COUNTS = constant(
    "recovery.drop_that_counts",
    0.02,
    "log strength",
    low=0.01,
    high=0.04,
    status=Status.OUR_CHOICE,
    source="our choice: about one day's ordinary spread",
    used_for="a lighter week is suggested only when her strength is down by more than this",
    contested="planned lighter weeks are habit; a full week off did not help growth (Coleman 2024)",
)
DROP_CERTAINTY = constant(
    "recovery.drop_certainty",
    0.95,
    "probability",
    low=0.9,
    high=0.99,
    status=Status.OUR_CHOICE,
    source="our choice: seldom wrong rather than early",
    used_for="how sure the drop must be",
)
CYCLE_MEAN = constant(
    "cycle.mean_length",
    29.3,
    "days",
    low=28.9,
    high=29.3,
    status=Status.PUBLISHED,
    source="Bull 2019 npj Digit Med 2:83, 612,613 cycles of 124,648 women",
    used_for="where her cycle length starts",
)
CYCLE_WITHIN = constant(
    "cycle.within_spread",
    2.9,
    "days",
    low=1.5,
    high=6.0,
    status=Status.PUBLISHED,
    source="Bull 2019: +0.4 days is +14 % within women, so 2.9 days",
    used_for="spread between her own cycles, before it is learned",
)
CYCLE_BETWEEN = constant(
    "cycle.between_spread",
    1.8,
    "days",
    low=1.5,
    high=3.0,
    status=Status.PUBLISHED,
    source="Fehring 2006: 3.4 days in all, less 2.9 within women",
    used_for="how far her mean may lie from everybody's",
)
CYCLE_FREEDOM = constant(
    "cycle.spread_weight",
    4,
    "cycles",
    low=2,
    high=10,
    status=Status.OUR_CHOICE,
    source="our choice; 42.5 % of women vary by more than 7 days (Fehring 2006)",
    used_for="how many cycles the prior spread is worth",
)
SHORT_CYCLE = constant(
    "cycle.short",
    24,
    "days",
    low=21,
    high=24,
    status=Status.FROM_MEMORY,
    source="FIGO, from memory: usual is 24 to 38 days",
    used_for="clinician notice",
)
LONG_CYCLE = constant(
    "cycle.long",
    38,
    "days",
    low=35,
    high=45,
    status=Status.FROM_MEMORY,
    source="FIGO, from memory: usual is 24 to 38 days",
    used_for="clinician notice",
)
FEWEST_CYCLES = constant(
    "cycle.fewest_a_year",
    9,
    "cycles a year",
    status=Status.PUBLISHED,
    source="textbook list of when to see a clinician: fewer than nine a year",
    used_for="clinician notice",
)
ABSENT_DAYS = constant(
    "cycle.absent",
    90,
    "days",
    status=Status.PUBLISHED,
    source="Mountjoy 2023; textbook list: no period for 90 days",
    used_for="clinician notice, and no deficit",
)
LONG_BLEEDING = constant(
    "cycle.long_bleeding",
    7,
    "days",
    status=Status.PUBLISHED,
    source="textbook list of when to see a clinician: bleeding for more than seven days",
    used_for="clinician notice",
)
