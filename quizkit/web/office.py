"""The papers of the desk: people, entitlements, certificates."""

from __future__ import annotations

from typing import Any

import segno
from flask import Blueprint, redirect, request
from markupsafe import Markup

from quizkit import shop as deeds
from quizkit.pages import safe
from quizkit.shop import Refusal, WeakSecret
from quizkit.web.bench import TEACHING, me, now, person, said, shop, show
from quizkit.web.doors import signed_in
from quizkit.web.typed import day, whole, words
from quizkit.words import _, ngettext

area = Blueprint("office", __name__)

ROLES = ("apprentice", "technician", "trainer", "manager")


@area.get("/office")
@signed_in(*TEACHING)
def office() -> Any:
    """Everything that is done at the desk and not at the bench."""
    rights = [("/entitlements", _("Entitlements"), _("who may sign the sheets of which skill"))] if _manager() else []
    groups = [
        (
            _("People"),
            [
                ("/people", _("People"), _("who works here; adding, new PINs, leaving")),
                *rights,
                ("/certificates", _("Certificates"), _("what was issued, to print or to withdraw")),
                ("/plan", _("Who next"), _("the least training and renewing that keeps cover")),
            ],
        ),
        (
            _("Lessons and checks"),
            [
                ("/questions", _("Questions"), _("how they were answered in checks, and any of them with its key")),
                ("/changes", _("Changes on the shelf"), _changes()),
                ("/paper", _("Paper"), _("checks and sheets to print, and what comes back on them")),
            ],
        ),
        (
            _("Jobs and material"),
            [
                ("/tickets", _("Tickets"), _("the jobs of a day, with lots, what was used and what was billed")),
                ("/stock", _("Stock"), _("count it, receive it, scrap it")),
                ("/month", _("Month end"), _("what was used against what was billed")),
                ("/lookback", _("Look back"), _("what stood behind a job in the past, in one bundle to print")),
            ],
        ),
        (
            _("Files"),
            [
                (
                    "/files",
                    _("Files to take away"),
                    _("matrix, cover, calendar of lapses, plan, certificates and more"),
                )
            ],
        ),
    ]
    return show("office.html", here="/office", groups=groups)


def _changes() -> str:
    """What waits among the changes of the shelf."""
    count = deeds.unmarked(shop())
    if not count:
        return _("a product that changed: small, or to be shown again")
    return ngettext("{n} change of a material to look at", "{n} changes of materials to look at", count).format(n=count)


def _manager() -> bool:
    who = person()
    return who is not None and who.role == "manager"


@area.get("/people")
@signed_in(*TEACHING)
def people() -> Any:
    """Who works here, with a form for one more."""
    return _people()


def _people(fault: str = "", status: int = 200, at: str = "") -> Any:
    everybody, gone = deeds.people(shop(), with_left=request.args.get("left") == "yes"), whole(request.args, "gone")
    left = [one.person for one in deeds.people(shop(), with_left=True) if one.left] if gone else []
    return show(
        "people.html", status, here="/office", people=everybody, sites=deeds.sites(shop()), roles=ROLES,
        form=request.form, fault=fault, at=at, manager=_manager(), gone=gone if gone in left else None,
    )  # fmt: skip


@area.post("/people")
@signed_in("manager")
def add_person() -> Any:
    """One more person."""
    form = request.form
    try:
        number = deeds.add_person(
            shop(),
            name=words(form, "name"),
            role=words(form, "role"),
            site=words(form, "site"),
            secret=form.get("secret", ""),
            by=me(),
            now=now(),
        )
    except Refusal as error:
        return _people(said(error), 409, "secret" if isinstance(error, WeakSecret) else "name")
    return redirect(f"/people/{number}", 303)


@area.get("/people/<int:number>")
@signed_in()
def one(number: int) -> Any:
    """One person: their standings, proofs and certificates, and what the viewer may change."""
    return _one(number)


def _one(number: int, fault: str = "", status: int = 200) -> Any:
    view = deeds.person_view(shop(), number)
    who = person()
    return show(
        "person.html",
        status,
        here="/office",
        view=view,
        shelf=deeds.shelf(shop(), number, now=now()),
        sets=deeds.certificate_state(shop(), me(), number, now=now()),
        kinds=deeds.settings(shop()).proofs,
        sites=deeds.sites(shop()),
        roles=ROLES,
        manager=_manager(),
        teaching=who is not None and who.role in TEACHING,
        own=who is not None and who.person == number,
        pin=view.role in ("apprentice", "technician"),
        reset=request.args.get("reset") == "yes",
        fault=fault,
    )


@area.post("/people/<int:number>/<deed>")
@signed_in("manager", "trainer")
def change(number: int, deed: str) -> Any:
    """A change to one person: role and site, name, a new PIN or passphrase, leaving."""
    form = request.form
    try:
        if deed == "place":
            deeds.change_person(
                shop(), number, by=me(), now=now(), role=words(form, "role") or None, site=words(form, "site") or None
            )
        elif deed == "name":
            deeds.rename_person(shop(), number, words(form, "name"), by=me(), now=now())
        elif deed == "secret":
            secret, reason = form.get("secret", ""), words(form, "reason", 2000)
            deeds.reset_secret(shop(), number, secret, reason, by=me(), now=now())
        elif deed == "leave":
            if form.get("sure") != "yes":
                return _one(number, _("Tick the box first: what is erased cannot be brought back."), 409)
            deeds.leave(shop(), number, by=me(), now=now())
            return redirect(f"/people?gone={number}", 303)
    except Refusal as error:
        return _one(number, said(error), 409)
    return redirect(f"/people/{number}" + ("?reset=yes" if deed == "secret" else ""), 303)


@area.get("/me")
@signed_in()
def mine() -> Any:
    """One's own page."""
    return redirect(f"/people/{me()}", 303)


@area.route("/entitlements", methods=["GET", "POST"])
@signed_in("manager")
def entitlements() -> Any:
    """Who may sign sheets of which skill, and granting one more."""
    form, fault = request.form, ""
    if request.method == "POST":
        try:
            deeds.grant(
                shop(),
                me(),
                whole(form, "person") or 0,
                words(form, "skill"),
                now=now(),
                starts=day(form, "starts"),
                until=day(form, "until"),
                basis=words(form, "basis", 2000),
                founding=form.get("founding") == "yes",
            )
            return redirect("/entitlements", 303)
        except Refusal as error:
            fault = said(error)
    return show(
        "entitlements.html", 409 if fault else 200, here="/office", rows=deeds.entitlements(shop(), now=now()),
        people=deeds.people(shop()), modules=deeds.current_pack(shop()).modules, form=form, fault=fault,
    )  # fmt: skip


@area.post("/entitlements/<int:number>/end")
@signed_in("manager")
def end_entitlement(number: int) -> Any:
    """End an entitlement; what was signed under it stands."""
    deeds.end_entitlement(shop(), me(), number, words(request.form, "reason", 2000), now=now())
    return redirect("/entitlements", 303)


@area.get("/certificates")
@signed_in(*TEACHING)
def certificates() -> Any:
    """All certificates that were issued."""
    return show("certificates.html", here="/office", rows=deeds.certificates(shop(), me(), now=now()))


@area.post("/certificates")
@signed_in(*TEACHING)
def issue() -> Any:
    """Issue a certificate to somebody who holds all skills of a set."""
    form = request.form
    number = deeds.issue_certificate(shop(), me(), whole(form, "person") or 0, words(form, "set"), now=now())
    return redirect(f"/certificates/{number}", 303)


@area.get("/certificates/<int:number>")
@signed_in()
def certificate(number: int) -> Any:
    """The printable certificate, with the code of its check page where the shop has an address."""
    view = deeds.certificate(shop(), me(), number, now=now())
    who = person()
    may_withdraw = view.state == "valid" and who is not None and who.role in TEACHING
    manager = who is not None and who.role == "manager"
    code = _code(view.check_address) if view.check_address else ""
    return show("certificate.html", view=view, code=code, may_withdraw=may_withdraw, manager=manager)


@area.get("/c/<int:number>/<seal>")
def check_page(number: int, seal: str) -> Any:
    """The check page: tells a stranger who holds a printed certificate whether it stands, and nothing more."""
    view = deeds.check_certificate(shop(), number, seal, now=now())
    return show("certificate_check.html", view=view)


def _code(address: str) -> Markup:
    return safe(segno.make(address, error="m").svg_inline(scale=4, title=_("Code of the check page")))


@area.post("/certificates/<int:number>/withdraw")
@signed_in(*TEACHING)
def withdraw_certificate(number: int) -> Any:
    """Withdraw a certificate, with a reason."""
    deeds.withdraw_certificate(shop(), me(), number, words(request.form, "reason", 2000), now=now())
    return redirect(f"/certificates/{number}", 303)
