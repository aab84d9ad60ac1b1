"""Paper: checks and sheets to print, and what comes back on them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from flask import Blueprint, Response, abort, redirect, request

from quizkit import shop as deeds
from quizkit.press.sheets import sheet_values
from quizkit.shop import Lack, Lacking, PaperForm, PartView, Refusal
from quizkit.web import answers
from quizkit.web.bench import TEACHING, me, now, said, shop, show
from quizkit.web.doors import signed_in
from quizkit.web.typed import day, whole, wholes, words
from quizkit.words import _

area = Blueprint("paper", __name__)


@area.get("/paper")
@signed_in(*TEACHING)
def desk() -> Any:
    """What can be printed, what was just drawn, and what has not come back yet."""
    return _desk()


def _desk(fault: str = "", status: int = 200, place: str = "skill") -> Response:
    drawn = wholes(request.args.getlist("form"))
    return show(
        "paper.html",
        status,
        here="/office",
        modules=deeds.current_pack(shop()).modules,
        people=deeds.people(shop()),
        waiting=deeds.papers(shop(), me()),
        drawn=drawn,
        query=_query(drawn),
        form=request.form,
        fault=fault,
        place=place,
    )


@area.post("/paper")
@signed_in(*TEACHING)
def draw() -> Any:
    """Draw checks and record them: so many blank ones, or one for a person."""
    form = request.form
    skill, person = words(form, "skill"), whole(form, "person")
    try:
        if not skill:
            raise Refusal(_("No skill is picked"), _("pick the one to print checks of"))
        if person is not None:
            made: tuple[PaperForm, ...] = (deeds.paper_form(shop(), me(), person, skill, now=now()),)
        else:
            made = deeds.paper_forms(shop(), me(), skill, whole(form, "copies") or 0, now=now())
    except Lacking as error:
        return _desk(said(error), 409, error.lacks[0].place)
    except Refusal as error:
        return _desk(said(error), 409)
    return redirect("/paper?" + _query([one.number for one in made]), 303)


def _query(numbers: list[int]) -> str:
    """The part of an address that names some checks."""
    return "&".join(f"form={number}" for number in numbers)


@area.get("/paper/checks")
@signed_in(*TEACHING)
def checks() -> Any:
    """Checks to print, a copy a sheet, without a key."""
    return _printed("paper_check.html")


@area.get("/paper/keys")
@signed_in(*TEACHING)
def keys() -> Any:
    """The marking sheets of the same checks."""
    return _printed("paper_marking.html")


def _printed(template: str) -> Response:
    papers = [deeds.paper(shop(), me(), number) for number in wholes(request.args.getlist("form"))]
    if not papers:
        abort(404)
    return show(template, here="/office", papers=papers)


@area.get("/paper/sheet/<skill>")
@signed_in(*TEACHING)
def sheet(skill: str) -> Any:
    """A skill's sheet to print."""
    module = next((one for one in deeds.current_pack(shop()).modules if one.scheme.skill == skill), None)
    if module is None or module.sheet is None:
        abort(404)
    return show("paper_sheet.html", here="/office", **sheet_values(deeds.current_pack(shop()), module, module.sheet))


@area.get("/paper/<int:form>")
@signed_in(*TEACHING)
def one(form: int) -> Any:
    """A check that came back, to be typed in."""
    view = deeds.paper(shop(), me(), form)
    return redirect(f"/check/form/{form}/result", 302) if view.entered else _entry(view)


@area.post("/paper/<int:form>")
@signed_in(*TEACHING)
def enter(form: int) -> Any:
    """Type a check in: all of it, or nothing and why."""
    view = deeds.paper(shop(), me(), form)
    written = {item: _typed(item, question.parts) for item, question in enumerate(view.items, 1)}
    person = view.person or whole(request.form, "person")
    if person is None:
        return _entry(view, written, _("Whose paper is it? Pick the name."), 409)
    try:
        deeds.enter_paper_check(
            shop(),
            me(),
            person,
            form,
            written,
            now=now(),
            seen_on=day(request.form, "seen_on"),
            sure=request.form.get("sure") == "yes",
        )
    except Lacking as error:
        return _entry(view, written, error.what, 409, error.lacks)
    except Refusal as error:
        return _entry(view, written, said(error), 409)
    return redirect(f"/check/form/{form}/result", 303)


def _named(item: int, parts: tuple[PartView, ...]) -> list[PartView]:
    """The parts of a question under names that no other question of the page has."""
    return [replace(part, name=f"{item}.{part.name}") for part in parts]


def _typed(item: int, parts: tuple[PartView, ...]) -> dict[str, str]:
    """What was written to each part: an order as its line of numbers, all else from its boxes."""
    fields = request.form.to_dict(flat=False)
    found = answers.typed(fields, _named(item, parts))
    lines = {part.name: words(request.form, f"part.{item}.{part.name}") for part in parts if part.kind == "order"}
    return {part.name: lines.get(part.name, found[f"{item}.{part.name}"]) for part in parts}


def _entry(
    view: PaperForm,
    written: dict[int, dict[str, str]] | None = None,
    fault: str = "",
    status: int = 200,
    lacks: Sequence[Lack] = (),
) -> Response:
    items = []
    for item, question in enumerate(view.items, 1):
        typed = (written or {}).get(item, {})
        parts = [
            replace(named, typed=typed.get(part.name, ""))
            for named, part in zip(_named(item, question.parts), question.parts, strict=True)
        ]
        filled = {part.name: answers.boxes(part) if part.kind in ("choice", "match") else {} for part in parts}
        items.append((question, parts, filled))
    return show(
        "paper_entry.html",
        status,
        here="/office",
        view=view,
        items=items,
        people=deeds.people(shop()),
        form=request.form,
        fault=fault,
        lacks=lacks,
    )
