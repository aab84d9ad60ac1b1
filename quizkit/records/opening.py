"""Opening a file of records: every connection with the same settings, held to its tables and triggers every time."""

from __future__ import annotations

import os
import sqlite3
from pathlib import Path

from sqlite_utils import Database, Migrations

from quizkit.records.backup import copy_out
from quizkit.records.chain import last_row
from quizkit.records.connection import connect
from quizkit.records.errors import Damaged, NoSuchFile, NotRecords, TooNew, said
from quizkit.records.heads import key_path, make_key
from quizkit.records.migrations import STEPS
from quizkit.records.schema import APPLICATION, applied, differences, expected_shapes, known
from quizkit.records.store import Records
from quizkit.records.verify import check
from quizkit.words import _


def open_records(
    path: str | Path, *, create: bool = False, steps: Migrations = STEPS, handed_on: bool = False
) -> Records:
    """Open the file of records at `path`; with `create`, make it (and the shop's key beside it) where there is none.

    A file of an earlier version is copied beside itself, brought up to date and verified first. Raises NoSuchFile,
    NotRecords, TooNew, Damaged (a table, a trigger or the last row is not what it must be), ReadOnly, Full, Busy.
    `steps` are the numbered steps that this program knows; `handed_on` as in `connect`.
    """
    path = Path(path)
    if _empty(path):
        if not create:
            what = _("There are no records at {path}").format(path=path)
            raise NoSuchFile(what, _("name the shop's file"))
        _prepare(path)
    conn = connect(path, handed_on=handed_on)
    try:
        with said(path):
            _bring_up(path, conn, steps)
            hold(path, conn, steps)
        return Records(path, conn, expected_shapes(steps))
    except BaseException:
        conn.close()
        raise


def hold(path: Path, conn: sqlite3.Connection, steps: Migrations = STEPS) -> None:
    """Refuse a file whose tables, triggers or last row are not what they must be (raises Damaged)."""
    conn.execute("BEGIN")  # one look: others may write between two
    try:
        if wrong := differences(conn, steps):
            what = _("The file {name} is not as this program made it ({objects})")
            what = what.format(name=path.name, objects=", ".join(wrong[:3]))
            mend = _("somebody changed its tables or triggers: keep it as it is, and restore the last copy")
            raise Damaged(what, mend)
        tip = conn.execute("SELECT position, seal, recorded_at FROM tip").fetchone()
        last = last_row(conn, expected_shapes(steps, len(applied(conn, steps))).values())
        if tip != (last.position, last.seal, last.recorded_at):
            what = _("The last rows of {name} are not those that were written").format(name=path.name)
            raise Damaged(what, _("keep it as it is, and restore the last copy"))
    finally:
        conn.execute("ROLLBACK")


def _empty(path: Path) -> bool:
    try:
        return path.stat().st_size == 0
    except FileNotFoundError:
        return True
    except OSError as error:
        what = _("The file {path} cannot be reached").format(path=path)
        raise NoSuchFile(what, _("see that its folder is there and may be read and written")) from error


def _prepare(path: Path) -> None:
    """An empty file that only its owner may read, and the key beside it."""
    try:
        os.close(os.open(path, os.O_CREAT | os.O_WRONLY, 0o600))
    except OSError as error:
        what = _("No file can be made at {path}").format(path=path)
        raise NoSuchFile(what, _("see that its folder is there and may be written")) from error
    if not key_path(path).exists():
        make_key(key_path(path))


def _bring_up(path: Path, conn: sqlite3.Connection, steps: Migrations) -> None:
    """Apply the steps that a file lacks, all in one transaction, after a copy and before a proof."""
    names, all_names = applied(conn, steps), known(steps)
    if names == all_names:
        return
    blank = not conn.execute("SELECT count(*) FROM sqlite_master").fetchone()[0]
    if not blank and conn.execute("PRAGMA application_id").fetchone()[0] != APPLICATION:
        what = _("{name} is not a file of records").format(name=path.name)
        raise NotRecords(what, _("name the shop's file, or restore it from a copy"))
    if not set(names) <= set(all_names):
        what = _("A later version of this program has written {name}").format(name=path.name)
        raise TooNew(what, _("install that version, or restore a copy from before"))
    if not blank:
        _copy_first(path, conn, steps, all_names[len(names)])
    conn.execute("PRAGMA journal_mode = WAL")
    _apply(path, conn, steps)


def _copy_first(path: Path, conn: sqlite3.Connection, steps: Migrations, step: str) -> None:
    hold(path, conn, steps)
    copy = path.with_name(f"{path.stem}-before-{step}.copy")
    if not copy.exists():
        copy_out(path, copy, steps)


def _apply(path: Path, conn: sqlite3.Connection, steps: Migrations) -> None:
    conn.execute("BEGIN IMMEDIATE")
    try:
        steps.apply(Database(conn, recursive_triggers=False, execute_plugins=False))
        conn.execute(f"PRAGMA application_id = {APPLICATION}")
        if broken := check(conn, steps=steps).broken:
            raise Damaged(broken.words(), _("nothing was changed; restore the last copy and open that"))
        conn.execute("COMMIT")
    except BaseException:
        if conn.in_transaction:
            conn.execute("ROLLBACK")
        raise
