"""Constants of girth error, plausibility, correction for fat, and the verdict."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from pennate.core.body import Site
from pennate.core.evidence.register import Status, constant

READING_ERROR = constant(
    "body.reading_error",
    0.76,
    "% of girth",
    low=0.3,
    high=1.5,
    status=Status.FROM_MEMORY,
    source="Perini 2005: acceptable within-tester error of one girth 1.0 % (skilled) to 1.5 % "
    "(beginner), from memory, split here into reading and day",
    used_for="prior of the spread of repeated tape readings on one date; learned from her repeats",
)
DAY_ERROR = constant(
    "body.day_error",
    0.52,
    "% of girth",
    low=0.1,
    high=1.2,
    status=Status.FROM_MEMORY,
    source="with the reading error makes 0.9 % for one reading, near the skilled tester of Perini "
    "2005 (from memory); no study of the split was seen",
    used_for="prior of what moves a girth between dates beyond the tape: water, posture, landmark",
)
TRUNK_FACTOR = constant(
    "body.trunk_error_factor",
    1.4,
    "times",
    low=1.0,
    high=2.0,
    status=Status.OUR_CHOICE,
    source="Barrios 2016: self-measured waist, hip and neck 0.2–1.9 cm; breath and posture add",
    used_for="error of neck, shoulder, chest, waist and hip against that of a limb",
)
PERSON_SPREAD = constant(
    "body.person_error_spread",
    0.4,
    "log",
    low=0.2,
    high=0.6,
    status=Status.OUR_CHOICE,
    source="beginner 1.5 against skilled 1.0 % (Perini 2005, from memory) is 0.4 in logs",
    used_for="how far her typical error may lie from the prior",
)
ERROR_LINK = constant(
    "body.error_link",
    0.95,
    "correlation",
    low=0.0,
    high=0.97,
    status=Status.OUR_CHOICE,
    source="our choice: who places the tape loosely also finds the landmark loosely; strong, so "
    "that repeats on two dates already teach the error of a loose tape (bench/body)",
    used_for="what her reading error, learned from repeats, says of her day error",
)
ERROR_APART = constant(
    "body.error_apart",
    0.05,
    "share of people",
    low=0.0,
    high=0.3,
    status=Status.OUR_CHOICE,
    source="our choice: steady readings at a landmark that wanders, or the other way round",
    used_for="people whose reading error says nothing of their day error",
)
SITE_SPREAD = constant(
    "body.site_error_spread",
    0.15,
    "log",
    low=0.1,
    high=0.4,
    status=Status.OUR_CHOICE,
    source="our choice",
    used_for="how far her error at one site may lie from her usual error",
)
SKINFOLD_ERROR = constant(
    "body.skinfold_error",
    5.5,
    "% of skinfold",
    low=3.0,
    high=10.0,
    status=Status.FROM_MEMORY,
    source="Perini 2005: acceptable within-tester error of a skinfold 5.0 % (skilled) to 7.5 % "
    "(beginner), from memory",
    used_for="error that a skinfold adds to a girth corrected for fat",
)
MASS_ERROR_KG = constant(
    "body.mass_error",
    0.36,
    "kg",
    low=0.25,
    high=0.6,
    status=Status.PUBLISHED,
    source="32 % of daily differences are 0.5 kg or more in young women (Robinson & Watson 1965, "
    "by way of a secondary page), which makes 0.36 kg for one morning",
    used_for="error that one weighing adds to a girth corrected by weight",
)
GROWTH_SPREAD = constant(
    "body.growth_spread",
    1.2,
    "% of girth in 12 weeks",
    low=0.7,
    high=3.0,
    status=Status.OUR_CHOICE,
    source="Ahtiainen 2016: thigh muscle size +4.8 ± 6.1 % in beginners; 10 % of quadriceps is "
    "1.2 % of thigh girth, and fat moves too",
    used_for="how large a true change may be, for the stated probabilities only, never the word",
)
GROWTH_CENTRE = constant(
    "body.growth_centre",
    0.4,
    "% of girth in 12 weeks",
    low=0.0,
    high=1.0,
    status=Status.OUR_CHOICE,
    source="Ahtiainen 2016: +4.8 % of muscle in beginners, times a third for years of training "
    "(from memory), times a third from muscle to girth, makes 0.6; a little less for those who "
    "do nothing",
    used_for="where the stated probabilities start, never the word",
)
LEARNING_SLOPE = constant(
    "body.learning_slope",
    3.0,
    "% of girth in 12 weeks",
    low=2.0,
    high=6.0,
    status=Status.OUR_CHOICE,
    source="more than twice the growth spread, so that real change is not taken for error",
    used_for="slope allowed while her error is learned from the scatter about it",
)
DEPARTURE = constant(
    "body.departure",
    0.015,
    "% of girth per week^1.5",
    low=0.0,
    high=0.1,
    status=Status.OUR_CHOICE,
    source="our choice: lets a change bend by about a third of a per cent in 12 weeks",
    used_for="departure of a true change from a straight line between first and last date",
)
SAME_BAND = constant(
    "body.same_band",
    1.0,
    "% of girth",
    low=0.5,
    high=2.0,
    status=Status.OUR_CHOICE,
    source="1 % of girth is 2 % of area; about what 10 % more quadriceps does to a thigh",
    used_for="the band of ‘holding’, and the three stated probabilities",
)
HOLDING_WEEKS = constant(
    "body.holding_weeks",
    8,
    "weeks",
    low=8,
    high=12,
    status=Status.PUBLISHED,
    source="Damas 2018: true growth from about 18 sessions",
    used_for="no ‘holding’ before that much time (without a log)",
)
HOLDING_SESSIONS = constant(
    "body.holding_sessions",
    18,
    "sessions",
    low=18,
    high=24,
    status=Status.PUBLISHED,
    source="Damas 2018: up to 4 sessions mostly swelling, about 18 true growth",
    used_for="no ‘holding’ before that many sessions (with a log)",
)
VERDICT_WEEKS = constant(
    "body.verdict_window",
    52,
    "weeks",
    low=16,
    high=104,
    status=Status.OUR_CHOICE,
    source="our choice",
    used_for="the stretch of record a verdict looks back on",
)
FAT_SHARE = constant(
    "body.fat_share_of_mass_change",
    0.65,
    "share",
    low=0.3,
    high=0.9,
    status=Status.PUBLISHED,
    source="lean change is 10.4/fat mass of fat change (Sanghvi 2015, after Forbes); "
    "fat mass 17–20 kg makes 0.62–0.66",
    used_for="the part of a body-mass change counted as fat when no skinfold is known",
    contested="with hard training and enough protein the share is anybody's guess",
)
FAT_SHARE_SPREAD = constant(
    "body.fat_share_spread",
    0.25,
    "share",
    low=0.1,
    high=0.4,
    status=Status.OUR_CHOICE,
    source="our choice, wide",
    used_for="uncertainty of the correction by weight",
)
IMPROBABLE_Z = constant(
    "body.improbable_z",
    4.5,
    "standard deviations",
    low=4.0,
    high=6.0,
    status=Status.OUR_CHOICE,
    source="fewer than one in 1,000 of 6,068 people lie beyond it at any site",
    used_for="asking whether a girth or a reading is a slip",
)


def _by_site(
    name: str, unit: str, used_for: str, values: Mapping[Site, tuple[float, float, float]]
) -> Mapping[Site, float]:
    return MappingProxyType(
        {
            site: constant(
                f"body.{name}.{site.value.replace(' ', '_')}",
                value,
                unit,
                low=low,
                high=high,
                status=Status.OPEN_DATA,
                source="Gordon 2014, NATICK/TR-15/007: 6,068 soldiers measured once; "
                "bench/body/open_data.py",
                used_for=used_for,
            )
            for site, (value, low, high) in values.items()
        }
    )


GIRTH_AT_70KG = _by_site(
    "girth_at_70kg",
    "cm",
    "data-entry check: the girth usual at 70 kg, range women to men",
    {
        Site.NECK: (35.4, 33.3, 37.5),
        Site.SHOULDER: (107.8, 103.9, 111.7),
        Site.CHEST: (96.6, 96.3, 96.9),
        Site.UPPER_ARM: (31.9, 31.2, 32.6),
        Site.FOREARM: (27.9, 26.8, 29.0),
        Site.WAIST: (85.4, 82.9, 87.9),
        Site.HIP: (98.9, 93.9, 103.8),
        Site.THIGH: (59.7, 56.6, 62.8),
        Site.CALF: (37.2, 36.4, 37.9),
    },
)
GIRTH_ON_MASS = _by_site(
    "girth_on_mass",
    "% per % of body mass",
    "girth expected of another body mass at the same stature; range men to women",
    {
        Site.NECK: (0.33, 0.30, 0.36),
        Site.SHOULDER: (0.27, 0.25, 0.29),
        Site.CHEST: (0.52, 0.50, 0.53),
        Site.UPPER_ARM: (0.59, 0.54, 0.64),
        Site.FOREARM: (0.376, 0.36, 0.39),
        Site.WAIST: (0.72, 0.71, 0.73),
        Site.HIP: (0.457, 0.45, 0.47),
        Site.THIGH: (0.575, 0.57, 0.58),
        Site.CALF: (0.413, 0.41, 0.42),
    },
)
GIRTH_SPREAD = _by_site(
    "girth_spread",
    "log",
    "data-entry check: spread of people of one body mass, both sexes together",
    {
        Site.NECK: (0.07, 0.036, 0.08),
        Site.SHOULDER: (0.046, 0.027, 0.05),
        Site.CHEST: (0.045, 0.03, 0.05),
        Site.UPPER_ARM: (0.06, 0.045, 0.07),
        Site.FOREARM: (0.057, 0.039, 0.06),
        Site.WAIST: (0.066, 0.047, 0.08),
        Site.HIP: (0.058, 0.025, 0.06),
        Site.THIGH: (0.064, 0.035, 0.07),
        Site.CALF: (0.05, 0.040, 0.06),
    },
)
SMALLEST_GIRTH = _by_site(
    "smallest_girth",
    "cm",
    "data-entry check: refuse below 60 % of the smallest of 6,068",
    {
        Site.NECK: (27.5, 27.5, 31.1),
        Site.SHOULDER: (85.2, 85.2, 92.5),
        Site.CHEST: (69.5, 69.5, 77.4),
        Site.UPPER_ARM: (21.6, 21.6, 24.6),
        Site.FOREARM: (20.0, 20.0, 23.3),
        Site.WAIST: (61.1, 61.1, 64.8),
        Site.HIP: (73.7, 73.7, 79.8),
        Site.THIGH: (41.2, 41.2, 44.8),
        Site.CALF: (26.6, 26.6, 28.2),
    },
)
LARGEST_GIRTH = _by_site(
    "largest_girth",
    "cm",
    "data-entry check: refuse above 160 % of the largest of 6,068",
    {
        Site.NECK: (51.4, 42.4, 51.4),
        Site.SHOULDER: (141.3, 122.5, 141.3),
        Site.CHEST: (146.9, 126.6, 146.9),
        Site.UPPER_ARM: (49.0, 43.5, 49.0),
        Site.FOREARM: (40.2, 34.2, 40.2),
        Site.WAIST: (137.9, 133.4, 137.9),
        Site.HIP: (134.1, 130.5, 134.1),
        Site.THIGH: (87.0, 84.3, 87.0),
        Site.CALF: (52.3, 48.2, 52.3),
    },
)
REFUSE_FACTOR = constant(
    "body.refuse_factor",
    1.6,
    "times",
    low=1.3,
    high=2.0,
    status=Status.OUR_CHOICE,
    source="our choice: an inch or millimetre slip is a factor of 2.5 or 10",
    used_for="a girth beyond this factor from everybody measured is refused as a slip",
)
