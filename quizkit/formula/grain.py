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
from quizkit.units import Unit


@dataclass(frozen=True, slots=True)
class Grain:
    """Each value is a whole multiple of `over / under / n`, where n is a whole number from 1 to `parts` of its own.

    It takes + - * / and the `min` and `max` of `arith` with its like and with exact numbers, so that the body of a sum
    can be worked with it; anything else is a TypeError.
    """

    over: int
    """Not below 0; with 0 every value is 0."""
    under: int
    parts: int
    most: float
    """No value is larger than this, whatever its sign, but for rounding; infinite where that is not known."""

    @property
    def least(self) -> float:
        """What no value but 0 is smaller than, whatever its sign."""
        return _downward(self.over, self.under * self.parts)

    def apart(self, other: Grain) -> float:
        """How far apart two values are at least, if they are not equal; 0 where both are 0 anyway."""
        over, under = self.common(other)
        return _downward(over, under * self.parts * other.parts)

    def common(self, other: Grain) -> tuple[int, int]:
        """The largest step of which those of both are whole multiples."""
        return math.gcd(self.over * other.under, other.over * self.under), self.under * other.under

    def either(self, other: Any) -> Grain:
        """What the one or the other value is."""
        two = _as_grain(other)
        if two is None:
            raise TypeError(other)
        return Grain(*self.common(two), max(self.parts, two.parts), max(self.most, two.most))

    def __neg__(self) -> Grain:
        return self

    def __add__(self, other: Any) -> Grain:
        two = _as_grain(other)
        if two is None:
            return NotImplemented
        return Grain(*self.common(two), self.parts * two.parts, self.most + two.most)

    __radd__ = __sub__ = __rsub__ = __add__

    def __mul__(self, other: Any) -> Grain:
        two = _as_grain(other)
        if two is None:
            return NotImplemented
        over = self.over * two.over
        return Grain(over, self.under * two.under, self.parts * two.parts, _at_most(over, self.most * two.most))

    __rmul__ = __mul__

    def __truediv__(self, other: Any) -> Grain:
        two = _as_grain(other)
        least = 0.0 if two is None else two.least
        # The other is k steps of its own, parted by n: this is parted by k as well, and k goes up to `times`.
        times = two.most / least * UPWARD if two is not None and least else math.inf
        if two is None or not math.isfinite(times):
            return NotImplemented
        parts = self.parts * max(int(times), 1)
        over = self.over * two.under
        return Grain(over, self.under * two.over, parts, _at_most(over, self.most / least))

    def __rtruediv__(self, other: Any) -> Grain:
        one = _as_grain(other)
        return NotImplemented if one is None else one / self


UPWARD = 1 + 1e-9
"""More than floats lose on the way to the largest value."""

WHOLE = Grain(1, 1, 1, math.inf)
"""That of whole numbers, dates as their day counts among them."""


def of_numbers(*values: Fraction) -> Grain:
    """That of one of some numbers."""
    under = math.lcm(*[value.denominator for value in values])
    overs = [value.numerator * (under // value.denominator) for value in values]
    most = max(map(abs, overs))
    try:
        return Grain(math.gcd(*overs), under, 1, _at_most(most, most / under))
    except OverflowError:
        return Grain(math.gcd(*overs), under, 1, math.inf)


def _downward(over: int, under: int) -> float:
    """A quotient as a float, 0 where it is beyond all measure: then nothing is told of it."""
    try:
        return over / under
    except OverflowError:
        return 0.0


def _at_most(over: int, most: float) -> float:
    """The size of the largest value: 0 where every value is, else not what floats lost on the way to nothing."""
    return 0.0 if over == 0 else most if most > 0 else math.inf


def of_draw(draw: Draw, field: str) -> Grain | RatioValue | None:
    """That of what is drawn, or of one of its fields where it is a row; of both sides of a ratio; None of a text."""
    match draw:
        case Even():
            end = draw.start + (draw.count - 1) * draw.step
            return replace(of_numbers(draw.start, draw.step), most=of_numbers(draw.start, end).most)
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
    most = math.inf if worked is None else worked.most + of_numbers(draw.step).most
    return replace(of_numbers(draw.step, origin), most=most)


def _of_values(values: Sequence[Any]) -> Grain | RatioValue | None:
    first = values[0]
    if isinstance(first, RatioValue):
        base, hardener = (of_numbers(*[getattr(value, side) for value in values]) for side in ("a", "b"))
        return RatioValue(base, hardener, first.basis)
    if isinstance(first, datetime.date):
        return WHOLE
    return of_numbers(*values) if isinstance(first, Fraction) else None


def in_grain(grain: Grain, unit: Unit) -> Grain:
    """That of the plain numbers in a unit."""
    return (grain - unit.offset) / unit.factor


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


def grain_of(node: Node, of_name: Callable[[Name], Any]) -> Any:
    """That of a part of a formula; `of_name` tells that of a name. None where nothing is known."""
    if isinstance(node, Name):
        return of_name(node)
    return made_of(node, [grain_of(part, of_name) for part in inside(node)])


def made_of(node: Node, parts: Sequence[Any]) -> Grain | None:
    """That of what is made of parts, whose own are given; None where nothing is known."""
    try:
        found = _made_of(node, parts)
    except TypeError:  # a root, a power, a comparison inside a sum: what takes no grains
        return None
    return found if isinstance(found, Grain) else None


def _made_of(node: Node, parts: Sequence[Any]) -> Any:
    match node:
        case Numeral():
            return of_numbers(node.value)
        case Call(function="ceil" | "floor" | "at_least"):
            return WHOLE
        case Call(function="nearest"):
            return _rounded(constant(node.arguments[1]))
        case Call() if node.function in SUMS and (SUMS[node.function].dated or SUMS[node.function].stepped):
            return WHOLE if SUMS[node.function].dated else _rounded(SUMS[node.function].stepped)
        case Call(function="next_up"):
            parts = parts[1:]
    if None in parts:
        return None
    match node:
        case Operation() if node.sign in _WORKED:
            return _WORKED[node.sign](*parts)
        case Negative():
            return parts[0]
        case Call(function="min" | "max" | "abs" | "next_up"):
            return reduce(Grain.either, parts)
        case Call() if node.function in SUMS:
            # The body of a sum is plain arithmetic, whatever it is worked with.
            return SUMS[node.function].body(*parts)
        case _:
            return None


def _rounded(step: Fraction | None) -> Grain | None:
    return None if step is None else replace(of_numbers(step), most=math.inf)


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
