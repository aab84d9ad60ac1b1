"""One person's evidence as of a day, worked out: the days on which each skill is cleared, needs and proofs included."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from quizkit.standing.clearance import Clearance, clearances, days_in_force
from quizkit.standing.counting import Rows, Withdrawn, settle
from quizkit.standing.dates import days_after
from quizkit.standing.events import Event, OutsideProof
from quizkit.standing.reasons import N_, Reason
from quizkit.standing.scheme import Scheme, Skill
from quizkit.standing.spans import ALWAYS, Span, Spans, common, holding, last_before, union, without


@dataclass(frozen=True, slots=True)
class Held:
    """One skill of one person.

    `rows` and `made` are what counts on the day of the record: rows of the skill, and the clearances that they make.
    `counted` are the days cleared by them; `days` are all days cleared, also by rows that counted then and now do not.
    """

    skill: Skill
    rows: tuple[Event, ...]
    made: tuple[Clearance, ...]
    counted: Spans
    days: Spans


@dataclass(frozen=True, slots=True)
class Record:
    """One person's evidence as of a day, with every skill worked out that was asked for."""

    person: str
    on: dt.date
    rows: Rows
    held: dict[str, Held]

    def proofs(self, kind: str) -> list[OutsideProof]:
        """The outside proofs of a kind."""
        return [row for row in self.rows.rows if isinstance(row, OutsideProof) and row.kind == kind]

    def proof_days(self, kind: str) -> Spans:
        """The days on which an outside proof of a kind is in date."""
        return union((row.seen_on, row.until) for row in self.proofs(kind))


def record(events: Iterable[Event], scheme: Scheme, person: str, on: dt.date, skills: Iterable[str] = ()) -> Record:
    """A person's evidence as of a day, worked out for some skills and all they need (default: every skill).

    Raises SchemeError for a skill that the scheme does not have.
    """
    found = Record(person, on, settle(events, person, on), {})
    for name in skills or scheme.by_id:
        for each in scheme.with_needs(name):
            if each not in found.held:
                found.held[each] = _held(found, scheme, scheme.skill(each))
    return found


def _held(found: Record, scheme: Scheme, skill: Skill) -> Held:
    """One skill; what it needs has been worked out before."""
    rows, withdrawn = found.rows.of(skill.id), found.rows.withdrawn(skill.id)
    if not rows:
        return Held(skill, (), (), (), ())
    others = ALWAYS
    for need in skill.needs:
        others = common(others, found.held[need].days)
    for kind in skill.proofs:
        others = common(others, found.proof_days(kind))
    gaps = [(one.row.seen_on, days_after(one.ended, -1) if one.ended else dt.date.max) for one in withdrawn]
    others = without(others, gaps)
    counting = _counting(rows, withdrawn, found.on)
    made = clearances(counting, scheme, skill)
    counted = days_in_force(made)
    before = _before_withdrawals(rows, withdrawn, scheme, skill)
    return Held(skill, counting, made, common(counted, others), common(union([*counted, *before]), others))


def _counting(rows: Sequence[Event], withdrawn: Sequence[Withdrawn], day: dt.date) -> tuple[Event, ...]:
    return tuple(row for row in rows if not any(one.discounts(row, day) for one in withdrawn))


def _before_withdrawals(
    rows: Sequence[Event], withdrawn: Sequence[Withdrawn], scheme: Scheme, skill: Skill
) -> list[Span]:
    """The days in force by rows that a withdrawal took away later: what has been is not undone."""
    days: list[Span] = []
    for turn in sorted({one.row.seen_on for one in withdrawn if not one.restores}):
        last = days_after(turn, -1)
        made = clearances(_counting(rows, withdrawn, last), scheme, skill)
        days += common(days_in_force(made), ((dt.date.min, last),))
    return days


def missing(found: Record, scheme: Scheme, skill: Skill, day: dt.date) -> tuple[Reason, ...]:
    """The needs and outside proofs of a skill that do not hold on a day; each with the last day it held, if any."""
    needs = [(scheme.skill_title(need), found.held[need].days) for need in skill.needs]
    proofs = [(scheme.proof_title(kind), found.proof_days(kind)) for kind in skill.proofs]
    return tuple(
        Reason(N_("because of {name}"), (("name", title),), last_before(days, day))
        for title, days in (*needs, *proofs)
        if holding(days, day) is None
    )


def proofs_in_date(found: Record, kinds: Iterable[str]) -> tuple[OutsideProof, ...]:
    """Of each kind the outside proof that is in date on the day of the record and runs longest."""
    best: list[OutsideProof] = []
    for kind in kinds:
        there = [row for row in found.proofs(kind) if row.until >= found.on]
        best += sorted(there, key=lambda row: (row.until, row.id))[-1:]
    return tuple(best)
