"""Constants of energy balance, protein and their guards."""

from __future__ import annotations

from pennate.core.evidence.register import Status, constant

_HALL = "Hall 2008 IJO 32:573; parameters of the public adult weight model (INSP-RH)"
_MODEL = "Sanghvi 2015 AJCN, linearised intake method; parameters as in the public weight model"
_MIFFLIN = "Mifflin 1990 AJCN 51:241, 498 people 19–78 y"

MIFFLIN_MASS = constant(
    "energy.mifflin_mass",
    10,
    "kcal/day per kg",
    status=Status.PUBLISHED,
    source=_MIFFLIN,
    used_for="resting energy",
)
MIFFLIN_HEIGHT = constant(
    "energy.mifflin_height",
    6.25,
    "kcal/day per cm",
    status=Status.PUBLISHED,
    source=_MIFFLIN,
    used_for="resting energy",
)
MIFFLIN_AGE = constant(
    "energy.mifflin_age",
    5,
    "kcal/day per year",
    status=Status.PUBLISHED,
    source=_MIFFLIN,
    used_for="resting energy",
)
MIFFLIN_MEN = constant(
    "energy.mifflin_men",
    5,
    "kcal/day",
    status=Status.PUBLISHED,
    source=_MIFFLIN,
    used_for="resting energy",
)
MIFFLIN_WOMEN = constant(
    "energy.mifflin_women",
    -161,
    "kcal/day",
    status=Status.PUBLISHED,
    source=_MIFFLIN,
    used_for="resting energy",
)
MIFFLIN_SPREAD = constant(
    "energy.mifflin_spread",
    0.10,
    "share",
    low=0.08,
    high=0.15,
    status=Status.PUBLISHED,
    source="Frankenfield 2005: most people lie within ±10 % of measured",
    used_for="prior spread of maintenance before intake is logged",
)
USUAL_ACTIVITY = constant(
    "energy.usual_activity",
    1.5,
    "times resting",
    low=1.4,
    high=1.9,
    status=Status.COMMON_PRACTICE,
    source="common practice: training most days beside seated work",
    used_for="prior of maintenance before intake is logged",
)
ACTIVITY_SPREAD = constant(
    "energy.activity_spread",
    0.12,
    "share",
    low=0.08,
    high=0.2,
    status=Status.OUR_CHOICE,
    source="our choice: 1.3 to 1.9 covers nearly everybody",
    used_for="prior spread of maintenance",
)
FAT_DENSITY = constant(
    "energy.fat_density",
    9441,
    "kcal/kg",
    low=9300,
    high=9441,
    status=Status.PUBLISHED,
    source=f"{_HALL}: 39.5 MJ/kg",
    used_for="energy of a change of fat",
)
LEAN_DENSITY = constant(
    "energy.lean_density",
    1816,
    "kcal/kg",
    low=1100,
    high=1816,
    status=Status.PUBLISHED,
    source=f"{_HALL}: 7.6 MJ/kg",
    used_for="energy of a change of lean mass",
    contested="1,807 and 1,100 circulate; 1,816 is used",
)
FORBES = constant(
    "energy.forbes",
    10.4,
    "kg",
    status=Status.PUBLISHED,
    source=_MODEL,
    used_for="lean change per fat change = this over fat mass",
    contested="made on people who did not train",
)
FAT_COST = constant(
    "energy.fat_cost",
    3.1,
    "kcal/kg/day",
    status=Status.PUBLISHED,
    source=_MODEL,
    used_for="what a kilogram of fat burns",
)
LEAN_COST = constant(
    "energy.lean_cost",
    22.0,
    "kcal/kg/day",
    status=Status.PUBLISHED,
    source=_MODEL,
    used_for="what a kilogram of lean mass burns",
)
FAT_BUILDING = constant(
    "energy.fat_building",
    179,
    "kcal/kg",
    status=Status.PUBLISHED,
    source=_MODEL,
    used_for="cost of laying down fat",
)
LEAN_BUILDING = constant(
    "energy.lean_building",
    229,
    "kcal/kg",
    status=Status.PUBLISHED,
    source=_MODEL,
    used_for="cost of laying down lean mass",
)
THERMIC = constant(
    "energy.thermic",
    0.10,
    "share",
    status=Status.PUBLISHED,
    source=_MODEL,
    used_for="thermic effect of food",
)
ADAPTIVE = constant(
    "energy.adaptive",
    0.14,
    "share",
    status=Status.PUBLISHED,
    source=_MODEL,
    used_for="thrift of the body in deficit",
)
INTAKE_BIAS = constant(
    "energy.intake_error",
    0.10,
    "share",
    low=0.05,
    high=0.3,
    status=Status.OUR_CHOICE,
    source="self-reported intake runs low by ten per cent and far more in some; our choice",
    used_for="what maintenance in her own logged units may be off by; it cancels when she eats by "
    "the same units",
)
DEFICIT_FLOOR = constant(
    "energy.largest_deficit",
    500,
    "kcal/day",
    low=300,
    high=500,
    status=Status.PUBLISHED,
    source="Murphy & Koehler 2022: about 500 kcal/day foretells no lean gain at all",
    used_for="no larger deficit is ever proposed",
)
SURPLUS_SHARE = constant(
    "energy.surplus",
    0.05,
    "of maintenance",
    low=0.0,
    high=0.15,
    status=Status.PUBLISHED,
    source="Helms 2023: 5 against 15 % grew no less muscle and less fat; 17 lifters",
    used_for="the surplus offered when she wants to gain",
    contested="small trial; 0, 5 and 15 % could not be told apart in muscle",
)
LOW_AVAILABILITY = constant(
    "energy.low_availability",
    30,
    "kcal/kg lean mass/day",
    low=25,
    high=45,
    status=Status.PUBLISHED,
    source="Mountjoy 2023 BJSM 57:1073: low below 30 in women",
    used_for="no intake below it is proposed; an estimate below it names a clinician",
    contested="a laboratory threshold over five days; field estimates are rough",
)
ADULT_YEARS = constant(
    "energy.adult_age",
    18,
    "years",
    status=Status.PUBLISHED,
    source="American Academy of Pediatrics 2020; IOC consensus 2023",
    used_for="no deficit below this age",
)
PROTEIN_TARGET = constant(
    "energy.protein_target",
    1.62,
    "g/kg/day",
    low=1.03,
    high=2.20,
    status=Status.PUBLISHED,
    source="Morton 2018 BJSM 52:376, 49 trials; its 95 % interval is the range shown",
    used_for="protein range by body mass",
    contested="Tagawa 2021 (from memory) sees the curve flatten from 1.3 g/kg",
)
PROTEIN_LOW = constant(
    "energy.protein_low",
    1.03,
    "g/kg/day",
    status=Status.PUBLISHED,
    source="Morton 2018, lower end of the interval (by way of a secondary page)",
    used_for="protein range by body mass",
)
PROTEIN_HIGH = constant(
    "energy.protein_high",
    2.20,
    "g/kg/day",
    status=Status.PUBLISHED,
    source="Morton 2018, upper end of the interval (by way of a secondary page)",
    used_for="protein range by body mass",
)
