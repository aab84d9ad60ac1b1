"""One deed on a file of records: all of it is on disk when it ends, or nothing of it after an error."""

from __future__ import annotations

import datetime as dt
import sqlite3
import threading
from pathlib import Path
from types import TracebackType
from typing import cast

from quizkit.records.clock import admit
from quizkit.records.connection import PATIENCE
from quizkit.records.errors import Damaged, busy, from_sqlite
from quizkit.words import _

_LINES: dict[Path, threading.Lock] = {}
"""For each file the line in which the threads of this process wait to write. SQLite alone lets them sleep and try
again, ever longer; in a line the next goes on at once."""


class Transaction:
    """The transactions of one connection, one after the other: a context manager that is entered for each deed.

    Inside, `moment` is when the deed's rows are recorded and `recorded_at` its text; `position` and `seal` are the end
    of the chain with the rows that were added so far, and what is written goes through `cursor`. Outside, `moment` is
    None. `undone` counts the deeds of which nothing stayed. Most deeds add one row, so each step counts: hence a class
    in place of a generator, one cursor for all, and a tip that is read again only where SQLite's count of what other
    connections have written says so.
    """

    __slots__ = (
        "_conn",
        "_line",
        "_now",
        "_path",
        "_tip",
        "_version",
        "cursor",
        "moment",
        "position",
        "recorded_at",
        "seal",
        "undone",
    )

    def __init__(self, path: Path, conn: sqlite3.Connection) -> None:
        self._path = path
        self._conn = conn
        self.cursor = conn.cursor()
        self._line = _LINES.setdefault(path.absolute(), threading.Lock())
        self._now = dt.datetime.min
        self._tip = (0, "", "")
        self._version: object = None
        self.moment: dt.datetime | None = None
        self.recorded_at = ""
        self.position = 0
        self.seal = ""
        self.undone = 0

    def at(self, now: dt.datetime) -> Transaction:
        """The next deed, at a moment. Raises RuntimeError while one is open."""
        if self.moment is not None:
            raise RuntimeError("a deed is one transaction, and one is open")
        self._now = now
        return self

    def __enter__(self) -> dt.datetime:
        if not self._line.acquire(True, PATIENCE):
            raise busy(self._path)
        try:
            self.cursor.execute("BEGIN IMMEDIATE")
            version = self.cursor.execute("PRAGMA data_version").fetchone()
            if version != self._version:
                self._tip, self._version = read_tip(self.cursor, self._path), version
            self.position, self.seal, last = self._tip
            self.moment, self.recorded_at = admit(self._now, last)
        except BaseException as error:
            self._undo(error)
            raise
        return self.moment

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        if error is not None:
            self._undo(error)
            return
        tip = self._tip
        try:
            if self.position != tip[0]:
                tip = (self.position, self.seal, self.recorded_at)
                self.cursor.execute("UPDATE tip SET position = ?, seal = ?, recorded_at = ? WHERE one = 1", tip)
            self.cursor.execute("COMMIT")
        except BaseException as fault:
            self._undo(fault)
            raise
        self._tip = tip
        self._end()

    def _undo(self, error: BaseException) -> None:
        """Nothing of the deed stays. Raises an error of SQLite in our own words; any other goes on as it is."""
        self._version = None
        self.undone += 1
        try:
            if self._conn.in_transaction:
                self._conn.execute("ROLLBACK")
        finally:
            self._end()
        if isinstance(error, sqlite3.DatabaseError) and not isinstance(error, sqlite3.ProgrammingError):
            raise from_sqlite(error, self._path) from error

    def _end(self) -> None:
        """Let the next in line go on."""
        self.moment = None
        self._line.release()


def read_tip(conn: sqlite3.Connection | sqlite3.Cursor, path: Path) -> tuple[int, str, str]:
    """The end of the chain as the file tells it: number, seal and moment of the last row. Raises Damaged."""
    found = conn.execute("SELECT position, seal, recorded_at FROM tip").fetchone()
    if found is None:
        what = _("The file {name} has lost the end of its chain").format(name=path.name)
        raise Damaged(what, _("keep it as it is, and restore the last copy"))
    return cast(tuple[int, str, str], found)
