"""Critical answers: one wrong fails the check whatever the score, the one that decides and no other part."""

from dataclasses import replace

import pytest

from quizkit import shop as deeds
from quizkit.pack.model import Pack

TWO_PARTS = "ppe/two-rooms"


def with_critical_mean(pack: Pack) -> Pack:
    """The second part of a question of two is critical, and no other question of the module."""

    def changed(one):
        parts = tuple(replace(part, critical=True) if part.name == "mean" else part for part in one.parts)
        return replace(one, critical=False, parts=parts if one.id == TWO_PARTS else one.parts)

    modules = tuple(
        replace(one, questions=tuple(changed(each) for each in one.questions)) if one.id == "ppe" else one
        for one in pack.modules
    )
    return replace(pack, modules=modules)


@pytest.fixture
def decided(floor):
    """The shop after a publication in which one part of a question decides."""
    floor.pack = with_critical_mean(floor.pack)
    deeds.publish(floor.shop, floor.pack, floor.manager, now=floor.later(minutes=1))
    return floor


def taken(floor, **wrong: str) -> deeds.ResultView:
    """Ann's check, all right but for what is typed to the parts of the one question."""
    form = deeds.start_check(floor.shop, floor.ann, "ppe", now=floor.now)
    floor.right_answers(form)
    (item,) = floor.shop.rows("form_item", form=form, question=TWO_PARTS)
    typed = deeds.check_item(floor.shop, floor.ann, form, item["item"], now=floor.now).question.parts
    answers = {part.name: wrong.get(part.name, part.typed) for part in typed}
    deeds.answer_item(floor.shop, floor.ann, form, item["item"], answers, now=floor.later(minutes=1))
    deeds.hand_in(floor.shop, floor.ann, form, now=floor.later(minutes=1), sure=True)
    return deeds.result(floor.shop, floor.ann, form, now=floor.now)


def test_the_part_that_decides_fails_the_check_on_its_own(decided) -> None:
    told = taken(decided, mean="1 ppm")
    assert (told.marks, told.critical_missed, told.passed) == ("4", True, False)


def test_another_part_of_the_same_question_costs_its_mark_and_no_more(decided) -> None:
    told = taken(decided, once="1 ppm")
    assert (told.marks, told.critical_missed, told.passed) == ("4", False, True)


@pytest.mark.parametrize("typed", ["", "about four"])
def test_a_critical_answer_missing_or_not_understood_at_handing_in_is_wrong(decided, typed: str) -> None:
    told = taken(decided, mean=typed)
    assert (told.critical_missed, told.passed) == (True, False)


def test_a_critical_question_of_two_parts_counts_as_right_at_full_marks_only(floor) -> None:
    whole = with_critical_mean(floor.pack)
    modules = tuple(
        replace(
            one,
            questions=tuple(
                replace(each, critical=each.id == TWO_PARTS, parts=floor.pack.question(each.id).parts)
                for each in one.questions
            ),
        )
        if one.id == "ppe"
        else one
        for one in whole.modules
    )
    floor.pack = replace(whole, modules=modules)
    deeds.publish(floor.shop, floor.pack, floor.manager, now=floor.later(minutes=1))
    told = taken(floor, once="1 ppm")
    assert (told.marks, told.critical_missed, told.passed) == ("4", True, False)


def test_a_renewal_asks_a_critical_question_too_and_a_miss_lapses_at_once(floor) -> None:
    floor.pass_check(floor.ann, "ppe")
    ends = floor.standing(floor.ann, "ppe").ends
    floor.now = floor.now.replace(year=ends.year, month=ends.month, day=1)
    assert floor.word(floor.ann, "ppe") == "lapsing"
    form = deeds.start_check(floor.shop, floor.ann, "ppe", now=floor.now)
    assert floor.shop.get("form", form)["kind"] == "renewal"
    critical = [row["item"] for row in floor.shop.rows("form_item", form=form) if row["critical"]]
    assert critical
    floor.right_answers(form, wrong=tuple(critical))
    deeds.hand_in(floor.shop, floor.ann, form, now=floor.later(minutes=1))
    assert floor.word(floor.ann, "ppe") == "lapsed"
    assert "critical" in " ".join(floor.standing(floor.ann, "ppe").because)


def test_a_failed_renewal_leaves_the_standing_until_it_lapses(floor) -> None:
    floor.pass_check(floor.ann, "ppe")
    ends = floor.standing(floor.ann, "ppe").ends
    floor.now = floor.now.replace(year=ends.year, month=ends.month, day=1)
    form = deeds.start_check(floor.shop, floor.ann, "ppe", now=floor.now)
    plain = [row["item"] for row in floor.shop.rows("form_item", form=form) if not row["critical"]]
    floor.right_answers(form, wrong=tuple(plain))
    deeds.hand_in(floor.shop, floor.ann, form, now=floor.later(minutes=1))
    told = deeds.result(floor.shop, floor.ann, form, now=floor.now)
    assert (told.passed, told.critical_missed) == (False, False)
    assert floor.word(floor.ann, "ppe") == "lapsing"


def test_the_result_says_which_question_was_the_critical_one_and_begins_with_it(floor) -> None:
    floor.fail_check(floor.ann, "ppe")
    form = floor.shop.rows("form")[-1]["id"]
    missed = deeds.result(floor.shop, floor.ann, form, now=floor.now).missed
    critical = [one.critical for one in missed]
    assert True in critical and False in critical and critical == sorted(critical, reverse=True)
    assert [one.critical for one in missed] == [one.question.critical for one in missed]


@pytest.mark.parametrize(("wrong", "critical"), [({"once": "1 ppm"}, [False]), ({"mean": "1 ppm"}, [True])])
def test_a_question_is_told_as_critical_only_where_its_deciding_part_is_wrong(
    decided, wrong: dict[str, str], critical: list[bool]
) -> None:
    assert [one.critical for one in taken(decided, **wrong).missed] == critical
