"""Tickets: the jobs of a day, one more to write down, or a list of them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any

from flask import Blueprint, Response, redirect, request

from quizkit import shop as deeds
from quizkit.exchange.desk import JOBS, read_jobs
from quizkit.shop import Lack, Refusal, Use
from quizkit.web.bench import TEACHING, me, now, person, said, shop, show
from quizkit.web.doors import signed_in
from quizkit.web.lists import Fault, taken_up
from quizkit.web.typed import day, whole, words

area = Blueprint("tickets", __name__)

LINES = 3
"""Materials that one form of a ticket takes."""


@area.get("/tickets")
@signed_in()
def tickets() -> Any:
    """The jobs of a day; at the bench one's own."""
    return _page()


@area.post("/tickets")
@signed_in()
def write_down() -> Any:
    """One more job."""
    form, uses = request.form, _uses()
    lacks, done_on = _day(form)
    try:
        told: dict[str, Any] = {
            "ticket": words(form, "ticket"),
            "job": words(form, "job"),
            "beside": whole(form, "beside"),
            "done_on": done_on,
            "site": words(form, "site"),
            "uses": list(uses.values()),
            "billed": words(form, "charge"),
            "now": now(),
        }
        doer = _doer()
        lacks += [_placed(one, list(uses)) for one in deeds.ticket_lacks(shop(), me(), person=doer, **told)]
        if lacks or doer is None:
            return _page(lacks=lacks, status=409)
        deeds.record_job(shop(), me(), person=doer, **told)
    except Refusal as error:
        return _page(said(error), status=409)
    return redirect(f"/tickets?day={words(form, 'done_on', 10)}", 303)


@area.post("/tickets/list")
@signed_in(*TEACHING)
def take_list() -> Any:
    """A list of jobs from a spreadsheet: all of them, or none and why."""
    faults = taken_up(read_jobs, lambda rows: deeds.record_jobs(shop(), rows, by=me(), now=now()))
    return _page(faults=faults, status=409) if faults else redirect("/tickets", 303)


@area.post("/tickets/<int:number>/withdraw")
@signed_in("manager")
def withdraw(number: int) -> Any:
    """Withdraw a wrong ticket by a row of its own."""
    deeds.strike(shop(), me(), f"job:{number}", words(request.form, "reason", 2000), now=now())
    return redirect(f"/tickets?day={words(request.form, 'day', 10)}", 303)


def _doer() -> int | None:
    """Who did the job: the one picked; at the bench, where nobody is to be picked, oneself."""
    who = person()
    picked = whole(request.form, "person")
    return None if picked is None and who is not None and who.role in TEACHING else picked or me()


def _day(form: Mapping[str, str]) -> tuple[list[Lack], date | None]:
    """The day in the form, or what is wrong with it."""
    try:
        return [], day(form, "done_on")
    except Refusal as error:
        return [Lack("done_on", str(error))], None


def _placed(lack: Lack, lines: Sequence[int]) -> Lack:
    """What a use lacks, at the line of the form in which it stands."""
    name, dash, turn = lack.place.rpartition("-")
    return Lack(f"{name}-{lines[int(turn) - 1]}", lack.words) if dash and lines else lack


def _page(fault: str = "", faults: tuple[Fault, ...] = (), status: int = 200, lacks: Sequence[Lack] = ()) -> Response:
    asked = day(request.args, "day") or (day(request.form, "done_on") if status == 200 else None)
    view, who = deeds.tickets(shop(), me(), now=now(), day=asked, site=words(request.args, "site")), person()
    teaching = who is not None and who.role in TEACHING
    return show(
        "tickets.html",
        status,
        here="/office" if teaching else "/tickets",
        view=view,
        kinds=deeds.jobs(shop(), now=now()),
        people=deeds.people(shop()),
        sites=deeds.sites(shop()),
        materials=[row.name for row in deeds.current_pack(shop()).shelf.rows],
        teaching=teaching,
        manager=who is not None and who.role == "manager",
        form=request.form,
        lines=range(1, LINES + 1),
        columns=JOBS.named(),
        fault=fault,
        lacks=lacks,
        faults=faults,
    )


def _uses() -> dict[int, Use]:
    """The materials in the form by their lines: one in which nothing was filled in is none."""
    found = {}
    for at in range(1, LINES + 1):
        cells = {name: words(request.form, f"{name}.{at}") for name in ("material", "lot_a", "lot_b", "used", "billed")}
        if any(cells.values()):
            typed = words(request.form, f"nozzles.{at}", 3)
            found[at] = Use(**cells, nozzles=int(typed) if typed.isdecimal() else 0 if not typed else -1)
    return found
