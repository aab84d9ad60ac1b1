"""Arithmetic that means the same for exact fractions, for floats and for numpy arrays.

A formula or a sum of the trade is written once. It runs on `Fraction` where a mark is given and on arrays of float64
where every variant of a question is looked at in one go. What has no exact value (π, roots, broken powers) comes out as
a float; `settle` turns it back into a fraction before it is compared, so that every machine compares the same number.
Numpy is imported only once an array is met, since a bench sum needs none.
"""

import builtins
import math
from fractions import Fraction
from functools import reduce
from typing import Any, TypeAlias

from quizkit.words import _

Num: TypeAlias = Any
"""A whole number, a `Fraction`, a float or an array of float64; helpers give back the kind they were given."""

pi = math.pi

SETTLED_DIGITS = 12
"""Significant digits of a float that is taken as a fraction: within what float64 carries after some steps."""

LARGEST_POWER = 1000
"""Exponents beyond this are refused before anything is computed: a formula on a bench has no use for them."""


class ArithError(ArithmeticError):
    """A calculation that has no answer (no step high enough, a root of a negative number, a number without end)."""


def is_array(*values: Num) -> bool:
    """Whether any of the values is a numpy array (or one of its scalars)."""
    for value in values:  # noqa: SIM110 - asked for every step of every formula, and a generator takes twice as long
        if type(value) is not Fraction and hasattr(value, "dtype"):
            return True
    return False


def _floats(*values: Num) -> list[Any]:
    """Values as arrays of float64, since a fraction beside an array would make an array of objects."""
    import numpy as np

    return [np.asarray(value, dtype=np.float64) for value in values]


def settle(value: Num) -> Fraction:
    """The fraction that a single number stands for: exact ones as they are, floats at 12 significant digits.

    Raises ArithError for what is not finite.
    """
    if isinstance(value, Fraction):
        return value
    if isinstance(value, int):
        return Fraction(value)
    if not math.isfinite(value):
        raise ArithError(_("not a finite number"))
    return Fraction(f"{value:.{SETTLED_DIGITS - 1}e}")


def floor(value: Num) -> Num:
    """The whole number at or below."""
    if is_array(value):
        import numpy as np

        return np.floor(value)
    exact = settle(value)
    return Fraction(exact.numerator // exact.denominator)


def ceil(value: Num) -> Num:
    """The whole number at or above: cartridges, pairs of gloves."""
    return -floor(-value)


def nearest(value: Num, step: Num) -> Num:
    """The multiple of `step` (above 0) that lies nearest; halves go away from zero."""
    if is_array(value, step):
        import numpy as np

        number, size = _floats(value, step)
        return np.sign(number) * np.floor(np.abs(number) / size + 0.5) * size
    exact, whole = settle(value), settle(step)
    top = builtins.abs(exact.numerator) * whole.denominator
    under = exact.denominator * whole.numerator
    count = (2 * top + under) // (2 * under)
    return whole * (count if exact >= 0 else -count)


def next_up(value: Num, *steps: Num) -> Num:
    """The smallest of the steps that is not below the value: the next class up.

    Raises ArithError where even the largest step is too small; in an array such a place is nan.
    """
    if is_array(value, *steps):
        import numpy as np

        number, *bounds = _floats(value, *steps)
        best = reduce(np.minimum, [np.where(bound >= number, bound, np.inf) for bound in bounds])
        return np.where(np.isinf(best), np.nan, best)
    able_steps = [step for step in steps if settle(step) >= settle(value)]
    if not able_steps:
        raise ArithError(_("no class is high enough"))
    return builtins.min(able_steps)


def at_least(value: Num, bound: Num) -> Num:
    """1 where the value is not below the bound, else 0."""
    if is_array(value, bound):
        import numpy as np

        number, edge = _floats(value, bound)
        return np.where(number >= edge, 1.0, 0.0)
    return Fraction(settle(value) >= settle(bound))


def _either(values: tuple[Num, ...]) -> Num:
    """One of some values of which is known what they are made of, and not which is larger (`formula.grain`)."""
    return reduce(lambda one, other: one.either(other), values)


def min(*values: Num) -> Num:
    """The smallest of the values (numbers, or dates)."""
    if is_array(*values):
        import numpy as np

        return reduce(np.minimum, _floats(*values))
    return _either(values) if hasattr(values[0], "either") else builtins.min(values)


def max(*values: Num) -> Num:
    """The largest of the values (numbers, or dates)."""
    if is_array(*values):
        import numpy as np

        return reduce(np.maximum, _floats(*values))
    return _either(values) if hasattr(values[0], "either") else builtins.max(values)


def abs(value: Num) -> Num:
    """The size without the sign."""
    return builtins.abs(value)


def sqrt(value: Num) -> Num:
    """The square root, as a float; ArithError below zero, nan there in an array."""
    if is_array(value):
        import numpy as np

        with np.errstate(invalid="ignore"):
            return np.sqrt(value)
    if value < 0:
        raise ArithError(_("no number has a negative square"))
    return math.sqrt(value)


def log10(value: Num) -> Num:
    """The logarithm to base ten, as a float; ArithError at zero and below, nan there in an array."""
    if is_array(value):
        import numpy as np

        return np.log10(np.where(np.asarray(value) > 0, value, np.nan))
    if value <= 0:
        raise ArithError(_("zero has no logarithm"))
    return math.log10(value)


def power(base: Num, exponent: Num) -> Num:
    """`base ** exponent`: exact for a whole exponent, else a float.

    Raises ArithError for exponents beyond ±1000, for a broken power of a negative number, for 0 to a negative power
    and where the result is beyond what a float holds; in an array such a place is nan or infinite.
    """
    if is_array(base, exponent):
        import numpy as np

        with np.errstate(all="ignore"):
            return np.float_power(*_floats(base, exponent))
    if builtins.abs(exponent) > LARGEST_POWER:
        raise ArithError(_("this power is too large"))
    try:
        result = base**exponent
    except (ZeroDivisionError, OverflowError) as error:
        raise ArithError(_("this power has no finite value")) from error
    if isinstance(result, complex):
        raise ArithError(_("a broken power of a negative number has no value"))
    return result
