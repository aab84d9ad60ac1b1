"""What a command hands out: written to the file that was named, or printed."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from quizkit.cli.told import problem
from quizkit.words import _


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
