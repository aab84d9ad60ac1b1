"""Stock of the shelf's materials: what came in, what was counted, what was thrown out, in cartridges."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from quizkit.shop.amounts import Amount, cartridges, field, material_on, read_amount, read_day
from quizkit.shop.handle import Shop, Stored, chosen, note
from quizkit.shop.joining import RowProblem
from quizkit.shop.label import on_shelf
from quizkit.shop.overrides import past
from quizkit.shop.packs import current_pack, pack_on, sites
from quizkit.shop.people import day_at, person_view, trainer
from quizkit.shop.refusal import Refusal
from quizkit.shop.tickets import LONGEST_LOT
from quizkit.words import _

WHAT = ("received", "counted", "scrapped")
LATEST = 30
"""Rows of stock that its page shows."""


@dataclass(frozen=True, slots=True)
class StockRow:
    """A row of stock on file. `struck` says why it was withdrawn, or ""."""

    number: int
    what: str
    material: str
    amount: Amount
    day: dt.date
    site: str
    site_title: str
    lot: str
    note: str
    by: str
    struck: str


@dataclass(frozen=True, slots=True)
class StockLine:
    """A material at a site: the last count and its day, what moved since, and what should be there now.

    `counted` and `expected` are None before the first count.
    """

    material: str
    counted: Amount | None
    counted_on: dt.date | None
    received: Amount
    scrapped: Amount
    on_tickets: Amount
    expected: Amount | None


@dataclass(frozen=True, slots=True)
class StockView:
    """The stock of a site: a line a material on the shelf, and the latest rows, newest first."""

    site: str
    site_title: str
    today: dt.date
    lines: tuple[StockLine, ...]
    latest: tuple[StockRow, ...]


@dataclass(frozen=True, slots=True)
class StockAdded:
    """The numbers of the rows that were added; with any problem there are none."""

    numbers: tuple[int, ...]
    problems: tuple[RowProblem, ...]


@dataclass(frozen=True, slots=True)
class _Ready:
    what: str
    material: str
    site: str
    amount: Fraction
    day: dt.date
    lot: str
    note: str


def receive_stock(
    shop: Shop,
    by: int,
    material: str,
    amount: str,
    *,
    now: dt.datetime,
    on: dt.date | None = None,
    site: str = "",
    lot: str = "",
    note: str = "",
) -> int:
    """Write down stock that came in, as typed: "24", "1/2 cartridge", "400 mL"; a bare number counts cartridges."""
    return _add(shop, by, "received", material, amount, now, on, site, lot, note)


def count_stock(
    shop: Shop,
    by: int,
    material: str,
    amount: str,
    *,
    now: dt.datetime,
    on: dt.date | None = None,
    site: str = "",
    note: str = "",
) -> int:
    """Write down what was counted of a material, at the end of a day; the last count of a day stands."""
    return _add(shop, by, "counted", material, amount, now, on, site, "", note)


def scrap_stock(
    shop: Shop,
    by: int,
    material: str,
    amount: str,
    *,
    now: dt.datetime,
    on: dt.date | None = None,
    site: str = "",
    lot: str = "",
    note: str = "",
) -> int:
    """Write down what was thrown out or spilled; the note says why."""
    return _add(shop, by, "scrapped", material, amount, now, on, site, lot, note)


def add_stock(shop: Shop, rows: Sequence[Mapping[str, str]], *, by: int, now: dt.datetime) -> StockAdded:
    """Add every row of a list (what, material, amount, day, site, lot, note), or none if one is wrong.

    `what` is received, counted or scrapped. The numbers of the problems count the rows from 1.
    """
    trainer(shop, by)
    with shop.deed(now):
        ready, problems = list[_Ready](), list[RowProblem]()
        for number, row in enumerate(rows, 1):
            try:
                one = _row(shop, by, row, now)
                if one in ready:
                    raise Refusal(_("This very row stands in the list twice"), _("add the amounts up in one row"))
                ready.append(one)
            except Refusal as refusal:
                problems.append(RowProblem(number, refusal.what, refusal.mend))
        if problems:
            return StockAdded((), tuple(problems))
        return StockAdded(tuple(_write(shop, by, one) for one in ready), ())


def stock(shop: Shop, viewer: int, *, now: dt.datetime, site: str = "") -> StockView:
    """The stock of a site (the viewer's own where none is named), for trainers and managers."""
    who = trainer(shop, viewer)
    place = chosen([one.id for one in sites(shop)], site or who.site, _("site"))
    today = day_at(shop, who, now)
    names = [row.name for row in on_shelf(current_pack(shop), today)]
    rows = standing_rows(shop, place)
    return StockView(
        site=place,
        site_title=next(one.title for one in sites(shop) if one.id == place),
        today=today,
        lines=tuple(_line(shop, place, name, rows.get(name, ()), today) for name in names),
        latest=tuple(_view(shop, row) for row in shop.rows("stock", site=place, newest=True, limit=LATEST)),
    )


def standing_rows(shop: Shop, site: str) -> dict[str, tuple[Stored, ...]]:
    """The rows of stock of a site that were not withdrawn, by material, in the order of their days."""
    struck = {row["of_row"] for row in shop.rows("strike", of_table="stock")}
    found: dict[str, list[Stored]] = {}
    for row in sorted(shop.rows("stock", site=site), key=lambda row: (row["seen_on"], row["id"])):
        if row["id"] not in struck:
            found.setdefault(row["material"], []).append(row)
    return {name: tuple(rows) for name, rows in found.items()}


def moved(rows: Sequence[Stored], what: str, since: dt.date | None, through: dt.date) -> Fraction:
    """How much was received or scrapped after a day (or ever), up to and including another."""
    inside = [
        row
        for row in rows
        if row["what"] == what and (since is None or since < row["seen_on"]) and row["seen_on"] <= through
    ]
    return sum((Fraction(row["amount"]) for row in inside), Fraction(0))


def ticketed(
    shop: Shop, site: str, material: str, since: dt.date | None, through: dt.date
) -> tuple[Fraction, Fraction]:
    """What the tickets of a site say was used of a material, and what they billed, over the same days."""
    struck = {row["of_row"] for row in shop.rows("strike", of_table="job")}
    uses = shop.rows("job_use", material=material)
    jobs = {row["id"]: row for row in shop.rows("job", site=site, id=[use["job"] for use in uses])}
    inside = [
        use
        for use in uses
        if use["job"] in jobs
        and use["job"] not in struck
        and (since is None or since < jobs[use["job"]]["done_on"])
        and jobs[use["job"]]["done_on"] <= through
    ]
    used = sum((Fraction(use["used"]) for use in inside), Fraction(0))
    return used, sum((Fraction(use["billed"]) for use in inside), Fraction(0))


def _add(
    shop: Shop,
    by: int,
    what: str,
    material: str,
    amount: str,
    now: dt.datetime,
    on: dt.date | None,
    site: str,
    lot: str,
    words: str,
) -> int:
    with shop.deed(now):
        return _write(shop, by, _ready(shop, by, what, material, amount, now, on, site, lot, words))


def _row(shop: Shop, by: int, row: Mapping[str, str], now: dt.datetime) -> _Ready:
    """A row of a list, read."""
    what = chosen(WHAT, field(row, "what").casefold(), _("kind of stock row"))
    typed = field(row, "day")
    on = read_day(current_pack(shop), typed) if typed else None
    return _ready(
        shop, by, what, field(row, "material"), field(row, "amount"), now, on, field(row, "site"), field(row, "lot"),
        field(row, "note"),
    )  # fmt: skip


def _ready(
    shop: Shop,
    by: int,
    what: str,
    material: str,
    amount: str,
    now: dt.datetime,
    on: dt.date | None,
    site: str,
    lot: str,
    words: str,
) -> _Ready:
    """A row of stock read and held to the rules, with nothing written yet. Raises Refusal."""
    who = trainer(shop, by)
    place = chosen([one.id for one in sites(shop)], site or who.site, _("site"))
    day = past(shop, who, on, now)
    row = material_on(shop, material, day)
    read = read_amount(pack_on(shop, day), row, amount, counted=True)
    if read == 0 and what != "counted":
        raise Refusal(_("{name}: nothing is no amount").format(name=row.name), _("leave it out"))
    batch = " ".join(lot.split())
    if len(batch) > LONGEST_LOT:
        raise Refusal(_("This lot is too long"), _("copy it from the label"))
    if batch and what == "counted":
        raise Refusal(_("{name}: a count takes all lots together").format(name=row.name), _("leave the lot out"))
    reason = note(words)
    if what == "scrapped" and not reason:
        raise Refusal(
            _("{name}: why it was thrown out is missing").format(name=row.name),
            _("say in a few words: spilled, dated out, set in the nozzle"),
        )
    made = _Ready(what, row.name, place, read, day, batch, reason)
    if _same(shop, made):
        raise Refusal(
            _("{name}: this very row is on file for that day already").format(name=row.name),
            _("look at the stock; a wrong row is withdrawn there, and more of the same says so in its note"),
        )
    return made


def _same(shop: Shop, made: _Ready) -> bool:
    """Whether this very row stands on file; for counts, whether it is the last of its day."""
    rows = [row for row in standing_rows(shop, made.site).get(made.material, ()) if row["what"] == made.what]
    rows = [row for row in rows if row["seen_on"] == made.day]
    if made.what == "counted":
        rows = rows[-1:]
    return any(
        (Fraction(row["amount"]), row["lot"] or "", row["note"]) == (made.amount, made.lot, made.note) for row in rows
    )


def _write(shop: Shop, by: int, ready: _Ready) -> int:
    return shop.add(
        "stock",
        by=by,
        seen_on=ready.day,
        what=ready.what,
        material=ready.material,
        site=ready.site,
        amount=str(ready.amount),
        lot=ready.lot or None,
        person=by if ready.note else None,
        note=ready.note or None,
    )


def _line(shop: Shop, site: str, material: str, rows: Sequence[Stored], today: dt.date) -> StockLine:
    pack = current_pack(shop)
    counts = [row for row in rows if row["what"] == "counted"]
    last = counts[-1] if counts else None
    since = last["seen_on"] if last else None
    received, scrapped = (moved(rows, what, since, today) for what in ("received", "scrapped"))
    used, _billed = ticketed(shop, site, material, since, today)
    counted = Fraction(last["amount"]) if last else None
    return StockLine(
        material,
        None if counted is None else cartridges(pack, counted),
        since,
        cartridges(pack, received),
        cartridges(pack, scrapped),
        cartridges(pack, used),
        None if counted is None else cartridges(pack, counted + received - scrapped - used),
    )


def _view(shop: Shop, row: Stored) -> StockRow:
    struck = shop.row("strike", of_table="stock", of_row=row["id"])
    places = {one.id: one.title for one in sites(shop)}
    return StockRow(
        number=row["id"],
        what=row["what"],
        material=row["material"],
        amount=cartridges(current_pack(shop), Fraction(row["amount"])),
        day=row["seen_on"],
        site=row["site"],
        site_title=places.get(row["site"]) or str(row["site"]),
        lot=row["lot"] or "",
        note=row["note"],
        by=person_view(shop, row["done_by"]).name,
        struck=struck["note"] if struck else "",
    )
