"""One open file of records: deeds are written in one transaction each, evidence is added and sealed, rows are read."""

from __future__ import annotations

import datetime as dt
import json
import os
import sqlite3
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path
from types import TracebackType
from typing import Any

from quizkit.records import seal as seals
from quizkit.records.chain import last_row
from quizkit.records.errors import RowRefused, from_sqlite, said
from quizkit.records.schema import Shape
from quizkit.records.seal import Head
from quizkit.records.transaction import Transaction, read_tip
from quizkit.records.values import Stored, Value, known_columns, sealed_values, sought, stored
from quizkit.words import _

Row = dict[str, Any]
"""A row: plain values (whole numbers, texts, bytes, None) by column."""

FREE = ("session", "draft", "sign_in_try", "reading")
"""The tables that may be kept and dropped by anybody above; people, notes and photos have functions of their own."""


RESERVED = frozenset(("id", "recorded_at", "seal"))


class Records:
    """An open file of records, for one thread. Made by `open_records`; a context manager that closes itself."""

    def __init__(self, path: Path, conn: sqlite3.Connection, shapes: dict[str, Shape]) -> None:
        self.path = path
        self.conn = conn
        self._shapes = shapes
        self._deed = Transaction(path, conn)
        self._opened = self._file()

    def __enter__(self) -> Records:
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        self.close()

    def close(self) -> None:
        """Close the file; an open transaction is undone."""
        self.conn.close()

    def stands(self) -> bool:
        """Whether the path still leads to the file that was opened, with the tables and triggers that it had then.

        For whoever keeps a file open: where it does not stand any more, open it anew, which holds it to all of them.
        """
        try:
            return self._file() == self._opened
        except (OSError, sqlite3.Error):
            return False

    @property
    def identity(self) -> tuple[int, int, int]:
        """Which file was opened (device and number), and SQLite's count of the changes to its tables and triggers."""
        return self._opened

    def version(self) -> tuple[int, int, int]:
        """Another one whenever anybody, this connection included, has changed the file: for what is kept of a read.

        What this connection undid counts too, since SQLite's own count of its changes does not go back.
        """
        others = self.conn.execute("PRAGMA data_version").fetchone()[0]
        return int(others), self.conn.total_changes, self._deed.undone

    def holds(self, head: Head) -> bool:
        """Whether the chain still has the row that a head names, with its seal."""
        found = last_row(self.conn, self._shapes.values(), head.position)
        return (found.position, found.seal) == (head.position, head.seal)

    def _file(self) -> tuple[int, int, int]:
        there = os.stat(self.path)
        return there.st_dev, there.st_ino, int(self.conn.execute("PRAGMA schema_version").fetchone()[0])

    def transaction(self, now: dt.datetime) -> Transaction:
        """One deed: all of it is on disk when the block ends, or nothing of it after an error.

        `now` is aware. Gives the moment with which the rows are recorded: `now`, or a few seconds later where others
        wrote first. Raises ClockSetBack before anything is written where the clock stands before the last row.
        """
        return self._deed.at(now)

    @contextmanager
    def reading(self) -> Iterator[None]:
        """A block whose reads all see the file as it is now, whatever others write meanwhile. May not be nested."""
        with said(self.path):
            self.conn.execute("BEGIN")
        try:
            yield
        finally:
            self.conn.execute("ROLLBACK")

    def add(self, table: str, /, *, seen_on: dt.date, done_by: int | None = None, **values: Value) -> int:
        """Add a row of evidence and seal it; its number is its place in the chain. Only inside `transaction`.

        `seen_on` is the day it happened at the site, `done_by` the number of the person who did it. Truths, dates and
        moments may be given as such. Raises RowRefused on values that the table does not take.
        """
        shape, deed = self._shapes.get(table), self._deed
        if shape is None or not shape.evidence:
            raise _no_table(table)
        if deed.moment is None:
            raise _outside()
        if not values.keys().isdisjoint(RESERVED):
            raise RowRefused(_("The number, the moment and the seal of a row are not to choose"))
        position = deed.position + 1
        values["id"], values["recorded_at"] = position, deed.recorded_at
        values["seen_on"], values["done_by"] = seen_on.isoformat(), done_by
        row = sealed_values(shape, values)
        if shape.private:
            self._own_notes(shape, row)
        try:
            sealed = seals.seal(deed.seal, table, shape.sealed, row)
            deed.cursor.execute(shape.insert, (*row, sealed))
        except sqlite3.ProgrammingError:
            raise
        except sqlite3.DatabaseError as error:
            raise from_sqlite(error, self.path) from error
        except (UnicodeEncodeError, OverflowError) as error:
            what = _("A value for '{table}' is too large, or is text that cannot be written").format(table=table)
            raise RowRefused(what) from error
        deed.position, deed.seal = position, sealed
        return position

    def rows(
        self, table: str, /, *, after: int = 0, newest: bool = False, limit: int = -1, **equals: Value | Sequence[Value]
    ) -> list[Row]:
        """The rows whose columns equal what is given, in the order in which they were added.

        A value may be None, or a list or tuple of which one must fit. `after`: only rows of evidence with a greater
        number. `newest` turns the order around; `limit` stops after so many.
        """
        return self._select(table, equals, after=after, newest=newest, limit=limit)

    def row(self, table: str, /, **equals: Value) -> Row | None:
        """The newest row whose columns equal what is given, or None."""
        found = self._select(table, equals, newest=True, limit=1)
        return found[0] if found else None

    def values(
        self,
        table: str,
        column: str,
        /,
        *,
        after: int = 0,
        newest: bool = False,
        limit: int = -1,
        **equals: Value | Sequence[Value],
    ) -> list[Any]:
        """One column of the rows whose columns equal what is given; the rest is as with `rows`."""
        shape = self._shape(table)
        known_columns(shape, {column: None})
        where, parameters = self._where(shape, equals, after)
        order = _order(shape, newest)
        text = f"SELECT {column} FROM {table} WHERE {where} ORDER BY {order} LIMIT {int(limit)}"
        with said(self.path):
            return [value for (value,) in self.conn.execute(text, parameters)]

    def latest(
        self, table: str, column: str, of: str, among: Sequence[Value], /, **equals: Value | Sequence[Value]
    ) -> dict[Any, Any]:
        """Of the rows of evidence whose columns equal what is given, the newest for each value of `of` among some.

        Gives one column of each by that value. With an index over these columns each value takes one step, however
        many rows there are.
        """
        shape = self._shape(table, evidence=True)
        known_columns(shape, {of: None, column: None})
        where, parameters = self._where(shape, equals)
        newest = f"SELECT max(id) FROM {table} WHERE {where} AND {of} IS asked.value"
        text = f"SELECT {of}, {column} FROM {table} WHERE id IN (SELECT ({newest}) FROM json_each(?) AS asked)"
        asked = json.dumps([sought(of, one) for one in among])
        with said(self.path):
            return dict(self.conn.execute(text, (*parameters, asked)).fetchall())

    def oldest(self, table: str, *of: str, **equals: Value | Sequence[Value]) -> list[Row]:
        """Of the rows whose columns equal what is given, the oldest for each value of the columns `of` together."""
        shape = self._shape(table, evidence=True)
        known_columns(shape, dict.fromkeys(of))
        where, parameters = self._where(shape, equals)
        ids = f"SELECT min(id) FROM {table} WHERE {where} GROUP BY {', '.join(of)}"
        text = f"{shape.select} WHERE id IN ({ids}) ORDER BY id"
        with said(self.path):
            return [dict(zip(shape.ordered, row, strict=True)) for row in self.conn.execute(text, parameters)]

    def without(self, table: str, other: str, by: str, /, **equals: Value | Sequence[Value]) -> list[Row]:
        """The rows of evidence whose columns equal what is given, and to which no row of `other` points by `by`."""
        shape = self._shape(table, evidence=True)
        known_columns(self._shape(other, evidence=True), {by: None})
        where, parameters = self._where(shape, equals)
        lacks = f"NOT EXISTS (SELECT 1 FROM {other} WHERE {other}.{by} = {table}.id)"
        text = f"{shape.select} WHERE {where} AND {lacks} ORDER BY id"
        with said(self.path):
            return [dict(zip(shape.ordered, row, strict=True)) for row in self.conn.execute(text, parameters)]

    def count(self, table: str, /, **equals: Value | Sequence[Value]) -> int:
        """How many rows have columns that equal what is given."""
        where, parameters = self._where(self._shape(table), equals)
        with said(self.path):
            return int(self.conn.execute(f"SELECT count(*) FROM {table} WHERE {where}", parameters).fetchone()[0])

    def keep(self, table: str, /, **values: Value) -> int:
        """Write a row that is no evidence (`FREE`), or change the one with the same key. Only inside `transaction`.

        Gives the row's number in the file. Of a row that is there only the given columns change.
        """
        if table not in FREE:
            raise RowRefused(_("The table '{table}' is not kept this way").format(table=table))
        return self.put(table, **values)

    def drop(self, table: str, /, **equals: Value | Sequence[Value]) -> int:
        """Delete the rows (`FREE` tables only) whose columns equal what is given; how many. Inside `transaction`."""
        if table not in FREE or not equals:
            raise RowRefused(_("The table '{table}' is not emptied this way").format(table=table))
        where, parameters = self._where(self._shape(table), equals)
        return self.execute(f"DELETE FROM {table} WHERE {where}", parameters).rowcount

    def head(self) -> Head:
        """The head of the chain as it stands (in a transaction, before this deed)."""
        with said(self.path):
            return Head(*read_tip(self.conn, self.path))

    @property
    def moment(self) -> dt.datetime:
        """The moment of the open transaction; outside one nothing may be written, and this raises RuntimeError."""
        if self._deed.moment is None:
            raise _outside()
        return self._deed.moment

    def put(self, table: str, /, **values: Value) -> int:
        """Write or change a row by its key: for the modules of this room."""
        shape = self._shape(table, evidence=False)
        row = stored(shape, values)
        rest = [column for column in row if column not in shape.key]
        if rest and all(column in row for column in shape.key):
            fits = " AND ".join(f"{column} = ?" for column in shape.key)
            given = [row[column] for column in (*rest, *shape.key)]
            sets = ", ".join(f"{column} = ?" for column in rest)
            if self.execute(f"UPDATE {table} SET {sets} WHERE {fits}", given).rowcount:
                return 0
        text = f"INSERT INTO {table} ({', '.join(row)}) VALUES ({', '.join('?' * len(row))})"
        return int(self.execute(text, list(row.values())).lastrowid or 0)

    def execute(self, text: str, parameters: Sequence[Stored] = ()) -> sqlite3.Cursor:
        """Write to what is no evidence, inside the open transaction: for the modules of this room."""
        _inside = self.moment
        with said(self.path):
            return self.conn.execute(text, parameters)

    def _select(
        self,
        table: str,
        equals: Mapping[str, Value | Sequence[Value]],
        *,
        after: int = 0,
        newest: bool = False,
        limit: int = -1,
    ) -> list[Row]:
        shape = self._shape(table)
        where, parameters = self._where(shape, equals, after)
        text = f"{shape.select} WHERE {where} ORDER BY {_order(shape, newest)} LIMIT {int(limit)}"
        with said(self.path):
            found = self.conn.execute(text, parameters).fetchall()
        return [dict(zip(shape.ordered, row, strict=True)) for row in found]

    def _shape(self, table: str, evidence: bool | None = None) -> Shape:
        shape = self._shapes.get(table)
        if shape is None or (evidence is not None and shape.evidence is not evidence):
            raise _no_table(table)
        return shape

    def _own_notes(self, shape: Shape, row: Sequence[Stored]) -> None:
        """A text or photo that a row points to goes with the person of the row, or else it would be missed later."""
        person = row[shape.sealed.index("person")]
        for place, table in shape.private:
            if row[place] is not None:
                with said(self.path):
                    found = self.conn.execute(f"SELECT person FROM {table} WHERE key = ?", (row[place],)).fetchone()
                if found is None or found[0] != person:
                    what = _("The text or photo for '{column}' is not kept, or for somebody else")
                    raise RowRefused(what.format(column=shape.sealed[place]))

    def _where(
        self, shape: Shape, equals: Mapping[str, Value | Sequence[Value]], after: int = 0
    ) -> tuple[str, list[Stored]]:
        parts, parameters = ["1"], list[Stored]()
        if after:
            parts, parameters = ["id > ?"], [after]
        if not shape.names.issuperset(equals):
            known_columns(shape, equals)
        for column, value in equals.items():
            if isinstance(value, list | tuple):
                parts.append(f"{column} IN (SELECT value FROM json_each(?))")
                parameters.append(json.dumps([sought(column, one) for one in value]))
            else:
                parts.append(f"{column} IS ?")
                parameters.append(sought(column, value))
        return " AND ".join(parts), parameters


def _no_table(table: str) -> RowRefused:
    return RowRefused(_("There is no such table of records: '{table}'").format(table=table))


def _outside() -> RuntimeError:
    return RuntimeError("records are written inside a transaction")


def _order(shape: Shape, newest: bool) -> str:
    return ", ".join(f"{column} DESC" if newest else column for column in shape.key)
