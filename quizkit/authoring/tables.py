"""The cells of a table, each with its place: a token knows only the line of its row."""

from __future__ import annotations

import re
from dataclasses import dataclass

from quizkit.authoring.source import Stretch

_BAR = re.compile(r"(?<!\\)\|")


@dataclass(frozen=True, slots=True)
class Table:
    """A table: the cells of its head, and those of each row below the rule; a row may be short of cells."""

    head: tuple[Stretch, ...]
    rows: tuple[tuple[Stretch, ...], ...]

    @property
    def titles(self) -> tuple[str, ...]:
        """The words of the head in small letters, blanks evened out."""
        return tuple(" ".join(cell.text.lower().split()) for cell in self.head)


def row_cells(line: Stretch) -> tuple[Stretch, ...]:
    """The cells of one row, blanks at their ends taken off.

    A bar within a cell is written `\\|`, in backticks too; it stays as typed, so that places hold.
    """
    text = line.text.rstrip()
    edges = [found.start() for found in _BAR.finditer(text)]
    starts = [0, *(edge + 1 for edge in edges)]
    ends = [*edges, len(text)]
    cells = [line.cut(start, end).strip() for start, end in zip(starts, ends, strict=True)]
    if edges and not text[: edges[0]].strip():
        cells = cells[1:]
    if edges and len(cells) > 1 and not text[edges[-1] + 1 :].strip():
        cells = cells[:-1]
    return tuple(cells)
