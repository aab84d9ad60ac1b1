"""The working of a sum in steps: the formula, the values put in, one set of units, the result."""

import datetime
import re
from collections.abc import Mapping, Sequence
from fractions import Fraction

from quizkit.arith import Num, settle
from quizkit.trade.declare import Sum
from quizkit.trade.typed import Ratio, Typed
from quizkit.units import AREA, LENGTH, MONEY, NUMBER, PLAIN, Kind, Unit, show, unit

INCH_UNITS = {"in", "ft", "yd", "mil", "in²", "ft²", "in³", "ft³"}
FINE_DIGITS = 6
"""Significant digits of a number inside the working."""
SHOWN_DIGITS = 4
"""Significant digits of a result that has more."""

_NAME = re.compile(r"[a-z][a-z_]*[0-9]*(?:\.[ab])?")
_CONSTANT_UNIT = re.compile(r"(?<=\d) (?:h|week|°C|L/mol)\b")


def expression(formula: str) -> tuple[str, str]:
    """The arithmetic of a formula and the words after it (", rounded up"): parted at the first comma at no depth."""
    depth = 0
    for at, sign in enumerate(formula):
        depth += {"(": 1, ")": -1}.get(sign, 0)
        if sign == "," and depth == 0:
            return formula[:at], formula[at:]
    return formula, ""


def put_in(one: Sum, texts: Sequence[str]) -> str:
    """The formula with a text for each value in place of its name; Σ(…) is written out over the repeated group."""
    first = len(one.takes) - one.repeats if one.repeats else len(one.takes)
    single = {name: text for (name, _word), text in zip(one.takes[:first], texts[:first], strict=True)}
    size = one.repeats or 1
    groups = [
        {name: text for (name, _word), text in zip(one.takes[first:], texts[at : at + size], strict=True)}
        for at in range(first, len(texts), size)
    ]
    arithmetic, words = expression(one.formula)
    while (start := arithmetic.find("Σ(")) >= 0:
        end = _closing(arithmetic, start + 1)
        inside = arithmetic[start + 2 : end]
        terms = " + ".join(_replaced(inside, single | group) for group in groups)
        alone = start == 0 and end + 1 == len(arithmetic)
        arithmetic = terms if alone else f"{arithmetic[:start]}({terms}){arithmetic[end + 1 :]}"
    return _replaced(arithmetic, single | (groups[0] if groups else {})) + words


def _closing(text: str, opening: int) -> int:
    depth = 0
    for at in range(opening, len(text)):
        depth += {"(": 1, ")": -1}.get(text[at], 0)
        if depth == 0:
            return at
    raise AssertionError(f"a bracket stays open in {text}")


def _replaced(text: str, values: Mapping[str, str]) -> str:
    def value(found: re.Match[str]) -> str:
        name, _dot, side = found[0].partition(".")
        if name not in values:
            return found[0]
        shown = values[name]
        if side:
            shown = re.split(r":| to | by ", shown)[0 if side == "a" else 1].strip()
        raised = found.string[found.end() : found.end() + 1] in ("²", "⁴", "^")
        return f"({shown})" if shown[:1] in "-−" or (raised and " " in shown) else shown

    return _NAME.sub(value, text)


def working_units(one: Sum, values: Sequence[Typed]) -> dict[Kind, Unit]:
    """The unit in which each kind of value is worked: the sum's own, else as the first value of the kind was typed."""
    family: tuple[str, ...] = ()
    if one.works:
        inches = any(value.unit.symbol in INCH_UNITS for value in values)
        family = one.works[-1] if inches else one.works[0]
    units = {unit(text).kind: unit(text) for text in family}
    for value in values:
        units.setdefault(value.kind, value.unit)
    units[NUMBER] = PLAIN
    if LENGTH in units and AREA not in units:
        units[AREA] = unit(units[LENGTH].symbol + "²")
    return units


def number_text(value: Num, one: Unit) -> tuple[str, bool]:
    """A value as a bare number in a unit, and whether that is rounded."""
    if isinstance(value, datetime.date):
        return value.isoformat(), False
    plain = one.from_base(settle(value))
    return _digits(plain, FINE_DIGITS)


def _digits(plain: Fraction, digits: int) -> tuple[str, bool]:
    text = show(plain, PLAIN, digits=digits)
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return text, Fraction(text) != plain


def result_text(value: Num, one: Unit) -> tuple[str, bool]:
    """A result as a person reads it, and whether that is rounded: money to the cent, else up to six digits, or four."""
    if isinstance(value, datetime.date):
        return value.isoformat(), False
    exact = settle(value)
    if one.kind == MONEY:
        cent = Fraction(1, 100)
        return show(exact, one, step=cent), (exact / cent).denominator != 1
    plain = one.from_base(exact)
    text, rounded = _digits(plain, FINE_DIGITS)
    if rounded:
        text, rounded = _digits(plain, SHOWN_DIGITS)
    return show(one.to_base(Fraction(text)), one), rounded


def result_unit(one: Sum, kind: Kind, values: Sequence[Typed]) -> Unit:
    """The unit in which a result is told if nobody asks for another."""
    if one.gives == "share":
        return unit("%")
    if one.into:
        return unit(one.into[-1] if any(value.unit.symbol in INCH_UNITS for value in values) else one.into[0])
    typed = next((value.unit for value in values if value.kind == kind), None)
    return typed or working_units(one, values).get(kind, PLAIN)


def steps(one: Sum, values: Sequence[Typed], result: Num, kind: Kind, into: Unit) -> tuple[str, ...]:
    """The working, a line a step; `result` in the coherent base, of that kind, told in the unit `into`."""
    lines = [one.formula, "= " + put_in(one, [value.text for value in values])]
    units = working_units(one, values)
    changed = _conversions(values, units)
    if changed:
        lines += [*changed, "= " + numbers_in(one, values)]
    worked = units.get(kind, into)
    if one.works and worked.symbol not in (into.symbol, ""):
        lines.append(_equals(*result_text(result, worked)))
    lines.append(_equals(*result_text(result, into)))
    return tuple(lines)


def numbers_in(one: Sum, values: Sequence[Typed]) -> str:
    """The formula with bare numbers in the working units, as one would key it into a calculator."""
    units = working_units(one, values)
    return _CONSTANT_UNIT.sub("", put_in(one, [_bare(value, units) for value in values]))


def _equals(text: str, rounded: bool) -> str:
    return f"{'≈' if rounded else '='} {text}"


def _conversions(values: Sequence[Typed], units: Mapping[Kind, Unit]) -> list[str]:
    """A line for each value that was typed in another unit than the working one."""
    lines = []
    for value in values:
        target = units.get(value.kind, value.unit)
        if not value.kind.special or value.kind.special == "point":
            text, rounded = number_text(value.value, target)
            line = f"{value.text} {'≈' if rounded else '='} {text} {target.symbol}".rstrip()
            if value.unit.symbol != target.symbol and line not in lines:
                lines.append(line)
    return lines


def _bare(value: Typed, units: Mapping[Kind, Unit]) -> str:
    if isinstance(value.value, Ratio) or value.kind.special == "date":
        return value.text
    return number_text(value.value, units[value.kind])[0]
