"""How questions were answered: words where people are few, figures above, out of the answers as they were recorded."""

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from quizkit import shop as deeds
from quizkit.pack.model import Pack
from quizkit.quiz import statistics as formulas

if TYPE_CHECKING:
    from conftest import Floor


def _told(floor: "Floor", skill: str = "ppe") -> deeds.StatisticsView:
    return deeds.question_statistics(floor.shop, floor.trainer, skill, now=floor.now)


def _line(view: deeds.StatisticsView, question: str) -> deeds.QuestionLine:
    return next(line for line in view.lines if line.question == question)


def _enough(floor: "Floor", people: int = 2) -> None:
    """From now on so few people are enough for figures."""
    pack = replace(floor.pack, scheme=replace(floor.pack.scheme, few=people))
    deeds.publish(floor.shop, pack, floor.manager, now=floor.later(minutes=1))


def _reworded(pack: Pack, question: str) -> Pack:
    """The same pack with one question that says something else."""
    module = next(one for one in pack.modules if question.startswith(f"{one.id}/"))
    questions = tuple(
        replace(one, prompt=("Quite another question.",)) if one.id == question else one for one in module.questions
    )
    modules = tuple(replace(module, questions=questions) if one is module else one for one in pack.modules)
    return replace(pack, modules=modules)


def _typed(floor: "Floor", form: int, question: str, answer: str) -> None:
    """Give one answer in an open check, where it asks that question."""
    item = floor.shop.row("form_item", form=form, question=question)
    assert item is not None
    who = floor.shop.get("form", form)["person"]
    deeds.answer_item(floor.shop, who, form, item["item"], {"answer": answer}, now=floor.later(seconds=5))


def test_only_who_teaches_sees_how_questions_were_answered(floor: "Floor") -> None:
    with pytest.raises(deeds.Forbidden):
        deeds.question_statistics(floor.shop, floor.ann, "ppe", now=floor.now)
    with pytest.raises(deeds.Unknown):
        _told(floor, "parking")


def test_before_anybody_took_a_check_every_question_waits(floor: "Floor") -> None:
    view = _told(floor)
    assert (view.people, view.forms, view.lines, view.check) == (0, 0, (), None)
    assert {"ppe/flame", "ppe/skull"} <= set(view.not_asked) and "ppe/first" not in view.not_asked


def test_below_the_set_number_of_people_there_are_words_alone(floor: "Floor") -> None:
    floor.pass_check(floor.ann, "ppe")
    floor.fail_check(floor.ben, "ppe")
    view = _told(floor)
    assert (view.people, view.forms, view.few, view.check, view.shares) == (2, 2, True, None, ())
    flame = _line(view, "ppe/flame")
    assert (flame.critical, flame.figures.words) == (True, "1 missed this: talk about it")
    assert all(line.figures.share is None for line in view.lines)


def test_with_enough_people_the_figures_are_those_of_the_recorded_marks(floor: "Floor") -> None:
    floor.pass_check(floor.ann, "ppe")
    floor.fail_check(floor.ben, "ppe")
    _enough(floor)
    view = _told(floor)
    flame = _line(view, "ppe/flame").figures
    assert (flame.asked, flame.missed, flame.share) == (2, 1, 0.5)
    assert flame.interval == formulas.wilson(1, 2)
    assert flame.seconds == 20.0
    assert view.check is not None and view.check.mean == 2.5 and (view.out_of, view.pass_mark) == (5, 4)
    assert {row[0]: row[1] for row in view.shares}["flame"] == 0.5


def test_a_slip_pulls_by_its_own_words(floor: "Floor") -> None:
    for person in (floor.ann, floor.ben):
        floor.pass_check(person, "ppe")
        form = deeds.start_check(floor.shop, person, "pairing", now=floor.now)
        floor.right_answers(form)
        item = floor.shop.row("form_item", form=form, question="pairing/hardener")
        assert item is not None
        if person == floor.ben:
            values = deeds.variant_of(floor.pack, "pairing/hardener", item["variant"]).slip_values("answer")
            _typed(floor, form, "pairing/hardener", f"{float(values[0] or 0):g}")
        deeds.hand_in(floor.shop, person, form, now=floor.later(minutes=1))
    _enough(floor)
    (pull,) = _line(_told(floor, "pairing"), "pairing/hardener").figures.pulls
    assert (pull.name, pull.count, pull.share, pull.rest) == ("slip 1: The ratio is upside down", 1, 0.5, 2.0)


def test_a_wrong_option_pulls_by_its_words_however_it_was_shuffled(floor: "Floor") -> None:
    for person in (floor.ann, floor.ben):
        form = deeds.start_check(floor.shop, person, "ppe", now=floor.now)
        floor.right_answers(form)
        item = floor.shop.row("form_item", form=form, question="ppe/skull")
        assert item is not None
        _typed(floor, form, "ppe/skull", str(item["ordering"]["answer"].index(2) + 1))
        deeds.hand_in(floor.shop, person, form, now=floor.later(minutes=1))
    _enough(floor)
    pulls = {pull.name: pull.count for pull in _line(_told(floor), "ppe/skull").figures.pulls}
    assert pulls == {"option 2: It is old": 0, "option 3: It is loud": 2}


def test_an_answer_that_was_changed_counts_as_it_was_handed_in_and_its_time_adds_up(floor: "Floor") -> None:
    for person in (floor.ann, floor.ben):
        form = deeds.start_check(floor.shop, person, "ppe", now=floor.now)
        floor.right_answers(form, wrong=tuple(range(1, 50)))
        floor.right_answers(form)
        deeds.hand_in(floor.shop, person, form, now=floor.later(minutes=1))
    _enough(floor)
    figures = _line(_told(floor), "ppe/flame").figures
    assert (figures.missed, figures.seconds) == (0, 40.0)


def test_answers_to_a_question_as_it_stood_before_are_counted_apart(floor: "Floor") -> None:
    floor.pass_check(floor.ann, "ppe")
    deeds.publish(floor.shop, _reworded(floor.pack, "ppe/flame"), floor.manager, now=floor.later(minutes=1))
    assert "ppe/flame" in _told(floor).not_asked
    floor.pass_check(floor.ben, "ppe")
    line = _line(_told(floor), "ppe/flame")
    assert (line.title, line.figures.asked, line.earlier) == ("Quite another question", 1, 1)


def test_a_struck_check_and_an_open_one_say_nothing(floor: "Floor") -> None:
    form = floor.pass_check(floor.ann, "ppe")
    result = floor.shop.row("result", form=form)
    assert result is not None
    deeds.strike(floor.shop, floor.manager, f"result:{result['id']}", "somebody else sat there", now=floor.now)
    floor.right_answers(deeds.start_check(floor.shop, floor.ben, "ppe", now=floor.later(days=1)))
    assert _told(floor).forms == 0
