"""Days, months and zones: how long a validity lasts, and which day it is at a site."""

from __future__ import annotations

import calendar
import datetime as dt
from collections.abc import Iterator
from dataclasses import dataclass
from zoneinfo import ZoneInfo

from quizkit.words import _

DAY = dt.timedelta(days=1)


class CalendarError(ValueError):
    """A day outside the calendar, or a term that runs backwards; the text says which."""


@dataclass(frozen=True, slots=True)
class Term:
    """A stretch of the calendar: whole months, then whole days (24 months, 90 days)."""

    months: int = 0
    days: int = 0

    def __post_init__(self) -> None:
        if self.months < 0 or self.days < 0:
            raise CalendarError(_("a term runs forward: no month or day below 0"))


def after(start: dt.date, term: Term) -> dt.date:
    """The day a term later; where the month is too short, its last day: 31 January and a month is 28 or 29 February.

    The months are added in one step, so a month twice is not always two months. Raises CalendarError past year 9999.
    """
    year, month = divmod(start.year * 12 + start.month - 1 + term.months, 12)
    try:
        last = calendar.monthrange(year, month + 1)[1]
        return dt.date(year, month + 1, min(start.day, last)) + dt.timedelta(days=term.days)
    except (ValueError, OverflowError) as error:
        text = _("{start} and {months} months lies outside the calendar").format(start=start, months=term.months)
        raise CalendarError(text) from error


def days_after(start: dt.date, days: int) -> dt.date:
    """The day some days later (or earlier, below 0); the calendar's first or last day where it would run out."""
    try:
        return start + dt.timedelta(days=days)
    except OverflowError:
        return dt.date.max if days > 0 else dt.date.min


def local_day(moment: dt.datetime, zone: str) -> dt.date:
    """The day at a site at a moment (aware, as a rule UTC); `zone` is an IANA name."""
    return moment.astimezone(ZoneInfo(zone)).date()


def end_of_day(day: dt.date, zone: str) -> dt.datetime:
    """The last moment (UTC) of a day at a site: what had been recorded by then was known on that day."""
    midnight = dt.datetime.combine(day + DAY, dt.time(), ZoneInfo(zone))
    return midnight.astimezone(dt.UTC) - dt.timedelta(microseconds=1)


def weeks(start: dt.date, end: dt.date) -> Iterator[tuple[dt.date, dt.date]]:
    """The weeks from one day to another as first and last day; the last one ends with `end`."""
    first = start
    while first <= end:
        yield first, min(days_after(first, 6), end)
        first = days_after(first, 7)
