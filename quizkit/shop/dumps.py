"""Everything in the file, table by table: for whoever wants it in a spreadsheet or takes it elsewhere."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Iterator
from dataclasses import dataclass

from quizkit.records.schema import expected_shapes
from quizkit.shop.handle import Shop, Stored
from quizkit.shop.people import manager

FIRST, LAST = ("id", "seen_on", "recorded_at", "done_by", "person"), ("seal",)
"""Columns that stand first and last in every table."""
AT_ONCE = 2000
"""Rows that are read at a time: a large shop's answers do not fit into memory."""
PEOPLE = ("number", "name", "role", "site", "language", "left_on")

Cell = str | int | None


@dataclass(frozen=True, slots=True)
class Dump:
    """A table: its name, its columns, and its rows as they are read."""

    name: str
    heads: tuple[str, ...]
    rows: Iterator[tuple[Cell, ...]]


def everything(shop: Shop, by: int, *, now: dt.datetime) -> Iterator[Dump]:
    """Every table of evidence, and the people, for a manager; read each table's rows before the next one's.

    Notes stand in words where they have not been erased, photos by their key; no hash of a PIN or passphrase.
    """
    manager(shop, by)
    return _dumps(shop)


def _dumps(shop: Shop) -> Iterator[Dump]:
    with shop.records.reading():
        yield Dump("people", PEOPLE, (_cells(row, PEOPLE) for row in shop.rows("person")))
        for name, shape in expected_shapes().items():
            if shape.evidence:
                between = sorted(shape.names - {*FIRST, *LAST})
                heads = (*(head for head in FIRST if head in shape.names), *between, *LAST)
                yield Dump(name, heads, _rows(shop, name, heads))


def _rows(shop: Shop, name: str, heads: tuple[str, ...]) -> Iterator[tuple[Cell, ...]]:
    after = 0
    while rows := shop.rows(name, after=after, limit=AT_ONCE):
        yield from (_cells(row, heads) for row in rows)
        after = rows[-1]["id"]


def _cells(row: Stored, heads: tuple[str, ...]) -> tuple[Cell, ...]:
    return tuple(_cell(row[head]) for head in heads)


def _cell(value: object) -> Cell:
    """A value as a cell holds it: dates as text, truths as 1 and 0, lists and objects as JSON."""
    if isinstance(value, dt.date):
        return value.isoformat()
    if isinstance(value, bool):
        return int(value)
    if isinstance(value, list | dict):
        return json.dumps(value, ensure_ascii=False, sort_keys=True)
    return value if value is None or isinstance(value, str | int) else str(value)
