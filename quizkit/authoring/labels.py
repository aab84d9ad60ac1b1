"""Label lines (`Answer: …`), read from the source and not from any Markdown."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from quizkit.authoring.blocks import fenced_lines
from quizkit.authoring.diagnostics import Diagnostic, Spot
from quizkit.authoring.nearest import distance
from quizkit.authoring.source import Source, Stretch
from quizkit.authoring.spans import code_spans
from quizkit.words import _

LESSON = ("Figure", "Source")
SHEET_TEXT = ("Figure", "Material", "Source")
SHEET = ("Judge",)
QUESTION = (
    "Answer",
    "Ask",
    "Critical",
    "Figure",
    "Order",
    "Plausible",
    "Slip",
    "Source",
    "Topic",
    "Use",
    "Where",
    "Working",
)
ALL = tuple(sorted({*LESSON, *SHEET_TEXT, *SHEET, *QUESTION}))

_NAMED = frozenset({"Answer", "Ask", "Critical", "Judge", "Plausible", "Slip", "Working"})
_LONG = frozenset({"Ask", "Working"})

_LABEL = re.compile(r"([A-Z][a-z]+)(?: ([a-z][a-z0-9_]*))?:(?:[ \t]+|$)")
_ODD_NAME = re.compile(r"([A-Z][a-z]+)[ \t]+([^\s:`]+)[ \t]*:(?:[ \t]|$)")
_LIST = re.compile(r" {0,3}(?:[-*+]|\d{1,9}[.)])(?:[ \t]|$)")
_TASK = re.compile(r" {0,3}[-*+][ \t]+\[[ xX]")
_ROW = re.compile(r" {0,3}\|")
_KEY_TABLE = re.compile(r" {0,3}\|?[ \t]*(?:given|pair|measure)[ \t]*\|", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Label:
    """One label: its word, the name after it ("" for none), where it stands, and its text."""

    word: str
    name: str
    spot: Spot
    body: Stretch


@dataclass(frozen=True, slots=True)
class Prose:
    """Lines between labels, to be read as Markdown."""

    body: Stretch


Piece = Label | Prose


def outline(
    source: Source, allowed: Sequence[str], start: int = 0, end: int | None = None
) -> tuple[tuple[Piece, ...], tuple[Diagnostic, ...]]:
    """The labels of `allowed` and the prose between them, in order, in lines `start` to `end` (from 0).

    Tells words that are nearly a label, labels that do not belong here, a label glued to a list or a
    table, and backticks without a partner in a label.
    """
    reader = _Outline(source, allowed, start, len(source.lines) if end is None else end)
    return tuple(reader.pieces()), tuple(reader.problems)


class _Outline:
    def __init__(self, source: Source, allowed: Sequence[str], start: int, end: int) -> None:
        self.source = source
        self.allowed = allowed
        self.start, self.end = start, end
        self.problems: list[Diagnostic] = []
        fenced, _unclosed = fenced_lines(source.lines[start:end])
        self.fenced = {row + start for row in fenced}

    def pieces(self) -> list[Piece]:
        found: list[Piece] = []
        row = prose = self.start
        while row < self.end:
            label = self.label_at(row)
            if label is None:
                row += 1
                continue
            found += self.prose(prose, row)
            self.check_gap(row, prose)
            stop = self.run(label[1], row)
            found.append(self.label(label, row, stop))
            row = prose = stop
        found += self.prose(prose, self.end)
        return found

    def label_at(self, row: int) -> re.Match[str] | None:
        """The label on a line, or None; a line that nearly is one is told."""
        if row in self.fenced:
            return None
        line = self.source.lines[row]
        found = _LABEL.match(line)
        if found is None:
            odd = _ODD_NAME.match(line)
            if odd and odd[1] in _NAMED and odd[1] in self.allowed:
                self.tell(
                    "L04",
                    Spot(row + 1, odd.start(2) + 1, len(odd[2])),
                    _("'{name}' cannot be the name of a part").format(name=odd[2][:60]),
                    _("a name has small letters, digits and underscores, and begins with a letter"),
                )
            return None
        if found[1] in self.allowed:
            return found
        self.unknown(row, found[1])
        return None

    def unknown(self, row: int, word: str) -> None:
        spot = Spot(row + 1, 1, len(word))
        if word in ALL:
            self.tell(
                "L02",
                spot,
                _("'{word}:' has no meaning here").format(word=word),
                _("labels that belong here: {words}").format(words=", ".join(self.allowed)),
            )
            return
        near = next((known for known in self.allowed if distance(word, known, 1) == 1), None)
        if near:
            self.tell(
                "L01",
                spot,
                _("there is no label '{word}:'").format(word=word),
                _("did you mean '{word}:'?").format(word=near),
            )

    def run(self, word: str, row: int) -> int:
        """The line after the last one of a label."""
        stop = row + 1
        while stop < self.end:
            line = self.source.lines[stop]
            if stop not in self.fenced:
                found = _LABEL.match(line)
                if found and found[1] in ALL:
                    break
                if _TASK.match(line) or _KEY_TABLE.match(line):
                    break
            if word not in _LONG and (not line.strip() or _LIST.match(line) or _ROW.match(line)):
                break
            stop += 1
        return stop

    def label(self, found: re.Match[str], row: int, stop: int) -> Label:
        word, name = found[1], found[2] or ""
        lines = self.source.lines[row:stop]
        text = "\n".join((lines[0][found.end() :], *lines[1:]))
        body = Stretch(text, row + 1, found.end() + 1)
        spot = Spot(row + 1, 1, len(word) + (len(name) + 1 if name else 0))
        if name and word not in _NAMED:
            self.tell(
                "L05", spot, _("'{word}:' takes no name").format(word=word), _("write '{word}:'").format(word=word)
            )
        _spans, stray = code_spans(body)
        if stray is not None:
            self.tell(
                "L03",
                body.spot(stray, stray + 1),
                _("this backtick has no partner in '{word}:'").format(word=word),
                _("put one at the other end of the formula"),
            )
        return Label(word, name, spot, body.strip())

    def prose(self, start: int, stop: int) -> list[Piece]:
        lines = self.source.lines[start:stop]
        if not any(line.strip() for line in lines):
            return []
        return [Prose(Stretch("\n".join(lines), start + 1))]

    def check_gap(self, row: int, since: int) -> None:
        """A label straight below a list or a table would be swallowed by it in every Markdown viewer."""
        above = row - 1
        while above >= since and self.source.lines[above].strip() and above not in self.fenced:
            line = self.source.lines[above]
            if _LIST.match(line) or _ROW.match(line):
                self.tell(
                    "L06",
                    Spot(row + 1, 1, len(self.source.lines[row])),
                    _("this label stands straight below a list or a table"),
                    _("put a blank line between them"),
                )
                return
            above -= 1

    def tell(self, code: str, spot: Spot, what: str, mend: str) -> None:
        self.problems.append(self.source.problem(code, spot, what, mend))
