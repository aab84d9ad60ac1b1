"""A condition that would leave out the variants in which a slip is marked right."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from quizkit.formula import Even, Formula, Given, Grid, Listed, Ratios
from quizkit.formula.tree import Name, walk
from quizkit.scoring.grade import NumericPart, Slip
from quizkit.units import PLAIN

LONGEST = 150
NEARLY_ALL = 0.95
LEAST_LEFT = 0.4
"""A condition on one given helps where it takes nearly all of the bad points and leaves enough of the others."""


def helpful_where(grid: Grid, reasons: Any, bad: int, part: NumericPart, slip: Slip, parts: set[str]) -> str:
    """The condition, as it would stand in `Where:`; "" where none is found.

    `reasons` says for each point why it is left out, `bad` is the reason to be rid of; `parts` are the names that a
    condition must not use.
    """
    return _on_one_given(grid, reasons, bad) or _on_both(part, slip, parts)


def _on_one_given(grid: Grid, reasons: Any, bad: int) -> str:
    import numpy as np

    cube = reasons.reshape(grid.counts)
    total = int(np.sum(cube == bad))
    for axis, given in enumerate(grid.drawn):
        others = tuple(place for place in range(len(grid.counts)) if place != axis)
        by_value = np.sum(cube == bad, axis=others)
        good = np.sum(cube != bad, axis=others)
        worst = np.flatnonzero(by_value > good)
        if len(worst) in (0, len(by_value)) or by_value[worst].sum() < NEARLY_ALL * total:
            continue
        if len(by_value) - len(worst) < LEAST_LEFT * len(by_value):
            continue
        found = _without(given, [int(place) for place in worst], len(by_value))
        if found:
            return found
    return ""


def _without(given: Given, worst: list[int], count: int) -> str:
    draw = given.draw
    if isinstance(draw, Ratios):
        sides = {draw.sides[place] for place in worst}
        return " and ".join(f"{given.name}.a != {a}" for a, _b in sorted(sides))[:LONGEST]
    if not isinstance(draw, Even | Listed) or given.unit not in (None, PLAIN):
        return ""
    values = [draw.value(place) for place in worst]
    if not all(isinstance(value, Fraction) and value.denominator == 1 for value in values):
        return ""
    if worst == list(range(len(worst))):
        return f"{given.name} > {values[-1]}"
    if worst == list(range(count - len(worst), count)):
        return f"{given.name} < {values[0]}"
    return ""


def _on_both(part: NumericPart, slip: Slip, parts: set[str]) -> str:
    """That slip and answer differ by more than the tolerance takes."""
    right, wrong = part.formula, slip.formula
    if slip.plain or parts & {*right.names, *wrong.names} or _in_units(wrong):
        return ""
    if part.tolerance.relative and part.tolerance.within is not None:
        share = float(part.tolerance.within) * 2
        found = f"abs(({wrong.text}) - ({right.text})) > {share:g} * abs({right.text})"
    else:
        found = f"{wrong.text} != {right.text}"
    return found if len(found) <= LONGEST else ""


def _in_units(formula: Formula) -> bool:
    """Whether a slip takes a value as the plain number in a unit, which no condition may."""
    return any(
        isinstance(node, Name) and len(node.path) > 1 and node.path[-1] not in "ab" for node in walk(formula.tree)
    )
