"""The matrix as a table, and lapses as events, from what their views hold."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator, Sequence
from typing import Protocol

from quizkit.exchange.lapses import Lapse
from quizkit.exchange.table import Table
from quizkit.words import _


class Standing(Protocol):
    """One cell: its word, its dates, and a note in words."""

    @property
    def word(self) -> str: ...
    @property
    def since(self) -> dt.date | None: ...
    @property
    def ends(self) -> dt.date | None: ...
    @property
    def note(self) -> str: ...


class Head(Protocol):
    """A column: a skill and its title."""

    @property
    def skill(self) -> str: ...
    @property
    def title(self) -> str: ...


class Row(Protocol):
    """A person with a standing for each column."""

    @property
    def person(self) -> int: ...
    @property
    def name(self) -> str: ...
    @property
    def role(self) -> str: ...
    @property
    def site_title(self) -> str: ...
    @property
    def cells(self) -> Sequence[Standing]: ...


class Lapsing(Protocol):
    """A clearance that lapses on a day, and why where that is not its own end."""

    @property
    def person(self) -> int: ...
    @property
    def name(self) -> str: ...
    @property
    def skill(self) -> str: ...
    @property
    def title(self) -> str: ...
    @property
    def day(self) -> dt.date: ...
    @property
    def note(self) -> str: ...


class Matrix(Protocol):
    """What the view of the matrix tells."""

    @property
    def title(self) -> str: ...
    @property
    def day(self) -> dt.date: ...
    @property
    def skills(self) -> Sequence[Head]: ...
    @property
    def rows(self) -> Sequence[Row]: ...


def matrix_table(view: Matrix, *, short: bool = False) -> Table:
    """People down, skills across; each cell a word and its note as the page has them, or `short` with a date alone."""
    heads = (_("Person"), _("Role"), _("Site"), *(head.title for head in view.skills))
    rows = tuple(
        (row.name, row.role, row.site_title, *(_short(cell) if short else _cell(cell) for cell in row.cells))
        for row in view.rows
    )
    return Table(f"{view.title} {view.day.isoformat()}", heads, rows)


def matrix_plain(view: Matrix) -> dict[str, object]:
    """The matrix for a program: a row a person and skill, dates in ISO 8601."""
    return {
        "day": view.day.isoformat(),
        "skills": [{"skill": head.skill, "title": head.title} for head in view.skills],
        "standings": [
            {
                "person": row.person,
                "name": row.name,
                "skill": head.skill,
                "standing": cell.word,
                "since": cell.since and cell.since.isoformat(),
                "ends": cell.ends and cell.ends.isoformat(),
                "note": cell.note,
            }
            for row, head, cell in _cells(view)
        ],
    }


def lapses(rows: Iterable[Lapsing], shop: str) -> list[Lapse]:
    """The days on which clearances lapse. `shop` (its address or name) keeps events of two shops apart."""
    return [
        Lapse(
            f"{shop}/{row.person}/{row.skill}",
            row.day,
            _("{name}: {skill} lapses").format(name=row.name, skill=row.title),
            row.note or _("Renew it before: a renewal check and a sheet."),
        )
        for row in rows
    ]


def _cells(view: Matrix) -> Iterator[tuple[Row, Head, Standing]]:
    for row in view.rows:
        for head, cell in zip(view.skills, row.cells, strict=True):
            yield row, head, cell


def _cell(cell: Standing) -> str:
    word = _(cell.word)
    return cell.note if cell.note.startswith(word) else f"{word} {cell.note}".strip()


def _short(cell: Standing) -> str:
    day = cell.since if cell.word == "lapsed" else cell.ends
    return f"{_(cell.word)} {day.isoformat()}" if day else _(cell.word)
