"""Which rows count on a day: struck ones, remarks, withdrawals and the order of one day are settled here.

Order of recording never matters: rows are put in order by the day and moment they were seen.
"""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from quizkit.standing.events import CheckResult, Event, Remark, Sheet, Struck, Withdrawal, WithdrawalEnd

Order = tuple[dt.date, dt.datetime]

_FIRST = dt.datetime.min.replace(tzinfo=dt.UTC)
_LAST = dt.datetime.max.replace(tzinfo=dt.UTC)


def known_by(rows: Iterable[Event], moment: dt.datetime) -> tuple[Event, ...]:
    """The rows recorded by a moment (aware): give these to `standing` for a day *as known then*.

    All rows together give it *as known now*; rows seen after the day asked about never count.
    """
    return tuple(row for row in rows if row.recorded_at <= moment)


def by_person(rows: Iterable[Event]) -> Mapping[str, tuple[Event, ...]]:
    """The rows of each person."""
    found: dict[str, list[Event]] = defaultdict(list)
    for row in rows:
        found[row.person].append(row)
    return {person: tuple(own) for person, own in found.items()}


def lowers(row: Event) -> bool:
    """Whether a row is one of those that may lower a standing."""
    match row:
        case CheckResult():
            return row.critical_missed
        case Sheet():
            return row.outcome == "refused"
        case Withdrawal() | Struck():
            return True
    return False


def order(row: Event) -> Order:
    """Where a row stands in time. Without a moment: first of its day, or last of it where it lowers."""
    return row.seen_on, row.moment or (_LAST if lowers(row) else _FIRST)


@dataclass(frozen=True, slots=True)
class Withdrawn:
    """A withdrawal with the day it ended (None while it stands) and whether earlier rows count again."""

    row: Withdrawal
    ended: dt.date | None
    restores: bool
    end_ids: tuple[str, ...] = ()

    def discounts(self, row: Event, on: dt.date) -> bool:
        """Whether this withdrawal takes away what a row counted for, on a day from the withdrawal on."""
        return not self.restores and self.row.seen_on <= on and order(row) < order(self.row)


@dataclass(frozen=True, slots=True)
class Rows:
    """One person's rows seen by a day, settled: struck rows gone, remarks worked in, in order."""

    rows: tuple[Event, ...]
    by_skill: Mapping[str, tuple[Event, ...]]
    withdrawals: tuple[Withdrawn, ...]

    def of(self, skill: str) -> tuple[Event, ...]:
        """The rows of one skill."""
        return self.by_skill.get(skill, ())

    def withdrawn(self, skill: str) -> tuple[Withdrawn, ...]:
        """The withdrawals of one skill."""
        return tuple(one for one in self.withdrawals if one.row.skill == skill)


def settle(rows: Iterable[Event], person: str, on: dt.date) -> Rows:
    """What counts of a person's rows that were seen by a day.

    A sheet signed by its own person never counts. A remark that lowers counts only when signed.
    """
    seen = [row for row in rows if row.person == person and row.seen_on <= on]
    struck = {row.row for row in seen if isinstance(row, Struck)}
    kept = [row for row in seen if row.id not in struck and not _own_signature(row)]
    remarks: dict[str, list[Remark]] = defaultdict(list)
    for row in kept:
        if isinstance(row, Remark):
            remarks[row.check].append(row)
    worked = [_remarked(row, remarks[row.id]) if isinstance(row, CheckResult) else row for row in kept]
    ordered = tuple(sorted(worked, key=lambda row: (order(row), row.id)))
    by_skill: dict[str, list[Event]] = defaultdict(list)
    for row in ordered:
        by_skill[getattr(row, "skill", "")].append(row)
    sorted_out = {skill: tuple(own) for skill, own in by_skill.items()}
    return Rows(ordered, sorted_out, tuple(_ended(row, ordered) for row in ordered if isinstance(row, Withdrawal)))


def _own_signature(row: Event) -> bool:
    return isinstance(row, Sheet) and row.signed_by == row.person


def worth(passed: bool, critical_missed: bool) -> int:
    """How high a result stands: passed, failed, failed on a critical question."""
    return 0 if critical_missed else 2 if passed else 1


def _remarked(check: CheckResult, remarks: list[Remark]) -> CheckResult:
    """A check with its remarks worked in, in their order."""
    now = check
    for remark in sorted(remarks, key=lambda row: (order(row), row.id)):
        lowers = worth(remark.passed, remark.critical_missed) < worth(now.passed, now.critical_missed)
        if not lowers or remark.signed_by:
            now = replace(now, passed=remark.passed, critical_missed=remark.critical_missed)
    return now


def _ended(row: Withdrawal, rows: tuple[Event, ...]) -> Withdrawn:
    ends = [end for end in rows if isinstance(end, WithdrawalEnd) and end.withdrawal == row.id]
    ended = max((row.seen_on, min(end.seen_on for end in ends))) if ends else None
    return Withdrawn(row, ended, any(end.restores for end in ends), tuple(end.id for end in ends))
