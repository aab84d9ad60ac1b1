"""What all tests share: a real browser, brought where it can be, and a loud word where it cannot."""

import os
import shutil
import subprocess
from collections.abc import Iterator
from typing import Any

import pytest
from hypothesis import settings
from playwright.sync_api import Browser, sync_playwright

settings.register_profile("quizkit", deadline=None)
settings.load_profile("quizkit")

NAMES = ("chromium", "chromium-browser", "google-chrome")
ARGUMENTS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
_missing: list[str] = []


def found() -> str | None:
    """Where a chromium is, or None: the one that QUIZKIT_BROWSER names, or the first of the path."""
    return os.environ.get("QUIZKIT_BROWSER") or next((path for name in NAMES if (path := shutil.which(name))), None)


def _install() -> None:
    """Bring Debian's chromium where this is Debian and we may; otherwise leave things as they are."""
    if shutil.which("apt-get") is None or os.geteuid() != 0:
        return
    quiet = {"stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL, "check": False}
    subprocess.run(["apt-get", "update", "-qq"], **quiet)  # type: ignore[call-overload]
    subprocess.run(["apt-get", "install", "-y", "-qq", "chromium"], **quiet)  # type: ignore[call-overload]


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """A running headless chromium."""
    path = found()
    if path is None:
        _install()
        path = found()
    if path is None:
        _missing.append("no chromium on this machine and no right to install it")
        pytest.skip("no chromium: install it, or name one in QUIZKIT_BROWSER")
    with sync_playwright() as driver:
        running = driver.chromium.launch(executable_path=path, args=ARGUMENTS)
        yield running
        running.close()


def pytest_terminal_summary(terminalreporter: Any) -> None:
    """Say at the very end, where nobody overlooks it, that the browser's tests did not run."""
    if _missing:
        terminalreporter.section("THE BROWSER TESTS DID NOT RUN", sep="!", red=True, bold=True)
        terminalreporter.line(f"{_missing[0]}. Install chromium, or name one in QUIZKIT_BROWSER, and run again.")
