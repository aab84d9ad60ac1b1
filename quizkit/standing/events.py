"""Evidence as standing reads it: one frozen row for each thing that was seen, signed or recorded.

`seen_on` is the day it happened, in the zone of the site; `recorded_at` the moment (aware, UTC) it was written down.
`moment` is when it happened where a clock saw it: it puts rows of one day in order. Of rows without one, those that
lower a standing count as the last of their day.
"""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import Literal

from quizkit.standing.dates import Term

Form = Literal["full", "renewal", "difference"]
Outcome = Literal["signed", "refused", "observed"]


@dataclass(frozen=True, slots=True)
class Terms:
    """What the scheme said when a row arose, kept with it: a later change of the scheme changes no past row.

    `pair_within` and `lapsing` are days.
    """

    valid: Term
    pair_within: int
    lapsing: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Event:
    """What every row has: its id, whose it is, the day it was seen, and when it was recorded."""

    id: str
    person: str
    seen_on: dt.date
    recorded_at: dt.datetime
    moment: dt.datetime | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Practice(Event):
    """Somebody practised a skill. The first one of a person and skill is enough."""

    skill: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckResult(Event):
    """A check handed in. `critical_missed`: a critical question was wrong, so it failed whatever the score."""

    skill: str
    passed: bool
    critical_missed: bool = False
    form: Form = "full"
    terms: Terms | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Remark(Event):
    """A check worked out again. One that lowers the result counts only with a trainer's name in `signed_by`."""

    check: str
    passed: bool
    critical_missed: bool = False
    signed_by: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet(Event):
    """A sheet for one skill with one material. `observed` is a helper's record: it clears nobody until signed."""

    skill: str
    outcome: Outcome
    signed_by: str = ""
    material: str = ""
    family: str = ""
    ratio: str = ""
    terms: Terms | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Withdrawal(Event):
    """A clearance taken away, with its reason; it stands until a row ends it."""

    skill: str
    reason: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WithdrawalEnd(Event):
    """The end of a withdrawal (its id); `restores`: what was seen before the withdrawal counts again."""

    withdrawal: str
    reason: str
    restores: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class OutsideProof(Event):
    """A dated paper from elsewhere: its kind, the last day it holds, and who saw it. No medical detail."""

    kind: str
    until: dt.date
    seen_by: str = ""
    detail: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Entitlement(Event):
    """The right of `person` to sign sheets of a skill. A founding one rests on a written outside basis."""

    skill: str
    starts: dt.date
    until: dt.date | None = None
    basis: str = ""
    founding: bool = False
    granted_by: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class EntitlementEnd(Event):
    """The end of an entitlement (its id); sheets signed before it stand."""

    entitlement: str
    reason: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Struck(Event):
    """A row (its id) that was wrong, withdrawn with a reason: it counts no more."""

    row: str
    reason: str
