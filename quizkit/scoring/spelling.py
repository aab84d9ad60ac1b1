"""Typed text brought to plain signs: one kind of space, one minus, fractions and raised figures written out."""

import unicodedata
from functools import lru_cache

DASH = "–"
"""A dash that is no minus: before a number it is one all the same, between two it makes a range."""

_SIGNS = {
    "\u2212": "-",
    "\ufe63": "-",
    "\uff0d": "-",
    "\u2010": "-",
    "\u2011": "-",
    "\u2012": DASH,
    "\u2014": DASH,
    "\u2015": DASH,
    "\u2044": "/",
    "\u2215": "/",
    "\u2236": ":",
    "\u201c": '"',
    "\u201d": '"',
    "\u2033": '"',
    "\u2018": "'",
    "\u2019": "'",
    "\u2032": "'",
    "\u00ba": "°",
    "\u02da": "°",
    "\u22c5": "·",
    "\u2715": "×",
    "\u2062": "",
}
_DIGITS_RAISED = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁻", "0123456789-")


def tidy(text: str) -> str:
    """The text with plain signs and single spaces. What has no plain form stays and is told as not understood."""
    if text.isascii():
        return " ".join(text.split())
    plain: list[str] = []
    raised = False
    for sign in text:
        is_raised = sign in "⁰¹²³⁴⁵⁶⁷⁸⁹⁻"
        if is_raised:
            plain.append(("" if raised else "^") + sign.translate(_DIGITS_RAISED))
        else:
            plain.append(_plain(sign))
        raised = is_raised
    return " ".join("".join(plain).split())


@lru_cache(maxsize=4096)
def _plain(sign: str) -> str:
    if sign in _SIGNS:
        return _SIGNS[sign]
    sort = unicodedata.category(sign)
    if sort == "Zs":
        return " "
    if sort == "Cf":
        return ""
    decomposed = unicodedata.decomposition(sign)
    if decomposed.startswith("<fraction>"):
        return " " + unicodedata.normalize("NFKC", sign).replace("\u2044", "/")
    if decomposed.startswith(("<wide>", "<square>")) or sign in "℃℉":
        return "".join(_SIGNS.get(one, one) for one in unicodedata.normalize("NFKC", sign))
    return sign
