"""One's own record: what is kept about a person, why, how long, and all of it to take away."""

from __future__ import annotations

from typing import Any

from flask import Blueprint, redirect

from quizkit import shop as deeds
from quizkit.exchange.own import record_file
from quizkit.web.bench import me, now, shop, show
from quizkit.web.doors import signed_in
from quizkit.web.files import given

area = Blueprint("own", __name__)


@area.get("/me/record")
@signed_in()
def mine() -> Any:
    """One's own record."""
    return redirect(f"/people/{me()}/record", 303)


@area.get("/people/<int:number>/record")
@signed_in()
def record(number: int) -> Any:
    """What is kept about a person, for themselves or a manager."""
    view = deeds.own_record(shop(), number, by=me(), now=now())
    return show("record.html", view=view, own=number == me())


@area.get("/people/<int:number>/record.json")
@signed_in()
def record_json(number: int) -> Any:
    """The same with every row, as a file."""
    view = deeds.own_record(shop(), number, by=me(), now=now())
    return given(record_file(view), "application/json", f"record-{number}.json")
