"""What came of the proof of a question: which of its points stand, and why the others do not."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from quizkit.authoring.reasons import FIRST_SLIP, NOT_LET, STANDS

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
