"""A table as text, CSV or a workbook. Text that a spreadsheet would take for a formula stays text in all of them."""

from __future__ import annotations

import csv as csv_module
import datetime as dt
import io
import unicodedata
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, TextIO

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

Cell = str | int | float | dt.date | None

LONGEST_CELL = 32_767
"""Characters that one cell of a workbook holds."""
WIDEST = 48
"""Columns of a workbook are at most so many characters wide; longer text wraps."""
_FORMULA = ("=", "+", "-", "@", "\t", "\r")
_NO_TITLE = str.maketrans(dict.fromkeys("[]:*?/\\", " "))


@dataclass(frozen=True, slots=True)
class Table:
    """A titled table. Each row has as many cells as there are heads."""

    title: str
    heads: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]


def text(table: Table) -> str:
    """The table for a terminal: columns as wide as they need to be, numbers to the right."""
    lines = [table.heads, *([_shown(cell) for cell in row] for row in table.rows)]
    widths = [max(_width(line[at]) for line in lines) for at in range(len(table.heads))]
    right = [_numbers([row[at] for row in table.rows]) for at in range(len(table.heads))]
    ruled = [_line(table.heads, widths, right), "  ".join("-" * width for width in widths)]
    return "\n".join([*ruled, *(_line(line, widths, right) for line in lines[1:])]) + "\n"


def csv(table: Table) -> str:
    """The table as RFC 4180 has it: a line of heads, CRLF. Write it in UTF-8; a spreadsheet wants the mark before it.

    A text that begins like a formula gets an apostrophe before it, so that no spreadsheet works it out.
    """
    out = io.StringIO()
    write_csv(out, table.heads, table.rows)
    return out.getvalue()


def write_csv(out: TextIO, heads: Sequence[str], rows: Iterable[Sequence[Cell]]) -> None:
    """The same row by row, for a table that is too long to hold; `out` changes no line ends (`newline=""`)."""
    writer = csv_module.writer(out)
    writer.writerow([_harmless(head) for head in heads])
    writer.writerows([_harmless(cell) for cell in row] for row in rows)


def xlsx(table: Table) -> bytes:
    """The table as a workbook of one sheet: heads that stay, dates as dates, wide enough, ready to print across."""
    from openpyxl import Workbook
    from openpyxl.styles import Alignment, Font

    book = Workbook()
    sheet = book.active
    sheet.title = _sheet_title(table.title)
    for at, line in enumerate([table.heads, *table.rows], 1):
        for column, cell in enumerate(line, 1):
            _put(sheet, at, column, cell)
    for head in sheet[1]:
        head.font = Font(bold=True)
        head.alignment = Alignment(wrap_text=True, vertical="top")
    sheet.freeze_panes = "B2"
    _for_print(sheet, table)
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def _put(sheet: Worksheet, row: int, column: int, value: Cell) -> None:
    cell = sheet.cell(row, column)
    if isinstance(value, str):
        cell.value = _printable(value)
        if cell.data_type == "f":
            cell.data_type = "s"
            cell.quotePrefix = True
    else:
        cell.value = value
        if isinstance(value, dt.date):
            cell.number_format = "yyyy-mm-dd"


def _for_print(sheet: Worksheet, table: Table) -> None:
    from openpyxl.utils import get_column_letter

    for at, head in enumerate(table.heads):
        longest = max((_width(_shown(row[at])) for row in table.rows), default=0)
        sheet.column_dimensions[get_column_letter(at + 1)].width = min(WIDEST, max(longest, _width(head)) + 2)
    sheet.print_title_rows = "1:1"
    sheet.page_setup.orientation = "landscape"
    sheet.page_setup.fitToHeight = 0
    sheet.sheet_properties.pageSetUpPr.fitToPage = True


def _sheet_title(title: str) -> str:
    return _printable(title).translate(_NO_TITLE).strip("' ")[:31] or "1"


def _printable(value: str) -> str:
    """The text without what no XML file may hold, cut to what a cell takes."""
    kept = "".join(sign if sign in "\n\t" or unicodedata.category(sign) not in ("Cc", "Cs") else " " for sign in value)
    return "".join(sign for sign in kept if ord(sign) not in (0xFFFE, 0xFFFF))[:LONGEST_CELL]


def _harmless(cell: Cell) -> str:
    shown = _shown(cell)
    return f"'{shown}" if isinstance(cell, str) and shown.startswith(_FORMULA) else shown


def _shown(cell: Cell) -> str:
    if cell is None:
        return ""
    return cell.isoformat() if isinstance(cell, dt.date) else str(cell)


def _line(cells: Sequence[str], widths: Sequence[int], right: Sequence[bool]) -> str:
    padded = []
    for cell, width, to_right in zip(cells, widths, right, strict=True):
        space = " " * (width - _width(cell))
        padded.append(space + cell if to_right else cell + space)
    return "  ".join(padded).rstrip()


def _numbers(cells: Sequence[Cell]) -> bool:
    return bool(cells) and all(isinstance(cell, int | float) for cell in cells)


def _width(value: str) -> int:
    """Columns of a terminal that a text takes."""
    wide = sum(unicodedata.east_asian_width(sign) in "WF" for sign in value)
    return len(value) + wide - sum(unicodedata.combining(sign) > 0 for sign in value)
