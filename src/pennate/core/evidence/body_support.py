"""Constants of supporting evidence: how much strength and dose say about growth."""

from __future__ import annotations

from pennate.core.evidence.register import Status, constant

_DATA = "exscidata 0.07 (CC0; Hammarström 2020), 12 weeks, 39 beginners; bench/body/support.py"

STRENGTH_WEIGHT = constant(
    "body.strength_weight",
    0.08,
    "correlation",
    low=0.02,
    high=0.28,
    status=Status.OPEN_DATA,
    source=f"{_DATA}: leg press 0.02, leg extension 0.14, dynamometer 0.18–0.28 with lean gain of "
    "the same leg",
    used_for="how far a gain in strength moves the stated probability of growth",
    contested="two more trials' worth of data could make it nought or a third",
)
STRENGTH_GAIN_USUAL = constant(
    "body.strength_gain_usual",
    0.02,
    "log in the stretch",
    low=0.0,
    high=0.10,
    status=Status.OUR_CHOICE,
    source="our choice for a lifter with years behind her; beginners of the open data gained 0.4",
    used_for="the strength gain that says nothing either way",
)
STRENGTH_GAIN_SPREAD = constant(
    "body.strength_gain_spread",
    0.15,
    "log",
    low=0.10,
    high=0.22,
    status=Status.OPEN_DATA,
    source=f"{_DATA}: spread of log gain 0.14–0.17 on machines and isometric",
    used_for="what counts as a large gain in strength",
)
DOSE_LEAN_DIFFERENCE = constant(
    "body.dose_lean_difference",
    1.2,
    "% of lean mass in 12 weeks",
    low=0.1,
    high=2.3,
    status=Status.OPEN_DATA,
    source=f"{_DATA}: leg with three sets against leg with one set of the same person, "
    "1.2 ± 0.56 (standard error) points",
    used_for="what more sets are worth as supporting evidence",
)
DOSE_SETS_DIFFERENCE = constant(
    "body.dose_sets_difference",
    8,
    "sets a week",
    low=6,
    high=12,
    status=Status.FROM_MEMORY,
    source="two more sets of each of two exercises, two to three times a week (Hammarström 2020, "
    "from memory)",
    used_for="the dose difference behind the lean difference",
)
USUAL_SETS = constant(
    "body.usual_sets",
    10,
    "fractional sets a week",
    low=8,
    high=14,
    status=Status.COMMON_PRACTICE,
    source="mean dose of the trials pooled by Pelland 2024 is about 12 (from memory)",
    used_for="the dose that shifts nothing",
)
TRAINED_FACTOR = constant(
    "body.trained_factor",
    0.35,
    "times",
    low=0.05,
    high=0.9,
    status=Status.FROM_MEMORY,
    source="a lifter with years behind her against a beginner: median of a wide range, from memory",
    used_for="dose as supporting evidence",
)
GIRTH_PER_LEAN = constant(
    "body.girth_per_lean",
    0.35,
    "% of girth per % of muscle",
    low=0.1,
    high=0.5,
    status=Status.STANDARD,
    source="girth goes with the root of area (a half), muscle is two thirds to three quarters of a "
    "limb's area",
    used_for="turning growth of muscle into growth of girth",
)
LOG_PER_REP = constant(
    "body.log_per_rep",
    0.03,
    "log load per rep",
    low=0.02,
    high=0.04,
    status=Status.COMMON_PRACTICE,
    source="common practice: about 3 % of the load a rep",
    used_for="an index of strength from the log, as supporting evidence only",
)
LEAST_SETS = constant(
    "body.least_sets_for_index",
    6,
    "sets",
    low=4,
    high=12,
    status=Status.OUR_CHOICE,
    source="our choice: two sets in each third of the stretch",
    used_for="no strength index from fewer sets of an exercise",
)
