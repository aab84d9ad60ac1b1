"""What a single setting may hold: one small reader a kind of value, each refusing with a mend."""

from __future__ import annotations

import re
from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction
from itertools import pairwise
from typing import Any
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError, available_timezones

from quizkit.authoring.keys import BadValue
from quizkit.authoring.nearest import did_you_mean
from quizkit.pack.scheme import Period, PeriodUnit
from quizkit.words import _

_UNITS: dict[str, PeriodUnit] = {
    "h": "hours",
    "hour": "hours",
    "hours": "hours",
    "day": "days",
    "days": "days",
    "week": "weeks",
    "weeks": "weeks",
    "month": "months",
    "months": "months",
    "year": "years",
    "years": "years",
}
_PERIOD = re.compile(r"(\d{1,5}) ?([a-z]+)")
_PERCENT = re.compile(r"(\d{1,4}(?:\.\d{1,6})?) ?%")
_MONEY = re.compile(r"\$(\d{1,9}(?:\.\d{1,2})?)")
_RATIO = re.compile(r"(\d{1,4}(?:\.\d{1,3})?):(\d{1,4}(?:\.\d{1,3})?) by (volume|weight)")


def text(value: Any) -> str:
    """Words on one line, at most 300 characters, not empty."""
    if not isinstance(value, str) or not value.strip():
        raise BadValue(_("must be words"), _('write them in double quotes, like "this"'))
    if len(value) > 300 or "\n" in value:
        raise BadValue(_("must be one line of at most 300 characters"), _("shorten it"))
    return value.strip()


def flag(value: Any) -> bool:
    """True or false."""
    if not isinstance(value, bool):
        raise BadValue(_("must be true or false"), _("write true or false, without quotes"))
    return value


def whole(least: int, most: int) -> Callable[[Any], int]:
    """A whole number within bounds, both in."""

    def read(value: Any) -> int:
        if isinstance(value, bool) or not isinstance(value, int) or not least <= value <= most:
            raise BadValue(
                _("must be a whole number from {least} to {most}").format(least=least, most=most),
                _("write it in digits, without quotes"),
            )
        return value

    return read


def chance(value: Any) -> Fraction:
    """A number from 0 to 1, kept exactly as typed."""
    good = isinstance(value, int | Decimal) and not isinstance(value, bool)
    if good and isinstance(value, Decimal):
        good = value.is_finite() and len(value.as_tuple().digits) <= 30 and abs(value.adjusted()) <= 30
    if not good or not 0 <= value <= 1:
        raise BadValue(_("must be a number from 0 to 1"), _("write it in digits, like 0.8"))
    return Fraction(value)


def pass_mark(value: Any) -> Fraction:
    """A share of the marks: over 0, at most 1."""
    share = chance(value)
    if share == 0:
        raise BadValue(_("must be over 0"), _("with 0 everyone passes; write it like 0.8"))
    return share


def percent(value: Any) -> Fraction:
    """A percentage in quotes, as a fraction of 1."""
    found = _PERCENT.fullmatch(value.strip()) if isinstance(value, str) else None
    if found is None:
        raise BadValue(_("must be a percentage"), _('write it like "8.25 %"'))
    return Fraction(found[1]) / 100


def money(value: Any) -> Fraction:
    """An amount in the shop's currency, to the cent."""
    found = _MONEY.fullmatch(value.strip()) if isinstance(value, str) else None
    if found is None:
        raise BadValue(_("must be an amount of money"), _('write it like "$7.50"'))
    return Fraction(found[1])


def period(value: Any) -> Period:
    """Hours, days, weeks, months or years, at least one."""
    found = _PERIOD.fullmatch(value.strip()) if isinstance(value, str) else None
    unit = _UNITS.get(found[2]) if found else None
    if found is None or unit is None or int(found[1]) == 0:
        raise BadValue(_("must be a time"), _('write it like "24 h", "7 days", "12 months" or "2 years"'))
    return Period(int(found[1]), unit)


def validity(value: Any) -> Period:
    """A time in days or longer, since a validity ends with a day."""
    found = period(value)
    if found.unit == "hours":
        raise BadValue(_("must be in days or longer"), _('write it like "12 months"'))
    return found


def growing(value: Any) -> tuple[Period, ...]:
    """A list of times in one unit or more, each longer than the one before."""
    if not isinstance(value, list) or not value:
        raise BadValue(_("must be a list of times"), _('write it like ["2 days", "7 days"]'))
    periods = tuple(period(item) for item in value)
    lengths = [_days(item) for item in periods]
    if any(a >= b for a, b in pairwise(lengths)):
        raise BadValue(_("must grow from one time to the next"), _("put the shorter ones first"))
    return periods


def _days(value: Period) -> Fraction:
    days = {
        "hours": Fraction(1, 24),
        "days": Fraction(1),
        "weeks": Fraction(7),
        "months": Fraction(30),
        "years": Fraction(365),
    }
    return value.count * days[value.unit]


def name(value: Any) -> str:
    """An id: small letters, digits and dashes."""
    if not isinstance(value, str) or not re.fullmatch(r"[a-z][a-z0-9-]{0,59}", value):
        raise BadValue(_("must be an id"), _("an id has small letters, digits and dashes, and begins with a letter"))
    return value


def names(value: Any) -> tuple[str, ...]:
    """A list of ids, each once."""
    if not isinstance(value, list):
        raise BadValue(_("must be a list of ids"), _('write it like ["ppe", "balancing"]'))
    found = tuple(name(item) for item in value)
    if len(set(found)) < len(found):
        raise BadValue(_("names one id twice"), _("delete one of the two"))
    return found


def some_names(value: Any) -> tuple[str, ...]:
    """A list of ids with at least one in it."""
    found = names(value)
    if not found:
        raise BadValue(_("names nothing"), _('write it like ["ppe", "balancing"]'))
    return found


def one_of(*words: str) -> Callable[[Any], str]:
    """One of a few words."""

    def read(value: Any) -> str:
        if value not in words:
            listed = ", ".join(f'"{word}"' for word in words)
            raise BadValue(_("must be one of {words}").format(words=listed), did_you_mean(str(value)[:60], words))
        return str(value)

    return read


def currency(value: Any) -> str:
    """Three capital letters of ISO 4217."""
    if not isinstance(value, str) or not re.fullmatch("[A-Z]{3}", value):
        raise BadValue(_("must be a currency's three letters"), _('write it like "USD" or "CAD"'))
    return value


def language(value: Any) -> str:
    """A language's short tag."""
    if not isinstance(value, str) or not re.fullmatch("[a-z]{2,3}(-[A-Z]{2})?", value):
        raise BadValue(_("must be a language's short name"), _('write it like "en" or "es"'))
    return value


def zone(value: Any) -> str:
    """The name of a time zone that this machine or `tzdata` knows."""
    try:
        if isinstance(value, str) and value and "\0" not in value:
            ZoneInfo(value)
            return value
    except (ZoneInfoNotFoundError, ValueError, OSError):
        pass
    near = did_you_mean(value, available_timezones()) if isinstance(value, str) else ""
    raise BadValue(_("must be the name of a time zone"), near or _('write it like "America/Denver"'))


def address(value: Any) -> str:
    """The shop's own page, over https, or empty."""
    if value == "":
        return ""
    if not isinstance(value, str) or not re.fullmatch(r"https://[^\s/\"'<>]+(/[^\s\"'<>]*)?", value):
        raise BadValue(_("must be a web address"), _('write it like "https://example.org/check"'))
    return value.rstrip("/")


def ratio(value: Any) -> str:
    """A mixing ratio with its basis."""
    found = _RATIO.fullmatch(value.strip()) if isinstance(value, str) else None
    if found is None or 0 in (Fraction(found[1]), Fraction(found[2])):
        raise BadValue(_("must be a ratio with its basis"), _('write it like "2:1 by volume"'))
    return found[0]
