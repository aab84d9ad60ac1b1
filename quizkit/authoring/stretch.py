"""A run of a question's points at work: arrays of floats, and fractions wherever floats do not decide."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from functools import partial
from typing import TYPE_CHECKING, Any

from quizkit.authoring.exactly import At, Exactly
from quizkit.authoring.reasons import STANDS
from quizkit.formula import Formula, Many
from quizkit.formula.draws import Computed
from quizkit.formula.grain import Grain, of_computed, of_draw
from quizkit.formula.grid import Block
from quizkit.formula.many import Arrays
from quizkit.formula.values import RatioValue
from quizkit.scoring.grade import NumericPart

if TYPE_CHECKING:
    import numpy as np
    import numpy.typing as npt

    Reasons = npt.NDArray[np.uint8]


@dataclass(slots=True)
class Stretch:
    """The points of one block. An array broadcasts to `shape`, with one axis for each given that is drawn."""

    view: slice
    """Where its points stand among all."""
    shape: tuple[int, ...]
    start: At
    """Its first point."""
    reasons: Reasons
    """Why each point is left out, as a window on those of the whole question."""
    columns: dict[str, Any]
    """What formulas take: givens, and right answers once they are known."""
    exactly: Exactly
    lost: Any = False
    """Where a computed given has no value."""
    true: dict[str, Any] = field(default_factory=dict)
    """The right answers by part, in the asked unit."""
    arrays: Arrays = field(init=False)
    settled: dict[int, tuple[Many, Any]] = field(default_factory=dict)
    """What was settled already, by what it was before: the wrong method of one part is the right one of another."""

    def __post_init__(self) -> None:
        self.arrays = Arrays(self.columns, self.grain)

    def grain(self, name: str) -> Grain | RatioValue | None:
        """What a given, a field of one or a right answer is a whole multiple of; None where that is not known."""
        grains: dict[str, Grain | RatioValue | None] = self.exactly.grains
        if name not in grains:
            grains[name] = self.learned(name)
        return grains[name]

    def learned(self, name: str) -> Grain | RatioValue | None:
        """The same, found out."""
        first, _dot, field = name.partition(".")
        for given in self.exactly.made.grid.givens:
            if given.name == first and isinstance(given.draw, Computed):
                return of_computed(given.draw, self.arrays.grain(given.draw.formula))
            if given.name == first:
                return of_draw(given.draw, field)
        for part in self.exactly.made.parts:
            if part.name == first and isinstance(part, NumericPart):
                return self.arrays.grain(part.formula)
        return None

    def leave_out(self, out: Any, reason: int) -> None:
        """Leave points out for a reason; the first reason stays."""
        import numpy as np

        if out is not False and np.count_nonzero(out):
            self.reasons[out & (self.reasons == STANDS)] = reason

    def work(self, formula: Formula, zero: bool = False) -> Any:
        """The values of a formula as floats, each the one nearest to what fractions say where floats are in doubt."""
        many = self.arrays.of(formula, zero)
        if many.near is False:
            return many.value
        known = self.settled.get(id(many))
        if known is None:
            value = self.settle(many.value, many.near, partial(self.exactly.number, formula))
            known = self.settled[id(many)] = (many, value)
        return known[1]

    def settle(self, value: Any, near: Any, decide: Callable[[At], Any]) -> Any:
        """An array with what fractions say at each place that is `near`, as far as a point still stands there."""
        import numpy as np

        if near is False or not np.count_nonzero(near):
            return value
        shape = np.broadcast_shapes(np.shape(value), near.shape)
        places = np.argwhere(self.standing(np.broadcast_to(near, shape))).tolist()
        if not places:
            return value
        settled = np.array(np.broadcast_to(value, shape))
        for place in places:
            at = tuple(map(int.__add__, self.start, place)) if place else self.start
            found = decide(at)
            settled[tuple(place)] = np.nan if found is None else found
        return settled

    def standing(self, near: Any) -> Any:
        """Where an array is true and a point that goes with it stands."""
        shape = near.shape
        if shape == self.shape:
            return near & (self.reasons == STANDS)
        axes = tuple(axis for axis in range(len(self.shape)) if not shape or shape[axis] < self.shape[axis])
        return near & (self.reasons == STANDS).any(axis=axes, keepdims=bool(shape))


def stretch(block: Block, reasons: Reasons, exactly: Exactly) -> Stretch:
    """A block of the grid at work, its computed givens settled. `reasons` are those of all points."""
    import numpy as np

    view = slice(block.first, block.first + block.count)
    made = Stretch(
        view, block.shape, exactly.at(block.first), reasons[view].reshape(block.shape), dict(block.columns), exactly
    )
    for name, near in block.near.items():
        made.columns[name] = made.settle(block.columns[name], near, partial(exactly.given, name))
        made.lost = made.lost | ~np.isfinite(made.columns[name])
    return made
