"""The people of the shop worked out for a day, as known then or as known now."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from dataclasses import replace

from quizkit.shop.evidence import Whose, events
from quizkit.shop.handing import close_overdue
from quizkit.shop.handle import Shop
from quizkit.shop.packs import pack_on, scheme_on, settings, sites
from quizkit.shop.people import PersonView, people
from quizkit.shop.refusal import Refusal, Unknown
from quizkit.standing.counting import known_by
from quizkit.standing.crew import Crew, Person, crew
from quizkit.standing.dates import end_of_day, local_day
from quizkit.standing.events import Event
from quizkit.words import _

KNOWN = ("now", "then")


def crew_on(
    shop: Shop,
    now: dt.datetime,
    day: dt.date | None = None,
    known: str = "now",
    everybody: Iterable[PersonView] | None = None,
) -> Crew:
    """The people of the shop with their records on a day, by the settings in force on it; today where none is given.

    `known` is "now" (all rows, by the day they were seen) or "then" (only rows recorded by the end of that day).
    """
    close_overdue(shop, now=now)
    on = day_of(shop, now, day)
    there = tuple(people(shop) if everybody is None else everybody)
    members = [Person(str(one.person), one.site, one.role) for one in there]
    asked = None if everybody is None else [one.person for one in there]
    return crew(rows_known(shop, on, known, asked), scheme_on(shop, on), members, on)


def people_on(shop: Shop, day: dt.date) -> tuple[PersonView, ...]:
    """Who worked here at the end of a day, in the role and at the site of that day, by name."""
    then: dict[int, tuple[str, str]] = {}
    for row in shop.rows("admin"):
        if row["person"] is None or row["seen_on"] > day:
            continue
        if row["deed"] == "left":
            then.pop(row["person"], None)
        else:
            role, site = then.get(row["person"], ("", ""))
            then[row["person"]] = (row["role"] or role, row["site"] or site)
    titles = {site.id: site.title for site in sites(shop)}
    return tuple(
        replace(one, role=role, site=site, site_title=titles.get(site, site))
        for one in people(shop, with_left=True)
        if one.person in then
        for role, site in (then[one.person],)
    )


def day_of(shop: Shop, now: dt.datetime, day: dt.date | None) -> dt.date:
    """The day asked about, or today in the shop's zone. Refuses a day to come."""
    today = local_day(now, settings(shop).zone)
    if day is not None and day > today:
        raise Refusal(_("This day is still to come"), _("the weeks ahead stand under cover"))
    return day or today


def day_over(shop: Shop, day: dt.date) -> dt.datetime:
    """The last moment of a day in the zone that the shop's settings named then: no later change of it moves that."""
    return end_of_day(day, pack_on(shop, day).scheme.zone)


def rows_known(shop: Shop, day: dt.date, known: str, person: Whose = None) -> tuple[Event, ...]:
    """The evidence as known now, or as it was known at the end of a day."""
    if known not in KNOWN:
        raise Unknown(_("'{known}' is no way to look back").format(known=known[:20]), _("say 'now' or 'then'"))
    rows = events(shop, person)
    return rows if known == "now" else known_by(rows, day_over(shop, day))
