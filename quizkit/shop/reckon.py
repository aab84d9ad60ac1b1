"""The pocket calculator beside a question: typed sums of plain numbers, worked exactly."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from math import isqrt

from quizkit.scoring.numerals import NotRead, numeral
from quizkit.scoring.spelling import tidy
from quizkit.shop.refusal import Refusal
from quizkit.units import PLAIN, show
from quizkit.words import _

LONGEST = 120
"""Characters of a sum."""
DEEPEST = 20
"""Parentheses, roots and signs within each other."""
LARGEST = Fraction(10) ** 30
DIGITS = 10
"""Figures of a result that cannot be shown whole."""
GUARD = 10**40
"""What a root that never ends is worked to, relative to its size."""
PI = Fraction(314159265358979323846264338327950288419716939937510, 10**50)

_PIECE = re.compile(
    r"""\ *(?:(?P<number>[0-9]+\ +[0-9]+\ ?/\ ?[0-9]+|[0-9.,]*[0-9][.,]?(?:[eE][-+]?[0-9]+)?)
    |(?P<word>sqrt|pi)|(?P<sign>[-+*/()√π%]))""",
    re.VERBOSE | re.IGNORECASE,
)
_SIGNS = str.maketrans({"×": "*", "·": "*", "x": "*", "X": "*", "÷": "/", ":": "/", "–": "-"})


@dataclass(frozen=True, slots=True)
class _Worked:
    """A value so far, and whether it is exact."""

    value: Fraction
    exact: bool = True


def reckon(text: str, mark: str = ".") -> str:
    """Work a typed sum out: + - × ÷ * / ( ) √ sqrt π %, decimals, fractions and mixed numbers like 2 1/2.

    The result has the shop's decimal `mark`; one that was rounded has ≈ in front. Raises Refusal saying what was not
    understood, or what cannot be worked out.
    """
    if len(text) > LONGEST:
        raise Refusal(_("This sum is too long"), _("at most {n} signs; work it in two parts").format(n=LONGEST))
    reader = _Reader(_pieces(tidy(text)), mark)
    worked = reader.sum()
    reader.end()
    return _shown(worked, mark)


def _pieces(text: str) -> list[str]:
    """The numbers, words and signs of a sum in order."""
    if not text:
        raise Refusal(_("There is nothing to work out yet"), _("type a sum like 120 ÷ 10"))
    found: list[str] = []
    plain, at = text.translate(_SIGNS), 0
    while plain[at:].strip():
        piece = _PIECE.match(plain, at)
        if piece is None:
            raise _stray(text[at:].strip())
        found.append(piece[0].strip().lower())
        at = piece.end()
    return found


def _stray(rest: str) -> Refusal:
    """What to say of a text that goes on with something that is no part of a sum."""
    if rest[0] == "^":
        return Refusal(_("Powers are not worked out here"), _("type the number times itself"))
    word = re.match(r"[^\W\d_]+|.", rest)
    what = _("'{sign}' was not understood").format(sign=word[0][:20] if word else rest[0])
    return Refusal(what, _("numbers, + - × ÷ ( ) √ and π only; leave units out"))


class _Reader:
    """Reads the pieces from left to right, × and ÷ before + and -."""

    def __init__(self, pieces: list[str], mark: str) -> None:
        self._pieces, self._mark = pieces, mark
        self._at = 0
        self._depth = 0

    def sum(self) -> _Worked:
        """Terms with + and - between them."""
        left = self._product()
        while (sign := self._next()) in ("+", "-"):
            self._at += 1
            right = self._product()
            value = left.value + right.value if sign == "+" else left.value - right.value
            left = self._bounded(value, left.exact and right.exact)
        return left

    def end(self) -> None:
        """Refuse what stands behind a whole sum."""
        rest = self._next()
        if rest == ")":
            raise Refusal(_("A parenthesis is closed that was not opened"), _("take it out, or open it"))
        if rest:
            before = self._pieces[self._at - 1]
            what = _("Between '{left}' and '{right}' a sign is missing").format(left=before, right=rest)
            raise Refusal(what, _("put + - × or ÷ between them"))

    def _next(self) -> str:
        return self._pieces[self._at] if self._at < len(self._pieces) else ""

    def _product(self) -> _Worked:
        left = self._signed()
        while (sign := self._next()) in ("*", "/"):
            self._at += 1
            right = self._signed()
            if sign == "/" and not right.value:
                raise Refusal(_("Nothing can be divided by 0"), _("look at what stands behind ÷"))
            value = left.value * right.value if sign == "*" else left.value / right.value
            left = self._bounded(value, left.exact and right.exact)
        return left

    def _signed(self) -> _Worked:
        """A number, a root or a parenthesis, with the signs before it and percents behind it."""
        self._depth += 1
        if self._depth > DEEPEST:
            raise Refusal(_("This sum is nested too deep"), _("work it in two parts"))
        sign = self._next()
        if sign in ("+", "-"):
            self._at += 1
            found = self._signed()
            found = _Worked(-found.value, found.exact) if sign == "-" else found
        else:
            found = self._whole()
            while self._next() == "%":
                self._at += 1
                found = self._bounded(found.value / 100, found.exact)
        self._depth -= 1
        return found

    def _whole(self) -> _Worked:
        piece = self._next()
        self._at += 1
        if piece == "(":
            inside = self.sum()
            if self._next() != ")":
                self.end()
                raise Refusal(_("A parenthesis is not closed"), _("add a )"))
            self._at += 1
            return inside
        if piece in ("√", "sqrt"):
            self._depth += 1
            found = self._root(self._whole())
            self._depth -= 1
            return found
        if piece in ("π", "pi"):
            return _Worked(PI, False)
        if not piece or not any(sign.isdigit() for sign in piece):
            raise self._missing(piece)
        return self._bounded(self._number(piece), True)

    def _missing(self, piece: str) -> Refusal:
        if not piece:
            return Refusal(_("The sum breaks off"), _("a number is missing at its end"))
        return Refusal(_("Before '{sign}' a number is missing").format(sign=piece), _("type it in"))

    def _number(self, piece: str) -> Fraction:
        try:
            return numeral(piece, self._mark).value
        except NotRead as error:
            raise Refusal(_("'{number}' was not understood").format(number=piece), error.why) from None

    def _root(self, inside: _Worked) -> _Worked:
        if self._depth > DEEPEST:
            raise Refusal(_("This sum is nested too deep"), _("work it in two parts"))
        value = inside.value
        if value < 0:
            raise Refusal(_("A number below 0 has no square root"), _("look at what stands behind √"))
        top, under = isqrt(value.numerator), isqrt(value.denominator)
        if top * top == value.numerator and under * under == value.denominator:
            return _Worked(Fraction(top, under), inside.exact)
        scale = GUARD * value.denominator
        return _Worked(Fraction(isqrt(value.numerator * value.denominator * GUARD * GUARD), scale), False)

    def _bounded(self, value: Fraction, exact: bool) -> _Worked:
        """A value no larger, and none but 0 smaller, than is worked with here."""
        if abs(value) > LARGEST or (value and abs(value) < 1 / LARGEST):
            raise Refusal(_("The numbers get too large or too small here"), _("work it in two parts"))
        return _Worked(value, exact)


def _shown(worked: _Worked, mark: str) -> str:
    """The result whole where its decimals end soon, else rounded, with ≈ in front."""
    scaled = worked.value * 10**DIGITS
    if worked.exact and scaled.denominator == 1:
        return show(worked.value, PLAIN, step=_last(worked.value), mark=mark)
    text = show(worked.value, PLAIN, digits=DIGITS, mark=mark)
    if mark in text:
        text = text.rstrip("0").removesuffix(mark)
    return f"≈ {text}"


def _last(value: Fraction) -> Fraction:
    """The step of the last decimal of a number whose decimals end."""
    step = Fraction(1)
    while (value / step).denominator != 1:
        step /= 10
    return step
