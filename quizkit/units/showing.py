"""Values as a person reads them: in a unit, to a step or to some digits, with the shop's decimal mark."""

from fractions import Fraction

from quizkit.arith import nearest
from quizkit.units.declared import PLURALS, Unit


def show(
    value: Fraction,
    unit: Unit,
    *,
    step: Fraction | None = None,
    digits: int | None = None,
    mark: str = ".",
    fraction: bool = False,
) -> str:
    """A base value as a person reads it in a unit: "2.40 mL", "1/2 in", "$23.40"; halves go away from zero.

    `value` and `step` (the rounding step) are in the coherent base; `digits` are significant digits; with neither, all
    digits of a value that ends, else six. `mark` is the decimal mark; `fraction` writes "2 1/2" instead of "2.5".
    """
    plain = unit.from_base(value)
    if step is not None:
        size = step / unit.factor
        plain = nearest(plain, size)
        text = _fraction_text(plain) if fraction else _fixed(plain, _places(size))
    elif unit.symbol == "$" and digits is None:
        text = _fixed(plain, 2 if _places(plain) <= 2 else 4)
    elif fraction:
        text = _fraction_text(plain)
    else:
        text = _significant(plain, digits)
    return _dressed(text.replace(".", mark), plain, unit)


def _dressed(text: str, plain: Fraction, unit: Unit) -> str:
    """The number with its unit before or behind."""
    symbol = unit.symbol
    if symbol.startswith("$"):
        return ("-$" + text[1:] if text.startswith("-") else "$" + text) + symbol[1:]
    if symbol in PLURALS and not 0 < abs(plain) <= 1:
        symbol = PLURALS[symbol]
    return f"{text} {symbol}" if symbol else text


def _places(value: Fraction) -> int:
    """Decimal places that a number needs, 12 at most for one that does not end."""
    for places in range(12):
        if (value * 10**places).denominator == 1:
            return places
    return 12


def _fixed(value: Fraction, places: int) -> str:
    count = int(nearest(value * 10**places, 1))
    figures = str(abs(count)).rjust(places + 1, "0")
    text = f"{figures[:-places]}.{figures[-places:]}" if places else figures
    return f"-{text}" if count < 0 else text


def _significant(value: Fraction, digits: int | None) -> str:
    if value == 0:
        return "0"
    if digits is None and _places(value) < 12:
        return _fixed(value, _places(value))
    wanted = digits or 6
    places = wanted - 1 - _exponent(value)
    rounded = nearest(value, Fraction(10) ** -places)
    places = wanted - 1 - _exponent(rounded)
    return _fixed(rounded, max(places, 0))


def _exponent(value: Fraction) -> int:
    """The power of ten of the leading digit."""
    size = abs(value)
    guess = len(str(size.numerator)) - len(str(size.denominator))
    return guess if size >= Fraction(10) ** guess else guess - 1


def _fraction_text(value: Fraction) -> str:
    sign = "-" if value < 0 else ""
    whole, part = divmod(abs(value), 1)
    if not part:
        return f"{sign}{whole}"
    return f"{sign}{whole} {part}" if whole else f"{sign}{part}"
