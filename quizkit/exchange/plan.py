"""The plan as a table: one line a thing to do, in the order of its days."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from typing import Protocol

from quizkit.exchange.table import Table
from quizkit.words import _


class Line(Protocol):
    """One thing to do."""

    @property
    def name(self) -> str: ...
    @property
    def site_title(self) -> str: ...
    @property
    def kind(self) -> str: ...
    @property
    def title(self) -> str: ...
    @property
    def minutes(self) -> int: ...
    @property
    def start(self) -> dt.date: ...
    @property
    def by(self) -> dt.date: ...
    @property
    def reason(self) -> str: ...


class Plan(Protocol):
    """A plan with its lines."""

    @property
    def day(self) -> dt.date: ...
    @property
    def through(self) -> dt.date: ...
    @property
    def rows(self) -> Sequence[Line]: ...


def plan_table(view: Plan) -> Table:
    """The plan's lines with what to do in words."""
    kinds = {"train": _("train"), "renew": _("renew"), "proof": _("get the paper")}
    heads = (_("By"), _("Person"), _("Site"), _("Do"), _("What"), _("Minutes"), _("From"), _("Why"))
    rows = tuple(
        (one.by, one.name, one.site_title, kinds[one.kind], one.title, one.minutes, one.start, one.reason)
        for one in view.rows
    )
    return Table(_("Plan {day} to {through}").format(day=view.day, through=view.through), heads, rows)
