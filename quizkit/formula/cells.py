"""The parts of formulas over many variants, each worked once however many formulas have it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import reduce
from typing import Any, TypeAlias

from quizkit import arith
from quizkit.formula.grain import WHOLE, is_counted, made_of
from quizkit.formula.near import either, near_step, somewhere, surely_told
from quizkit.formula.resolve import meaning
from quizkit.formula.single import COMPARE, EDGE, in_unit
from quizkit.formula.summed import as_array, bare, dated, jumps, size_inside, without_refused
from quizkit.formula.tree import Call, Comparison, Name, Negative, Node, Numeral, Operation, Text, inside
from quizkit.formula.values import RatioValue
from quizkit.trade import SUMS, Sum

Columns: TypeAlias = Mapping[str, Any]
"""For each dotted name an array of float64 (a date as its day count, a text as numpy text), one axis for each given
that is drawn; or a `RatioValue` of such arrays. Shapes broadcast against each other."""


@dataclass(frozen=True, slots=True, eq=False)
class Many:
    """A formula over many variants. Arrays broadcast to the shape of the grid."""

    value: Any
    """float64 in the coherent base, nan or infinite where there is no answer; or bool for a condition."""
    near: Any
    """bool: within 1e-9 of a step, a tie or an edge, so to be worked again in fractions. False where nowhere."""


@dataclass(slots=True, eq=False)
class Cell:
    """One part of a formula, worked; parts that are written alike are one and the same."""

    node: Node
    value: Any
    near: Any = False
    """Where floats do not decide it, or anything that it is made of."""
    made_of: tuple[Cell, ...] = ()
    subtracts: bool = False
    """Whether it may be what is left of larger values. No product and no quotient of anything but 0 is 0."""
    size: Any = None
    """Its scale, once asked for."""
    grain: Any = False
    """What its values are whole multiples of, once asked for; None where that is not known."""


class Work:
    """The cells of formulas over some columns. The usual work stops at the first division by zero, and nothing of it
    is kept; the careful one keeps such points as nan from there on, since an infinite value could come back as a
    finite one.
    """

    def __init__(self, columns: Columns, of_name: Callable[[Name], Any], edges: bool, careful: bool) -> None:
        self.columns = columns
        self.of_name = of_name
        self.edges = edges
        self.careful = careful
        self.cells: dict[tuple[Any, ...], Cell] = {}
        """By sort and parts, those by their identity: cells are kept, so that it stays their own."""
        self.wholes: dict[tuple[int, bool], Many] = {}

    def whole(self, tree: Node, zero: bool) -> Many:
        import numpy as np

        cell = self.cell(tree)
        found = self.wholes.get((id(cell), zero))
        if found is None:
            value, near = self.zeros(cell) if zero else (cell.value, False)
            found = self.wholes[id(cell), zero] = Many(np.asarray(value), either(cell.near, near))
        return found

    def cell(self, node: Node) -> Cell:
        """The cell of a part: its own, or that of one that is written alike."""
        parts = tuple([self.cell(part) for part in inside(node)])
        key = _sort(node, parts)
        found = self.cells.get(key)
        if found is None:
            found = self.cells[key] = self.worked(node, parts)
        return found

    def worked(self, node: Node, parts: tuple[Cell, ...]) -> Cell:
        if not parts:
            return Cell(node, self.leaf(node))
        near: Any = False
        subtracts = isinstance(node, Operation) and node.sign in "+-"
        for part in parts:
            near = either(near, part.near)
            subtracts = subtracts or part.subtracts
        cell = Cell(node, None, near, parts, subtracts)
        values = [part.value for part in parts]
        match node:
            case Operation():
                if node.sign == "/":
                    cell.near = either(near, self.nothing(parts[1]))
                elif node.sign == "**":
                    cell.near = either(near, self.nothing(parts[0]))
                cell.value = self.finite(_worked(node.sign, *values))
            case Call() if node.function in SUMS:
                self.sum(SUMS[node.function], cell, values)
            case Call():
                cell.value = self.called(node.function, cell, values)
            case Comparison():
                cell.value = self.compared(node.signs, cell)
            case Negative():
                cell.value = -values[0]
            case _:
                cell.value = _all(values)
        return cell

    def leaf(self, node: Node) -> Any:
        match node:
            case Numeral():
                return float(node.value)
            case Name():
                return self.named(node)
            case Text():
                return node.value
            case Call(function="pi"):
                return arith.pi
            case _:
                raise AssertionError(node)

    def named(self, node: Name) -> Any:
        if len(node.path) == 1 and node.path[0] in self.columns:
            return self.columns[node.path[0]]
        found = meaning(node, self.columns)
        value = self.columns[found.name]
        if found.side:
            value = getattr(value, found.side)
        return value if found.unit is None else in_unit(value, found.unit)

    def nothing(self, cell: Cell) -> Any:
        """Where a value is no more than what rounding may have left of equals, so that in truth it may be 0."""
        import numpy as np

        return somewhere(np.abs(cell.value) <= EDGE * self.scale(cell)) if cell.subtracts else False

    def zeros(self, cell: Cell) -> tuple[Any, Any]:
        """The values, 0 where they surely are, and where they may be."""
        import numpy as np

        near = self.nothing(cell)
        grain = self.grain(cell) if near is not False else None
        if grain is None:
            return cell.value, near
        sure = near & surely_told(self.scale(cell), grain.least)
        return np.where(sure, 0.0, cell.value), somewhere(near & ~sure)

    def scale(self, cell: Cell) -> Any:
        """The size of the largest values that a difference was made of: its rounding errors are relative to this."""
        if cell.size is None:
            cell.size = self.scaled(cell)
        return cell.size

    def scaled(self, cell: Cell) -> Any:
        import numpy as np

        parts = cell.made_of
        match cell.node:
            case Operation(sign="+" | "-") | Call(function="min" | "max" | "abs"):
                return reduce(np.maximum, map(self.scale, parts))
            case Operation(sign="*"):
                return self.scale(parts[0]) * self.scale(parts[1])
            case Operation(sign="/"):
                return self.scale(parts[0]) / np.abs(parts[1].value)
            case Negative():
                return self.scale(parts[0])
            case Call(function=name) if name in SUMS and SUMS[name].subtracts:
                arguments = [as_array(part.value) for part in parts]
                return size_inside(SUMS[name], arguments, self.scales(parts), cell.value)
            case _:
                return np.abs(cell.value)

    def scales(self, parts: tuple[Cell, ...]) -> list[Any]:
        """The scale of each, None for a ratio."""
        return [None if isinstance(part.value, RatioValue) else self.scale(part) for part in parts]

    def grain(self, cell: Cell) -> Any:
        """What its values are whole multiples of, asked for where floats do not decide; of a ratio by side."""
        if cell.grain is False:
            node = cell.node
            parts = [self.grain(part) for part in cell.made_of]
            cell.grain = self.of_name(node) if isinstance(node, Name) else made_of(node, parts)
        return cell.grain

    def apart(self, left: Cell, right: Cell) -> tuple[Any, Any]:
        """How far the left side lies above the right one, and where floats do not say whether it does: within 1e-9 of
        each other, or one of them nan.

        Of two values that are equal, or further apart than floats can err, floats do say it.
        """
        import numpy as np

        gap = np.subtract(left.value, right.value)
        near = somewhere(~(np.abs(gap) > EDGE * np.maximum(self.scale(left), self.scale(right))))
        if near is False or (self.edges and not (is_counted(left.node) and is_counted(right.node))):
            return gap, near
        one, other = self.grain(left), self.grain(right)
        if one is None or other is None:
            return gap, near
        equal = near & ~np.isnan(gap) & surely_told(self.scale(left) + self.scale(right), one.apart(other))
        return np.where(equal, 0.0, gap), somewhere(near & ~equal)

    def compared(self, signs: tuple[str, ...], cell: Cell) -> Any:
        import numpy as np

        results = []
        for left, right, sign in zip(cell.made_of, cell.made_of[1:], signs, strict=False):
            if _is_text(left.value, right.value):
                results.append(np.asarray(COMPARE[sign](np.asarray(left.value), np.asarray(right.value))))
                continue
            gap, near = self.apart(left, right)
            cell.near = either(cell.near, near)
            results.append(np.asarray(COMPARE[sign](gap, 0.0)))
        return _all(results)

    def called(self, name: str, cell: Cell, values: list[Any]) -> Any:
        import numpy as np

        first, *others = cell.made_of
        match name:
            case "sqrt":
                cell.near = either(cell.near, self.nothing(first))
            case "ceil" | "floor":
                values[0] = self.stepping(cell, first)
            case "nearest":
                self.mark(cell, near_step(values[0], values[1], 0.5, self.scale(first)))
                step = np.asarray(values[1], dtype=float)
                values[1] = np.where(step > 0, step, np.nan)
            case "next_up" | "at_least":
                for place, bound in enumerate(others, 1):
                    gap, near = self.apart(first, bound)
                    cell.near = either(cell.near, near)
                    if np.count_nonzero(gap == 0):
                        values[place] = np.where(gap == 0, values[0], values[place])
        helper: Callable[..., Any] = getattr(arith, name)
        result = helper(*(np.asarray(value, dtype=float) for value in values))
        return _or_nan(result, values) if name == "at_least" else result

    def stepping(self, cell: Cell, of: Cell) -> Any:
        """Values that are about to be rounded up or down: whole numbers where they surely are, else near them."""
        import numpy as np

        scale = self.scale(of)
        near = somewhere(near_step(of.value, 1.0, 0.0, scale))
        grain = None if near is False or self.edges else self.grain(of)
        if grain is None:
            cell.near = either(cell.near, near)
            return of.value
        whole = near & surely_told(np.maximum(scale, 1.0), grain.apart(WHOLE))
        self.mark(cell, near & ~whole)
        return np.where(whole, np.rint(of.value), of.value)

    def sum(self, one: Sum, cell: Cell, values: list[Any]) -> None:
        """Work a sum of the trade, and mark where it may be 0 in truth or goes another way close by."""

        cell.subtracts = cell.subtracts or one.subtracts
        if one.dated:
            cell.value = dated(one, values)
            return
        for part in () if one.stepped or one.subtracts else cell.made_of:
            cell.near = either(cell.near, self.nothing(part))
        arguments = [as_array(value) for value in values]
        cell.value = self.finite(self.body(one, cell, arguments))
        if one.subtracts and not self.edges:
            cell.value, near = self.zeros(cell)
            cell.near = either(cell.near, near)
        if one.stepped or one.refusals:
            self.mark(cell, jumps(one, arguments, self.scales(cell.made_of), cell.value))

    def body(self, one: Sum, cell: Cell, arguments: list[Any]) -> Any:
        """The values of a sum; near where it divided by zero on the way to a finite one."""
        import numpy as np

        if not self.careful:
            return bare(one, arguments)
        allowed = without_refused(one, arguments)
        try:
            with np.errstate(divide="raise", over="raise"):
                return bare(one, allowed)
        except FloatingPointError:
            result = bare(one, allowed)
            self.mark(cell, np.isfinite(result))
            return result

    def finite(self, value: Any) -> Any:
        """The value, nan where it is infinite."""
        import numpy as np

        return np.where(np.isinf(value), np.nan, value) if self.careful else value

    def mark(self, cell: Cell, near: Any) -> None:
        """Remember where floats do not decide."""
        cell.near = either(cell.near, somewhere(near))


def _sort(node: Node, parts: tuple[Cell, ...]) -> tuple[Any, ...]:
    """What tells a part of a formula from every other: its sort, and the cells that it is made of."""
    match node:
        case Operation():
            return (node.sign, id(parts[0]), id(parts[1]))
        case Name():
            return ("name", *node.path)
        case Numeral():
            return (node.value.numerator, node.value.denominator)
        case Call():
            return ("call", node.function, *map(id, parts))
        case Comparison():
            return ("comparison", node.signs, *map(id, parts))
        case Text():
            return ("text", node.value)
        case _:
            return (type(node), *map(id, parts))


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

    return reduce(np.logical_and, parts)


def _is_text(*sides: Any) -> bool:
    return any(isinstance(side, str) or getattr(getattr(side, "dtype", None), "kind", "") == "U" for side in sides)


def _or_nan(result: Any, arguments: list[Any]) -> Any:
    import numpy as np

    for argument in arguments:
        result = np.where(np.isnan(argument), np.nan, result)
    return result
