"""Endorsements: with which families and ratios of material a person has been seen to do it right."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from quizkit.standing.clearance import Clearance
from quizkit.standing.counting import order
from quizkit.standing.events import Event, Sheet


@dataclass(frozen=True, slots=True)
class Endorsement:
    """A family and ratio (as the shelf says it), in force from one day to another; `sheet` is the row it rests on."""

    family: str
    ratio: str
    since: dt.date
    until: dt.date
    sheet: str

    def serves(self, family: str, ratio: str) -> bool:
        """Whether it is the family and ratio asked for; an empty one asks for nothing."""
        return family in ("", self.family) and ratio in ("", self.ratio)


def endorsements(rows: Sequence[Event], made: Iterable[Clearance], day: dt.date) -> tuple[Endorsement, ...]:
    """The endorsements in force on a day, by family and ratio.

    Each ends with the clearance that its sheet belongs to. A refused sheet ends that of its family and ratio until a
    later sheet. `rows` are a skill's rows in order, `made` the clearances that they make.
    """
    now = [one for one in made if one.covers(day)]
    best: dict[tuple[str, str], Endorsement] = {}
    for sheet in (row for row in rows if isinstance(row, Sheet) and row.outcome == "signed" and row.family):
        until = max((one.last for one in now if one.opens <= sheet.seen_on <= one.last), default=None)
        key = (sheet.family, sheet.ratio)
        if until is None or _refused_after(sheet, rows):
            continue
        if key not in best or until > best[key].until:
            best[key] = Endorsement(*key, sheet.seen_on, until, sheet.id)
    return tuple(best[key] for key in sorted(best))


def _refused_after(sheet: Sheet, rows: Sequence[Event]) -> bool:
    return any(
        isinstance(row, Sheet)
        and row.outcome == "refused"
        and (row.family, row.ratio) == (sheet.family, sheet.ratio)
        and order(row) > order(sheet)
        for row in rows
    )
