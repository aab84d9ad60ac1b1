"""Cover and the morning question as tables."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from typing import Any, Protocol

from quizkit.exchange.table import Cell, Table
from quizkit.words import _


class Cover(Protocol):
    """The cover of a shop: its rows hold plain values, as the shop's view names them."""

    @property
    def day(self) -> dt.date: ...
    @property
    def rows(self) -> Sequence[Any]: ...


class Morning(Protocol):
    """Who may do a job on a day; the people hold plain values, as the shop's view names them."""

    @property
    def title(self) -> str: ...
    @property
    def material(self) -> str: ...
    @property
    def day(self) -> dt.date: ...
    @property
    def alone(self) -> Sequence[Any]: ...
    @property
    def beside(self) -> Sequence[Any]: ...
    @property
    def neither(self) -> Sequence[Any]: ...


def cover_table(view: Cover, *, weeks: bool = True) -> Table:
    """A line a site and skill: who is cleared now, how many are wanted, the first day short; with the weeks ahead."""
    heads = [_("Site"), _("Skill"), _("Wanted"), _("Cleared"), _("Who"), _("Short from")]
    first = view.rows[0].weeks if view.rows and weeks else ()
    heads += [week.first.isoformat() for week in first]
    rows: list[tuple[Cell, ...]] = []
    for row in view.rows:
        ahead = [week.cleared for week in row.weeks] if weeks else []
        who = ", ".join(row.cleared)
        rows.append((row.site_title, row.title, row.wanted, len(row.cleared), who, row.short_from, *ahead))
    return Table(_("Cover {day}").format(day=view.day), tuple(heads), tuple(rows))


def morning_table(view: Morning) -> Table:
    """A line a person: whether alone, beside whom, or not, until when, and why not alone."""
    rows: list[tuple[Cell, ...]] = []
    for word, people in ((_("alone"), view.alone), (_("beside"), view.beside), (_("not"), view.neither)):
        for one in people:
            why = "; ".join(one.because)
            rows.append((one.name, one.site_title, word, ", ".join(one.beside), one.until, why))
    title = f"{view.title}, {view.material}" if view.material else view.title
    heads = (_("Person"), _("Site"), _("May"), _("Beside"), _("Until"), _("Why not alone"))
    return Table(_("{title}, {day}").format(title=title, day=view.day), heads, tuple(rows))
