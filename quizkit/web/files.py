"""Files that a page gives out: named, never kept by the browser's cache, never shown as a page."""

from __future__ import annotations

from flask import Response

from quizkit.exchange import table
from quizkit.exchange.table import Table

XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"


def given(data: bytes, mime: str, name: str) -> Response:
    """A file to keep, under a name of plain letters."""
    return Response(data, mimetype=mime, headers={"Content-Disposition": f'attachment; filename="{name}"'})


def as_file(made: Table, form: str, name: str) -> Response:
    """A table as CSV, as a workbook ("xlsx"), or as text."""
    if form == "xlsx":
        return given(table.xlsx(made), XLSX, f"{name}.xlsx")
    if form == "csv":
        return given(table.csv(made).encode("utf-8-sig"), "text/csv", f"{name}.csv")
    return given(table.text(made).encode(), "text/plain", f"{name}.txt")
