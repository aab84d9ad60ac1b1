"""When a number counts as the right answer. All numbers here are in the asked unit, exact."""

from dataclasses import dataclass, field
from fractions import Fraction

from quizkit.arith import nearest
from quizkit.formula.single import EDGE

HALF = Fraction(1, 2)
CENT = Fraction(1, 100)


@dataclass(frozen=True, slots=True)
class Tolerance:
    """How an answer is to be rounded and how far it may lie off; at least one of the fields is set.

    `step` alone: the properly rounded answer, or one that equals the right answer at its own finer figures. `within`:
    the closed interval around the right answer, a share of it where `relative`; `step` beside it says how the answer is
    shown. `cent`: the rounded cent and nothing else. `exact`: nothing but the right answer.
    """

    step: Fraction | None = None
    within: Fraction | None = None
    relative: bool = False
    cent: bool = False
    exact: bool = False
    size: float = field(init=False, repr=False, compare=False)
    """The margin as a float, or its share of the right answer where `relative`."""

    def __post_init__(self) -> None:
        one = Fraction(1)
        object.__setattr__(self, "size", float(self.within if self.within is not None else self.margin(one)))

    def surely(self, true: float, number: float) -> bool | None:
        """What floats say about `accepts`: surely, surely not, or None where fractions must decide."""
        gap = abs(number - true)
        margin = self.size * abs(true) if self.relative else self.size
        slack = EDGE * max(abs(number), abs(true))
        if gap > margin + slack:
            return False
        return True if self.within is not None and gap < margin - slack else None

    def margin(self, true: Fraction) -> Fraction:
        """How far an accepted answer may lie from the right one at most."""
        if self.within is not None:
            return self.within * abs(true) if self.relative else self.within
        if self.exact:
            return Fraction(0)
        return (CENT if self.cent else self.step or Fraction(0)) / 2

    def accepts(self, true: Fraction, number: Fraction, typed: Fraction) -> bool:
        """Whether a number typed to a step of `typed` counts as the right answer `true`."""
        if self.within is not None:
            return abs(number - true) <= self.margin(true)
        if self.exact:
            return number == true
        if self.cent:
            return number == self.rounded(true)
        assert self.step is not None
        if abs(number - true) > self.step / 2:
            return False
        return (number / self.step).denominator == 1 or self.finer(true, number, typed)

    def finer(self, true: Fraction, number: Fraction, typed: Fraction) -> bool:
        """Whether a number equals the right answer at its own figures, finer than the step that was asked."""
        return self.step is not None and typed < self.step and rounds_to(true, number, typed)

    def rounded(self, true: Fraction) -> Fraction:
        """The right answer as asked: at its step, halves away from zero; itself where there is none."""
        step = CENT if self.cent else self.step
        return true if step is None else Fraction(nearest(true, step))


EXACTLY = Tolerance(exact=True)
TO_THE_CENT = Tolerance(cent=True)


def to_step(step: Fraction) -> Tolerance:
    """`to STEP` alone; the step in the asked unit."""
    return Tolerance(step=step)


def within(size: Fraction, step: Fraction | None = None) -> Tolerance:
    """`within 0.5 mL` or `within 3 points`, in the asked unit (3 for points of a percent), closed on both sides."""
    return Tolerance(step=step, within=size)


def within_share(share: Fraction, step: Fraction | None = None) -> Tolerance:
    """`within 2 %` of the right answer, as a fraction of one; closed on both sides."""
    return Tolerance(step=step, within=share, relative=True)


def rounds_to(true: Fraction, number: Fraction, step: Fraction) -> bool:
    """Whether a number, itself typed to `step`, is the right answer rounded to it; at a tie either neighbour."""
    return abs(number - true) <= step * HALF
