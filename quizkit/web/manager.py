"""Who may do what: the matrix and its cells, cover, the morning question."""

from __future__ import annotations

from dataclasses import replace
from typing import Any
from urllib.parse import urlencode

from flask import Blueprint, Response, request

from quizkit import shop as deeds
from quizkit.web.bench import TEACHING, me, now, shop, show
from quizkit.web.doors import signed_in
from quizkit.web.typed import day, wholes, words

area = Blueprint("manager", __name__)

FILTERS = ("site", "role", "skill", "job")
WEEKS = 26
MOST_ROWS = 250
"""People on one page of the matrix; cover counts all of them, and so do the files to take away."""


@area.get("/matrix/")
@signed_in(*TEACHING)
def matrix() -> Any:
    """People down, skills across, a standing with its date in each cell; filters and day live in the address."""
    return _shown("matrix.html")


@area.get("/matrix/wall")
@signed_in(*TEACHING)
def wall() -> Any:
    """The same matrix for a wall: in strips of so many skills as a sheet of paper holds."""
    return _shown("matrix_wall.html")


def _shown(template: str) -> Any:
    """The matrix that the address asks for. Its links are built anew from what was understood of the address."""
    view = deeds.matrix(shop(), me(), now=now(), as_of=day(request.args, "as_of"), known=_known(), **_asked())
    cut = replace(view, rows=view.rows[:MOST_ROWS])
    asked = {name: text for name, text in _asked().items() if text}
    if on := day(request.args, "as_of"):
        asked |= {"as_of": on.isoformat(), "known": _known()}
    address, more = f"?{urlencode(asked)}" if asked else "", len(view.rows) - len(cut.rows)
    return show(template, here="/matrix/", view=cut, more=more, address=address, onward=_onward())


@area.get("/matrix/heads.css")
@signed_in(*TEACHING)
def heads() -> Any:
    """The skills' names for the cards of a small screen, by column: said once here instead of in every cell."""
    asked = {name: words(request.args, name) for name in ("skill", "job")}
    found = deeds.matrix_heads(shop(), now=now(), as_of=day(request.args, "as_of"), **asked)
    rules = [
        f'  .matrix td:nth-child({place}) :is(a, span)::before {{ content: "{_css_text(head.title)}"; }}'
        for place, head in enumerate(found, 2)
    ]
    sheet = ["@media (max-width: 40rem) {", *rules, "}", "@page { size: landscape; margin: 10mm; }"]
    return Response("\n".join(sheet), mimetype="text/css")


def _css_text(text: str) -> str:
    """A text as the inside of a CSS string: every sign that could end it goes in as its number."""
    return "".join(sign if sign.isalnum() or sign == " " else f"\\{ord(sign):06x}" for sign in text)


@area.get("/matrix/<int:person>/<skill>")
@signed_in()
def cell(person: int, skill: str) -> Any:
    """One cell: the standing, the chain of evidence under it, and what the viewer may do about it."""
    as_of = day(request.args, "as_of")
    view = deeds.cell(shop(), me(), person, skill, now=now(), as_of=as_of, known=_known())
    return show("cell.html", here="/matrix/", view=view, as_of=as_of, onward=_onward(), own=person == me())


@area.get("/cover")
@signed_in(*TEACHING)
def cover() -> Any:
    """How many are cleared for each skill, now and in each of the weeks ahead, against how many the shop wants."""
    site, away = words(request.args, "site"), wholes(request.args.getlist("away"))
    view = deeds.cover(shop(), me(), now=now(), site=site, weeks=WEEKS, away=away)
    return show("cover.html", here="/cover", view=view, gone=[number for number, _name in view.away])


@area.get("/jobs")
@signed_in(*TEACHING)
def jobs() -> Any:
    """The morning question: this job, this material, today: who alone, who beside whom."""
    job, material, site = (words(request.args, name) for name in ("job", "material", "site"))
    asked = day(request.args, "day")
    view = None
    if job:
        view = deeds.morning(shop(), me(), job, now=now(), material=material, site=site, day=asked)
    return show(
        "jobs.html",
        here="/jobs",
        view=view,
        jobs=deeds.jobs(shop(), now=now()),
        job=job,
        material=material,
        site=site,
        day=asked,
        sites=deeds.sites(shop()),
        materials=[row.name for row in deeds.current_pack(shop()).shelf.rows],
    )


def _asked() -> dict[str, str]:
    return {name: words(request.args, name) for name in FILTERS}


def _known() -> str:
    return "then" if request.args.get("known") == "then" else "now"


def _onward() -> str:
    """The part of an address that keeps the day and the way it is looked at."""
    as_of = day(request.args, "as_of")
    return f"?as_of={as_of}&known={_known()}" if as_of else ""
