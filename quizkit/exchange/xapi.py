"""xAPI 1.0.3 statements, one an evidence row, from plain values; the same row gives the same statement every time.

No name and no mail of a person ever stands in one: people are numbers under the shop's address.
"""

from __future__ import annotations

import datetime as dt
import re
import uuid
from collections.abc import Iterable, Iterator
from fractions import Fraction
from typing import Any, Protocol
from urllib.parse import quote, urlsplit

from quizkit.words import _

VERBS = "http://adlnet.gov/expapi/verbs/"
TYPES = "http://adlnet.gov/expapi/activities/"
_TYPE = {
    "assessment": "assessment",
    "interaction": "cmi.interaction",
    "lesson": "lesson",
    "performance": "performance",
}
_INTERACTION = {"number": "numeric", "choice": "choice", "order": "sequencing", "match": "matching"}


class NoAddress(ValueError):
    """Statements need the shop's own address, under which its people and activities are named."""


class Told(Protocol):
    """One evidence row as a statement tells it.

    `row` names the row for good; `activity` is a path that means one thing for good. `raw` out of `out_of` are marks;
    `parent` is the activity of the check that an answer belongs to, `registration` the row of that form; `voids` is
    the row that this one withdraws.
    """

    @property
    def row(self) -> str: ...
    @property
    def person(self) -> int: ...
    @property
    def at(self) -> dt.datetime: ...
    @property
    def verb(self) -> str: ...
    @property
    def kind(self) -> str: ...
    @property
    def activity(self) -> str: ...
    @property
    def title(self) -> str: ...
    @property
    def by(self) -> int | None: ...
    @property
    def raw(self) -> Fraction | None: ...
    @property
    def out_of(self) -> int: ...
    @property
    def success(self) -> bool | None: ...
    @property
    def response(self) -> str: ...
    @property
    def parent(self) -> str: ...
    @property
    def registration(self) -> str: ...
    @property
    def part_kind(self) -> str: ...
    @property
    def language(self) -> str: ...
    @property
    def voids(self) -> str: ...


def statements(rows: Iterable[Told], address: str) -> Iterator[dict[str, Any]]:
    """A statement for each row. `address` is the shop's own, `https://…`; raises NoAddress where there is none."""
    home = _home(address)
    return (_statement(row, home) for row in rows)


def _home(address: str) -> str:
    parts = urlsplit(address)
    if parts.scheme not in ("https", "http") or not parts.netloc or any(sign in address for sign in ' <>"{}|\\^`'):
        raise NoAddress(_("statements need the shop's own address: set `address` in shop.toml (https://…)"))
    return address.split("#")[0].split("?")[0].rstrip("/")


def _id(row: str, home: str) -> str:
    return str(uuid.uuid5(uuid.uuid5(uuid.NAMESPACE_URL, home), row))


def _statement(row: Told, home: str) -> dict[str, Any]:
    made: dict[str, Any] = {
        "id": _id(row.row, home),
        "actor": _actor(row.person, home),
        "verb": {"id": VERBS + row.verb, "display": {"en": row.verb}},
        "object": _object(row, home),
        "timestamp": _moment(row.at),
    }
    result = _result(row)
    context = _context(row, home)
    return made | ({"result": result} if result else {}) | ({"context": context} if context else {})


def _object(row: Told, home: str) -> dict[str, Any]:
    if row.voids:
        return {"objectType": "StatementRef", "id": _id(row.voids, home)}
    definition: dict[str, Any] = {"type": TYPES + _TYPE[row.kind]}
    if row.title:
        definition["name"] = {row.language or "en": row.title}
    if row.part_kind:
        definition["interactionType"] = _interaction(row)
    return {"objectType": "Activity", "id": _activity(row.activity, home), "definition": definition}


def _result(row: Told) -> dict[str, Any]:
    if row.voids:
        return {}
    made: dict[str, Any] = {}
    if row.raw is not None and row.out_of > 0:
        made["score"] = {
            "scaled": _number(row.raw / row.out_of),
            "raw": _number(row.raw),
            "min": 0,
            "max": row.out_of,
        }
    if row.success is not None:
        made["success"] = row.success
    if row.response:
        made["response"] = _response(row)
    if row.verb in ("passed", "failed", "completed"):
        made["completion"] = True
    return made


def _interaction(row: Told) -> str:
    """The sort of interaction. An answer typed with a unit or as a fraction is no number in xAPI's sense: 'other'."""
    if row.part_kind == "number" and not re.fullmatch(r"-?\d+(\.\d+)?", row.response.strip()):
        return "other"
    return _INTERACTION[row.part_kind]


def _response(row: Told) -> str:
    """What was typed, parted by the marks that xAPI wants for its sort."""
    match row.part_kind:
        case "choice" | "order":
            return "[,]".join(re.findall(r"\w+", row.response))
        case "match":
            return "[,]".join(f"{left}[.]{right}" for left, right in re.findall(r"(\d+)\W*([A-Za-z]+)", row.response))
        case "number":
            return row.response.strip()
    return row.response


def _context(row: Told, home: str) -> dict[str, Any]:
    made: dict[str, Any] = {}
    if row.by is not None:
        made["instructor"] = _actor(row.by, home)
    if row.registration:
        made["registration"] = _id(row.registration, home)
    if row.parent:
        made["contextActivities"] = {"parent": [{"objectType": "Activity", "id": _activity(row.parent, home)}]}
    if row.language and not row.voids:
        made["language"] = row.language
    return made


def _actor(person: int, home: str) -> dict[str, Any]:
    return {"objectType": "Agent", "account": {"homePage": home, "name": str(person)}}


def _activity(path: str, home: str) -> str:
    return f"{home}/{quote(path, safe='/-._~')}"


def _number(value: Fraction) -> int | float:
    return value.numerator if value.denominator == 1 else round(float(value), 4)


def _moment(value: dt.datetime) -> str:
    return value.astimezone(dt.UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")
