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


EXACT_IN_FLOATS = 2**53
"""Whole numbers below this are floats without a loss."""


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
    try:
        with np.errstate(divide="raise", over="raise", invalid="ignore", under="ignore"):
            value = work.value(formula.tree)
    except FloatingPointError:
        work = _Work(columns, careful=True)
        with np.errstate(all="ignore"):
            value = work.value(formula.tree)
    return Many(np.asarray(value), work.near)


@dataclass(slots=True)
class _Work:
    """One run over a tree. The usual run stops at the first division by zero; the careful one keeps such points as
    nan from there on, since an infinite value could come back as a finite one.
    """

    columns: Columns
    near: Any = field(default=False)
    careful: bool = False
    known: dict[int, Any] = field(default_factory=dict)
    """The value of each node by its identity, for `scale`."""

    def value(self, node: Node) -> Any:
        self.known[id(node)] = value = self.work(node)
        return value

    def work(self, node: Node) -> Any:
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
                return self.finite(_worked(node.sign, self.value(node.left), self.value(node.right)))
            case Call():
                return self.called(node, [self.value(argument) for argument in node.arguments])
            case Comparison():
                return self.compared(node, [self.value(side) for side in node.sides])
            case Every():
                return _all([self.value(part) for part in node.parts])

    def named(self, node: Name) -> Any:
        found = meaning(node, self.columns)
        value = self.columns[found.name]
        if found.side:
            value = getattr(value, found.side)
        return value if found.unit is None else in_unit(value, found.unit)

    def scale(self, node: Node) -> Any:
        """The size of the largest values that a difference was made of: its rounding errors are relative to this."""
        import numpy as np

        match node:
            case Operation(sign="+" | "-"):
                return np.maximum(self.scale(node.left), self.scale(node.right))
            case Operation(sign="*"):
                return self.scale(node.left) * self.scale(node.right)
            case Operation(sign="/"):
                return self.scale(node.left) / np.abs(self.known[id(node.right)])
            case Negative():
                return self.scale(node.of)
            case Call(function="min" | "max" | "abs"):
                return np.maximum.reduce(np.broadcast_arrays(*map(self.scale, node.arguments)))
            case _:
                return np.abs(self.known[id(node)])

    def beside(self, left: Node, right: Node) -> Any:
        """Where two sides lie within 1e-9 of each other, or one of them is nan."""
        import numpy as np

        gap = np.abs(np.subtract(self.known[id(left)], self.known[id(right)]))
        if _is_counted(left) and _is_counted(right):
            return ~(self.scale(left) + self.scale(right) < EXACT_IN_FLOATS)
        return ~(gap > EDGE * np.maximum(self.scale(left), self.scale(right)))

    def compared(self, node: Comparison, sides: list[Any]) -> Any:
        import numpy as np

        results = []
        for place, sign in enumerate(node.signs):
            left, right = sides[place : place + 2]
            if not _is_text(left, right):
                self.mark(self.beside(node.sides[place], node.sides[place + 1]))
            results.append(np.asarray(COMPARE[sign](np.asarray(left), np.asarray(right))))
        return _all(results)

    def called(self, node: Call, arguments: list[Any]) -> Any:
        import numpy as np

        name = node.function
        if name in SUMS:
            return self.summed(node, arguments)
        match name:
            case "pi":
                return arith.pi
            case "ceil" | "floor":
                self.mark(near_step(arguments[0], 1.0, 0.0, self.scale(node.arguments[0])))
            case "nearest":
                self.mark(near_step(arguments[0], arguments[1], 0.5, self.scale(node.arguments[0])))
                step = np.asarray(arguments[1], dtype=float)
                arguments[1] = np.where(step > 0, step, np.nan)
            case "next_up" | "at_least":
                for bound in node.arguments[1:]:
                    self.mark(self.beside(node.arguments[0], bound))
        helper: Callable[..., Any] = getattr(arith, name)
        result = helper(*(np.asarray(argument, dtype=float) for argument in arguments))
        return _or_nan(result, arguments) if name == "at_least" else result

    def summed(self, node: Call, arguments: list[Any]) -> Any:
        one = SUMS[node.function]
        if one.dated:
            return _dated(one, arguments)
        arguments = [_as_array(argument) for argument in arguments]
        allowed = _without_refused(one, arguments) if self.careful else arguments
        result = self.finite(self.body(one, allowed))
        if one.stepped or one.refusals:
            scales = [
                None if isinstance(argument, RatioValue) else self.scale(of)
                for argument, of in zip(arguments, node.arguments, strict=True)
            ]
            self.mark(_jumps(one, arguments, scales, result))
        return result

    def body(self, one: Sum, arguments: list[Any]) -> Any:
        """The values of a sum; near where it divided by zero on the way to a finite one."""
        import numpy as np

        try:
            with np.errstate(divide="raise", over="raise"):
                return _body(one, arguments)
        except FloatingPointError:
            if not self.careful:
                raise
        result = _body(one, arguments)
        self.mark(np.isfinite(result))
        return result

    def finite(self, value: Any) -> Any:
        """The value, nan where it is infinite."""
        import numpy as np

        return np.where(np.isinf(value), np.nan, value) if self.careful else value

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


def _is_counted(node: Node) -> bool:
    """Whether a value is a whole number without a rounding error: what made it one marks where it could be another."""
    match node:
        case Numeral():
            return node.value.denominator == 1
        case Call(function="ceil" | "floor" | "at_least"):
            return True
        case Negative():
            return _is_counted(node.of)
        case Operation(sign="+" | "-" | "*"):
            return _is_counted(node.left) and _is_counted(node.right)
        case _:
            return False


def _is_text(*sides: Any) -> bool:
    return any(isinstance(side, str) or getattr(getattr(side, "dtype", None), "kind", "") == "U" for side in sides)


def _as_array(argument: Any) -> Any:
    import numpy as np

    if isinstance(argument, RatioValue):
        return RatioValue(np.asarray(argument.a, dtype=float), np.asarray(argument.b, dtype=float), argument.basis)
    return np.asarray(argument, dtype=float)


def _or_nan(result: Any, arguments: list[Any]) -> Any:
    import numpy as np

    for argument in arguments:
        result = np.where(np.isnan(argument), np.nan, result)
    return result


def _body(one: Sum, arguments: list[Any]) -> Any:
    """A sum over arrays, nan where it must not be answered."""
    import numpy as np

    result = one.body(*arguments)
    for refusal in one.refusals:
        result = np.where(refusal.when(*arguments), np.nan, result)
    return result


def _without_refused(one: Sum, arguments: list[Any]) -> list[Any]:
    """The arguments, nan where the sum must not be answered, so that a division by zero there does no harm."""
    import numpy as np

    for refusal in one.refusals:
        refused = np.asarray(refusal.when(*arguments)) != 0
        arguments = [
            argument if isinstance(argument, RatioValue) else np.where(refused, np.nan, argument)
            for argument in arguments
        ]
    return arguments


def near_step(value: Any, step: Any, shift: float, scale: Any) -> Any:
    """Where a value lies within 1e-9 of a whole number of steps (shifted by a part of one): there it would jump.

    `scale` is the size of what the value was made of.
    """
    import numpy as np

    count = np.true_divide(value, step) + shift
    return np.abs(count - np.round(count)) <= EDGE * np.maximum(1.0, np.true_divide(scale, step))


def _jumps(one: Sum, arguments: list[Any], scales: list[Any], result: Any) -> Any:
    """Where a sum that steps or refuses inside goes another way when one of its values changes by 1e-9."""
    import numpy as np

    near: Any = np.asarray(False)
    for index, (argument, scale) in enumerate(zip(arguments, scales, strict=True)):
        if scale is None:
            continue
        for change in (-EDGE * scale, EDGE * scale):
            moved = one.function(*arguments[:index], argument + change, *arguments[index + 1 :])
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
