"""The second arithmetic: all variants at once in arrays of float64, as a filter before exact fractions.

Numpy is imported when the first formula is worked, never with the package.
"""

from __future__ import annotations

import datetime
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from functools import lru_cache
from typing import TYPE_CHECKING, Any, TypeAlias

from quizkit import arith
from quizkit.formula.resolve import meaning
from quizkit.formula.single import COMPARE, EDGE, JUMP, in_unit
from quizkit.formula.steps import common_step, is_counted, step_of, subtracts
from quizkit.formula.tree import (
    Call,
    Comparison,
    Every,
    Formula,
    Name,
    Negative,
    Node,
    Numeral,
    Operation,
    Text,
)
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

FLOAT_NOISE = 1e-12
"""What rounding errors of floats come to at most, as a share of the largest values that a number was made of."""


@dataclass(frozen=True, slots=True)
class Many:
    """A formula over many variants. Arrays broadcast to the shape of the grid."""

    value: Any
    """float64 in the coherent base, nan or infinite where there is no answer; or bool for a condition."""
    near: Any
    """bool: within 1e-9 of a step, a tie or an edge, so to be worked again in fractions. False where nowhere."""


def arrays(formula: Formula, columns: Columns, zero: bool = False, edges: bool = False) -> Many:
    """The value of a formula for every variant of `columns`, and where floats do not decide it.

    With `zero` near is also what may be 0 in truth, since floats leave a little of a difference of equals. With `edges`
    near means the edge of a comparison: every two equal values, counts aside, may be worked to either side by hand.
    """
    import numpy as np

    work = _Work(columns, edges)
    try:
        with np.errstate(divide="raise", over="raise", invalid="ignore", under="ignore"):
            value = work.whole(formula.tree, zero)
    except FloatingPointError:
        work = _Work(columns, edges, careful=True)
        with np.errstate(all="ignore"):
            value = work.whole(formula.tree, zero)
    return Many(np.asarray(value), work.near)


@dataclass(slots=True)
class _Work:
    """One run over a tree. The usual run stops at the first division by zero; the careful one keeps such points as
    nan from there on, since an infinite value could come back as a finite one.
    """

    columns: Columns
    edges: bool = False
    near: Any = field(default=False)
    careful: bool = False
    known: dict[int, Any] = field(default_factory=dict)
    """The value of each node by its identity, for `scale`."""

    def whole(self, tree: Node, zero: bool) -> Any:
        value = self.value(tree)
        if zero:
            self.mark_nothing(tree)
        return value

    def mark_nothing(self, node: Node) -> None:
        """Mark where a value is no more than what rounding may have left of equals, so that in truth it may be 0."""
        import numpy as np

        if subtracts(node):
            self.mark(np.abs(self.known[id(node)]) <= EDGE * self.scale(node))

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
                left, right = self.value(node.left), self.value(node.right)
                if node.sign == "/":
                    self.mark_nothing(node.right)
                return self.finite(_worked(node.sign, left, right))
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
            case Call() if node.function in SUMS and SUMS[node.function].subtracts:
                return self.scale_of_sum(node)
            case _:
                return np.abs(self.known[id(node)])

    def scale_of_sum(self, node: Call) -> Any:
        """The same of a sum that subtracts inside: as far as its result goes when one of its values does."""
        import numpy as np

        one = SUMS[node.function]
        arguments = [_as_array(self.known[id(argument)]) for argument in node.arguments]
        result = self.known[id(node)]
        size = np.abs(result)
        for index, (argument, of) in enumerate(zip(arguments, node.arguments, strict=True)):
            if isinstance(argument, RatioValue):
                continue
            moved = one.function(*arguments[:index], argument + EDGE * self.scale(of), *arguments[index + 1 :])
            size = np.fmax(size, np.abs(moved - result) / EDGE)
        return size

    def beside(self, left: Node, right: Node) -> Any:
        """Where floats do not say how two sides compare: within 1e-9 of each other, or one of them nan."""
        return self.apart(left, right)[1]

    def apart(self, left: Node, right: Node) -> tuple[Any, Any]:
        """How far the left side lies above the right one, and where floats do not say whether it does.

        Two whole multiples of one step are equal, or a step apart: that floats do say.
        """
        import numpy as np

        gap = np.subtract(self.known[id(left)], self.known[id(right)])
        step = common_step(step_of(left), step_of(right))
        if step and (not self.edges or (is_counted(left) and is_counted(right))):
            equal = np.abs(gap) < float(step) / 2
            sure = (self.scale(left) + self.scale(right)) * FLOAT_NOISE < float(step) / 4
            return np.where(equal, 0.0, gap), ~(sure & ~np.isnan(gap))
        return gap, ~(np.abs(gap) > EDGE * np.maximum(self.scale(left), self.scale(right)))

    def compared(self, node: Comparison, sides: list[Any]) -> Any:
        import numpy as np

        results = []
        for place, sign in enumerate(node.signs):
            left, right = sides[place : place + 2]
            if _is_text(left, right):
                results.append(np.asarray(COMPARE[sign](np.asarray(left), np.asarray(right))))
                continue
            gap, near = self.apart(node.sides[place], node.sides[place + 1])
            self.mark(near)
            results.append(np.asarray(COMPARE[sign](gap, 0.0)))
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
        import numpy as np

        one = SUMS[node.function]
        if one.dated:
            return _dated(one, arguments)
        arguments = [_as_array(argument) for argument in arguments]
        allowed = _without_refused(one, arguments) if self.careful else arguments
        result = self.known[id(node)] = self.finite(self.body(one, allowed))
        if one.subtracts and not self.edges:
            self.mark(np.abs(result) <= EDGE * self.scale_of_sum(node))
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
        if near is not False and near.any():
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
    answers = [_one_date(one.name, tuple(row)) for row in different.tolist()]
    return np.asarray(answers, dtype=float)[places.reshape(-1)].reshape(spread[0].shape)


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
