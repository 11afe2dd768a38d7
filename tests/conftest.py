"""Shared fixtures, and the rule that CI may skip nothing."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator

import pytest
from hypothesis import settings
from playwright.sync_api import Browser, Playwright, sync_playwright

from pennate.estimate import Exposure, Outcome, StrengthModel
from tests.phone.browsers import found

settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")  # a busy machine is no fault of an example

CHROMIUM = next(
    (path for name in ("chromium", "chromium-browser") if (path := shutil.which(name))), None
)

FLAGS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
"""Chromium asks nobody for anything and runs as root in a container."""


@pytest.fixture(scope="session")
def playwright() -> Iterator[Playwright]:
    """The driver of browsers."""
    with sync_playwright() as driver:
        yield driver


@pytest.fixture(scope="session")
def chromium(playwright: Playwright) -> Iterator[Browser]:
    """The system's Chromium."""
    browser = playwright.chromium.launch(executable_path=CHROMIUM, args=list(FLAGS))
    yield browser
    browser.close()


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Skip browser tests on a machine without a Chromium."""
    if CHROMIUM is None:
        absent = pytest.mark.skip(reason="no Chromium on this machine")
        for item in items:
            if item.get_closest_marker("browser"):
                item.add_marker(absent)


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Say which browsers besides Chromium had their session."""
    names = ", ".join(found()) or "none on this machine"
    terminalreporter.write_line(f"full session in other browsers: {names}")


@pytest.hookimpl(trylast=True)
def pytest_sessionfinish(session: pytest.Session) -> None:
    """Where PENNATE_NO_SKIPS is set, a skipped test fails the run."""
    reporter = session.config.pluginmanager.get_plugin("terminalreporter")
    if os.environ.get("PENNATE_NO_SKIPS") and reporter and reporter.stats.get("skipped"):
        session.exitstatus = pytest.ExitCode.TESTS_FAILED


@pytest.fixture
def observed(monkeypatch: pytest.MonkeyPatch) -> list[Exposure]:
    """Every set the strength model learns from while the test runs."""
    seen: list[Exposure] = []
    observe = StrengthModel.observe

    def counted(model: StrengthModel, exposure: Exposure, outcome: Outcome) -> None:
        seen.append(exposure)
        observe(model, exposure, outcome)

    monkeypatch.setattr(StrengthModel, "observe", counted)
    return seen
