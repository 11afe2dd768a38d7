"""Joints as the files name them."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from pennate.core.muscles import Joint

JOINT_KEYS: Mapping[str, Joint] = MappingProxyType(
    {
        "knee": Joint.KNEE,
        "hip": Joint.HIP,
        "lower_back": Joint.LUMBAR,
        "shoulder": Joint.SHOULDER,
        "elbow_wrist": Joint.ELBOW_WRIST,
        "grip": Joint.GRIP,
    }
)
"""Joints as keys of a file."""
