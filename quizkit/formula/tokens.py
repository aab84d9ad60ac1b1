"""The pieces that a formula may be spelled with, checked before Python's own reader sees the text.

Whatever is not on this list is refused at its place with a mend, so that the reader behind it meets only text that it
reads the way an author means it: no prefixed strings, no underscored or hexadecimal numbers, no words of a program.
"""

import keyword
import re
from typing import NamedTuple

from quizkit.formula.errors import FormulaError
from quizkit.words import _

LONGEST_FORMULA = 200
LARGEST_EXPONENT = 30

_PIECE = re.compile(
    r"""(?P<space>[ ]+)
    |(?P<number>(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]+)?)
    |(?P<name>[A-Za-z_][A-Za-z0-9_]*)
    |(?P<text>"[^"]*"|'[^']*')
    |(?P<sign>\*\*|<=|>=|==|!=|[-+*/()<>,.])""",
    re.VERBOSE,
)
_KEYWORDS = frozenset(keyword.kwlist) - {"and", "True", "False", "None"}


class Piece(NamedTuple):
    """One piece of a formula: its sort, its text and its column."""

    sort: str
    text: str
    column: int


def N_(text: str) -> str:
    """Marks a text for the catalogue where it is listed; it is looked up when it is shown."""
    return text


_MENDS = {
    "×": N_("write * for times"),
    "·": N_("write * for times"),
    "÷": N_("write / for divided by"),
    "−": N_("write the hyphen of the keyboard for minus"),
    "–": N_("write the hyphen of the keyboard for minus"),
    "^": N_("write ** for a power"),
    "²": N_("write ** 2"),
    "³": N_("write ** 3"),
    "½": N_("write 1/2"),
    "%": N_("write a percent as its fraction, 0.25 for 25 %"),
    "$": N_("put the amount of money into a given"),
    "=": N_("write == to compare"),
    "≤": N_("write <="),
    "≥": N_("write >="),
    "≠": N_("write !="),
    "π": N_("write pi"),
    "√": N_("write sqrt(…)"),
    "[": N_("formulas have parentheses ( ) only"),
    "{": N_("formulas have parentheses ( ) only"),
    "&": N_("write and"),
}


def pieces(text: str) -> list[Piece]:
    """The pieces of a formula, spaces left out. Raises FormulaError at the first character that has no place in one."""
    if len(text) > LONGEST_FORMULA:
        raise FormulaError(
            "formula-too-long",
            LONGEST_FORMULA,
            len(text) - LONGEST_FORMULA,
            _("this formula is too long"),
            _("at most {n} characters; put a part of it into a computed given").format(n=LONGEST_FORMULA),
        )
    found: list[Piece] = []
    column = 0
    before: Piece | None = None
    for match in _PIECE.finditer(text):
        if match.start() != column:
            break
        column = match.end()
        sort = match.lastgroup or ""
        if sort != "space":
            piece = Piece(sort, match[0], match.start())
            if sort != "sign":
                _check(piece, before)
            found.append(piece)
            before = piece
    if column < len(text):
        raise _stray(text[column], column)
    return found


def _stray(sign: str, column: int) -> FormulaError:
    if sign in "\"'":
        return FormulaError(
            "bad-formula", column, 1, _("this text in quotes does not end"), _("close it with the same quote")
        )
    what = _("the sign {sign} has no place in a formula").format(sign=sign if sign.isprintable() else repr(sign))
    mend = _(_MENDS[sign]) if sign in _MENDS else _("see the list of signs in the guide for authors")
    return FormulaError("bad-sign", column, 1, what, mend)


def _check(piece: Piece, before: Piece | None) -> None:
    """Refuse a number, a name or a text that runs into the one before it, or cannot stand."""
    if before is not None and before.sort != "sign" and before.column + len(before.text) == piece.column:
        raise FormulaError(
            "bad-formula",
            before.column,
            len(before.text) + len(piece.text),
            _("'{left}' and '{right}' run into each other").format(left=before.text, right=piece.text),
            _("put a sign such as * between them"),
        )
    if piece.sort == "number":
        _check_number(piece)
    elif piece.sort == "name":
        _check_word(piece, before)


def _check_number(piece: Piece) -> None:
    exponent = re.search(r"[eE]([+-]?[0-9]+)", piece.text)
    if exponent and abs(int(exponent[1])) > LARGEST_EXPONENT:
        raise FormulaError(
            "number-too-large",
            piece.column,
            len(piece.text),
            _("the exponent of this number is too large"),
            _("at most {n}").format(n=LARGEST_EXPONENT),
        )
    if re.match(r"0+[1-9]", piece.text):
        raise FormulaError(
            "bad-formula", piece.column, len(piece.text), _("a number begins with 0"), _("leave the 0 out")
        )


def _check_word(piece: Piece, before: Piece | None) -> None:
    if piece.text in _KEYWORDS and not (before is not None and before.text == "."):
        raise FormulaError(
            "bad-word",
            piece.column,
            len(piece.text),
            _("the word '{word}' has no place in a formula").format(word=piece.text),
            _("formulas have + - * / **, parentheses, names, helpers and sums"),
        )
