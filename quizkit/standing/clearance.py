"""Clearances: pairs of a passed check and a signed sheet, their renewals, and what cuts them short."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from quizkit.standing.counting import Order, order
from quizkit.standing.dates import after, days_after
from quizkit.standing.events import CheckResult, Event, Sheet, Terms
from quizkit.standing.scheme import Scheme, Skill
from quizkit.standing.spans import Spans, union


@dataclass(frozen=True, slots=True)
class Clearance:
    """One pair, in force from `start` to `end` inclusive.

    Sheets from `opens` on endorse under it. `cut` is the critical fail that lapsed it, `rows` the ids it rests on. A
    pair whose sheet came after that fail is in force on no day.
    """

    start: dt.date
    end: dt.date
    opens: dt.date
    rows: tuple[str, ...]
    since: Order
    cut: CheckResult | None = None

    @property
    def last(self) -> dt.date:
        """The last day it is in force; before `start` where a critical fail came first."""
        return self.end if self.cut is None else min(self.end, days_after(self.cut.seen_on, -1))

    def covers(self, day: dt.date) -> bool:
        """Whether it is in force on a day."""
        return self.start <= day <= self.last


def terms_of(row: CheckResult | Sheet, scheme: Scheme, skill: Skill) -> Terms:
    """The terms kept with a row, or the scheme's own where none are."""
    return row.terms or Terms(skill.valid, scheme.pair_within, scheme.lapsing)


def clearances(rows: Sequence[Event], scheme: Scheme, skill: Skill) -> tuple[Clearance, ...]:
    """Every clearance that a skill's rows (in order, see `counting.settle`) make.

    A passed full check makes one with the sheet that completes it first: one seen before it, else the first one after.
    So a further sheet moves no date. A check and a sheet that both lie in the lapsing window of a clearance renew it:
    the new one runs from the old end. All of them are kept, so that one more pair never takes an end away.

    A sheet entered late, seen before the one that completed a pair, makes the clearance begin and so end earlier.
    """
    checks = [row for row in rows if isinstance(row, CheckResult)]
    sheets = [row for row in rows if isinstance(row, Sheet) and row.outcome == "signed"]
    fails = [row for row in checks if row.critical_missed]
    made: list[Clearance] = []
    for check in checks:
        if not check.passed or check.critical_missed or check.form == "difference":
            continue
        cut = next((fail for fail in fails if order(fail) > order(check)), None)
        own = fresh(check, sheets, scheme, skill) if check.form == "full" else None
        found = [one for one in (own, *(renewed(old, check, sheets, scheme, skill) for old in made)) if one is not None]
        for one in found:
            whole = replace(one, cut=cut) if cut else one
            if not any(_serves_as_well(old, whole) for old in made):
                made.append(whole)
    return tuple(made)


def _serves_as_well(old: Clearance, new: Clearance) -> bool:
    """Whether a clearance says all that another would add: many renewal checks in one window stay one renewal."""
    return (old.end, old.opens, old.cut) == (new.end, new.opens, new.cut) and old.start <= new.start


def fresh(check: CheckResult, sheets: Sequence[Sheet], scheme: Scheme, skill: Skill) -> Clearance | None:
    """The clearance that a full check makes of itself, None while its sheet is still to come."""
    terms = terms_of(check, scheme, skill)
    opens = days_after(check.seen_on, -terms.pair_within)
    if not skill.practical:
        return Clearance(check.seen_on, after(check.seen_on, terms.valid), opens, (check.id,), order(check))
    before = [sheet for sheet in sheets if opens <= sheet.seen_on and order(sheet) <= order(check)]
    if before:
        rows = (check.id, before[-1].id)
        return Clearance(check.seen_on, after(check.seen_on, terms.valid), opens, rows, order(check))
    for sheet in sheets:
        ends = terms_of(sheet, scheme, skill)
        if order(sheet) > order(check) and sheet.seen_on <= days_after(check.seen_on, ends.pair_within):
            until = after(sheet.seen_on, ends.valid)
            return Clearance(sheet.seen_on, until, opens, (check.id, sheet.id), order(sheet))
    return None


def renews(old: Clearance, row: CheckResult | Sheet, scheme: Scheme, skill: Skill) -> bool:
    """Whether a row lies in the lapsing window of a clearance, so that it can be part of its renewal."""
    window = days_after(old.end, -terms_of(row, scheme, skill).lapsing)
    return max(window, days_after(old.start, 1)) <= row.seen_on <= old.last


def renewed(
    old: Clearance, check: CheckResult, sheets: Sequence[Sheet], scheme: Scheme, skill: Skill
) -> Clearance | None:
    """The renewal of a clearance by a check and the first sheet that goes with it, both inside the window."""
    if not renews(old, check, scheme, skill):
        return None
    if not skill.practical:
        later: CheckResult | Sheet = check
        rows = (*old.rows, check.id)
    else:
        fits = [sheet for sheet in sheets if renews(old, sheet, scheme, skill) and _near(check, sheet, scheme, skill)]
        if not fits:
            return None
        later = _later(check, fits[0])
        rows = (*old.rows, check.id, fits[0].id)
    terms = terms_of(later, scheme, skill)
    opens = max(days_after(old.end, -terms.lapsing), days_after(old.start, 1))
    return Clearance(later.seen_on, after(old.end, terms.valid), opens, rows, order(later))


def _later(check: CheckResult, sheet: Sheet) -> CheckResult | Sheet:
    return check if order(check) >= order(sheet) else sheet


def _near(check: CheckResult, sheet: Sheet, scheme: Scheme, skill: Skill) -> bool:
    later = _later(check, sheet)
    return abs((check.seen_on - sheet.seen_on).days) <= terms_of(later, scheme, skill).pair_within


def in_force(made: Iterable[Clearance], day: dt.date) -> Clearance | None:
    """The clearance in force on a day that runs longest, or None."""
    return max((one for one in made if one.covers(day)), key=lambda one: (one.end, one.start, one.rows), default=None)


def days_in_force(made: Iterable[Clearance]) -> Spans:
    """The days on which any of the clearances is in force."""
    return union((one.start, one.last) for one in made)
