"""What values are whole multiples of, told from how they are made and not from what they are.

Two such values are equal or a known distance apart. Floats that lie nearer than that to each other are equal in
truth, and no fractions need be worked to say so.
"""

from __future__ import annotations

import datetime
import math
import operator
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import reduce
from typing import Any

from quizkit.formula.bounds import constant
from quizkit.formula.draws import Computed, Dates, Draw, Even, Listed, Ratios, Rows
from quizkit.formula.tree import Call, Name, Negative, Node, Numeral, Operation, inside
from quizkit.formula.values import RatioValue
from quizkit.trade import SUMS


@dataclass(frozen=True, slots=True)
class Grain:
    """Each value is a whole multiple of `step / n`, where n is a whole number from 1 to `parts` of its own.

    It takes + - * / with its like and with exact numbers, so that the body of a sum can be worked with it; anything
    else is a TypeError.
    """

    step: Fraction
    """Not below 0; with 0 every value is 0."""
    parts: int
    most: Fraction
    """No value is larger than this, whatever its sign."""

    @property
    def least(self) -> Fraction:
        """What no value but 0 is smaller than, whatever its sign."""
        return self.step / self.parts

    def apart(self, other: Grain) -> Fraction:
        """How far apart two values are at least, if they are not equal; 0 where both are 0 anyway."""
        return _common(self, other) / (self.parts * other.parts)

    def either(self, other: Grain) -> Grain:
        """What the one or the other value is."""
        return Grain(_common(self, other), max(self.parts, other.parts), max(self.most, other.most))

    def __neg__(self) -> Grain:
        return self

    def __add__(self, other: Any) -> Grain:
        two = _as_grain(other)
        if two is None:
            return NotImplemented
        return Grain(_common(self, two), self.parts * two.parts, self.most + two.most)

    __radd__ = __sub__ = __rsub__ = __add__

    def __mul__(self, other: Any) -> Grain:
        two = _as_grain(other)
        if two is None:
            return NotImplemented
        return Grain(self.step * two.step, self.parts * two.parts, self.most * two.most)

    __rmul__ = __mul__

    def __truediv__(self, other: Any) -> Grain:
        two = _as_grain(other)
        if two is None or not two.step:
            return NotImplemented
        # The other is k steps of its own, parted by n: this is parted by k as well, and k goes up to `most`.
        times = int(two.most * two.parts / two.step)
        return Grain(self.step / two.step, self.parts * max(times, 1), self.most / two.least)

    def __rtruediv__(self, other: Any) -> Grain:
        one = _as_grain(other)
        return NotImplemented if one is None else one / self


ANY_SIZE = Fraction(10) ** 300
"""Larger than any value."""

WHOLE = Grain(Fraction(1), 1, ANY_SIZE)
"""That of whole numbers, dates as their day counts among them."""


def of_numbers(*values: Fraction) -> Grain:
    """That of one of some numbers."""
    under = math.lcm(*[value.denominator for value in values])
    step = math.gcd(*[value.numerator * (under // value.denominator) for value in values])
    return Grain(Fraction(step, under), 1, max(map(abs, values)))


def of_draw(draw: Draw, field: str) -> Grain | RatioValue | None:
    """That of what is drawn, or of one of its fields where it is a row; of both sides of a ratio; None of a text."""
    match draw:
        case Even():
            end = draw.start + (draw.count - 1) * draw.step
            return replace(of_numbers(draw.start, draw.step), most=max(abs(draw.start), abs(end)))
        case Listed() | Ratios():
            return _of_values([draw.value(place) for place in range(draw.count)])
        case Rows():
            return _of_values([row.field(field) for row in draw.rows])
        case Dates():
            return WHOLE
        case _:
            return None


def of_computed(draw: Computed, worked: Grain | None) -> Grain | None:
    """That of a computed given; `worked` is that of its formula."""
    if draw.step is None:
        return worked
    origin = draw.unit.offset if draw.unit is not None else Fraction(0)
    return replace(of_numbers(draw.step, origin), most=ANY_SIZE if worked is None else worked.most + draw.step)


def _of_values(values: Sequence[Any]) -> Grain | RatioValue | None:
    first = values[0]
    if isinstance(first, RatioValue):
        base, hardener = (of_numbers(*[getattr(value, side) for value in values]) for side in ("a", "b"))
        return RatioValue(base, hardener, first.basis)
    if isinstance(first, datetime.date):
        return WHOLE
    return of_numbers(*values) if isinstance(first, Fraction) else None


def is_counted(node: Node) -> bool:
    """Whether a value is a whole number that nobody rounds."""
    match node:
        case Numeral():
            return node.value.denominator == 1
        case Call(function="ceil" | "floor" | "at_least"):
            return True
        case Negative() | Operation(sign="+" | "-" | "*"):
            return all(map(is_counted, inside(node)))
        case _:
            return False


def grain_of(node: Node, of_name: Callable[[Name], Any]) -> Grain | None:
    """That of a part of a formula, None where nothing is known; `of_name` tells that of a name or raises TypeError."""
    try:
        found = _grain(node, of_name)
    except TypeError:  # a root, a power, a comparison inside a sum: what takes no grains
        return None
    return found if isinstance(found, Grain) else None


def _grain(node: Node, of_name: Callable[[Name], Any]) -> Any:
    match node:
        case Name():
            return of_name(node)
        case Numeral():
            return of_numbers(node.value)
        case Call(function="ceil" | "floor" | "at_least"):
            return WHOLE
        case Call(function="nearest"):
            return _rounded(constant(node.arguments[1]))
        case Call() if node.function in SUMS and (SUMS[node.function].dated or SUMS[node.function].stepped):
            return WHOLE if SUMS[node.function].dated else _rounded(SUMS[node.function].stepped)
    parts = [_grain(part, of_name) for part in inside(node)]
    match node:
        case Operation() if node.sign in _WORKED:
            return _WORKED[node.sign](*parts)
        case Negative():
            return parts[0]
        case Call(function="min" | "max" | "abs"):
            return reduce(Grain.either, parts)
        case Call(function="next_up"):
            return reduce(Grain.either, parts[1:])
        case Call() if node.function in SUMS:
            # The body of a sum is plain arithmetic, whatever it is worked with.
            return SUMS[node.function].body(*parts)
    raise TypeError(node)


def _rounded(step: Fraction | None) -> Grain:
    if step is None:
        raise TypeError(step)
    return replace(of_numbers(step), most=ANY_SIZE)


_WORKED: dict[str, Callable[[Any, Any], Any]] = {
    "+": operator.add,
    "-": operator.sub,
    "*": operator.mul,
    "/": operator.truediv,
}


def _as_grain(value: Any) -> Grain | None:
    if isinstance(value, Grain):
        return value
    return of_numbers(Fraction(value)) if isinstance(value, int | Fraction) else None


def _common(one: Grain, other: Grain) -> Fraction:
    """The largest step of which those of both are whole multiples."""
    return of_numbers(one.step, other.step).step
