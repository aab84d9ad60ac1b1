"""The proof of a question over every variant: which points stand, and why the others do not.

Arrays look at all points at once; what they cannot decide is worked again in exact fractions, with the code that
marks answers. A right answer has a value, lies where it plausibly can, and survives its own rounding; no slip is
accepted for it, neither as computed nor rounded to the question's own step.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from quizkit.authoring.likeness import alike_pairs, alike_somewhere
from quizkit.authoring.points import Points, takes_zero
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
from quizkit.authoring.suggest import helpful_where
from quizkit.formula import Formula, arrays, parse
from quizkit.formula.grid import BLOCK, Block
from quizkit.formula.single import EDGE, in_unit
from quizkit.formula.tree import Every
from quizkit.pack.model import Choice, Numeric, Question
from quizkit.pack.ready import Ready, made_ready
from quizkit.scoring.grade import ChoicePart, NumericPart
from quizkit.scoring.proving import accepted, accepted_rounded, own_step, surely_apart

if TYPE_CHECKING:
    import numpy as np
    import numpy.typing as npt

    Reasons = npt.NDArray[np.uint8]
    Truths = npt.NDArray[np.bool_]

FEWEST = 8
"""Fewer variants than this would be known by heart."""


@dataclass(frozen=True, slots=True)
class Proof:
    """What came of a proof.

    `reasons` counts the points by why they are left out (STANDS for those that are variants), in order. `steps` are
    the question's own steps by part, None for an exact answer. `nearest` is, by slip in the order of all parts, the
    smallest distance to the right answer among the variants that stand, as a share of it (None where never).
    `twins` are pairs of slips of one part that are alike in every variant.
    """

    size: int
    reasons: tuple[tuple[int, int], ...]
    left_out: tuple[tuple[int, int], ...]
    steps: tuple[tuple[str, Fraction | None], ...] = ()
    nearest: tuple[Fraction | None, ...] = ()
    twins: tuple[tuple[int, int], ...] = ()
    zero: bool = False
    """Whether the right answer of a part with a relative tolerance is 0 in a variant."""
    helpful: str = ""
    """Where too much is left out: a condition that would leave out what the worst slip takes, "" for none."""

    def count(self, reason: int) -> int:
        """How many points are left out for a reason."""
        return dict(self.reasons).get(reason, 0)

    @property
    def let_through(self) -> int:
        """How many points the author's conditions let through."""
        return self.size - self.count(NOT_LET)

    @property
    def stands(self) -> int:
        """How many variants there are."""
        return self.count(STANDS)

    @property
    def left_by_proof(self) -> int:
        """How many points the conditions let through that are no variants."""
        return self.let_through - self.stands

    @property
    def is_poor(self) -> bool:
        """Whether more than half of what the conditions let through is left out, or almost nothing stands."""
        return 2 * self.left_by_proof > self.let_through or self.stands < FEWEST

    @property
    def worst(self) -> int | None:
        """The reason that takes out most points, None where none does."""
        out = {reason: count for reason, count in self.reasons if reason not in (STANDS, NOT_LET)}
        return max(out, key=lambda reason: (out[reason], -reason)) if out else None

    @property
    def worst_slip(self) -> int | None:
        """The slip that takes out most points, counted over all parts."""
        slips = {reason - FIRST_SLIP: count for reason, count in self.reasons if reason >= FIRST_SLIP}
        return max(slips, key=lambda slip: (slips[slip], -slip)) if slips else None


def prove(question: Question) -> Proof:
    """Prove a question over all points of its grid."""
    return _of_words(question) or _Prover(question).run()


def _of_words(question: Question) -> Proof | None:
    """The proof of a question in which nothing is worked out: its one point stands. None for any other."""
    if question.givens or question.where or alike_pairs(question):
        return None
    for part in question.parts:
        if isinstance(part, Numeric):
            return None
        if isinstance(part, Choice) and (any(o.when for o in part.options) or not any(o.right for o in part.options)):
            return None
    return Proof(1, ((STANDS, 1),), ())


class _Prover:
    def __init__(self, question: Question) -> None:
        import numpy as np

        self.question = question
        self.made: Ready = made_ready(question)
        self.where = tuple(one for text in question.where for one in _alone(parse(text, where=True)))
        self.points = Points(question, self.made, self.where)
        self.size = self.made.grid.size
        self.reasons: Reasons = np.zeros(self.size, dtype=np.uint8)
        self.redo: Truths = np.zeros(self.size, dtype=bool)
        self.edges: Truths = np.zeros(self.size, dtype=bool)
        self.numeric = [part for part in self.made.parts if isinstance(part, NumericPart)]
        self.true = {part.name: np.empty(self.size) for part in self.numeric}
        self.steps: dict[str, Fraction | None] = {}
        self.closest: list[float | None] = []
        self.twins: dict[tuple[int, int], bool] = {}

    def run(self) -> Proof:
        import numpy as np

        kept = list(self.made.grid.blocks()) if self.size <= BLOCK else None
        with np.errstate(all="ignore"):
            for block in kept or self.made.grid.blocks():
                self.right_answers(block)
            for place in np.flatnonzero(self.redo):
                self.redo_right(int(place))
            self.redo[:] = False
            stood = self.reasons == STANDS
            self.own_steps()
            for block in kept or self.made.grid.blocks():
                self.slips(block)
            for place in np.flatnonzero(self.redo & stood):
                self.redo_slips(int(place))
        counts = np.bincount(self.reasons)
        reasons = tuple((reason, int(count)) for reason, count in enumerate(counts) if count)
        nearest_ones = tuple(None if gap is None else Fraction(gap) for gap in self.closest)
        twins = tuple(sorted(pair for pair, same in self.twins.items() if same))
        left_out = _runs(self.reasons != STANDS)
        proof = Proof(self.size, reasons, left_out, tuple(self.steps.items()), nearest_ones, twins, self.has_zero())
        return replace(proof, helpful=self.helpful(proof)) if proof.is_poor else proof

    def has_zero(self) -> bool:
        import numpy as np

        standing = self.reasons == STANDS
        relative = [part for part in self.numeric if part.tolerance.relative and part.tolerance.within is not None]
        return any(bool(np.any(self.true[part.name][standing] == 0)) for part in relative)

    def helpful(self, proof: Proof) -> str:
        slip = proof.worst_slip
        if slip is None:
            return ""
        parts = {part.name for part in self.numeric}
        known = [(part, one) for part in self.numeric for one in part.slips]
        return helpful_where(self.made.grid, self.reasons, FIRST_SLIP + slip, *known[slip], parts)

    # the first pass: conditions, right answers, choices

    def right_answers(self, block: Block) -> None:
        import numpy as np

        view = slice(block.first, block.first + block.count)
        columns = dict(block.columns)
        self.mark(view, block, block.near)
        surely: Any = np.asarray(False)
        for formula in self.where:
            many = arrays(formula, columns)
            self.mark(view, block, many.near)
            self.leave_out(view, block, ~many.value, NOT_LET)
            surely = surely | ~(many.value | many.near | block.near)
        for part in self.made.parts:
            if isinstance(part, NumericPart):
                self.right_answer(view, block, part, columns)
            else:
                self.choice(view, block, part, columns)
        for likeness in alike_somewhere(self.question, columns):
            self.leave_out(view, block, np.asarray(likeness), ALIKE)
        if surely.any():
            self.redo[view] &= ~self.flat(block, surely)

    def right_answer(self, view: slice, block: Block, part: NumericPart, columns: dict[str, Any]) -> None:
        import numpy as np

        base = self.work(view, block, part.formula, columns)
        columns[part.name] = base
        true = in_unit(base, part.unit)
        self.true[part.name][view] = self.flat(block, true)
        self.leave_out(view, block, ~np.isfinite(base), NO_VALUE)
        if not takes_zero(part):
            self.leave_out(view, block, true == 0, ZERO)
        if part.plausible is not None:
            low, high = (float(bound) for bound in part.plausible)
            self.leave_out(view, block, (base < low) | (base > high), IMPLAUSIBLE)
            for bound in (low, high):
                self.mark(view, block, np.abs(base - bound) <= EDGE * np.maximum(np.abs(base), abs(bound)))

    def choice(self, view: slice, block: Block, part: ChoicePart, columns: Mapping[str, Any]) -> None:
        import numpy as np

        any_right: Any = np.asarray(False)
        for option in part.options:
            if isinstance(option, bool):
                any_right = any_right | option
                continue
            many = arrays(option, columns)
            any_right = any_right | many.value
            if many.near is not False:
                self.leave_out(view, block, many.near, EDGE_OF_CHOICE)
                self.edges[view] |= self.flat(block, many.near)
        self.leave_out(view, block, ~any_right, NOTHING_RIGHT)

    # the second pass: rounding and slips, each at the question's own step

    def own_steps(self) -> None:
        import numpy as np

        places = np.flatnonzero(self.reasons == STANDS)
        for part in self.numeric:

            def value(place: int, part: NumericPart = part) -> Fraction:
                return self.points.true(int(places[place]), part)

            self.steps[part.name] = own_step(part.tolerance, self.true[part.name][places], value)
        self.points.steps = self.steps

    def slips(self, block: Block) -> None:
        import numpy as np

        view = slice(block.first, block.first + block.count)
        columns = dict(block.columns)
        self.mark(view, block, block.near)
        place = 0
        for part in self.numeric:
            true = self.true[part.name][view].reshape(block.shape)
            step = self.steps[part.name]
            if step is not None and part.tolerance.within is not None:
                kept = accepted_rounded(part.tolerance, true, true, step)
                self.leave_out(view, block, ~kept.yes, ROUNDING)
                self.mark(view, block, kept.near)
            values: list[Any] = []
            for slip in part.slips:
                many = arrays(slip.formula, columns)
                value = many.value if slip.plain else in_unit(many.value, part.unit)
                self.mark(view, block, many.near)
                self.one_slip(view, block, part, step, true, value, place + len(values))
                values.append(np.broadcast_to(value, block.shape))
            self.find_twins(view, values, place)
            place += len(values)
            base = true * float(part.unit.factor) + float(part.unit.offset)
            columns[part.name] = base

    def one_slip(
        self, view: slice, block: Block, part: NumericPart, step: Fraction | None, true: Any, value: Any, place: int
    ) -> None:
        import numpy as np

        if not surely_apart(part.tolerance, true, value, step):
            found = [accepted(part.tolerance, true, value)]
            if step is not None:
                found.append(accepted_rounded(part.tolerance, true, value, step))
            for decided in found:
                self.leave_out(view, block, decided.yes, FIRST_SLIP + place)
                self.mark(view, block, decided.near)
        standing = ((self.reasons[view] == STANDS) & ~self.redo[view]).reshape(block.shape)
        gap = (np.abs(value - true) / np.abs(true))[standing & np.isfinite(value) & (true != 0)]
        self.come_close(place, float(gap.min()) if gap.size else None)

    def come_close(self, place: int, gap: float | None) -> None:
        """Keep the smallest distance of a slip to the right answer."""
        while len(self.closest) <= place:
            self.closest.append(None)
        before = self.closest[place]
        if gap is not None:
            self.closest[place] = gap if before is None else min(before, gap)

    def find_twins(self, view: slice, values: list[Any], place: int) -> None:
        import numpy as np

        for i, one in enumerate(values):
            for j in range(i + 1, len(values)):
                pair = (place + i, place + j)
                if self.twins.get(pair, True):
                    self.twins[pair] = bool(np.all(np.abs(one - values[j]) <= EDGE * np.abs(one)))

    # arrays to points

    def work(self, view: slice, block: Block, formula: Formula, columns: Mapping[str, Any]) -> Any:
        many = arrays(formula, columns)
        self.mark(view, block, many.near)
        return many.value

    def flat(self, block: Block, value: Any) -> Any:
        import numpy as np

        return np.broadcast_to(value, block.shape).reshape(-1)

    def mark(self, view: slice, block: Block, near: Any) -> None:
        """Remember the points that floats do not decide, as far as nothing takes them out already."""
        if near is not False and near.any():
            self.redo[view] |= self.flat(block, near)

    def leave_out(self, view: slice, block: Block, out: Any, reason: int) -> None:
        """Leave points out for a reason; the first reason stays."""
        if out.any():
            part = self.reasons[view]
            part[self.flat(block, out) & (part == STANDS)] = reason

    # what floats do not decide

    def redo_right(self, place: int) -> None:
        """Decide the first pass for one point in fractions."""
        trues: dict[str, Fraction] = {}
        self.reasons[place] = self.points.right(place, bool(self.edges[place]), trues)
        for name, true in trues.items():
            self.true[name][place] = float(true)

    def redo_slips(self, place: int) -> None:
        """Decide the second pass for one point in fractions."""
        gaps: dict[int, float] = {}
        self.reasons[place] = self.points.slips(place, gaps)
        if self.reasons[place] == STANDS:
            for slip, gap in gaps.items():
                self.come_close(slip, gap)


def _alone(condition: Formula) -> tuple[Formula, ...]:
    """The comparisons that a condition joins, each as its own: where one surely fails, the others may be near."""
    parts = condition.tree.parts if isinstance(condition.tree, Every) else (condition.tree,)
    return tuple(replace(condition, tree=part) for part in parts)


def _runs(out: Any) -> tuple[tuple[int, int], ...]:
    """Places that are true as runs (first, count)."""
    import numpy as np

    if not out.any():
        return ()
    edges = np.flatnonzero(np.diff(np.concatenate(([0], out.astype(np.int8), [0]))))
    return tuple(zip(edges[::2].tolist(), (edges[1::2] - edges[::2]).tolist(), strict=True))
