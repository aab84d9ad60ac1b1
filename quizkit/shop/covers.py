"""Cover: how many are cleared against how many the shop wants, now and in the weeks ahead; and the morning question."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from quizkit.pack.model import Pack
from quizkit.shop.crews import crew_on, people_on
from quizkit.shop.handle import Shop
from quizkit.shop.label import field_text, on_shelf
from quizkit.shop.matrix import cover_note, may_manage
from quizkit.shop.packs import pack_on, settings, sites
from quizkit.shop.people import PersonView, people
from quizkit.shop.refusal import Refusal, Unknown
from quizkit.standing import cover as covers
from quizkit.standing.jobs import ForJob, JobError, who_may
from quizkit.standing.reasons import joined
from quizkit.standing.scheme import SchemeError
from quizkit.words import _


@dataclass(frozen=True, slots=True)
class CoverWeek:
    """The fewest people cleared on any day of a week, if nothing more happens."""

    first: dt.date
    cleared: int
    short: bool


@dataclass(frozen=True, slots=True)
class CoverRow:
    """A skill at a site: who is cleared now, how many are wanted, the weeks ahead and the first day short (or None).

    `falls` are the days that leave fewer than wanted, each with how many are left.
    """

    site: str
    site_title: str
    skill: str
    title: str
    cleared: tuple[str, ...]
    wanted: int
    note: str
    weeks: tuple[CoverWeek, ...]
    short_from: dt.date | None
    falls: tuple[tuple[dt.date, int], ...]


@dataclass(frozen=True, slots=True)
class CoverView:
    """The cover of the shop or a site. `away`: the people thought away; `single`: rows that one person holds alone."""

    day: dt.date
    site: str
    rows: tuple[CoverRow, ...]
    single: tuple[CoverRow, ...]
    away: tuple[tuple[int, str], ...]
    people: tuple[tuple[int, str], ...]
    sites: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class JobLine:
    """A kind of job."""

    id: str
    title: str


@dataclass(frozen=True, slots=True)
class JobPerson:
    """A person before a job: until when alone (if nothing more happens), beside whom, or why not."""

    person: int
    name: str
    site_title: str
    until: dt.date | None
    beside: tuple[str, ...]
    because: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class MorningView:
    """Who may do a job on a day: alone, beside one who may, or neither and why."""

    job: str
    title: str
    day: dt.date
    material: str
    site: str
    family: str
    ratio: str
    alone: tuple[JobPerson, ...]
    beside: tuple[JobPerson, ...]
    neither: tuple[JobPerson, ...]
    materials: tuple[str, ...]


def cover(
    shop: Shop,
    viewer: int,
    *,
    now: dt.datetime,
    site: str = "",
    weeks: int = covers.HALF_A_YEAR,
    away: Sequence[int] = (),
) -> CoverView:
    """The cover by site and skill, now and each coming week; what it would be with some people away."""
    may_manage(shop, viewer)
    everybody = people(shop)
    worked = crew_on(shop, now, everybody=everybody)
    gone = {str(number) for number in away}
    ahead = {(one.site, one.skill): one for one in covers.cover_ahead(worked, weeks, gone)}
    names = {str(one.person): one.name for one in everybody}
    titles = {one.id: one.title for one in sites(shop)}
    rows = []
    for one in covers.cover(worked, gone):
        later = ahead[one.site, one.skill]
        cells = tuple(CoverWeek(week.first, week.cleared, week.cleared < one.wanted) for week in later.weeks)
        cleared = tuple(names[person] for person in one.cleared)
        row = CoverRow(
            one.site,
            titles.get(one.site, one.site),
            one.skill,
            worked.scheme.skill_title(one.skill),
            cleared,
            one.wanted,
            cover_note(len(cleared), one.wanted),
            cells,
            later.short_from,
            later.falls,
        )
        rows += [row] if site in ("", one.site) else []
    return CoverView(
        day=worked.on,
        site=site,
        rows=tuple(rows),
        single=tuple(row for row in rows if len(row.cleared) == 1),
        away=tuple((one.person, one.name) for one in everybody if str(one.person) in gone),
        people=tuple((one.person, one.name) for one in everybody),
        sites=tuple(titles.items()),
    )


def jobs(shop: Shop, *, now: dt.datetime) -> tuple[JobLine, ...]:
    """The kinds of job that the shop knows."""
    return tuple(JobLine(one.id, one.title) for one in settings(shop).jobs)


def morning(
    shop: Shop,
    viewer: int,
    job: str,
    *,
    now: dt.datetime,
    material: str = "",
    site: str = "",
    day: dt.date | None = None,
) -> MorningView:
    """Who may do this job with this material today (or on a day that has been): alone, beside whom, and why not.

    Raises Unknown for a job or material that the shop does not know, Refusal for one that does not fit the other.
    """
    may_manage(shop, viewer)
    there = people(shop, site=site) if day is None else people_on(shop, day)
    everybody = {str(one.person): one for one in there if site in ("", one.site)}
    worked = crew_on(shop, now, day, everybody=everybody.values())
    pack = pack_on(shop, worked.on)
    family, ratio = _material(pack, material)
    try:
        asked = who_may(worked, job, family, ratio)
    except JobError as error:
        raise Refusal(str(error)) from None
    except SchemeError as error:
        raise Unknown(str(error)) from None
    kind = worked.scheme.job(job)
    return MorningView(
        job=job,
        title=kind.title or job,
        day=worked.on,
        material=material,
        site=site,
        family=family or kind.family,
        ratio=ratio or kind.ratio,
        alone=tuple(_person(everybody, one) for one in asked.alone),
        beside=tuple(_person(everybody, one) for one in asked.beside),
        neither=tuple(_person(everybody, one) for one in asked.neither),
        materials=_materials(pack, kind.family, kind.ratio, worked.on),
    )


def _material(pack: Pack, material: str) -> tuple[str, str]:
    """The family and ratio of a material; nothing where none is named."""
    if not material:
        return "", ""
    row = pack.shelf.row(material)
    if row is None:
        raise Unknown(_("There is no material '{name}'").format(name=material[:40]), _("pick one from the shelf"))
    return field_text(row, "family"), field_text(row, "ratio")


def _materials(pack: Pack, family: str, ratio: str, day: dt.date) -> tuple[str, ...]:
    """The materials on the shelf that day that fit a kind of job."""
    return tuple(
        row.name
        for row in on_shelf(pack, day)
        if family in ("", field_text(row, "family")) and ratio in ("", field_text(row, "ratio"))
    )


def _person(everybody: dict[str, PersonView], one: ForJob) -> JobPerson:
    view = everybody[one.person.id]
    return JobPerson(
        person=view.person,
        name=view.name,
        site_title=view.site_title,
        until=one.until,
        beside=tuple(everybody[other].name for other in one.beside),
        because=joined(one.because),
    )
