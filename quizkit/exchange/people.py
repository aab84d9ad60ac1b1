"""A list of people from a CSV file, as a spreadsheet saves it: read whole or told what is wrong, line by line."""

from __future__ import annotations

import csv
import io
from dataclasses import dataclass

from quizkit.words import _

LARGEST = 2_000_000
"""Bytes of a list that is read at all."""
NEEDED = ("name", "role", "site")
KNOWN = (*NEEDED, "secret")


@dataclass(frozen=True, slots=True)
class Problem:
    """What is wrong in one line of the file (from 1, the heads being line 1; 0 for the file), and how to mend it."""

    row: int
    what: str
    mend: str


@dataclass(frozen=True, slots=True)
class PeopleRead:
    """The rows by column, in the file's order, and each row's line in the file. With any problem there are no rows."""

    rows: tuple[dict[str, str], ...]
    lines: tuple[int, ...]
    problems: tuple[Problem, ...]


def read_people(data: bytes) -> PeopleRead:
    """Read a CSV of people: columns name, role, site and perhaps secret, in any order.

    They are parted by comma, semicolon or tab. Heads may be in capitals. Blank lines are passed over. Whether a role
    or site exists is the shop's matter.
    """
    text = _decoded(data)
    if isinstance(text, Problem):
        return _none(text)
    try:
        lines = list(_lines(text))
    except csv.Error as error:
        return _none(Problem(0, _("this is no CSV file: {error}").format(error=error), _save_again()))
    if not lines:
        return _none(Problem(0, _("the file is empty"), _("give it a line of heads and a line a person")))
    heads = [head.strip().casefold() for head in lines[0][1]]
    wrong = _wrong_heads(heads)
    if wrong:
        return PeopleRead((), (), tuple(wrong))
    return _read_rows(heads, lines[1:])


def _read_rows(heads: list[str], lines: list[tuple[int, list[str]]]) -> PeopleRead:
    rows, numbers, problems = [], [], []
    for number, cells in lines:
        values = [cell.strip() for cell in cells]
        if len(values) > len(heads) and any(values[len(heads) :]):
            what = _("this line has more cells than there are heads")
            problems.append(Problem(number, what, _("put quotes around a name that holds a comma")))
            continue
        row = dict.fromkeys(KNOWN, "") | dict(zip(heads, values, strict=False))
        problems += [
            Problem(number, _("the {column} is empty").format(column=column), _("fill it in, or take the line out"))
            for column in NEEDED
            if not row[column]
        ]
        rows.append(row)
        numbers.append(number)
    if not rows and not problems:
        problems.append(Problem(0, _("there is nobody in the file"), _("give it a line a person below the heads")))
    return PeopleRead((), (), tuple(problems)) if problems else PeopleRead(tuple(rows), tuple(numbers), ())


def _wrong_heads(heads: list[str]) -> list[Problem]:
    problems = []
    for head in NEEDED:
        if head not in heads:
            what = _("there is no column '{head}'").format(head=head)
            problems.append(Problem(1, what, _("the first line names the columns: name, role, site, secret")))
    for head in dict.fromkeys(heads):
        if head and head not in KNOWN:
            what = _("nothing reads a column '{head}'").format(head=head)
            problems.append(Problem(1, what, _("take it out: name, role, site and secret are read")))
        elif head and heads.count(head) > 1:
            what = _("the column '{head}' is there twice").format(head=head)
            problems.append(Problem(1, what, _("leave one of them")))
    return problems


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
        return Problem(0, _("the file is larger than a list of people can be"), _("cut it into several"))
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


def _none(problem: Problem) -> PeopleRead:
    return PeopleRead((), (), (problem,))
