"""Cover: how many people are cleared for a skill at a site, against how many the shop wants, now and ahead."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Iterator
from dataclasses import dataclass

from quizkit.standing.crew import Crew
from quizkit.standing.dates import days_after, weeks
from quizkit.standing.spans import holding

HALF_A_YEAR = 26


@dataclass(frozen=True, slots=True)
class Cover:
    """Who is cleared for a skill at a site, and how many people the shop wants there."""

    site: str
    skill: str
    wanted: int
    cleared: tuple[str, ...]

    @property
    def short(self) -> int:
        """How many people are missing; 0 where there are enough."""
        return max(0, self.wanted - len(self.cleared))


@dataclass(frozen=True, slots=True)
class Week:
    """The fewest people cleared on any day of a week, if nothing more happens."""

    first: dt.date
    last: dt.date
    cleared: int


@dataclass(frozen=True, slots=True)
class Ahead:
    """The weeks to come of one skill at one site.

    `falls` are the days on which there are fewer than wanted, or fewer still, each with how many are left.
    """

    site: str
    skill: str
    wanted: int
    weeks: tuple[Week, ...]
    falls: tuple[tuple[dt.date, int], ...]

    @property
    def short_from(self) -> dt.date | None:
        """The first day with fewer than wanted, or None."""
        return self.falls[0][0] if self.falls else None


@dataclass(frozen=True, slots=True)
class _Place:
    """One skill at one site: who is cleared today, each with the last day of it."""

    site: str
    skill: str
    wanted: int
    holders: tuple[tuple[str, dt.date], ...]

    def on(self, day: dt.date) -> int:
        """How many are still cleared on a day to come: nothing known today can make anyone cleared later."""
        return sum(last >= day for _person, last in self.holders)


def cover(crew: Crew, away: Collection[str] = ()) -> tuple[Cover, ...]:
    """The cover of each site and skill today; what it would be with some people away."""
    return tuple(
        Cover(place.site, place.skill, place.wanted, tuple(person for person, _last in place.holders))
        for place in _places(crew, away)
    )


def cover_ahead(crew: Crew, count: int = HALF_A_YEAR, away: Collection[str] = ()) -> tuple[Ahead, ...]:
    """The cover of each site and skill in each of the coming weeks, today's first."""
    through = days_after(crew.on, 7 * count - 1)
    spans = tuple(weeks(crew.on, through))
    return tuple(
        Ahead(
            place.site,
            place.skill,
            place.wanted,
            tuple(Week(first, last, place.on(last)) for first, last in spans),
            _falls(place, crew.on, through),
        )
        for place in _places(crew, away)
    )


def _places(crew: Crew, away: Collection[str]) -> Iterator[_Place]:
    """Every skill at every site that has people or wants some, in the order of sites and skills."""
    wanted = {(site, skill): count for site, skill, count in crew.scheme.cover}
    people: dict[str, list[str]] = {site: [] for site, _skill in wanted}
    for person in crew.people:
        people.setdefault(person.site, []).append(person.id)
    for site in sorted(people):
        there = [crew.records[person] for person in people[site] if person not in away]
        for skill in crew.scheme.by_id:
            spans = ((found.person, holding(found.held[skill].counted, crew.on)) for found in there)
            holders = tuple((person, span[1]) for person, span in spans if span is not None)
            yield _Place(site, skill, wanted.get((site, skill), 0), holders)


def _falls(place: _Place, on: dt.date, through: dt.date) -> tuple[tuple[dt.date, int], ...]:
    """The days up to and including `through` that leave fewer people than wanted: today, and the day after an end."""
    turns = sorted({on, *(days_after(last, 1) for _person, last in place.holders if last < through)})
    return tuple((day, place.on(day)) for day in turns if place.on(day) < place.wanted)
