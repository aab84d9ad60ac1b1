"""Months, month ends and zones."""

import datetime as dt

import pytest
from dateutil import tz
from dateutil.relativedelta import relativedelta
from hypothesis import given
from hypothesis import strategies as st

from quizkit.standing.dates import CalendarError, Term, after, end_of_day, local_day, weeks

# Worked out with python-dateutil's relativedelta (computed).
MONTH_ENDS = [
    ("2005-01-31", 1, "2005-02-28"),
    ("2004-01-31", 1, "2004-02-29"),
    ("2024-02-29", 12, "2025-02-28"),
    ("2025-08-31", 6, "2026-02-28"),
    ("2025-11-30", 3, "2026-02-28"),
]


@pytest.mark.parametrize(("start", "months", "end"), MONTH_ENDS)
def test_a_month_that_is_too_short_ends_on_its_last_day(start: str, months: int, end: str) -> None:
    assert after(dt.date.fromisoformat(start), Term(months=months)) == dt.date.fromisoformat(end)


def test_a_month_twice_is_not_two_months() -> None:
    start, month = dt.date(2025, 1, 31), Term(months=1)
    assert after(after(start, month), month) == dt.date(2025, 3, 28)
    assert after(start, Term(months=2)) == dt.date(2025, 3, 31)


@given(
    st.dates(max_value=dt.date(9000, 1, 1)),
    st.integers(min_value=0, max_value=2400),
    st.integers(min_value=0, max_value=4000),
)
def test_months_and_days_agree_with_dateutil(start: dt.date, months: int, days: int) -> None:
    assert after(start, Term(months, days)) == start + relativedelta(months=months, days=days)


def test_a_day_past_the_calendar_is_refused_with_the_day_in_the_words() -> None:
    with pytest.raises(CalendarError, match="9999-06-01 and 12 months"):
        after(dt.date(9999, 6, 1), Term(months=12))


def test_a_term_does_not_run_backwards() -> None:
    with pytest.raises(CalendarError, match="forward"):
        Term(months=-1)


def test_the_day_is_the_site_s_own() -> None:
    moment = dt.datetime(2026, 3, 1, 2, 30, tzinfo=dt.UTC)
    assert local_day(moment, "America/Denver") == dt.date(2026, 2, 28)
    assert local_day(moment, "UTC") == dt.date(2026, 3, 1)
    assert local_day(dt.datetime(2025, 12, 31, 23, tzinfo=dt.UTC), "Asia/Tokyo") == dt.date(2026, 1, 1)


@given(
    st.dates(min_value=dt.date(1975, 1, 1), max_value=dt.date(2100, 1, 1)),
    st.sampled_from(["UTC", "America/Denver", "Europe/Lisbon", "Asia/Kolkata", "Pacific/Auckland", "America/Havana"]),
)
def test_the_last_moment_of_a_day_is_on_that_day_and_the_next_is_not(day: dt.date, zone: str) -> None:
    last = end_of_day(day, zone)
    assert local_day(last, zone) == day
    assert local_day(last + dt.timedelta(microseconds=1), zone) == day + dt.timedelta(days=1)


@given(
    st.datetimes(dt.datetime(1975, 1, 1), dt.datetime(2035, 1, 1), timezones=st.just(dt.UTC)),
    st.sampled_from(["America/Denver", "Europe/Lisbon", "Asia/Kolkata", "Pacific/Auckland", "America/Havana"]),
)
def test_the_day_at_a_site_agrees_with_dateutil(moment: dt.datetime, zone: str) -> None:
    assert local_day(moment, zone) == moment.astimezone(tz.gettz(zone)).date()


def test_weeks_meet_without_a_gap_and_the_last_one_ends_on_the_day() -> None:
    found = list(weeks(dt.date(2026, 11, 25), dt.date(2026, 12, 10)))
    assert found == [
        (dt.date(2026, 11, 25), dt.date(2026, 12, 1)),
        (dt.date(2026, 12, 2), dt.date(2026, 12, 8)),
        (dt.date(2026, 12, 9), dt.date(2026, 12, 10)),
    ]
