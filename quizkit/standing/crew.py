"""The people of a shop, each worked out once for a day: what matrix, cover, jobs and plans are read from."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass

from quizkit.standing.counting import by_person
from quizkit.standing.events import Event
from quizkit.standing.record import Record, record
from quizkit.standing.scheme import Scheme
from quizkit.standing.standing import Standing, standing_of


@dataclass(frozen=True, slots=True)
class Person:
    """A person as standing needs them: an id, the site, and the role."""

    id: str
    site: str = ""
    role: str = ""


@dataclass(frozen=True, slots=True)
class Crew:
    """People and their records on a day."""

    on: dt.date
    scheme: Scheme
    people: tuple[Person, ...]
    records: Mapping[str, Record]

    def standing(self, person: str, skill: str) -> Standing:
        """One person's standing in one skill."""
        return standing_of(self.records[person], self.scheme, skill)


@dataclass(frozen=True, slots=True)
class MatrixRow:
    """A person's standings, in the order of the matrix's skills."""

    person: Person
    cells: tuple[Standing, ...]


@dataclass(frozen=True, slots=True)
class Matrix:
    """People down, skills across, a standing in each cell."""

    on: dt.date
    skills: tuple[str, ...]
    rows: tuple[MatrixRow, ...]


@dataclass(frozen=True, slots=True)
class Lapse:
    """The first day on which a person no longer counts as cleared for a skill, with the standing that says why."""

    day: dt.date
    standing: Standing


def crew(events: Iterable[Event], scheme: Scheme, people: Iterable[Person], on: dt.date) -> Crew:
    """Works out everybody for a day. Rows of people who are not among `people` are left aside."""
    everybody = tuple(people)
    rows = by_person(events)
    records = {person.id: record(rows.get(person.id, ()), scheme, person.id, on) for person in everybody}
    return Crew(on, scheme, everybody, records)


def matrix(crew: Crew, skills: Collection[str] = ()) -> Matrix:
    """The matrix of a crew, over all skills of the scheme or some of them (those of a kind of job, say)."""
    across = tuple(skills) or tuple(crew.scheme.by_id)
    rows = (MatrixRow(person, tuple(crew.standing(person.id, skill) for skill in across)) for person in crew.people)
    return Matrix(crew.on, across, tuple(rows))


def lapses(crew: Crew, through: dt.date) -> tuple[Lapse, ...]:
    """Who will no longer count as cleared, up to and including a day, the soonest first."""
    found = [
        Lapse(cell.holds_until + dt.timedelta(days=1), cell)
        for row in matrix(crew).rows
        for cell in row.cells
        if cell.holds_until is not None and cell.holds_until < through
    ]
    return tuple(sorted(found, key=lambda one: (one.day, one.standing.person, one.standing.skill)))


def hanging_on(crew: Crew, rows: Collection[str], skills: Collection[str] = ()) -> tuple[Standing, ...]:
    """Every standing that rests on one of some rows (ids): who else hangs on a signer's sheets, a check, a proof.

    Over all skills of the scheme, or some of them.
    """
    sought = frozenset(rows)
    return tuple(
        cell
        for row in matrix(crew, skills).rows
        for cell in row.cells
        if not sought.isdisjoint(cell.evidence) or any(one.sheet in sought for one in cell.endorsements)
    )
