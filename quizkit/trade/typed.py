"""A value for a sum as it is typed at the bench: a quantity, a ratio with its basis, a date."""

import datetime
import re
from dataclasses import dataclass
from fractions import Fraction

from quizkit.arith import Num
from quizkit.units import DATE, PLAIN, Kind, Unit, UnitError, kind, number, quantity
from quizkit.words import _


@dataclass(frozen=True, slots=True)
class Ratio:
    """A ratio a:b, base named first; bodies of sums use its sides."""

    a: Num
    b: Num
    basis: str
    """"volume" or "weight"."""


@dataclass(frozen=True, slots=True)
class Typed:
    """A value in the coherent base with how it was typed, its kind and its unit (plain for a ratio and a date)."""

    text: str
    value: Num
    kind: Kind
    unit: Unit = PLAIN


_RATIO = re.compile(r"(?P<a>[^:]+?)(?::| to )(?P<b>[^:]+?)(?: by (?P<basis>volume|weight))?", re.IGNORECASE)
_PLAIN_OUNCE = re.compile(r"(?<!fl )(?<!fluid )\b(oz|ounces?)\b", re.IGNORECASE)


def read(word: str, text: str) -> Typed:
    """Read one typed value for an argument of this kind word ("volume", "ratio", "date", "months" …).

    Raises UnitError for what cannot be read, and for a plain 'oz', which may be mass or fluid.
    """
    tidy = " ".join(text.split())
    if word == "date":
        return _date(tidy)
    if word.startswith("ratio"):
        return _ratio(tidy, word)
    if word == "months":
        tidy = re.sub(r" ?months?$", "", tidy)
    if _PLAIN_OUNCE.search(tidy):
        raise UnitError(_("'oz' may be a mass or a fluid ounce"), _("write 'fl oz', or the mass in g"), "fl oz")
    taken = quantity(tidy)
    return Typed(tidy, taken.value, taken.unit.kind, taken.unit)


def _date(text: str) -> Typed:
    try:
        return Typed(text, datetime.date.fromisoformat(text), DATE)
    except ValueError:
        raise UnitError(
            _("'{text}' is no date").format(text=text[:20]), _("write year-month-day: 2026-05-31")
        ) from None


def _ratio(text: str, word: str) -> Typed:
    found = _RATIO.fullmatch(text)
    if found is None:
        raise UnitError(_("'{text}' is no ratio").format(text=text[:20]), _("write '10:1 by volume'"))
    if found["basis"] is None:
        raise UnitError(_("a ratio says by volume or by weight"), _basis_to_write(word).format(text=text))
    a, b = _side(found["a"]), _side(found["b"])
    basis = found["basis"].lower()
    return Typed(text, Ratio(a, b, basis), kind(f"ratio by {basis}"))


def _basis_to_write(word: str) -> str:
    """What to write after a ratio without a basis: which one it is, the data sheet says and nobody guesses."""
    if word == "ratio by volume":
        return _("the data sheet says which. If it is by volume, write '{text} by volume'")
    return _("the data sheet says which: write '{text} by volume' or '{text} by weight'")


def _side(text: str) -> Fraction:
    value, _style, left = number(text)
    if left or value <= 0:
        raise UnitError(_("'{text}' is no side of a ratio").format(text=text[:20]), _("both sides are numbers above 0"))
    return value
