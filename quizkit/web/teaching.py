"""What a trainer does about one person and one skill beside the sheet: talks, waits, withdrawals, proofs, appeals."""

from __future__ import annotations

from typing import Any

from flask import Blueprint, redirect, request

from quizkit import shop as deeds
from quizkit.web.bench import TEACHING, me, now, shop
from quizkit.web.doors import signed_in
from quizkit.web.typed import day, whole, words

area = Blueprint("teaching", __name__)


def _back(person: int, skill: str) -> Any:
    return redirect(f"/matrix/{person}/{skill}", 303)


@area.post("/talk/<int:person>/<skill>")
@signed_in(*TEACHING)
def talk(person: int, skill: str) -> Any:
    """Record what was practised after two failed checks."""
    deeds.record_talk(shop(), me(), person, skill, words(request.form, "practised", 2000), now=now())
    return _back(person, skill)


@area.post("/lift/<int:person>/<skill>")
@signed_in(*TEACHING)
def lift(person: int, skill: str) -> Any:
    """Lift the wait after a failed check, with a reason."""
    deeds.lift_wait(shop(), me(), person, skill, words(request.form, "reason", 2000), now=now())
    return _back(person, skill)


@area.post("/withdraw/<int:person>/<skill>")
@signed_in(*TEACHING)
def withdraw(person: int, skill: str) -> Any:
    """Withdraw a skill, with a reason."""
    reason = words(request.form, "reason", 2000)
    deeds.withdraw(shop(), me(), person, skill, reason, now=now(), seen_on=day(request.form, "seen_on"))
    return _back(person, skill)


@area.post("/withdrawal/<int:number>/end")
@signed_in("manager")
def end_withdrawal(number: int) -> Any:
    """End a withdrawal; earlier evidence counts again only if that is said here."""
    reason, restores = words(request.form, "reason", 2000), request.form.get("restores") == "yes"
    deeds.end_withdrawal(shop(), me(), number, reason, now=now(), restores=restores)
    person, skill = whole(request.form, "person"), words(request.form, "skill")
    return _back(person, skill) if person and skill else redirect("/sheets", 303)


@area.post("/strike")
@signed_in("manager")
def strike() -> Any:
    """Withdraw a wrong row by a new one, with a reason."""
    row = words(request.form, "row", 40)
    deeds.strike(shop(), me(), row, words(request.form, "reason", 2000), now=now())
    return redirect("/sheets", 303)


@area.post("/appeals/<int:number>")
@signed_in(*TEACHING)
def answer_appeal(number: int) -> Any:
    """Answer an appeal: upheld or not, with words that the person reads."""
    upheld = request.form.get("upheld") == "yes"
    deeds.answer_appeal(shop(), me(), number, words(request.form, "words", 2000), upheld, now=now())
    return redirect("/sheets?answered=yes", 303)


@area.post("/proofs/<int:person>")
@signed_in(*TEACHING)
def proof(person: int) -> Any:
    """Record an outside proof that was seen on paper: what, until when, by whom; no medical detail."""
    form = request.form
    until, seen, detail = day(form, "until"), day(form, "seen_on"), words(form, "detail")
    deeds.see_proof(shop(), me(), person, words(form, "kind"), until, now=now(), seen_on=seen, detail=detail)
    return redirect(f"/people/{person}", 303)
