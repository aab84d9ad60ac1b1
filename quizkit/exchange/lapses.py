"""A calendar of lapses (RFC 5545): one all-day event a clearance, with a word a month before."""

from __future__ import annotations

import datetime as dt
import uuid
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from quizkit.words import _

LONGEST_LINE = 75
"""Octets of a line before it is folded (RFC 5545, 3.1)."""
DAYS_BEFORE = 30
_UIDS = uuid.UUID("7d6d0b0e-54a4-5f0f-9d0c-3f6b8d1f6a51")
_ESCAPED = str.maketrans({"\\": "\\\\", ";": "\\;", ",": "\\,", "\n": "\\n", "\r": None})


@dataclass(frozen=True, slots=True)
class Lapse:
    """The day on which somebody's clearance lapses. `key` names it for good, so that a renewal moves its event."""

    key: str
    day: dt.date
    summary: str
    description: str = ""


def calendar(lapses: Iterable[Lapse], *, name: str, now: dt.datetime) -> bytes | None:
    """The events as one calendar file; None for no lapses, since a calendar without an event is not legal.

    `now` (aware) stamps them.
    """
    events = sorted(lapses, key=lambda lapse: (lapse.day, lapse.key))
    if not events:
        return None
    stamp = now.astimezone(dt.UTC).strftime("%Y%m%dT%H%M%SZ")
    lines = ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//quizkit//lapses//EN", f"X-WR-CALNAME:{escaped(name)}"]
    for event in events:
        lines += _event(event, stamp)
    return "".join(f"{folded(line)}\r\n" for line in [*lines, "END:VCALENDAR"]).encode("utf-8", "replace")


def uid(key: str) -> str:
    """The identity of an event, the same in every export."""
    return f"{uuid.uuid5(_UIDS, key)}@quizkit.invalid"


def escaped(text: str) -> str:
    """A text as a value: its marks escaped, its line ends kept, other control characters gone."""
    kept = "".join(sign for sign in text.replace("\r\n", "\n") if sign == "\n" or (sign >= " " and sign != "\x7f"))
    return kept.translate(_ESCAPED)


def folded(line: str) -> str:
    """A line in pieces of at most 75 octets, never parted inside a character."""
    return "\r\n ".join(_pieces(line))


def _pieces(line: str) -> Iterator[str]:
    piece, octets = "", 0
    for sign in line:
        size = len(sign.encode("utf-8", "replace"))
        if octets + size > LONGEST_LINE:
            yield piece
            piece, octets = "", 1
        piece += sign
        octets += size
    yield piece


def _event(event: Lapse, stamp: str) -> list[str]:
    words = _("{summary} in {days} days").format(summary=event.summary, days=DAYS_BEFORE)
    described = [f"DESCRIPTION:{escaped(event.description)}"] if event.description else []
    return [
        "BEGIN:VEVENT",
        f"UID:{uid(event.key)}",
        f"DTSTAMP:{stamp}",
        f"DTSTART;VALUE=DATE:{event.day:%Y%m%d}",
        f"SUMMARY:{escaped(event.summary)}",
        *described,
        "TRANSP:TRANSPARENT",
        "CLASS:PRIVATE",
        "BEGIN:VALARM",
        "ACTION:DISPLAY",
        f"DESCRIPTION:{escaped(words)}",
        f"TRIGGER:-P{DAYS_BEFORE}D",
        "END:VALARM",
        "END:VEVENT",
    ]
