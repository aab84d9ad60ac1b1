"""What a command hands out: in the form that was asked for, written to the file that was named, or printed."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from quizkit.cli.told import problem
from quizkit.words import _

if TYPE_CHECKING:
    from quizkit.exchange.table import Table

FORM = click.option("--format", "form", type=click.Choice(("text", "csv", "xlsx")), default="text", show_default=True)
INTO = click.option(
    "--into", type=click.Path(dir_okay=False, path_type=Path), help=_("The file to write; xlsx needs one.")
)
JSON = click.option("--json", "as_json", is_flag=True, help=_("Print it for a program."))


def needs_a_file(form: str, into: Path | None) -> None:
    """Refuse a workbook that has no file to go to, before anything is worked out."""
    if form == "xlsx" and into is None:
        raise click.UsageError(_("a workbook needs a file: name one with --into"))


def formed(made: Table, form: str) -> bytes:
    """A table as text, as CSV or as a workbook."""
    from quizkit.exchange import table

    return table.xlsx(made) if form == "xlsx" else (table.csv(made) if form == "csv" else table.text(made)).encode()


def give(data: bytes, into: Path | None) -> None:
    """Write it to the file, or print it."""
    if into is None:
        sys.stdout.buffer.write(data)
        return
    try:
        into.write_bytes(data)
    except OSError as error:
        problem(_("{file} cannot be written: {why}").format(file=into, why=error.strerror), _("name another file"))
    click.echo(_("Written to {file}").format(file=into))
