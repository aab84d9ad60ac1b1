"""Single points of a question's grid in exact fractions, with the code that marks answers.

Here is decided what arrays of floats leave open.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from quizkit.arith import ArithError, nearest
from quizkit.authoring.likeness import exactly_alike
from quizkit.authoring.reasons import (
    ALIKE,
    EDGE_OF_CHOICE,
    FIRST_SLIP,
    IMPLAUSIBLE,
    NO_VALUE,
    NOT_LET,
    NOTHING_RIGHT,
    ROUNDING,
    STANDS,
    ZERO,
)
from quizkit.formula import Formula, holds, number
from quizkit.formula.grid import drawn_values, worked
from quizkit.formula.values import Value
from quizkit.pack.model import Question
from quizkit.pack.ready import Ready
from quizkit.scoring.grade import ChoicePart, NumericPart
from quizkit.units import DATE

EXACT_TYPED = Fraction(0)
"""The step of a number that is not rounded at all."""


@dataclass(slots=True)
class Points:
    """The points of a question, one at a time. `where` are the comparisons that must all hold.

    `steps` are the question's own steps by part, once they are known.
    """

    question: Question
    made: Ready
    where: tuple[Formula, ...]
    steps: Mapping[str, Fraction | None] = field(default_factory=dict)
    cells: dict[tuple[int, int], dict[str, Value]] = field(default_factory=dict)
    """What each given is worth at each place of its own, as far as it was met: many points share them."""

    def values(self, place: int) -> dict[str, Value]:
        """The exact values of one point under their dotted names, as the grid gives them."""
        grid = self.made.grid
        found: dict[str, Value] = {}
        for axis in range(len(grid.drawn) - 1, -1, -1):
            place, at = divmod(place, grid.counts[axis])
            cell = self.cells.get((axis, at))
            if cell is None:
                cell = self.cells[axis, at] = drawn_values(grid.drawn[axis], at)
            found.update(cell)
        for given, draw in grid.computed:
            found[given.name] = worked(draw, found)
        return found

    @property
    def numeric(self) -> list[NumericPart]:
        """The parts that ask for a number, in order."""
        return [part for part in self.made.parts if isinstance(part, NumericPart)]

    def true(self, place: int, part: NumericPart) -> Fraction:
        """The right answer to a part, in the asked unit."""
        known = self.values(place)
        for one in self.numeric:
            value = number(one.formula, known)
            if one.name == part.name:
                return one.unit.from_base(value)
            known[one.name] = as_value(one, value)
        raise KeyError(part.name)

    def right(self, place: int, at_edge: bool, trues: dict[str, Fraction]) -> int:
        """Why conditions, right answers and choices leave a point out, or STANDS; `trues` learns the right answers.

        `at_edge` says that a choice's condition is within 1e-9 of its edge, which is left out whatever the side.
        """
        try:
            known = self.values(place)
        except ArithError:
            return NO_VALUE
        if not all(_holds(formula, known) for formula in self.where):
            return NOT_LET
        return next(self._faults(known, at_edge, trues), STANDS)

    def _faults(self, known: dict[str, Value], at_edge: bool, trues: dict[str, Fraction]) -> Iterator[int]:
        for part in self.made.parts:
            if isinstance(part, ChoicePart):
                if at_edge and any(isinstance(option, Formula) for option in part.options):
                    yield EDGE_OF_CHOICE
                right = [option if isinstance(option, bool) else _holds(option, known) for option in part.options]
                if not any(right):
                    yield NOTHING_RIGHT
                continue
            try:
                base = number(part.formula, known)
            except ArithError:
                yield NO_VALUE
                return
            true = trues[part.name] = part.unit.from_base(base)
            known[part.name] = as_value(part, base)
            if true == 0 and not takes_zero(part):
                yield ZERO
            if part.plausible is not None and not part.plausible[0] <= base <= part.plausible[1]:
                yield IMPLAUSIBLE
        if exactly_alike(self.question, known):
            yield ALIKE

    def slips(self, place: int, gaps: dict[int, float]) -> int:
        """Why rounding and slips leave out a point that passed so far, or STANDS.

        `gaps` learns how far each slip, counted over all parts, lies from the right answer, as a share of it.
        """
        known = self.values(place)
        first = 0
        for part in self.numeric:
            base = number(part.formula, known)
            true, step = part.unit.from_base(base), self.steps[part.name]
            if step is not None and not part.tolerance.accepts(true, Fraction(nearest(true, step)), step):
                return ROUNDING
            for slip, value in _slip_values(part, known):
                if _would_be_right(part, step, true, value):
                    return FIRST_SLIP + first + slip
                if true:
                    gaps[first + slip] = float(abs(value - true) / abs(true))
            first += len(part.slips)
            known[part.name] = as_value(part, base)
        return STANDS


def _slip_values(part: NumericPart, known: Mapping[str, Value]) -> Iterator[tuple[int, Fraction]]:
    """Each slip of a part that has a value, in the asked unit."""
    for place, slip in enumerate(part.slips):
        try:
            value = number(slip.formula, known)
        except ArithError:
            continue
        yield place, value if slip.plain else part.unit.from_base(value)


def _would_be_right(part: NumericPart, step: Fraction | None, true: Fraction, value: Fraction) -> bool:
    """Whether a number is accepted as computed, or rounded to the question's own step."""
    if step is not None and part.tolerance.accepts(true, Fraction(nearest(value, step)), step):
        return True
    return part.tolerance.accepts(true, value, EXACT_TYPED)


def _holds(formula: Formula, known: Mapping[str, Value]) -> bool:
    """Whether a condition holds at a point; one without a value does not."""
    try:
        return holds(formula, known)
    except ArithError:
        return False


def as_value(part: NumericPart, base: Fraction) -> Value:
    """A right answer as later formulas take it: a date is its day count in the base."""
    return datetime.date.fromordinal(int(base)) if part.unit.kind == DATE else base


def takes_zero(part: NumericPart) -> bool:
    """Whether the author says that the right answer may be 0 in the asked unit."""
    if part.plausible is None:
        return False
    low, high = (part.unit.from_base(bound) for bound in part.plausible)
    return low <= 0 <= high
