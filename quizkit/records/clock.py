"""Moments as text, and the rule that no row is recorded before the row before it."""

from __future__ import annotations

import datetime as dt

from quizkit.records.errors import ClockSetBack
from quizkit.words import _

SLACK = dt.timedelta(seconds=30)
"""How far a deed may come behind the last row: it took its moment, then waited for others to finish writing."""


def moment_text(moment: dt.datetime) -> str:
    """An aware moment as UTC text of one width, so that the order of the texts is the order of the moments."""
    if moment.tzinfo is None:
        raise ValueError("a moment needs its zone")
    if moment.tzinfo is not dt.UTC:
        moment = moment.astimezone(dt.UTC)
    return moment.isoformat(timespec="microseconds").replace("+00:00", "Z")


def moment_of(text: str) -> dt.datetime:
    """The moment that `moment_text` wrote; raises ValueError on anything else."""
    found = dt.datetime.fromisoformat(text)  # every row has one or more, and strptime takes twenty times as long
    if found.tzinfo is not dt.UTC or moment_text(found) != text:
        raise ValueError(f"no moment: {text[:40]!r}")
    return found


def admit(now: dt.datetime, last: str) -> tuple[dt.datetime, str]:
    """The moment for a deed's rows and its text: `now`, or that of the last row (its text) if others wrote first.

    Raises ClockSetBack where `now` lies further back than any waiting explains.
    """
    text = moment_text(now)
    if text >= last:
        return now, text
    before = moment_of(last)
    if before - now <= SLACK:
        return before, last
    what = _("The clock says {now}, and the last row was recorded at {last}").format(now=text, last=last)
    raise ClockSetBack(what, _("set the clock of this machine right; nothing was written"))
