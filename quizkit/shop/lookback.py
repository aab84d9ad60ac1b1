"""Looking back on a job: who had a hand in it, what stood then, on what evidence, and who else hangs on it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from quizkit.pack.shown import day as day_words
from quizkit.shop.allowed import Allowed, allowed
from quizkit.shop.crews import crew_on, day_of
from quizkit.shop.evidence import events
from quizkit.shop.handle import Shop, Stored
from quizkit.shop.hands import Hand, Past, past_of, skills_then
from quizkit.shop.hanging import Also, also, jobs_of_lot
from quizkit.shop.label import ShelfLabel, shelf_label
from quizkit.shop.packs import module_of, pack_of, publication_on, shop_name
from quizkit.shop.people import person_view, trainer
from quizkit.shop.refusal import Refusal, Unknown
from quizkit.shop.tickets import JobView, job_view
from quizkit.words import _


@dataclass(frozen=True, slots=True)
class MaterialThen:
    """The shelf row of a material in force on a day, and the pack it stood in."""

    day: dt.date
    label: ShelfLabel
    published: dt.date
    pack: str


@dataclass(frozen=True, slots=True)
class LookbackView:
    """What stood for a job in the past. `asked` are the words that were looked for; `position` and `seal` the head.

    `jobs` are the tickets that fit; where none was asked for by ticket or lot and none is on file, there are only
    `hands`. `listed` says that the jobs are too many to be followed at once: they are only listed.
    """

    shop: str
    asked: tuple[tuple[str, str], ...]
    jobs: tuple[JobView, ...]
    listed: bool
    allowed: tuple[Allowed, ...]
    hands: tuple[Hand, ...]
    materials: tuple[MaterialThen, ...]
    others: tuple[Also, ...]
    position: int
    seal: str
    made_at: dt.datetime
    made_by: str


def lookback(
    shop: Shop,
    viewer: int,
    *,
    now: dt.datetime,
    person: int | None = None,
    material: str = "",
    day: dt.date | None = None,
    ticket: str = "",
    lot: str = "",
    skill: str = "",
    most: int = 0,
) -> LookbackView:
    """Look back by person, material, day, ticket or lot, or several of them; `skill` narrows it to one skill.

    For trainers and managers. More jobs than `most` (0: however many) are listed and not followed further. A person
    without a ticket on file is looked back on for the day (today where none is given). Raises Unknown where nothing on
    file fits, Refusal where nothing was asked or the day is to come.
    """
    looking = trainer(shop, viewer)
    ticket, lot, material = (" ".join(text.split()) for text in (ticket, lot, material))
    if person is None and not (material or day or ticket or lot):
        raise Refusal(_("Nothing was asked for"), _("name a ticket, a lot, a person, a material or a day"))
    on = day_of(shop, now, day)
    rows = _jobs(shop, person, material, day, ticket, lot)
    if not rows and (person is None or ticket or lot):
        raise Unknown(
            _nothing(person, material, day, ticket, lot), _("read the ticket again, or look by the day alone")
        )
    jobs, evidence = tuple(job_view(shop, row) for row in rows), events(shop)
    listed = 0 < most < len(jobs)
    followed = () if listed else jobs
    days = {each: past_of(shop, each, evidence) for each in sorted({job.done_on for job in followed} or {on})}
    hands = () if listed else _hands(shop, viewer, jobs, person, on, skill, days, now)
    head = shop.records.head()
    return LookbackView(
        shop=shop_name(shop),
        asked=_asked(shop, person, material, day, ticket, lot, skill),
        jobs=jobs,
        listed=listed,
        allowed=tuple(one for past in days.values() for one in allowed(shop, followed, past)),
        hands=hands,
        materials=() if listed else _materials(shop, jobs, material, on),
        others=() if listed else also(shop, hands, jobs, crew_on(shop, now)),
        position=head.position,
        seal=head.seal,
        made_at=now,
        made_by=looking.name,
    )


def _jobs(shop: Shop, person: int | None, material: str, day: dt.date | None, ticket: str, lot: str) -> list[Stored]:
    """The jobs that fit all that was asked for, in the order of their days."""
    wanted = {"ticket": ticket} if ticket else {}
    rows = shop.rows("job", **wanted, **({"done_on": day} if day else {}))
    if person is not None:
        person_view(shop, person)
        rows = [row for row in rows if person in (row["person"], row["beside"])]
    if lot:
        of_lot = jobs_of_lot(shop, lot)
        rows = [row for row in rows if row["id"] in of_lot]
    if material:
        sought = material.casefold()
        with_it = {row["job"] for row in shop.rows("job_use") if row["material"].casefold() == sought}
        rows = [row for row in rows if row["id"] in with_it]
    return sorted(rows, key=lambda row: (row["done_on"], row["id"]))


def _nothing(person: int | None, material: str, day: dt.date | None, ticket: str, lot: str) -> str:
    if ticket and not (lot or material or day or person):
        return _("There is no ticket '{ticket}' on file").format(ticket=ticket[:60])
    if lot and not (ticket or material or day or person):
        return _("There is no lot '{lot}' on any ticket").format(lot=lot[:60])
    return _("No job on file fits all that was asked for")


def _asked(
    shop: Shop, person: int | None, material: str, day: dt.date | None, ticket: str, lot: str, skill: str
) -> tuple[tuple[str, str], ...]:
    words = (
        (_("Ticket"), ticket),
        (_("Lot"), lot),
        (_("Person"), person_view(shop, person).name if person is not None else ""),
        (_("Material"), material),
        (_("Day"), day_words(day) if day else ""),
        (_("Skill"), skill),
    )
    return tuple((title, text) for title, text in words if text)


def _hands(
    shop: Shop,
    viewer: int,
    jobs: Sequence[JobView],
    person: int | None,
    on: dt.date,
    skill: str,
    days: dict[dt.date, Past],
    now: dt.datetime,
) -> tuple[Hand, ...]:
    """Everybody who did one of the jobs or stood beside; without a job, the person asked about."""
    parts: dict[tuple[dt.date, int], list[tuple[str, JobView | None]]] = {}
    for job in jobs:
        parts.setdefault((job.done_on, job.person), []).append(("did it", job))
        if job.beside is not None:
            parts.setdefault((job.done_on, job.beside), []).append(("beside", job))
    if not jobs and person is not None:
        parts[on, person] = [("asked", None)]
    return tuple(_hand(shop, viewer, who, skill, days[day], part, now) for (day, who), part in parts.items())


def _hand(
    shop: Shop,
    viewer: int,
    person: int,
    skill: str,
    past: Past,
    parts: Sequence[tuple[str, JobView | None]],
    now: dt.datetime,
) -> Hand:
    view = person_view(shop, person)
    jobs = [job for _part, job in parts if job is not None]
    return Hand(
        person=person,
        name=view.name,
        role=view.role,
        site_title=view.site_title,
        left=view.left,
        day=past.day,
        part="did it" if any(part == "did it" for part, _job in parts) else parts[0][0],
        tickets=tuple(dict.fromkeys(job.ticket for job in jobs)),
        skills=skills_then(shop, viewer, person, _skills(shop, past, jobs, person, skill), past, now),
    )


def _skills(shop: Shop, past: Past, jobs: Sequence[JobView], person: int, skill: str) -> Iterable[str]:
    """The skills to look at: the one asked for, those of the jobs, else all in which the person has anything."""
    pack = pack_of(shop, past.hash)
    if skill:
        return (module_of(pack, skill).scheme.skill,)
    asked = {each for job in jobs for one in pack.scheme.jobs if one.id == job.job for each in one.skills}
    asked = asked or {
        getattr(row, "skill", "") for row in past.by_person.get(str(person), ()) if row.seen_on <= past.day
    }
    return [module.scheme.skill for module in pack.modules if module.scheme.skill in asked]


def _materials(shop: Shop, jobs: Sequence[JobView], material: str, on: dt.date) -> tuple[MaterialThen, ...]:
    """The shelf rows in force on the days of the jobs; of the material asked for, where there is no job."""
    names = [(job.done_on, use.material) for job in jobs for use in job.uses] or ([(on, material)] if material else [])
    found = []
    for day, name in dict.fromkeys(names):
        published = publication_on(shop, day)
        pack = pack_of(shop, published["pack"])
        row = next((row for row in pack.shelf.rows if row.name.casefold() == name.casefold()), None)
        if row is not None:
            found.append(MaterialThen(day, shelf_label(pack, row), published["seen_on"], published["pack"]))
    return tuple(found)
