"""Exact values at the points of a question's grid, with the code that marks answers.

A formula hangs on some of the givens alone, so it is worked once for each set of places of those: what thousands of
points share is worked in fractions a few times.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterable
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any, TypeAlias

from quizkit.arith import ArithError
from quizkit.formula import Formula, exact
from quizkit.formula.grid import drawn_values, worked
from quizkit.formula.values import Value
from quizkit.pack.ready import Ready
from quizkit.scoring.grade import NumericPart
from quizkit.units import DATE

At: TypeAlias = tuple[int, ...]
"""A point: the place of each given that is drawn, in the order of the grid."""


@dataclass(slots=True)
class Exactly:
    """The exact values of one question."""

    made: Ready
    axes: dict[str, tuple[int, ...]] = field(default_factory=dict)
    """On which drawn givens each name hangs, by their order."""
    of_formulas: dict[int, tuple[Formula, tuple[str, ...], tuple[int, ...]]] = field(default_factory=dict)
    """For each formula by its identity: itself, the names that it uses, and on which drawn givens it hangs."""
    cells: dict[tuple[int, int], dict[str, Value]] = field(default_factory=dict)
    """What each drawn given is worth at each of its places, under its dotted names."""
    met: dict[tuple[int, ...], Any] = field(default_factory=dict)
    """What was worked, by formula and places; None where there is no value."""
    grains: dict[str, Any] = field(default_factory=dict)
    """What each name is a whole multiple of, as far as that was asked for."""

    def at(self, place: int) -> At:
        """The point of a number."""
        found = []
        for count in reversed(self.made.grid.counts):
            place, here = divmod(place, count)
            found.append(here)
        return tuple(reversed(found))

    def value(self, formula: Formula, at: At) -> Any:
        """What a formula comes to at a point, in the coherent base; None where it has no value."""
        _formula, names, axes = self.of_formulas.get(id(formula)) or self.used(formula)
        key = (id(formula), *[at[axis] for axis in axes])
        if key not in self.met:
            try:
                self.met[key] = exact(formula, self.known(names, at))
            except ArithError:
                self.met[key] = None
        return self.met[key]

    def number(self, formula: Formula, at: At) -> Fraction | None:
        """The value of a formula as a fraction, a date as its day count."""
        value = self.value(formula, at)
        return Fraction(value.toordinal()) if isinstance(value, datetime.date) else value

    def holds(self, formula: Formula, at: At) -> bool:
        """Whether a condition holds at a point; one without a value does not."""
        return bool(self.value(formula, at))

    def true(self, part: NumericPart, at: At) -> Fraction | None:
        """The right answer to a part, in the asked unit."""
        base = self.number(part.formula, at)
        return None if base is None else part.unit.from_base(base)

    def given(self, name: str, at: At) -> float:
        """A computed given as a float, a date as its day count; nan where it has no value."""
        try:
            return as_float(self.known((name,), at)[name])
        except ArithError:
            return float("nan")

    def used(self, formula: Formula) -> tuple[Formula, tuple[str, ...], tuple[int, ...]]:
        """Learn what a formula uses. It is kept, so that its identity stays its own."""
        names = formula.names
        found = self.of_formulas[id(formula)] = (formula, names, self.spanned(names))
        return found

    def spanned(self, names: Iterable[str]) -> tuple[int, ...]:
        """On which drawn givens some names hang together."""
        if not self.axes:
            self.learn_axes()
        return tuple(sorted({axis for name in names for axis in self.axes[name]}))

    def learn_axes(self) -> None:
        grid = self.made.grid
        for axis, given in enumerate(grid.drawn):
            self.axes[given.name] = (axis,)
        for given, draw in grid.computed:
            self.axes[given.name] = self.spanned(draw.formula.names)
        for part in self.made.parts:
            if isinstance(part, NumericPart):
                self.axes[part.name] = self.spanned(part.formula.names)

    def known(self, names: Iterable[str], at: At) -> dict[str, Value]:
        """The values of some names, under their dotted names. Raises ArithError where one has none."""
        grid = self.made.grid
        found: dict[str, Value] = {}
        for axis, given in enumerate(grid.drawn):
            if given.name in names:
                cell = self.cells.get((axis, at[axis]))
                if cell is None:
                    cell = self.cells[axis, at[axis]] = drawn_values(given, at[axis])
                found.update(cell)
        for given, draw in grid.computed:
            if given.name in names:
                found[given.name] = worked(draw, self.known(draw.formula.names, at))
        for part in self.made.parts:
            if isinstance(part, NumericPart) and part.name in names:
                found[part.name] = _handed_on(part, self.number(part.formula, at))
        return found


def _handed_on(part: NumericPart, base: Fraction | None) -> Value:
    """A right answer as later formulas take it: a date is its day count in the base."""
    if base is None:
        raise ArithError(part.name)
    return datetime.date.fromordinal(int(base)) if part.unit.kind == DATE else base


def as_float(value: Any) -> float:
    """A number or a date for the arrays, nan for what has no value."""
    if value is None:
        return float("nan")
    return float(value.toordinal() if isinstance(value, datetime.date) else value)
