"""What can go wrong with the file of records, each with words for a person: what happened and how to mend it."""

from __future__ import annotations

import errno
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from types import TracebackType

from quizkit.words import _


class RecordsError(Exception):
    """The file of records could not do it; nothing was half written.

    `what` says what happened, `mend` what to do about it; both are plain texts without a final stop.
    """

    def __init__(self, what: str, mend: str = "") -> None:
        super().__init__(f"{what}: {mend}" if mend else what)
        self.what = what
        self.mend = mend


class NoSuchFile(RecordsError):
    """There is no file of records at that place, or its folder cannot be reached."""


class NotRecords(RecordsError):
    """The file is there, and is no file of records."""


class TooNew(RecordsError):
    """A later version of the program has written this file."""


class Damaged(RecordsError):
    """The file does not read as it was written: tables, triggers or the last row are not what they must be."""


class ClockSetBack(RecordsError):
    """The clock stands before the last row that was recorded."""


class Full(RecordsError):
    """The disk is full, or failed while writing."""


class ReadOnly(RecordsError):
    """The file or its folder may not be written."""


class Busy(RecordsError):
    """Another program held the file for too long."""


class RowRefused(RecordsError):
    """Values that the tables do not take: an unknown column, a wrong type, a reference to nothing, a second result."""


class KeyTrouble(RecordsError):
    """The key that signs heads is missing, unreadable, or open to others."""


def busy(path: Path) -> Busy:
    """The file is held by somebody else."""
    return Busy(_("The records in {name} are being written by something else").format(name=path.name), _("try again"))


def from_sqlite(error: sqlite3.Error, path: Path) -> RecordsError:
    """The error of SQLite in our own words; `path` is the file it was about."""
    code = getattr(error, "sqlite_errorcode", sqlite3.SQLITE_ERROR) & 0xFF
    name = path.name
    if code in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED):
        return busy(path)
    if code == sqlite3.SQLITE_READONLY:
        what = _("The records in {name} may not be written").format(name=name)
        return ReadOnly(what, _("give the program the right to write the file and its folder"))
    if code == sqlite3.SQLITE_FULL:
        return Full(_("The disk that holds {name} is full").format(name=name), _("make room on it and try again"))
    if code == sqlite3.SQLITE_IOERR:
        what = _("The disk that holds {name} did not take or give the data").format(name=name)
        return Full(what, _("see that it has room and works, then try again"))
    if code == sqlite3.SQLITE_CANTOPEN:
        what = _("The file {name} cannot be opened").format(name=name)
        return NoSuchFile(what, _("see that its folder is there and may be read and written"))
    if code == sqlite3.SQLITE_NOTADB:
        what = _("{name} is not a file of records").format(name=name)
        return NotRecords(what, _("name the shop's file, or restore it from a copy"))
    if code in (sqlite3.SQLITE_CONSTRAINT, sqlite3.SQLITE_MISMATCH, sqlite3.SQLITE_TOOBIG):
        return RowRefused(_("The records refuse the row ({why})").format(why=error))
    what = _("The file {name} cannot be read as it was written ({why})").format(name=name, why=error)
    return Damaged(what, _("keep it as it is, and restore the last copy"))


class said:
    """Turn the errors of SQLite that arise inside into our own. A class, since every read passes through it."""

    __slots__ = ("_path",)

    def __init__(self, path: Path) -> None:
        self._path = path

    def __enter__(self) -> None:
        pass

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        if isinstance(error, sqlite3.Error) and not isinstance(
            error, sqlite3.ProgrammingError | sqlite3.InterfaceError
        ):
            raise from_sqlite(error, self._path) from error
        if isinstance(error, UnicodeDecodeError):  # SQLite quoted a damaged text in its message
            raise from_sqlite(sqlite3.DatabaseError(_("text that is no text")), self._path) from error


@contextmanager
def said_of_disk(path: Path) -> Iterator[None]:
    """Turn the errors of the disk that arise inside, for a file that is no database, into our own."""
    try:
        yield
    except OSError as error:
        where = {"name": path.name, "why": error.strerror}
        if error.errno in (errno.ENOSPC, errno.EDQUOT, errno.EFBIG, errno.EIO):
            what = _("The disk did not take {name} ({why})").format(**where)
            raise Full(what, _("see that it has room and works, then try again")) from error
        what = _("{name} cannot be written ({why})").format(**where)
        raise ReadOnly(what, _("give the program the right to write the file and its folder")) from error
