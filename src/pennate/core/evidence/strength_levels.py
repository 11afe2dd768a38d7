"""Usual loads: where strength starts before anything is known. From memory, wide.

Kilograms written down for ten reps by a trained woman of 62 kg; negative is assistance.
Only a start: the first load she picks and the first set she does outweigh it.
"""

from pennate.core.evidence.register import Status, constant

_TEN_REPS_KG = {
    "guided_bar_squat": 45, "back_squat_free": 50, "half_squat": 60, "goblet_squat": 22,
    "hack_squat": 55, "leg_press": 110, "leg_press_calf": 100, "split_squat": 24,
    "rear_foot_elevated_split_squat": 20, "reverse_lunge": 24, "step_up": 20,
    "leg_extension": 40, "sissy_squat": 3, "hip_thrust": 80, "single_leg_hip_thrust": 20,
    "romanian_deadlift": 50, "conventional_deadlift": 65, "back_extension": 10,
    "seated_leg_curl": 35, "lying_leg_curl": 28, "nordic_curl": -10,
    "hip_abduction_kickback": 8, "hip_abduction_machine": 45, "cable_kickback": 12,
    "hip_adduction_machine": 45, "standing_calf_raise": 50, "seated_calf_raise": 35,
    "bench_press": 32, "incline_press": 27, "push_up": 0, "chest_fly": 14, "dip": -5,
    "shoulder_press": 22, "lateral_raise": 10, "front_raise": 10, "rear_delt_fly": 9,
    "face_pull": 18, "bent_row_overhand": 32, "bent_row_underhand": 33,
    "chest_supported_row": 30, "landmine_row_one_arm": 22, "dumbbell_row_one_arm": 18,
    "seated_cable_row": 38, "inverted_row": 0, "chin_up": -10, "pull_up": -13,
    "lat_pulldown": 35, "straight_arm_pulldown": 18, "curl": 16,
    "preacher_or_incline_curl": 14, "hammer_curl": 16, "triceps_pushdown": 18,
    "overhead_triceps_extension": 15, "lying_triceps_extension": 15,
    "hanging_leg_raise": 0, "v_up": 0, "crunch": 25, "wheel_rollout": 0, "wrist_curl": 12,
}  # fmt: skip

LEVELS = {
    exercise: constant(
        f"strength.level.{exercise}",
        kg,
        "kg",
        low=kg - 0.6 * abs(kg) - 10,
        high=kg + abs(kg) + 10,
        status=Status.FROM_MEMORY,
        source="usual load for ten reps of a trained woman of 62 kg; from memory",
        used_for="start of an exercise's strength before its first set",
    )
    for exercise, kg in _TEN_REPS_KG.items()
}
LEVEL_MASS = constant(
    "strength.level.mass",
    62,
    "kg",
    low=50,
    high=75,
    status=Status.FROM_MEMORY,
    source="body mass the usual loads belong to",
    used_for="scaling usual loads to her body mass",
)
MASS_POWER = constant(
    "strength.level.mass_power",
    0.67,
    "exponent",
    low=0.5,
    high=1.0,
    status=Status.FROM_MEMORY,
    source="strength grows with the two-thirds power of body mass; from memory",
    used_for="scaling usual loads to her body mass",
)
USUAL_MASS = constant(
    "strength.level.usual_mass",
    70,
    "kg",
    low=55,
    high=85,
    status=Status.FROM_MEMORY,
    source="body mass where none is given, halfway between the sexes",
    used_for="body-weight exercises and usual loads without a body mass",
)
MAN_UPPER = constant(
    "strength.level.man_upper",
    0.60,
    "log load",
    low=0.3,
    high=0.8,
    status=Status.OPEN_DATA,
    source="untrained adults: men's bench 70.9 kg against women's 33.3, body mass taken out",
    used_for="usual upper-body loads of men",
)
MAN_LOWER = constant(
    "strength.level.man_lower",
    0.22,
    "log load",
    low=0.1,
    high=0.4,
    status=Status.OPEN_DATA,
    source="untrained adults: men's leg extension 67.3 kg against women's 46.9, mass taken out",
    used_for="usual lower-body loads of men",
)
UNTRAINED = constant(
    "strength.level.untrained",
    -0.25,
    "log load",
    low=-0.5,
    high=0.0,
    status=Status.PUBLISHED,
    source="30–50 % gained in a first year (Steele 2023)",
    used_for="usual loads before any training",
)
FELT_LEAST = constant(
    "strength.level.felt_least",
    1.0,
    "kg",
    low=0.5,
    high=5.0,
    status=Status.OUR_CHOICE,
    source="a felt load is never nothing: the limb itself is lifted",
    used_for="logarithm of loads near or below zero",
)
UNKNOWN_BODY_SHARE = constant(
    "strength.level.unknown_body_share",
    0.6,
    "share of body mass",
    low=0.3,
    high=1.0,
    status=Status.OUR_CHOICE,
    source="an exercise nobody defined, done without a load, moves a good part of the body",
    used_for="felt load of an unknown exercise without a load",
)
OWN_LEVEL_SD = constant(
    "strength.level.own_sd",
    0.8,
    "log load",
    low=0.4,
    high=1.5,
    status=Status.OUR_CHOICE,
    source="an exercise of her own has no usual load",
    used_for="spread of an own exercise's strength before its first load",
)
OWN_LEVEL = constant(
    "strength.level.own",
    20,
    "kg",
    low=5,
    high=80,
    status=Status.OUR_CHOICE,
    source="an exercise of her own may need any load",
    used_for="middle of a very wide start for exercises without a usual load",
)
