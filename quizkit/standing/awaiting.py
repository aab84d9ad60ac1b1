"""The passed check that a sheet is still to come for, and the last day for that sheet."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from quizkit.standing.clearance import fresh, renews, terms_of
from quizkit.standing.counting import order
from quizkit.standing.dates import days_after
from quizkit.standing.events import CheckResult, Sheet
from quizkit.standing.record import Held, Record
from quizkit.standing.scheme import Scheme


@dataclass(frozen=True, slots=True)
class Awaited:
    """A passed check with no sheet yet, and the last day on which one can complete it."""

    check: CheckResult
    until: dt.date


def sheet_awaited(found: Record, scheme: Scheme, skill: str) -> Awaited | None:
    """The passed check that a sheet can still complete on the record's day, None where there is none.

    A full check waits as long as a pair may take, a renewal check to the end of what it renews besides. One before a
    critical fail waits no more, and a difference check makes no pair: it shows that the clearance there is goes on.
    """
    held = found.held[skill]
    checks = [row for row in held.rows if isinstance(row, CheckResult)]
    failed = max((order(row) for row in checks if row.critical_missed), default=None)
    waiting = [
        Awaited(row, until)
        for row in checks
        if row.passed and (failed is None or order(row) > failed)
        if (until := _until(row, held, scheme)) is not None and until >= found.on
    ]
    return max(waiting, key=lambda one: (one.until, one.check.id), default=None)


def _until(check: CheckResult, held: Held, scheme: Scheme) -> dt.date | None:
    """The last day for a check's sheet; None for one that has its sheet, or that no sheet can complete."""
    paired = days_after(check.seen_on, terms_of(check, scheme, held.skill).pair_within)
    sheets = [row for row in held.rows if isinstance(row, Sheet) and row.outcome == "signed"]
    match check.form:
        case "full":
            return paired if fresh(check, sheets, scheme, held.skill) is None else None
        case "renewal":
            latest = max((one.end for one in held.made), default=None)
            old = [one.last for one in held.made if one.end == latest and renews(one, check, scheme, held.skill)]
            return min(paired, max(old)) if old else None
        case "difference":
            return None
