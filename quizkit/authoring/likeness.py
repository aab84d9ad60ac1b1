"""Options, items and cells that read alike in a variant: whoever has to tell them apart could not."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from fractions import Fraction
from itertools import combinations
from typing import Any

from quizkit.formula import Formula, RatioValue, parse
from quizkit.formula.single import EDGE
from quizkit.pack.model import Choice, Match, Nodes, Order, Question
from quizkit.pack.nodes import Element, Node
from quizkit.units import unit

THREE_DIGITS = 0.005
"""How far apart two numbers of three significant digits surely look different, as a share."""

Pair = tuple[tuple[Element, Element], ...]
"""The values that stand in the same places of two texts with the same words."""


def alike_pairs(question: Question) -> tuple[Pair, ...]:
    """Every two texts of a question that have the same words and differ in their values alone."""
    return tuple(
        pair
        for group in _groups(question)
        for one, other in combinations(group, 2)
        if (pair := _same_words(one, other)) is not None
    )


def _groups(question: Question) -> Iterator[tuple[Nodes, ...]]:
    for part in question.parts:
        match part:
            case Choice():
                yield tuple(option.text for option in part.options)
            case Order():
                yield part.items
            case Match():
                yield tuple(pair[0] for pair in part.pairs)
                yield tuple(pair[1] for pair in part.pairs)


def _same_words(one: Nodes, other: Nodes) -> Pair | None:
    found: list[tuple[Element, Element]] = []
    return tuple(found) if _walk(one, other, found) and found else None


def _walk(one: tuple[Node, ...], other: tuple[Node, ...], found: list[tuple[Element, Element]]) -> bool:
    if len(one) != len(other):
        return False
    for left, right in zip(one, other, strict=True):
        if isinstance(left, Element) and isinstance(right, Element) and left.tag == right.tag:
            if left.tag == "value":
                found.append((left, right))
            elif left.attrs != right.attrs or not _walk(left.children, right.children, found):
                return False
        elif left != right:
            return False
    return True


def alike_somewhere(
    pairs: tuple[Pair, ...], columns: Mapping[str, Any], work: Callable[[Formula], Any]
) -> Iterator[Any]:
    """For each pair of texts an array that is true where they look alike; `work` gives the values of a formula."""
    import numpy as np

    for pair in pairs:
        same = [_same_columns(one, other, columns, work) for one, other in pair]
        yield np.logical_and.reduce(np.broadcast_arrays(*same))


def _same_columns(one: Element, other: Element, columns: Mapping[str, Any], work: Callable[[Formula], Any]) -> Any:
    import numpy as np

    def column(element: Element) -> Any:
        name = element.get("formula")
        return columns[name] if name in columns else work(parse(name))

    left, right = column(one), column(other)
    if isinstance(left, RatioValue) or isinstance(right, RatioValue):
        return _same_ratios(left, right)
    left, right = np.asarray(left), np.asarray(right)
    if left.dtype.kind == "U" or right.dtype.kind == "U":
        return left == right if left.dtype.kind == right.dtype.kind else np.asarray(False)
    return np.abs(left - right) <= _apart(one, other, np.maximum(np.abs(left), np.abs(right)))


def _same_ratios(left: Any, right: Any) -> Any:
    import numpy as np

    if not (isinstance(left, RatioValue) and isinstance(right, RatioValue)) or left.basis != right.basis:
        return np.asarray(False)
    return (left.a == right.a) & (left.b == right.b)


def _apart(one: Element, other: Element, size: Any) -> Any:
    """How far apart two numbers may be and still look alike, on the cautious side."""
    steps = [
        float(Fraction(element.get("step")) * unit(element.get("unit")).factor)
        for element in (one, other)
        if element.get("step")
    ]
    if steps:
        return max(steps)
    bare = all(element.get("formula").isidentifier() for element in (one, other))
    return (EDGE if bare else THREE_DIGITS) * size
