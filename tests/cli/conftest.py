"""A small content folder, good or with one mistake, and the command line run as a person runs it."""

import re
import signal
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from quizkit.cli import main

SHOP = 'name = "Two Bays"\nzone = "UTC"\n'
MODULE = """title = "Ratio pairing"
skill = "pairing"

[check]
pass_mark = 0.8
wait = "24 h"
valid = "24 months"

[check.topics]
shares = 1
"""
LESSON = """# Shares

Ten parts to one.

::: question share
Topic: shares

`filler` of filler at `ratio`. How much hardener?

| Given  | Drawn from             |
| ------ | ---------------------- |
| filler | 60 mL to 240 mL by 5 mL |
| ratio  | 10:1 by volume         |

Answer: `hardener_for(filler, ratio)` in mL, within 2 %

Slip: `filler * ratio.a` -- Upside down.

Working: `filler` is shared out.

Source: common practice
:::
"""


@pytest.fixture
def content(tmp_path: Path) -> Path:
    folder = tmp_path / "content"
    (folder / "pairing").mkdir(parents=True)
    (folder / "shop.toml").write_text(SHOP)
    (folder / "pairing/module.toml").write_text(MODULE)
    (folder / "pairing/1-shares.md").write_text(LESSON)
    return folder


@pytest.fixture
def run() -> Callable[..., Result]:
    def command(*words: object, typed: str = "") -> Result:
        done = CliRunner().invoke(main, [str(word) for word in words], input=typed)
        assert done.exception is None or isinstance(done.exception, SystemExit), done.exception
        return done

    return command


@pytest.fixture
def served() -> Iterator[Callable[..., tuple[str, list[str]]]]:
    """Start a command that serves, as a process of its own; gives its address and the lines it said before."""
    started: list[subprocess.Popen[str]] = []

    def start(*words: object) -> tuple[str, list[str]]:
        command = [sys.executable, "-c", "from quizkit.cli import main; main()", *map(str, words)]
        process = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True)
        started.append(process)
        assert process.stdout is not None
        said: list[str] = []
        for line in process.stdout:
            said.append(line)
            found = re.search(r"http://\S+", line)
            if found:
                return found[0], said
        raise AssertionError("".join(said))

    yield start
    for process in started:
        process.send_signal(signal.SIGINT)
        process.communicate(timeout=60)
        assert process.returncode == 0
