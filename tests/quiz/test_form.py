"""The form of a check: by topic, with a critical question of each topic that has any."""

from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quizkit.quiz.form import Candidate, FormError, draw
from quizkit.quiz.walk import keyed

POOL = [
    Candidate(f"{topic}-{number}", topic, critical=topic != "calm" and number < 2)
    for topic in ("shares", "weight", "calm")
    for number in range(6)
]
TOPICS = {"shares": 3, "weight": 1, "calm": 2}


@given(st.integers())
def test_each_topic_gets_its_count_and_a_critical_question_where_it_has_any(seed: int) -> None:
    form = draw(POOL, TOPICS, keyed(seed))
    drawn = [one for one in POOL if one.id in form]
    assert len(set(form)) == len(form)
    assert Counter(one.topic for one in drawn) == TOPICS
    assert {one.topic for one in drawn if one.critical} == {"shares", "weight"}


@given(st.integers(), st.integers(1, 6), st.integers(0, 6))
def test_a_second_critical_question_comes_only_where_the_others_do_not_suffice(
    seed: int, count: int, critical: int
) -> None:
    """Every critical question fails the check on its own: a form holds no more of them than it must."""
    pool = [Candidate(f"q{number}", "t", critical=number < critical, met=number % 3) for number in range(6)]
    drawn = [one for one in pool if one.id in draw(pool, {"t": count}, keyed(seed))]
    assert sum(one.critical for one in drawn) == min(critical, max(1, count - (6 - critical)))


def test_a_retake_asks_another_critical_question_while_there_is_one() -> None:
    pool = [Candidate(f"q{number}", "t", critical=number < 3, met=int(number in (0, 2))) for number in range(6)]
    for seed in range(20):
        assert "q1" in draw(pool, {"t": 2}, keyed(seed))


def test_forms_differ_by_their_key_and_come_again_by_the_same_one() -> None:
    forms = {draw(POOL, TOPICS, keyed(seed)) for seed in range(20)}
    assert len(forms) > 10
    assert draw(POOL, TOPICS, keyed(3)) == draw(POOL, TOPICS, keyed(3))


def test_questions_met_before_come_last() -> None:
    pool = [Candidate(f"q{number}", "t", met=number % 2) for number in range(8)]
    assert set(draw(pool, {"t": 4}, keyed("k"))) == {"q0", "q2", "q4", "q6"}


def test_a_topic_with_too_few_questions_is_told() -> None:
    with pytest.raises(FormError, match="'shares' has 6 questions for the check, and the check asks 7"):
        draw(POOL, {"shares": 7}, keyed("k"))
