"""The small things that forms carry: a line of words, a day, a number."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from quizkit.shop import Refusal
from quizkit.words import _


def words(form: Mapping[str, str], name: str, most: int = 200) -> str:
    """The text of a field without the space around it, cut at `most` characters."""
    return form.get(name, "").strip()[:most]


def day(form: Mapping[str, str], name: str) -> date | None:
    """The day in a field as its picker sends it (year-month-day); None where it was left blank.

    Refuses what is no day: taken for blank, a wrong date would silently become today, or no end at all.
    """
    text = words(form, name, 40)
    if not text:
        return None
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise Refusal(_("'{text}' is no day").format(text=text), _("write it like 2026-11-25")) from None


def whole(form: Mapping[str, str], name: str) -> int | None:
    """The whole number in a field; None where there is none or it is longer than any of ours."""
    text = words(form, name, 13)
    return int(text) if text.isdecimal() and len(text) < 13 else None


def wholes(values: list[str]) -> list[int]:
    """The whole numbers among the values of a field that may come several times."""
    return [int(text) for text in values if text.isdecimal() and len(text) < 13]
