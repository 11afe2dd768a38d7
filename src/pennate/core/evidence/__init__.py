"""The evidence register: every constant the product rests on, with its source."""

from pennate.core.evidence.register import (
    Constant,
    Status,
    constant,
    constant_named,
    every_constant,
)

__all__ = ["Constant", "Status", "constant", "constant_named", "every_constant"]
