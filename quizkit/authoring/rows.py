"""`shelf where …`: which rows of the shelf are meant."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from quizkit.authoring.amounts import amount_of, read_date, read_ratio
from quizkit.authoring.nearest import did_you_mean
from quizkit.authoring.notes import Notes
from quizkit.authoring.source import Stretch
from quizkit.formula import RatioValue, Row
from quizkit.pack.shelf import Column, Shelf
from quizkit.units import NUMBER, PLAIN, unit
from quizkit.words import _, ngettext

_OPERATIONS = r"is not|is|at least|at most"
_CONDITION = re.compile(rf"\s*(?P<field>[A-Za-z][\w ]*?)\s+(?P<sign>{_OPERATIONS})\s+(?P<value>.*?)\s*", re.S)
_JOIN = re.compile(rf"\s+and\s+(?=[A-Za-z][\w ]*?\s+(?:{_OPERATIONS})\s)")
_COMPARE: dict[str, Callable[[Any, Any], bool]] = {
    "is": lambda cell, value: bool(cell == value),
    "is not": lambda cell, value: bool(cell != value),
    "at least": lambda cell, value: bool(cell >= value),
    "at most": lambda cell, value: bool(cell <= value),
}


@dataclass(frozen=True, slots=True)
class _Test:
    field: str
    sign: str
    value: Any

    def holds(self, row: Row) -> bool:
        """A row with a blank cell passes no test on it."""
        cell = row.field(self.field)
        if cell is None:
            return False
        return _COMPARE[self.sign](_comparable(cell), self.value)


def _comparable(cell: Any) -> Any:
    """Ratios that are alike in other numbers are one; texts are one whatever the capitals."""
    if isinstance(cell, RatioValue):
        return cell.a / cell.b, cell.basis
    return cell.casefold() if isinstance(cell, str) else cell


def looks_like_shelf(text: str) -> bool:
    """Whether a draw is from the shelf."""
    return bool(re.match(r"\s*shelf\b", text))


def rows_where(notes: Notes, stretch: Stretch, shelf: Shelf) -> tuple[Row, ...] | None:
    """The rows that `shelf where …` means, in the order of the shelf; None, and told, where it cannot be read."""
    found = re.fullmatch(r"\s*shelf(?:\s+where\s+(.*?))?\s*", stretch.text, re.S)
    if found is None:
        notes.tell(
            "G06",
            stretch,
            _("this draw from the shelf cannot be read"),
            _("write it like 'shelf where family is filler and ratio is 10:1 by volume'"),
        )
        return None
    if not found[1]:
        return shelf.rows
    tests = [_test(notes, part, shelf) for part in _parts(stretch.cut(found.start(1), found.end(1)))]
    good = [test for test in tests if test is not None]
    if len(good) < len(tests):
        return None
    _tell_blanks(notes, stretch, shelf, good)
    return tuple(row for row in shelf.rows if all(test.holds(row) for test in good))


def _tell_blanks(notes: Notes, stretch: Stretch, shelf: Shelf, tests: list[_Test]) -> None:
    """A row that a blank cell alone keeps out is counted: nobody would look for it there."""
    count = sum(
        all(test.holds(row) or row.field(test.field) is None for test in tests)
        and any(row.field(test.field) is None for test in tests)
        for row in shelf.rows
    )
    if count:
        what = ngettext(
            "{n} material is passed over: a cell that is asked for here is blank",
            "{n} materials are passed over: a cell that is asked for here is blank",
            count,
        )
        notes.tell("G11", stretch, what.format(n=count), _("fill the cell on the shelf"))


def _parts(stretch: Stretch) -> list[Stretch]:
    parts, start = [], 0
    for join in _JOIN.finditer(stretch.text):
        parts.append(stretch.cut(start, join.start()))
        start = join.end()
    return [*parts, stretch.cut(start)]


def _test(notes: Notes, stretch: Stretch, shelf: Shelf) -> _Test | None:
    found = _CONDITION.fullmatch(stretch.text)
    if found is None:
        notes.tell(
            "G06",
            stretch,
            _("this condition on the shelf cannot be read"),
            _("write FIELD is VALUE, or 'is not', 'at least', 'at most'"),
        )
        return None
    field = "_".join(found["field"].lower().split())
    column = shelf.column(field)
    if column is None:
        notes.tell(
            "G07",
            stretch.cut(found.start("field"), found.end("field")),
            _("the shelf has no column '{field}'").format(field=field[:60]),
            did_you_mean(field, [known.field for known in shelf.columns]),
        )
        return None
    value_place = stretch.cut(found.start("value"), found.end("value"))
    if found["sign"] in ("at least", "at most") and column.sort in ("text", "ratio"):
        notes.tell("G06", stretch, _("'{field}' has no more and less").format(field=field), _("use 'is' or 'is not'"))
        return None
    value = _value(notes, value_place, column)
    return None if value is None else _Test(field, found["sign"], value)


def _value(notes: Notes, stretch: Stretch, column: Column) -> Any:
    match column.sort:
        case "amount":
            return amount_of(notes, stretch, column.kind, unit(column.unit))
        case "number":
            return amount_of(notes, stretch, NUMBER, PLAIN)
        case "ratio":
            ratio = read_ratio(notes, stretch)
            return None if ratio is None else _comparable(ratio)
        case "date":
            return read_date(notes, stretch)
    return " ".join(stretch.text.split()).casefold()
