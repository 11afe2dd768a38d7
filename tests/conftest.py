"""Shared fixtures, and the rule that CI may skip nothing."""

from __future__ import annotations

import os
import shutil

import pytest

CHROMIUM = next(
    (path for name in ("chromium", "chromium-browser") if (path := shutil.which(name))), None
)


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Skip browser tests on a machine without a Chromium."""
    if CHROMIUM is None:
        absent = pytest.mark.skip(reason="no Chromium on this machine")
        for item in items:
            if item.get_closest_marker("browser"):
                item.add_marker(absent)


@pytest.hookimpl(trylast=True)
def pytest_sessionfinish(session: pytest.Session) -> None:
    """Where PENNATE_NO_SKIPS is set, a skipped test fails the run."""
    reporter = session.config.pluginmanager.get_plugin("terminalreporter")
    if os.environ.get("PENNATE_NO_SKIPS") and reporter and reporter.stats.get("skipped"):
        session.exitstatus = pytest.ExitCode.TESTS_FAILED
