"""People in the records: who joined, moved, was renamed and left is evidence; the name itself lies outside it.

Every change of a name, a role or a site goes through here, so that `verify` can hold the list of people to the
evidence: nobody becomes a manager, or somebody else, by an edit of the file.
"""

from __future__ import annotations

import datetime as dt

from quizkit.records.clock import moment_text
from quizkit.records.errors import RowRefused, said
from quizkit.records.private import keep_text
from quizkit.records.store import Records, Row
from quizkit.words import _

AT_A_TIME = 50
"""How many old tries to sign in go at most at one new one."""
_ARRIVAL = ("person", "started_at", "touched_at", "number", "name", "role", "site", "language", "left_on", "pack")
_OF_SESSION = (
    f"SELECT {', '.join(_ARRIVAL[:-1])}, (SELECT pack FROM publication ORDER BY id DESC LIMIT 1) "
    "FROM session JOIN person ON number = person WHERE token = ?"
)


def add_person(
    records: Records,
    *,
    name: str,
    role: str,
    site: str,
    language: str,
    secret: str | None,
    seen_on: dt.date,
    done_by: int | None,
) -> int:
    """Write down somebody new and give them their number, which nobody else ever gets. Inside a transaction.

    `secret` is the slow hash of a PIN or passphrase; `done_by` is None only for the first person of a shop.
    """
    number = records.put("person", name=name, role=role, site=site, language=language, secret=secret)
    key = keep_text(records, name, person=number)
    records.add("admin", seen_on=seen_on, done_by=done_by, deed="joined", person=number, name=key, role=role, site=site)
    return number


def rename_person(records: Records, person: int, name: str, *, seen_on: dt.date, done_by: int) -> None:
    """Change a name. Raises RowRefused where there is no such person, or they have left."""
    _present(records, person)
    key = keep_text(records, name, person=person)
    records.put("person", number=person, name=name)
    records.add("admin", seen_on=seen_on, done_by=done_by, deed="renamed", person=person, name=key)


def move_person(
    records: Records, person: int, *, seen_on: dt.date, done_by: int, role: str | None = None, site: str | None = None
) -> None:
    """Change a role, a site or both."""
    _present(records, person)
    changed = {column: value for column, value in (("role", role), ("site", site)) if value is not None}
    if changed:
        records.put("person", number=person, **changed)
        records.add("admin", seen_on=seen_on, done_by=done_by, deed="moved", person=person, role=role, site=site)


def set_language(records: Records, person: int, language: str) -> None:
    """Change the language in which somebody reads; no evidence."""
    _present(records, person)
    records.put("person", number=person, language=language)


def set_secret(records: Records, person: int, secret: str) -> None:
    """Keep another hash of a PIN or passphrase, and end the person's sessions. That it was reset is the caller's
    evidence to add (`pin_reset`), since who and why are known there."""
    _present(records, person)
    records.put("person", number=person, secret=secret)
    records.drop("session", person=person)


def erase_person(records: Records, person: int, *, seen_on: dt.date, done_by: int) -> None:
    """Somebody leaves: the name, notes, photos, drafts, sessions and hash of the secret go, the evidence stays.

    Call `forget` after the transaction, so that no trace stays in the log beside the file.
    """
    _present(records, person)
    records.put("person", number=person, name=None, secret=None, left_on=seen_on)
    for table in ("private_text", "photo"):
        records.execute(f"DELETE FROM {table} WHERE person = ?", (person,))
    for table in ("session", "draft", "reading", "sign_in_try"):
        records.drop(table, person=person)
    records.add("admin", seen_on=seen_on, done_by=done_by, deed="left", person=person)


def drop_stale(records: Records, before: dt.datetime) -> None:
    """Let sessions and tries to sign in go that are older than a moment, of whomever. Inside a transaction.

    Tries are numbered as they come in and are looked at from the oldest, some at a time, so that one sign-in pays for
    few of them and each still goes: one comes in for as many as may go.
    """
    moment = moment_text(before)
    records.execute("DELETE FROM session WHERE started_at < ?", (moment,))
    oldest = "SELECT number, tried_at FROM sign_in_try ORDER BY number LIMIT ?"
    records.execute(
        f"DELETE FROM sign_in_try WHERE number IN (SELECT number FROM ({oldest}) WHERE tried_at < ?)",
        (AT_A_TIME, moment),
    )


def forget(records: Records) -> bool:
    """Write the log into the file and empty it, so that erased values are gone from the disk's files.

    False where somebody is reading or writing just now: call it again later. It does not wait for them, since whoever
    waits here keeps everybody else from writing.
    """
    with said(records.path):
        (patience,) = records.conn.execute("PRAGMA busy_timeout").fetchone()
        records.conn.execute("PRAGMA busy_timeout = 0")
        try:
            busy, _pages, _moved = records.conn.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchone()
        finally:
            records.conn.execute(f"PRAGMA busy_timeout = {patience}")
    return not busy


def arrival(records: Records, token: str) -> Row | None:
    """The session with a token's hash, whose it is and the hash of the pack in force (None where there is none).

    One statement in place of three, since it is asked before every page.
    """
    with said(records.path):
        found = records.conn.execute(_OF_SESSION, (token,)).fetchone()
    return None if found is None else dict(zip(_ARRIVAL, found, strict=True))


def _present(records: Records, person: int) -> None:
    found = records.row("person", number=person)
    if found is None or found["left_on"] is not None:
        raise RowRefused(_("There is nobody with the number {number}").format(number=person))
