"""Who next: the cheapest training, renewals and papers that keep the cover wanted, a line each with its reason."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from quizkit.pack.model import Module
from quizkit.shop.crews import crew_on
from quizkit.shop.handle import Shop, chosen
from quizkit.shop.matrix import may_manage
from quizkit.shop.packs import current_pack, settings, sites
from quizkit.shop.people import PersonView, people
from quizkit.shop.refusal import Refusal
from quizkit.shop.strip import lessons_read
from quizkit.shop.terms import MINUTES_A_QUESTION
from quizkit.standing import plan as plans
from quizkit.standing.cover import HALF_A_YEAR
from quizkit.standing.crew import Crew
from quizkit.standing.reasons import Reason
from quizkit.words import _

MOST_WEEKS = 104


@dataclass(frozen=True, slots=True)
class PlanRow:
    """One thing to do: who, what ("train", "renew" or "proof"), how many minutes, from when, by when, and why."""

    person: int
    name: str
    site: str
    site_title: str
    kind: str
    skill: str
    title: str
    minutes: int
    start: dt.date
    by: dt.date
    reason: str


@dataclass(frozen=True, slots=True)
class PlanShort:
    """Cover that nobody at a site could give: fewer people than wanted can hold the skill in time."""

    site_title: str
    title: str
    wanted: int
    reachable: int


@dataclass(frozen=True, slots=True)
class PlanView:
    """The cheapest plan from `day` through a day. `exact`: it is proven that there is no cheaper one."""

    day: dt.date
    through: dt.date
    site: str
    weeks: int
    rows: tuple[PlanRow, ...]
    short: tuple[PlanShort, ...]
    minutes: int
    exact: bool
    wanted: bool
    spared: tuple[tuple[int, str], ...]
    people: tuple[tuple[int, str], ...]
    sites: tuple[tuple[str, str], ...]


def plan(
    shop: Shop,
    viewer: int,
    *,
    now: dt.datetime,
    site: str = "",
    weeks: int = HALF_A_YEAR,
    spared: Sequence[int] = (),
) -> PlanView:
    """The cheapest plan that keeps cover for so many weeks, of one site where it is named.

    `spared` people are asked for nothing; what they hold counts as long as they hold it. What somebody has read of a
    module already is time saved. Raises Unknown for a site that the shop has not, Refusal for weeks out of reach.
    """
    may_manage(shop, viewer)
    titles = {one.id: one.title for one in sites(shop)}
    if site:
        chosen(tuple(titles), site, _("site"))
    if not 1 <= weeks <= MOST_WEEKS:
        raise Refusal(_("A plan looks 1 to {most} weeks ahead").format(most=MOST_WEEKS), _("choose fewer weeks"))
    everybody = people(shop)
    worked = crew_on(shop, now, everybody=everybody)
    minutes = {(str(one.person), skill): left for one in everybody for skill, left in _left(shop, worked, one)}
    made = plans.plan(worked, minutes, weeks, {str(number) for number in spared})
    names = {str(one.person): one.name for one in everybody}
    rows = tuple(_row(shop, worked, line, names, titles) for line in made.lines if site in ("", line.site))
    return PlanView(
        day=made.on,
        through=made.through,
        site=site,
        weeks=weeks,
        rows=rows,
        short=tuple(
            PlanShort(titles.get(one.site, one.site), worked.scheme.skill_title(one.skill), one.wanted, one.reachable)
            for one in made.short
            if site in ("", one.site)
        ),
        minutes=sum(row.minutes for row in rows),
        exact=made.exact,
        wanted=any(count for at, _skill, count in worked.scheme.cover if site in ("", at)),
        spared=tuple((one.person, one.name) for one in everybody if one.person in spared),
        people=tuple((one.person, one.name) for one in everybody),
        sites=tuple(titles.items()),
    )


def _left(shop: Shop, crew: Crew, person: PersonView) -> list[tuple[str, int]]:
    """The minutes that a person who is still learning has left in each skill: lessons unread, the check, the sheet."""
    found = []
    for module in current_pack(shop).modules:
        scheme = module.scheme
        if crew.standing(str(person.person), scheme.skill).word in ("not started", "learning"):
            sheet = scheme.sheet_minutes if scheme.practical else 0
            found.append((scheme.skill, _unread(shop, person.person, module) + sheet))
    return found


def _unread(shop: Shop, person: int, module: Module) -> int:
    """What is left of a module's minutes: no less than its check takes."""
    scheme, lessons = module.scheme, len(module.lessons)
    check = min(scheme.minutes, MINUTES_A_QUESTION * sum(count for _topic, count in scheme.check.topics))
    read = len(lessons_read(shop, person, module))
    return max(check, scheme.minutes - scheme.minutes * read // lessons) if lessons else scheme.minutes


def _row(shop: Shop, crew: Crew, line: plans.PlanLine, names: dict[str, str], titles: dict[str, str]) -> PlanRow:
    proofs = {proof.id: proof.title for proof in settings(shop).proofs}
    return PlanRow(
        person=int(line.person),
        name=names[line.person],
        site=line.site,
        site_title=titles.get(line.site, line.site),
        kind=line.kind,
        skill="" if line.kind == "proof" else line.name,
        title=proofs.get(line.name, line.name) if line.kind == "proof" else crew.scheme.skill_title(line.name),
        minutes=line.minutes,
        start=line.start,
        by=line.by,
        reason=_because(line.because),
    )


def _because(reasons: Sequence[Reason]) -> str:
    """The reasons in words, those that say the same told once with all their names."""
    names: dict[str, list[str]] = {}
    for reason in reasons:
        names.setdefault(reason.text, []).extend(name for _key, name in reason.names)
    return "; ".join(Reason(text, (("name", ", ".join(each)),)).words() for text, each in names.items())
