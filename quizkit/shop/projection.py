"""Everybody's standings of today, kept in memory and brought up to date by the rows that came since.

A projection of the evidence and nothing more: it is worked out by the pure function of `standing`, person by person,
as they are asked for, and is rebuilt from the file wherever the file, the day, the settings or the clock are others.
Working a large group out anew for each look at its matrix would take minutes a day.
"""

from __future__ import annotations

import datetime as dt
import threading
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from quizkit.records.seal import Head
from quizkit.shop.evidence import events
from quizkit.shop.handing import close_overdue
from quizkit.shop.handle import Shop
from quizkit.shop.packs import publication_on, scheme_in, settings
from quizkit.shop.people import PersonView, people
from quizkit.shop.standings import StandingView, standing_view
from quizkit.standing.crew import Person, crew
from quizkit.standing.dates import local_day

TABLES = (
    "practice", "result", "remark", "strike", "sheet", "signature", "withdrawal", "withdrawal_end", "outside_proof",
    "entitlement", "entitlement_end", "admin",
)  # fmt: skip
"""The tables of evidence whose rows can move the standing of the person they name."""
AT_ONCE = 500
"""People worked out together: what is read for them is held in memory meanwhile."""

Cells = Mapping[str, StandingView]
"""A person's standings by skill."""


FILES = 4
"""Files of which standings are kept: a server has one."""


@dataclass(slots=True)
class _Kept:
    """What is known of one file: on which day and by which settings, up to which row of the chain, of whom.

    `same` holds equal standings once: most people have not started most skills.
    """

    day: dt.date
    pack: str
    head: Head = field(default_factory=Head)
    cells: dict[int, Cells] = field(default_factory=dict)
    same: dict[StandingView, StandingView] = field(default_factory=dict)


_KEPT: dict[tuple[int, int, int], _Kept] = {}
_LOCK = threading.Lock()


def cells_today(shop: Shop, everybody: Iterable[PersonView], now: dt.datetime) -> tuple[dt.date, Mapping[int, Cells]]:
    """Today in the shop's zone, and the standings of some people (those of others may be among them)."""
    close_overdue(shop, now=now)
    asked = tuple(everybody)
    while True:  # some at a time, so that whoever asks for a few need not wait for all
        with _LOCK, shop.records.reading():
            kept = _current(shop, local_day(now, settings(shop).zone))
            missing = [one for one in asked if one.person not in kept.cells]
            _work_out(shop, kept, missing[:AT_ONCE])
            if len(missing) <= AT_ONCE:
                return kept.day, dict(kept.cells)


def keep_standings(shop: Shop, *, now: dt.datetime) -> None:
    """Work out everybody's standings of today that are not kept yet, so that no look at a matrix waits for them."""
    cells_today(shop, people(shop), now)


def _current(shop: Shop, day: dt.date) -> _Kept:
    """What is kept of this file, without those whom a later row is about; empty where all is to be worked out."""
    file, head, pack = shop.records.identity, shop.records.head(), str(publication_on(shop, day)["pack"])
    kept = _KEPT.get(file)
    if kept is None or (kept.day, kept.pack) != (day, pack) or not shop.records.holds(kept.head):
        _KEPT.pop(file, None)
        while len(_KEPT) >= FILES:
            _KEPT.pop(next(iter(_KEPT)))
        kept = _KEPT[file] = _Kept(day, pack)
    if kept.cells and head.position > kept.head.position:
        for table in TABLES:
            for person in shop.values(table, "person", after=kept.head.position):
                kept.cells.pop(person, None)
    kept.head = head
    return kept


def _work_out(shop: Shop, kept: _Kept, some: list[PersonView]) -> None:
    scheme = scheme_in(shop, kept.pack)
    members = [Person(str(one.person), one.site, one.role) for one in some]
    worked = crew(events(shop, [one.person for one in some]), scheme, members, kept.day)
    for one in some:
        views = ((skill, standing_view(worked.standing(str(one.person), skill))) for skill in scheme.by_id)
        kept.cells[one.person] = {skill: kept.same.setdefault(view, view) for skill, view in views}
