"""Before a check: which form is due, and what it waits for. After a change of product: who is asked again."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass

from quizkit.standing.clearance import in_force
from quizkit.standing.counting import by_person, settle
from quizkit.standing.events import CheckResult, Event, Form, Sheet
from quizkit.standing.reasons import N_, Reason
from quizkit.standing.record import Record
from quizkit.standing.scheme import Scheme
from quizkit.standing.spans import holding


@dataclass(frozen=True, slots=True)
class Due:
    """The form that is due, and the needs that keep it from being started (nothing: it may be started)."""

    form: Form
    waits: tuple[Reason, ...]


@dataclass(frozen=True, slots=True)
class ProductChange:
    """A large change of a shelf row: what counts from `on`, and the day by which its users show it again.

    `moment` is when it came into force on that day, where that is known.
    """

    material: str
    on: dt.date
    by: dt.date
    moment: dt.datetime | None = None

    def before(self, row: Event) -> bool:
        """Whether a row was seen before the change: of its own day by the moment, where both have one."""
        if row.seen_on != self.on or self.moment is None or row.moment is None:
            return row.seen_on < self.on
        return row.moment < self.moment


@dataclass(frozen=True, slots=True)
class AskedAgain:
    """Somebody who used the old product in a skill; whether the difference check and the new sheet are done."""

    person: str
    skill: str
    by: dt.date
    check_done: bool
    sheet_done: bool

    def overdue(self, day: dt.date) -> bool:
        """Whether something is still to be done after the day by which it was asked."""
        return day > self.by and not (self.check_done and self.sheet_done)


def check_due(found: Record, scheme: Scheme, skill: str) -> Due:
    """Which check a person would take on the record's day: a renewal inside the lapsing window, else the full one."""
    held = found.held[skill]
    waits = tuple(
        Reason(N_("{name} comes first: it must be cleared"), (("name", scheme.skill_title(need)),))
        for need in held.skill.needs
        if holding(found.held[need].days, found.on) is None
    )
    own = in_force(held.made, found.on)
    renews = own is not None and own.start < found.on and (own.end - found.on).days <= scheme.lapsing
    return Due("renewal" if renews else "full", waits)


def asked_again(events: Iterable[Event], change: ProductChange, on: dt.date) -> tuple[AskedAgain, ...]:
    """Who signed off with a product before it changed, by person and skill, and what of it is done by a day.

    Any check passed since will do: a renewal or a full one asks no less than a difference check.
    """
    found = []
    for person, own in sorted(by_person(events).items()):
        rows = settle(own, person, on).rows
        signed = [row for row in rows if isinstance(row, Sheet) and row.outcome == "signed"]
        with_it = [row for row in signed if row.material == change.material]
        for skill in sorted({row.skill for row in with_it if change.before(row)}):
            checked = any(
                isinstance(row, CheckResult) and (row.skill, row.passed) == (skill, True) and not change.before(row)
                for row in rows
            )
            shown = any(row.skill == skill and not change.before(row) for row in with_it)
            found.append(AskedAgain(person, skill, change.by, checked, shown))
    return tuple(found)
