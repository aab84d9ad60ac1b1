"""The desk: looking back on a job, for whoever asks after a bond."""

from __future__ import annotations

from typing import Any
from urllib.parse import urlencode

from flask import Blueprint, Response, abort, request

from quizkit import shop as deeds
from quizkit.exchange import table
from quizkit.exchange.lookback import lookback_table
from quizkit.shop import LookbackView, Refusal
from quizkit.web.bench import TEACHING, me, now, said, shop, show, zone
from quizkit.web.doors import signed_in
from quizkit.web.typed import day, words

area = Blueprint("desk", __name__)

MOST = 8
"""Jobs that one page follows of itself; more are listed first."""
ASKED = ("ticket", "lot", "person", "material", "day", "skill")


@area.get("/lookback")
@signed_in(*TEACHING)
def lookback() -> Any:
    """What stood behind a job in the past: asked for in the address, shown as one bundle that prints whole."""
    asked = {name: words(request.args, name) for name in ASKED}
    view, fault = None, ""
    if any(asked.values()):
        try:
            view = _looked(request.args.get("whole") == "yes")
        except Refusal as error:
            fault = said(error)
    pack = deeds.current_pack(shop())
    return show(
        "lookback.html",
        404 if fault else 200,
        here="/office",
        view=view,
        fault=fault,
        asked=asked,
        query=urlencode({name: text for name, text in asked.items() if text}),
        people=[(one.person, one.name) for one in deeds.people(shop(), with_left=True)],
        materials=[(row.name, row.name) for row in pack.shelf.rows],
        skills=[(one.scheme.skill, one.scheme.title) for one in pack.modules],
    )


@area.get("/lookback.csv")
@signed_in(*TEACHING)
def lookback_csv() -> Any:
    """The same for a spreadsheet."""
    text = table.csv(lookback_table(_looked(True), zone()))
    return Response(
        text.encode("utf-8-sig"),
        mimetype="text/csv",
        headers={"Content-Disposition": "attachment; filename=lookback.csv"},
    )


@area.get("/lookback/lesson/<on>/<module>/<lesson>")
@signed_in(*TEACHING)
def lesson(on: str, module: str, lesson: str) -> Any:
    """A lesson as it was in force on a day."""
    asked = day({"on": on}, "on")
    if asked is None:
        abort(404)
    view = deeds.lesson_then(shop(), me(), asked, module, lesson, now=now())
    return show("lesson_then.html", here="/office", view=view)


def _looked(whole_bundle: bool) -> LookbackView:
    asked = request.args
    return deeds.lookback(
        shop(),
        me(),
        now=now(),
        person=deeds.person_named(shop(), words(asked, "person")) if words(asked, "person") else None,
        material=words(asked, "material"),
        day=day(asked, "day"),
        ticket=words(asked, "ticket"),
        lot=words(asked, "lot"),
        skill=words(asked, "skill"),
        most=0 if whole_bundle else MOST,
    )
