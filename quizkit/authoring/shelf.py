"""`shelf.md`: one table, a material a row."""

from __future__ import annotations

import re
from collections import Counter
from typing import Any

from quizkit.arith import ArithError
from quizkit.authoring.amounts import amount_of, looks_like_date, read_date, read_ratio
from quizkit.authoring.diagnostics import Diagnostic, Spot
from quizkit.authoring.markdown import chunks
from quizkit.authoring.notes import Notes
from quizkit.authoring.source import Source, Stretch
from quizkit.authoring.tables import Table
from quizkit.authoring.usual import odd_cells
from quizkit.formula import RatioValue, Row
from quizkit.formula.names import NAME
from quizkit.pack.nodes import Node
from quizkit.pack.shelf import Column, Shelf
from quizkit.trade import SUMS
from quizkit.units import NUMBER, PLAIN, UnitError, number, unit
from quizkit.words import _

WEIGHT_RATIO = Column("weight_ratio", "weight ratio", "number")
"""The field that is worked out: grams of base to one gram of hardener."""

_HEAD = re.compile(r"(?P<title>.+?)\s*(?:\((?P<unit>.+)\))?")
_BLANK = ("", "-", "–", "—")
_FIXED = {"name": "text", "family": "text", "ratio": "ratio", "from": "date", "until": "date"}


def read_shelf(source: Source) -> tuple[Shelf, tuple[Diagnostic, ...]]:
    """Read the shelf; rows and columns that cannot be read are told and left out."""
    notes = Notes(source)
    body: list[Node] = []
    tables: list[Table] = []
    for chunk in chunks(Stretch("\n".join(source.lines))):
        if chunk.kind == "table":
            tables.append(chunk.table())
        else:
            body += chunk.nodes()
    if len(tables) != 1:
        what = _("the shelf is one table, but there are {n}").format(n=len(tables))
        place = tables[1].head[0].spot() if tables else Spot()
        notes.tell("H01", place, what, _("put a row a material into one table"))
        return Shelf(body=tuple(body)), tuple(notes.problems)
    if not tables[0].rows:
        notes.tell("H01", tables[0].head[0], _("the shelf is empty"), _("add a row a material, or delete the file"))
    columns, rows = _Reader(notes, tables[0]).read()
    return Shelf(columns, rows, tuple(body)), tuple(notes.problems)


class _Reader:
    def __init__(self, notes: Notes, table: Table) -> None:
        self.notes = notes
        self.table = table

    def read(self) -> tuple[tuple[Column, ...], tuple[Row, ...]]:
        columns = [self.column(place, head) for place, head in enumerate(self.table.head)]
        self.check_heads(columns)
        rows = [row for cells in self.table.rows if (row := self.row(columns, cells)) is not None]
        self.check_names(rows)
        known = [column for column in columns if column is not None]
        derived = [WEIGHT_RATIO] if any(row.field("weight_ratio") is not None for row in rows) else []
        return (*known, *derived), tuple(rows)

    def column(self, place: int, head: Stretch) -> Column | None:
        found = _HEAD.fullmatch(head.text)
        title = found["title"] if found else ""
        field = "_".join(re.split(r"[\s-]+", title.lower().strip()))
        if found is None or not re.fullmatch(NAME, field) or field == WEIGHT_RATIO.field:
            self.notes.tell(
                "H02",
                head,
                _("'{title}' cannot be the name of a column").format(title=title[:60]),
                _("use small letters, digits and blanks; 'weight ratio' is worked out"),
            )
            return None
        if found["unit"] is None:
            return Column(field, title, _FIXED.get(field) or self.sort(place))
        if field in _FIXED:
            self.notes.tell("H02", head, _("'{field}' takes no unit").format(field=field), _("delete the brackets"))
            return Column(field, title, _FIXED[field])
        try:
            return Column(field, title, "amount", unit(found["unit"]).symbol)
        except UnitError as error:
            self.notes.tell("A06", head.cut(found.start("unit"), found.end("unit")), error.what, error.mend)
            return None

    def sort(self, place: int) -> str:
        """What a column without a unit holds, by its first filled cell."""
        cells = [row[place].text for row in self.table.rows if len(row) > place]
        first = next((text for text in cells if text not in _BLANK), "")
        if looks_like_date(first):
            return "date"
        try:
            return "number" if not number(first)[2] else "text"
        except UnitError:
            return "text"

    def check_heads(self, columns: list[Column | None]) -> None:
        counts = Counter(column.field for column in columns if column)
        for column, head in zip(columns, self.table.head, strict=True):
            if column and counts[column.field] > 1:
                self.notes.tell("H02", head, _("two columns have this name"), _("give each its own"))
        if "name" not in counts:
            self.notes.tell("H02", self.table.head[0], _("the shelf needs a column 'name'"), _("add it"))

    def row(self, columns: list[Column | None], cells: tuple[Stretch, ...]) -> Row | None:
        fields: list[tuple[str, Any]] = []
        name = ""
        failed = False
        for column, cell in zip(columns, cells, strict=False):
            if column is None or (cell.text in _BLANK and column.field != "name"):
                continue
            value = self.cell(column, cell)
            failed = failed or value is None
            if column.field == "name":
                name = cell.text
            fields.append((column.field, value))
        if not name and cells:
            self.notes.tell("H03", cells[0], _("this material has no name"), _("give it one of its own"))
        if failed or not name:
            return None
        self.check_cells(columns, cells, dict(fields))
        return Row(name, tuple(fields + _weight_ratio(dict(fields))))

    def check_cells(self, columns: list[Column | None], cells: tuple[Stretch, ...], fields: dict[str, Any]) -> None:
        known = {column.field: column for column in columns if column}
        at = {column.field: cell for column, cell in zip(columns, cells, strict=False) if column}
        for field, what, mend in odd_cells(known, fields):
            self.notes.tell("H04", at[field], what, mend)

    def cell(self, column: Column, cell: Stretch) -> Any:
        match column.sort:
            case "amount":
                return amount_of(self.notes, cell, column.kind, unit(column.unit))
            case "number":
                return amount_of(self.notes, cell, NUMBER, PLAIN)
            case "ratio":
                return read_ratio(self.notes, cell)
            case "date":
                return read_date(self.notes, cell)
        return cell.text

    def check_names(self, rows: list[Row]) -> None:
        counts = Counter(row.name.casefold() for row in rows)
        for cells in self.table.rows:
            for cell in cells[:1]:
                if counts[cell.text.casefold()] > 1:
                    self.notes.tell("H03", cell, _("two materials have this name"), _("give each its own"))


def _weight_ratio(fields: dict[str, Any]) -> list[tuple[str, Any]]:
    """The ratio by weight of a row that says enough for it."""
    ratio = fields.get("ratio")
    if not isinstance(ratio, RatioValue):
        return []
    if ratio.basis == "weight":
        return [("weight_ratio", ratio.a / ratio.b)]
    densities = fields.get("density_a"), fields.get("density_b")
    if None in densities:
        return []
    try:
        return [("weight_ratio", SUMS["weight_ratio"].function(ratio, *densities))]
    except ArithError:
        return []
