"""Where floats do not decide: near a step, a tie or an edge, and what is known of such places all the same."""

from __future__ import annotations

from typing import Any

from quizkit.formula.single import EDGE


def either(one: Any, other: Any) -> Any:
    """Where the one or the other is true; False stands for nowhere."""
    return other if one is False else one if other is False else one | other


def somewhere(near: Any) -> Any:
    """Where something is true, False where nowhere."""
    import numpy as np

    return near if np.count_nonzero(near) else False


def surely_told(scale: Any, least: float) -> Any:
    """Whether values of such a scale that floats find within 1e-9 are equal, being equal or at least so far apart."""
    return 4 * EDGE * scale < least


def near_step(value: Any, step: Any, shift: float, scale: Any) -> Any:
    """Where a value lies within 1e-9 of a whole number of steps (shifted by a part of one): there it would jump.

    `scale` is the size of what the value was made of.
    """
    import numpy as np

    count = np.true_divide(value, step) + shift
    return np.abs(count - np.rint(count)) <= EDGE * np.maximum(1.0, np.true_divide(scale, step))
