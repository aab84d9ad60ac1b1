"""Mastery against values worked by hand, and refreshers at growing gaps."""

from __future__ import annotations

import datetime as dt
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quizkit.pack.scheme import Practice
from quizkit.quiz.mastery import learned, mastery

START = dt.datetime(2026, 3, 2, 8, tzinfo=dt.UTC)
DAY = dt.timedelta(days=1)
GAPS = (2 * DAY, 7 * DAY, 21 * DAY, 60 * DAY)
DEFAULTS = Practice()

# Worked by hand with known 1/5, learns 3/20, slips 1/10, guesses 1/5 (computed; formulas of Corbett and Anderson 1995):
# right: (1/5 · 9/10) / (1/5 · 9/10 + 4/5 · 1/5) = 9/17, then 9/17 + 8/17 · 3/20 = 3/5
# wrong: (1/5 · 1/10) / (1/5 · 1/10 + 4/5 · 4/5) = 1/33, then 1/33 + 32/33 · 3/20 = 29/165
# right, right: (3/5 · 9/10) / (3/5 · 9/10 + 2/5 · 1/5) = 27/31, then 27/31 + 4/31 · 3/20 = 138/155
# right, wrong: (3/5 · 1/10) / (3/5 · 1/10 + 2/5 · 4/5) = 3/19, then 3/19 + 16/19 · 3/20 = 27/95
WORKED = [
    ("r", Fraction(3, 5)),
    ("w", Fraction(29, 165)),
    ("rr", Fraction(138, 155)),
    ("rw", Fraction(27, 95)),
]


@pytest.mark.parametrize(("answers", "known"), WORKED)
def test_the_estimate_is_the_one_worked_by_hand(answers: str, known: Fraction) -> None:
    found = mastery([(START, answer == "r") for answer in answers], DEFAULTS, GAPS)
    assert found.known == pytest.approx(float(known), rel=1e-12)
    assert (found.met, found.solid, found.due) == (len(answers), False, None)


@given(st.floats(0, 1), st.booleans())
def test_a_chance_stays_a_chance_and_a_right_answer_says_more_than_a_wrong_one(known: float, right: bool) -> None:
    assert 0 <= learned(known, right, DEFAULTS) <= 1
    assert learned(known, True, DEFAULTS) >= learned(known, False, DEFAULTS)


def test_an_answer_that_the_parameters_call_impossible_is_no_error() -> None:
    never = Practice(slips=Fraction(0), guesses=Fraction(0), learns=Fraction(0))
    assert learned(1.0, False, never) == 1.0
    assert learned(0.0, True, never) == 0.0


def solid(*later: tuple[int, bool]) -> list[tuple[dt.datetime, bool]]:
    """Three right answers make the topic solid on day 0; then answers on later days."""
    return [(START, True)] * 3 + [(START + day * DAY, right) for day, right in later]


def test_three_right_answers_make_a_topic_solid_and_it_comes_again_after_the_first_gap() -> None:
    found = mastery(solid(), DEFAULTS, GAPS)
    assert (found.solid, found.level, found.due) == (True, 0, START + 2 * DAY)


def test_each_refresher_answered_right_moves_on_to_the_next_gap_and_the_last_one_stays() -> None:
    days, due = [], 2
    for gap in (7, 21, 60, 60):
        days.append((due, True))
        found = mastery(solid(*days), DEFAULTS, GAPS)
        due += gap
        assert found.due == START + due * DAY
    assert found.level == 3


def test_a_right_answer_before_it_is_due_moves_nothing() -> None:
    assert mastery(solid((1, True)), DEFAULTS, GAPS).due == START + 2 * DAY


def test_a_wrong_answer_goes_back_to_the_first_gap_where_the_topic_stays_solid() -> None:
    found = mastery(solid((2, True), (9, True), (11, False)), DEFAULTS, GAPS)
    assert (found.solid, found.level, found.due) == (True, 0, START + 13 * DAY)


def test_a_wrong_answer_goes_back_to_learning_where_it_shakes_the_estimate() -> None:
    found = mastery(solid((2, False)), DEFAULTS, GAPS)
    assert found.known < 0.95
    assert (found.solid, found.level, found.due) == (False, 0, None)


def test_a_refresher_comes_before_a_lapse() -> None:
    found = mastery(solid((2, True), (9, True)), DEFAULTS, GAPS, lapse=START + 20 * DAY)
    assert found.due == START + 18 * DAY


def test_a_topic_answered_shortly_before_a_lapse_is_not_asked_for_it_again() -> None:
    found = mastery(solid((2, True), (9, True), (18, True)), DEFAULTS, GAPS, lapse=START + 20 * DAY)
    assert found.due == START + 30 * DAY
