"""Values as they stand in a text: a given as typed, an answer at its question's step, ≈ before what was rounded."""

from __future__ import annotations

import datetime
import re
from collections.abc import Mapping
from fractions import Fraction
from html import escape

from quizkit.arith import ArithError
from quizkit.formula import Formula, RatioValue, Row, exact, parse
from quizkit.formula.values import Value
from quizkit.pack.figures import FIGURES
from quizkit.pack.model import Numeric, Question
from quizkit.pack.nodes import Element
from quizkit.scoring.reading import Style
from quizkit.units import PLAIN, Unit, show, unit
from quizkit.words import _

DIGITS = 3
"""Significant digits of a worked value that names no step."""
CENT = Fraction(1, 100)
LARGEST_WHOLE = 10**6
"""Whole numbers below this are shown whole."""
GUARD = 12
"""Digits by which a figure's plain numbers are written."""
APART = " apart"
_BOTH_SIGNS = re.compile(r'= (<span class="value">≈)')


def amount(
    value: Fraction,
    shown_in: Unit,
    style: Style,
    *,
    step: Fraction | None = None,
    digits: int | None = None,
    fraction: bool = False,
) -> str:
    """A number of the coherent base in a unit, with the shop's decimal mark and currency."""
    text = show(value, shown_in, step=step, digits=digits, mark=style.mark, fraction=fraction)
    if style.currency != "USD" and shown_in.symbol.startswith("$"):
        return re.sub(r"^(-?)\$([0-9.,]+)", rf"\1\2 {style.currency}", text)
    return text


def day(value: datetime.date) -> str:
    """A date that nobody reads the other way round: 31 May 2026."""
    return f"{value.day} {value:%b} {value.year}"


def other(value: Value) -> str:
    """A value that is no amount: a ratio with its basis, a date, a material's name, a text."""
    match value:
        case datetime.date():
            return day(value)
        case RatioValue():
            return f"{_plain(value.a)}:{_plain(value.b)} by {value.basis}"
        case Row():
            return value.name
        case _:
            return str(value)


def _plain(value: Fraction) -> str:
    return show(value, PLAIN)


def right_answer(part: Numeric, value: Fraction, style: Style) -> str:
    """The right answer to a part as it is told: in its unit, at its question's step. `value` is in the base."""
    if part.date:
        return day(datetime.date.fromordinal(int(value)))
    asked = unit(part.unit) if part.unit else PLAIN
    if part.shown is None:
        return amount(value, asked, style, fraction=part.fraction)
    text = amount(value, asked, style, step=part.shown * asked.factor, fraction=part.fraction).removesuffix(APART)
    return text if _whole(value, asked, part.shown) else f"≈ {text}"


def one_sign(html: str) -> str:
    """A text in which no '=' stands before the ≈ of a rounded value."""
    return _BOTH_SIGNS.sub(r"\1", html)


def hint(part: Numeric, style: Style) -> str:
    """How an answer is to be given, in words; empty where any rounding within reason will do."""
    if part.date:
        return _("a date, like 31 May 2026")
    if part.tolerance.exact:
        return _("exactly")
    if part.tolerance.cent:
        return _("to the cent")
    if part.tolerance.step is None:
        return ""
    asked = unit(part.unit) if part.unit else PLAIN
    step = amount(part.tolerance.step * asked.factor, _flat(asked), style, fraction=part.fraction)
    return _("to {step}").format(step=step)


def _flat(asked: Unit) -> Unit:
    """The unit of a difference of two values, as a step is one."""
    return Unit(asked.symbol, asked.kind, asked.factor)


def _whole(value: Fraction, asked: Unit, step: Fraction) -> bool:
    """Whether a base value stands on a step of the asked unit, so that nothing is lost in showing it."""
    return (asked.from_base(value) / step).denominator == 1


class Fill:
    """Puts the values of a variant in place of the `value` and `figure` elements of its texts."""

    def __init__(self, question: Question, values: Mapping[str, Value], style: Style) -> None:
        self._values = values
        self._style = style
        self._givens = {given.name: given for given in question.givens}
        self._parts = {part.name: part for part in question.parts if isinstance(part, Numeric)}

    def __call__(self, element: Element) -> str:
        """The HTML of one element of our own."""
        if element.tag == "value":
            return f'<span class="value">{escape(self.words(element))}</span>'
        if element.tag == "figure":
            return placeholder(element.get("name"), self._arguments(element))
        return ""

    def words(self, element: Element) -> str:
        """What a `value` element says, in plain text."""
        formula = parse(element.get("formula"))
        value = self._worked(formula)
        if not isinstance(value, Fraction):
            return other(value)
        name = element.get("formula").strip()
        if not element.get("unit") and name in self._parts:
            return right_answer(self._parts[name], value, self._style)
        if name in self._givens and not element.get("step"):
            return self._given(name, value, element.get("unit"))
        shown_in = unit(element.get("unit")) if element.get("unit") else PLAIN
        if "." in name and not element.get("step") and name in self._values:
            return amount(value, shown_in, self._style)
        step = Fraction(element.get("step")) if element.get("step") else None
        return self._rounded(value, shown_in, step, element.get("style") == "fraction")

    def _given(self, name: str, value: Fraction, asked: str) -> str:
        given = self._givens[name]
        shown_in = unit(asked) if asked else given.unit or PLAIN
        return amount(value, shown_in, self._style, fraction=given.style == "fraction")

    def _rounded(self, value: Fraction, shown_in: Unit, step: Fraction | None, fraction: bool) -> str:
        if step is None and shown_in.symbol == "$":
            step = CENT
        if step is not None:
            text = amount(value, shown_in, self._style, step=step * shown_in.factor, fraction=fraction)
            return text if _whole(value, shown_in, step) else f"≈ {text}"
        plain = shown_in.from_base(value)
        if plain.denominator == 1 and abs(plain) < LARGEST_WHOLE:
            return amount(value, shown_in, self._style)
        text = amount(value, shown_in, self._style, digits=DIGITS)
        return text if _ends_within(plain) else f"≈ {text}"

    def _worked(self, formula: Formula) -> Value:
        name = formula.text.strip()
        if name in self._values:
            return self._values[name]
        value = exact(formula, self._values)
        if value is None or isinstance(value, bool):
            raise ArithError(_("{name} shows no value").format(name=name))
        return value

    def _arguments(self, element: Element) -> list[str]:
        texts = [text for key, text in element.attrs if key == "arg"]
        numbers = []
        for text, (_parameter, symbol) in zip(texts, FIGURES[element.get("name")], strict=True):
            formula = parse(text)
            value = self._worked(formula)
            assert isinstance(value, Fraction)
            asked = unit(symbol) if symbol else PLAIN
            numbers.append(plain_number(value if not formula.names else asked.from_base(value)))
        return numbers


def _ends_within(plain: Fraction) -> bool:
    """Whether a number has no more significant digits than are shown."""
    if plain == 0:
        return True
    size = abs(plain)
    exponent = len(str(size.numerator)) - len(str(size.denominator))
    exponent -= size < Fraction(10) ** exponent
    return (size / Fraction(10) ** (exponent - DIGITS + 1)).denominator == 1


def plain_number(value: Fraction) -> str:
    """A number for a figure: its decimals, twelve significant digits at most."""
    return show(value, PLAIN) if value.denominator == 1 else f"{float(value):.{GUARD}g}"


def placeholder(name: str, numbers: list[str]) -> str:
    """Where a figure stands in a text; a face that draws puts the picture in its place."""
    return f'<figure data-figure="{escape(name)}" data-values="{" ".join(numbers)}"></figure>'


def lesson_figure(element: Element) -> str:
    """The place of a figure outside a question, whose arguments are plain numbers in the figure's own units."""
    if element.tag != "figure":
        return ""
    numbers = [exact(parse(text), {}) for key, text in element.attrs if key == "arg"]
    return placeholder(
        element.get("name"), [plain_number(number) for number in numbers if isinstance(number, Fraction)]
    )
