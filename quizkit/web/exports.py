"""Lists that go in and out: files to take away, and people brought in from a CSV."""

from __future__ import annotations

import tempfile
from collections.abc import Sequence
from typing import Any

from flask import Blueprint, Response, abort, request, send_file

from quizkit import shop as deeds
from quizkit.exchange.certificate_file import certificate_file
from quizkit.exchange.cover import cover_table
from quizkit.exchange.everything import write_zip
from quizkit.exchange.lapses import calendar
from quizkit.exchange.matrix import lapses, matrix_table
from quizkit.exchange.people import read_people
from quizkit.shop import PeopleAdded, PersonAdded, Refusal
from quizkit.web.bench import TEACHING, me, now, person, shop, show
from quizkit.web.doors import signed_in
from quizkit.web.files import as_file, given
from quizkit.web.lists import Fault, taken_up
from quizkit.web.typed import day, wholes, words
from quizkit.words import _

area = Blueprint("exports", __name__)

FILTERS = ("site", "role", "skill", "job")
FAR = 3660
"""Days ahead of the calendar: every lapse that is known."""
IN_MEMORY = 8 * 1024 * 1024
"""Bytes of a zip that are held before it goes to a file of its own."""


@area.get("/files")
@signed_in(*TEACHING)
def files() -> Any:
    """What can be taken away as a file."""
    who = person()
    return show("files.html", here="/office", manager=who is not None and who.role == "manager")


@area.get("/matrix.<kind>")
@signed_in(*TEACHING)
def matrix_file(kind: str) -> Any:
    """The matrix as CSV, workbook or text, narrowed down as its page is."""
    if kind not in ("csv", "xlsx", "txt"):
        abort(404)
    known = "then" if request.args.get("known") == "then" else "now"
    asked = {name: words(request.args, name) for name in FILTERS}
    view = deeds.matrix(shop(), me(), now=now(), as_of=day(request.args, "as_of"), known=known, **asked)
    return as_file(matrix_table(view, short=kind == "txt"), kind, f"matrix-{view.day}")


@area.get("/cover.<kind>")
@signed_in(*TEACHING)
def cover_file(kind: str) -> Any:
    """Cover now and in the weeks ahead as CSV or workbook, for the site and the people away that its page shows."""
    if kind not in ("csv", "xlsx"):
        abort(404)
    away = wholes(request.args.getlist("away"))
    view = deeds.cover(shop(), me(), now=now(), site=words(request.args, "site"), away=away)
    return as_file(cover_table(view), kind, f"cover-{view.day}")


@area.get("/lapses.ics")
@signed_in(*TEACHING)
def lapses_file() -> Any:
    """The calendar of the lapses to come."""
    scheme = deeds.settings(shop())
    rows = lapses(deeds.coming_lapses(shop(), me(), now=now(), days=FAR), scheme.address or scheme.name)
    made = calendar(rows, name=scheme.name, now=now())
    if made is None:
        raise Refusal(_("Nothing lapses: there is no calendar to give"), _("come back when somebody is cleared"))
    return given(made, "text/calendar", "lapses.ics")


@area.get("/certificates/<int:number>/file")
@signed_in()
def signed_file(number: int) -> Any:
    """The signed file of a certificate that stands."""
    view = deeds.certificate(shop(), me(), number, now=now())
    if view.state != "valid":
        what = _("This certificate is {state}: no file is made of it").format(state=_(view.state))
        raise Refusal(what, _("issue a new one when all of its skills stand"))
    made = certificate_file(view, deeds.signing_key(shop()), now=now())
    return given(made, "application/ld+json", f"certificate-{number}.json")


@area.get("/everything.zip")
@signed_in("manager")
def everything() -> Any:
    """All tables as CSV, in one zip."""
    made = tempfile.SpooledTemporaryFile(IN_MEMORY)  # noqa: SIM115 - sent, and closed, after this returns
    write_zip(deeds.everything(shop(), me(), now=now()), made)
    made.seek(0)
    return send_file(made, "application/zip", as_attachment=True, download_name="everything.zip")


@area.get("/people/import")
@signed_in("manager")
def list_in() -> Any:
    """A form for a list of people."""
    return _list_in()


@area.post("/people/import")
@signed_in("manager")
def people_in() -> Any:
    """Add everybody of a CSV file, or nobody where a line is wrong; what was drawn for them is shown once."""
    added: list[PersonAdded] = []

    def add(rows: Sequence[dict[str, str]]) -> PeopleAdded:
        done = deeds.add_people(shop(), rows, by=me(), now=now())
        added.extend(done.added)
        return done

    faults = taken_up(read_people, add)
    return _list_in(faults, added)


def _list_in(faults: Sequence[Fault] = (), added: Sequence[PersonAdded] = ()) -> Response:
    places = [(one.id, one.title) for one in deeds.sites(shop())]
    return show("people_import.html", 409 if faults else 200, here="/office", faults=faults, added=added, sites=places)
