"""The second arithmetic: all variants at once in arrays of float64, as a filter before exact fractions.

Numpy is imported when the first formula is worked, never with the package.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeAlias

from quizkit.formula.cells import Columns, Many, Work
from quizkit.formula.grain import Grain, grain_of, in_grain
from quizkit.formula.resolve import meaning
from quizkit.formula.tree import Formula, Name
from quizkit.formula.values import RatioValue

Grains: TypeAlias = "Callable[[str], Grain | RatioValue | None]"
"""For each dotted name what its values are whole multiples of, for a ratio by side; None where that is not known."""

EXACT_IN_FLOATS = 2**53
"""Whole numbers below this are floats without a loss."""


def _no_grain(_name: str) -> None:
    """What is known of columns of which nothing is said."""


class Arrays:
    """Formulas over the same columns; what several of them have in common is worked once."""

    def __init__(self, columns: Columns, grains: Grains = _no_grain) -> None:
        self.columns = columns
        """May grow while formulas are worked, but no column changes."""
        self.grains = grains
        self.works: dict[tuple[bool, bool], Work] = {}
        self.found: dict[tuple[int, bool, bool], tuple[Formula, Many]] = {}

    def of(self, formula: Formula, zero: bool = False, edges: bool = False) -> Many:
        """The value of a formula for every variant, and where floats do not decide it: the same object for like ones.

        With `zero` near is also what may be 0 in truth, since floats leave a little of a difference of equals. With
        `edges` near means the edge of a comparison: every two equal values, counts aside, may be worked to either side
        by hand.
        """
        key = (id(formula), zero, edges)
        known = self.found.get(key)
        if known is None:
            # The formula is kept beside it, so that its identity stays its own.
            known = self.found[key] = (formula, self._worked(formula, zero, edges))
        return known[1]

    def _worked(self, formula: Formula, zero: bool, edges: bool) -> Many:
        import numpy as np

        try:
            with np.errstate(divide="raise", over="raise", invalid="ignore", under="ignore"):
                return self._work(edges, careful=False).whole(formula.tree, zero)
        except FloatingPointError:
            with np.errstate(all="ignore"):
                return self._work(edges, careful=True).whole(formula.tree, zero)

    def _work(self, edges: bool, careful: bool) -> Work:
        found = self.works.get((edges, careful))
        if found is None:
            found = self.works[edges, careful] = Work(self.columns, self._grain_of_name, edges, careful)
        return found

    def grain(self, formula: Formula) -> Grain | None:
        """What the values of a formula are whole multiples of; None where that is not known."""
        found: Grain | None = grain_of(formula.tree, self._grain_of_name)
        return found

    def _grain_of_name(self, node: Name) -> Any:
        found = meaning(node, self.columns)
        grain: Any = self.grains(found.name)
        if found.side and grain is not None:
            grain = getattr(grain, found.side)
        return grain if found.unit is None or grain is None else in_grain(grain, found.unit)


def arrays(formula: Formula, columns: Columns, zero: bool = False, edges: bool = False) -> Many:
    """What `Arrays` says of one formula alone."""
    return Arrays(columns).of(formula, zero, edges)
