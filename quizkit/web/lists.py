"""Lists that come in as files: read and handed to a deed whole, or told line by line with nothing written."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from flask import request

from quizkit.exchange.rows import RowsRead
from quizkit.shop import JobsAdded, PeopleAdded, StockAdded
from quizkit.words import _


@dataclass(frozen=True, slots=True)
class Fault:
    """What is wrong in a line of a list (0: in all of it), and how to mend it."""

    line: int
    what: str
    mend: str


def taken_up(
    read: Callable[[bytes], RowsRead],
    written: Callable[[Sequence[dict[str, str]]], JobsAdded | PeopleAdded | StockAdded],
) -> tuple[Fault, ...]:
    """Take up the list in the form's file: nothing is written unless all of it stands. What is wrong, by line."""
    file = request.files.get("list")
    data = file.read() if file else b""
    if not data:
        return (Fault(0, _("no file was chosen"), _("choose the CSV file, then send it")),)
    found = read(data)
    if found.problems:
        return tuple(Fault(one.row, one.what, one.mend) for one in found.problems)
    added = written(found.rows)
    return tuple(Fault(found.lines[one.row - 1], one.what, one.mend) for one in added.problems)
