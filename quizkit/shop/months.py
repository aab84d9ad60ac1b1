"""Month end: what went into jobs by the counts, against what the tickets billed; the gap in units, money and percent.

A count stands for the end of its day. One taken on the first days of a month closes the month before, so that a shop
may count on the last evening or just after it. What moved is taken between the two counts, not by the calendar.
"""

from __future__ import annotations

import calendar
import datetime as dt
import re
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from quizkit.arith import nearest
from quizkit.formula import Row
from quizkit.pack.model import Pack
from quizkit.pack.shown import amount
from quizkit.pack.shown import day as day_words
from quizkit.shop.amounts import CENT, Amount, cartridges, money, price_of
from quizkit.shop.handle import Shop, Stored, chosen
from quizkit.shop.label import style_of
from quizkit.shop.packs import pack_on, sites
from quizkit.shop.people import day_at, manager, person_view, trainer
from quizkit.shop.refusal import Refusal
from quizkit.shop.stock import moved, standing_rows, ticketed
from quizkit.standing.dates import DAY
from quizkit.trade import SUMS
from quizkit.units import unit
from quizkit.words import _

AFTER = 3
"""Days of the next month in which a count still closes this one."""
TENTH = Fraction(1, 1000)
"""A tenth of a percent: how fine a share of the use is told."""
_MONTH = re.compile(r"([0-9]{4})-([0-9]{2})")


@dataclass(frozen=True, slots=True)
class MonthRow:
    """A material at a site: counts and movements in cartridges, and the gap; None where a count is missing.

    `since` and `through` are the days of the two counts; `on_tickets` is what the tickets say was used, `billed` what
    they charged for. `note` says what is to be known about the figures.
    """

    site: str
    site_title: str
    material: str
    since: dt.date | None
    through: dt.date | None
    opening: Amount | None
    received: Amount
    closing: Amount | None
    scrapped: Amount
    used: Amount | None
    on_tickets: Amount
    billed: Amount
    gap: Amount | None
    gap_money: Amount | None
    gap_percent: Amount | None
    note: str


@dataclass(frozen=True, slots=True)
class SavedMonth:
    """A month as it was saved: its gap in money and as a share of the use, by whom and when."""

    number: int
    month: str
    title: str
    site: str
    site_title: str
    saved_on: dt.date
    by: str
    gap_money: Amount
    gap_percent: Amount | None
    seal: str


@dataclass(frozen=True, slots=True)
class MonthView:
    """A month of a site, or of all of them. `gap_money` and `gap_percent` are over all rows that have both counts.

    `saved` is the last saving of it, `changed` whether the figures have moved since; `why_not` keeps it from being
    saved, or is "".
    """

    month: str
    title: str
    first: dt.date
    last: dt.date
    site: str
    rows: tuple[MonthRow, ...]
    used_money: Amount
    gap_money: Amount
    gap_percent: Amount | None
    saved: SavedMonth | None
    changed: bool
    why_not: str
    earlier: str
    later: str


def month_end(shop: Shop, viewer: int, month: str, *, now: dt.datetime, site: str = "") -> MonthView:
    """The figures of a month ("2026-11"; blank: the last one that is over), for trainers and managers.

    Refuses a month to come, and what is no month.
    """
    who = trainer(shop, viewer)
    today = day_at(shop, who, now)
    month = month.strip() or _named((today + DAY).replace(day=1) - DAY)
    first, last = _days(month)
    if first > today:
        raise Refusal(_("The month {month} is still to come").format(month=month), _("ask for one that has been"))
    places = [one.id for one in sites(shop)]
    asked = [chosen(places, site, _("site"))] if site else places
    rows = tuple(row for place in asked for row in _rows(shop, place, first, last))
    saved = shop.row("month", month=month, site=site)
    changed = saved is not None and saved["figures"] != _figures(rows)
    used, gap = _sums(shop, rows, last)
    return MonthView(
        month=month,
        title=f"{first:%B} {first.year}",
        first=first,
        last=last,
        site=site,
        rows=rows,
        used_money=money(pack_on(shop, last), used),
        gap_money=money(pack_on(shop, last), gap),
        gap_percent=_share(pack_on(shop, last), gap, used),
        saved=_saved(shop, saved) if saved else None,
        changed=changed,
        why_not=_why_not(rows, last, today, saved is not None and not changed),
        earlier=_named(first - DAY) if first > dt.date(1, 1, 31) else "",
        later=_named(last + DAY) if last < today else "",
    )


def save_month(shop: Shop, by: int, month: str, *, now: dt.datetime, site: str = "") -> int:
    """Save the figures of a month as evidence, and give their number.

    Refuses before the month's last day, where nothing has both counts, and the very figures that are saved already.
    """
    with shop.deed(now):
        who = manager(shop, by)
        view = month_end(shop, by, month, now=now, site=site)
        if view.why_not:
            raise Refusal(_("{month} cannot be saved").format(month=view.title), view.why_not)
        day = day_at(shop, who, now)
        return shop.add("month", by=by, seen_on=day, month=month, site=site, figures=_figures(view.rows))


def saved_months(shop: Shop, viewer: int, *, site: str | None = None) -> tuple[SavedMonth, ...]:
    """The months that were saved, the latest first, each as last saved; `site` narrows it ("": all sites)."""
    trainer(shop, viewer)
    latest: dict[tuple[str, str], Stored] = {}
    for row in shop.rows("month"):
        if site in (None, row["site"]):
            latest[row["month"], row["site"]] = row
    return tuple(_saved(shop, row) for _key, row in sorted(latest.items(), reverse=True))


def _days(month: str) -> tuple[dt.date, dt.date]:
    found = _MONTH.fullmatch(month.strip())
    if found is None or not 1 <= int(found[2]) <= 12 or int(found[1]) == 0:
        raise Refusal(_("'{month}' is no month").format(month=month.strip()[:20]), _("write it like 2026-11"))
    first = dt.date(int(found[1]), int(found[2]), 1)
    return first, first.replace(day=calendar.monthrange(first.year, first.month)[1])


def _named(day: dt.date) -> str:
    return f"{day.year:04}-{day.month:02}"


def _rows(shop: Shop, site: str, first: dt.date, last: dt.date) -> list[MonthRow]:
    stock = standing_rows(shop, site)
    days = [first + dt.timedelta(days=at) for at in range((last - first).days + 1)]
    jobs = [row["id"] for row in shop.rows("job", site=site, done_on=days)]
    on_tickets = {row["material"] for row in shop.rows("job_use", job=jobs)}
    names = sorted(stock.keys() | on_tickets)
    rows = [_row(shop, site, name, stock.get(name, ()), first, last) for name in names]
    return [row for row in rows if row is not None]


def _row(
    shop: Shop, site: str, material: str, rows: Sequence[Stored], first: dt.date, last: dt.date
) -> MonthRow | None:
    """A material's figures; None where nothing of it was there, moved or was used."""
    pack = pack_on(shop, last)
    opening, closing = _boundary(rows, None, first), _boundary(rows, first, last + DAY)
    since = opening["seen_on"] if opening else None
    through = closing["seen_on"] if closing else last
    start = since or first - DAY
    received, scrapped = (moved(rows, what, start, through) for what in ("received", "scrapped"))
    on_tickets, billed = ticketed(shop, site, material, start, through)
    counts = [Fraction(row["amount"]) if row else None for row in (opening, closing)]
    if not any((received, scrapped, on_tickets, *(counts))):
        return None
    used = gap = None
    if counts[0] is not None and counts[1] is not None:
        used = Fraction(SUMS["stock_used"].function(counts[0], received, counts[1], scrapped))
        gap = Fraction(SUMS["unbilled"].function(used, billed))
    cost = _cost(pack, material, gap)
    places = {one.id: one.title for one in sites(shop)}
    return MonthRow(
        site=site,
        site_title=places.get(site) or site,
        material=material,
        since=since,
        through=closing["seen_on"] if closing else None,
        opening=None if counts[0] is None else cartridges(pack, counts[0]),
        received=cartridges(pack, received),
        closing=None if counts[1] is None else cartridges(pack, counts[1]),
        scrapped=cartridges(pack, scrapped),
        used=None if used is None else cartridges(pack, used),
        on_tickets=cartridges(pack, on_tickets),
        billed=cartridges(pack, billed),
        gap=None if gap is None else cartridges(pack, gap),
        gap_money=None if cost is None else money(pack, cost),
        gap_percent=None if gap is None or used is None else _share(pack, gap, used),
        note=_note(opening, closing, used, gap, cost, last),
    )


def _boundary(rows: Sequence[Stored], first: dt.date | None, next_first: dt.date) -> Stored | None:
    """The count that parts two months: the last one up to some days into the next month, after those into this one."""
    until = next_first + dt.timedelta(days=AFTER - 1)
    since = None if first is None else first + dt.timedelta(days=AFTER - 1)
    counts = [row for row in rows if row["what"] == "counted" and row["seen_on"] <= until]
    return next((row for row in reversed(counts) if since is None or row["seen_on"] > since), None)


def _cost(pack: Pack, material: str, gap: Fraction | None) -> Fraction | None:
    """What a gap cost the shop, to the cent; None where the shelf does not say what a cartridge costs."""
    row: Row | None = pack.shelf.row(material)
    price = price_of(row) if row else None
    return None if gap is None or price is None else Fraction(nearest(gap * price, CENT))


def _note(
    opening: Stored | None,
    closing: Stored | None,
    used: Fraction | None,
    gap: Fraction | None,
    cost: Fraction | None,
    last: dt.date,
) -> str:
    words = []
    if opening is None:
        words.append(_("no count at the start"))
    if closing is None:
        words.append(_("not counted at the end yet"))
    elif closing["seen_on"] < last - dt.timedelta(days=AFTER):
        words.append(_("counted on {day}: the days after it are not in here").format(day=day_words(closing["seen_on"])))
    if used is not None and used < 0:
        words.append(_("less than nothing was used: count again"))
    elif gap is not None and gap < 0:
        words.append(_("more was billed than was used: look at the tickets and the count"))
    if gap is not None and cost is None:
        words.append(_("the shelf does not say what it costs"))
    return "; ".join(words)


def _sums(shop: Shop, rows: Sequence[MonthRow], last: dt.date) -> tuple[Fraction, Fraction]:
    """What the use and the gap of all rows with both counts cost the shop."""
    used = gap = Fraction(0)
    for row in rows:
        cost = _cost(pack_on(shop, last), row.material, row.used.value if row.used else None)
        if cost is not None and row.gap_money is not None:
            used, gap = used + cost, gap + row.gap_money.value
    return used, gap


def _share(pack: Pack, part: Fraction, whole: Fraction) -> Amount | None:
    """A part of the use in percent; None where nothing was used."""
    if whole <= 0:
        return None
    share = part / whole
    return Amount(share, amount(share, unit("%"), style_of(pack), step=TENTH))


def _why_not(rows: Sequence[MonthRow], last: dt.date, today: dt.date, same: bool) -> str:
    if today < last:
        return _("it is not over: count on its last day, after work")
    if all(row.gap is None for row in rows):
        return _("nothing has a count at its start and at its end: count first")
    return _("already saved with these very figures") if same else ""


def _figures(rows: Sequence[MonthRow]) -> list[dict[str, Any]]:
    """The rows as plain values for a row of evidence: amounts as exact text."""
    names = ("opening", "received", "closing", "scrapped", "used", "on_tickets", "billed", "gap", "gap_money")
    return [
        {
            "site": row.site,
            "material": row.material,
            "since": row.since.isoformat() if row.since else None,
            "through": row.through.isoformat() if row.through else None,
            **{name: str(one.value) if (one := getattr(row, name)) is not None else None for name in names},
        }
        for row in rows
    ]


def _saved(shop: Shop, row: Stored) -> SavedMonth:
    first, last = _days(row["month"])
    pack, places = pack_on(shop, last), {one.id: one.title for one in sites(shop)}
    gap = used = Fraction(0)
    for one in row["figures"]:
        cost = _cost(pack, one["material"], Fraction(one["used"])) if one["used"] is not None else None
        if cost is not None and one["gap_money"] is not None:
            used, gap = used + cost, gap + Fraction(one["gap_money"])
    return SavedMonth(
        number=row["id"],
        month=row["month"],
        title=f"{first:%B} {first.year}",
        site=row["site"],
        site_title=places.get(row["site"]) or row["site"] or _("all sites"),
        saved_on=row["seen_on"],
        by=person_view(shop, row["done_by"]).name,
        gap_money=money(pack, gap),
        gap_percent=_share(pack, gap, used),
        seal=row["seal"],
    )
