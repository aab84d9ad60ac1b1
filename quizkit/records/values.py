"""Values on their way into a table: exactly what SQLite will give back, or a refusal."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from typing import Any

from quizkit.records.clock import moment_text
from quizkit.records.errors import RowRefused
from quizkit.records.schema import KINDS, Shape
from quizkit.words import _

Value = int | str | bytes | bool | dt.date | dt.datetime | None
Stored = int | str | bytes | None


def stored(shape: Shape, values: Mapping[str, Value]) -> dict[str, Stored]:
    """The values as they will be stored: truths as 0 and 1, dates and moments as text.

    Raises RowRefused on a column that the table has not, and on a value that SQLite would turn into another.
    """
    known_columns(shape, values)
    kinds = dict(shape.columns)
    return {column: _stored(shape.name, column, kinds[column], value) for column, value in values.items()}


def sealed_values(shape: Shape, given: Mapping[str, Value]) -> list[Stored]:
    """The values of a row of evidence in the order of its sealed columns.

    Raises RowRefused as `stored` does. Whether a text or a number fits is left to those who take it next: sealing a
    text and binding a number refuse what does not.
    """
    if not shape.names.issuperset(given):
        known_columns(shape, given)
    row: list[Any] = []
    for column, kind in shape.takes:
        value = given.get(column)
        if type(value) is not kind and value is not None:
            value = plain(value)
            if type(value) is not kind:
                raise _refused(shape.name, column, given[column])
        row.append(value)
    return row


def sought(column: str, value: object) -> Stored:
    """A value that a column is compared with, as it is stored. Raises RowRefused on what no column can hold."""
    ready = plain(value)
    if ready is None or (isinstance(ready, int | str | bytes) and _fits(ready)):
        return ready
    what = _("The column '{column}' holds no value like {value}")
    raise RowRefused(what.format(column=column, value=ascii(ready)[:60]))


def plain(value: object) -> Any:
    """A value in the form in which it is stored."""
    if isinstance(value, bool):
        return int(value)
    if isinstance(value, dt.datetime):
        return moment_text(value)
    return value.isoformat() if isinstance(value, dt.date) else value


def _stored(table: str, column: str, kind: str, value: Value) -> Stored:
    ready = plain(value)
    if ready is None:
        return None
    if isinstance(ready, int | str | bytes) and type(ready) is KINDS[kind] and _fits(ready):
        return ready
    raise _refused(table, column, ready)


def known_columns(shape: Shape, values: Mapping[str, object]) -> None:
    """Refuse columns that the table has not (raises RowRefused)."""
    if unknown := sorted(values.keys() - shape.names):
        what = _("The table '{table}' has no column '{column}'").format(table=shape.name, column=unknown[0])
        raise RowRefused(what, _("its columns are {columns}").format(columns=", ".join(sorted(shape.names))))


def _refused(table: str, column: str, value: object) -> RowRefused:
    what = _("The column '{column}' of '{table}' takes no value like {value}")
    return RowRefused(what.format(column=column, table=table, value=ascii(value)[:60]))


def _fits(value: int | str | bytes) -> bool:
    """Whether SQLite keeps the value as it is: a whole number of 64 bits, a text that can be written as UTF-8."""
    if isinstance(value, int):
        return -(1 << 63) <= value < 1 << 63
    if isinstance(value, str):
        try:
            value.encode()
        except UnicodeEncodeError:
            return False
    return True
