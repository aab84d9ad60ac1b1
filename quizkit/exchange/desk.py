"""Lists of the desk: jobs done and stock out of CSV files, and a month's figures as a table."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from fractions import Fraction
from typing import Protocol

from quizkit.exchange.rows import Columns, RowsRead, read_rows
from quizkit.exchange.table import Cell, Table
from quizkit.words import _

JOBS = Columns(
    ("ticket", "job", "person", "day", "material", "lot a", "lot b", "used"),
    (
        *("ticket", "job", "person", "beside", "day", "site", "material", "lot a", "lot b", "used", "billed"),
        *("nozzles", "charge"),
    ),
)
STOCK = Columns(("what", "material", "amount"), ("what", "material", "amount", "day", "site", "lot", "note"))


class Amount(Protocol):
    """An exact value and how it is told."""

    @property
    def value(self) -> Fraction: ...
    @property
    def text(self) -> str: ...


class Row(Protocol):
    """A material of a month at a site; what is not known is None."""

    @property
    def site_title(self) -> str: ...
    @property
    def material(self) -> str: ...
    @property
    def since(self) -> dt.date | None: ...
    @property
    def through(self) -> dt.date | None: ...
    @property
    def opening(self) -> Amount | None: ...
    @property
    def received(self) -> Amount: ...
    @property
    def closing(self) -> Amount | None: ...
    @property
    def scrapped(self) -> Amount: ...
    @property
    def used(self) -> Amount | None: ...
    @property
    def on_tickets(self) -> Amount: ...
    @property
    def billed(self) -> Amount: ...
    @property
    def gap(self) -> Amount | None: ...
    @property
    def gap_money(self) -> Amount | None: ...
    @property
    def gap_percent(self) -> Amount | None: ...
    @property
    def note(self) -> str: ...


class Month(Protocol):
    """What the view of a month tells."""

    @property
    def month(self) -> str: ...
    @property
    def rows(self) -> Sequence[Row]: ...


def read_jobs(data: bytes) -> RowsRead:
    """Read a CSV of jobs done, a line a material: lines with the same ticket, job, person and day are one job."""
    return read_rows(data, JOBS, _("there is no ticket in the file"))


def read_stock(data: bytes) -> RowsRead:
    """Read a CSV of stock received, counted or scrapped, a line each."""
    return read_rows(data, STOCK, _("there is no stock in the file"))


def month_table(view: Month) -> Table:
    """A month's figures: amounts in cartridges, the gap in money and percent too."""
    heads = (
        *(_("Site"), _("Material"), _("Counted from"), _("Counted to"), _("At the start"), _("Received")),
        *(_("There now"), _("Thrown out"), _("Used"), _("On tickets"), _("Billed"), _("Not billed")),
        *(_("In money"), _("Percent of use"), _("Note")),
    )
    return Table(_("Month end {month}").format(month=view.month), heads, tuple(_cells(row) for row in view.rows))


def _cells(row: Row) -> tuple[Cell, ...]:
    amounts = (row.opening, row.received, row.closing, row.scrapped, row.used, row.on_tickets, row.billed, row.gap)
    percent = None if row.gap_percent is None else float(round(row.gap_percent.value * 100, 1))
    return (
        row.site_title,
        row.material,
        row.since,
        row.through,
        *(_number(one, 3) for one in amounts),
        _number(row.gap_money, 2),
        percent,
        row.note,
    )


def _number(one: Amount | None, places: int) -> Cell:
    return None if one is None else float(round(one.value, places))
