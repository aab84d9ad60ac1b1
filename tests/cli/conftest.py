"""A small content folder, good or with one mistake, and the command line run as a person runs it."""

from collections.abc import Callable
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
