"""A small content folder that compiles without a word, to be spoiled by the tests."""

from pathlib import Path

import pytest

SHOP = 'name = "Example Refinish"\nzone = "UTC"\n'
SHELF = """# The shelf

| name  | family   | ratio          | cartridge (mL) | price ($) |
| ----- | -------- | -------------- | -------------- | --------- |
| Keel  | adhesive | 2:1 by volume  | 200            | $46.00    |
| Tarn  | filler   | 10:1 by volume | 400            | $24.00    |
"""
MODULE = """title = "Ratio pairing"
skill = "ratio-pairing"
practical = true

[check]
pass_mark = 0.8
wait = "24 h"
valid = "24 months"
[check.topics]
shares = 1
"""
LESSON = """# Each side has its share

::: caution
**What hurts.** Hardener burns the skin.
:::

Some words, and a [link](2-more.md).

::: question hardener-share
Topic: shares

A quarter takes `filler` of filler. The pairing is `ratio`.
How much hardener must come out with it?

| Given  | Drawn from              |
| ------ | ----------------------- |
| filler | 60 mL to 240 mL by 5 mL |
| ratio  | 10:1 by volume          |

Answer: `hardener_for(filler, ratio)` in mL, within 2 %

Slip: `filler * ratio.a` -- The ratio is upside down.

Working: `filler` ÷ `ratio.a` = `answer`
:::

Source: common practice.
"""
MORE = """# More

::: question first-step
Topic: order
Use: practice

What comes first?

- [x] Gloves
- [ ] The nozzle -- Gloves come before it.
:::
"""
SIGNOFF = """# Seen at the bench

Material: shelf where family is adhesive

::: sheet
1. ! Caps off only with gloves.
2. Both sides level.

| Measure | In | What             |
| ------- | -- | ---------------- |
| used    | mL | what came out    |

Judge used: `used / material.cartridge` at most 100 % -- Read again.
:::
"""
FILES = {
    "shop.toml": SHOP,
    "shelf.md": SHELF,
    "ratio-pairing/module.toml": MODULE,
    "ratio-pairing/1-shares.md": LESSON,
    "ratio-pairing/2-more.md": MORE,
    "ratio-pairing/signoff.md": SIGNOFF,
}


def write(folder: Path, files: dict[str, str | bytes]) -> Path:
    """Put files into a folder, each by its path."""
    for path, text in files.items():
        file = folder / path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_bytes(text if isinstance(text, bytes) else text.encode())
    return folder


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """The small content folder."""
    return write(tmp_path / "content", FILES)


@pytest.fixture(scope="session")
def small() -> dict[str, str]:
    """The files of the small content folder by their paths."""
    return dict(FILES)
