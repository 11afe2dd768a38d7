"""Plans, loads, logs and judges strength training for one self-coached lifter.

The public names are listed once, below, and imported when first used, so that importing the
package costs nothing.
"""

from importlib import import_module
from typing import Any

__version__ = "0.1.0"

_HOME = {
    "Book": "pennate.app.book",
    "Catalogue": "pennate.core.exercise",
    "Exposure": "pennate.estimate",
    "Gym": "pennate.core.gym",
    "History": "pennate.core.history",
    "InputError": "pennate.errors",
    "Mass": "pennate.core.quantities",
    "NoAnswerError": "pennate.errors",
    "PennateError": "pennate.errors",
    "PerformedSet": "pennate.core.performed",
    "Person": "pennate.estimate",
    "StrengthModel": "pennate.estimate",
    "Target": "pennate.loading",
    "Week": "pennate.core.prescribed",
    "card_for": "pennate.app.today",
    "fit": "pennate.estimate",
    "ladder": "pennate.loading",
    "one_step_ahead": "pennate.estimate",
    "read_catalogue": "pennate.files.catalogue",
    "read_gym": "pennate.files.gym",
    "read_log": "pennate.files.log",
    "read_week": "pennate.files.week",
    "render_week": "pennate.files.week",
    "solve": "pennate.loading",
}
"""Every public name and the module it lives in."""

__all__ = [
    "Book",
    "Catalogue",
    "Exposure",
    "Gym",
    "History",
    "InputError",
    "Mass",
    "NoAnswerError",
    "PennateError",
    "PerformedSet",
    "Person",
    "StrengthModel",
    "Target",
    "Week",
    "card_for",
    "fit",
    "ladder",
    "one_step_ahead",
    "read_catalogue",
    "read_gym",
    "read_log",
    "read_week",
    "render_week",
    "solve",
]


def __getattr__(name: str) -> Any:
    if name not in _HOME:
        raise AttributeError(f"module “pennate” has no attribute “{name}”")
    return getattr(import_module(_HOME[name]), name)


def __dir__() -> list[str]:
    return sorted([*__all__, "__version__"])
