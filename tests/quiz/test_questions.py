"""The trainer's report: words below the set number of people, figures and flags above it."""

from __future__ import annotations

from typing import Any

import pytest

from quizkit.quiz import statistics as figures
from quizkit.quiz.questions import Answered, Report, Watched, report

WATCHED = (Watched("shares", ("adds the parts", "turns the ratio round")), Watched("ports"), Watched("never-asked"))


def answers(right: dict[str, list[bool]], **more: dict[str, list[Any]]) -> list[Answered]:
    """One form a person; `right` says who got what, `more` holds picks and seconds by question."""
    return [
        Answered(
            f"p{n}", f"f{n}", question, float(mark), 1.0,
            picks=more.get("picks", {}).get(question, [()] * len(marks))[n],
            seconds=more.get("seconds", {}).get(question, [None] * len(marks))[n],
        )
        for question, marks in right.items()
        for n, mark in enumerate(marks)
    ]  # fmt: skip


def told(given: list[Answered], few: int = 4) -> Report:
    return report(given, WATCHED, few, out_of=2, cut=2)


def test_few_people_get_words_and_no_coefficients() -> None:
    found = told(answers({"shares": [False, False, False], "ports": [True, True, True]}))
    assert (found.people, found.few, found.check) == (3, True, None)
    assert [(line.question, line.words) for line in found.lines] == [
        ("shares", "3 missed this: talk about it"),
        ("ports", "nobody missed this"),
    ]
    assert all(line.share is line.rest is line.interval is None for line in found.lines)


def test_one_who_missed_is_said_as_one() -> None:
    (line, _other) = told(answers({"shares": [True, False], "ports": [True, True]})).lines
    assert line.words == "1 missed this: talk about it"


def test_people_are_counted_and_not_forms() -> None:
    twice = [Answered("p0", f"f{n}", "ports", 1.0, 1.0) for n in range(9)]
    assert told(twice).few


def test_enough_people_get_the_figures_of_the_formulas() -> None:
    right = {"shares": [True, True, False, False], "ports": [True, True, True, False]}
    found = told(answers(right))
    forms = [{question: float(marks[n]) for question, marks in right.items()} for n in range(4)]
    line = next(line for line in found.lines if line.question == "ports")
    assert (line.asked, line.missed, line.share) == (4, 1, 0.75)
    assert line.interval == figures.wilson(3, 4)
    assert line.rest == pytest.approx(figures.item_rest(forms, "ports"))
    assert found.check is not None
    assert found.check.kr20 == pytest.approx(figures.kr20(forms))
    assert found.check.mean == pytest.approx(1.25)


def test_a_question_without_answers_is_left_out() -> None:
    assert {line.question for line in told(answers({"ports": [True] * 5})).lines} == {"ports"}


def flags(found: Report, question: str) -> tuple[str, ...]:
    return next(line.flags for line in found.lines if line.question == question)


def test_a_question_that_those_who_do_well_miss_is_flagged_first() -> None:
    found = told(answers({"shares": [False, False, True, True], "ports": [True, True, False, False]}))
    assert "those who do well miss it more often: look at its key and its wording" in flags(found, "ports")


def test_hard_and_easy_questions_are_flagged() -> None:
    found = told(answers({"shares": [False] * 9 + [True], "ports": [True] * 10}))
    assert "most miss it: is it taught, and is the key right?" in flags(found, "shares")
    assert "nearly everyone has it right" in flags(found, "ports")


def test_the_pull_of_each_slip_is_counted_with_the_marks_of_those_who_made_it() -> None:
    slips: list[Any] = [("adds the parts",), ("adds the parts",), (), ()]
    given = answers(
        {"shares": [False, False, True, False], "ports": [True, False, True, True]}, picks={"shares": slips}
    )
    found = told(given)
    line = next(line for line in found.lines if line.question == "shares")
    assert [(pull.name, pull.count, pull.share, pull.rest) for pull in line.pulls] == [
        ("adds the parts", 2, 0.5, 0.5),
        ("turns the ratio round", 0, 0.0, None),
    ]
    assert "more take 'adds the parts' than the right answer" in line.flags
    assert "nobody takes 'turns the ratio round'" in line.flags


def test_a_question_that_takes_far_longer_is_flagged_by_the_median() -> None:
    seconds: dict[str, list[Any]] = {"shares": [200.0, 220.0, 210.0, 9000.0], "ports": [20.0, 30.0, None, 25.0]}
    given = answers({"shares": [True, False, True, False], "ports": [True, True, True, False]}, seconds=seconds)
    more = [Answered(f"p{n}", f"f{n}", f"other{m}", 1.0, 1.0, seconds=30.0) for n in range(4) for m in range(3)]
    found = told(given + more)
    line = next(line for line in found.lines if line.question == "shares")
    assert line.seconds == 215.0
    assert "it takes far longer than the others" in line.flags
    assert "it takes far longer than the others" not in flags(found, "ports")


def test_a_question_that_few_were_asked_gets_words_beside_the_figures_of_the_others() -> None:
    right: dict[str, list[bool]] = {"shares": [True, False, True, False], "ports": [True, False]}
    lines = {line.question: line for line in told(answers(right)).lines}
    assert lines["shares"].share == 0.5 and lines["ports"].share is None
    assert lines["ports"].words == "1 missed this: talk about it" and lines["ports"].flags == ()


def test_a_slip_that_nobody_makes_is_worth_no_word() -> None:
    watched = (Watched("shares", ("an option",), ("a slip",)),)
    found = report(answers({"shares": [True, True, False, True]}), watched, 4, out_of=1, cut=1)
    assert [flag for flag in found.lines[0].flags if "nobody takes" in flag] == ["nobody takes 'an option'"]
