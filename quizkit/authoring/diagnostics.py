"""What an author is told: where, what, and how to mend it, with the line and a caret below."""

from __future__ import annotations

import json
import unicodedata
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from quizkit.authoring.codes import CODES, Severity
from quizkit.words import _

_WINDOW = 140  # characters of a source line that are shown


@dataclass(frozen=True, slots=True)
class Spot:
    """A place in a file: line and column from 1, both counted in characters, and how far it reaches."""

    line: int = 1
    column: int = 1
    length: int = 1


@dataclass(frozen=True, slots=True)
class Diagnostic:
    """One problem in one place.

    `path` is relative to the content folder, with forward slashes; `source` is the line as typed.
    """

    path: str
    spot: Spot
    code: str
    what: str
    mend: str = ""
    source: str = ""

    @property
    def name(self) -> str:
        """The short name that goes with the code."""
        return CODES[self.code].name

    @property
    def severity(self) -> Severity:
        """Whether this stops a pack ("error") or only tells."""
        return CODES[self.code].severity

    def moved(self, path: str, lines: int) -> Diagnostic:
        """The same problem in `path`, `lines` further down: a block is read with its own line numbers."""
        spot = replace(self.spot, line=self.spot.line + lines)
        return replace(self, path=path, spot=spot)

    def __str__(self) -> str:
        return "\n".join(_text_lines(self))


def _text_lines(problem: Diagnostic) -> Iterable[str]:
    spot = problem.spot
    yield (
        f"{problem.path}:{spot.line}:{spot.column}: {problem.severity} {problem.code} {problem.name}: {problem.what}"
    )
    if problem.source.strip():
        shown, column = _window(problem.source, spot.column)
        reach = max(1, min(spot.length, len(shown) - column + 1))
        yield f"{spot.line:>5} | {_printable(shown)}"
        yield f"      | {_under(shown[: column - 1])}{'^' * _width(shown[column - 1 : column - 1 + reach])}"
    if problem.mend:
        yield "   " + _("mend: {mend}").format(mend=problem.mend)


def _window(line: str, column: int) -> tuple[str, int]:
    """The part of a long line that holds the column, and the column within that part."""
    line = line.rstrip()
    column = max(1, min(column, len(line) + 1))
    if len(line) <= _WINDOW:
        return line, column
    start = max(0, min(column - 1 - _WINDOW // 3, len(line) - _WINDOW))
    before = "…" if start else ""
    after = "…" if start + _WINDOW < len(line) else ""
    return before + line[start : start + _WINDOW] + after, column - start + len(before)


def _printable(text: str) -> str:
    return "".join(c if c == "\t" or c.isprintable() else "\N{REPLACEMENT CHARACTER}" for c in text)


def _cells(character: str) -> int:
    """How many columns of a terminal a character takes."""
    if unicodedata.combining(character):
        return 0
    return 2 if unicodedata.east_asian_width(character) in "WF" else 1


def _under(text: str) -> str:
    return "".join("\t" if c == "\t" else " " * _cells(c) for c in text)


def _width(text: str) -> int:
    return max(1, sum(_cells(c) for c in text))


def in_order(problems: Iterable[Diagnostic]) -> tuple[Diagnostic, ...]:
    """By file, line and column, each problem once."""
    unique = dict.fromkeys(problems)
    return tuple(sorted(unique, key=lambda p: (p.path, p.spot.line, p.spot.column, p.code, p.what)))


def has_errors(problems: Iterable[Diagnostic]) -> bool:
    """Whether any of these stops a pack."""
    return any(problem.severity == "error" for problem in problems)


def as_json(problems: Sequence[Diagnostic]) -> str:
    """The problems for a program: a JSON array, one object a problem."""
    return json.dumps([_plain(problem) for problem in problems], ensure_ascii=False, indent=2)


def _plain(problem: Diagnostic) -> dict[str, str | int]:
    return {
        "path": problem.path,
        "line": problem.spot.line,
        "column": problem.spot.column,
        "length": problem.spot.length,
        "severity": problem.severity,
        "code": problem.code,
        "name": problem.name,
        "what": problem.what,
        "mend": problem.mend,
    }
