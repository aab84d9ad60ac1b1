"""Folders of any number of lessons for the benches: the real lessons again and again, each copy with its own formulas.

In every copy the givens have other names, so that no formula, block or question of one copy is that of another.
"""

import re
from itertools import count
from pathlib import Path

CONTENT = Path(__file__).parents[2] / "content"
_QUESTION = re.compile(r"^::: question .*?^:::$", re.M | re.S)
_GIVEN = re.compile(r"^\| *([a-z][a-z0-9_]*) *\|", re.M)
_CODE = re.compile(r"`[^`\n]+`|^\|[^|\n]*\| *=[^|\n]*\|$", re.M)
"""Where formulas stand: code spans, and the draws of computed givens."""
MODULE = """title = "{id}"
skill = "{id}"

[check]
pass_mark = 0.8
wait = "24 h"
valid = "24 months"
[check.topics]
{topics}
"""


def make(folder: Path, lessons: int) -> Path:
    """Write a content folder with so many lessons; gives the folder."""
    folder.mkdir(parents=True)
    (folder / "shop.toml").write_text('name = "Example Refinish"\nzone = "UTC"\n', encoding="utf-8")
    (folder / "shelf.md").write_bytes((CONTENT / "shelf.md").read_bytes())
    left = lessons
    for copy in count(1):
        for module in sorted(path.parent for path in CONTENT.glob("*/module.toml")):
            found = sorted(module.glob("[0-9]*.md"))[:left]
            if found:
                _module(folder / f"{module.name}-{copy}", found, copy)
            left -= len(found)
            if not left:
                return folder
    raise AssertionError("counting has no end")


def _module(folder: Path, lessons: list[Path], copy: int) -> None:
    folder.mkdir()
    topics: set[str] = set()
    for path in lessons:
        text = _QUESTION.sub(lambda block: _renamed(block[0], copy), path.read_text(encoding="utf-8"))
        text = re.sub(r"\]\(\.\./([a-z-]+)/", rf"](../\1-{copy}/", text)
        text = re.sub(r"(?<!!)\[([^\]]*)\]\([^)]*\.md[^)]*\)", r"\1", text)  # a smaller folder lacks some targets
        (folder / path.name).write_text(text, encoding="utf-8")
        blocks = [block for block in _QUESTION.findall(text) if "\nUse: practice" not in block]
        topics |= {topic for block in blocks for topic in re.findall(r"^Topic: (\S+)", block, re.M)}
    listed = "\n".join(f"{topic} = 1" for topic in sorted(topics))
    (folder / "module.toml").write_text(MODULE.format(id=folder.name, topics=listed), encoding="utf-8")


def _renamed(block: str, copy: int) -> str:
    """A question whose givens are called otherwise, with one more letter or two at the end of each name."""
    table = re.search(r"^\| *Given *\|.*?(?=\n\n|\n:::)", block, re.M | re.S)
    names = [name for name in _GIVEN.findall(table[0]) if name != "given"] if table else []
    for name in names:
        word = re.compile(rf"(?<![\w.]){name}(?!\w)")
        new = f"{name}{_letters(copy)}"
        block = re.sub(rf"^\| *{name} *\|", f"| {new} |", block, flags=re.M)
        block = _CODE.sub(lambda code, word=word, new=new: word.sub(new, code[0]), block)  # type: ignore[misc]
    return block


def _letters(copy: int) -> str:
    return "q" + "abcdefghijkmnopqrstuvwxyz"[copy % 25] + ("" if copy < 25 else str(copy // 25))
