"""Constants of turning a target into iron."""

from pennate.core.evidence.register import Status, constant

LOAD_PER_REP = constant(
    "loading.load_per_rep",
    0.0255,
    "natural log of load per rep",
    low=0.017,
    high=0.033,
    status=Status.PUBLISHED,
    source="fitted to published reps at fixed shares of 1RM: 0.0171–0.0212 in trained women "
    "(Wolfe 2024), 0.0238 squat (Zourdos 2021), 0.0297 machine press; handbook table 0.033",
    used_for="distance between two loads in reps when no forecast is at hand",
    contested="differs between people by about 30 % and between exercises",
)
MOVE_REPS = constant(
    "loading.move_reps",
    0.15,
    "reps per pair of plates moved",
    low=0.05,
    high=0.3,
    status=Status.OUR_CHOICE,
    source="a pair takes about 12 s; three pairs are worth half a rep off target",
    used_for="weighing plate moves against closeness to the target",
)
UNTIDY_REPS = constant(
    "loading.untidy_reps",
    0.1,
    "reps per plate put on outside a lighter one",
    low=0,
    high=0.3,
    status=Status.COMMON_PRACTICE,
    source="heavy plates go on first; a big one outside a small one is clumsy, not wrong",
    used_for="keeping heavy plates inside unless the sequence gains by it",
)
PIN_REPS = constant(
    "loading.pin_reps",
    0.01,
    "reps per pin or dumbbell change",
    low=0,
    high=0.05,
    status=Status.OUR_CHOICE,
    source="moving a pin takes seconds; only breaks ties",
    used_for="weighing changes of pin, add-on, band or dumbbell",
)
OWN_UNIT_NEAR = constant(
    "loading.own_unit_near",
    0.1,
    "share of the load",
    low=0.05,
    high=0.2,
    status=Status.OUR_CHOICE,
    source="as far as a load is raised at once: no load of the unit she uses is farther off "
    "than that before one of the other unit stands in",
    used_for="keeping plates and dumbbells in the unit she uses on that equipment",
)
WARM_UP_WEIGHT = constant(
    "loading.warm_up_weight",
    0.1,
    "",
    low=0.02,
    high=0.5,
    status=Status.OUR_CHOICE,
    source="shares of 40 to 80 % all served as a warm-up (Neves 2020, Ribeiro 2014), so a "
    "ramp set may lie off its target",
    used_for="how much a rep of deviation counts in a ramp set",
)
DROP_WEIGHT = constant(
    "loading.drop_weight",
    0.5,
    "",
    low=0.2,
    high=1,
    status=Status.OUR_CHOICE,
    source="a drop is ended by failure whatever its load; sizes of 20–25 % are common practice",
    used_for="how much a rep of deviation counts in a drop set",
)
RAMP_FIRST_SHARE = constant(
    "ramp.first_share",
    0.55,
    "share of the working load",
    low=0.4,
    high=0.6,
    status=Status.PUBLISHED,
    source="40 % then 80 % of the training load did best for bench press (Neves 2020); "
    "50–60 % is common practice",
    used_for="first ramp set of a cold muscle",
)
RAMP_SECOND_SHARE = constant(
    "ramp.second_share",
    0.8,
    "share of the working load",
    low=0.7,
    high=0.9,
    status=Status.PUBLISHED,
    source="80 % alone did best for squat, 40 % alone worst (Neves 2020)",
    used_for="last ramp set, and the only one when time is short",
)
RAMP_FIRST_REPS = constant(
    "ramp.first_reps",
    6,
    "reps",
    low=5,
    high=8,
    status=Status.PUBLISHED,
    source="6 reps at 40 and 80 % (Neves 2020); 5–8 in our default",
    used_for="reps of the first ramp set",
)
RAMP_SECOND_REPS = constant(
    "ramp.second_reps",
    4,
    "reps",
    low=3,
    high=6,
    status=Status.COMMON_PRACTICE,
    source="3–5 near the working load: enough to feel it, few enough not to tire",
    used_for="reps of the last ramp set",
)
RAMP_MIN_RISE = constant(
    "ramp.min_rise",
    0.1,
    "share of the working load",
    low=0.05,
    high=0.2,
    status=Status.OUR_CHOICE,
    source="a ramp set less than this below the next one only tires",
    used_for="leaving out ramp sets that the lightest load makes pointless",
)
CALIBRATION_SHARE = constant(
    "calibration.share",
    0.6,
    "share of the guessed one-rep load",
    low=0.5,
    high=0.7,
    status=Status.OUR_CHOICE,
    source="lifters left to choose take about 53 % of 1RM (Steele 2022, range 49–58); an "
    "unseen exercise is uncertain by 0.2–0.3 in log load, so even a bad guess stays light",
    used_for="load of the test set of an unknown exercise",
)
CALIBRATION_REPS = constant(
    "calibration.reps",
    6,
    "reps",
    low=5,
    high=8,
    status=Status.OUR_CHOICE,
    source="few enough not to tire, enough to judge",
    used_for="reps of the test set",
)
TRUSTED_RESERVE = constant(
    "calibration.trusted_reserve",
    5,
    "reps in reserve",
    low=3,
    high=6,
    status=Status.PUBLISHED,
    source="errors about one rep with 0–5 in reserve, above two with 7–10 (Hackett 2017)",
    used_for="the largest answer taken as a number; above it only a lower bound",
)
RESERVE_SD = constant(
    "calibration.reserve_sd",
    0.5,
    "reps at 0 in reserve",
    low=0.3,
    high=1,
    status=Status.PUBLISHED,
    source="between Refalo 2024 (SD 1.0 at 1–3 in reserve) and Zourdos 2021 (1.7 at 1)",
    used_for="spread of the answer to “how many more?”",
)
RESERVE_SD_SLOPE = constant(
    "calibration.reserve_sd_slope",
    0.25,
    "reps per rep in reserve",
    low=0.15,
    high=0.4,
    status=Status.PUBLISHED,
    source="SD grows to 2.5 at 3 and 2.9 at 5 in reserve in long sets (Zourdos 2021)",
    used_for="spread of the answer to “how many more?”",
)
CURVE_SPREAD = constant(
    "calibration.curve_spread",
    0.3,
    "standard deviation of the log of the load per rep",
    low=0.25,
    high=0.35,
    status=Status.PUBLISHED,
    source="reps at a fixed share of 1RM differ between people by 25–35 % (Wolfe "
    "2024, Richens 2014, Cooke 2019)",
    used_for="uncertainty of a one-rep load from a test set",
)
STEP_IN_RANGE = constant(
    "loading.step_in_range",
    2,
    "reps",
    low=1,
    high=3,
    status=Status.PUBLISHED,
    source="raise 2–10 % when one or two reps above the target can be done (ACSM 2009)",
    used_for="a step that costs more reps than this is called too big",
)
BIG_STEP_REPS = constant(
    "loading.big_step_reps",
    4,
    "reps",
    low=3,
    high=6,
    status=Status.COMMON_PRACTICE,
    source="the width of a usual rep range, 8–12: it closes a step of 10.7 % and no more",
    used_for="from here on a wider range alone is not enough",
)
ASSIST_SPREAD = constant(
    "assistance.machine_spread",
    0.1,
    "standard deviation of the log pull",
    low=0.05,
    high=0.2,
    status=Status.FROM_MEMORY,
    source="levers and friction make the numbers of a machine its own",
    used_for="uncertainty of the help an assisted machine gives",
)
BAND_SPREAD = constant(
    "assistance.band_spread",
    0.15,
    "standard deviation of the log pull",
    low=0.1,
    high=0.3,
    status=Status.PUBLISHED,
    source="the same width differs between sellers (141 bands, 2019); two charts of one maker "
    "disagree by up to half at the heavy end",
    used_for="uncertainty of a band's pull when she has not measured it",
)
BODY_REFERENCE_KG = constant(
    "loading.body_reference",
    60,
    "kg",
    low=40,
    high=120,
    status=Status.OUR_CHOICE,
    source="a round body mass, so that log distances make sense when hers is not known",
    used_for="distance between two loads on body-weight exercises without a body mass",
)
