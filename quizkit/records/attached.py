"""What evidence points to outside the chain: packs by their hash, private texts and photos by theirs, and people."""

from __future__ import annotations

import hashlib
import sqlite3
from collections.abc import Iterator
from dataclasses import dataclass, field

from quizkit.records.chain import Broken, Link
from quizkit.records.private import salted
from quizkit.words import _


@dataclass(slots=True)
class Attached:
    """Gathers from the rows of a walk what they point to; `broken` then compares it with what is there."""

    private: list[tuple[str, str, Link]] = field(default_factory=list)
    packs: dict[str, Link] = field(default_factory=dict)
    people: dict[int, dict[str, str]] = field(default_factory=dict)
    """Name key, role and site of each person after the last deed about them."""
    left: set[int] = field(default_factory=set)

    def take(self, link: Link) -> None:
        """Note what one row points to."""
        for place, table in link.shape.private:
            if (key := link.values[place]) is not None:
                self.private.append((table, str(key), link))
        if link.shape.name == "publication":
            self.packs.setdefault(str(link.get("pack")), link)
        if link.shape.name == "admin" and (person := link.get("person")) is not None:
            known = self.people.setdefault(int(person), {})
            known.update({column: link.get(column) for column in ("name", "role", "site") if link.get(column)})
            if link.get("deed") == "left":
                self.left.add(int(person))

    def broken(self, conn: sqlite3.Connection, *, people: bool) -> Broken | None:
        """The first thing that is gone or changed. `people`: the walk began at the first row, so all are known."""
        checks = [self._private(conn), self._packs(conn), self._people(conn) if people else iter(())]
        return next((broken for check in checks for broken in check), None)

    def _private(self, conn: sqlite3.Connection) -> Iterator[Broken]:
        for table, key, link in self.private:
            found = conn.execute(f"SELECT salt, body FROM {table} WHERE key = ?", (key,)).fetchone()
            if found is None and link.get("person") not in self.left:
                yield Broken(link.shape.name, link.number, _("a text or photo that belongs to it is gone"))
            if found is not None and salted(_bytes(found[0]), _bytes(found[1])) != key:
                yield Broken(link.shape.name, link.number, _("a text or photo that belongs to it was changed"))

    def _packs(self, conn: sqlite3.Connection) -> Iterator[Broken]:
        for name, link in self.packs.items():
            found = conn.execute("SELECT body FROM pack WHERE hash = ?", (name,)).fetchone()
            if found is None or hashlib.sha256(_bytes(found[0])).hexdigest() != name:
                yield Broken(link.shape.name, link.number, _("the pack that it published was changed or is gone"))

    def _people(self, conn: sqlite3.Connection) -> Iterator[Broken]:
        there = conn.execute("SELECT number, name, role, site, left_on FROM person ORDER BY number").fetchall()
        for number, name, role, site, left_on in there:
            known = self.people.get(number, {})
            if (role, site) != (known.get("role"), known.get("site")) or (number in self.left) != (left_on is not None):
                yield Broken("person", number, _("role, site or leaving are not what the evidence says"))
            elif name != self._name(conn, number):
                yield Broken("person", number, _("the name is not what the evidence says"))
        if gone := sorted(self.people.keys() - {row[0] for row in there}):
            yield Broken("person", gone[0], _("it is missing"))

    def _name(self, conn: sqlite3.Connection, number: int) -> str | None:
        key = self.people.get(number, {}).get("name")
        found = conn.execute("SELECT body FROM private_text WHERE key = ?", (key,)).fetchone()
        return str(found[0]) if found else None


def _bytes(body: object) -> bytes:
    """The bytes of a value, of whatever type a damaged file gives it."""
    return body if isinstance(body, bytes) else str(body).encode("utf-8", "surrogateescape")
