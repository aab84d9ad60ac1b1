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
    """One label: its word, the name after it ("" for none), where it stands, and its text.

    `torn` where a backtick of the text has no partner, which is told: what is code in it is anyone's guess.
    """

    word: str
    name: str
    spot: Spot
    body: Stretch
    torn: bool = False


@dataclass(frozen=True, slots=True)
class Prose:
    """Lines between labels, to be read as Markdown."""

    body: Stretch


Piece = Label | Prose


@dataclass(frozen=True, slots=True)
class _Head:
    """The beginning of a label line: its word and name as meant, how long both are as typed, and where the text is."""

    word: str
    name: str
    length: int
    end: int


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
            head = self.head(row)
            if head is None:
                row += 1
                continue
            found += self.prose(prose, row)
            self.check_gap(row, prose)
            stop = self.run(head.word, row)
            if head.word in self.allowed:
                found.append(self.label(head, row, stop))
            row = prose = stop
        found += self.prose(prose, self.end)
        return found

    def head(self, row: int) -> _Head | None:
        """The label that a line begins with, or None.

        A line that nearly is one is told, and then taken as meant: one mistake is told once.
        """
        if row in self.fenced:
            return None
        line = self.source.lines[row]
        found = _LABEL.match(line)
        if found is None:
            return self.odd(row, _ODD_NAME.match(line))
        word, name = found[1], found[2] or ""
        if word not in self.allowed:
            meant = self.unknown(row, word)
            if meant is None:
                return None
            word = meant
        return _Head(word, name, len(found[1]) + (len(name) + 1 if name else 0), found.end())

    def odd(self, row: int, found: re.Match[str] | None) -> _Head | None:
        """A label with a name that is none."""
        if found is None or found[1] not in _NAMED or found[1] not in self.allowed:
            return None
        self.tell(
            "L04",
            Spot(row + 1, found.start(2) + 1, len(found[2])),
            _("'{name}' cannot be the name of a part").format(name=found[2][:60]),
            _("a name has small letters, digits and underscores, and begins with a letter"),
        )
        name = re.sub(r"[^a-z0-9_]", "_", found[2].lower())
        return _Head(found[1], name, found.end(2), found.end())

    def unknown(self, row: int, word: str) -> str | None:
        """The label that a word is meant as, which is told; None where it is prose."""
        spot = Spot(row + 1, 1, len(word))
        if word in ALL:
            self.tell(
                "L02",
                spot,
                _("'{word}:' has no meaning here").format(word=word),
                _("labels that belong here: {words}").format(words=", ".join(self.allowed)),
            )
            return word
        near = next((known for known in self.allowed if distance(word, known, 1) == 1), None)
        if near:
            self.tell(
                "L01",
                spot,
                _("there is no label '{word}:'").format(word=word),
                _("did you mean '{word}:'?").format(word=near),
            )
        return near

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

    def label(self, head: _Head, row: int, stop: int) -> Label:
        lines = self.source.lines[row:stop]
        text = "\n".join((lines[0][head.end :], *lines[1:]))
        body = Stretch(text, row + 1, head.end + 1)
        spot = Spot(row + 1, 1, head.length)
        if head.name and head.word not in _NAMED:
            what = _("'{word}:' takes no name").format(word=head.word)
            self.tell("L05", spot, what, _("write '{word}:'").format(word=head.word))
        _spans, stray = code_spans(body)
        if stray is not None:
            self.tell(
                "L03",
                body.spot(stray, stray + 1),
                _("this backtick has no partner in '{word}:'").format(word=head.word),
                _("put one at the other end of the formula"),
            )
        return Label(head.word, head.name, spot, body.strip(), stray is not None)

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
