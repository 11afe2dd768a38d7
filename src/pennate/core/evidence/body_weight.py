"""Constants of the weight filter: noise, water, rhythm and how fast a trend may turn."""

from __future__ import annotations

from pennate.core.evidence.register import Status, constant

WATER_MEMORY = constant(
    "weight.water_memory",
    0.68,
    "per day",
    low=0.4,
    high=0.8,
    status=Status.OPEN_DATA,
    source="Krone 2020 (CC BY 4.0), eight people daily for 63 days: residuals one day apart "
    "correlate at 0.4–0.6 in half of them; bench/body/weights.py",
    used_for="how long water and gut content stay with the scale",
)
RHYTHM_SPREAD = constant(
    "weight.week_rhythm_spread",
    0.15,
    "% of mass",
    low=0.1,
    high=0.25,
    status=Status.PUBLISHED,
    source="Orsama 2014: heaviest Sunday and Monday, falling to Friday; about 0.3 % from top to "
    "bottom (size from a secondary page)",
    used_for="prior of each weekday's effect on the scale",
)
CYCLE_SPREAD_KG = constant(
    "weight.cycle_spread",
    0.45,
    "kg",
    low=0.3,
    high=0.6,
    status=Status.PUBLISHED,
    source="Kanellakis 2023: +0.450 kg at menstruation against the week after, 42 women",
    used_for="prior spread of her own rise about a logged period; nought until her log shows it",
)
SLOPE_MEMORY_DAYS = constant(
    "weight.slope_memory",
    40,
    "days",
    low=20,
    high=120,
    status=Status.OUR_CHOICE,
    source="our choice: plans of eating change every month or two",
    used_for="how slowly a trend forgets itself",
)
NOISE_CENTRE = constant(
    "weight.noise_centre",
    0.4,
    "% of mass",
    low=0.3,
    high=0.7,
    status=Status.OPEN_DATA,
    source="Krone 2020: scatter about a 15-day mean 0.4–0.8 % of mass, water with it; "
    "Robinson & Watson 1965 (secondary): 0.5–0.6 %; this is the scale of the part without water",
    used_for="prior of the noise of one weighing",
)
WATER_CENTRE = constant(
    "weight.water_centre",
    0.27,
    "% of mass",
    low=0.1,
    high=0.7,
    status=Status.OPEN_DATA,
    source="Krone 2020, the part of the scatter that lasts a day or more; bench/body/weights.py",
    used_for="prior of the swing of water",
)
LEVEL_CENTRE = constant(
    "weight.level_centre",
    0.12,
    "% of mass per day^0.5",
    low=0.0,
    high=0.3,
    status=Status.OUR_CHOICE,
    source="our choice, checked by coverage on Krone 2020; bench/body/weights.py",
    used_for="prior of the wander of weight beyond its slope",
)
SLOPE_CENTRE = constant(
    "weight.slope_centre",
    0.2,
    "% of mass per week",
    low=0.1,
    high=0.7,
    status=Status.OUR_CHOICE,
    source="our choice: a usual diet or gain is 0.1 to 0.4 kg a week at 65 kg",
    used_for="prior of the size of a trend",
)
SLIP_LOG = constant(
    "weight.slip",
    0.12,
    "log",
    low=0.08,
    high=0.2,
    status=Status.OUR_CHOICE,
    source="nobody's weight moves 12 % against the weighings about it",
    used_for="weighings left out and asked about",
)
LEAST_WEIGHINGS = constant(
    "weight.least_dates",
    2,
    "dates",
    low=2,
    high=7,
    status=Status.STANDARD,
    source="a slope needs two points",
    used_for="fewer dates have no trend",
)
