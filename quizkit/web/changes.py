"""Changes of product: what changed on the shelf, how large it is, and who shows it again."""

from __future__ import annotations

from typing import Any

from flask import Blueprint, redirect, request

from quizkit import shop as deeds
from quizkit.shop import Refusal
from quizkit.web.bench import TEACHING, me, now, said, shop, show
from quizkit.web.doors import signed_in
from quizkit.web.typed import day, words

area = Blueprint("changes", __name__)


@area.get("/changes")
@signed_in(*TEACHING)
def changes() -> Any:
    """What changed on the shelf, the latest first."""
    return _changes()


@area.post("/changes/<int:number>")
@signed_in(*TEACHING)
def mark(number: int) -> Any:
    """Mark a change as small, or as large with the day by which its users show it again."""
    size, until = words(request.form, "size"), day(request.form, "until")
    try:
        deeds.mark_change(shop(), me(), number, size, now=now(), until=until)
    except Refusal as error:
        return _changes(said(error), number)
    return redirect("/changes", 303)


def _changes(fault: str = "", at: int = 0) -> Any:
    rows = deeds.changes(shop(), me(), now=now())
    return show("changes.html", 409 if fault else 200, here="/office", rows=rows, fault=fault, at=at, form=request.form)
