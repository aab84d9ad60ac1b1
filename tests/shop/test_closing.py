"""A check whose time is over is handed in as it stands, whoever looks first, and stays handed in."""

import datetime as dt

import pytest

from quizkit import shop as deeds
from quizkit.shop import Refusal, Waiting


def overdue(floor, answered: bool = True) -> int:
    """An open check of Ann's two days after it should have been handed in."""
    form = deeds.start_check(floor.shop, floor.ann, "ppe", now=floor.now)
    if answered:
        floor.right_answers(form)
    floor.later(days=4)
    return form


def handed_in(floor, form: int) -> bool:
    with deeds.open_shop(floor.path) as again:
        return again.row("result", form=form) is not None


def test_an_answer_that_comes_too_late_changes_nothing_and_the_check_is_handed_in(floor) -> None:
    form = overdue(floor)
    with pytest.raises(Refusal, match="handed in"):
        deeds.answer_item(floor.shop, floor.ann, form, 1, {"answer": "2"}, now=floor.now)
    assert handed_in(floor, form)
    assert deeds.result(floor.shop, floor.ann, form, now=floor.now).passed


def test_starting_again_hands_the_old_one_in_though_a_wait_comes_of_it(floor) -> None:
    form = overdue(floor, answered=False)
    floor.now -= dt.timedelta(hours=40)
    with pytest.raises(Waiting):
        deeds.start_check(floor.shop, floor.ann, "ppe", now=floor.now)
    assert handed_in(floor, form)


def test_the_wait_after_a_check_that_closed_by_itself_runs_from_when_its_time_was_over(floor) -> None:
    form = overdue(floor, answered=False)
    closes = floor.shop.get("form", form)["closes_at"]
    deeds.close_overdue(floor.shop, now=floor.now - dt.timedelta(hours=30))
    gate = deeds.module_view(floor.shop, floor.ann, "ppe", now=closes + dt.timedelta(hours=23)).check
    assert gate.until == closes + dt.timedelta(hours=24)


@pytest.mark.parametrize(
    "page", ["today", "shelf", "module", "result", "list", "question", "cell", "waiting", "matrix"]
)
def test_no_page_shows_a_check_as_open_once_its_time_is_over(floor, page: str) -> None:
    form = overdue(floor)
    shop, ann, now = floor.shop, floor.ann, floor.now
    match page:
        case "today":
            assert not any("is open" in line.text for line in deeds.today(shop, ann, now=now).lines)
        case "shelf":
            assert all(not item.open_form for item in deeds.shelf(shop, ann, now=now))
        case "module":
            assert deeds.module_view(shop, ann, "ppe", now=now).check.open_form == 0
        case "result":
            assert deeds.result(shop, floor.trainer, form, now=now).by_itself
        case "list":
            with pytest.raises(Refusal, match="handed in"):
                deeds.check_list(shop, ann, form, now=now)
        case "question":
            with pytest.raises(Refusal, match="handed in"):
                deeds.check_item(shop, ann, form, 1, now=now)
        case "cell":
            assert deeds.cell(shop, floor.trainer, ann, "ppe", now=now).gate.open_form == 0
        case "waiting":
            deeds.waiting(shop, floor.trainer, now=now)
        case "matrix":
            deeds.matrix(shop, floor.trainer, now=now)
    assert handed_in(floor, form)
    assert floor.word(ann, "ppe") == "cleared"


def test_a_restarted_server_and_a_lost_tablet_lose_no_answer(floor) -> None:
    """The check goes on from another device and another process, at the question it was left at."""
    form = deeds.start_check(floor.shop, floor.ann, "ppe", now=floor.now)
    asked = [deeds.check_item(floor.shop, floor.ann, form, item, now=floor.now).question for item in (1, 2, 3, 4)]
    typed = {part.name: "2" for part in asked[0].parts}
    deeds.answer_item(floor.shop, floor.ann, form, 1, typed, now=floor.later(minutes=1))
    floor.shop.close()
    with deeds.open_shop(floor.path) as again:
        assert deeds.start_check(again, floor.ann, "ppe", now=floor.later(hours=20)) == form
        assert deeds.next_item(again, floor.ann, form, now=floor.now) == 2
        here = [deeds.check_item(again, floor.ann, form, item, now=floor.now).question for item in (1, 2, 3, 4)]
        assert [(one.question, one.variant, one.prompt_html) for one in here] == [
            (one.question, one.variant, one.prompt_html) for one in asked
        ]
        assert {part.name: part.typed for part in here[0].parts} == typed
        deeds.hand_in(again, floor.ann, form, now=floor.now, sure=True)
        assert deeds.result(again, floor.ann, form, now=floor.now).out_of == 5
