"""Waits that double, talks, lifted waits: what stands before the next check after a failed one."""

import datetime as dt

import pytest

from quizkit import shop as deeds
from quizkit.shop import Forbidden, Refusal, Waiting

DAY = dt.timedelta(hours=24)


def gate(floor, skill: str = "ppe") -> deeds.CheckGate:
    return deeds.module_view(floor.shop, floor.ann, skill, now=floor.now).check


def talk(floor, by: int = 0) -> int:
    by = by or floor.trainer
    return deeds.record_talk(floor.shop, by, floor.ann, "ppe", "the signs, on the cans", now=floor.later(minutes=1))


def test_the_wait_doubles_with_each_fail_and_a_pass_ends_the_row(floor) -> None:
    for turn in range(3):
        floor.fail_check(floor.ann, "ppe")
        assert gate(floor).until == floor.now + DAY * 2**turn
        if turn:
            talk(floor)
        floor.later(hours=24 * 2**turn)
    floor.pass_check(floor.ann, "ppe")
    assert gate(floor).fails == 0


def test_after_two_fails_a_talk_comes_before_each_next_form(floor) -> None:
    floor.fail_check(floor.ann, "ppe")
    assert not gate(floor).talk_needed
    floor.later(hours=24)
    floor.fail_check(floor.ann, "ppe")
    assert gate(floor).talk_needed
    talk(floor)
    assert not gate(floor).talk_needed
    floor.later(hours=48)
    floor.fail_check(floor.ann, "ppe")
    assert gate(floor).talk_needed


def test_trainer_and_manager_see_who_needs_a_talk_until_it_was_had(floor) -> None:
    for _turn in range(2):
        floor.fail_check(floor.ann, "ppe")
        floor.later(hours=24)
    for who in (floor.trainer, floor.manager):
        (waits,) = deeds.waiting(floor.shop, who, now=floor.now).talks
        assert (waits.person, waits.skill, waits.fails) == (floor.ann, "ppe", 2)
    talk(floor, floor.manager)
    assert deeds.waiting(floor.shop, floor.trainer, now=floor.now).talks == ()


def test_a_trainer_lifts_the_wait_with_a_reason_but_not_the_talk(floor) -> None:
    for _turn in range(2):
        floor.fail_check(floor.ann, "ppe")
        floor.later(hours=25)
    with pytest.raises(Refusal, match="reason is missing"):
        deeds.lift_wait(floor.shop, floor.trainer, floor.ann, "ppe", " ", now=floor.now)
    with pytest.raises(Forbidden):
        deeds.lift_wait(floor.shop, floor.ben, floor.ann, "ppe", "she knows it", now=floor.now)
    deeds.lift_wait(floor.shop, floor.trainer, floor.ann, "ppe", "the tablet failed", now=floor.now)
    assert gate(floor).until is None
    with pytest.raises(Refusal, match="talks it over"):
        deeds.start_check(floor.shop, floor.ann, "ppe", now=floor.now)
    talk(floor)
    assert deeds.start_check(floor.shop, floor.ann, "ppe", now=floor.now)


def test_a_talk_without_words_of_what_was_practised_is_refused(floor) -> None:
    floor.fail_check(floor.ann, "ppe")
    with pytest.raises(Refusal, match="reason is missing"):
        deeds.record_talk(floor.shop, floor.trainer, floor.ann, "ppe", "", now=floor.now)


def test_a_trainer_who_failed_lifts_no_wait_of_their_own(floor) -> None:
    floor.fail_check(floor.trainer, "ppe")
    with pytest.raises(Forbidden, match="for themselves"):
        deeds.lift_wait(floor.shop, floor.trainer, floor.trainer, "ppe", "it was late", now=floor.now)


def test_a_lifted_wait_is_lifted_for_the_last_fail_only(floor) -> None:
    floor.fail_check(floor.ann, "ppe")
    deeds.lift_wait(floor.shop, floor.trainer, floor.ann, "ppe", "the tablet failed", now=floor.now)
    floor.fail_check(floor.ann, "ppe")
    assert gate(floor).until == floor.now + 2 * DAY


def test_a_struck_fail_makes_nobody_wait(floor) -> None:
    form = floor.fail_check(floor.ann, "ppe")
    row = floor.shop.row("result", form=form)["id"]
    deeds.strike(floor.shop, floor.manager, f"result:{row}", "somebody else sat at the tablet", now=floor.now)
    assert (gate(floor).fails, gate(floor).until) == (0, None)
    assert deeds.start_check(floor.shop, floor.ann, "ppe", now=floor.now)


def test_only_the_clock_before_a_check_is_told_as_a_wait_with_its_end(floor) -> None:
    floor.fail_check(floor.ann, "ppe")
    with pytest.raises(Waiting) as told:
        deeds.start_check(floor.shop, floor.ann, "ppe", now=floor.now)
    assert told.value.until == floor.now + DAY
    floor.now = told.value.until
    assert deeds.start_check(floor.shop, floor.ann, "ppe", now=floor.now)


def test_someone_experienced_takes_the_check_without_lessons_or_practice(floor) -> None:
    assert all(not lesson.read for lesson in deeds.module_view(floor.shop, floor.ann, "ppe", now=floor.now).lessons)
    floor.pass_check(floor.ann, "ppe")
    assert floor.word(floor.ann, "ppe") == "cleared"


def test_a_result_says_what_comes_next_and_until_when_it_waits(floor) -> None:
    form = floor.fail_check(floor.ann, "ppe")
    told = deeds.result(floor.shop, floor.ann, form, now=floor.now)
    assert (told.wait_until, told.talk_needed) == (floor.now + DAY, False)
