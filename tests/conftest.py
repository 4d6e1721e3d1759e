"""What every test runs in: a cache and a font list of its own, never the user's."""

from __future__ import annotations

import os
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

from tests.font_list import write_font_list

settings.register_profile("busy", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("busy")  # a machine that is busy with other things is no fault


@pytest.fixture(scope="session", autouse=True)
def _own_surroundings(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """A cache folder for the session, and the book's own faces for cairo, before it is loaded."""
    folder = tmp_path_factory.mktemp("cache")
    before = os.environ.get("XDG_CACHE_HOME")
    os.environ["XDG_CACHE_HOME"] = str(folder)
    os.environ["FONTCONFIG_FILE"] = str(write_font_list(folder))
    yield
    if before is None:
        del os.environ["XDG_CACHE_HOME"]
    else:
        os.environ["XDG_CACHE_HOME"] = before


@pytest.fixture(scope="session")
def project() -> Path:
    """The top of the project."""
    return Path(__file__).parent.parent


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Say in one line what was skipped, and for want of what."""
    skipped = terminalreporter.getreports("skipped")
    reasons = Counter(str(report.longrepr[2]).removeprefix("Skipped: ") for report in skipped)
    if reasons:
        told = "; ".join(f"{count}: {reason}" for reason, count in sorted(reasons.items()))
        terminalreporter.write_line(f"Skipped tests, and why: {told}")
