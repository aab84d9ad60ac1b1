"""Jobs done, as on their tickets: who did what with which lots, how much was used, and what was billed for it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import TypeVar

from quizkit.arith import nearest
from quizkit.formula import Row
from quizkit.pack.model import Pack
from quizkit.shop.amounts import (
    CENT,
    Amount,
    cartridge_words,
    material_on,
    money,
    price_of,
    read_amount,
    read_money,
)
from quizkit.shop.handle import Shop, Stored, chosen
from quizkit.shop.overrides import past
from quizkit.shop.packs import pack_on, settings, sites
from quizkit.shop.people import PersonView, day_at, here, person_view
from quizkit.shop.refusal import Forbidden, Lack, Refusal
from quizkit.trade import SUMS
from quizkit.words import _

Read = TypeVar("Read")

LONGEST_TICKET = 60
LONGEST_LOT = 60
MOST_NOZZLES = 99
ANY_CARTRIDGE = Fraction(10**6)
"""A cartridge larger than any, by which an amount is read while its material is not picked."""


@dataclass(frozen=True, slots=True)
class Use:
    """A material used on a job, as typed: `used` "85 mL", "1/2 cartridge" or "30 to 115 mL"; `billed` blank is as used.

    `lot_a` and `lot_b` are the lots of its two sides.
    """

    material: str
    lot_a: str
    lot_b: str
    used: str
    billed: str = ""
    nozzles: int = 0


@dataclass(frozen=True, slots=True)
class ReadyUse:
    """A use that was read: amounts in cartridges."""

    material: str
    lot_a: str
    lot_b: str
    used: Fraction
    billed: Fraction
    nozzles: int


@dataclass(frozen=True, slots=True)
class ReadyJob:
    """A job that was read and may be written down. `charge` is what the ticket bills for its materials."""

    ticket: str
    job: str
    person: int
    beside: int | None
    site: str
    done_on: dt.date
    charge: Fraction
    uses: tuple[ReadyUse, ...]


@dataclass(frozen=True, slots=True)
class UseView:
    """A use as a ticket shows it."""

    material: str
    lot_a: str
    lot_b: str
    used: Amount
    billed: Amount
    nozzles: int


@dataclass(frozen=True, slots=True)
class JobView:
    """A job on file. `late` is one written down after its day; `struck` why it was withdrawn, or ""."""

    number: int
    ticket: str
    job: str
    title: str
    person: int
    name: str
    beside: int | None
    beside_name: str
    site: str
    site_title: str
    done_on: dt.date
    recorded_at: dt.datetime
    late: bool
    by: str
    charge: Amount
    uses: tuple[UseView, ...]
    struck: str
    seal: str


@dataclass(frozen=True, slots=True)
class TicketsView:
    """The jobs of a day, those that the viewer may see, in the order they were written down, and the shop's money."""

    day: dt.date
    today: dt.date
    site: str
    currency: str
    jobs: tuple[JobView, ...]


def record_job(
    shop: Shop,
    by: int,
    *,
    ticket: str,
    job: str,
    person: int,
    uses: Sequence[Use],
    now: dt.datetime,
    beside: int | None = None,
    done_on: dt.date | None = None,
    site: str = "",
    billed: str = "",
) -> int:
    """Write a job down and give its number: by whoever did it, a trainer or a manager.

    `job` is a kind of job, `done_on` its day (today where none is given), `site` the person's own unless said. `billed`
    is what the ticket charges for the materials; blank, it is worked out by the shop's markup and least charge. Refuses
    a day to come, what is not on the shelf, a missing lot, and the very same job twice.
    """
    with shop.deed(now):
        ready = ready_job(
            shop, by, ticket=ticket, job=job, person=person, uses=uses, now=now, beside=beside, done_on=done_on,
            site=site, billed=billed,
        )  # fmt: skip
        return write_job(shop, by, ready)


def ready_job(
    shop: Shop,
    by: int,
    *,
    ticket: str,
    job: str,
    person: int,
    uses: Sequence[Use],
    now: dt.datetime,
    beside: int | None,
    done_on: dt.date | None,
    site: str,
    billed: str,
) -> ReadyJob:
    """A job read and held to the rules, with nothing written yet. Raises Refusal."""
    view = here(shop, person)
    may_record(shop, by, person)
    name = _ticket(ticket)
    _beside(shop, person, beside)
    kind = _kind(shop, job)
    place = chosen([one.id for one in sites(shop)], site or view.site, _("site"))
    day = past(shop, view, done_on, now)
    if not uses:
        raise Refusal(_("No material is on this ticket"), _("say what was used, from which lots, and how much"))
    pack = pack_on(shop, day)
    ready = tuple(_use(shop, pack, one, day) for one in uses)
    charge = read_money(pack, billed) if billed.strip() else _charge(shop, pack, ready, day)
    made = ReadyJob(name, kind, person, beside, place, day, charge, ready)
    if any(_same(shop, row, made) for row in shop.rows("job", ticket=name)):
        raise Refusal(
            _("Ticket {ticket} has this very job already").format(ticket=name),
            _("look at the tickets of that day; a wrong one is withdrawn there"),
        )
    return made


def ticket_lacks(
    shop: Shop,
    by: int,
    *,
    ticket: str,
    job: str,
    person: int | None,
    uses: Sequence[Use],
    now: dt.datetime,
    beside: int | None,
    done_on: dt.date | None,
    site: str,
    billed: str,
) -> tuple[Lack, ...]:
    """All that keeps a ticket as typed from being written down, each with its place on the form.

    A use's places are numbered by its turn, from 1: "lot_a-2". What only shows once all can be read (the same job
    twice) is left to the deed.
    """
    found: list[Lack] = []
    view = here(shop, by if person is None else person)
    _tried(found, "ticket", lambda: _ticket(ticket))
    _tried(found, "job", lambda: _kind(shop, job))
    if person is None:
        found.append(Lack("person", _("nobody is picked as the one who did it")))
    _tried(found, "beside", lambda: _beside(shop, person, beside))
    day = _tried(found, "done_on", lambda: past(shop, view, done_on, now)) or day_at(shop, view, now)
    _tried(found, "site", lambda: chosen([one.id for one in sites(shop)], site or view.site, _("site")))
    pack = pack_on(shop, day)
    if not uses:
        found.append(Lack("material-1", _("no material is on this ticket: say what, from which lots, and how much")))
    for turn, one in enumerate(uses, 1):
        _tried_use(found, shop, pack, one, day, turn)
    if billed.strip():
        _tried(found, "charge", lambda: read_money(pack, billed))
    return tuple(found)


def _tried(found: list[Lack], place: str, read: Callable[[], Read]) -> Read | None:
    """What was read; None where it was refused, and then the refusal is among what was found."""
    try:
        return read()
    except Refusal as refusal:
        mend = refusal.mend[:1].upper() + refusal.mend[1:]
        found.append(Lack(place, f"{refusal.what}. {mend}" if mend else refusal.what))
        return None


def _tried_use(found: list[Lack], shop: Shop, pack: Pack, one: Use, day: dt.date, turn: int) -> None:
    row = _tried(found, f"material-{turn}", lambda: material_on(shop, one.material, day))
    known = row or Row(_("Material {n}").format(n=turn), (("cartridge", ANY_CARTRIDGE),))
    _tried(found, f"lot_a-{turn}", lambda: _lot(known, "A", one.lot_a))
    _tried(found, f"lot_b-{turn}", lambda: _lot(known, "B", one.lot_b))
    _tried(found, f"used-{turn}", lambda: _used(pack, known, one))
    if one.billed.strip():
        _tried(found, f"billed-{turn}", lambda: read_amount(pack, known, one.billed, counted=False))
    _tried(found, f"nozzles-{turn}", lambda: _nozzles(known, one))


def write_job(shop: Shop, by: int, ready: ReadyJob) -> int:
    """Write down a job that was read; only inside a deed."""
    number = shop.add(
        "job",
        by=by,
        seen_on=ready.done_on,
        ticket=ready.ticket,
        kind=ready.job,
        person=ready.person,
        beside=ready.beside,
        site=ready.site,
        done_on=ready.done_on,
        billed=str(ready.charge),
    )
    for one in ready.uses:
        shop.add(
            "job_use",
            by=by,
            seen_on=ready.done_on,
            job=number,
            material=one.material,
            lot_a=one.lot_a,
            lot_b=one.lot_b,
            used=str(one.used),
            nozzles=one.nozzles,
            billed=str(one.billed),
        )
    return number


def tickets(shop: Shop, viewer: int, *, now: dt.datetime, day: dt.date | None = None, site: str = "") -> TicketsView:
    """The jobs of a day (today where none is given); at the bench, one's own alone. Refuses a day to come."""
    who = person_view(shop, viewer)
    asked, today = past(shop, who, day, now), day_at(shop, who, now)
    rows = shop.rows("job", done_on=asked)
    if who.role not in ("trainer", "manager"):
        rows = [row for row in rows if viewer in (row["person"], row["beside"])]
    jobs = tuple(job_view(shop, row) for row in rows if site in ("", row["site"]))
    return TicketsView(asked, today, site, pack_on(shop, asked).scheme.currency, jobs)


def job_view(shop: Shop, row: Stored) -> JobView:
    """A job on file, as its day had it."""
    titles = {one.id: one.title for one in settings(shop).jobs}
    places = {one.id: one.title for one in sites(shop)}
    pack, struck = pack_on(shop, row["done_on"]), shop.row("strike", of_table="job", of_row=row["id"])
    person = person_view(shop, row["person"])
    return JobView(
        number=row["id"],
        ticket=row["ticket"],
        job=row["kind"],
        title=titles.get(row["kind"]) or str(row["kind"]),
        person=row["person"],
        name=person.name,
        beside=row["beside"],
        beside_name=person_view(shop, row["beside"]).name if row["beside"] is not None else "",
        site=row["site"],
        site_title=places.get(row["site"]) or str(row["site"]),
        done_on=row["done_on"],
        recorded_at=row["recorded_at"],
        late=day_at(shop, person, row["recorded_at"]) > row["done_on"],
        by=person_view(shop, row["done_by"]).name if row["done_by"] else "",
        charge=money(pack, Fraction(row["billed"])),
        uses=tuple(_use_view(pack, one) for one in shop.rows("job_use", job=row["id"])),
        struck=struck["note"] if struck else "",
        seal=row["seal"],
    )


def may_record(shop: Shop, by: int, person: int) -> PersonView:
    """Who writes a job down: the person who did it, a trainer or a manager."""
    view = here(shop, by)
    if by != person and view.role not in ("trainer", "manager"):
        raise Forbidden(_("This is somebody else's job"), _("they, a trainer or a manager write it down"))
    return view


def one_line(text: str, most: int, missing: str, mend: str) -> str:
    """A short text without line ends. Refuses none at all, and one longer than `most`."""
    tidy = " ".join(text.split())
    if not tidy:
        raise Refusal(missing, mend)
    if len(tidy) > most:
        raise Refusal(
            _("'{text}…' is too long").format(text=tidy[:20]), _("keep it to {count} characters").format(count=most)
        )
    return tidy


def _use(shop: Shop, pack: Pack, one: Use, day: dt.date) -> ReadyUse:
    row = material_on(shop, one.material, day)
    lot_a, lot_b = _lot(row, "A", one.lot_a), _lot(row, "B", one.lot_b)
    used = _used(pack, row, one)
    nozzles = _nozzles(row, one)
    billed = read_amount(pack, row, one.billed, counted=False) if one.billed.strip() else used
    return ReadyUse(row.name, lot_a, lot_b, used, billed, nozzles)


def _ticket(typed: str) -> str:
    return one_line(typed, LONGEST_TICKET, _("The ticket's number is missing"), _("copy it from the ticket"))


def _beside(shop: Shop, person: int | None, beside: int | None) -> None:
    """Refuses whoever is said to have worked beside themselves, or is nobody of the shop."""
    if beside is not None and beside == person:
        raise Refusal(_("Nobody works beside themselves"), _("pick the other person, or leave it out"))
    if beside is not None:
        person_view(shop, beside)


def _kind(shop: Shop, job: str) -> str:
    if not job:
        raise Refusal(_("No kind of job is picked"), _("pick the one on the ticket"))
    return chosen([one.id for one in settings(shop).jobs], job, _("kind of job"))


def _lot(row: Row, side: str, typed: str) -> str:
    missing = _("{name}: the lot of side {side} is missing").format(name=row.name, side=side)
    return one_line(typed, LONGEST_LOT, missing, _("find the true lot before the ticket closes"))


def _used(pack: Pack, row: Row, one: Use) -> Fraction:
    used = read_amount(pack, row, one.used, counted=False)
    if used == 0:
        raise Refusal(_("{name}: nothing was used").format(name=row.name), _("leave it off the ticket"))
    return used


def _nozzles(row: Row, one: Use) -> int:
    if not 0 <= one.nozzles <= MOST_NOZZLES:
        raise Refusal(_("{name}: the count of nozzles is wrong").format(name=row.name), _("count them, up to 99"))
    return one.nozzles


def _charge(shop: Shop, pack: Pack, uses: tuple[ReadyUse, ...], day: dt.date) -> Fraction:
    """What a ticket charges for its materials: cost with markup, not under the least charge, to the cent."""
    cost = Fraction(0)
    for one in uses:
        price = price_of(material_on(shop, one.material, day))
        if price is None:
            raise Refusal(
                _("The shelf does not say what {name} costs").format(name=one.material),
                _("type what the ticket charges for its materials"),
            )
        cost += one.billed * price
    if cost == 0:
        return cost
    charge = SUMS["with_markup"].function(cost, pack.scheme.markup)
    return Fraction(nearest(SUMS["least"].function(charge, pack.scheme.least_charge), CENT))


def _same(shop: Shop, row: Stored, made: ReadyJob) -> bool:
    """Whether a job on file, not withdrawn, is the very one that is to be written down."""
    if (row["kind"], row["person"], row["beside"], row["done_on"], row["site"]) != (
        made.job,
        made.person,
        made.beside,
        made.done_on,
        made.site,
    ):
        return False
    uses = tuple(
        ReadyUse(
            one["material"], one["lot_a"], one["lot_b"], Fraction(one["used"]), Fraction(one["billed"]), one["nozzles"]
        )
        for one in shop.rows("job_use", job=row["id"])
    )
    return uses == made.uses and shop.row("strike", of_table="job", of_row=row["id"]) is None


def _use_view(pack: Pack, one: Stored) -> UseView:
    row = pack.shelf.row(one["material"])
    used, billed = Fraction(one["used"]), Fraction(one["billed"])
    return UseView(
        one["material"],
        one["lot_a"],
        one["lot_b"],
        Amount(used, cartridge_words(pack, row, used)),
        Amount(billed, cartridge_words(pack, row, billed)),
        one["nozzles"],
    )
