"""What is kept about a person: everything in the file that is theirs, why it is kept, and how long."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from quizkit.pack.scheme import Period
from quizkit.records.private import text_of
from quizkit.records.schema import expected_shapes
from quizkit.shop.doors import KEPT_FOR
from quizkit.shop.handle import Shop, Stored
from quizkit.shop.packs import settings
from quizkit.shop.people import PersonView, day_at, manager, person_view
from quizkit.shop.refusal import Forbidden
from quizkit.shop.whose import forms_of
from quizkit.words import _, ngettext

Plain = str | int | bool | None | list["Plain"] | dict[str, "Plain"]
"""A value as a program reads it."""

PASSING = ("session", "sign_in_try")
"""What goes by itself after a while, whether or not its person leaves."""
BESIDE_FORM = ("form_item", "answer")
SECRET = {"person": ("secret",), "session": ("token",)}
"""Columns that open doors: no record tells them."""


@dataclass(frozen=True, slots=True)
class KeptRow:
    """One sort of what is kept: what it is, how many rows, why, and how long."""

    what: str
    count: int
    why: str
    how_long: str


@dataclass(frozen=True, slots=True)
class OwnPhoto:
    """A photo of a paper sheet of theirs."""

    sheet: int
    mime: str
    body: bytes


@dataclass(frozen=True, slots=True)
class OwnRecord:
    """Everything that the file keeps about one person on a day; `tables` holds the rows by table, as plain values.

    `done_for_others` counts the rows about other people that they wrote: those are in the other people's records.
    """

    person: PersonView
    day: dt.date
    shop: str
    kept: tuple[KeptRow, ...]
    tables: Mapping[str, tuple[Mapping[str, Plain], ...]]
    photos: tuple[OwnPhoto, ...]
    done_for_others: int


def own_record(shop: Shop, person: int, *, by: int, now: dt.datetime) -> OwnRecord:
    """The whole record of a person, for themselves or for a manager. Raises Unknown, Forbidden."""
    view = person_view(shop, person)
    if by != person:
        manager(shop, by)
    elif view.left is not None:
        raise Forbidden(_("{name} has left the shop").format(name=view.name), _("ask a manager"))
    tables = {table: rows for table in _tables() if (rows := tuple(_rows(shop, table, person)))}
    photos = tuple(_photos(shop, tables.get("sheet", ())))
    plain = {table: tuple(_plain(shop, table, row) for row in rows) for table, rows in tables.items()}
    counts = {table: len(rows) for table, rows in plain.items()}
    return OwnRecord(
        person=view,
        day=day_at(shop, view, now),
        shop=settings(shop).name,
        kept=tuple(_kept(shop, counts, own=by == person)),
        tables=plain,
        photos=photos,
        done_for_others=_done_for_others(shop, person),
    )


def _tables() -> tuple[str, ...]:
    """Every table that holds something about a person, people themselves first."""
    shapes = expected_shapes()
    theirs = [
        name for name, shape in shapes.items() if "person" in shape.names and name not in ("private_text", "photo")
    ]
    return ("person", *theirs, *BESIDE_FORM, "job_use")


def _rows(shop: Shop, table: str, person: int) -> list[Stored]:
    if table == "person":
        return shop.rows("person", number=person)
    if table == "form":
        return shop.rows("form", id=forms_of(shop, person))
    if table in BESIDE_FORM:
        return shop.rows(table, form=forms_of(shop, person))
    if table == "job":
        return sorted(
            [*shop.rows("job", person=person), *shop.rows("job", beside=person)], key=lambda row: int(row["id"])
        )
    if table == "job_use":
        return shop.rows("job_use", job=[row["id"] for row in _rows(shop, "job", person)])
    return shop.rows(table, person=person)


def _photos(shop: Shop, sheets: tuple[Stored, ...]) -> Iterator[OwnPhoto]:
    for row in sheets:
        found = shop.photo(row["photo"]) if row["photo"] else None
        if found is not None:
            yield OwnPhoto(row["id"], found[1], found[0])


def _plain(shop: Shop, table: str, row: Stored) -> dict[str, Plain]:
    """A row without what opens doors, its dates as text and its kept name in words."""
    told = {key: _value(value) for key, value in row.items() if key not in SECRET.get(table, ())}
    if table == "admin" and row["name"]:
        told["name"] = text_of(shop.records, row["name"]) or _("(erased)")
    return told


def _value(value: object) -> Plain:
    if isinstance(value, dt.date):
        return value.isoformat()
    if isinstance(value, Mapping):
        return {str(key): _value(each) for key, each in value.items()}
    if isinstance(value, list):
        return [_value(each) for each in value]
    return value if value is None or isinstance(value, str | int) else str(value)


def _done_for_others(shop: Shop, person: int) -> int:
    """How many rows about other people they wrote."""
    shapes = expected_shapes()
    tables = [name for name, shape in shapes.items() if shape.evidence and "person" in shape.names]
    return sum(shop.count(name, done_by=person) - shop.count(name, done_by=person, person=person) for name in tables)


def _kept(shop: Shop, counts: Mapping[str, int], *, own: bool) -> Iterator[KeptRow]:
    """Each sort of what is kept of which there is something, told to the person themselves or to a manager."""
    days = KEPT_FOR.days
    if own:
        leaving = _("until you leave the shop: then it is erased")
        passing = ngettext(
            "for {n} day, or until you leave the shop", "for {n} days, or until you leave the shop", days
        )
        evidence = _("for at least {time} after you leave, under your number alone")
    else:
        leaving = _("until they leave the shop: then it is erased")
        passing = ngettext(
            "for {n} day, or until they leave the shop", "for {n} days, or until they leave the shop", days
        )
        evidence = _("for at least {time} after they leave, under their number alone")
    passing, evidence = passing.format(n=days), evidence.format(time=_period(settings(shop).keep))
    for what, why, goes, tables in sorts():
        count = sum(counts.get(table, 0) for table in tables)
        if count:
            yield KeptRow(what, count, why, passing if tables == PASSING else leaving if goes else evidence)


def sorts() -> tuple[tuple[str, str, bool, tuple[str, ...]], ...]:
    """The sorts of what is kept: what, why, whether it is erased when somebody leaves, and its tables.

    The words fit whoever reads them, the person or a manager.
    """
    return (
        (_("Name, role, site and language"), _("so that pages and papers can name their people"), True, ("person",)),
        (
            _("Each sign-in: when, and from which address"),
            _("so that nobody guesses a way in with the name of another"),
            True,
            PASSING,
        ),
        (
            _("Lessons read, and half-done work"),
            _("so that work goes on where it stopped"),
            True,
            ("reading", "draft"),
        ),
        (
            _("Joining, moving, being renamed, and when a PIN or passphrase was set anew"),
            _("so that it can be told who was let in, and by whom"),
            False,
            ("admin", "pin_reset"),
        ),
        (
            _("Practice: what was asked and what was typed"),
            _("so that the next question is one that helps; it never counts toward a clearance"),
            False,
            ("draw", "practice"),
        ),
        (
            _("Checks: questions, answers, results, second looks, talks"),
            _("a clearance rests on them, and somebody may ask for them after a failed bond"),
            False,
            ("form", "form_item", "answer", "result", "remark", "appeal", "appeal_answer", "talk", "lift"),
        ),
        (
            _("Sheets: steps seen, values measured; notes and photos go with whoever leaves"),
            _("a clearance rests on them, and somebody may ask for them after a failed bond"),
            False,
            ("sheet", "signature"),
        ),
        (
            _("Clearances withdrawn and given back, and rows that were struck"),
            _("so that it can be told what stood on which day, and why"),
            False,
            ("withdrawal", "withdrawal_end", "strike"),
        ),
        (
            _("Papers from elsewhere: which, until when, who saw them; nothing medical"),
            _("some work asks for them"),
            False,
            ("outside_proof",),
        ),
        (
            _("Rights to sign sheets"),
            _("sheets signed under them rest on them"),
            False,
            ("entitlement", "entitlement_end"),
        ),
        (
            _("Certificates"),
            _("so that whoever holds the paper can check it"),
            False,
            ("certificate", "certificate_end"),
        ),
        (
            _("Jobs done, and stock counted"),
            _("so that a lot or a job can be followed to who had it in hand"),
            False,
            ("job", "job_use", "stock"),
        ),
    )


def _period(period: Period) -> str:
    """A stretch in words: '10 years'."""
    count = period.count
    match period.unit:
        case "hours":
            text = ngettext("{n} hour", "{n} hours", count)
        case "days":
            text = ngettext("{n} day", "{n} days", count)
        case "weeks":
            text = ngettext("{n} week", "{n} weeks", count)
        case "months":
            text = ngettext("{n} month", "{n} months", count)
        case "years":
            text = ngettext("{n} year", "{n} years", count)
    return text.format(n=count)
