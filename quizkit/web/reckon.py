"""The pocket calculator: a page of its own, plain text for the script, and a press beside a question."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from flask import Blueprint, Response, request

from quizkit import shop as deeds
from quizkit.shop import Refusal
from quizkit.web.bench import said, shop, show

area = Blueprint("reckon", __name__)

LONGEST = 200
"""Characters of a sum that are looked at; the calculator itself takes fewer, and says so."""


@dataclass(frozen=True, slots=True)
class Pocket:
    """What stands in the calculator: the typed sum, its result, or why there is none."""

    typed: str
    result: str = ""
    fault: str = ""


def worked(text: str) -> Pocket:
    """A typed sum with its result, or with what was not understood."""
    typed = text[:LONGEST].strip()
    try:
        return Pocket(typed, deeds.reckon(typed, deeds.settings(shop()).mark))
    except Refusal as error:
        return Pocket(typed, fault=said(error))


def pressed(form: Mapping[str, str]) -> Pocket | None:
    """The calculator beside a question, where it was pressed, or left with Enter before anything was answered."""
    typed = form.get("sum", "")
    if form.get("do") != "reckon":
        if not typed.strip():  # as with nearly every answer, so nothing else is looked at
            return None
        if any(value.strip() for name, value in form.items() if name.startswith("part.")):
            return None
    return worked(typed)


@area.get("/reckon")
def reckon() -> Any:
    """A sum worked out, as a page or (with `as=text`) as the result alone; open to whoever stands there."""
    given = request.args.get("sum", "")
    pocket = worked(given) if given.strip() else Pocket("")
    status = 422 if pocket.fault else 200
    if request.args.get("as") == "text":
        return Response(pocket.result or pocket.fault, status, mimetype="text/plain")
    return show("reckon.html", status, here="/sums", pocket=pocket)
