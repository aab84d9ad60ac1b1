"""Questions that ask what a value is in another unit: there the value typed again as it was told is no answer."""

from __future__ import annotations

from dataclasses import replace

from quizkit.formula import parse
from quizkit.formula.tree import Name
from quizkit.pack.model import Choice, Numeric, Part, Question
from quizkit.pack.nodes import Element, walk
from quizkit.pack.ready import asked_unit
from quizkit.units import Unit, unit


def with_turned(question: Question) -> Question:
    """The same question, each part marked whose right answer its own text tells in another unit."""
    parts = tuple(_marked(question, part) for part in question.parts)
    return question if parts == question.parts else replace(question, parts=parts)


def _marked(question: Question, part: Part) -> Part:
    if not isinstance(part, Numeric) or not isinstance(parse(part.formula).tree, Name):
        return part
    asked = asked_unit(part)
    turned = any(not told.measures_like(asked) for told in _told(question, part.formula.strip()))
    return replace(part, turned=True) if turned else part


def _told(question: Question, name: str) -> list[Unit]:
    """The units in which a value stands in what is read before the answer."""
    givens = {given.name: given.unit for given in question.givens}
    asks = [part.ask for part in question.parts if isinstance(part, Numeric | Choice)]
    shown = [
        unit(node.get("unit")) if node.get("unit") else givens.get(name)
        for node in walk(sum(asks, question.prompt))
        if isinstance(node, Element) and node.tag == "value" and node.get("formula").strip() == name
    ]
    return [told for told in shown if told is not None]
