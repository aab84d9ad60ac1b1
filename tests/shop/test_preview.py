"""Any question with any of its numbers in front of a trainer: the key in the open, an answer tried, nothing kept."""

import re
from typing import TYPE_CHECKING

import pytest

from quizkit import shop as deeds

if TYPE_CHECKING:
    from conftest import Floor


def _looked(floor: "Floor", question: str, number: int | None = None, **typed: str) -> deeds.PreviewView:
    return deeds.preview(floor.shop, floor.trainer, question, number, now=floor.now, typed=typed)


def test_only_who_teaches_sees_a_key(floor: "Floor") -> None:
    for person in (floor.ann, floor.ben):
        with pytest.raises(deeds.Forbidden):
            deeds.preview(floor.shop, person, "pairing/hardener", now=floor.now)


def test_the_key_of_a_number_stands_with_its_slips_in_the_numbers_of_the_variant(floor: "Floor") -> None:
    question = floor.pack.question("pairing/hardener")
    for number in (question.numbers[0], question.numbers[7]):
        view, variant = _looked(floor, "pairing/hardener", number), question.variant(number)
        (part,) = view.parts
        assert (view.number, part.right, part.formula) == (
            number,
            variant.right("answer"),
            "hardener_for(filler, ratio)",
        )
        (slip,) = part.slips
        assert float(slip.value.removesuffix(" mL").replace(",", "")) == float(variant.slip_values("answer")[0] or 0)
        assert "upside down" in slip.feedback_html and view.working_html == variant.working()


def test_the_options_of_a_choice_say_which_is_right_and_what_is_told(floor: "Floor") -> None:
    view = _looked(floor, "ppe/flame")
    (part,), (asked,) = view.parts, view.question.parts
    told = [(option.right, "no hazard sign" in option.feedback_html) for option in part.options]
    assert sorted(told) == [(False, False), (False, True), (True, False)]
    assert [option.html for option in part.options] == [option.html for option in asked.options]
    right = told.index((True, False)) + 1
    assert _looked(floor, "ppe/flame", answer=str(right)).marks == "1 of 1"


def test_what_is_to_be_put_in_order_stands_mixed_as_trainees_meet_it(floor: "Floor") -> None:
    (part,) = _looked(floor, "ppe/first").question.parts
    shown = [re.sub(r"<[^>]+>", "", option.html).strip() for option in part.options]
    key = ["Read the label.", "Put the mask on.", "Open the can."]
    assert shown != key and sorted(shown) == sorted(key), "as it is written it would be the key"
    right = " ".join(str(shown.index(each) + 1) for each in key)
    assert _looked(floor, "ppe/first", **{part.name: right}).marks == "1 of 1"


def test_neighbours_lead_over_what_was_left_out(floor: "Floor") -> None:
    question = floor.pack.question("pairing/spent")
    standing, number = list(question.numbers), None
    walked = []
    for _turn in range(len(standing)):
        view = _looked(floor, "pairing/spent", number)
        walked.append(view.number)
        assert (view.variants, view.first, view.last) == (len(standing), standing[0], standing[-1])
        assert view.before == (walked[-2] if len(walked) > 1 else None)
        number = view.after
    assert walked == standing and number is None


def test_no_such_question_and_no_such_variant_are_told(floor: "Floor") -> None:
    with pytest.raises(deeds.Unknown):
        _looked(floor, "pairing/nothing")
    with pytest.raises(deeds.Unknown) as refused:
        _looked(floor, "pairing/hardener", 10**8)
    assert "from 0 to" in refused.value.mend


def test_an_answer_is_tried_and_nothing_is_kept_of_it(floor: "Floor") -> None:
    right = floor.pack.question("pairing/hardener").variant(0).right("answer")
    head = floor.shop.records.head()
    assert (_looked(floor, "pairing/hardener", answer=right).marks, len(_looked(floor, "pairing/hardener").told)) == (
        "1 of 1",
        0,
    )
    unread = _looked(floor, "pairing/hardener", answer="some of it")
    assert unread.told[0].outcome == "unread" and unread.question.parts[0].unread
    assert floor.shop.records.head() == head
