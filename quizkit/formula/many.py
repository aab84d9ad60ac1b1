"""The second arithmetic: all variants at once in arrays of float64, as a filter before exact fractions.

Numpy is imported when the first formula is worked, never with the package.
"""

from __future__ import annotations

import datetime
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import TYPE_CHECKING, Any, TypeAlias

from quizkit import arith
from quizkit.formula.resolve import meaning
from quizkit.formula.single import COMPARE, EDGE, JUMP, in_unit
from quizkit.formula.tree import Call, Comparison, Every, Formula, Name, Negative, Node, Numeral, Operation, Text
from quizkit.formula.values import RatioValue
from quizkit.trade import SUMS, Sum

if TYPE_CHECKING:
    import numpy as np
    import numpy.typing as npt

    Floats: TypeAlias = npt.NDArray[np.float64]
    Truths: TypeAlias = npt.NDArray[np.bool_]

Columns: TypeAlias = Mapping[str, Any]
"""For each dotted name an array of float64 (a date as its day count, a text as numpy text), one axis for each given
that is drawn; or a `RatioValue` of such arrays. Shapes broadcast against each other."""


@dataclass(frozen=True, slots=True)
class Many:
    """A formula over many variants. Arrays broadcast to the shape of the grid."""

    value: Any
    """float64 in the coherent base, nan or infinite where there is no answer; or bool for a condition."""
    near: Any
    """bool: within 1e-9 of a step, a tie or an edge, so to be worked again in fractions. False where nowhere."""


def arrays(formula: Formula, columns: Columns) -> Many:
    """The value of a formula for every variant of `columns`, and where floats do not decide it."""
    import numpy as np

    work = _Work(columns)
    with np.errstate(all="ignore"):
        value = work.value(formula.tree)
    return Many(np.asarray(value), work.near)


@dataclass(slots=True)
class _Work:
    columns: Columns
    near: Any = field(default=False)

    def value(self, node: Node) -> Any:
        match node:
            case Numeral():
                return float(node.value)
            case Text():
                return node.value
            case Name():
                return self.named(node)
            case Negative():
                return -self.value(node.of)
            case Operation():
                return _worked(node.sign, self.value(node.left), self.value(node.right))
            case Call():
                return self.called(node.function, [self.value(argument) for argument in node.arguments])
            case Comparison():
                return self.compared(node.signs, [self.value(side) for side in node.sides])
            case Every():
                return _all([self.value(part) for part in node.parts])

    def named(self, node: Name) -> Any:
        found = meaning(node, self.columns)
        value = self.columns[found.name]
        if found.side:
            value = getattr(value, found.side)
        return value if found.unit is None else in_unit(value, found.unit)

    def compared(self, signs: tuple[str, ...], sides: list[Any]) -> Any:
        import numpy as np

        results = []
        for sign, left, right in zip(signs, sides, sides[1:], strict=False):
            if not _is_text(left, right):
                self.mark(close(left, right))
            results.append(np.asarray(COMPARE[sign](np.asarray(left), np.asarray(right))))
        return _all(results)

    def called(self, name: str, arguments: list[Any]) -> Any:
        import numpy as np

        if name in SUMS:
            return self.summed(SUMS[name], arguments)
        match name:
            case "pi":
                return arith.pi
            case "ceil" | "floor":
                self.mark(near_step(arguments[0], 1.0, 0.0))
            case "nearest":
                self.mark(near_step(arguments[0], arguments[1], 0.5))
                step = np.asarray(arguments[1], dtype=float)
                arguments[1] = np.where(step > 0, step, np.nan)
            case "next_up" | "at_least":
                for bound in arguments[1:]:
                    self.mark(close(arguments[0], bound))
        helper: Callable[..., Any] = getattr(arith, name)
        return helper(*(np.asarray(argument, dtype=float) for argument in arguments))

    def summed(self, one: Sum, arguments: list[Any]) -> Any:
        if one.dated:
            return _dated(one, arguments)
        arguments = [_as_array(argument) for argument in arguments]
        result = one.function(*arguments)
        if one.stepped or one.refusals:
            self.mark(_jumps(one, arguments, result))
        return result

    def mark(self, near: Any) -> None:
        """Remember where floats do not decide."""
        self.near = near if self.near is False else self.near | near


def _worked(sign: str, left: Any, right: Any) -> Any:
    import numpy as np

    match sign:
        case "+":
            return left + right
        case "-":
            return left - right
        case "*":
            return left * right
        case "/":
            return np.true_divide(left, right)
        case _:
            return np.float_power(left, right)


def _all(parts: list[Any]) -> Any:
    import numpy as np

    return np.logical_and.reduce(np.broadcast_arrays(*parts)) if len(parts) > 1 else parts[0]


def _is_text(*sides: Any) -> bool:
    return any(isinstance(side, str) or getattr(getattr(side, "dtype", None), "kind", "") == "U" for side in sides)


def _as_array(argument: Any) -> Any:
    import numpy as np

    if isinstance(argument, RatioValue):
        return RatioValue(np.asarray(argument.a, dtype=float), np.asarray(argument.b, dtype=float), argument.basis)
    return np.asarray(argument, dtype=float)


def close(left: Any, right: Any) -> Any:
    """Where two values lie within 1e-9 of each other, relative to the larger."""
    import numpy as np

    return np.abs(np.subtract(left, right)) <= EDGE * np.maximum(np.abs(left), np.abs(right))


def near_step(value: Any, step: Any, shift: float) -> Any:
    """Where a value lies within 1e-9 of a whole number of steps (shifted by a part of one): there it would jump."""
    import numpy as np

    count = np.true_divide(value, step) + shift
    return np.abs(count - np.round(count)) <= EDGE * np.maximum(1.0, np.abs(count))


def _jumps(one: Sum, arguments: list[Any], result: Any) -> Any:
    """Where a sum that steps or refuses inside goes another way when one of its values changes by 1e-9."""
    import numpy as np

    near: Any = np.asarray(False)
    for index, argument in enumerate(arguments):
        if isinstance(argument, RatioValue):
            continue
        for factor in (1 - EDGE, 1 + EDGE):
            moved = one.function(*arguments[:index], argument * factor, *arguments[index + 1 :])
            same = np.abs(moved - result) <= JUMP * np.abs(result)
            near = near | ~(same | (np.isnan(moved) & np.isnan(result)))
    return near


def _dated(one: Sum, arguments: list[Any]) -> Any:
    """A sum on dates, worked once for each different set of values; dates come and go as their day counts."""
    import numpy as np

    spread = np.broadcast_arrays(*(np.asarray(argument, dtype=float) for argument in arguments))
    table = np.stack([column.ravel() for column in spread], axis=1)
    different, places = np.unique(table, axis=0, return_inverse=True)
    words = [word for _name, word in one.takes]
    answers = [_one_date(one, [_day(word, cell) for word, cell in zip(words, row, strict=True)]) for row in different]
    return np.asarray(answers, dtype=float)[places.reshape(-1)].reshape(spread[0].shape)


def _day(word: str, cell: float) -> Any:
    if word != "date":
        return Fraction(cell)
    return datetime.date.fromordinal(int(cell)) if 1 <= cell <= datetime.date.max.toordinal() else None


def _one_date(one: Sum, values: list[Any]) -> float:
    if None in values:
        return float("nan")
    try:
        result = one.function(*values)
    except arith.ArithError:
        return float("nan")
    return float(result.toordinal() if isinstance(result, datetime.date) else result)
