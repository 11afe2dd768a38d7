"""The demo lifter and servers, shared with the tests of the pages."""

from __future__ import annotations

from tests.web.conftest import (
    client_of,
    empty,
    own_demo,
    phone,
    short_demo,
)

__all__ = ["client_of", "empty", "own_demo", "phone", "short_demo"]
