"""The two-part materials of the shop: columns with their kinds, rows with their exact values."""

from __future__ import annotations

import datetime
from dataclasses import dataclass

from quizkit.formula import Row
from quizkit.pack.nodes import Node
from quizkit.units import DATE, NUMBER, RATIO_BY_VOLUME, TEXT, Kind, unit


@dataclass(frozen=True, slots=True)
class Column:
    """A column: its field in formulas ("density_a"), its title, its sort and, for an amount, its unit's symbol.

    Sorts: "amount", "number", "text", "ratio", "date".
    """

    field: str
    title: str
    sort: str
    unit: str = ""

    @property
    def kind(self) -> Kind:
        """The kind of its values; a ratio's basis is a row's own matter."""
        if self.sort == "amount":
            return unit(self.unit).kind
        return {"number": NUMBER, "text": TEXT, "ratio": RATIO_BY_VOLUME, "date": DATE}[self.sort]


@dataclass(frozen=True, slots=True)
class Shelf:
    """The shelf in its author's order, with what its page says beside the table."""

    columns: tuple[Column, ...] = ()
    rows: tuple[Row, ...] = ()
    body: tuple[Node, ...] = ()

    def column(self, field: str) -> Column | None:
        """The column of a field, or None."""
        return next((column for column in self.columns if column.field == field), None)

    def kinds(self) -> dict[str, Kind]:
        """The kind of each field."""
        return {column.field: column.kind for column in self.columns}

    def row(self, name: str) -> Row | None:
        """The row of that name, or None."""
        return next((row for row in self.rows if row.name == name), None)


def stocked(row: Row, today: datetime.date) -> bool:
    """Whether the shop stocks a material that day: from `from` until `until`, both in."""
    since, until = row.field("from"), row.field("until")
    return (not isinstance(since, datetime.date) or since <= today) and (
        not isinstance(until, datetime.date) or today <= until
    )
