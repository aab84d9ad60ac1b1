"""The third arithmetic: one variant in exact fractions, for marking.

What has no exact value (π, roots, broken powers) is carried as a float and settled to a fraction of 12 significant
digits before it is compared or handed out, so that every machine marks the same.
"""

import datetime
import math
import operator
from collections.abc import Callable, Mapping
from fractions import Fraction
from typing import Any, TypeAlias

from quizkit import arith
from quizkit.arith import ArithError, Num
from quizkit.formula.bounds import LARGEST_POWER
from quizkit.formula.resolve import Meaning, meaning
from quizkit.formula.tree import Call, Comparison, Every, Formula, Name, Negative, Node, Numeral, Operation, Text
from quizkit.formula.values import Value
from quizkit.trade import SUMS, Sum
from quizkit.units import Unit
from quizkit.words import _

EDGE = 1e-9
"""Relative distance from a step, a tie or an edge within which floats decide nothing."""

LARGEST_VALUE = Fraction(10) ** 300
"""Beyond this a value counts as not finite, as it is for the arrays."""

LARGEST_BITS = 990
"""Below this many bits before the point a value is smaller than the largest one."""

Values: TypeAlias = Mapping[str, Value]
Result: TypeAlias = Fraction | datetime.date | str | bool


class NearStep(ArithError):
    """A float lies so near a step that it does not say on which side: the variant is left out."""


def exact(formula: Formula, values: Values) -> Result:
    """The value of a formula for one variant, in the coherent base: a fraction, a date, or a truth for a condition.

    `values` holds each dotted name that it uses. Raises ArithError where there is no answer (a division by zero, a root
    of a negative number, a value without end, a sum that must not be answered, a float too near a step).
    """
    result = _value(formula.tree, values)
    if isinstance(result, bool | str | datetime.date):
        return result
    return finite(result)


def finite(value: Num) -> Fraction:
    """A number as a fraction; ArithError where it is beyond all measure."""
    settled = arith.settle(value)
    far = settled.numerator.bit_length() - settled.denominator.bit_length() >= LARGEST_BITS
    if far and abs(settled) > LARGEST_VALUE:
        raise ArithError(_("this value is too large"))
    return settled


def number(formula: Formula, values: Values) -> Fraction:
    """The value as a fraction in the coherent base; a date as its day count (`date.toordinal`). Raises ArithError."""
    result = exact(formula, values)
    if isinstance(result, datetime.date):
        return Fraction(result.toordinal())
    assert isinstance(result, Fraction)
    return result


def holds(formula: Formula, values: Values) -> bool:
    """Whether a condition holds for one variant. Raises ArithError where a side has no value."""
    return bool(exact(formula, values))


def _value(node: Node, values: Values) -> Any:
    match node:
        case Name():
            name = node.path[0] if len(node.path) == 1 else ".".join(node.path)
            return values[name] if name in values else _named(meaning(node, values), values)
        case Operation():
            return _worked(node.sign, _value(node.left, values), _value(node.right, values))
        case Numeral() | Text():
            return node.value
        case Call():
            return _called(node.function, [_value(argument, values) for argument in node.arguments])
        case Comparison():
            return compare(node.signs, [_value(side, values) for side in node.sides])
        case Negative():
            return -_value(node.of, values)
        case Every():
            return all(_value(part, values) for part in node.parts)


def _named(found: Meaning, values: Values) -> Any:
    value: Any = values[found.name]
    if found.side:
        value = getattr(value, found.side)
    return value if found.unit is None else in_unit(value, found.unit)


def in_unit(value: Num, unit: Unit) -> Num:
    """The plain number of a base value in a unit; works for fractions and arrays alike."""
    if not arith.is_array(value):
        return unit.from_base(value)
    moved = value - unit.shift if unit.shift else value
    return moved if unit.scale == 1 else moved / unit.scale


def _worked(sign: str, left: Num, right: Num) -> Num:
    try:
        match sign:
            case "+":
                result = left + right
            case "-":
                result = left - right
            case "*":
                result = left * right
            case "/":
                result = left / right
            case _:
                result = _power(left, right)
    except ZeroDivisionError as error:
        raise ArithError(_("this divides by zero")) from error
    except OverflowError as error:
        raise ArithError(_("this value is too large")) from error
    if isinstance(result, float) and not math.isfinite(result):
        raise ArithError(_("this value is too large"))
    return result


def _power(base: Num, exponent: Num) -> Num:
    if abs(exponent) > LARGEST_POWER:
        raise ArithError(_("this power is too large"))
    if isinstance(exponent, Fraction) and exponent.denominator == 1:
        exponent = exponent.numerator
    elif base < 0:
        raise ArithError(_("a broken power of a negative number has no value"))
    return arith.power(base, exponent)


def compare(signs: tuple[str, ...], sides: list[Any]) -> bool:
    """Whether all comparisons of neighbouring sides hold; floats are settled first."""
    settled = [arith.settle(side) if isinstance(side, float) else side for side in sides]
    return all(map(_holds, signs, settled, settled[1:]))


def _holds(sign: str, left: Any, right: Any) -> Any:
    return COMPARE[sign](left, right)


COMPARE: dict[str, Callable[[Any, Any], Any]] = {
    "<": operator.lt,
    "<=": operator.le,
    ">": operator.gt,
    ">=": operator.ge,
    "==": operator.eq,
    "!=": operator.ne,
}


def _called(name: str, arguments: list[Any]) -> Any:
    if name in SUMS:
        return _summed(SUMS[name], arguments)
    match name:
        case "pi":
            return arith.pi
        case "ceil" | "floor":
            _refuse_near(arguments[0], ONE, NOTHING)
        case "nearest":
            if arith.settle(arguments[1]) <= 0:
                raise ArithError(_("a step is above 0"))
            _refuse_near(arguments[0], arith.settle(arguments[1]), HALF)
        case "next_up" | "at_least":
            for bound in arguments[1:]:
                _refuse_beside(arguments[0], bound)
    helper: Callable[..., Any] = getattr(arith, name)
    return helper(*arguments)


def _refuse_near(value: Num, step: Fraction, shift: Fraction) -> None:
    """Refuse a float within 1e-9 of where it would go the other way; exact values are never refused."""
    if not isinstance(value, float):
        return
    count = arith.settle(value) / step + shift
    gap = abs(count - round(count))
    if gap <= Fraction(EDGE) * max(Fraction(1), abs(count)):
        raise NearStep(_("this value lies too near a step"))


def _refuse_beside(value: Num, bound: Num) -> None:
    if not (isinstance(value, float) or isinstance(bound, float)):
        return
    left, right = arith.settle(value), arith.settle(bound)
    if abs(left - right) <= Fraction(EDGE) * max(abs(left), abs(right)):
        raise NearStep(_("this value lies too near a step"))


def _summed(one: Sum, arguments: list[Any]) -> Any:
    result = one.function(*arguments)
    if one.stepped:
        _refuse_jump(one, arguments, result)
    return result


def _refuse_jump(one: Sum, arguments: list[Any], result: Num) -> None:
    """Refuse a stepped sum of floats where a change of 1e-9 in one of them makes it jump."""
    for index, argument in enumerate(arguments):
        if not isinstance(argument, float):
            continue
        for factor in (1 - EDGE, 1 + EDGE):
            moved = [*arguments[:index], argument * factor, *arguments[index + 1 :]]
            if abs(one.function(*moved) - result) > JUMP * abs(result):
                raise NearStep(_("this value lies too near a step"))


ONE, NOTHING, HALF = Fraction(1), Fraction(0), Fraction(1, 2)

JUMP = 1e-6
"""A relative change that no smooth sum makes when one of its values changes by 1e-9."""
