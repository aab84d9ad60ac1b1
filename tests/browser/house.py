"""The invented shop behind the real server, with one of everything that a page can show, and a seat for each role."""

import datetime as dt
import logging
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from flask import Flask
from playwright.sync_api import Browser, BrowserContext
from waitress.server import create_server

import quizkit
from quizkit import shop as deeds
from quizkit.demo import content_folder, make_file
from quizkit.demo.answers import right, wrong
from quizkit.demo.cast import CAST
from quizkit.shop import Shop
from quizkit.web import create_app
from quizkit.web.bench import KEY

SEATS = {
    "nobody": "",
    "apprentice": "Lena Fisk",
    "newcomer": "Owen Birk",
    "technician": "Ruth Adeyo",
    "trainer": "Tomas Brandt",
    "manager": "Ines Varga",
}
"""Who sits at each browser of the tests: somebody of every role, and an apprentice who has only begun."""
DRAWN = {
    "number": "balancing/purged-enough",
    "choice": "ppe/sign-picture",
    "order": "ratio-pairing/pairing-order",
    "match": "ratio-pairing/family-match",
    "shelf": "balancing/shelf-shot",
    "table": "ppe/noise-dose",
}
ON_PURPOSE = "broken on purpose, to see what a person is told"
LONG_NAME = "Wilhelmina-Alexandra Featherstonehaugh-Oyelaran de la Cruz Vandersteenhoven, jr."
"""A name of the eighty characters that a name may have."""


@dataclass(frozen=True)
class House:
    """The running shop: its address, its app and file, and the numbers by which its pages are named."""

    address: str
    path: Path
    app: Flask
    facts: dict[str, str]

    def seat(self, browser: Browser, role: str, **more: object) -> BrowserContext:
        """A browser of its own for a role, signed in already where somebody sits there."""
        opened = browser.new_context(base_url=self.address, **{"viewport": {"width": 820, "height": 1180}, **more})
        name = SEATS[role]
        if name:
            secret = next(member.secret for member in CAST if member.name == name)
            with deeds.open_shop(self.path) as shop:
                person = deeds.roster(shop, name)[0].person
                token = deeds.sign_in(shop, person, secret, address=f"seat-{role}", now=_now()).token
            opened.add_cookies([{"name": KEY, "value": token, "url": self.address}])
        opened.set_default_timeout(15_000)
        return opened


def _now() -> dt.datetime:
    return dt.datetime.now(dt.UTC)


@contextmanager
def open_house(folder: Path) -> Iterator[House]:
    """Make the invented shop in a folder and serve it until the caller is done."""
    path = folder / "shop.db"
    pack = quizkit.compile_content(content_folder())
    make_file(path, pack, now=_now() - dt.timedelta(minutes=5))
    with deeds.open_shop(path) as shop:
        facts = _numbers(shop) | _drawn(shop) | _checks(shop) | _papers(shop)
        with serving(path) as (address, app):
            yield House(address, path, app, facts)


@contextmanager
def serving(path: Path) -> Iterator[tuple[str, Flask]]:
    """Serve a shop's file on any free port; one more address of it breaks on purpose."""
    app = create_app(path)
    app.add_url_rule("/broken-on-purpose", view_func=_break)
    logging.getLogger("quizkit.web").addFilter(lambda record: ON_PURPOSE not in str(record.exc_info))
    server = create_server(app, host="127.0.0.1", port=0, threads=4)
    runner = threading.Thread(target=server.run, daemon=True)
    runner.start()
    try:
        yield f"http://127.0.0.1:{server.effective_port}", app
    finally:
        server.task_dispatcher.shutdown()
        server.close()


def _break() -> str:
    raise RuntimeError(ON_PURPOSE)


def _person(shop: Shop, name: str) -> int:
    return deeds.roster(shop, name)[0].person


def _numbers(shop: Shop) -> dict[str, str]:
    people = {name.split()[0].lower(): str(_person(shop, name)) for name in (member.name for member in CAST)}
    manager = int(people["ines"])
    long = deeds.add_person(
        shop, name=LONG_NAME, role="apprentice", site="north", secret="6420", by=manager, now=_now()
    )
    return people | {"long": str(long)}


def _drawn(shop: Shop) -> dict[str, str]:
    """A practice question of each kind, one of them answered right and one wrong."""
    lena, pack = _person(shop, SEATS["apprentice"]), deeds.current_pack(shop)
    facts = {}
    for kind, question in DRAWN.items():
        facts[f"draw_{kind}"] = deeds.practise(shop, lena, question.split("/")[0], now=_now(), question=question).draw
    told = {"told_right": "ratio-pairing/hardener-share", "told_wrong": "bead-volume/bond-line"}
    for name, question in told.items():
        asked = deeds.practise(shop, lena, question.split("/")[0], now=_now(), question=question)
        typed = (wrong if name == "told_wrong" else right)(pack, asked.question)
        deeds.answer_practice(shop, lena, asked.draw, typed, now=_now())
        facts[name] = asked.draw
    return facts


def _checks(shop: Shop) -> dict[str, str]:
    """An open check with one answer that was not read, and forms that were handed in."""
    lena, pack = _person(shop, SEATS["apprentice"]), deeds.current_pack(shop)
    form = deeds.start_check(shop, lena, "bead-volume", now=_now())
    rows = deeds.check_list(shop, lena, form, now=_now()).rows
    kinds: dict[str, int] = {}
    for row in rows:
        question = deeds.check_item(shop, lena, form, row.item, now=_now()).question
        kinds.setdefault(question.parts[0].kind, row.item)
        if row.item == kinds.get("number"):
            typed = {part.name: "about 5 or 6" for part in question.parts if part.kind == "number"}
            deeds.answer_item(shop, lena, form, row.item, typed, now=_now())
        elif row.item % 2:
            deeds.answer_item(shop, lena, form, row.item, right(pack, question), now=_now())
    manager, marco = _person(shop, SEATS["manager"]), _person(shop, "Marco Teel")
    return {
        "form": str(form),
        "unread_item": str(kinds["number"]),
        "choice_item": str(kinds.get("choice", 1)),
        "passed_form": _linked(shop, manager, lena, "ratio-pairing", "form:"),
        "failed_form": _linked(shop, manager, marco, "ratio-pairing", "form:"),
    }


def _linked(shop: Shop, viewer: int, person: int, skill: str, kind: str) -> str:
    chain = deeds.cell(shop, viewer, person, skill, now=_now()).chain
    return next(row.link.removeprefix(kind) for row in chain if row.link.startswith(kind))


def _papers(shop: Shop) -> dict[str, str]:
    """A sheet that was signed, one that was refused, one that is parked, a certificate, and a check on paper."""
    manager, trainer = _person(shop, SEATS["manager"]), _person(shop, SEATS["trainer"])
    ruth, caleb, lena = _person(shop, SEATS["technician"]), _person(shop, "Caleb Strand"), _person(shop, "Lena Fisk")
    parked = deeds.SheetInput(person=lena, skill="balancing", seen=frozenset({1, 2}), note="The scale was not level.")
    deeds.park_sheet(shop, trainer, parked, now=_now())
    certificate = deeds.certificates(shop, manager, now=_now())[0]
    view = deeds.certificate(shop, manager, certificate.number, now=_now())
    return _desk(shop, manager) | {
        "paper": str(deeds.paper_form(shop, trainer, None, "ratio-pairing", now=_now()).number),
        "sheet": _linked(shop, manager, ruth, "balancing", "sheet:"),
        "refused_sheet": _linked(shop, manager, caleb, "bead-volume", "sheet:"),
        "certificate": str(certificate.number),
        "seal": view.head,
    }


def _desk(shop: Shop, manager: int) -> dict[str, str]:
    """A ticket of somebody at the bench with its day, and the month in which readings were skipped."""
    ruth = _person(shop, SEATS["technician"])
    ticket = next(
        job for job in deeds.lookback(shop, manager, now=_now(), person=ruth, most=1).jobs if job.person == ruth
    )
    months = deeds.saved_months(shop, manager, site="north")
    worst = max(months, key=lambda one: one.gap_money.value)
    return {"ticket": ticket.ticket, "ticket_day": ticket.done_on.isoformat(), "gap_month": worst.month}
