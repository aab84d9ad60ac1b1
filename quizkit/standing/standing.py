"""Where one person is with one skill: a pure function of evidence, scheme and day."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from quizkit.standing.awaiting import sheet_awaited
from quizkit.standing.clearance import Clearance, in_force
from quizkit.standing.dates import days_after
from quizkit.standing.endorsing import Endorsement, endorsements
from quizkit.standing.events import CheckResult, Event, Practice, Sheet
from quizkit.standing.reasons import N_, Reason
from quizkit.standing.record import Held, Record, missing, proofs_in_date, record
from quizkit.standing.scheme import Scheme
from quizkit.standing.spans import holding, last_before

Word = Literal["not started", "learning", "check passed", "cleared", "lapsing", "lapsed", "withdrawn"]
May = Literal["alone", "beside", "not touch"]

WORDS: dict[Word, str] = {
    "not started": N_("not started"),
    "learning": N_("learning"),
    "check passed": N_("check passed"),
    "cleared": N_("cleared"),
    "lapsing": N_("lapsing"),
    "lapsed": N_("lapsed"),
    "withdrawn": N_("withdrawn"),
}
"""Every standing with its text in the catalogue: people read `_(WORDS[word])`."""

ALLOWS: dict[May, str] = {
    "alone": N_("may do this work alone"),
    "beside": N_("may do this work beside a cleared person"),
    "not touch": N_("may not do this work"),
}
"""What a standing allows, with its text in the catalogue."""


@dataclass(frozen=True, slots=True)
class Standing:
    """A standing.

    `until`: the last day of the own clearance; for lapsed, the last day it held; for check passed, the last day for the
    sheet. `since`: the first day of this. `holds_until`: the last day on which the person counts as cleared if nothing
    more happens, needs and outside proofs included. `evidence` are ids of rows.
    """

    person: str
    skill: str
    word: Word
    until: dt.date | None
    may: May
    because: tuple[Reason, ...] = ()
    endorsements: tuple[Endorsement, ...] = ()
    evidence: tuple[str, ...] = ()
    since: dt.date | None = None
    holds_until: dt.date | None = None

    @property
    def clear(self) -> bool:
        """Whether this counts as cleared: needs, cover and jobs ask for it."""
        return self.word in ("cleared", "lapsing")


def standing(events: Iterable[Event], scheme: Scheme, person: str, skill: str, on: dt.date) -> Standing:
    """Where a person is with a skill on a day.

    The first that fits of withdrawn, lapsing, cleared, lapsed, check passed, learning, not started. All rows give it as
    known now; `known_by(rows, moment)` first gives it as known then. Raises SchemeError for a skill that the scheme
    does not have.
    """
    skills = [skill, scheme.first] if scheme.first else [skill]
    return standing_of(record(events, scheme, person, on, skills), scheme, skill)


def standing_of(found: Record, scheme: Scheme, skill: str) -> Standing:
    """The standing in one skill, from a record worked out for it and for the scheme's first skill."""
    held = found.held[skill]
    return (
        _withdrawn(found, held)
        or _cleared(found, scheme, held)
        or _lapsed(found, scheme, held)
        or _check_passed(found, scheme, held)
        or _learning(found, scheme, held)
    )


def _withdrawn(found: Record, held: Held) -> Standing | None:
    standing = [one.row for one in found.rows.withdrawn(held.skill.id) if one.ended is None]
    if not standing:
        return None
    because = tuple(Reason(N_("withdrawn: {reason}"), (("reason", row.reason),), row.seen_on) for row in standing)
    ids = tuple(row.id for row in standing)
    since = standing[0].seen_on
    return Standing(found.person, held.skill.id, "withdrawn", None, "not touch", because, evidence=ids, since=since)


def _cleared(found: Record, scheme: Scheme, held: Held) -> Standing | None:
    span, best = holding(held.counted, found.on), in_force(held.made, found.on)
    if span is None or best is None:
        return None
    word: Word = "lapsing" if (best.end - found.on).days <= scheme.lapsing else "cleared"
    because = missing(found, scheme, held.skill, days_after(span[1], 1)) if span[1] < best.end else ()
    ids = (*best.rows, *(row.id for row in proofs_in_date(found, held.skill.proofs)))
    shown = endorsements(held.rows, held.made, found.on)
    return Standing(
        found.person, held.skill.id, word, best.end, "alone", because, shown, ids, since=span[0], holds_until=span[1]
    )


def _lapsed(found: Record, scheme: Scheme, held: Held) -> Standing | None:
    """Once cleared, by rows that still count, and now past the end or without a need or an outside proof."""
    last = last_before(held.counted, found.on)
    if last is None:
        return None
    own = in_force(held.made, found.on)
    if own is not None:
        because, ids = missing(found, scheme, held.skill, found.on), own.rows
    else:
        because, ids = _ended(held.made)
        waiting = sheet_awaited(found, scheme, held.skill.id)
        if waiting is not None:
            because = (*because, Reason(N_("the check is passed, the sheet is still to come"), (), waiting.until))
            ids = (*ids, waiting.check.id)
    since = days_after(last, 1)
    return Standing(found.person, held.skill.id, "lapsed", last, "beside", because, evidence=ids, since=since)


def _ended(made: Iterable[Clearance]) -> tuple[tuple[Reason, ...], tuple[str, ...]]:
    """Why the last of the clearances is over, and the rows that say so."""
    ended = max(made, key=lambda one: (one.last, one.rows))
    if ended.cut is None or ended.cut.seen_on > ended.end:
        return (Reason(N_("the clearance has ended"), (), ended.end),), ended.rows
    return (Reason(N_("a critical answer was wrong"), (), ended.cut.seen_on),), (*ended.rows, ended.cut.id)


def _check_passed(found: Record, scheme: Scheme, held: Held) -> Standing | None:
    """A check in date: one of a pair in force that a need or a proof still keeps from counting, or one without a sheet.

    A check without a sheet is in date as long as a sheet can still be paired with it.
    """
    person, skill = found.person, held.skill
    own = in_force(held.made, found.on)
    if own is not None:
        because = missing(found, scheme, skill, found.on)
        return Standing(person, skill.id, "check passed", own.end, "beside", because, (), own.rows, own.start)
    waiting = sheet_awaited(found, scheme, skill.id)
    if waiting is None:
        return None
    check, last = waiting.check, waiting.until
    because = (Reason(N_("the check is passed, the sheet is still to come"), (), last),)
    return Standing(person, skill.id, "check passed", last, "beside", because, (), (check.id,), check.seen_on)


def _learning(found: Record, scheme: Scheme, held: Held) -> Standing:
    """Something has begun, or nothing yet."""
    person, skill, first = found.person, held.skill.id, scheme.first
    begun = [row for row in held.rows if isinstance(row, Practice | CheckResult | Sheet)]
    if not begun:
        again = tuple(
            Reason(N_("a withdrawal was ended; what was seen before it counts no more"), (), one.ended)
            for one in found.rows.withdrawn(skill)
        )
        return Standing(person, skill, "not started", None, "not touch", again)
    ids, since = tuple(row.id for row in begun), begun[0].seen_on
    if first and holding(found.held[first].days, found.on) is None:
        before = Reason(
            N_("not at the bench yet: {name} must be cleared first"), (("name", scheme.skill_title(first)),)
        )
        itself = Reason(N_("not at the bench before this is cleared"))
        because = (itself if skill == first else before,)
        return Standing(person, skill, "learning", None, "not touch", because, evidence=ids, since=since)
    return Standing(person, skill, "learning", None, "beside", evidence=ids, since=since)
