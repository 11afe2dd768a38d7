"""Dated measurements of the body: girths, skinfolds, body mass; where and how to measure."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum
from fractions import Fraction
from types import MappingProxyType

from pennate.core.muscles import Part
from pennate.core.performed import Side


class Site(StrEnum):
    """A place where a tape goes round; the value is what people read and write."""

    NECK = "neck"
    SHOULDER = "shoulder"
    CHEST = "chest"
    UPPER_ARM = "upper arm"
    FOREARM = "forearm"
    WAIST = "waist"
    HIP = "hip"
    THIGH = "thigh"
    CALF = "calf"


class TapeState(StrEnum):
    """How the muscle was when the tape went round it."""

    RELAXED = "relaxed"
    FLEXED = "flexed"
    PUMPED = "pumped"
    """Soon after training: kept, flagged, and left out of every verdict."""


TRUNK = frozenset({Site.NECK, Site.SHOULDER, Site.CHEST, Site.WAIST, Site.HIP})
"""Sites without a left and a right, where breath and posture add to the error."""

LANDMARKS: Mapping[Site, str] = MappingProxyType(
    {
        Site.NECK: "just below the larynx, tape level, looking straight ahead",
        Site.SHOULDER: "round the widest bulge of both shoulders, arms hanging, breathed out",
        Site.CHEST: "level with the middle of the breastbone, arms hanging, end of a calm breath",
        Site.UPPER_ARM: "halfway between the tip of the shoulder blade and the elbow; "
        "measure the distance once and keep it",
        Site.FOREARM: "the widest place below the elbow, palm up",
        Site.WAIST: "the narrowest place between ribs and hip bones, end of a calm breath",
        Site.HIP: "the widest place round the buttocks, feet together",
        Site.THIGH: "halfway between the groin crease and the top of the kneecap, weight on both "
        "feet; measure the distance once and keep it",
        Site.CALF: "the widest place, weight on both feet",
    }
)
"""Where the tape goes, in plain words; the same place matters more than the exact place."""

SITE_PARTS: Mapping[Site, frozenset[Part]] = MappingProxyType(
    {
        Site.NECK: frozenset({Part.UPPER_BACK}),
        Site.SHOULDER: frozenset({Part.DELT_FRONT, Part.DELT_SIDE, Part.DELT_REAR}),
        Site.CHEST: frozenset({Part.CHEST_CLAV, Part.CHEST_STERN, Part.LATS, Part.UPPER_BACK}),
        Site.UPPER_ARM: frozenset({Part.ELBOW_FLEXORS, Part.TRICEPS, Part.TRICEPS_LONG}),
        Site.FOREARM: frozenset({Part.FOREARM_GRIP, Part.ELBOW_FLEXORS}),
        Site.WAIST: frozenset({Part.ABS}),
        Site.HIP: frozenset({Part.GLUTE_MAX, Part.GLUTE_MED}),
        Site.THIGH: frozenset(
            {Part.QUADS_VASTI, Part.RECTUS_FEMORIS, Part.HAMSTRINGS, Part.ADDUCTORS}
        ),
        Site.CALF: frozenset({Part.GASTROCNEMIUS, Part.SOLEUS}),
    }
)
"""The muscle parts a tape at the site goes round."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Measurement:
    """One row of measurements: up to three readings of one girth on one date.

    Girths in cm, skinfold (the double fold a caliper reads) in mm; a row may carry body
    mass alone or a girth alone.
    """

    day: date
    site: Site
    side: Side | None = None
    girths_cm: tuple[Fraction, ...] = ()
    skinfold_mm: Fraction | None = None
    state: TapeState | None = None
    body_mass_kg: Fraction | None = None
    extra: Mapping[str, str] = field(default_factory=dict)
    """Unknown columns of an imported file, kept as they were."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighing:
    """Body mass on one date, as the scale said."""

    day: date
    kg: Fraction
    extra: Mapping[str, str] = field(default_factory=dict)
