"""In and out: the roster, the PIN or passphrase, and what was typed when a session ran out."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from functools import wraps
from typing import Any, TypeVar, cast

from flask import Blueprint, Response, abort, current_app, g, redirect, request
from itsdangerous import BadSignature, URLSafeTimedSerializer

from quizkit import shop as deeds
from quizkit.shop import Forbidden, Refusal, StoreTrouble, Waiting, WrongSecret
from quizkit.web.bench import KEY, held, keep, let_go, now, person, said, shop, show
from quizkit.words import _

area = Blueprint("doors", __name__)
View = TypeVar("View", bound=Callable[..., Any])
LONGEST_KEPT = 8 * 3600
"""Seconds for which a form that met a closed door can still be taken up."""
MOST_NAMES = 100
"""Names on one page of the roster; in a large group one finds one's own by its letters."""
NEVER_KEPT = ("token", "secret", "old", "new", "again", "do", "then")
"""Fields that are dropped: secrets, and the press itself, so that a sheet is read again before it is signed."""
Kept = list[tuple[str, str]]
"""The fields of a form that met a closed door, in their order."""
PLACES: list[tuple[re.Pattern[str], Callable[..., Any]]] = []
"""The forms that are put back into their own page: the path, and what shows that page with what was typed in it."""


def put_back(path: str) -> Callable[[View], View]:
    """Let a view show the page of a form with what was typed; it takes the groups of the path, and the fields."""

    def listed(view: View) -> View:
        PLACES.append((re.compile(path), view))
        return view

    return listed


def signed_in(*roles: str) -> Callable[[View], View]:
    """Let a view be seen only by who is signed in, and of these roles where any are named."""

    def around(view: View) -> View:
        @wraps(view)
        def guarded(*args: Any, **kwargs: Any) -> Any:
            who = person()
            if who is None:
                return _closed()
            if roles and who.role not in roles:
                abort(403)
            return view(*args, **kwargs)

        return cast(View, guarded)

    return around


def _closed() -> Any:
    """Ask to sign in; what a form carried is kept, signed, and taken up afterwards by whose session it was."""
    if request.method == "GET":
        return redirect("/sign-in")
    fields = [(key, value) for key, value in request.form.items(multi=True) if key not in NEVER_KEPT]
    token = held(KEY)
    kept = _seal().dumps(json.dumps([request.path, fields, deeds.holder(shop(), token) if token else None]))
    return _roster_page(kept=kept, status=401)


def _seal() -> URLSafeTimedSerializer:
    return URLSafeTimedSerializer(cast(bytes, current_app.config["SECRET"]), salt="kept")


@area.get("/sign-in")
def roster() -> Any:
    """Who works here, to find one's name in."""
    return _roster_page()


@area.post("/sign-in")
def roster_search() -> Any:
    """The same, searched while a kept form is carried along."""
    return _roster_page(kept=request.form.get("kept", ""))


def _roster_page(kept: str = "", status: int = 200) -> Response:
    find = request.values.get("find", "")[:80]
    rows = deeds.roster(shop(), find)
    return show("roster.html", status, rows=rows[:MOST_NAMES], more=len(rows[MOST_NAMES:]), find=find, kept=kept)


@area.route("/sign-in/<int:number>", methods=["GET", "POST"])
def door(number: int) -> Any:
    """One person's door: asks for the PIN or the passphrase."""
    row = deeds.roster_row(shop(), number)
    kept = request.form.get("kept", "")
    if "secret" not in request.form:
        return show("door.html", row=row, kept=kept, fault="")
    try:
        signed = deeds.sign_in(shop(), number, request.form["secret"], address=request.remote_addr or "", now=now())
    except StoreTrouble:
        raise
    except Refusal as error:
        status = 429 if isinstance(error, Waiting) else 401
        return show("door.html", status, row=row, kept=kept, fault=said(error))
    g.person = signed.person
    answer = _take_up(kept, number) if kept else redirect("/", 303)
    keep(cast(Response, answer), KEY, signed.token)
    return answer


def _take_up(kept: str, person: int) -> Any:
    """Hand a kept form back in its own page where it has one, to be sent by its owner with one press.

    Nobody else sees what was typed: it goes to whose session had ended, as far as that is known.
    """
    try:
        path, fields, owner = json.loads(_seal().loads(kept, max_age=LONGEST_KEPT))
    except (BadSignature, ValueError):
        return redirect("/", 303)
    if owner not in (None, person):
        return redirect("/", 303)
    for pattern, page in PLACES:
        found = pattern.fullmatch(path)
        if found is not None:
            try:
                return page(*found.groups(), [(name, value) for name, value in fields])
            except StoreTrouble:
                raise
            except Forbidden:
                return redirect("/", 303)
            except Refusal:
                break
    return show("kept.html", path=path, fields=fields)


@area.post("/sign-out")
def leave() -> Any:
    """End the session; half-done work stays where it is."""
    token = held(KEY)
    if token:
        deeds.sign_out(shop(), token, now=now())
    g.person = None
    answer = redirect("/sign-in", 303)
    let_go(cast(Response, answer), KEY)
    return answer


@area.route("/secret", methods=["GET", "POST"])
@signed_in()
def own_secret() -> Any:
    """Change one's own PIN or passphrase."""
    who = person()
    assert who is not None
    fault, at = "", "new"
    if request.method == "POST":
        if request.form.get("new", "") != request.form.get("again", ""):
            fault, at = _("The two new ones are not the same. Type the new one twice."), "again"
        else:
            try:
                deeds.change_own_secret(
                    shop(), who.person, request.form.get("old", ""), request.form.get("new", ""), now=now()
                )
                return redirect("/", 303)
            except StoreTrouble:
                raise
            except Refusal as error:
                fault, at = said(error), "old" if isinstance(error, WrongSecret | Waiting) else "new"
    pin = who.role in ("apprentice", "technician")
    return show("secret.html", 409 if fault else 200, fault=fault, at=at, pin=pin)
