"""The demo lifter and servers, shared with the tests of the pages."""

from __future__ import annotations

from tests.web.conftest import (
    chromium,
    client_of,
    empty,
    own_demo,
    phone,
    playwright,
    short_demo,
)

__all__ = ["chromium", "client_of", "empty", "own_demo", "phone", "playwright", "short_demo"]
