"""How long a name and an address wait after wrong sign-ins: growing, capped at a minute, never a lock-out.

A tablet on which somebody has signed in lately is spared the waits that others caused elsewhere, so that a prankster
can slow one name on one tablet, a minute at a time, and nothing more.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass

FREE = 3
"""Wrong tries before any wait."""
LONGEST = dt.timedelta(seconds=60)
NAME_MEMORY = dt.timedelta(days=1)
ADDRESS_MEMORY = dt.timedelta(hours=1)
KNOWN_FOR = dt.timedelta(days=30)


@dataclass(frozen=True, slots=True)
class Try:
    """One try to sign in: whose name, from which address, when, and whether the secret was right."""

    person: int
    address: str
    at: dt.datetime
    right: bool


def delay(wrong: int) -> dt.timedelta:
    """The wait after so many wrong tries in a row: none, then 1 s, 2 s, 4 s … a minute."""
    if wrong < FREE:
        return dt.timedelta(0)
    return min(LONGEST, dt.timedelta(seconds=1 << min(wrong - FREE, 10)))


def free_at(tries: Iterable[Try], person: int, address: str, now: dt.datetime) -> dt.datetime:
    """When this name may next be tried from this address; a moment at or before `now` means at once."""
    known = sorted((one for one in tries if one.at <= now), key=lambda one: one.at)
    own = [one for one in known if one.person == person and one.at > now - KNOWN_FOR]
    here = [one for one in own if one.address == address]
    if any(one.right for one in here):
        return _free(_since_right(here), now)
    recent = [one for one in own if one.at > now - NAME_MEMORY]
    around = [one for one in known if one.address == address and one.at > now - ADDRESS_MEMORY and not one.right]
    return max(_free(_since_right(recent), now), _free(around, now))


def _since_right(tries: list[Try]) -> list[Try]:
    """The wrong tries after the last right one."""
    last = max((place for place, one in enumerate(tries) if one.right), default=-1)
    return tries[last + 1 :]


def _free(wrong: list[Try], now: dt.datetime) -> dt.datetime:
    return wrong[-1].at + delay(len(wrong)) if wrong else now
