"""Units and quantities read from text by a small grammar over the declared list: hostile text is refused at once."""

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from quizkit.units.declared import PLAIN, Unit, known, nearest_known
from quizkit.units.kinds import DIFFERENCE, TEMPERATURE
from quizkit.words import _

LONGEST_TEXT = 200
LARGEST_EXPONENT = 30
LARGEST_UNIT_POWER = 6
MOST_ATOMS = 6
_APART = "apart"


class UnitError(ValueError):
    """A text that is no unit or quantity of ours: `what` is wrong, how to `mend` it, the `nearest` known unit or ""."""

    def __init__(self, what: str, mend: str = "", nearest: str = "") -> None:
        super().__init__(what)
        self.what = what
        self.mend = mend
        self.nearest = nearest


_POWERS = {"²": 2, "³": 3}
_ATOM = re.compile(
    r"(?P<name>.*?)(?:\s*\^\s*(?P<caret>-?[0-9])|(?P<raised>[²³])|(?<=[a-zA-Z])(?P<plain>[23]))?\Z", re.S
)


def _atom(text: str) -> tuple[str, Unit]:
    """One piece between the joining signs: its symbol and its unit, power taken in."""
    whole = known(text)
    if whole is not None:
        return whole.symbol, whole
    found = _ATOM.match(text)
    name = found["name"] if found else text
    base = known(name)
    if base is None or found is None:
        raise _unknown(text)
    power = int(found["caret"] or found["plain"] or _POWERS.get(found["raised"] or "", 1))
    if not 1 <= abs(power) <= LARGEST_UNIT_POWER:
        raise UnitError(_("the power {power} is out of range").format(power=power), _("use 1 to 6"))
    mark = {1: "", 2: "²", 3: "³"}.get(power, f"^{power}")
    flat = _flat(base)
    return base.symbol + mark, Unit(base.symbol + mark, flat.kind.power(power), flat.factor**power)


def is_unit(word: str) -> bool:
    """Whether a single word is a unit, with or without a power; no nearest one is looked for."""
    found = _ATOM.match(word)
    return known(word) is not None or (found is not None and known(found["name"]) is not None)


def _unknown(text: str) -> UnitError:
    near = nearest_known(text)
    shown = text if len(text) <= 20 else text[:20] + "…"
    mend = _("did you mean '{unit}'?").format(unit=near) if near else _("write a unit such as mL, mm, psi, g or min")
    return UnitError(_("'{text}' is no unit known here").format(text=shown), mend, near)


def _flat(one: Unit) -> Unit:
    """The unit as a part of a compound, where a temperature is a difference."""
    return Unit(one.symbol, DIFFERENCE, one.factor) if one.kind == TEMPERATURE else one


@lru_cache(maxsize=2048)
def unit(text: str) -> Unit:
    """The unit that a text names: "mL", "mg/m3", "Pa·s", "fl oz", "°C apart"; "" is the unit of plain numbers.

    Atoms of the declared list, joined by / * · or 'per' and read from left to right, with powers ² ³ ^2.
    Raises UnitError, with the nearest known unit.
    """
    tidy = " ".join(text.split())
    if not tidy:
        return PLAIN
    if len(tidy) > LONGEST_TEXT:
        raise UnitError(_("this unit is too long"), _("at most {n} characters").format(n=LONGEST_TEXT))
    if tidy.casefold().endswith(" " + _APART):
        return _apart(tidy[: -len(_APART)].rstrip())
    pieces = re.split(r"\s*([/*·×]|\bper\b)\s*", tidy)
    if len(pieces) > 2 * MOST_ATOMS:
        raise UnitError(_("this unit has too many parts"), _("at most {n} parts").format(n=MOST_ATOMS))
    if len(pieces) == 1:
        return _atom(tidy)[1]
    return _compound(pieces)


def _apart(text: str) -> Unit:
    base = known(text)
    if base is None or base.kind != TEMPERATURE:
        raise UnitError(_("'apart' goes with a temperature"), _("write '10 °C apart'"))
    return Unit(f"{base.symbol} {_APART}", DIFFERENCE, base.factor)


def _compound(pieces: list[str]) -> Unit:
    first, rest = pieces[0], pieces[1:]
    symbol, one = ("1", PLAIN) if first in ("", "1") else _atom(first)
    kind_so_far, factor = _flat(one).kind, one.factor
    for sign, piece in zip(rest[::2], rest[1::2], strict=True):
        name, part = _atom(piece)
        part = _flat(part)
        if sign in ("/", "per"):
            symbol, kind_so_far, factor = f"{symbol}/{name}", kind_so_far.over(part.kind), factor / part.factor
        else:
            symbol, kind_so_far, factor = f"{symbol}·{name}", kind_so_far.times(part.kind), factor * part.factor
    return Unit(symbol, kind_so_far, factor)


@dataclass(frozen=True, slots=True)
class Quantity:
    """An author's number with its unit: the exact value in the coherent base, and how it was written."""

    value: Fraction
    unit: Unit
    text: str
    """As typed, spaces tidied."""
    style: str
    """"decimal" or "fraction": how it was written, so that values between it and another can be shown alike."""


_VULGAR = {"½": "1/2", "⅓": "1/3", "⅔": "2/3", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"}
_NUMBER = re.compile(
    r"(?:(?:(?P<whole>\d+) )?(?P<top>\d+)/(?P<under>\d+)"
    r"|(?P<grouped>\d{1,3}(?:,\d{3})+(?:\.\d+)?)"
    r"|(?P<decimal>(?:\d+(?:\.\d*)?|\.\d+)(?:[eE](?P<exponent>[+-]?\d+))?))",
    re.ASCII,
)


def number(text: str) -> tuple[Fraction, str, str]:
    """The number that a text begins with: its exact value, its style, and what is left of the text.

    Forms: 2.4, .5, 1/2, 2 1/2, 2½, 1.2e3, 1,250.00, with a sign (hyphen or true minus). Raises UnitError.
    """
    rest = text.replace("−", "-").strip()
    sign = -1 if rest.startswith("-") else 1
    rest = re.sub(r"\A[+-] ?", "", rest)
    for mark, plain in _VULGAR.items() if not rest.isascii() else ():
        rest = re.sub(rf"(\d) ?{mark}", rf"\1 {plain}", rest, count=1) if mark in rest else rest
        rest = rest.replace(mark, plain, 1)
    found = _NUMBER.match(rest)
    if found is None or found.end() > 60 or abs(int(found["exponent"] or 0)) > LARGEST_EXPONENT:
        raise UnitError(
            _("'{text}' does not begin with a number").format(text=text[:20]), _("write '60 mL' or '1/2 in'")
        )
    left = rest[found.end() :].strip()
    if found["top"] is None:
        return sign * Fraction((found["grouped"] or found["decimal"]).replace(",", "")), "decimal", left
    if int(found["under"]) == 0:
        raise UnitError(_("a fraction over zero is no number"), _("write the lower number above 0"))
    part = Fraction(int(found["top"]), int(found["under"]))
    return sign * (int(found["whole"] or 0) + part), "fraction", left


@lru_cache(maxsize=4096)
def quantity(text: str) -> Quantity:
    """An author's literal: "60 mL", "1/2 in", "2 1/2 turns", "25 %", "$14.50", "-5 %", "20 °C", "10 °C apart".

    Raises UnitError for what is no number, no known unit, or more than one number.
    """
    if len(text) > LONGEST_TEXT:
        raise UnitError(_("this value is too long"), _("at most {n} characters").format(n=LONGEST_TEXT))
    tidy = " ".join(text.split())
    found = re.match(r"([-−]?) ?\$", tidy)
    if not found:
        value, style, left = number(tidy)
        one = unit(left)
        return Quantity(one.to_base(value), one, tidy, style)
    value, style, left = number(found[1] + tidy[found.end() :].lstrip())
    if left and not left.startswith("/"):
        what = _("'{text}' after an amount of money is not understood").format(text=left[:20])
        raise UnitError(what, _("write '$14.50'"))
    one = unit("$" + left)
    return Quantity(one.to_base(value), one, tidy, style)
