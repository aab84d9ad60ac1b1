"""The formulas whose values a reader sees: each must have one in every variant."""

from __future__ import annotations

from collections.abc import Iterator

from quizkit.formula import Formula, parse
from quizkit.formula.tree import Call, Name, Negative, Node, Numeral, Operation, inside
from quizkit.pack.model import Choice, Match, Nodes, Numeric, Order, Question
from quizkit.pack.nodes import Element


def displayed(question: Question) -> Iterator[tuple[Formula, int | None]]:
    """Each formula in a text of a question that may want a value, but for bare names.

    Beside it the slip, counted over all parts, behind which it stands, and which alone makes it seen; None elsewhere.
    """
    first = 0
    texts: list[tuple[Nodes, int | None]] = [(question.prompt, None), (question.working, None)]
    for part in question.parts:
        texts.append((part.working, None))
        match part:
            case Numeric():
                texts.append((part.ask, None))
                texts += ((slip.feedback, first + place) for place, slip in enumerate(part.slips))
                first += len(part.slips)
            case Choice():
                texts += [
                    (part.ask, None),
                    *((text, None) for one in part.options for text in (one.text, one.feedback)),
                ]
            case Order():
                texts += ((item, None) for item in part.items)
            case Match():
                texts += ((text, None) for pair in part.pairs for text in pair)
    for nodes, slip in texts:
        for text in _formulas(nodes):
            formula = parse(text)
            if _may_fail(formula.tree):
                yield formula, slip


def _formulas(nodes: Nodes) -> list[str]:
    """The texts of the formulas of values and figures; most texts have none, so this looks at elements alone."""
    found: list[str] = []
    for node in nodes:
        if isinstance(node, Element):
            if node.tag in _WANTED:
                found += [text for key, text in node.attrs if key == _WANTED[node.tag]]
            found += _formulas(node.children)
    return found


_WANTED = {"value": "formula", "figure": "arg"}
"""Where the formulas of an element stand, by its tag."""


def _may_fail(node: Node) -> bool:
    """Whether a value may be missing: a division, a power, a root, a class beyond the last, a sum that refuses."""
    match node:
        case Name() | Numeral():
            return False
        case Operation(sign="/"):
            return not isinstance(node.right, Numeral) or not node.right.value or _may_fail(node.left)
        case Operation(sign="+" | "-" | "*") | Negative() | Call(function="min" | "max" | "abs" | "pi"):
            return any(map(_may_fail, inside(node)))
        case _:
            return True
