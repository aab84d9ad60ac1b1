"""Whether somebody might do a job with its material on its day, as then known and as now known."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from quizkit.pack.model import Pack
from quizkit.pack.shown import day as day_words
from quizkit.shop.handle import Shop
from quizkit.shop.hands import Past
from quizkit.shop.label import field_text
from quizkit.shop.packs import pack_of, scheme_in
from quizkit.shop.people import people, person_view
from quizkit.shop.tickets import JobView
from quizkit.standing.counting import known_by
from quizkit.standing.crew import Crew, Person, crew
from quizkit.standing.events import Event
from quizkit.standing.jobs import JobError, who_may
from quizkit.standing.scheme import SchemeError
from quizkit.words import _


@dataclass(frozen=True, slots=True)
class Allowed:
    """Whether somebody might do a job with its material on its day, as then known and as now known, in words."""

    ticket: str
    title: str
    day: dt.date
    name: str
    material: str
    then: str
    now: str


def allowed(shop: Shop, jobs: Sequence[JobView], past: Past) -> tuple[Allowed, ...]:
    """The morning question asked again for each job of a day that is looked back on."""
    then, now = _crew(shop, past, known_by(past.rows, past.end)), _crew(shop, past, past.rows)
    found = []
    for job in (one for one in jobs if one.done_on == past.day):
        material, family, ratio = _worked_with(pack_of(shop, past.hash), job)
        words = [_may(shop, crew, job, family, ratio) for crew in (then, now)]
        found.append(Allowed(job.ticket, job.title, job.done_on, job.name, material, words[0], words[1]))
    return tuple(found)


def _crew(shop: Shop, past: Past, rows: Iterable[Event]) -> Crew:
    """Everybody who ever worked here, worked out for the day by the settings in force on it."""
    everybody = [Person(str(one.person), one.site, one.role) for one in people(shop, with_left=True)]
    return crew(rows, scheme_in(shop, past.hash), everybody, past.day)


def _worked_with(pack: Pack, job: JobView) -> tuple[str, str, str]:
    """The material by which a job is judged, with family and ratio: the one its kind asks for, else the first."""
    asked = next((one.family for one in pack.scheme.jobs if one.id == job.job), "")
    rows = [row for use in job.uses if (row := pack.shelf.row(use.material)) is not None]
    fitting = [row for row in rows if field_text(row, "family") == asked] or rows
    if not fitting:
        return "", "", ""
    return fitting[0].name, field_text(fitting[0], "family"), field_text(fitting[0], "ratio")


def _may(shop: Shop, crew: Crew, job: JobView, family: str, ratio: str) -> str:
    """What the morning question would have said of the person who did it, in words."""
    try:
        asked = who_may(crew, job.job, family, ratio)
    except (JobError, SchemeError) as error:
        return str(error)
    who = str(job.person)
    for one in asked.alone:
        if one.person.id == who:
            return _("alone, to {day}").format(day=day_words(one.until)) if one.until else _("alone")
    for one in asked.beside:
        if one.person.id == who:
            names = ", ".join(person_view(shop, int(other)).name for other in one.beside)
            why = "; ".join(reason.words() for reason in one.because)
            return _("only beside {names}: {why}").format(names=names, why=why)
    why = "; ".join(reason.words() for one in asked.neither if one.person.id == who for reason in one.because)
    return _("not: {why}").format(why=why) if why else _("not")
