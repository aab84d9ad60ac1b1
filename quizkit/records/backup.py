"""Copies of the file of records: made while people work, verified before they count, and put back only when proven."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from sqlite_utils import Migrations

from quizkit.records.connection import connect
from quizkit.records.errors import Damaged, RecordsError, said, said_of_disk
from quizkit.records.heads import export_key, key_path
from quizkit.records.migrations import STEPS
from quizkit.records.store import Records
from quizkit.records.verify import Verified, check
from quizkit.words import _


@dataclass(frozen=True, slots=True)
class Copied:
    """A copy that was made and verified. `key`: where the shop's key was put, or None where it was not copied.

    Without the key a restored shop keeps its evidence, and cannot sign heads or certificates as itself any more: say
    so loudly where `key` is None.
    """

    path: Path
    verified: Verified
    key: Path | None


def backup(records: Records, into: str | Path, *, key_into: str | Path | None = None) -> Copied:
    """Copy the file as it is now, while others go on writing, and verify the copy. Not inside a transaction.

    `key_into`: where to write the shop's key, apart from the copy. Neither file may be there already. Raises Damaged
    where the copy does not verify (nothing is left of it), Full, ReadOnly, KeyTrouble.
    """
    into = Path(into)
    verified = copy_out(records.path, into)
    if key_into is not None:
        export_key(records.path, Path(key_into))
    return Copied(into, verified, Path(key_into) if key_into is not None else None)


def restore(copy: str | Path, path: str | Path, head: str) -> Copied:
    """Make the shop file at `path` out of a copy, if the copy proves itself against `head`.

    `head` is a seal from a certificate, from `heads.txt` or from paper: everything before it is then as it was
    written. A file at `path` is never written over. Raises Damaged where the copy is broken or does not hold the head.
    """
    copy, path = Path(copy), Path(path)
    verified = copy_out(copy, path, head=head)
    return Copied(path, verified, key_path(path) if key_path(path).exists() else None)


def copy_out(source: Path, into: Path, steps: Migrations = STEPS, head: str | None = None) -> Verified:
    """Copy one file of records into a new one and verify that: the copy appears whole and sound, or not at all."""
    _free(into)
    part = into.with_name(into.name + ".part")
    try:
        with said_of_disk(part):
            _clear(part)
            os.close(os.open(part, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600))
        verified = _sound(_copied(source, part, steps, head), source)
        with said_of_disk(into):
            _settle(part, into)
        return verified
    finally:
        _clear(part)


def _copied(source: Path, part: Path, steps: Migrations, head: str | None) -> Verified:
    with _closing(connect(source, "ro")) as old, _closing(connect(part)) as new, said(part):
        old.backup(new)
        new.execute("PRAGMA journal_mode = DELETE")
        new.execute("BEGIN")
        return check(new, head, steps=steps)


def _settle(part: Path, into: Path) -> None:
    """Give the finished copy its name, on disk before this returns; fails where the name is taken meanwhile."""
    handle = os.open(part, os.O_RDWR)
    os.fsync(handle)
    os.close(handle)
    os.close(os.open(into, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600))
    os.replace(part, into)
    if os.name == "posix":
        folder = os.open(into.parent, os.O_RDONLY)
        os.fsync(folder)
        os.close(folder)


def _free(path: Path) -> None:
    """Refuse a place where a file is, or where the log of one would be played into the new file."""
    for taken in (path, *_logs(path)):
        if taken.exists() or taken.is_symlink():
            what = _("There is a file at {path} already").format(path=taken)
            raise RecordsError(what, _("a copy writes over nothing: name another place, or move that file away"))


def _clear(part: Path) -> None:
    for file in (part, *_logs(part)):
        file.unlink(missing_ok=True)


def _logs(path: Path) -> tuple[Path, ...]:
    return tuple(path.with_name(path.name + end) for end in ("-wal", "-shm", "-journal"))


def _sound(verified: Verified, path: Path) -> Verified:
    if verified.broken is not None:
        what = _("What {name} holds is not what was written: {why}").format(name=path.name, why=verified.broken.words())
        raise Damaged(what, _("no copy was left; take another file, or a head from before it was made"))
    return verified


@contextmanager
def _closing(conn: sqlite3.Connection) -> Iterator[sqlite3.Connection]:
    try:
        yield conn
    finally:
        conn.close()
