"""Sums of the trade over arrays: their values, how far those go when one of theirs changes, and where they jump."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from fractions import Fraction
from functools import lru_cache
from typing import Any

from quizkit import arith
from quizkit.formula.single import EDGE, JUMP
from quizkit.formula.values import RatioValue
from quizkit.trade import SUMS, Sum

AT_ONCE = 16_384
"""Up to so many numbers a sum is worked for all changes of its values in one go: numpy's calls cost more than they."""


def as_array(value: Any) -> Any:
    """A value, or both sides of a ratio, as arrays of floats."""
    import numpy as np

    if isinstance(value, RatioValue):
        return RatioValue(np.asarray(value.a, dtype=float), np.asarray(value.b, dtype=float), value.basis)
    return np.asarray(value, dtype=float)


def bare(one: Sum, arguments: list[Any]) -> Any:
    """A sum over arrays, nan where it must not be answered."""
    import numpy as np

    result = one.body(*arguments)
    for refusal in one.refusals:
        result = np.where(refusal.when(*arguments), np.nan, result)
    return result


def without_refused(one: Sum, arguments: list[Any]) -> list[Any]:
    """The arguments, nan where the sum must not be answered, so that a division by zero there does no harm."""
    import numpy as np

    for refusal in one.refusals:
        refused = np.asarray(refusal.when(*arguments)) != 0
        arguments = [
            argument if isinstance(argument, RatioValue) else np.where(refused, np.nan, argument)
            for argument in arguments
        ]
    return arguments


def size_inside(one: Sum, arguments: list[Any], scales: list[Any], result: Any) -> Any:
    """The size of the largest values that a sum which subtracts was made of: its rounding errors are relative to this.

    It is as far as the result goes when one of its values does. A ratio has no scale (None).
    """
    import numpy as np

    size = np.abs(result)
    changes = [(index, EDGE * scale) for index, scale in enumerate(scales) if scale is not None]
    for moved in _moved(one, arguments, changes, size.size):
        size = np.fmax(size, np.fmax.reduce(np.abs(moved - result) / EDGE, axis=0))
    return size


def jumps(one: Sum, arguments: list[Any], scales: list[Any], result: Any) -> Any:
    """Where a sum that steps or refuses inside goes another way when one of its values changes by 1e-9."""
    import numpy as np

    near: Any = np.asarray(False)
    changes = [
        (index, change * scale) for index, scale in enumerate(scales) if scale is not None for change in (-EDGE, EDGE)
    ]
    for moved in _moved(one, arguments, changes, np.size(result)):
        unlike = ~(np.abs(moved - result) <= JUMP * np.abs(result))
        if np.count_nonzero(unlike):
            unlike &= ~(np.isnan(moved) & np.isnan(result))
            near = near | np.logical_or.reduce(unlike, axis=0)
    return near


def _moved(one: Sum, arguments: list[Any], changes: list[tuple[int, Any]], size: int) -> Iterator[Any]:
    """What a sum comes to with each of the changes (of the argument at a place, by so much), along a first axis."""
    import numpy as np

    if len(changes) * size > AT_ONCE:
        for index, change in changes:
            with np.errstate(all="ignore"):
                yield bare(one, [*arguments[:index], arguments[index] + change, *arguments[index + 1 :]])[None]
    elif changes:
        with np.errstate(all="ignore"):
            result = bare(one, _stacked(arguments, changes))
        yield result


def _stacked(arguments: list[Any], changes: list[tuple[int, Any]]) -> list[Any]:
    """The arguments with one change a row."""
    import numpy as np

    rows: list[Any] = list(arguments)
    axes = max(np.ndim(side) for value in arguments for side in _sides(value))
    for row, (index, change) in enumerate(changes):
        moved = arguments[index] + change
        if rows[index] is arguments[index]:
            rows[index] = np.empty((len(changes), *(1,) * (axes - moved.ndim), *moved.shape))
            rows[index][...] = arguments[index]
        rows[index][row] = moved
    return rows


def _sides(value: Any) -> tuple[Any, ...]:
    return (value.a, value.b) if isinstance(value, RatioValue) else (value,)


def dated(one: Sum, arguments: list[Any]) -> Any:
    """A sum on dates, worked once for each different set of values; dates come and go as their day counts."""
    import numpy as np

    spread = np.broadcast_arrays(*(np.asarray(argument, dtype=float) for argument in arguments))
    rows = list(zip(*(column.ravel().tolist() for column in spread), strict=True))
    answers = {row: _one_date(one.name, row) for row in set(rows)}
    return np.asarray([answers[row] for row in rows], dtype=float).reshape(spread[0].shape)


def _day(word: str, cell: float) -> Any:
    if word != "date":
        return Fraction(cell)
    return datetime.date.fromordinal(int(cell)) if 1 <= cell <= datetime.date.max.toordinal() else None


@lru_cache(maxsize=32_768)
def _one_date(name: str, cells: tuple[float, ...]) -> float:
    """One date: condition, answer and slips of a question ask for the same ones, and so do its neighbours."""
    one = SUMS[name]
    values = [_day(word, cell) for (_name, word), cell in zip(one.takes, cells, strict=True)]
    if None in values:
        return float("nan")
    try:
        result = one.function(*values)
    except arith.ArithError:
        return float("nan")
    return float(result.toordinal() if isinstance(result, datetime.date) else result)
