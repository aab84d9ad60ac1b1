"""A typed date: year first, the month in words, or as the shop writes its short dates."""

import datetime
import re

from quizkit.scoring.numerals import NotRead
from quizkit.words import _

ORDERS = {"m/d/y": ("month", "day", "year"), "d/m/y": ("day", "month", "year")}
_MONTHS = (
    *("january", "february", "march", "april", "may", "june"),
    *("july", "august", "september", "october", "november", "december"),
)
_YEAR_FIRST = re.compile(r"(?P<year>[0-9]{4})(?P<joint>[-/.])(?P<month>[0-9]{1,2})(?P=joint)(?P<day>[0-9]{1,2})")
_DAY_FIRST = re.compile(
    r"(?P<day>[0-9]{1,2})(?:st|nd|rd|th)?\.?[ -](?:of )?(?P<word>[a-z]{3,9})\.?,?[ -](?P<year>[0-9]{4})"
)
_WORD_FIRST = re.compile(r"(?P<word>[a-z]{3,9})\.? (?P<day>[0-9]{1,2})(?:st|nd|rd|th)?,? (?P<year>[0-9]{4})")
_SHORT = re.compile(r"([0-9]{1,2})[/.-]([0-9]{1,2})[/.-]([0-9]{4})")


def read_date(text: str, order: str = "y-m-d") -> datetime.date:
    """The date of a tidy text; `order` is the shop's: "y-m-d", "m/d/y" or "d/m/y". Raises NotRead."""
    folded = text.casefold()
    found = _YEAR_FIRST.fullmatch(folded)
    if found:
        return _date(int(found["year"]), int(found["month"]), int(found["day"]))
    found = _DAY_FIRST.fullmatch(folded) or _WORD_FIRST.fullmatch(folded)
    if found:
        return _date(int(found["year"]), _month(found["word"]), int(found["day"]))
    found = _SHORT.fullmatch(folded)
    if found and order in ORDERS:
        parts = dict(zip(ORDERS[order], map(int, found.groups()), strict=True))
        return _date(parts["year"], parts["month"], parts["day"])
    if found:
        raise NotRead(_("this date can be read in two ways; type it like 2026-05-31 or 31 May 2026"))
    raise NotRead(_("this is not understood as a date; type it like 2026-05-31 or 31 May 2026"))


def _month(word: str) -> int:
    for place, name in enumerate(_MONTHS):
        if name.startswith(word):
            return place + 1
    raise NotRead(_("'{word}' is no month").format(word=word))


def _date(year: int, month: int, day: int) -> datetime.date:
    try:
        return datetime.date(year, month, day)
    except ValueError:
        raise NotRead(_("there is no such day in the calendar")) from None
