"""Practice: an answer at once, new numbers each time, nothing lost or counted twice."""

import pytest

from quizkit import shop as deeds
from quizkit.shop import Asked, Forbidden, Refusal, Told, Unknown


def practise(floor, question="pairing/hardener", person=None):
    person = person or floor.ann
    return deeds.practise(floor.shop, person, question.split("/")[0], now=floor.later(minutes=1), question=question)


def answer(floor, asked, text):
    return deeds.answer_practice(floor.shop, floor.ann, asked.draw, {"answer": text}, now=floor.later(seconds=5))


def test_a_right_answer_is_told_with_its_working(floor) -> None:
    asked = practise(floor)
    told = answer(floor, asked, floor.right(asked))
    assert told.right and told.marks == "1" and told.parts[0].outcome == "right"
    assert "÷" in told.working_html
    assert isinstance(deeds.practice_view(floor.shop, floor.ann, asked.draw, now=floor.now), Told)


def test_the_same_question_stands_until_it_is_answered_and_comes_in_new_numbers_then(floor) -> None:
    first = practise(floor)
    assert practise(floor).draw == first.draw
    answer(floor, first, floor.right(first))
    second = practise(floor)
    assert second.draw != first.draw
    assert second.question.variant != first.question.variant


def test_an_unread_answer_is_told_and_not_used_up(floor) -> None:
    asked = practise(floor)
    told = answer(floor, asked, "a bit")
    assert told.unread and told.parts == () and told.working_html == ""
    assert told.question.parts[0].typed == "a bit" and told.question.parts[0].unread
    assert floor.shop.count("practice") == 0
    assert isinstance(deeds.practice_view(floor.shop, floor.ann, asked.draw, now=floor.now), Asked)


def test_the_first_answer_to_a_draw_stands(floor) -> None:
    asked = practise(floor)
    answer(floor, asked, "0.001")
    told = answer(floor, asked, floor.right(asked))
    assert not told.right
    assert floor.shop.count("practice") == 1


def test_a_missed_question_comes_back_and_the_lesson_is_named(floor) -> None:
    asked = practise(floor)
    told = answer(floor, asked, "0.001")
    assert told.lesson_again == "pairing/1-shares"
    other = practise(floor, "pairing/base")
    answer(floor, other, floor.right(other))
    again = deeds.practise(floor.shop, floor.ann, "pairing", now=floor.later(minutes=1))
    assert again.question.question == "pairing/hardener"
    assert "missed" in again.why


def test_questions_of_the_check_are_not_practised(floor) -> None:
    with pytest.raises(Refusal, match="kept for the check"):
        practise(floor, "ppe/flame")
    for _turn in range(12):
        asked = deeds.practise(floor.shop, floor.ben, "ppe", now=floor.later(minutes=1))
        assert asked.question.question not in ("ppe/flame", "ppe/skull")
        names = [part.name for part in asked.question.parts]
        deeds.answer_practice(floor.shop, floor.ben, asked.draw, dict.fromkeys(names, "1 2 3"), now=floor.now)


def test_practice_belongs_to_who_started_it(floor) -> None:
    asked = practise(floor)
    with pytest.raises(Forbidden):
        deeds.practice_view(floor.shop, floor.ben, asked.draw, now=floor.now)
    for draw in ("0", "x", "9" * 40, "-1"):
        with pytest.raises(Unknown):
            deeds.practice_view(floor.shop, floor.ann, draw, now=floor.now)


def test_a_material_that_is_no_longer_stocked_is_not_asked_about(floor) -> None:
    for _turn in range(25):
        asked = practise(floor, "pairing/spent")
        assert asked.question.label.name in ("Alder", "Birch")
        assert "Cedar" not in asked.question.prompt_html
        answer(floor, asked, floor.right(asked))


def test_the_label_of_the_material_stands_beside_and_keeps_what_is_asked(floor) -> None:
    label = practise(floor, "pairing/spent").question.label
    assert label.ratio in ("2:1 by volume", "10:1 by volume")
    assert ("cartridge", "200 mL") in label.lines or ("cartridge", "50 mL") in label.lines
