"""What the tables of a file are, and what they must be.

A file is held to the text of every table, index and trigger that its own applied steps make. What they make is found by
making it, once a process, in memory.
"""

from __future__ import annotations

import sqlite3
from dataclasses import dataclass
from functools import lru_cache

from sqlite_utils import Database, Migrations

from quizkit.records.migrations import STEPS

APPLICATION = 0x5175697A
"""The application id in the header of our files (the letters Quiz)."""

PRIVATE = {"name": "private_text", "note": "private_text", "basis": "private_text", "helper": "private_text"} | {
    "photo": "photo"
}
"""The columns of evidence that hold a salted hash, and the table with what was hashed."""


KINDS: dict[str, type] = {"INTEGER": int, "TEXT": str, "BLOB": bytes}
"""The Python type of a column's values."""


@dataclass(frozen=True, slots=True)
class Shape:
    """A table: its columns with their types in the order of their names, its key, and whether it is evidence.

    `ordered` are the names of the columns in that order, `names` the same as a set; `select` is the beginning of a
    statement that reads them. `sealed` are the columns that a seal covers, in the order of their names, `takes` the
    same with the Python type of each; `private` the places among them that hold a salted hash, each with the table that
    holds what was hashed. `insert` is the statement that adds a row of evidence: the sealed columns and the seal.
    """

    name: str
    columns: tuple[tuple[str, str], ...]
    key: tuple[str, ...]
    evidence: bool
    ordered: tuple[str, ...]
    names: frozenset[str]
    select: str
    sealed: tuple[str, ...]
    takes: tuple[tuple[str, type], ...]
    private: tuple[tuple[int, str], ...]
    insert: str


def objects(conn: sqlite3.Connection) -> dict[str, str]:
    """The text of every table, index, trigger and view of a file, by name.

    SQLite's own are left out, and the list of applied steps, whose text is sqlite-utils' to change. A damaged file may
    hold bytes for a name: then it stands under a name that no object has.
    """
    text = "SELECT name, sql FROM sqlite_master WHERE sql IS NOT NULL AND (type = 'trigger' OR tbl_name <> ?)"
    found = conn.execute(text, (STEPS.migrations_table,))
    return {name: sql for name, sql in ((str(name), sql) for name, sql in found) if not name.startswith("sqlite_")}


def applied(conn: sqlite3.Connection, steps: Migrations = STEPS) -> tuple[str, ...]:
    """The names of the steps that a file says have been applied; () for an empty file."""
    if not conn.execute("SELECT 1 FROM sqlite_master WHERE name = ?", (steps.migrations_table,)).fetchone():
        return ()
    text = f"SELECT name FROM {steps.migrations_table} WHERE migration_set = ? ORDER BY id"
    return tuple(str(name) for (name,) in conn.execute(text, (steps.name,)))


@lru_cache(maxsize=16)
def known(steps: Migrations = STEPS) -> tuple[str, ...]:
    """The names of all steps that this program knows, in order."""
    return tuple(step.name for step in steps.pending(_blank()))


@lru_cache(maxsize=16)
def expected(count: int, steps: Migrations = STEPS) -> dict[str, str]:
    """What the first `count` steps make: the text of every object by its name."""
    return objects(_made(count, steps).conn)


def differences(conn: sqlite3.Connection, steps: Migrations = STEPS) -> tuple[str, ...]:
    """The names of objects that are missing, changed or too many in a file, in order; () where all stands."""
    names = applied(conn, steps)
    if names != known(steps)[: len(names)]:
        return (steps.migrations_table,)
    wanted, there = expected(len(names), steps), objects(conn)
    return tuple(sorted(name for name in wanted.keys() | there.keys() if wanted.get(name) != there.get(name)))


def shapes(conn: sqlite3.Connection) -> dict[str, Shape]:
    """The tables of a file by name, as they stand."""
    names = [str(name) for (name,) in conn.execute("SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name")]
    return {name: _shape(conn, name) for name in names if not name.startswith(("sqlite_", "_"))}


@lru_cache(maxsize=16)
def expected_shapes(steps: Migrations = STEPS, count: int | None = None) -> dict[str, Shape]:
    """The tables that the first `count` steps make, or all of them."""
    return shapes(_made(len(known(steps)) if count is None else count, steps).conn)


def _shape(conn: sqlite3.Connection, table: str) -> Shape:
    info = conn.execute("SELECT name, type, pk FROM pragma_table_info(?)", (table,)).fetchall()
    key = tuple(name for name, _type, _place in sorted((row for row in info if row[2]), key=lambda row: row[2]))
    columns = tuple(sorted((name, kind) for name, kind, _place in info))
    sealed = tuple(name for name, _type in columns if name != "seal")
    private = tuple((place, PRIVATE[name]) for place, name in enumerate(sealed) if name in PRIVATE)
    evidence = {"id", "seal"} <= {name for name, _type in columns}
    return Shape(
        name=table,
        columns=columns,
        key=key,
        evidence=evidence,
        ordered=tuple(name for name, _type in columns),
        names=frozenset(name for name, _type in columns),
        select=f"SELECT {', '.join(name for name, _type in columns)} FROM {table}",
        sealed=sealed,
        takes=tuple((name, KINDS[kind]) for name, kind in columns if name != "seal") if evidence else (),
        private=private if evidence else (),
        insert=f"INSERT INTO {table} ({', '.join(sealed)}, seal) VALUES ({', '.join('?' * len(columns))})",
    )


def _made(count: int, steps: Migrations) -> Database:
    names, db = known(steps), _blank()
    steps.apply(db, stop_before=names[count] if count < len(names) else None)
    return db


def _blank() -> Database:
    conn = sqlite3.connect(":memory:", isolation_level=None)
    return Database(conn, recursive_triggers=False, execute_plugins=False)
