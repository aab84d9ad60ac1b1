"""Walking the chain over all tables of evidence, row by row in the order of their numbers."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import Any

from quizkit.records import seal as seals
from quizkit.records.schema import Shape, shapes
from quizkit.records.seal import Head
from quizkit.words import _

BATCH = 2000
"""Rows looked at together: each table is asked once for each batch."""


@dataclass(frozen=True, slots=True)
class Broken:
    """The first row that is not what was written: its table ("" where that is unknown), its number or key, and why."""

    table: str
    row: int | str
    why: str

    def words(self) -> str:
        """One sentence for a person."""
        if not self.table:
            return _("row {row}: {why}").format(row=self.row, why=self.why) if self.row else self.why
        return _("row {row} in '{table}': {why}").format(row=self.row, table=self.table, why=self.why)


@dataclass(frozen=True, slots=True)
class Link:
    """A row on the chain: its table, its number, its seal, and its values in the order of the sealed columns."""

    shape: Shape
    number: int
    seal: str
    values: tuple[Any, ...]

    def get(self, column: str) -> Any:
        """The value of a column, None where the table has no such column."""
        names = self.shape.sealed
        return self.values[names.index(column)] if column in names else None


def last_row(conn: sqlite3.Connection, tables: Iterable[Shape], up_to: int = (1 << 63) - 1) -> Head:
    """The last row of evidence (with a number up to `up_to`) as a head, asked of the tables themselves."""
    one = "SELECT * FROM (SELECT id, seal, recorded_at FROM {table} WHERE id <= ?1 ORDER BY id DESC LIMIT 1)"
    ends = " UNION ALL ".join(one.format(table=shape.name) for shape in tables if shape.evidence)
    if not ends:
        return Head()
    found = conn.execute(f"SELECT * FROM ({ends}) ORDER BY id DESC LIMIT 1", (up_to,)).fetchone()
    return Head(*found) if found else Head()


@dataclass(slots=True)
class Walk:
    """One walk along the chain from `start`: yields the rows that hold, and stops at the first that does not.

    Afterwards `end` is the last row that held, and `broken` says what stopped the walk, if anything did.
    """

    conn: sqlite3.Connection
    start: Head
    progress: Callable[[int, int], None] | None = None
    end: Head = field(default_factory=Head)
    broken: Broken | None = None

    def __iter__(self) -> Iterator[Link]:
        self.end = self.start
        tables = [shape for shape in shapes(self.conn).values() if shape.evidence]
        last = last_row(self.conn, tables).position
        self.broken = self._before_first(tables)
        for first in range(self.start.position + 1, last + 1, BATCH):
            if self.broken is None:
                yield from self._batch(tables, first, min(first + BATCH, last + 1))
            if self.progress is not None:
                self.progress(self.end.position, last)

    def _batch(self, tables: Sequence[Shape], first: int, past: int) -> Iterator[Link]:
        found: dict[int, list[Link]] = {}
        for shape in tables:
            for link in self._read(shape, first, past):
                found.setdefault(link.number, []).append(link)
        for number in range(first, past):
            links = found.get(number, [])
            if self.broken is None or number < int(self.broken.row):
                self.broken = self._wrong(number, links) or self.broken
                if self.broken is not None and self.broken.row == number:
                    return
                self.end = Head(number, links[0].seal, str(links[0].get("recorded_at")))
                yield links[0]

    def _read(self, shape: Shape, first: int, past: int) -> Iterator[Link]:
        columns = ", ".join(shape.sealed)
        text = f"SELECT id, seal, {columns} FROM {shape.name} WHERE id >= ? AND id < ?"
        try:
            for row in self.conn.execute(text, (first, past)):
                yield Link(shape, row[0], row[1], row[2:])
        except (sqlite3.DatabaseError, UnicodeError) as error:
            self.broken = Broken(shape.name, first, _("cannot be read ({why})").format(why=error))

    def _wrong(self, number: int, links: Sequence[Link]) -> Broken | None:
        if not links:
            return Broken("", number, _("it is missing"))
        if len(links) > 1:
            return Broken(links[1].shape.name, number, _("its number is taken twice"))
        link = links[0]
        try:
            sealed = seals.seal(self.end.seal, link.shape.name, link.shape.sealed, link.values)
        except ValueError:  # a damaged value, of a type that no row has
            sealed = ""
        return None if sealed == link.seal else Broken(link.shape.name, number, _("it is not what was sealed"))

    def _before_first(self, tables: Sequence[Shape]) -> Broken | None:
        for shape in tables:
            found = self.conn.execute(f"SELECT min(id) FROM {shape.name}").fetchone()[0]
            if found is not None and found < 1:
                return Broken(shape.name, found, _("no row has such a number"))
        return None
