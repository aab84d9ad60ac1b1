"""Tolerances over all variants at once: a filter in floats that never disagrees with `Tolerance` where it decides.

Arrays are numbers in the asked unit. What floats do not decide is `near`; the caller works it again in fractions with
`Tolerance.accepts`.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import Any

from quizkit.arith import SETTLED_DIGITS, nearest
from quizkit.formula.near import near_step
from quizkit.formula.single import EDGE
from quizkit.scoring.tolerance import CENT, Tolerance

CAREFUL = 1e-3
"""By how much more than it must a number lies apart, to be passed over without another look."""


@dataclass(frozen=True, slots=True)
class Decided:
    """For each variant whether the number would be marked right; not to be trusted where `near`."""

    yes: Any
    near: Any


def accepted(tolerance: Tolerance, true: Any, number: Any) -> Decided:
    """Whether numbers as computed, not rounded, would count as right. A place with nan is neither right nor near."""
    import numpy as np

    gap, same = _gap(true, number)
    if tolerance.within is not None:
        return _inside(gap, _margin(tolerance, true), same)
    alike = gap <= same
    if tolerance.exact:
        return Decided(np.zeros_like(alike), alike)
    step = float(CENT if tolerance.cent else tolerance.step or 0)
    half = _inside(gap, step / 2, same)
    on_step = near_step(number, step, 0.0, np.abs(number))
    return Decided(np.zeros_like(alike), alike | ((half.yes | half.near) & on_step))


def accepted_rounded(tolerance: Tolerance, true: Any, number: Any, step: Fraction) -> Decided:
    """Whether numbers would count as right once rounded to `step`, the question's own.

    At a tie floats do not say to which side a number goes; that matters where the two sides are marked unlike.
    """
    import numpy as np

    size = float(step)
    rounded = nearest(number, size)
    tie = near_step(number, size, 0.5, np.abs(number))
    if tolerance.cent:
        cents = nearest(true, float(CENT))
        other, _same = _gap(cents, rounded)
        tie = tie | near_step(true, float(CENT), 0.5, np.abs(true))
        return Decided(other < float(CENT) / 2, tie & (other < 1.5 * float(CENT)))
    gap, same = _gap(true, rounded)
    if tolerance.exact:
        # At a tie the other side lies a step away, and that one may be the right one.
        return Decided(np.zeros_like(gap <= same), (gap <= same) | (tie & (gap < 1.5 * size)))
    margin = _margin(tolerance, true) if tolerance.within is not None else size / 2
    inside = _inside(gap, margin, same)
    if not tie.any():
        return inside
    low = np.floor(number / size) * size
    below, above = (_inside(np.abs(one - true), margin, same) for one in (low, low + size))
    unlike = below.near | above.near | (below.yes != above.yes)
    return Decided(inside.yes, np.where(tie, unlike, inside.near))


def clear_distance(tolerance: Tolerance, size: Any, step: Fraction | None) -> Any:
    """How far from the right one, whose size is given, a number surely is wrong, as computed and rounded to `step`.

    This settles most wrong methods at once; what lies nearer is looked at in full.
    """
    rounding = float(step or tolerance.step or (CENT if tolerance.cent else 0))
    margin = tolerance.size * size if tolerance.relative else tolerance.size
    return (1 + CAREFUL) * (margin + rounding) + 10 * EDGE * size


def own_step(tolerance: Tolerance, true: Any, exact: Callable[[int], Fraction]) -> Fraction | None:
    """The question's own step, by which a slip is rounded before it is looked at.

    STEP where `to` is given, else the largest power of ten of the asked unit at which the rounded right answer is
    accepted in every variant; None where an answer is taken exactly and knows no rounding. `true` is a flat array of
    the right answers, `exact` gives the fraction at a place of it.
    """
    import numpy as np

    if tolerance.exact or tolerance.cent or tolerance.step is not None:
        return None if tolerance.exact else CENT if tolerance.cent else tolerance.step
    if not true.size:
        return None
    size = np.abs(true)
    least, most = float(size.min()), float(size.max())
    margin = tolerance.size * least if tolerance.relative else tolerance.size
    if margin <= 0:
        return None
    power = _power_of_ten_for(most)
    while not (_surely_serves(margin, most, power) or _serves(tolerance, true, exact, power)):
        power -= 1
    return _ten_to_the(power)


@lru_cache(maxsize=64)
def _ten_to_the(power: int) -> Fraction:
    """A power of ten, exactly."""
    return Fraction(10) ** power


def _power_of_ten_for(size: float) -> int:
    """The largest power of ten to which a size, at 12 digits, does not round to nothing."""
    figures, _e, power = f"{size:.{SETTLED_DIGITS - 1}e}".partition("e")
    return int(power) + (figures[0] >= "5")


def _surely_serves(margin: float, most: float, power: int) -> bool:
    """Whether half a step is less than the smallest margin, so that no answer is rounded out of it."""
    return (0.5 + CAREFUL) * 10.0**power + 10 * EDGE * most < margin


def _serves(tolerance: Tolerance, true: Any, exact: Callable[[int], Fraction], power: int) -> bool:
    """Whether every right answer, rounded to a power of ten, is accepted."""
    import numpy as np

    told = told_rounded(tolerance, true, 10.0**power)
    if told is not None:
        return told
    step = _ten_to_the(power)
    decided = accepted_rounded(tolerance, true, true, step)
    if not np.all(decided.yes | decided.near):
        return False
    values = (exact(int(place)) for place in np.flatnonzero(decided.near))
    return all(tolerance.accepts(value, nearest(value, step), step) for value in values)


def told_rounded(tolerance: Tolerance, true: Any, step: float) -> bool | None:
    """Whether all right answers are surely accepted once they are rounded to a step, whatever the side of a tie, or one
    is surely not; None where neither is sure.
    """
    import numpy as np

    off = np.abs(true - step * np.rint(true / step))
    slack = 10 * EDGE * np.abs(true)
    margin = _margin(tolerance, true)
    if (off < (1 - CAREFUL) * margin - slack).all():
        return True
    out = (off > (1 + CAREFUL) * margin + slack) & (off < (0.5 - CAREFUL) * step)
    return False if np.count_nonzero(out) else None


def _gap(true: Any, number: Any) -> tuple[Any, Any]:
    """How far apart two arrays are, and how far apart floats must be to count as different."""
    import numpy as np

    return np.abs(number - true), EDGE * np.maximum(np.abs(true), np.abs(number))


def _inside(gap: Any, margin: Any, same: Any) -> Decided:
    import numpy as np

    return Decided(gap <= margin, np.abs(gap - margin) <= same)


def _margin(tolerance: Tolerance, true: Any) -> Any:
    import numpy as np

    return tolerance.size * np.abs(true) if tolerance.relative else tolerance.size
