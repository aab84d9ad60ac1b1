"""Today's ticket, the shelf strip, modules and lessons."""

import datetime as dt

import pytest

from quizkit import shop as deeds
from quizkit.shop import Unknown


def test_the_ticket_of_a_newcomer_has_one_thing_to_press(floor) -> None:
    view = deeds.today(floor.shop, floor.ann, now=floor.now)
    assert (view.press.kind, view.press.lesson) == ("lesson", "ppe/1-air")
    assert [item.title for item in view.shelf] == ["Protection", "Pairing"]


def test_an_open_check_comes_first(floor) -> None:
    form = deeds.start_check(floor.shop, floor.ann, "ppe", now=floor.now)
    view = deeds.today(floor.shop, floor.ann, now=floor.now)
    assert (view.press.kind, view.press.form) == ("check", form)
    assert view.lines[0].text == "Protection: the check is open, 0 of 4 answered"


def test_an_open_check_closes_on_the_day_that_it_is_at_the_site(floor) -> None:
    """Two days after five in the evening in Denver it is past midnight in UTC."""
    floor.now = dt.datetime(2026, 3, 3, 0, 30, tzinfo=dt.UTC)
    deeds.start_check(floor.shop, floor.ann, "ppe", now=floor.now)
    (line, *_) = deeds.today(floor.shop, floor.ann, now=floor.now).lines
    assert line.note == "it closes 4 Mar 2026, 17:30"


def test_a_passed_check_says_that_a_trainer_has_to_watch_and_by_when(floor) -> None:
    floor.pass_check(floor.ann, "ppe")
    floor.pass_check(floor.ann, "pairing")
    lines = deeds.today(floor.shop, floor.ann, now=floor.now).lines
    (line,) = [one for one in lines if one.stamp == "check passed"]
    assert line.text == "Pairing: check passed. Ask a trainer to watch you at the bench"
    assert line.note.startswith("sheet by ")
    floor.found(floor.trainer)
    deeds.sign_sheet(floor.shop, floor.trainer, floor.filled(floor.ann), now=floor.later(minutes=5))
    assert not [one for one in deeds.today(floor.shop, floor.ann, now=floor.now).lines if one.stamp]


def test_the_strip_says_the_standing_and_why_the_rest_waits(floor) -> None:
    ppe, pairing = deeds.shelf(floor.shop, floor.ann, now=floor.now)
    assert pairing.waits == ("Protection comes first: it must be cleared",)
    assert ppe.standing.word == "not started" and ppe.waits == ()
    floor.pass_check(floor.ann, "ppe")
    ppe, pairing = deeds.shelf(floor.shop, floor.ann, now=floor.now)
    assert (ppe.standing.word, ppe.note) == ("cleared", "to 5 Jan 2027")
    assert pairing.waits == ()


def test_a_passed_renewal_says_that_the_sheet_is_next_and_the_trainer_sees_it_to_the_last_day(floor) -> None:
    floor.clear(floor.ann)
    floor.now = dt.datetime(2026, 12, 20, 16, tzinfo=dt.UTC)
    floor.pass_check(floor.ann, "ppe")
    floor.now = dt.datetime(2027, 12, 12, 16, tzinfo=dt.UTC)
    assert floor.word(floor.ann) == "lapsing"
    floor.pass_check(floor.ann, "pairing")
    lines = deeds.today(floor.shop, floor.ann, now=floor.now).lines
    (line,) = [one for one in lines if one.text.startswith("Pairing") and one.stamp == "lapsing"]
    assert (line.note, line.press) == ("the check is passed: a trainer's sheet is next", None)
    (waits,) = deeds.waiting(floor.shop, floor.trainer, now=floor.now).sheets
    assert (waits.word, waits.until) == ("lapsing", dt.date(2028, 1, 5))
    deeds.sign_sheet(floor.shop, floor.trainer, floor.filled(floor.ann), now=floor.later(minutes=5))
    assert deeds.waiting(floor.shop, floor.trainer, now=floor.now).sheets == ()
    assert floor.word(floor.ann) == "cleared"


def test_the_scale_fills_as_practice_gets_solid(floor) -> None:
    def scale():
        item = deeds.shelf(floor.shop, floor.ann, now=floor.now)[1]
        return item.solid, item.due, item.empty

    assert scale() == (0, 0, 10)
    for _turn in range(6):
        asked = deeds.practise(floor.shop, floor.ann, "pairing", now=floor.later(minutes=1))
        deeds.answer_practice(floor.shop, floor.ann, asked.draw, {"answer": floor.right(asked)}, now=floor.now)
    assert scale() == (10, 0, 0)
    floor.later(days=3)
    assert scale() == (0, 10, 0)


def test_a_module_shows_needs_lessons_topics_and_the_check(floor) -> None:
    view = deeds.module_view(floor.shop, floor.ann, "pairing", now=floor.now)
    assert [(need.title, need.met) for need in view.needs] == [("Protection", False)]
    assert [(line.title, line.read, line.questions) for line in view.lessons] == [("Shares", False, 3)]
    assert (view.check.questions, view.check.pass_mark, view.check.may) == (3, "3 of 3", False)
    with pytest.raises(Unknown):
        deeds.module_view(floor.shop, floor.ann, "nothing", now=floor.now)


def test_a_lesson_has_its_caution_first_and_its_questions_in_place(floor) -> None:
    view = deeds.lesson_view(floor.shop, floor.ann, "ppe", "ppe/1-air", now=floor.now)
    assert [block.kind for block in view.body] == ["caution", "text", "question", "question", "source"]
    assert view.body[2].question.question == "ppe/shift-mean"
    assert (view.before, view.after, view.read) == (None, "ppe/2-signs", False)
    deeds.lesson_read(floor.shop, floor.ann, "ppe", "ppe/1-air", now=floor.now)
    assert deeds.lesson_view(floor.shop, floor.ann, "ppe", "ppe/1-air", now=floor.now).read
    assert deeds.today(floor.shop, floor.ann, now=floor.now).press.lesson == "ppe/2-signs"


def test_a_lesson_keeps_the_questions_of_the_check_to_itself(floor) -> None:
    view = deeds.lesson_view(floor.shop, floor.ann, "ppe", "2-signs", now=floor.now)
    assert [block.question.question for block in view.body if block.question] == ["ppe/first"]
