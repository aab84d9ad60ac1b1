"""All tables of a shop as one zip of CSV files, written as it is read."""

from __future__ import annotations

import io
from collections.abc import Iterable, Sequence
from typing import IO, Protocol
from zipfile import ZIP_DEFLATED, ZipFile

from quizkit.exchange.table import Cell, write_csv


class Dump(Protocol):
    """A table with its rows."""

    @property
    def name(self) -> str: ...
    @property
    def heads(self) -> Sequence[str]: ...
    @property
    def rows(self) -> Iterable[Sequence[Cell]]: ...


def write_zip(tables: Iterable[Dump], into: IO[bytes]) -> None:
    """Write each table as a CSV file of its name into a zip; a spreadsheet opens them as they are."""
    with ZipFile(into, "w", ZIP_DEFLATED) as zipped:
        for one in tables:
            raw = zipped.open(f"{one.name}.csv", "w", force_zip64=True)
            with io.TextIOWrapper(raw, "utf-8-sig", newline="") as text:
                write_csv(text, one.heads, one.rows)
