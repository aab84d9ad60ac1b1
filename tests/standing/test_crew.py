"""Matrix, cover now and ahead, people away, single holders, lapses to come, and who hangs on a row."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quizkit.standing.cover import cover, cover_ahead
from quizkit.standing.crew import Crew, Person, crew, hanging_on, lapses, matrix
from quizkit.standing.dates import Term
from quizkit.standing.events import CheckResult
from quizkit.standing.scheme import Scheme, Skill
from quizkit.standing.standing import standing

DAY_0 = dt.date(2025, 1, 1)
PEOPLE = (Person("ama", "north"), Person("bo", "north"), Person("cleo", "south"))


def at(days: int) -> dt.date:
    return DAY_0 + dt.timedelta(days=days)


@pytest.fixture
def rows(stories: Any) -> list[Any]:
    """Ama and Bo hold beads to days 365 and 380; Ama and Cleo hold ppe to days 365 and 370."""
    ama, bo, cleo = stories("ama"), stories("bo"), stories("cleo")
    ama.pair(0)
    ama.check(0, "ppe")
    bo.pair(15)
    cleo.check(5, "ppe")
    return [replace(row, id=f"{story.person}-{row.id}") for story in (ama, bo, cleo) for row in story.rows]


def work_out(rows: list[Any], scheme: Scheme, day: int) -> Crew:
    return crew(rows, scheme, PEOPLE, at(day))


def test_the_matrix_has_people_down_skills_across_and_the_same_standing_in_each_cell(rows: Any, scheme: Scheme) -> None:
    found = matrix(work_out(rows, scheme, 309))
    assert found.skills == ("ppe", "beads", "bonding")
    assert [[cell.word for cell in row.cells] for row in found.rows] == [
        ["lapsing", "lapsing", "not started"],
        ["not started", "cleared", "not started"],
        ["cleared", "not started", "not started"],
    ]
    for row in found.rows:
        for cell in row.cells:
            assert cell == standing(rows, scheme, row.person.id, cell.skill, at(309))


def test_the_matrix_shows_only_the_skills_asked_for(rows: Any, scheme: Scheme) -> None:
    found = matrix(work_out(rows, scheme, 20), scheme.job("panel").skills)
    assert found.skills == ("beads", "bonding")
    assert all(len(row.cells) == 2 for row in found.rows)


def test_cover_counts_the_cleared_of_a_site_against_those_wanted(rows: Any, scheme: Scheme) -> None:
    found = {(one.site, one.skill): one for one in cover(work_out(rows, scheme, 20))}
    assert found["north", "beads"].cleared == ("ama", "bo")
    assert (found["north", "beads"].wanted, found["north", "beads"].short) == (2, 0)
    assert found["south", "ppe"].cleared == ("cleo",)
    assert (found["south", "beads"].cleared, found["south", "beads"].short) == ((), 0)


def test_cover_with_someone_away_tells_what_is_short(rows: Any, scheme: Scheme) -> None:
    found = {(one.site, one.skill): one.short for one in cover(work_out(rows, scheme, 20), away={"ama"})}
    assert (found["north", "beads"], found["north", "ppe"]) == (1, 1)


def test_a_site_that_wants_people_and_has_none_is_short(scheme: Scheme) -> None:
    found = {(one.site, one.skill): one.short for one in cover(crew([], scheme, [], DAY_0))}
    assert found["north", "beads"] == 2


def test_the_weeks_ahead_show_the_fewest_of_each_week_and_the_first_short_day(rows: Any, scheme: Scheme) -> None:
    ahead = {(one.site, one.skill): one for one in cover_ahead(work_out(rows, scheme, 360))}
    beads = ahead["north", "beads"]
    assert len(beads.weeks) == 26
    assert [week.cleared for week in beads.weeks[:4]] == [1, 1, 1, 0]
    assert (beads.weeks[0].first, beads.weeks[0].last) == (at(360), at(366))
    assert beads.short_from == at(366)
    assert ahead["south", "ppe"].short_from is None


def test_lapses_to_come_are_listed_soonest_first(rows: Any, scheme: Scheme) -> None:
    found = lapses(work_out(rows, scheme, 300), at(371))
    assert [(one.day, one.standing.person, one.standing.skill) for one in found] == [
        (at(366), "ama", "beads"),
        (at(366), "ama", "ppe"),
        (at(371), "cleo", "ppe"),
    ]


def test_whoever_rests_on_a_row_hangs_on_it(rows: Any, scheme: Scheme) -> None:
    found = hanging_on(work_out(rows, scheme, 20), {"bo-r1", "cleo-r0"})
    assert [(one.person, one.skill) for one in found] == [("bo", "beads"), ("cleo", "ppe")]
    narrowed = hanging_on(work_out(rows, scheme, 20), {"bo-r1", "cleo-r0"}, ["ppe"])
    assert [(one.person, one.skill) for one in narrowed] == [("cleo", "ppe")]


@given(st.lists(st.tuples(st.sampled_from("abcd"), st.integers(0, 400)), max_size=12), st.integers(0, 400))
def test_the_weeks_ahead_agree_with_the_standing_worked_out_on_every_day(checks: Any, day: int) -> None:
    scheme = Scheme(skills=(Skill("ppe", Term(days=50)),), lapsing=20, cover=(("", "ppe", 2),))
    told = dt.datetime(2025, 1, 1, tzinfo=dt.UTC)
    rows = [
        CheckResult(id=f"r{n}", person=who, seen_on=at(seen), recorded_at=told, skill="ppe", passed=True)
        for n, (who, seen) in enumerate(checks)
    ]
    known = [row for row in rows if row.seen_on <= at(day)]
    (ahead,) = cover_ahead(crew(rows, scheme, [Person(who) for who in "abcd"], at(day)), count=9)

    def count(on: dt.date) -> int:
        return sum(standing(known, scheme, who, "ppe", on).clear for who in "abcd")

    each = {on: count(on) for on in (at(day + n) for n in range(63))}
    for week in ahead.weeks:
        assert week.cleared == min(each[week.first + dt.timedelta(days=n)] for n in range(7))
    assert ahead.short_from == next((on for on, n in each.items() if n < 2), None)
    fallen = [(on, n) for on, n in each.items() if n < 2 and n != each.get(on - dt.timedelta(days=1))]
    assert list(ahead.falls) == fallen, "each day that leaves fewer, with as many as are left then"
