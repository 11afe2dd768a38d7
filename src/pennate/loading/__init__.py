"""From a target to iron: every load on the equipment a gym really has."""

from pennate.core.loaded import Loaded
from pennate.loading.assistance import Effective, Rung, assistance_ladder, effective
from pennate.loading.effort import RepsAt, Target, reps_by_distance
from pennate.loading.ladder import every_load, ladder, steps_beside, usual_count
from pennate.loading.ramp import Calibration, RampSet, Reading, Warmth, calibration, ramp
from pennate.loading.reading import Written, read_load, write_load
from pennate.loading.restack import restacked
from pennate.loading.solve import Plan, Setting, solve
from pennate.loading.steps import Advice, Remedy, StepCost, step_cost
from pennate.loading.superset import Turn, solve_superset

__all__ = [
    "Advice",
    "Calibration",
    "Effective",
    "Loaded",
    "Plan",
    "RampSet",
    "Reading",
    "Remedy",
    "RepsAt",
    "Rung",
    "Setting",
    "StepCost",
    "Target",
    "Turn",
    "Warmth",
    "Written",
    "assistance_ladder",
    "calibration",
    "effective",
    "every_load",
    "ladder",
    "ramp",
    "read_load",
    "reps_by_distance",
    "restacked",
    "solve",
    "solve_superset",
    "step_cost",
    "steps_beside",
    "usual_count",
    "write_load",
]
