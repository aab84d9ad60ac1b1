"""Sheets: who waits, what was seen and measured, signing and refusing, and the paper that comes in later."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any
from urllib.parse import urlencode

from flask import Blueprint, Response, redirect, request

from quizkit import shop as deeds
from quizkit.shop import Lack, Lacking, Refusal, SheetInput
from quizkit.web.bench import TEACHING, me, now, person, said, shop, show
from quizkit.web.doors import signed_in
from quizkit.web.typed import day, whole, wholes, words
from quizkit.words import _

area = Blueprint("trainer", __name__)


@area.get("/sheets")
@signed_in(*TEACHING)
def waiting() -> Any:
    """Who waits for a sign-off, what is parked, what was seen and waits for a passphrase, talks and appeals."""
    return _waiting()


def _waiting(fault: str = "", status: int = 200) -> Response:
    site = words(request.values, "site")
    view, signed = deeds.waiting(shop(), me(), now=now(), site=site), wholes(request.args.getlist("signed"))[:100]
    done = [deeds.sheet_record(shop(), me(), number, now=now()) for number in signed]
    told = {
        "fault": fault,
        "signed": [one for one in done if one.signatures],
        "site": site,
        "answered": request.args.get("answered") == "yes",
    }
    return show("sheets.html", status, here="/sheets", view=view, sites=deeds.sites(shop()), **told)


@area.get("/sheets/open")
@signed_in()
def choose() -> Any:
    """A sheet for somebody who does not wait for one: a further material, a renewal, a second look."""
    number, skill = whole(request.args, "person"), words(request.args, "skill")
    if number is not None and skill:
        return redirect(f"/sheets/{number}/{skill}", 303)
    pack = deeds.current_pack(shop())
    told: dict[str, Any] = {
        "person": number or "",
        "skill": skill,
        "fault": _("Pick the name and the skill.") if request.args else "",
    }
    return show("choose.html", here="/sheets", people=deeds.people(shop()), modules=pack.modules, **told)


@area.post("/sheets/sign")
@signed_in(*TEACHING)
def sign_many() -> Any:
    """Sign the sheets of a visit together, with one passphrase."""
    chosen = wholes(request.form.getlist("sheet"))
    try:
        deeds.sign_observed(shop(), me(), chosen, request.form.get("secret", ""), now=now())
    except Refusal as error:
        return _waiting(said(error), 409)
    return redirect(f"/sheets?{urlencode([('signed', number) for number in chosen])}", 303)


@area.get("/sheets/<int:number>/<skill>")
@signed_in()
def sheet(number: int, skill: str) -> Any:
    """The sheet of one person and one skill, as it was parked or blank."""
    return _sheet(deeds.open_sheet(shop(), me(), number, skill, now=now()))


@area.post("/sheets/<int:number>/<skill>")
@signed_in()
def sheet_done(number: int, skill: str) -> Any:
    """What is done with a sheet: judged as typed (nothing written), parked, recorded as seen, signed or refused."""
    given = _given(number, skill)
    do = request.form.get("do", "judge")
    try:
        if do == "park":
            deeds.park_sheet(shop(), me(), given, now=now())
            return redirect("/sheets", 303)
        if do == "drop":
            deeds.drop_parked(shop(), me(), number, skill, now=now())
            return redirect("/sheets", 303)
        if do == "sign":
            return redirect(f"/sheet/{deeds.sign_sheet(shop(), me(), given, now=now())}", 303)
        if do == "refuse":
            kept = deeds.refuse_sheet(shop(), me(), given, words(request.form, "reason", 2000), now=now())
            return redirect(f"/sheet/{kept}", 303)
        if do == "observe":
            return redirect(f"/sheet/{deeds.observe_sheet(shop(), me(), given, now=now())}", 303)
    except Lacking as error:
        return _sheet(deeds.judge_sheet(shop(), me(), given, now=now()), error.what, 409, True, error.lacks)
    except Refusal as error:
        return _sheet(deeds.judge_sheet(shop(), me(), given, now=now()), said(error), 409)
    return _sheet(deeds.judge_sheet(shop(), me(), given, now=now()), judged=True)


def _sheet(view: Any, fault: str = "", status: int = 200, judged: bool = False, lacks: Sequence[Lack] = ()) -> Response:
    reason = words(request.form, "reason", 2000)
    refusing = bool(reason) or request.form.get("do") == "refuse"
    told = {"fault": fault, "lacks": lacks, "judged": judged, "reason": reason, "refusing": refusing}
    return show("sheet.html", status, here="/sheets", view=view, **told)


def _given(number: int, skill: str) -> SheetInput:
    """What stands in the form of a sheet."""
    form = request.form
    photo = request.files.get("photo")
    return SheetInput(
        person=number,
        skill=skill,
        material=words(form, "material"),
        seen=frozenset(wholes(form.getlist("seen"))),
        measures={key.removeprefix("measure."): form[key] for key in form if key.startswith("measure.")},
        instrument=words(form, "instrument"),
        seen_on=day(form, "seen_on"),
        note=words(form, "note", 2000),
        photo=photo.read() if photo else b"",
        late=form.get("late") == "yes",
        ticket=words(form, "ticket", 60),
    )


@area.get("/sheet/<int:number>")
@signed_in()
def record(number: int) -> Any:
    """A sheet as it was recorded: steps, measurements with their judges, who signed and by what right."""
    view, who = deeds.sheet_record(shop(), me(), number, now=now()), person()
    return show("sheet_record.html", here="/sheets", view=view, role=who.role if who else "", own=me() == view.person)


@area.get("/sheet/<int:number>/photo")
@signed_in()
def photo(number: int) -> Any:
    """The photo of a paper sheet."""
    data, mime = deeds.photo(shop(), me(), number)
    return Response(data, mimetype=mime)
