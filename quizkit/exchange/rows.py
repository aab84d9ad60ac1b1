"""A list from a CSV file, as a spreadsheet saves it: read whole, or told what is wrong, line by line."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from dataclasses import dataclass

from quizkit.words import _

LARGEST = 2_000_000
"""Bytes of a list that is read at all."""


@dataclass(frozen=True, slots=True)
class Problem:
    """What is wrong in one line of the file (from 1, the heads being line 1; 0 for the file), and how to mend it."""

    row: int
    what: str
    mend: str


@dataclass(frozen=True, slots=True)
class RowsRead:
    """The rows by column, in the file's order, and each row's line in the file. With any problem there are no rows."""

    rows: tuple[dict[str, str], ...]
    lines: tuple[int, ...]
    problems: tuple[Problem, ...]


@dataclass(frozen=True, slots=True)
class Columns:
    """The columns of a list: those that must be there and filled, and all that are read."""

    needed: tuple[str, ...]
    known: tuple[str, ...]

    def named(self) -> str:
        """All of them in words."""
        return ", ".join(self.known)


def read_rows(data: bytes, columns: Columns, nothing: str) -> RowsRead:
    """Read a CSV whose first line names its columns, in any order.

    They are parted by comma, semicolon or tab. Heads may be in capitals. Blank lines are passed over. `nothing` are the
    words for a file without a row. What a cell says is the shop's matter.
    """
    text = _decoded(data)
    if isinstance(text, Problem):
        return _none(text)
    try:
        lines = list(_lines(text))
    except csv.Error as error:
        return _none(Problem(0, _("this is no CSV file: {error}").format(error=error), _save_again()))
    if not lines:
        return _none(Problem(0, _("the file is empty"), _heads_wanted(columns)))
    heads = [head.strip().casefold() for head in lines[0][1]]
    wrong = _wrong_heads(heads, columns)
    if wrong:
        return RowsRead((), (), tuple(wrong))
    return _read_rows(heads, lines[1:], columns, nothing)


def _read_rows(
    heads: Sequence[str], lines: Sequence[tuple[int, list[str]]], columns: Columns, nothing: str
) -> RowsRead:
    rows, numbers, problems = [], [], []
    for number, cells in lines:
        values = [cell.strip() for cell in cells]
        if len(values) > len(heads) and any(values[len(heads) :]):
            what = _("this line has more cells than there are heads")
            problems.append(Problem(number, what, _("put quotes around what holds a comma")))
            continue
        row = dict.fromkeys(columns.known, "") | dict(zip(heads, values, strict=False))
        problems += [
            Problem(number, _("the {column} is empty").format(column=column), _("fill it in, or take the line out"))
            for column in columns.needed
            if not row[column]
        ]
        rows.append(row)
        numbers.append(number)
    if not rows and not problems:
        problems.append(Problem(0, nothing, _("give it a line for each, below the heads")))
    return RowsRead((), (), tuple(problems)) if problems else RowsRead(tuple(rows), tuple(numbers), ())


def _wrong_heads(heads: Sequence[str], columns: Columns) -> list[Problem]:
    problems = []
    for head in columns.needed:
        if head not in heads:
            what = _("there is no column '{head}'").format(head=head)
            problems.append(Problem(1, what, _heads_wanted(columns)))
    for head in dict.fromkeys(heads):
        if head and head not in columns.known:
            what = _("nothing reads a column '{head}'").format(head=head[:40])
            mend = _("take it out; read are: {columns}").format(columns=columns.named())
            problems.append(Problem(1, what, mend))
        elif head and heads.count(head) > 1:
            what = _("the column '{head}' is there twice").format(head=head)
            problems.append(Problem(1, what, _("leave one of them")))
    return problems


def _heads_wanted(columns: Columns) -> str:
    return _("the first line names the columns: {columns}").format(columns=columns.named())


def _lines(text: str) -> list[tuple[int, list[str]]]:
    first = text.split("\n", 1)[0]
    mark = max(",;\t", key=first.count)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=mark, strict=True)
    found = []
    before = 0
    for cells in reader:
        if any(cell.strip() for cell in cells):
            found.append((before + 1, cells))
        before = reader.line_num
    return found


def _decoded(data: bytes) -> str | Problem:
    if len(data) > LARGEST:
        return Problem(0, _("the file is larger than such a list can be"), _("cut it into several"))
    try:
        text = data.decode("utf-16" if data[:2] in (b"\xff\xfe", b"\xfe\xff") else "utf-8-sig")
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        return Problem(line, _("the letters in this line are not in UTF-8"), _save_again())
    if "\0" in text:
        return Problem(text[: text.index("\0")].count("\n") + 1, _("this is no text file"), _save_again())
    return text


def _save_again() -> str:
    return _("save it again from the spreadsheet as 'CSV UTF-8'")


def _none(problem: Problem) -> RowsRead:
    return RowsRead((), (), (problem,))
