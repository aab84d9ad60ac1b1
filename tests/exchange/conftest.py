"""Data of the standards themselves, from the folder that QUIZKIT_STANDARDS names; it is not carried along here."""

import json
import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest


@pytest.fixture(scope="session")
def standards() -> Path:
    named = os.environ.get("QUIZKIT_STANDARDS")
    if not named:
        pytest.skip("QUIZKIT_STANDARDS is not set: name the folder with the data of the standards")
    return Path(named)


@pytest.fixture(scope="session")
def standard(standards: Path) -> Callable[[str], Any]:
    return lambda name: json.loads((standards / name).read_text())
