"""From what a person typed to a number with a unit, or to 'unread' with what was not understood.

Unread is never wrong: the person is asked again. So whatever can be read in two ways is unread.
"""

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from quizkit.scoring.dates import read_date
from quizkit.scoring.numerals import NotRead, Numeral, numeral
from quizkit.scoring.spelling import tidy
from quizkit.units import DATE, DIFFERENCE, MONEY, NUMBER, PLAIN, TEMPERATURE, Unit, UnitError, unit
from quizkit.words import _

LONGEST_ANSWER = 200
DAY_COUNT = Unit("", DATE, Fraction(1))
"""The 'unit' of an answer that is a date: its number is `date.toordinal`."""


@dataclass(frozen=True, slots=True)
class Style:
    """How the shop writes: the decimal mark, its currency (ISO 4217), the order of short dates."""

    mark: str = "."
    currency: str = "USD"
    dates: str = "y-m-d"


USUAL = Style()


@dataclass(frozen=True, slots=True)
class Reading:
    """An answer that was understood."""

    number: Fraction
    """As typed, in `unit`; a date as its day count."""
    unit: Unit
    """The unit typed, or the one beside the box for a bare number."""
    step: Fraction
    """The size of one in the last typed figure, in `unit`: 1/100 for 2.40, 1/8 for 3/8, 100 for 1.2e3."""
    text: str
    """What was typed, untouched."""
    bare: bool = False
    """Typed without a unit."""

    @property
    def value(self) -> Fraction:
        """In the coherent base."""
        return self.unit.to_base(self.number)

    def number_in(self, asked: Unit) -> Fraction:
        """The number in a unit of the same kind."""
        if self.unit is asked:
            return self.number
        return asked.from_base(self.unit.to_base(self.number))

    def step_in(self, asked: Unit) -> Fraction:
        """One in the last typed figure, in a unit of the same kind."""
        return self.step if self.unit is asked else self.step * self.unit.factor / asked.factor


@dataclass(frozen=True, slots=True)
class Unread:
    """An answer that was not understood, and why, in words for the person who typed it."""

    text: str
    why: str


def read(text: str, asked: Unit, style: Style = USUAL) -> Reading | Unread:
    """Read a typed answer to a question that asks for `asked` (`DAY_COUNT` for a date, `units.PLAIN` for a number)."""
    if len(text) > LONGEST_ANSWER:
        return Unread(text, _("this answer is too long: at most {n} characters").format(n=LONGEST_ANSWER))
    try:
        return _read(text, tidy(text), asked, style)
    except NotRead as error:
        return Unread(text, error.why)


def _read(text: str, plain: str, asked: Unit, style: Style) -> Reading:
    if not plain:
        raise NotRead(_("nothing was typed"))
    if asked.kind == DATE:
        return Reading(Fraction(read_date(plain, style.dates).toordinal()), DAY_COUNT, Fraction(1), text)
    money, plain = _money_sign(plain, asked, style)
    try:
        found = numeral(plain, style.mark)
    except NotRead:
        if any(sign.isdecimal() for sign in plain):
            raise
        raise NotRead(_("there is no number in it")) from None
    if not found.rest and not money:
        return Reading(found.value, asked, found.step, text, True)
    other = None if money else _ratio(found, style)
    if other is not None:
        return _as_ratio(text, found, other, asked)
    typed = _money_unit(found.rest) if money else _unit_behind(found.rest, asked, style)
    return Reading(found.value, _same_kind(typed, asked), found.step, text)


_MONEY_SIGN = re.compile(r"(?P<sign>[-–] ?)?(?P<mark>[A-Za-z]{2}\$|[$€£¥]|[A-Za-z]{3}(?=[ 0-9.+–-]))\ ?")
_SIGNS = {"€": "EUR", "£": "GBP", "US$": "USD", "CA$": "CAD", "AU$": "AUD", "NZ$": "NZD"}


def _money_sign(plain: str, asked: Unit, style: Style) -> tuple[bool, str]:
    """Whether the text begins with the sign or the code of the shop's currency, and the text without it."""
    if plain[0].isdecimal() or plain[0] == ".":
        return False, plain
    found = _MONEY_SIGN.match(plain)
    if found is None:
        return False, plain
    mark = found["mark"]
    code = _SIGNS.get(mark.upper(), mark.upper())
    if code not in ("$", style.currency) and not (mark == "¥" and style.currency in ("JPY", "CNY")):
        if mark.isalpha() and asked.kind != MONEY:
            return False, plain
        raise NotRead(_("the money of this shop is {currency}, not {mark}").format(currency=style.currency, mark=mark))
    return True, ("-" if found["sign"] else "") + plain[found.end() :]


def _money_unit(rest: str) -> Unit:
    if not rest:
        return unit("$")
    if not re.match(r"/|per ", rest):
        raise NotRead(_not_understood(rest))
    return _known_unit("$ " + rest)


_JOINT = re.compile(r"(?::|to\b)\ ?", re.IGNORECASE)


def _ratio(found: Numeral, style: Style) -> Numeral | None:
    """The second side of '50:1' or '50 to 1', None where there is no such joint."""
    joint = _JOINT.match(found.rest)
    return numeral(found.rest[joint.end() :], style.mark) if joint else None


def _as_ratio(text: str, first: Numeral, second: Numeral, asked: Unit) -> Reading:
    if asked.kind != NUMBER:
        raise NotRead(_("this is a range or a ratio; type one value"))
    if second.rest:
        raise NotRead(_not_understood(second.rest))
    if first.value < 0 or second.value <= 0:
        raise NotRead(_("the sides of a ratio are above 0"))
    return Reading(first.value / second.value, PLAIN, first.step / second.value, text)


def _unit_behind(rest: str, asked: Unit, style: Style) -> Unit:
    if asked.kind in (TEMPERATURE, DIFFERENCE) and rest.casefold() in ("°", "degrees", "degree", "deg"):
        return asked
    if asked.symbol == rest != "oz":
        return asked
    if asked.kind == MONEY or len(rest) == 3 or rest in _SIGNS:
        known = _currency_behind(rest, style)
        if known is not None:
            return known
    try:
        return _known_unit(rest)
    except _NoUnit as error:
        raise NotRead(f"{error.why}; {_unit_mend(error.nearest, asked)}") from None


def _unit_mend(nearest: str, asked: Unit) -> str:
    """What to type instead: the nearest unit where it is one that could be meant, else the unit beside the box."""
    if nearest and unit(nearest).kind == asked.kind:
        return _("did you mean '{unit}'?").format(unit=nearest)
    if not asked.symbol:
        return _("type the number alone")
    return _("type the number alone, or with a unit such as {unit}").format(unit=asked.symbol)


_DOLLARS = {"USD", "CAD", "AUD", "NZD", "SGD", "HKD", "BZD", "BSD", "BBD", "JMD", "TTD", "XCD", "FJD", "GYD"}


def _currency_behind(rest: str, style: Style) -> Unit | None:
    code = _SIGNS.get(rest, rest.upper())
    if code == style.currency or rest == "$":
        return unit("$")
    if code == "USD" or code in _SIGNS.values() or (code in ("DOLLAR", "DOLLARS") and style.currency not in _DOLLARS):
        raise NotRead(_("the money of this shop is {currency}, not {mark}").format(currency=style.currency, mark=rest))
    return None


_OUNCE = re.compile(r"(?<![a-z])(?:oz|ounces?)(?![a-z])")
_FLUID = re.compile(r"(?<![a-z])(?:fl|fluid|liquid) ?(?:oz|ounces?)(?![a-z])")
_BY_WEIGHT = re.compile(r"(?:oz|ounces?) (?:wt|weight|by weight|avdp)|(?:wt|weight) (?:oz|ounces?)")
_DEGREES = re.compile(r"(?:degrees?|deg)\.? ?(c|f|celsius|fahrenheit)\b")


@lru_cache(maxsize=4096)
def _known_unit(text: str) -> Unit:
    """The unit of a text behind a number. Raises NotRead, also for 'oz', which may be a volume or a weight."""
    plain = re.sub(r"(?<=[A-Za-z])\.(?= |$|[A-Za-z])", "", text).strip()
    folded = plain.casefold()
    if _BY_WEIGHT.fullmatch(folded):
        return unit("oz")
    if _OUNCE.search(folded) and not _FLUID.search(folded):
        raise NotRead(_("'oz' may be a weight or a volume; type 'oz wt' or 'fl oz'"))
    if _FLUID.search(folded):
        plain = _FLUID.sub("fl oz", folded)
    degrees = _DEGREES.match(folded)
    if degrees:
        plain = "°" + degrees[1][0].upper() + folded[degrees.end() :]
    try:
        return unit(plain)
    except UnitError as error:
        if len(plain) > 2 and plain[-1] in "sS":
            return _singular(plain[:-1], text)
        raise _no_unit(text, error) from None


def _singular(plain: str, text: str) -> Unit:
    """The unit of a plural that the list of units does not carry: 'mls', 'US gallons'."""
    try:
        return unit(plain)
    except UnitError as error:
        raise _no_unit(text, error) from None


class _NoUnit(NotRead):
    """A text that is no unit, with the nearest one for a single word."""

    def __init__(self, why: str, nearest: str) -> None:
        super().__init__(why)
        self.nearest = nearest


def _no_unit(text: str, error: UnitError) -> NotRead:
    why = _not_understood(text)
    if any(sign.isdecimal() for sign in text):
        return NotRead(why)
    return _NoUnit(why, "" if " " in text else error.nearest)


def _not_understood(rest: str) -> str:
    if any(sign.isdecimal() for sign in rest) and not re.match(r"[A-Za-z°µ%]+[23^]", rest):
        if re.match(r"[-–]|to\b|\.\.", rest):
            return _("this is a range; type one value")
        return _("two numbers were typed; type one")
    shown = rest if len(rest) <= 30 else rest[:30] + "…"
    return _("'{text}' is not understood as a unit").format(text=shown)


def _same_kind(typed: Unit, asked: Unit) -> Unit:
    if typed.kind == asked.kind:
        return typed
    if asked.kind == DIFFERENCE and typed.kind == TEMPERATURE:
        return _apart(typed)
    why = _("{unit} is {got}; the answer wants {wanted}").format(
        unit=typed.symbol, got=str(typed.kind), wanted=_wanted(asked)
    )
    raise NotRead(why)


@lru_cache(maxsize=64)
def _apart(typed: Unit) -> Unit:
    return Unit(typed.symbol, DIFFERENCE, typed.factor)


def _wanted(asked: Unit) -> str:
    return f"{asked.kind} ({asked.symbol})" if asked.symbol else str(asked.kind)
