"""A product that changed: the shop's first lessons knew an earlier label of one material."""

from __future__ import annotations

from dataclasses import replace

from quizkit.formula import Given, Row, Rows
from quizkit.pack.model import Module, Pack, Question
from quizkit.units import unit

MATERIAL = "Keel adhesive"
FIELD, BEFORE, UNIT = "clamp_time", 3, "h"
"""What the label said before: a field that no question works with, so that every set of numbers stands."""


def before(pack: Pack) -> Pack:
    """The pack as it was published first, with the earlier label on the shelf and in the questions that show it."""
    rows = tuple(_before(row) for row in pack.shelf.rows)
    modules = tuple(_module(module) for module in pack.modules)
    return replace(pack, shelf=replace(pack.shelf, rows=rows), modules=modules)


def _before(row: Row) -> Row:
    if row.name != MATERIAL:
        return row
    value = BEFORE * unit(UNIT).factor
    return replace(row, fields=tuple((name, value if name == FIELD else old) for name, old in row.fields))


def _module(module: Module) -> Module:
    return replace(module, questions=tuple(_question(one) for one in module.questions))


def _question(question: Question) -> Question:
    return replace(question, givens=tuple(_given(one) for one in question.givens))


def _given(given: Given) -> Given:
    if not isinstance(given.draw, Rows):
        return given
    return replace(given, draw=replace(given.draw, rows=tuple(_before(row) for row in given.draw.rows)))
