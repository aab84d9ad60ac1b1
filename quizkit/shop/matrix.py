"""The matrix: people down, skills across, a standing in each cell; and what stands behind a cell."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from quizkit.pack.model import Pack
from quizkit.shop.crews import crew_on, day_of, people_on
from quizkit.shop.handle import Shop
from quizkit.shop.packs import current_pack, in_order, pack_on, scheme_of, scheme_on, settings, sites
from quizkit.shop.people import PersonView, people, person_view
from quizkit.shop.projection import Cells, cells_today
from quizkit.shop.refusal import Forbidden, Unknown
from quizkit.shop.rights import SIGNING, entitled_on
from quizkit.shop.standings import StandingView, standing_view
from quizkit.standing.crew import Lapse, lapses
from quizkit.standing.dates import days_after
from quizkit.standing.reasons import joined
from quizkit.standing.scheme import Scheme
from quizkit.words import _, ngettext

HALF_A_YEAR = 182
MOST_SHORT = 3
"""Short sites that a cell of the cover names; of more it tells the number."""


@dataclass(frozen=True, slots=True)
class SkillHead:
    """A column of the matrix."""

    skill: str
    title: str


@dataclass(frozen=True, slots=True)
class MatrixRow:
    """A person's row; the cells stand in the order of the columns. `entitled`: to sign sheets of some skill."""

    person: int
    name: str
    role: str
    site: str
    site_title: str
    cells: tuple[StandingView, ...]
    entitled: bool = False


@dataclass(frozen=True, slots=True)
class CoverCell:
    """How many of the shown people are cleared for a skill, against how many the shown sites want.

    `note` says who is short: of several sites each one that is, even where all together have enough.
    """

    skill: str
    cleared: int
    wanted: int
    note: str


@dataclass(frozen=True, slots=True)
class Filters:
    """What was asked for, and what may be asked for: (id, title) pairs."""

    site: str
    role: str
    skill: str
    job: str
    sites: tuple[tuple[str, str], ...]
    roles: tuple[str, ...]
    skills: tuple[tuple[str, str], ...]
    jobs: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class MatrixView:
    """The matrix of a day. `known` is "now" or "then"."""

    day: dt.date
    today: bool
    known: str
    title: str
    skills: tuple[SkillHead, ...]
    rows: tuple[MatrixRow, ...]
    cover: tuple[CoverCell, ...]
    filters: Filters


@dataclass(frozen=True, slots=True)
class LapseView:
    """The first day on which somebody no longer counts as cleared for a skill."""

    person: int
    name: str
    site: str
    skill: str
    title: str
    day: dt.date
    note: str


def matrix(
    shop: Shop,
    viewer: int,
    *,
    now: dt.datetime,
    as_of: dt.date | None = None,
    known: str = "now",
    site: str = "",
    role: str = "",
    skill: str = "",
    job: str = "",
) -> MatrixView:
    """The matrix for a trainer or manager; an apprentice sees the own row only. Filters narrow rows and columns.

    Raises Unknown for a filter that the shop does not know, Refusal for a day to come.
    """
    looking = person_view(shop, viewer)
    shown = [
        one
        for one in (people(shop, site=site) if as_of is None else people_on(shop, as_of))
        if site in ("", one.site)
        and role in ("", one.role)
        and (looking.role in ("trainer", "manager") or one.person == viewer)
    ]
    day, cells = _cells(shop, now, as_of, known, shown)
    heads = matrix_heads(shop, now=now, as_of=as_of, skill=skill, job=job)
    scheme, across = scheme_on(shop, day), [head.skill for head in heads]
    signing = entitled_on(shop, [one.person for one in shown if one.role in SIGNING], day)
    rows = tuple(_row(cells[one.person], one, across, one.person in signing) for one in shown)
    return MatrixView(
        day=day,
        today=as_of is None,
        known=known,
        title=settings(shop).name,
        skills=heads,
        rows=rows,
        cover=_cover(scheme, rows, across, {one.id: one.title for one in sites(shop) if site in ("", one.id)}),
        filters=_filters(shop, site, role, skill, job),
    )


def matrix_heads(
    shop: Shop, *, now: dt.datetime, as_of: dt.date | None = None, skill: str = "", job: str = ""
) -> tuple[SkillHead, ...]:
    """The columns of the matrix of a day (today where none is given). Raises Unknown and Refusal as `matrix` does."""
    day = day_of(shop, now, as_of)
    scheme = scheme_on(shop, day)
    return tuple(SkillHead(each, scheme.skill_title(each)) for each in columns(pack_on(shop, day), skill, job))


def coming_lapses(shop: Shop, viewer: int, *, now: dt.datetime, days: int = HALF_A_YEAR) -> tuple[LapseView, ...]:
    """Who will no longer count as cleared within so many days, the soonest first: for the calendar of lapses."""
    may_manage(shop, viewer)
    worked = crew_on(shop, now)
    names = {one.person: one for one in people(shop)}
    return tuple(
        _lapse(shop, names[int(each.standing.person)], each) for each in lapses(worked, days_after(worked.on, days))
    )


def columns(pack: Pack, skill: str = "", job: str = "") -> tuple[str, ...]:
    """The skills shown: all of a pack, one, or those of a kind of job. Raises Unknown."""
    every = tuple(module.scheme.skill for module in in_order(pack))
    if skill:
        if skill not in every:
            raise Unknown(_("There is no skill '{skill}'").format(skill=skill[:40]), _("choose one from the matrix"))
        return (skill,)
    if job:
        for one in pack.scheme.jobs:
            if one.id == job:
                return one.skills
        raise Unknown(_("There is no kind of job '{job}'").format(job=job[:40]), _("choose one from the list"))
    return every


def may_manage(shop: Shop, viewer: int) -> PersonView:
    """The person behind `viewer`, who must be a trainer or a manager."""
    view = person_view(shop, viewer)
    if view.left or view.role not in ("trainer", "manager"):
        raise Forbidden(_("This page is for trainers and managers"), _("go back to your own ticket"))
    return view


def _cells(
    shop: Shop, now: dt.datetime, as_of: dt.date | None, known: str, shown: Sequence[PersonView]
) -> tuple[dt.date, Mapping[int, Cells]]:
    """The day, and each shown person's standings by skill: those of today are kept, others are worked out anew."""
    if as_of is None and known == "now":
        return cells_today(shop, shown, now)
    worked = crew_on(shop, now, as_of, known, shown)
    cells = {
        one.person: {skill: standing_view(worked.standing(str(one.person), skill)) for skill in worked.scheme.by_id}
        for one in shown
    }
    return worked.on, cells


def _row(cells: Cells, one: PersonView, across: Sequence[str], entitled: bool) -> MatrixRow:
    shown = tuple(cells[skill] for skill in across)
    return MatrixRow(one.person, one.name, one.role, one.site, one.site_title, shown, entitled)


def _cover(
    scheme: Scheme, rows: Sequence[MatrixRow], across: Sequence[str], places: Mapping[str, str]
) -> tuple[CoverCell, ...]:
    """The last row: over all shown sites, with the short ones named, since what one has too many helps no other."""
    wanted: dict[str, Counter[str]] = {skill: Counter() for skill in across}
    for place, skill, count in scheme.cover:
        if place in places and skill in wanted:
            wanted[skill][place] += count
    cells = []
    for column, skill in enumerate(across):
        cleared = Counter(row.site for row in rows if row.cells[column].clear)
        here, all_wanted = cleared.total(), wanted[skill].total()
        notes = [
            f"{places[place]}: {cover_note(cleared[place], count)}"
            for place, count in wanted[skill].items()
            if cleared[place] < count
        ]
        more = len(notes) - MOST_SHORT
        if more > 0:
            notes[MOST_SHORT:] = [
                ngettext("{count} more site short", "{count} more sites short", more).format(count=more)
            ]
        note = "; ".join(notes) if len(places) > 1 and notes else cover_note(here, all_wanted)
        cells.append(CoverCell(skill, here, all_wanted, note))
    return tuple(cells)


def cover_note(cleared: int, wanted: int) -> str:
    """A word to a cover: short by how many, or one person alone."""
    if cleared < wanted:
        return ngettext("one short", "{count} short", wanted - cleared).format(count=wanted - cleared)
    return _("one person alone") if cleared == 1 else ""


def _filters(shop: Shop, site: str, role: str, skill: str, job: str) -> Filters:
    scheme = scheme_of(shop)
    return Filters(
        site=site,
        role=role,
        skill=skill,
        job=job,
        sites=tuple((one.id, one.title) for one in sites(shop)),
        roles=("apprentice", "technician", "trainer", "manager"),
        skills=tuple((each, scheme.skill_title(each)) for each in columns(current_pack(shop))),
        jobs=tuple((one.id, one.title) for one in settings(shop).jobs),
    )


def _lapse(shop: Shop, person: PersonView, one: Lapse) -> LapseView:
    skill = one.standing.skill
    title = scheme_of(shop).skill_title(skill)
    why = ", ".join(joined(one.standing.because))
    return LapseView(person.person, person.name, person.site, skill, title, one.day, why)
