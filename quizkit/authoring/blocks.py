"""Splitting a file at its `:::` lines, before any Markdown is read.

Each piece is parsed alone, so a broken block cannot harm its neighbours.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from quizkit.authoring.diagnostics import Diagnostic, Spot
from quizkit.authoring.nearest import did_you_mean
from quizkit.authoring.source import Source
from quizkit.words import _

BLOCKS = ("question", "caution", "sheet")
ID = re.compile(r"[a-z][a-z0-9-]*")

_OPEN = re.compile(r":::[ \t]+(\S+)(?:[ \t]+(.*?))?[ \t]*")
_CLOSE = re.compile(r":::[ \t]*")
_ASIDE = re.compile(r"(?:[ \t]|>|[-*+][ \t]|\d{1,9}[.)][ \t])+:::")
_MEANT = re.compile(rf"[ \t>]*:::[ \t]*({'|'.join(BLOCKS)})(?:[ \t]+(.*?))?[ \t]*")
_FENCE = re.compile(r"((?:[ \t]*(?:>|[-*+][ \t]+|\d{1,9}[.)][ \t]+))*) {0,3}(`{3,}(?=[^`]*$)|~{3,})")


@dataclass(frozen=True, slots=True)
class Block:
    """A piece of a file: `kind` is "text", or the word of its `:::` line.

    `line` is the number (from 1) of the first of `lines`: for a text its own first line, for a block
    the `:::` line that opens it. A block's `lines` leave out the line that closes it.
    `whole` is false where it was never closed: then its contents are anyone's guess.
    """

    kind: str
    id: str
    line: int
    lines: tuple[str, ...]
    whole: bool = True


@dataclass(frozen=True, slots=True)
class _Fence:
    """An open fence: its sign, its length, and how far the list item that holds it is indented."""

    sign: str
    count: int
    indent: int
    line: int


def fenced_lines(lines: tuple[str, ...]) -> tuple[frozenset[int], int | None]:
    """Which lines (from 0) stand in a fence, its own first and last lines included.

    The second value is the line of a fence that is never closed, or None; its lines count as not fenced,
    since swallowing the rest of the file would hide everything after one forgotten sign.
    """
    if not any("```" in line or "~~~" in line for line in lines):
        return frozenset(), None
    inside: set[int] = set()
    fence: _Fence | None = None
    for number, line in enumerate(lines):
        if fence is not None and _leaves(fence, line):
            fence = None
        if fence is None:
            fence = _opened(line, number)
            if fence is not None:
                inside.add(number)
            continue
        inside.add(number)
        if _closes(fence, line):
            fence = None
    if fence is None or fence.indent:
        return frozenset(inside), None
    return frozenset(n for n in inside if n < fence.line), fence.line


def _opened(line: str, number: int) -> _Fence | None:
    found = _FENCE.match(line)
    if found is None:
        return None
    return _Fence(found[2][0], len(found[2]), len(found[1]), number)


def _leaves(fence: _Fence, line: str) -> bool:
    """A line further left than the list item or quote that holds the fence ends both."""
    if not fence.indent or not line.strip():
        return False
    return line[:1] not in (" ", "\t", ">")


def _closes(fence: _Fence, line: str) -> bool:
    bare = line.lstrip(" \t>").rstrip()
    return len(bare) >= fence.count and set(bare) == {fence.sign}


def split(source: Source) -> tuple[tuple[Block, ...], tuple[Diagnostic, ...]]:
    """The texts and blocks of a file in order, and what is wrong with its `:::` lines."""
    splitter = _Splitter(source)
    return tuple(splitter.blocks()), tuple(splitter.problems)


class _Splitter:
    """Walks the lines once; at most one block is open at any time."""

    def __init__(self, source: Source) -> None:
        self.source = source
        self.problems: list[Diagnostic] = []
        self.fenced, unclosed = fenced_lines(source.lines)
        if unclosed is not None:
            self.tell(
                "B08",
                unclosed,
                _("this code fence is never closed"),
                _("close it with the same signs on a line of their own"),
            )

    def tell(self, code: str, row: int, what: str, mend: str) -> None:
        line = self.source.lines[row]
        start = len(line) - len(line.lstrip())
        spot = Spot(row + 1, start + 1, max(1, len(line.strip())))
        self.problems.append(self.source.problem(code, spot, what, mend))

    def blocks(self) -> Iterator[Block]:
        start, kind, name = 0, "text", ""
        odd = False  # the open block began with a line that is told already: so is where it ends
        for row, line in enumerate(self.source.lines):
            if ":::" not in line or row in self.fenced:
                continue
            opens = _OPEN.fullmatch(line)
            if opens:
                yield from self.piece(kind, name, start, row, whole=kind == "text")
                if kind != "text" and not odd:
                    self.nested(row, kind, start)
                start, kind, name = row, opens[1], self.id_of(row, opens[1], opens[2] or "")
                odd = False
            elif _CLOSE.fullmatch(line):
                if kind == "text":
                    self.tell("B03", row, _("this closes a block, but none is open"), _("delete this line"))
                    yield from self.piece(kind, name, start, row)
                else:
                    yield from self.piece(kind, name, start, row)
                start, kind, name = row + 1, "text", ""
            elif self.odd_line(row, line):
                # What was meant is plain to see, and read so: else all that stands in it would be told as well.
                meant = _MEANT.fullmatch(line)
                if meant and kind == "text":
                    yield from self.piece(kind, name, start, row)
                    start, kind, name = row, meant[1], self.id_of(row, meant[1], meant[2] or "")
                    odd = True
                elif line.strip(" \t>") == ":::" and kind != "text":
                    yield from self.piece(kind, name, start, row)
                    start, kind, name = row + 1, "text", ""
        if kind != "text" and not odd:
            self.tell(
                "B01",
                start,
                _("this block is never closed"),
                _("put a line ':::' where it ends"),
            )
        yield from self.piece(kind, name, start, len(self.source.lines), whole=kind == "text")

    def piece(self, kind: str, name: str, start: int, end: int, *, whole: bool = True) -> Iterator[Block]:
        lines = self.source.lines[start:end]
        if kind == "text" and not any(line.strip() for line in lines):
            return
        if kind == "text" or kind in BLOCKS:
            yield Block(kind, name, start + 1, lines, whole)

    def nested(self, row: int, kind: str, start: int) -> None:
        self.tell(
            "B02",
            row,
            _("a block opens here, but the '{kind}' of line {line} is still open").format(kind=kind, line=start + 1),
            _("put a line ':::' before this one; blocks do not nest"),
        )

    def id_of(self, row: int, kind: str, rest: str) -> str:
        """The id on the opening line; what is wrong with that line is told here."""
        if kind not in BLOCKS:
            self.tell(
                "B05",
                row,
                _("there is no block called '{word}'").format(word=kind[:60]),
                did_you_mean(kind, BLOCKS),
            )
        elif kind != "question":
            if rest:
                self.tell(
                    "B06",
                    row,
                    _("nothing may follow '::: {kind}' on its line").format(kind=kind),
                    _("move it to the next line"),
                )
        elif not ID.fullmatch(rest):
            self.tell(
                "B07",
                row,
                _("a question needs an id of small letters, digits and dashes that begins with a letter"),
                _("for example '::: question hardener-share'"),
            )
            return ""
        return rest

    def odd_line(self, row: int, line: str) -> bool:
        """Whether a line that holds `:::` is meant as one of ours, which is told."""
        if line.startswith(":::"):
            self.tell(
                "B06",
                row,
                _("this line neither opens nor closes a block"),
                _("open with '::: question ID', '::: caution' or '::: sheet', close with ':::'"),
            )
        elif _ASIDE.match(line):
            self.tell(
                "B04",
                row,
                _("a line of ':::' must begin in the first column"),
                _("take away what stands before ':::', or put the example in a code fence"),
            )
        else:
            return False
        return True
