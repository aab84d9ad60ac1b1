"""Appeals: answered by somebody who neither marked nor signed, where the shop has one."""

import pytest

from quizkit import shop as deeds
from quizkit.shop import Forbidden, Refusal


def second_trainer(floor, name: str = "Una Fell") -> int:
    """Another trainer, founded in pairing."""
    add = {"role": "trainer", "site": "south", "secret": "eight wet clay bricks", "by": floor.manager}
    other = deeds.add_person(floor.shop, name=name, now=floor.now, **add)
    floor.found(other)
    return other


def observed_and_signed(floor, observer: int, signer: int) -> int:
    """A sheet that one trainer observed and another signed."""
    floor.pass_check(floor.ann, "ppe")
    sheet = deeds.observe_sheet(floor.shop, observer, floor.filled(floor.ann), now=floor.later(minutes=1))
    deeds.sign_observed(floor.shop, signer, [sheet], "eight wet clay bricks", now=floor.later(minutes=1))
    return sheet


def appealed(floor, about: str) -> int:
    return deeds.appeal(floor.shop, floor.ann, about, "the scale was not level", now=floor.later(minutes=1))


def answer(floor, by: int, appeal: int) -> int:
    return deeds.answer_appeal(floor.shop, by, appeal, "weighed again, it stands", False, now=floor.later(minutes=1))


def test_neither_who_observed_nor_who_signed_answers_while_there_is_somebody_else(floor) -> None:
    floor.found(floor.trainer)
    other = second_trainer(floor)
    made = appealed(floor, f"sheet:{observed_and_signed(floor, floor.trainer, other)}")
    for involved in (floor.trainer, other):
        with pytest.raises(Forbidden, match="another trainer or manager"):
            answer(floor, involved, made)
    assert answer(floor, floor.manager, made)


def test_where_everybody_else_had_a_hand_in_it_one_of_them_answers(floor) -> None:
    """Otherwise nobody ever could: the manager signed, the only trainer observed."""
    floor.found(floor.trainer)
    boss = deeds.add_person(
        floor.shop, name="Vi Oak", role="manager", site="north", secret="eight wet clay bricks",
        by=floor.manager, now=floor.now,
    )  # fmt: skip
    deeds.grant(floor.shop, floor.manager, boss, "pairing", now=floor.now, founding=True, basis="course, 2025")
    deeds.leave(floor.shop, floor.manager, by=boss, now=floor.later(minutes=1))
    made = appealed(floor, f"sheet:{observed_and_signed(floor, floor.trainer, boss)}")
    assert answer(floor, floor.trainer, made)


def test_who_marked_a_check_again_does_not_answer_for_it(floor) -> None:
    form = floor.fail_check(floor.ann, "ppe")
    result = floor.shop.row("result", form=form)
    item = floor.shop.row("form_item", form=form, item=1)
    with floor.shop.deed(floor.later(minutes=1)):
        pack = floor.shop.get("form", form)["pack"]
        floor.shop.add(
            "remark", by=floor.trainer, seen_on=result["seen_on"], result=result["id"], form=form, person=floor.ann,
            item=1, question=item["question"], old_pack=pack, new_pack=pack, old_marks="0", new_marks="0",
            passed=False, critical_missed=False, signed=False, note=None,
        )  # fmt: skip
    made = appealed(floor, f"form:{form}")
    with pytest.raises(Forbidden, match="marked or signed"):
        answer(floor, floor.trainer, made)
    assert answer(floor, floor.manager, made)


def test_nobody_answers_their_own_appeal_and_one_answer_is_enough(floor) -> None:
    form = floor.fail_check(floor.trainer, "ppe")
    made = deeds.appeal(floor.shop, floor.trainer, f"form:{form}", "misread", now=floor.later(minutes=1))
    with pytest.raises(Forbidden, match="own appeal"):
        answer(floor, floor.trainer, made)
    answer(floor, floor.manager, made)
    with pytest.raises(Refusal, match="has been answered"):
        answer(floor, floor.manager, made)


def test_an_appeal_and_its_answer_are_rows_with_words_and_move_no_standing(floor) -> None:
    form = floor.fail_check(floor.ann, "ppe")
    with pytest.raises(Refusal, match="reason is missing"):
        deeds.appeal(floor.shop, floor.ann, f"form:{form}", " ", now=floor.now)
    made = appealed(floor, f"form:{form}")
    with pytest.raises(Refusal, match="reason is missing"):
        deeds.answer_appeal(floor.shop, floor.trainer, made, " ", True, now=floor.now)
    deeds.answer_appeal(floor.shop, floor.trainer, made, "the picture was torn", True, now=floor.later(minutes=1))
    (told,) = deeds.result(floor.shop, floor.ann, form, now=floor.now).appeals
    assert (told.words, told.answer, told.upheld, told.by) == (
        "the scale was not level",
        "the picture was torn",
        True,
        "Tess Orr",
    )
    assert floor.word(floor.ann, "ppe") == "learning"
