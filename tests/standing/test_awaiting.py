"""Which passed check a sheet is still to come for: one rule for the standing, the gate and the trainers' list."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import Any

import pytest

from quizkit.standing.awaiting import sheet_awaited
from quizkit.standing.record import record

DAY_0 = dt.date(2025, 1, 1)


def awaited(story: Any, day: int, skill: str = "beads") -> tuple[str, int] | None:
    """The id of the check that waits, and its last day counted from the first one."""
    on = DAY_0 + dt.timedelta(days=day)
    one = sheet_awaited(record(story.rows, story.scheme, story.person, on), story.scheme, skill)
    return None if one is None else (one.check.id, (one.until - DAY_0).days)


def test_a_passed_full_check_awaits_its_sheet_as_long_as_a_pair_may_take(story: Any) -> None:
    check = story.check(0)
    assert [awaited(story, day) for day in (0, 90, 91)] == [(check, 90), (check, 90), None]


def test_with_its_sheet_a_check_awaits_nothing_more(story: Any) -> None:
    story.pair(0)
    assert awaited(story, 1) is None
    story.check(2)
    assert awaited(story, 2) is None


def test_a_skill_without_a_sheet_awaits_none(story: Any) -> None:
    story.check(0, "ppe", critical=True)
    story.check(1, "ppe")
    assert awaited(story, 1, "ppe") is None


def test_a_check_from_before_a_critical_fail_awaits_no_sheet(story: Any) -> None:
    story.check(0)
    story.check(5, critical=True)
    assert awaited(story, 6) is None
    again = story.check(10)
    assert awaited(story, 11) == (again, 100)


def test_a_difference_check_makes_no_pair_and_awaits_no_sheet(story: Any) -> None:
    story.check(0, form="difference")
    assert awaited(story, 1) is None
    story.sheet(2)
    assert story.word(3) == "learning"


@pytest.mark.parametrize(("check", "last"), [(310, 365), (306, 365)])
def test_a_renewal_check_awaits_its_sheet_to_the_end_of_what_it_renews(story: Any, check: int, last: int) -> None:
    story.pair(0)
    row = story.check(check, form="renewal")
    assert awaited(story, check) == (row, last)
    assert awaited(story, 366) is None
    story.sheet(330)
    assert awaited(story, 331) is None


def test_a_renewal_check_awaits_its_sheet_no_longer_than_a_pair_may_take(story: Any) -> None:
    story.scheme = replace(story.scheme, pair_within=10)
    story.pair(0)
    row = story.check(320, form="renewal")
    assert [awaited(story, day) for day in (330, 331)] == [(row, 330), None]


def test_a_renewal_check_outside_the_window_awaits_no_sheet(story: Any) -> None:
    story.check(0, form="renewal")
    story.pair(10)
    story.check(100, form="renewal")
    assert awaited(story, 101) is None


def test_what_a_withdrawal_took_away_awaits_no_sheet(story: Any) -> None:
    story.check(0)
    story.end_withdrawal(20, story.withdraw(10))
    assert awaited(story, 21) is None
