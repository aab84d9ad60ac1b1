"""The plan: who learns or renews what next, so that cover holds at the least cost of time."""

from __future__ import annotations

from typing import Any
from urllib.parse import urlencode

from flask import Blueprint, abort, request

from quizkit import shop as deeds
from quizkit.exchange.plan import plan_table
from quizkit.shop import PlanView
from quizkit.web.bench import TEACHING, me, now, shop, show
from quizkit.web.doors import signed_in
from quizkit.web.files import as_file
from quizkit.web.typed import whole, wholes, words

area = Blueprint("plans", __name__)

WEEKS = 26


@area.get("/plan")
@signed_in(*TEACHING)
def plan() -> Any:
    """The cheapest plan that keeps cover; site, weeks and who is spared live in the address."""
    view = _plan()
    asked = [("site", view.site), ("weeks", view.weeks), *(("spared", number) for number, _name in view.spared)]
    spared = [number for number, _name in view.spared]
    return show("plan.html", here="/cover", view=view, spared=spared, query=urlencode(asked))


@area.get("/plan.<kind>")
@signed_in(*TEACHING)
def plan_file(kind: str) -> Any:
    """The same as a file: csv or xlsx."""
    if kind not in ("csv", "xlsx"):
        abort(404)
    return as_file(plan_table(_plan()), kind, "plan")


def _plan() -> PlanView:
    site, weeks = words(request.args, "site"), whole(request.args, "weeks")
    spared = wholes(request.args.getlist("spared"))
    return deeds.plan(shop(), me(), now=now(), site=site, weeks=WEEKS if weeks is None else weeks, spared=spared)
