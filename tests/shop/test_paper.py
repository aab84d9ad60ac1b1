"""Checks on paper: recorded before they are printed, typed in once, and counting like those on the screen."""

import datetime as dt
from typing import TYPE_CHECKING

import pytest

from quizkit import shop as deeds
from quizkit.shop import Forbidden, Refusal, Unknown
from quizkit.shop.whose import forms_of

if TYPE_CHECKING:
    from conftest import Floor

Answers = dict[int, dict[str, str]]


def blank(floor: "Floor", skill: str = "ppe", copies: int = 1) -> list[deeds.PaperForm]:
    return list(deeds.paper_forms(floor.shop, floor.trainer, skill, copies, now=floor.now))


def right(paper: deeds.PaperForm) -> Answers:
    """Everything on a paper as its key has it."""
    return {item: {name: text.removeprefix("≈ ") for name, text in parts} for item, parts in enumerate(paper.key, 1)}


def entered(floor: "Floor", person: int, paper: deeds.PaperForm, answers: Answers | None = None, **more: object) -> int:
    given = right(paper) if answers is None else answers
    return deeds.enter_paper_check(
        floor.shop, floor.trainer, person, paper.number, given, now=floor.later(hours=1), **more
    )  # type: ignore[arg-type]


def test_ten_papers_are_on_record_before_they_are_printed_and_no_two_are_alike(floor: "Floor") -> None:
    made = blank(floor, copies=10)
    forms = floor.shop.rows("form", paper=True)
    assert [one.number for one in made] == [row["id"] for row in forms] and all(row["person"] is None for row in forms)
    assert all(len(one.items) == len(one.key) == len(floor.shop.rows("form_item", form=one.number)) for one in made)
    numbers = {tuple((item.question, item.variant) for item in one.items) for one in made}
    assert len(numbers) == 10
    assert made[0].pass_mark and [one.number for one in deeds.papers(floor.shop, floor.trainer)] == [
        one.number for one in reversed(made)
    ]


def test_a_blank_paper_typed_in_passes_the_check_of_whoever_took_it(floor: "Floor") -> None:
    (paper,) = blank(floor)
    day = floor.now.date()
    floor.later(days=3)
    form = entered(floor, floor.ann, paper, seen_on=day)
    view = deeds.result(floor.shop, floor.ann, form, now=floor.now)
    assert view.passed and (view.person, view.marks) == (floor.ann, str(view.out_of))
    row = floor.shop.get("result", floor.shop.rows("result", form=form)[0]["id"])
    assert (row["seen_on"], row["done_by"], row["person"]) == (day, floor.trainer, floor.ann)
    matrix = deeds.matrix(floor.shop, floor.manager, now=floor.now)
    cells = {line.name: line.cells[0].word for line in matrix.rows}
    assert (cells["Ann Bly"], cells["Ben Cray"]) == ("cleared", "not started")
    assert deeds.papers(floor.shop, floor.trainer) == ()


def test_wrong_answers_fail_it_and_are_kept_as_they_were_written(floor: "Floor") -> None:
    floor.pass_check(floor.ann, "ppe")
    (paper,) = blank(floor, "pairing")
    wrong = {item: {name: "3 mL" if part.unit == "mL" else "3"} for item, one in enumerate(paper.items, 1)
             for part in one.parts for name in [part.name]}  # fmt: skip
    form = entered(floor, floor.ann, paper, wrong)
    view = deeds.result(floor.shop, floor.trainer, form, now=floor.now)
    assert not view.passed and view.missed[0].parts[0].typed.startswith("3")
    assert deeds.remark(floor.shop, now=floor.now).differences == ()


def test_numbers_met_on_paper_are_not_met_again(floor: "Floor") -> None:
    """Every question of a person's later check shows numbers that their paper did not have; it counts as theirs."""
    floor.pass_check(floor.ann, "ppe")
    (paper,) = blank(floor, "pairing")
    assert paper.number not in forms_of(floor.shop, floor.ann, skill="pairing")
    entered(floor, floor.ann, paper, {}, sure=True)
    assert paper.number in forms_of(floor.shop, floor.ann) and paper.number in forms_of(floor.shop, None)
    deeds.lift_wait(floor.shop, floor.trainer, floor.ann, "pairing", "Paper got wet.", now=floor.now)
    form = deeds.start_check(floor.shop, floor.ann, "pairing", now=floor.now)
    met = {(item.question, item.variant) for item in paper.items}
    assert not met & {(row["question"], row["variant"]) for row in floor.shop.rows("form_item", form=form)}


def test_what_was_left_out_or_cannot_be_read_is_named_before_it_counts(floor: "Floor") -> None:
    floor.pass_check(floor.ann, "ppe")
    (paper,) = blank(floor, "pairing")
    answers = right(paper)
    del answers[2]
    answers[3] = dict.fromkeys(answers[3], "1 banana")
    head = floor.shop.records.head()
    with pytest.raises(Refusal, match=r"question 2: .*question 3: .*banana") as caught:
        entered(floor, floor.ann, paper, answers)
    assert caught.value.mend and floor.shop.records.head() == head
    form = entered(floor, floor.ann, paper, answers, sure=True)
    assert {one.item for one in deeds.result(floor.shop, floor.ann, form, now=floor.now).missed} == {2, 3}


def test_a_paper_comes_back_once(floor: "Floor") -> None:
    (paper,) = blank(floor)
    entered(floor, floor.ann, paper)
    with pytest.raises(Refusal, match="typed in already"):
        entered(floor, floor.ben, paper)


def test_a_paper_is_held_to_what_opens_a_check_on_the_screen(floor: "Floor") -> None:
    (paper,) = blank(floor, "pairing")
    with pytest.raises(Refusal, match="not open to Ann Bly") as caught:
        entered(floor, floor.ann, paper)
    assert "comes first" in caught.value.mend
    with pytest.raises(Refusal, match="not open to Ann Bly"):
        deeds.paper_form(floor.shop, floor.trainer, floor.ann, "pairing", now=floor.now)
    (ppe,) = blank(floor)
    deeds.start_check(floor.shop, floor.ann, "ppe", now=floor.now)
    with pytest.raises(Refusal) as caught:
        entered(floor, floor.ann, ppe)
    assert "open on the screen" in caught.value.mend


def test_a_paper_of_the_day_of_a_failed_check_does_not_jump_the_wait(floor: "Floor") -> None:
    (paper,) = blank(floor)
    day = floor.now.date()
    floor.fail_check(floor.ann, "ppe")
    floor.later(days=4)
    with pytest.raises(Refusal) as caught:
        entered(floor, floor.ann, paper, seen_on=day)
    assert "wait" in caught.value.mend
    assert entered(floor, floor.ann, paper, seen_on=day + dt.timedelta(days=2))


def test_a_paper_for_one_person_is_theirs_and_not_on_the_screen(floor: "Floor") -> None:
    paper = deeds.paper_form(floor.shop, floor.trainer, floor.ann, "ppe", now=floor.now)
    assert paper.name == "Ann Bly"
    with pytest.raises(Refusal, match="on paper"):
        deeds.check_item(floor.shop, floor.ann, paper.number, 1, now=floor.now)
    with pytest.raises(Refusal, match="on paper"):
        deeds.hand_in(floor.shop, floor.ann, paper.number, now=floor.now, sure=True)
    assert deeds.today(floor.shop, floor.ann, now=floor.now).press != ("check", paper.number)
    assert deeds.module_view(floor.shop, floor.ann, "ppe", now=floor.now).check.open_form == 0
    with pytest.raises(Refusal, match="printed for Ann Bly"):
        entered(floor, floor.ben, paper)
    assert entered(floor, floor.ann, paper) == paper.number


@pytest.mark.parametrize(
    ("seen_on", "word"), [(dt.date(2026, 1, 4), "not printed yet"), (dt.date(2026, 1, 6), "still to come")]
)
def test_a_day_that_cannot_be_is_refused(floor: "Floor", seen_on: dt.date, word: str) -> None:
    (paper,) = blank(floor)
    with pytest.raises(Refusal, match=word):
        entered(floor, floor.ann, paper, seen_on=seen_on)


def test_who_may_print_and_type_in(floor: "Floor") -> None:
    (paper,) = blank(floor)
    for deed in (
        lambda: deeds.paper_forms(floor.shop, floor.ann, "ppe", 1, now=floor.now),
        lambda: deeds.paper(floor.shop, floor.ann, paper.number),
        lambda: deeds.papers(floor.shop, floor.ann),
        lambda: deeds.enter_paper_check(floor.shop, floor.ben, floor.ann, paper.number, right(paper), now=floor.now),
        lambda: entered(floor, floor.trainer, paper),
    ):
        with pytest.raises(Forbidden):
            deed()


def test_what_is_no_paper_is_told(floor: "Floor") -> None:
    screen = deeds.start_check(floor.shop, floor.ann, "ppe", now=floor.now)
    with pytest.raises(Refusal, match="not on paper"):
        deeds.paper(floor.shop, floor.trainer, screen)
    with pytest.raises(Unknown):
        deeds.paper(floor.shop, floor.trainer, 9999)
    with pytest.raises(Unknown):
        blank(floor, "parking")
    for copies in (0, 51):
        with pytest.raises(Refusal, match="from 1 to 50"):
            blank(floor, copies=copies)


def test_a_paper_is_appealed_told_to_other_systems_and_looked_back_on_like_any_check(floor: "Floor") -> None:
    (paper,) = blank(floor)
    form = entered(floor, floor.ann, paper)
    assert deeds.appeal(floor.shop, floor.ann, f"form:{form}", "The print was faint.", now=floor.now)
    told = [row for row in deeds.statements(floor.shop, now=floor.now) if row.registration == f"form:{form}"]
    assert {row.person for row in told} == {floor.ann} and len(told) >= 3
    view = deeds.lookback(floor.shop, floor.manager, now=floor.later(days=1), person=floor.ann)
    (check,) = view.hands[0].skills[0].checks
    assert check.form == form and check.by_hand
