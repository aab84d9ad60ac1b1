"""Taking a check: nothing told before it is handed in, come back to the same question, one result."""

import datetime as dt

import pytest

from quizkit import shop as deeds
from quizkit.shop import Forbidden, Refusal, Unknown, Waiting


def start(floor, person=None, skill="ppe"):
    return deeds.start_check(floor.shop, person or floor.ann, skill, now=floor.now)


def test_a_check_is_answered_handed_in_and_passed(floor) -> None:
    form = start(floor)
    view = deeds.check_item(floor.shop, floor.ann, form, 1, now=floor.now)
    assert (view.item, view.items, view.answered) == (1, 4, 0)
    floor.right_answers(form)
    assert deeds.check_list(floor.shop, floor.ann, form, now=floor.now).unanswered == ()
    assert deeds.hand_in(floor.shop, floor.ann, form, now=floor.later(minutes=1)) == form
    told = deeds.result(floor.shop, floor.ann, form, now=floor.now)
    assert told.passed and told.missed == () and told.share == "100 %"
    assert (told.marks, told.out_of, told.pass_mark) == ("5", 5, "4 of 5")


def test_coming_back_shows_the_same_question_with_the_answer_kept(floor) -> None:
    form = start(floor)
    before = deeds.check_item(floor.shop, floor.ann, form, 2, now=floor.now).question
    answers = {part.name: "1" for part in before.parts}
    deeds.answer_item(floor.shop, floor.ann, form, 2, answers, now=floor.later(minutes=2))
    with deeds.open_shop(floor.path) as again:
        assert deeds.start_check(again, floor.ann, "ppe", now=floor.later(hours=3)) == form
        after = deeds.check_item(again, floor.ann, form, 2, now=floor.now).question
    assert (after.prompt_html, after.variant) == (before.prompt_html, before.variant)
    assert [part.options for part in after.parts] == [part.options for part in before.parts]
    assert all(part.typed == "1" for part in after.parts)
    assert deeds.next_item(floor.shop, floor.ann, form, now=floor.now) == 1


def test_nothing_in_the_page_of_a_check_tells_the_key(floor) -> None:
    form = start(floor)
    for item in range(1, 5):
        row = floor.shop.row("form_item", form=form, item=item)
        variant = deeds.variant_of(floor.pack, row["question"], row["variant"], row["ordering"])
        view = deeds.check_item(floor.shop, floor.ann, form, item, now=floor.now)
        assert variant.working() not in repr(view) or not variant.working()
        assert "feedback" not in repr(view) and "Slip" not in repr(view)


def test_the_latest_answer_counts_and_the_same_again_adds_no_row(floor) -> None:
    form = start(floor)
    name = deeds.check_item(floor.shop, floor.ann, form, 1, now=floor.now).question.parts[0].name
    for text in ("1", "1", "2"):
        deeds.answer_item(floor.shop, floor.ann, form, 1, {name: text}, now=floor.later(seconds=5))
    assert [row["typed"][name] for row in floor.shop.rows("answer", form=form)] == ["1", "2"]


def test_a_check_that_was_handed_in_takes_no_answer_and_no_empty_one(floor) -> None:
    form = floor.pass_check(floor.ann, "ppe")
    head = floor.shop.records.head()
    for text in ("1", ""):
        with pytest.raises(Refusal, match="handed in"):
            deeds.answer_item(floor.shop, floor.ann, form, 1, {"answer": text}, now=floor.later(seconds=5))
    assert floor.shop.records.head() == head


def test_an_answer_that_is_not_understood_is_kept_told_and_asked_again(floor) -> None:
    form = start(floor)
    numeric = next(
        item
        for item in range(1, 5)
        if deeds.check_item(floor.shop, floor.ann, form, item, now=floor.now).question.parts[0].kind == "number"
    )
    view = deeds.check_item(floor.shop, floor.ann, form, numeric, now=floor.now)
    answers = {part.name: "about three" for part in view.question.parts}
    written = deeds.answer_item(floor.shop, floor.ann, form, numeric, answers, now=floor.now)
    assert dict(written.unread).keys() == answers.keys()
    kept = deeds.check_item(floor.shop, floor.ann, form, numeric, now=floor.now).question.parts
    assert all(part.typed == "about three" and part.unread for part in kept)
    assert numeric in deeds.check_list(floor.shop, floor.ann, form, now=floor.now).unanswered


def test_handing_in_with_gaps_names_them_first_and_counts_them_wrong_then(floor) -> None:
    form = start(floor)
    floor.right_answers(form, wrong=())
    other = start(floor, floor.ben)
    with pytest.raises(Refusal, match="Questions 1, 2, 3, 4 have no answer yet"):
        deeds.hand_in(floor.shop, floor.ben, other, now=floor.now)
    deeds.hand_in(floor.shop, floor.ben, other, now=floor.now, sure=True)
    assert deeds.result(floor.shop, floor.ben, other, now=floor.now).marks == "0"


def test_handing_in_twice_is_once(floor) -> None:
    form = floor.pass_check(floor.ann, "ppe")
    for _turn in range(3):
        assert deeds.hand_in(floor.shop, floor.ann, form, now=floor.later(seconds=1)) == form
    assert floor.shop.count("result") == 1
    with pytest.raises(Refusal, match="handed in"):
        deeds.answer_item(floor.shop, floor.ann, form, 1, {"answer": "2"}, now=floor.now)


def test_a_critical_number_is_read_back_before_handing_in(floor) -> None:
    floor.pass_check(floor.ann, "ppe")
    form = start(floor, skill="pairing")
    row = next(row for row in floor.shop.rows("form_item", form=form) if row["critical"])
    deeds.answer_item(floor.shop, floor.ann, form, row["item"], {"answer": "2.4 cc"}, now=floor.now)
    rows = deeds.check_list(floor.shop, floor.ann, form, now=floor.now).rows
    assert rows[row["item"] - 1].critical_readback.startswith("2.4 mL")
    assert rows[row["item"] - 1].critical_readback.endswith("Is that what you meant?")
    assert not any(other.critical_readback for other in rows if other.item != row["item"])


def test_a_wrong_critical_answer_fails_whatever_the_score(floor) -> None:
    floor.pass_check(floor.ann, "ppe")
    form = start(floor, skill="pairing")
    critical = [row["item"] for row in floor.shop.rows("form_item", form=form) if row["critical"]]
    floor.right_answers(form, wrong=tuple(critical))
    deeds.hand_in(floor.shop, floor.ann, form, now=floor.later(minutes=1))
    told = deeds.result(floor.shop, floor.ann, form, now=floor.now)
    assert told.critical_missed and not told.passed
    assert [missed.item for missed in told.missed] == critical
    assert told.missed[0].working_html and told.missed[0].lesson == "pairing/1-shares"


def test_what_comes_next_is_said_to_whoever_reads_it(floor) -> None:
    def told(form: int) -> list[str]:
        return [deeds.result(floor.shop, who, form, now=floor.now).next for who in (floor.ann, floor.trainer)]

    floor.pass_check(floor.ann, "ppe")
    assert told(floor.fail_check(floor.ann, "pairing")) == [
        "Read again what went wrong below, and practice it.",
        "Next they read and practice what went wrong below.",
    ]
    floor.later(days=3)
    assert told(floor.pass_check(floor.ann, "pairing")) == [
        "Now a trainer watches you do it: ask for the sheet.",
        "Next a trainer watches them do it, on a sheet.",
    ]


def test_an_open_check_is_handed_in_by_itself_when_its_time_is_over(floor) -> None:
    form = start(floor)
    floor.right_answers(form)
    floor.later(hours=49)
    assert deeds.close_overdue(floor.shop, now=floor.now) == 1
    assert deeds.close_overdue(floor.shop, now=floor.now) == 0
    told = deeds.result(floor.shop, floor.ann, form, now=floor.now)
    assert told.by_itself and told.passed
    # The day it counts from is the day its time was over.
    assert floor.shop.row("result", form=form)["seen_on"] == dt.date(2026, 1, 7)


def test_a_need_comes_first(floor) -> None:
    with pytest.raises(Refusal, match="Protection comes first"):
        start(floor, skill="pairing")
    assert floor.shop.count("form") == 0


def test_the_wait_doubles_and_a_talk_comes_after_two_fails(floor) -> None:
    floor.fail_check(floor.ann, "ppe")
    with pytest.raises(Waiting) as told:
        start(floor)
    assert told.value.until == floor.now + dt.timedelta(hours=24)
    floor.later(hours=25)
    floor.fail_check(floor.ann, "ppe")
    with pytest.raises(Refusal, match="talks it over"):
        start(floor)
    gate = deeds.module_view(floor.shop, floor.ann, "ppe", now=floor.now).check
    assert gate.until == floor.now + dt.timedelta(hours=48)
    assert (gate.fails, gate.talk_needed, gate.may) == (2, True, False)


def test_someone_elses_check_is_closed_and_what_is_not_there_is_told(floor) -> None:
    form = start(floor)
    with pytest.raises(Forbidden):
        deeds.check_item(floor.shop, floor.ben, form, 1, now=floor.now)
    with pytest.raises(Unknown):
        deeds.check_item(floor.shop, floor.ann, form, 99, now=floor.now)
    with pytest.raises(Unknown):
        deeds.check_item(floor.shop, floor.ann, 10**12, 1, now=floor.now)
    with pytest.raises(Refusal, match="still open"):
        deeds.result(floor.shop, floor.ann, form, now=floor.now)
    deeds.hand_in(floor.shop, floor.ann, form, now=floor.now, sure=True)
    with pytest.raises(Forbidden):
        deeds.result(floor.shop, floor.ben, form, now=floor.now)


def test_help_is_kept_with_the_form(floor) -> None:
    form = deeds.start_check(floor.shop, floor.ann, "ppe", now=floor.now, help="read aloud", helper="Tess Orr")
    deeds.hand_in(floor.shop, floor.ann, form, now=floor.now, sure=True)
    told = deeds.result(floor.shop, floor.ann, form, now=floor.now)
    assert (told.help, told.helper) == ("read aloud", "Tess Orr")


def test_no_numbers_come_twice_over_practice_and_checks(floor) -> None:
    met = []
    for _turn in range(6):
        asked = deeds.practise(floor.shop, floor.ann, "ppe", now=floor.later(minutes=1), question="ppe/shift-mean")
        met.append(asked.question.variant)
        deeds.answer_practice(floor.shop, floor.ann, asked.draw, {"answer": floor.right(asked)}, now=floor.now)
    form = start(floor)
    met += [row["variant"] for row in floor.shop.rows("form_item", form=form, question="ppe/shift-mean")]
    assert len(set(met)) == 7


def test_what_is_open_is_counted_and_named_by_what_was_understood(floor) -> None:
    """Today, the module and the list before handing in tell the same: an unread answer is none, and is named apart."""
    form = start(floor)
    numeric = next(
        item
        for item in range(1, 5)
        if deeds.check_item(floor.shop, floor.ann, form, item, now=floor.now).question.parts[0].kind == "number"
    )
    view = deeds.check_item(floor.shop, floor.ann, form, numeric, now=floor.now)
    typed = {part.name: "about three" for part in view.question.parts}
    deeds.answer_item(floor.shop, floor.ann, form, numeric, typed, now=floor.now)
    others = ", ".join(str(number) for number in range(1, 5) if number != numeric)
    what = f"Question {numeric} was not understood. Questions {others} have no answer yet"
    with pytest.raises(Refusal, match=what):
        deeds.hand_in(floor.shop, floor.ann, form, now=floor.now)
    module = deeds.module_view(floor.shop, floor.ann, "ppe", now=floor.now)
    assert (module.check.open_form, module.answered) == (form, 0)
    assert module.check.closes == deeds.check_list(floor.shop, floor.ann, form, now=floor.now).closes
    (line, *_) = deeds.today(floor.shop, floor.ann, now=floor.now).lines
    assert line.text.endswith("0 of 4 answered")
