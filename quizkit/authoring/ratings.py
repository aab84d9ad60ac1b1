"""`judges.csv`: what judges think someone who only just should pass would get right."""

from __future__ import annotations

import csv
import re
from collections.abc import Collection
from fractions import Fraction

from quizkit.authoring.diagnostics import Diagnostic, Spot
from quizkit.authoring.nearest import did_you_mean
from quizkit.authoring.notes import Notes
from quizkit.authoring.source import Source
from quizkit.pack.model import Rating
from quizkit.words import _

_CHANCE = re.compile(r"0(\.\d{1,6})?|1(\.0{1,6})?|\.\d{1,6}")


def read_ratings(
    source: Source, module: str, questions: Collection[str]
) -> tuple[tuple[Rating, ...], tuple[Diagnostic, ...]]:
    """A question a row, a column a judge. `questions` are the ids within the module."""
    notes = Notes(source)
    rows = [[cell.strip() for cell in next(csv.reader([line]), ())] for line in source.lines]  # a row is one line
    head = rows[0] if rows else []
    judges = head[1:]
    if len(head) < 2 or not all(judges) or len(set(judges)) < len(judges):
        what = _("the first row names the judges")
        notes.tell("M08", Spot(1, 1, max(1, len(source.lines[0]))), what, _("write 'question', then a name a column"))
        return (), tuple(notes.problems)
    found: list[list[tuple[str, Fraction]]] = [[] for _judge in judges]
    rated: set[str] = set()
    for number, row in enumerate(rows[1:], 2):
        if any(row) and row[0] in rated:
            spot = Spot(number, 1, len(source.lines[number - 1]))
            notes.tell("M08", spot, _("'{name}' is rated twice").format(name=row[0]), _("delete one of the rows"))
        elif any(row):
            _row(notes, number, row, judges, module, questions, found)
            rated.add(row[0])
    ratings = tuple(Rating(judge, tuple(chances)) for judge, chances in zip(judges, found, strict=True))
    return ratings, tuple(notes.problems)


def _row(
    notes: Notes,
    number: int,
    row: list[str],
    judges: list[str],
    module: str,
    questions: Collection[str],
    found: list[list[tuple[str, Fraction]]],
) -> None:
    line = notes.source.lines[number - 1] if number <= len(notes.source.lines) else ""
    whole = Spot(number, 1, max(1, len(line)))
    if row[0] not in questions:
        what = _("there is no question '{name}' in this module").format(name=row[0][:60])
        notes.tell("M08", whole, what, did_you_mean(row[0], questions))
        return
    if len(row) != len(judges) + 1:
        what = _("this row has {got} chances for {n} judges").format(got=len(row) - 1, n=len(judges))
        notes.tell("M08", whole, what, _("fill one cell a judge"))
        return
    for place, text in enumerate(row[1:]):
        if _CHANCE.fullmatch(text):
            found[place].append((f"{module}/{row[0]}", Fraction(text)))
        else:
            notes.tell("M08", whole, _("'{text}' is no chance").format(text=text[:20]), _("write a number from 0 to 1"))
