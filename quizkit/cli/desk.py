"""`quizkit month`, `quizkit ticket` and `quizkit stock`: what was used against what was billed, and lists of both."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING

import click

from quizkit.cli.giving import give
from quizkit.cli.told import PROBLEMS, SHOP, at_the_machine, now, opened, print_json, problem
from quizkit.words import _, ngettext

if TYPE_CHECKING:
    from quizkit.exchange.rows import RowsRead
    from quizkit.shop import JobsAdded, MonthView, Shop, StockAdded

FORMATS = ("text", "csv", "xlsx")
FILE = click.argument("file", type=click.Path(dir_okay=False, path_type=Path))
BY = click.option("--by", type=int, required=True, help=_("The number of the person who does it."))
Rows = Sequence[dict[str, str]]


@click.command("month")
@SHOP
@click.argument("month", default="")
@click.option("--site", default="", help=_("Only this site."))
@click.option("--format", "form", type=click.Choice(FORMATS), default="text", show_default=True)
@click.option("--into", type=click.Path(dir_okay=False, path_type=Path), help=_("The file to write; xlsx needs one."))
@click.option(
    "--save", type=int, metavar="NUMBER", help=_("Save the figures as evidence, by the manager with this number.")
)
@click.option("--json", "as_json", is_flag=True, help=_("Print it for a program."))
def month_command(
    path: Path, month: str, site: str, form: str, into: Path | None, save: int | None, as_json: bool
) -> None:
    """What went into jobs in a MONTH (like 2026-11; the last one that is over), against what the tickets billed."""
    from quizkit import shop as deeds

    if form == "xlsx" and into is None:
        raise click.UsageError(_("a workbook needs a file: name one with --into"))
    with opened(path) as shop:
        view = deeds.month_end(shop, at_the_machine(shop), month, now=now(), site=site)
        if save is not None:
            number = deeds.save_month(shop, save, view.month, now=now(), site=site)
            click.echo(_("{month} is saved as row {number}.").format(month=view.title, number=number), err=True)
    if as_json:
        print_json(asdict(view))
        return
    give(_formed(view, form), into)


def _formed(view: MonthView, form: str) -> bytes:
    from quizkit.exchange import table
    from quizkit.exchange.desk import month_table

    made = month_table(view)
    if form == "xlsx":
        return table.xlsx(made)
    if form == "csv":
        return table.csv(made).encode()
    share = f" ({view.gap_percent})" if view.gap_percent else ""
    total = _("{month}: {money} not billed{share} of a use of {used}")
    words = total.format(month=view.title, money=view.gap_money, share=share, used=view.used_money)
    return f"{table.text(made)}\n{words}\n".encode()


@click.group("ticket")
def ticket_command() -> None:
    """Jobs done, as on their tickets."""


@ticket_command.command("import")
@SHOP
@FILE
@BY
def tickets_command(path: Path, file: Path, by: int) -> None:
    """Write down every job in a CSV file, or none if a line is wrong.

    Columns: ticket, job, person, beside, day, site, material, lot a, lot b, used, billed, nozzles, charge.
    """
    from quizkit import shop as deeds
    from quizkit.exchange.desk import read_jobs

    def written(shop: Shop, rows: Rows) -> JobsAdded:
        return deeds.record_jobs(shop, rows, by=by, now=now())

    count = _import(path, file, read_jobs, written)
    click.echo(ngettext("{n} job written down.", "{n} jobs written down.", count).format(n=count))


@click.group("stock")
def stock_command() -> None:
    """Stock received, counted and scrapped."""


@stock_command.command("import")
@SHOP
@FILE
@BY
def stock_import_command(path: Path, file: Path, by: int) -> None:
    """Write down every row of stock in a CSV file, or none if a line is wrong.

    Columns: what (received, counted or scrapped), material, amount, day, site, lot, note.
    """
    from quizkit import shop as deeds
    from quizkit.exchange.desk import read_stock

    def written(shop: Shop, rows: Rows) -> StockAdded:
        return deeds.add_stock(shop, rows, by=by, now=now())

    count = _import(path, file, read_stock, written)
    click.echo(ngettext("{n} row of stock written down.", "{n} rows of stock written down.", count).format(n=count))


def _import(
    path: Path,
    file: Path,
    read: Callable[[bytes], RowsRead],
    written: Callable[[Shop, Rows], JobsAdded | StockAdded],
) -> int:
    """Read a list and write it down whole; where a line is wrong it ends with every problem, and nothing written."""
    try:
        found = read(file.read_bytes())
    except OSError as error:
        problem(_("{file} cannot be read: {why}").format(file=file, why=error.strerror), _("name another file"))
    faults = [(one.row, one.what, one.mend) for one in found.problems]
    numbers: tuple[int, ...] = ()
    if not faults:
        with opened(path) as shop:
            added = written(shop, found.rows)
        numbers = added.numbers
        faults = [(found.lines[one.row - 1], one.what, one.mend) for one in added.problems]
    for line, what, mend in faults:
        told = _("{file}, line {line}: {what}: {mend}")
        click.echo(told.format(file=file.name, line=line, what=what, mend=mend), err=True)
    if faults:
        click.echo(_("Nothing was written down."), err=True)
        raise SystemExit(PROBLEMS)
    return len(numbers)
