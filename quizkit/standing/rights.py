"""Who may sign: entitlements, what they rest on, and what may be granted."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass

from quizkit.standing.counting import by_person
from quizkit.standing.events import Entitlement, EntitlementEnd, Event, Sheet
from quizkit.standing.reasons import N_, Reason
from quizkit.standing.record import Record, record
from quizkit.standing.scheme import Scheme
from quizkit.standing.standing import standing_of


@dataclass(frozen=True, slots=True)
class Right:
    """Whether somebody may sign a skill's sheets on a day: by which entitlement, or why not."""

    entitlement: Entitlement | None
    because: tuple[Reason, ...] = ()

    @property
    def holds(self) -> bool:
        """Whether the person may sign."""
        return self.entitlement is not None


def right_to_sign(
    events: Iterable[Event], scheme: Scheme, signer: str, skill: str, on: dt.date, learner: str = ""
) -> Right:
    """Whether somebody may sign a sheet of a skill (for `learner`) on a day.

    Needs an entitlement in force, and an own clearance unless the entitlement is a founding one. Never for oneself.
    Of several, one that rests on an own clearance comes before a founding one.
    """
    if signer == learner:
        return Right(None, (Reason(N_("nobody signs for oneself")),))
    found = record(events, scheme, signer, on, _asked(scheme, skill))
    granted = _in_force(found, skill)
    name = ("name", scheme.skill_title(skill))
    if not granted:
        return Right(None, (Reason(N_("no entitlement to sign {name} on this day"), (name,)),))
    cleared = standing_of(found, scheme, skill).clear
    for row in granted:
        if row.founding or cleared:
            return Right(row)
    return Right(None, (Reason(N_("entitled, but not cleared in {name}"), (name,)),))


def against_granting(
    events: Iterable[Event], scheme: Scheme, person: str, skill: str, on: dt.date, founding: bool, basis: str
) -> tuple[Reason, ...]:
    """Why an entitlement may not be granted; nothing where it may.

    A founding grant needs a written outside basis, any other an own clearance in the skill.
    """
    if founding:
        return () if basis.strip() else (Reason(N_("a founding grant needs its outside basis in writing")),)
    found = record(events, scheme, person, on, _asked(scheme, skill))
    if standing_of(found, scheme, skill).clear:
        return ()
    return (Reason(N_("{name} is not cleared"), (("name", scheme.skill_title(skill)),)),)


def founded_on(events: Iterable[Event], scheme: Scheme, person: str, skill: str, on: dt.date) -> tuple[str, ...]:
    """The founding entitlements (ids) that a standing rests on: its signers' own, or those of who signed for them."""
    rows = by_person(events)
    sheets = {row.id: row for own in rows.values() for row in own if isinstance(row, Sheet)}
    found: dict[str, None] = {}
    seen: set[tuple[str, dt.date]] = set()
    todo = [(person, on)]
    while todo:
        whose, day = todo.pop()
        if (whose, day) in seen:
            continue
        seen.add((whose, day))
        held = record(rows.get(whose, ()), scheme, whose, day, _asked(scheme, skill))
        for sheet in (sheets[row] for row in standing_of(held, scheme, skill).evidence if row in sheets):
            right = right_to_sign(rows.get(sheet.signed_by, ()), scheme, sheet.signed_by, skill, sheet.seen_on)
            if right.entitlement is not None and right.entitlement.founding:
                found[right.entitlement.id] = None
            elif right.entitlement is not None:
                todo.append((sheet.signed_by, sheet.seen_on))
    return tuple(found)


def _asked(scheme: Scheme, skill: str) -> list[str]:
    return [skill, scheme.first] if scheme.first else [skill]


def _in_force(found: Record, skill: str) -> list[Entitlement]:
    """The entitlements for a skill on the record's day, founding ones last."""
    over = {row.entitlement for row in found.rows.rows if isinstance(row, EntitlementEnd)}
    granted = [
        row
        for row in found.rows.of(skill)
        if isinstance(row, Entitlement)
        and row.id not in over
        and row.starts <= found.on
        and (row.until is None or found.on <= row.until)
    ]
    return sorted(granted, key=lambda row: (row.founding, row.id))
