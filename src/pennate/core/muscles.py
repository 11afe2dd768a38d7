"""Muscle parts, the groups lifters speak of, and the joints that carry the load."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from fractions import Fraction
from types import MappingProxyType


class Part(StrEnum):
    """A muscle or a part of one that an exercise can train apart from its neighbours."""

    QUADS_VASTI = "quads_vasti"
    RECTUS_FEMORIS = "rectus_femoris"
    HAMSTRINGS = "hamstrings"
    GLUTE_MAX = "glute_max"
    GLUTE_MED = "glute_med"
    ADDUCTORS = "adductors"
    GASTROCNEMIUS = "gastrocnemius"
    SOLEUS = "soleus"
    ERECTORS = "erectors"
    LATS = "lats"
    UPPER_BACK = "upper_back"
    DELT_FRONT = "delt_front"
    DELT_SIDE = "delt_side"
    DELT_REAR = "delt_rear"
    CHEST_CLAV = "chest_clav"
    CHEST_STERN = "chest_stern"
    ELBOW_FLEXORS = "elbow_flexors"
    TRICEPS = "triceps"
    TRICEPS_LONG = "triceps_long"
    ABS = "abs"
    HIP_FLEXORS = "hip_flexors"
    FOREARM_GRIP = "forearm_grip"


class Group(StrEnum):
    """A muscle group in gym words; the value is what people read."""

    QUADS = "quads"
    HAMSTRINGS = "hamstrings"
    GLUTES = "glutes"
    SIDE_GLUTES = "side glutes"
    CALVES = "calves"
    CHEST = "chest"
    BACK = "back"
    SHOULDERS = "shoulders"
    BICEPS = "biceps"
    TRICEPS = "triceps"
    CORE = "core"


class Joint(StrEnum):
    """A joint or region whose load is counted; the value is what people read."""

    KNEE = "knee"
    HIP = "hip"
    LUMBAR = "lower back"
    SHOULDER = "shoulder"
    ELBOW_WRIST = "elbow or wrist"
    GRIP = "grip"


PART_NAMES: Mapping[Part, str] = MappingProxyType(
    {
        Part.QUADS_VASTI: "quads, three vasti",
        Part.RECTUS_FEMORIS: "quads, rectus femoris",
        Part.HAMSTRINGS: "hamstrings",
        Part.GLUTE_MAX: "gluteus maximus",
        Part.GLUTE_MED: "gluteus medius",
        Part.ADDUCTORS: "adductors",
        Part.GASTROCNEMIUS: "calf, gastrocnemius",
        Part.SOLEUS: "calf, soleus",
        Part.ERECTORS: "spinal erectors",
        Part.LATS: "lats",
        Part.UPPER_BACK: "upper back",
        Part.DELT_FRONT: "front shoulder",
        Part.DELT_SIDE: "side shoulder",
        Part.DELT_REAR: "rear shoulder",
        Part.CHEST_CLAV: "upper chest",
        Part.CHEST_STERN: "mid and lower chest",
        Part.ELBOW_FLEXORS: "elbow flexors",
        Part.TRICEPS: "triceps, lateral and medial head",
        Part.TRICEPS_LONG: "triceps, long head",
        Part.ABS: "abs",
        Part.HIP_FLEXORS: "hip flexors",
        Part.FOREARM_GRIP: "forearms and grip",
    }
)

GROUP_SHARES: Mapping[Group, Mapping[Part, Fraction]] = MappingProxyType(
    {
        group: MappingProxyType({part: Fraction(share) for part, share in shares.items()})
        for group, shares in {
            Group.QUADS: {Part.QUADS_VASTI: "0.85", Part.RECTUS_FEMORIS: "0.15"},
            Group.HAMSTRINGS: {Part.HAMSTRINGS: "1"},
            Group.GLUTES: {Part.GLUTE_MAX: "1"},
            Group.SIDE_GLUTES: {Part.GLUTE_MED: "1"},
            Group.CALVES: {Part.GASTROCNEMIUS: "0.48", Part.SOLEUS: "0.52"},
            Group.CHEST: {Part.CHEST_STERN: "0.7", Part.CHEST_CLAV: "0.3"},
            Group.BACK: {Part.LATS: "0.4", Part.UPPER_BACK: "0.4", Part.ERECTORS: "0.2"},
            Group.SHOULDERS: {
                Part.DELT_FRONT: "1/3",
                Part.DELT_SIDE: "1/3",
                Part.DELT_REAR: "1/3",
            },
            Group.BICEPS: {Part.ELBOW_FLEXORS: "1"},
            Group.TRICEPS: {Part.TRICEPS: "0.5", Part.TRICEPS_LONG: "0.5"},
            Group.CORE: {Part.ABS: "1"},
        }.items()
    }
)
"""Share of each part in its group's size.

Lower body from published muscle volumes (Handsfield 2014); upper body from memory.
Adductors, hip flexors and grip are shown but belong to no group.
"""
