"""Days and moments as the shop's paper has them, in the zone of whoever reads the page."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, datetime
from zoneinfo import ZoneInfo

from jinja2 import pass_context
from jinja2.runtime import Context

from quizkit.words import _


def months() -> tuple[str, ...]:
    """The twelve months, short; the month is always a word, so that nobody takes it for a day."""
    return (
        _("Jan"), _("Feb"), _("Mar"), _("Apr"), _("May"), _("Jun"),
        _("Jul"), _("Aug"), _("Sep"), _("Oct"), _("Nov"), _("Dec"),
    )  # fmt: skip


def day(value: date | datetime | None, zone: str = "") -> str:
    """A date: '14 Jan 2027'; nothing for no date. A moment (aware) is the day that it has in `zone`, if one is told."""
    if value is None:
        return ""
    return f"{short(value, zone)} {_local(value, zone).year}"


def short(value: date | datetime, zone: str = "") -> str:
    """The same without its year, where the year goes without saying: '14 Jan'."""
    there = _local(value, zone)
    return f"{there.day} {months()[there.month - 1]}"


def moment(value: datetime, zone: str = "") -> str:
    """A moment (aware) of the next or the last days: '27 Nov, 16:13'."""
    return f"{short(value, zone)}, {_local(value, zone):%H:%M}"


def _local(value: date | datetime, zone: str) -> date | datetime:
    return value.astimezone(ZoneInfo(zone)) if isinstance(value, datetime) and zone else value


def _zone(context: Context) -> str:
    look = context.get("look")
    return str(look.get("zone", "") if isinstance(look, Mapping) else context.get("zone", ""))


@pass_context
def day_here(context: Context, value: date | datetime | None) -> str:
    """`day` in the zone of the page (`look.zone`, on paper without a frame `zone`)."""
    return day(value, _zone(context))


@pass_context
def moment_here(context: Context, value: datetime) -> str:
    """`moment` in the zone of the page (`look.zone`)."""
    return moment(value, _zone(context))
