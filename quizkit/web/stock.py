"""Stock and month end: what is there, what came in and went out, and what of it was billed."""

from __future__ import annotations

from typing import Any

from flask import Blueprint, Response, abort, redirect, request

from quizkit import shop as deeds
from quizkit.exchange import table
from quizkit.exchange.desk import STOCK, month_table, read_stock
from quizkit.shop import Refusal
from quizkit.web.bench import TEACHING, me, now, person, said, shop, show
from quizkit.web.doors import signed_in
from quizkit.web.lists import Fault, taken_up
from quizkit.web.typed import day, words
from quizkit.words import _

area = Blueprint("stock", __name__)

FILES = {
    "csv": "text/csv",
    "xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
}


@area.get("/stock")
@signed_in(*TEACHING)
def stock() -> Any:
    """What should be there of each material at a site, and the latest rows."""
    return _stock()


@area.post("/stock")
@signed_in(*TEACHING)
def move() -> Any:
    """Stock that came in, or was thrown out."""
    form = request.form
    deed = deeds.scrap_stock if form.get("what") == "scrapped" else deeds.receive_stock
    try:
        deed(
            shop(),
            me(),
            words(form, "material"),
            words(form, "amount"),
            now=now(),
            on=day(form, "on"),
            site=words(form, "site"),
            lot=words(form, "lot"),
            note=words(form, "note", 2000),
        )
    except Refusal as error:
        return _stock(said(error), status=409)
    return redirect(_address(), 303)


@area.post("/stock/count")
@signed_in(*TEACHING)
def count() -> Any:
    """A count of the shelf: every box that was filled in, or none and why."""
    form = request.form
    names = [name.removeprefix("count.") for name in form if name.startswith("count.") and form[name].strip()]
    rows = [
        {
            "what": "counted",
            "material": name,
            "amount": words(form, f"count.{name}"),
            "day": words(form, "counted_on"),
            "site": words(form, "site"),
        }
        for name in names
    ]
    if not rows:
        return _stock(_("Nothing was counted. Fill in a box, then press once more."), status=409)
    added = deeds.add_stock(shop(), rows, by=me(), now=now())
    faults = tuple(Fault(0, one.what, one.mend) for one in added.problems)
    return _stock(faults=faults, status=409) if faults else redirect(_address(), 303)


@area.post("/stock/list")
@signed_in(*TEACHING)
def take_list() -> Any:
    """A list of stock from a spreadsheet: all of it, or none and why."""
    faults = taken_up(read_stock, lambda rows: deeds.add_stock(shop(), rows, by=me(), now=now()))
    return _stock(faults=faults, status=409) if faults else redirect(_address(), 303)


@area.post("/stock/<int:number>/withdraw")
@signed_in("manager")
def withdraw(number: int) -> Any:
    """Withdraw a wrong row of stock by a row of its own."""
    deeds.strike(shop(), me(), f"stock:{number}", words(request.form, "reason", 2000), now=now())
    return redirect(_address(), 303)


def _address() -> str:
    return f"/stock?site={words(request.form, 'site')}"


def _stock(fault: str = "", faults: tuple[Fault, ...] = (), status: int = 200) -> Response:
    view, who = deeds.stock(shop(), me(), now=now(), site=words(request.values, "site")), person()
    return show(
        "stock.html",
        status,
        here="/office",
        view=view,
        sites=[(one.id, one.title) for one in deeds.sites(shop())],
        form=request.form,
        manager=who is not None and who.role == "manager",
        columns=STOCK.named(),
        fault=fault,
        faults=faults,
    )


@area.get("/month")
@area.get("/month/<month>")
@signed_in(*TEACHING)
def month(month: str = "") -> Any:
    """What went into jobs in a month against what the tickets billed; the last month that is over."""
    return _month(words(request.args, "month") or month)


def _month(month: str, fault: str = "", status: int = 200) -> Response:
    site = words(request.values, "site")
    view, who = deeds.month_end(shop(), me(), month, now=now(), site=site), person()
    return show(
        "month.html",
        status,
        here="/office",
        view=view,
        sites=[(one.id, one.title) for one in deeds.sites(shop())],
        saved=deeds.saved_months(shop(), me()),
        manager=who is not None and who.role == "manager",
        fault=fault,
    )


@area.post("/month/<month>")
@signed_in("manager")
def save(month: str) -> Any:
    """Save a month's figures as evidence."""
    site = words(request.form, "site")
    try:
        deeds.save_month(shop(), me(), month, now=now(), site=site)
    except Refusal as error:
        return _month(month, said(error), 409)
    return redirect(f"/month/{month}?site={site}", 303)


@area.get("/month/<month>.<kind>")
@signed_in(*TEACHING)
def month_file(month: str, kind: str) -> Any:
    """The same for a spreadsheet, as CSV or as a workbook."""
    made = month_table(deeds.month_end(shop(), me(), month, now=now(), site=words(request.args, "site")))
    if kind not in FILES:
        abort(404)
    data = table.xlsx(made) if kind == "xlsx" else table.csv(made).encode("utf-8-sig")
    name = f"attachment; filename=month-{month}.{kind}"
    return Response(data, mimetype=FILES[kind], headers={"Content-Disposition": name})
