"""The proof of a question over every variant.

Arrays look at all points at once; what they cannot decide is worked in exact fractions, with the code that marks
answers. A right answer has a value, lies where it plausibly can, and survives its own rounding; no slip is accepted
for it, neither as computed nor rounded to the question's own step.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from functools import partial
from itertools import combinations
from math import inf, isfinite
from typing import TYPE_CHECKING, Any

from quizkit.arith import nearest
from quizkit.authoring.displayed import displayed
from quizkit.authoring.exactly import At, Exactly
from quizkit.authoring.likeness import alike_pairs, alike_somewhere
from quizkit.authoring.proof import Proof
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
    UNSHOWN,
    ZERO,
)
from quizkit.authoring.stretch import Stretch, stretch
from quizkit.authoring.suggest import helpful_where
from quizkit.formula import Formula, Many, Rows, parse
from quizkit.formula.grain import Grain, in_grain, of_numbers
from quizkit.formula.grid import BLOCK
from quizkit.formula.near import surely_told
from quizkit.formula.single import EDGE, in_unit
from quizkit.formula.tree import Every
from quizkit.pack.model import Choice, Numeric, Question
from quizkit.pack.ready import Ready, made_ready
from quizkit.scoring.grade import ChoicePart, NumericPart, Slip
from quizkit.scoring.proving import accepted, accepted_rounded, clear_distance, own_step, told_rounded

if TYPE_CHECKING:
    import numpy as np
    import numpy.typing as npt

    Reasons = npt.NDArray[np.uint8]

EXACT_TYPED = Fraction(0)
"""The step of a number that is not rounded at all."""


def prove(question: Question) -> Proof:
    """Prove a question over all points of its grid."""
    return _of_words(question) or Prover(question).run()


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


class Prover:
    """One proof on its way; `reasons` says for each point why it is left out."""

    def __init__(self, question: Question) -> None:
        import numpy as np

        self.question = question
        self.made: Ready = made_ready(question)
        self.where = tuple(parse(text, where=True) for text in question.where)
        self.alone: dict[str, tuple[Formula, ...]] = {}
        """The comparisons that a condition joins, by its text, once they are looked at one by one."""
        self.exactly = Exactly(self.made)
        self.size = self.made.grid.size
        self.reasons: Reasons = np.zeros(self.size, dtype=np.uint8)
        self.numeric = [part for part in self.made.parts if isinstance(part, NumericPart)]
        self.displayed = self._displayed()
        self.alike = alike_pairs(question)
        self.used = self._used()
        self.true = {part.name: np.empty(self.size) for part in self.numeric}
        self.steps: dict[str, Fraction | None] = {}
        self.closest: dict[int, float | None] = {}
        self.twins: dict[tuple[int, int], bool] = {}

    def _displayed(self) -> tuple[tuple[Formula, int | None], ...]:
        """The formulas of texts, but for those that are proven as a right answer anyway."""
        known = {part.formula.text for part in self.numeric}
        return tuple((formula, slip) for formula, slip in displayed(self.question) if formula.text not in known)

    def _used(self) -> frozenset[str] | None:
        """The fields of rows that anything here asks for: a shelf has many more. None where no row is drawn."""
        if not any(isinstance(given.draw, Rows) for given in self.question.givens):
            return None
        slips = [slip.formula for part in self.numeric for slip in part.slips]
        options = [one for part in self.made.parts if isinstance(part, ChoicePart) for one in part.options]
        formulas: list[Formula] = [
            *(part.formula for part in self.numeric),
            *slips,
            *self.where,
            *(one for one in options if not isinstance(one, bool)),
            *(draw.formula for _given, draw in self.made.grid.computed),
            *(formula for formula, _slip in self.displayed),
            *(parse(element.get("formula")) for pair in self.alike for two in pair for element in two),
        ]
        return frozenset(".".join(path.split(".")[:2]) for formula in formulas for path in formula.paths)

    def run(self) -> Proof:
        """The proof."""
        import numpy as np

        kept = list(self.stretches()) if self.size <= BLOCK else None
        with np.errstate(all="ignore"):
            for part_of_all in kept or self.stretches():
                self.right_answers(part_of_all)
            self.own_steps()
            for part_of_all in kept or self.stretches():
                self.slips(part_of_all)
        counts = np.bincount(self.reasons)
        reasons = tuple((reason, int(count)) for reason, count in enumerate(counts) if count)
        gaps = tuple(None if gap is None else Fraction(gap) for _slip, gap in sorted(self.closest.items()))
        twins = tuple(sorted(pair for pair, same in self.twins.items() if same))
        left_out = _runs(self.reasons != STANDS)
        proof = Proof(self.size, reasons, left_out, tuple(self.steps.items()), gaps, twins, self.has_zero())
        return replace(proof, helpful=self.helpful(proof)) if proof.is_poor else proof

    def stretches(self) -> Iterator[Stretch]:
        """All points, in order, as many at a time as stay in the processor's cache."""
        return (stretch(block, self.reasons, self.exactly) for block in self.made.grid.blocks(used=self.used))

    def has_zero(self) -> bool:
        """Whether the right answer to a part with a relative tolerance is 0 in a variant."""
        import numpy as np

        relative = [part for part in self.numeric if part.tolerance.relative and part.tolerance.within is not None]
        standing = self.reasons == STANDS
        return any(np.any(self.true[part.name][standing] == 0) for part in relative if takes_zero(part))

    def helpful(self, proof: Proof) -> str:
        """A condition that would leave out what the worst slip takes."""
        slip = proof.worst_slip
        if slip is None:
            return ""
        parts = {part.name for part in self.numeric}
        known = [(part, one) for part in self.numeric for one in part.slips]
        return helpful_where(self.made.grid, self.reasons, FIRST_SLIP + slip, *known[slip], parts)

    # the first pass: conditions, right answers, choices

    def right_answers(self, at_work: Stretch) -> None:
        """Leave out what has no right answer, or none that the author can mean."""
        self.conditions(at_work)
        at_work.leave_out(at_work.lost, NO_VALUE)
        for part in self.made.parts:
            if isinstance(part, NumericPart):
                self.right_answer(at_work, part)
            else:
                self.choice(at_work, part)
        for likeness in alike_somewhere(self.alike, at_work.columns, at_work.work):
            at_work.leave_out(likeness, ALIKE)

    def conditions(self, at_work: Stretch) -> None:
        """Leave out what the author's conditions do not let through: first what is sure, so that less is in doubt."""
        found: list[tuple[Formula, Many]] = []
        for condition in self.where:
            many = at_work.arrays.of(condition)
            found += [(condition, many)] if many.near is False else self.one_by_one(at_work, condition)
        for _formula, many in found:
            at_work.leave_out(~(many.value | many.near), NOT_LET)
        for formula, many in found:
            if many.near is not False:
                held = at_work.settle(many.value, many.near, partial(self.exactly.holds, formula))
                at_work.leave_out(~held, NOT_LET)

    def one_by_one(self, at_work: Stretch, condition: Formula) -> list[tuple[Formula, Many]]:
        """The comparisons that a condition joins: where one surely fails, the others may be near."""
        if condition.text not in self.alone:
            parts = condition.tree.parts if isinstance(condition.tree, Every) else (condition.tree,)
            self.alone[condition.text] = tuple(replace(condition, tree=part) for part in parts)
        return [(one, at_work.arrays.of(one)) for one in self.alone[condition.text]]

    def right_answer(self, at_work: Stretch, part: NumericPart) -> None:
        """Leave out where a part's right answer has no value, is 0 or is not plausible."""
        import numpy as np

        at_work.columns[part.name] = base = at_work.work(part.formula, zero=True)
        at_work.true[part.name] = true = in_unit(base, part.unit)
        self.true[part.name][at_work.view].reshape(at_work.shape)[...] = true
        least, most = float(base.min()), float(base.max())
        if not isfinite(least + most):
            at_work.leave_out(~np.isfinite(base), NO_VALUE)
        if not takes_zero(part):
            at_work.leave_out(true == 0, ZERO)
        if part.plausible is not None and not surely_within(least, most, *part.plausible):
            self.plausible(at_work, part, base, *part.plausible)

    def plausible(self, at_work: Stretch, part: NumericPart, base: Any, low: Fraction, high: Fraction) -> None:
        """Leave out where a right answer lies where it cannot."""
        import numpy as np

        least, most = float(low), float(high)
        outside = (base < least) | (base > most)
        edge = (np.abs(base - least) <= 2 * EDGE * abs(least)) | (np.abs(base - most) <= 2 * EDGE * abs(most))
        if np.count_nonzero(edge) and meets(at_work.arrays.grain(part.formula), low, high):
            outside, edge = outside & ~edge, False

        def strays(at: At) -> bool:
            value = self.exactly.number(part.formula, at)
            return value is not None and not low <= value <= high

        at_work.leave_out(at_work.settle(outside, edge, strays), IMPLAUSIBLE)

    def choice(self, at_work: Stretch, part: ChoicePart) -> None:
        """Leave out the edges of a choice's conditions, and where no option is right."""
        import numpy as np

        any_right: Any = np.asarray(False)
        for option in part.options:
            if isinstance(option, bool):
                any_right = any_right | option
                continue
            many = at_work.arrays.of(option, edges=True)
            at_work.leave_out(many.near, EDGE_OF_CHOICE)
            any_right = any_right | many.value
        at_work.leave_out(~any_right, NOTHING_RIGHT)

    # the second pass: rounding and slips, each at the question's own step

    def own_steps(self) -> None:
        """Find the step to which each part's numbers are rounded."""
        import numpy as np

        places = np.flatnonzero(self.reasons == STANDS)
        for part in self.numeric:

            def value(place: int, part: NumericPart = part) -> Fraction:
                true = self.exactly.true(part, self.exactly.at(int(places[place])))
                assert true is not None, "what has no value stands nowhere"
                return true

            self.steps[part.name] = own_step(part.tolerance, self.true[part.name][places], value)

    def slips(self, at_work: Stretch) -> None:
        """Leave out where a right answer does not survive its rounding, or a slip would be marked right."""
        import numpy as np

        gaps: list[Any] = []
        slips: list[Any] = []
        for part in self.numeric:
            if part.name not in at_work.true:
                at_work.true[part.name] = true = self.true[part.name][at_work.view].reshape(at_work.shape)
                at_work.columns[part.name] = true * part.unit.scale + part.unit.shift
            true = at_work.true[part.name]
            self.rounding(at_work, part, true)
            size, first = np.abs(true), len(slips)
            clear = clear_distance(part.tolerance, size, self.steps[part.name])
            for slip in part.slips:
                value = at_work.work(slip.formula)
                slips.append(value if slip.plain else in_unit(value, part.unit))
                gap = np.abs(slips[-1] - true)
                apart = gap > clear
                if not apart.all() and np.count_nonzero(~apart & (at_work.reasons == STANDS)):
                    self.slip(at_work, part, slip, true, slips[-1], FIRST_SLIP + len(slips) - 1)
                gaps.append(gap / size)
            self.find_twins(slips[first:], first)
        self.texts(at_work, slips)
        standing = at_work.reasons == STANDS
        for place, gap in enumerate(gaps):
            self.come_close(
                place, (gap if gap.shape == at_work.shape else np.broadcast_to(gap, at_work.shape))[standing]
            )

    def rounding(self, at_work: Stretch, part: NumericPart, true: Any) -> None:
        """Leave out where the right answer, rounded to the question's own step, is not accepted."""
        step, tolerance = self.steps[part.name], part.tolerance
        if step is None or tolerance.step is None or tolerance.within is None:
            return  # a step of our own choice was chosen so that every right answer survives it
        if told_rounded(tolerance, true, float(step)):
            return

        def strays(at: At) -> bool:
            value = self.exactly.true(part, at)
            return value is not None and not tolerance.accepts(value, Fraction(nearest(value, step)), step)

        kept = accepted_rounded(tolerance, true, true, step)
        at_work.leave_out(at_work.settle(~kept.yes, kept.near, strays), ROUNDING)

    def slip(self, at_work: Stretch, part: NumericPart, slip: Slip, true: Any, value: Any, reason: int) -> None:
        """Leave out where a slip would be accepted, as computed or rounded to the question's own step."""
        import numpy as np

        step = self.steps[part.name]
        found = [accepted(part.tolerance, true, value)]
        if step is not None:
            found.append(accepted_rounded(part.tolerance, true, value, step))
        for decided in found:
            at_work.leave_out(decided.yes & ~decided.near, reason)
        near = found[0].near | found[-1].near
        if part.tolerance.exact and np.count_nonzero(near):
            equal = near & self.told_equal(at_work, part, slip, np.abs(true) + np.abs(value))
            at_work.leave_out(equal, reason)
            near = near & ~equal
        at_work.leave_out(at_work.settle(near, near, partial(self.would_be_right, part, slip)), reason)

    def told_equal(self, at_work: Stretch, part: NumericPart, slip: Slip, scale: Any) -> Any:
        """Whether a slip that floats find equal to the right answer, in the asked unit, is equal to it in truth."""
        ours, theirs = (at_work.arrays.grain(one) for one in (part.formula, slip.formula))
        if ours is None or theirs is None:
            return False
        asked = in_grain(ours, part.unit)
        return surely_told(scale, asked.apart(theirs if slip.plain else in_grain(theirs, part.unit)))

    def would_be_right(self, part: NumericPart, slip: Slip, at: At) -> bool:
        """Whether a slip is accepted at a point, by fractions."""
        true, value = self.exactly.true(part, at), self.exactly.number(slip.formula, at)
        if true is None or value is None:
            return False
        wrong, step = value if slip.plain else part.unit.from_base(value), self.steps[part.name]
        if step is not None and part.tolerance.accepts(true, Fraction(nearest(wrong, step)), step):
            return True
        return part.tolerance.accepts(true, wrong, EXACT_TYPED)

    def texts(self, at_work: Stretch, slips: list[Any]) -> None:
        """Leave out where a text shows a value that there is not; `slips` are the values of all slips."""
        import numpy as np

        for formula, slip in self.displayed:
            lost = ~np.isfinite(at_work.work(formula))
            at_work.leave_out(lost if slip is None else lost & np.isfinite(slips[slip]), UNSHOWN)

    def come_close(self, slip: int, gaps: Any) -> None:
        """Keep the smallest distance of a slip to the right answer; nan and infinite ones are none."""
        import numpy as np

        before = self.closest.setdefault(slip, None)
        gap = float(np.fmin.reduce(gaps)) if gaps.size else inf
        if isfinite(gap):
            self.closest[slip] = gap if before is None else min(before, gap)

    def find_twins(self, values: list[Any], first: int) -> None:
        """Learn which slips of a part, counted from `first`, are alike in every variant so far."""
        import numpy as np

        corners = [float(value.item(0)) for value in values]
        for i, j in combinations(range(len(values)), 2):
            pair = (first + i, first + j)
            if self.twins.get(pair, True):
                # One point alone tells most pairs apart.
                alike = abs(corners[i] - corners[j]) <= EDGE * abs(corners[i])
                self.twins[pair] = alike and bool(np.all(np.abs(values[i] - values[j]) <= EDGE * np.abs(values[i])))


def takes_zero(part: NumericPart) -> bool:
    """Whether the author says that the right answer may be 0 in the asked unit."""
    if part.plausible is None:
        return False
    low, high = part.plausible
    return low <= part.unit.offset <= high


def surely_within(least: float, most: float, low: Fraction, high: Fraction) -> bool:
    """Whether values from the least to the most lie between two bounds and at no edge of them; not if one is nan."""
    lowest, highest = float(low), float(high)
    return least - lowest > 2 * EDGE * abs(lowest) and highest - most > 2 * EDGE * abs(highest)


def meets(grain: Grain | None, *bounds: Fraction) -> bool:
    """Whether a value that is near a bound can only be the bound itself."""
    return grain is not None and all(surely_told(abs(bound), grain.apart(of_numbers(bound))) for bound in bounds)


def _runs(out: Any) -> tuple[tuple[int, int], ...]:
    """Places that are true as runs (first, count)."""
    import numpy as np

    if not np.count_nonzero(out):
        return ()
    edges: list[int] = (np.flatnonzero(out[1:] != out[:-1]) + 1).tolist()
    edges = [*([0] if out[0] else []), *edges, *([len(out)] if out[-1] else [])]
    return tuple((first, end - first) for first, end in zip(edges[::2], edges[1::2], strict=True))
