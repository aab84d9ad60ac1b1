"""The house keeps its arrows, its types and its style: each gate is run as a developer would run it."""

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
BIN = Path(sys.executable).parent

GATES = {
    "arrows": [str(BIN / "lint-imports"), "--no-cache"],
    "style": [str(BIN / "ruff"), "check", "--no-cache", "quizkit", "tests"],
    "layout": [str(BIN / "ruff"), "format", "--no-cache", "--check", "quizkit", "tests"],
    "types": [sys.executable, "-m", "mypy"],
}


@pytest.mark.parametrize("gate", GATES)
def test_the_gate_passes(gate: str) -> None:
    done = subprocess.run(GATES[gate], cwd=ROOT, capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr


def test_the_top_level_holds_what_the_card_says_and_nothing_else() -> None:
    listed = subprocess.run(["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=True).stdout
    tops = {line.split("/")[0] for line in listed.splitlines()}
    assert {top for top in tops if not top.startswith(".")} <= {
        "README.md",
        "DEVELOPERS.md",
        "pyproject.toml",
        "quizkit",
        "content",
        "tests",
        "build",
    }
