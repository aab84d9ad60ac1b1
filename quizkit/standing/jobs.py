"""The morning question: this job, this material, today. Who may do it alone, who beside whom, and why not."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from quizkit.standing.crew import Crew, Person
from quizkit.standing.reasons import N_, Reason
from quizkit.standing.record import proofs_in_date
from quizkit.standing.scheme import Job
from quizkit.standing.standing import Standing
from quizkit.words import _


class JobError(ValueError):
    """A material that a kind of job does not allow; the text says what it asks for."""


@dataclass(frozen=True, slots=True)
class ForJob:
    """One person and one job.

    `because`: what keeps the person from doing it alone. `until`: the last day of being allowed alone, if nothing more
    happens. `beside`: who may stand with the person.
    """

    person: Person
    because: tuple[Reason, ...] = ()
    until: dt.date | None = None
    beside: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Morning:
    """Who may do a job today: alone, beside one who may, or not at all."""

    job: Job
    alone: tuple[ForJob, ...]
    beside: tuple[ForJob, ...]
    neither: tuple[ForJob, ...]


def who_may(crew: Crew, job: str, family: str = "", ratio: str = "") -> Morning:
    """Who may do a kind of job on the crew's day, with a material of a family and ratio (empty: as the job says).

    Alone: every skill of the job cleared; where a family or ratio is asked for, an endorsement for it in each of the
    job's skills that has a sheet; the job's outside proofs in date. Beside: every skill of the job allows it, and
    somebody at the same site may do the job alone. Raises SchemeError for an unknown job, JobError for a material that
    the job does not allow.
    """
    asked = crew.scheme.job(job)
    family, ratio = _material(asked, family, ratio)
    judged = [_judge(crew, asked, person, family, ratio) for person in crew.people]
    alone = [one for one, fit in judged if fit == "alone"]
    beside, neither = [], []
    for one, fit in judged:
        others = tuple(able.person.id for able in alone if able.person.site == one.person.site)
        if fit == "beside" and others:
            beside.append(ForJob(one.person, one.because, None, others))
        elif fit == "beside":
            nobody = Reason(N_("nobody at this site may do it alone today"))
            neither.append(ForJob(one.person, (*one.because, nobody)))
        elif fit == "not touch":
            neither.append(one)
    return Morning(asked, tuple(alone), tuple(beside), tuple(neither))


def _material(job: Job, family: str, ratio: str) -> tuple[str, str]:
    """The family and ratio to be endorsed: the material's own, held to what the job asks for."""
    if (job.family and family not in ("", job.family)) or (job.ratio and ratio not in ("", job.ratio)):
        text = _("'{job}' asks for {wanted}; this material is {got}: take the one that the procedure names")
        wanted = " ".join(word for word in (job.family, job.ratio) if word)
        got = " ".join(word for word in (family, ratio) if word)
        raise JobError(text.format(job=job.title or job.id, wanted=wanted, got=got))
    return family or job.family, ratio or job.ratio


def _judge(crew: Crew, job: Job, person: Person, family: str, ratio: str) -> tuple[ForJob, str]:
    """One person with the reasons against working alone, and which of the three it is."""
    scheme, found = crew.scheme, crew.records[person.id]
    cells = [crew.standing(person.id, skill) for skill in job.skills]
    because, ends = [], []
    for cell in cells:
        because += _against(crew, cell, family, ratio)
        ends += [cell.holds_until] if cell.holds_until else []
        ends += _endorsed_until(crew, cell, family, ratio)
    seen = proofs_in_date(found, job.proofs)
    absent = [kind for kind in job.proofs if kind not in {row.kind for row in seen}]
    because += [Reason(N_("{name} is not in date"), (("name", scheme.proof_title(kind)),)) for kind in absent]
    if not because:
        return ForJob(person, (), min([*ends, *(row.until for row in seen)], default=None)), "alone"
    allowed = all(cell.may != "not touch" for cell in cells)
    return ForJob(person, tuple(because)), "beside" if allowed else "not touch"


def _against(crew: Crew, cell: Standing, family: str, ratio: str) -> list[Reason]:
    """What one skill has against working alone."""
    title = crew.scheme.skill_title(cell.skill)
    if not cell.clear:
        return [Reason(N_("{name} is not cleared"), (("name", title),), cell.until)]
    if (family or ratio) and crew.scheme.skill(cell.skill).practical and not _endorsed_until(crew, cell, family, ratio):
        material = " ".join(word for word in (family, ratio) if word)
        return [Reason(N_("{name}: no sheet with {material}"), (("name", title), ("material", material)))]
    return []


def _endorsed_until(crew: Crew, cell: Standing, family: str, ratio: str) -> list[dt.date]:
    """The day to which the material asked for is endorsed; nothing where it is not, or none is asked for."""
    if not (family or ratio):
        return []
    days = [one.until for one in cell.endorsements if one.serves(family, ratio)]
    return [max(days)] if days else []
