"""An open shop: one file of records, and the deeds on it, each one transaction."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from functools import lru_cache
from pathlib import Path
from types import TracebackType
from typing import Any, TypeVar, cast

from quizkit.records.clock import moment_of
from quizkit.records.errors import KeyTrouble, NoSuchFile, RecordsError, RowRefused
from quizkit.records.opening import open_records
from quizkit.records.packs import load_pack
from quizkit.records.people import arrival
from quizkit.records.private import keep_photo, keep_text, photo_of, text_of
from quizkit.records.store import Records
from quizkit.shop.refusal import OutOfPlace, Refusal, StoreTrouble, Unknown
from quizkit.words import _

Stored = Mapping[str, Any]
"""A row as the deeds read it: dates, moments, truths and lists in place of their texts, notes in place of hashes."""

_JSON = frozenset(
    [
        "changes",
        "ordering",
        "typed",
        "givens",
        "verdict",
        "terms",
        "seen",
        "measures",
        "judged",
        "skills",
        "figures",
        "old_row",
        "new_row",
    ]
)
_DAYS = frozenset(["seen_on", "until", "starts", "valid_until", "done_on", "left_on"])
_MOMENTS = frozenset(["recorded_at", "closes_at", "started_at", "touched_at", "saved_at", "tried_at", "read_at"])
_TRUTHS = frozenset(
    [
        "passed",
        "critical_missed",
        "by_itself",
        "founding",
        "late",
        "restores",
        "upheld",
        "signed",
        "paper",
        "unread",
        "critical",
        "was_right",
    ]
)
_PRIVATE = frozenset(["note", "basis", "helper"])


def _moment(text: str) -> dt.datetime | None:
    return moment_of(text) if text else None


_READ: dict[str, Callable[[Any], Any]] = {
    **dict.fromkeys(_TRUTHS, bool),
    **dict.fromkeys(_DAYS, dt.date.fromisoformat),
    **dict.fromkeys(_MOMENTS, _moment),
    **dict.fromkeys(_JSON, json.loads),
}
"""What turns the stored value of a column into what the deeds read."""
_text = json.JSONEncoder(ensure_ascii=False, sort_keys=True, separators=(",", ":")).encode
"""Lists and objects as they are stored."""
T = TypeVar("T")
LONGEST_NOTE = 2000
PHOTO_TYPES = {b"\xff\xd8\xff": "image/jpeg", b"\x89PNG\r\n\x1a\n": "image/png"}
LARGEST_PHOTO = 5 * 1024 * 1024


class Shop:
    """A shop's file, open for one thread. A context manager that closes itself."""

    def __init__(self, records: Records) -> None:
        self.records = records
        self._read_in: tuple[int, int, int] | None = None
        self._known: dict[tuple[object, ...], Any] = {}
        self._inside = False

    def __enter__(self) -> Shop:
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        self.close()

    @property
    def path(self) -> Path:
        """Where the file lies."""
        return self.records.path

    def close(self) -> None:
        """Close the file."""
        self.records.close()

    def stands(self) -> bool:
        """Whether this is still the file at its path, with the tables that it had when it was opened."""
        return self.records.stands()

    @contextmanager
    def deed(self, now: dt.datetime) -> Iterator[None]:
        """One deed: all of it is written or nothing. A deed within a deed is part of it."""
        if self._inside:
            yield
            return
        self._inside = True
        try:
            with told(), self.records.transaction(now):
                yield
        finally:
            self._inside = False

    def known(self, key: tuple[object, ...], read: Callable[[], T]) -> T:
        """What `read` gives, kept under `key` for as long as nobody, this shop included, has changed the file."""
        kept = self.kept()
        if key not in kept:
            kept[key] = read()
        return cast(T, kept[key])

    def kept(self) -> dict[tuple[object, ...], Any]:
        """What `known` has kept and still holds. For whoever reads several things at once: ask for it, then read."""
        with told():
            version = self.records.version()
        if version != self._read_in:
            self._known, self._read_in = {}, version
        return self._known

    def arrival(self, token: str) -> Stored | None:
        """The session with a token's hash, with its person and the pack in force: see `records.people.arrival`."""
        with told():
            row = arrival(self.records, token)
            return None if row is None else self._read(row)

    def rows(self, table: str, /, **asked: Any) -> list[Stored]:
        """The rows whose columns equal what is given, oldest first (`after`, `newest`, `limit`: see `Records.rows`)."""
        with told():
            return [self._read(row) for row in self.records.rows(table, **asked)]

    def row(self, table: str, /, **equals: Any) -> Stored | None:
        """The newest row whose columns equal what is given, or None."""
        with told():
            row = self.records.row(table, **equals)
            return None if row is None else self._read(row)

    def values(self, table: str, column: str, /, **asked: Any) -> list[Any]:
        """One column, as it is stored, of the rows whose columns equal what is given; the rest is as with `rows`."""
        with told():
            return self.records.values(table, column, **asked)

    def latest(self, table: str, column: str, of: str, among: Sequence[Any], /, **equals: Any) -> dict[Any, Any]:
        """One column of the newest row for each value of `of` among some, by that value: see `Records.latest`."""
        with told():
            found = self.records.latest(table, column, of, among, **equals)
        reader = _READ.get(column)
        return {key: reader(value) for key, value in found.items()} if reader else found

    def oldest(self, table: str, *of: str, **equals: Any) -> list[Stored]:
        """Of the rows whose columns equal what is given, the oldest for each value of the columns `of` together."""
        with told():
            return [self._read(row) for row in self.records.oldest(table, *of, **equals)]

    def without(self, table: str, other: str, by: str, /, **equals: Any) -> list[Stored]:
        """The rows whose columns equal what is given, and to which no row of `other` points by its column `by`."""
        with told():
            return [self._read(row) for row in self.records.without(table, other, by, **equals)]

    def count(self, table: str, /, **equals: Any) -> int:
        """How many rows have columns that equal what is given."""
        with told():
            return self.records.count(table, **equals)

    def get(self, table: str, number: int | str) -> Stored:
        """A row by its number. Raises Unknown where there is none."""
        text = str(number)
        row = self.row(table, id=int(text)) if text.isascii() and text.isdigit() and len(text) < 19 else None
        if row is None:
            raise Unknown(_("There is no such record ({number})").format(number=text[:20]), _("go back and look again"))
        return row

    def add(self, table: str, /, *, by: int | None, seen_on: dt.date, about: int | None = None, **values: Any) -> int:
        """Add a row of evidence and give its number; only inside a deed.

        Lists and objects are kept as JSON. Notes are kept apart, to go with the person they are about: `about`, or the
        row's own `person`.
        """
        person = values.get("person", about)
        ready = {column: self._kept(column, value, person) for column, value in values.items()}
        return self.records.add(table, seen_on=seen_on, done_by=by, **ready)

    def pack_body(self, hash: str) -> bytes | None:
        """The bytes of a published pack, or None."""
        with told():
            return load_pack(self.records, hash)

    def photo(self, key: str) -> tuple[bytes, str] | None:
        """A kept photo with its type, or None where it has been erased."""
        with told():
            return photo_of(self.records, key)

    def keep_photo(self, body: bytes, person: int) -> str:
        """Keep a photo and give the key that evidence holds. Refuses what is no photo, and what is too large."""
        mime = next((mime for start, mime in PHOTO_TYPES.items() if body.startswith(start)), "")
        if not mime:
            raise Refusal(_("This file is not a photo"), _("send a JPEG or PNG picture"))
        if len(body) > LARGEST_PHOTO:
            raise Refusal(_("This photo is too large"), _("send one of at most 5 MB"))
        return keep_photo(self.records, body, mime, person=person)

    def _kept(self, column: str, value: Any, person: int | None) -> Any:
        if column in _JSON:
            return _text(value)
        if column in _PRIVATE and value is not None:
            return keep_text(self.records, note(value), person=person)
        return value

    def _read(self, row: dict[str, Any]) -> Stored:
        readers, private = _readers(tuple(row))
        for column, reader in readers:
            if row[column] is not None:
                row[column] = reader(row[column])
        for column in private:
            row[column] = "" if row[column] is None else text_of(self.records, row[column]) or _("(erased)")
        return row


@lru_cache(maxsize=256)
def _readers(columns: tuple[str, ...]) -> tuple[tuple[tuple[str, Callable[[Any], Any]], ...], tuple[str, ...]]:
    """Of a row's columns those whose values are read as something else, and those that hold notes."""
    readers = tuple((column, _READ[column]) for column in columns if column in _READ)
    return readers, tuple(column for column in columns if column in _PRIVATE)


def note(text: str, needed: bool = False) -> str:
    """A free note as it is kept: trimmed, of bearable length. Refuses one that is missing where it is `needed`."""
    tidy = "\n".join(line.rstrip() for line in text.strip().splitlines())
    if needed and not tidy:
        raise Refusal(_("The reason is missing"), _("say in a few words why"))
    if len(tidy) > LONGEST_NOTE:
        raise Refusal(_("This note is too long"), _("keep it to {count} characters").format(count=LONGEST_NOTE))
    return tidy


class told:
    """Turn what goes wrong in the file into what a person is told. A class, since every read passes through it."""

    __slots__ = ()

    def __enter__(self) -> None:
        pass

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        if isinstance(error, RowRefused):
            raise Refusal(error.what, error.mend) from error
        if isinstance(error, NoSuchFile | KeyTrouble):
            raise OutOfPlace(error.what, error.mend) from error
        if isinstance(error, RecordsError):
            raise StoreTrouble(error.what, error.mend) from error


def open_shop(path: str | Path, *, create: bool = False, handed_on: bool = False) -> Shop:
    """Open a shop's file; with `create` a new one is made where there is none. Raises StoreTrouble.

    With `handed_on` one thread after the other may use it, never two at a time.
    """
    with told():
        return Shop(open_records(Path(path), create=create, handed_on=handed_on))


def chosen(values: Sequence[str], value: str, what: str) -> str:
    """A value that must be one of some. Raises Unknown, naming them."""
    if value not in values:
        known = ", ".join(values)
        raise Unknown(
            _("There is no {what} '{value}'").format(what=what, value=value[:40]),
            _("choose one of: {known}").format(known=known),
        )
    return value
