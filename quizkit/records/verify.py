"""Does the file still say what was written? The first broken row, or that it is consistent, or proven by a head."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from sqlite_utils import Migrations

from quizkit.records.attached import Attached
from quizkit.records.chain import Broken, Link, Walk, last_row
from quizkit.records.connection import connect
from quizkit.records.errors import Damaged, from_sqlite, said
from quizkit.records.migrations import STEPS
from quizkit.records.schema import differences, shapes
from quizkit.records.seal import START, Head
from quizkit.words import _

Progress = Callable[[int, int], None]


@dataclass(frozen=True, slots=True)
class Verified:
    """What a verification found: how many rows held, the head they end with, and the first broken row or None.

    `proven`: a head from outside was found in the chain, so that nothing before it was changed or lost. Without one a
    sound file is only consistent: the last rows may be missing, or the whole chain be sealed anew.
    """

    rows: int
    head: Head
    broken: Broken | None
    proven: bool = False

    @property
    def sound(self) -> bool:
        """Whether nothing broken was found."""
        return self.broken is None


def verify_file(
    path: str | Path,
    head: str | None = None,
    *,
    heads: Sequence[Head] = (),
    after: Head | None = None,
    progress: Progress | None = None,
) -> Verified:
    """Verify a file, also one that does not open because its triggers are gone. Others may write meanwhile.

    `head` is a seal from a certificate or from `heads.txt`; `heads` are heads with their numbers (`read_heads`), which
    also tell between which of them a chain was sealed anew. `after`: a head that was verified before; only what came
    later is looked at. `progress` is called with the rows done and all rows. Raises NoSuchFile, Busy.
    """
    path = Path(path)
    conn = connect(path, "ro")
    try:
        with said(path):
            conn.execute("BEGIN")
            return check(conn, head, heads=heads, after=after, progress=progress)
    finally:
        conn.close()


def check(
    conn: sqlite3.Connection,
    head: str | None = None,
    *,
    heads: Sequence[Head] = (),
    after: Head | None = None,
    progress: Progress | None = None,
    steps: Migrations = STEPS,
) -> Verified:
    """`verify_file` on a connection that is open, in its transaction."""
    start = after or Head()
    wanted = _seal_text(head) if head is not None else None
    walk, watch = Walk(conn, start, progress), _Heads(heads, wanted, start)
    with _any_text(conn):
        try:
            broken = _broken(conn, walk, watch, steps)
        except (sqlite3.DatabaseError, UnicodeError) as error:
            if isinstance(error, sqlite3.DatabaseError) and not isinstance(from_sqlite(error, Path()), Damaged):
                raise
            broken = Broken("", walk.end.position + 1, _("the file cannot be read ({why})").format(why=error))
    rows = max(walk.end.position - start.position, 0)
    return Verified(rows, walk.end, broken, proven=watch.met and broken is None)


def _broken(conn: sqlite3.Connection, walk: Walk, watch: _Heads, steps: Migrations) -> Broken | None:
    """What is broken first: on the chain, then at its end, then beside it."""
    attached, start = Attached(), walk.start
    before = last_row(conn, shapes(conn).values(), start.position)
    if start.position and (before.position, before.seal) != (start.position, start.seal):
        return Broken("", start.position, _("the head that was verified before is no longer there"))
    for link in walk:
        attached.take(link)
        if broken := watch.pass_by(link):
            return broken
    broken = walk.broken or watch.missing(walk.end) or _tip(conn, walk.end)
    return broken or _rest(conn, attached, steps, whole=not start.position)


@dataclass(slots=True)
class _Heads:
    """The heads that the chain must hold: numbered ones at their place, the wanted seal anywhere."""

    numbered: dict[int, str]
    wanted: str | None
    met: bool

    def __init__(self, heads: Sequence[Head], wanted: str | None, start: Head) -> None:
        self.numbered = {head.position: head.seal for head in heads if head.position > start.position}
        self.wanted = wanted
        self.met = wanted in (START, start.seal)

    def pass_by(self, link: Link) -> Broken | None:
        """A row goes past: the head that says otherwise about it, as what is broken."""
        said_so = self.numbered.pop(link.number, link.seal)
        if said_so != link.seal:
            why = _("a signed head says otherwise: this row or one before it was changed, and the chain sealed anew")
            return Broken(link.shape.name, link.number, why)
        self.met = self.met or link.seal == self.wanted
        return None

    def missing(self, end: Head) -> Broken | None:
        """After the last row: a head that was not met."""
        if self.numbered:
            why = _("the last rows are gone, or an older copy stands here: a signed head counts {count} rows")
            return Broken("", end.position + 1, why.format(count=max(self.numbered)))
        if self.wanted is not None and not self.met:
            return Broken("", 0, _("the head is not in the chain: a row up to it was changed or lost"))
        return None


def _seal_text(head: str) -> str:
    """A seal as somebody typed it off a certificate: spaces and capitals do not matter."""
    return "".join(head.split()).lower()


def _tip(conn: sqlite3.Connection, end: Head) -> Broken | None:
    found = conn.execute("SELECT position, seal, recorded_at FROM tip").fetchone()
    if found is None or found[:2] != (end.position, end.seal) or end.recorded_at not in ("", found[2]):
        return Broken("", end.position + 1, _("the chain does not end where the file says it does"))
    return None


def _rest(conn: sqlite3.Connection, attached: Attached, steps: Migrations, *, whole: bool) -> Broken | None:
    if broken := attached.broken(conn, people=whole):
        return broken
    if wrong := differences(conn, steps):
        return Broken("", 0, _("tables or triggers are not as they were made: {names}").format(names=", ".join(wrong)))
    if whole and (found := conn.execute("PRAGMA integrity_check(1)").fetchone()[0]) != "ok":
        return Broken("", 0, _("the file is damaged ({why})").format(why=found))
    if whole and (lost := conn.execute("PRAGMA foreign_key_check").fetchone()):
        return Broken(str(lost[0]), int(lost[1] or 0), _("it points to a row that is not there"))
    return None


@contextmanager
def _any_text(conn: sqlite3.Connection) -> Iterator[None]:
    """Read text even where it is no UTF-8 any more, so that the row can be named."""
    before = conn.text_factory
    conn.text_factory = lambda data: data.decode("utf-8", "surrogateescape")
    try:
        yield
    finally:
        conn.text_factory = before
