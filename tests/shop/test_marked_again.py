"""What a correction may do to a check: raise it at once, lower it only when signed, and say so to who took it."""

from dataclasses import replace

from quizkit import shop as deeds
from quizkit.pack.model import Numeric, Pack

MEAN = "ppe/shift-mean"
WRONG_FORMULA = "level"


def with_mean(pack: Pack, *, formula: str = "", critical: bool = False) -> Pack:
    """The pack with another formula for one question, or with that question critical."""

    def changed(one):
        if one.id != MEAN:
            return one
        part = one.parts[0]
        assert isinstance(part, Numeric)
        parts = (replace(part, formula=formula, slips=()),) if formula else one.parts
        return replace(one, parts=parts, critical=critical or one.critical)

    modules = (replace(one, questions=tuple(changed(each) for each in one.questions)) for one in pack.modules)
    return replace(pack, modules=tuple(modules))


def handed_in(floor, wrong_signs: int = 0, wrong_mean: bool = False) -> int:
    """Ann's check with so many questions about signs wrong, and the mean of the shift if asked for."""
    form = deeds.start_check(floor.shop, floor.ann, "ppe", now=floor.now)
    topics = {one.id: one.topic for one in floor.pack.questions()}
    rows = floor.shop.rows("form_item", form=form)
    plain = [row["item"] for row in rows if topics[row["question"]] == "signs" and not row["critical"]]
    wrong = {*plain[:wrong_signs], *(row["item"] for row in rows if wrong_mean and row["question"] == MEAN)}
    floor.right_answers(form, wrong=tuple(wrong))
    return deeds.hand_in(floor.shop, floor.ann, form, now=floor.later(minutes=1), sure=True)


def corrected(floor, pack: Pack, sign: str = "") -> deeds.QuestionRemark:
    return deeds.remark_question(floor.shop, floor.trainer, MEAN, pack, now=floor.later(minutes=5), sign=sign)


def test_a_raised_check_says_so_on_its_result_and_frees_from_the_wait(floor) -> None:
    good = floor.pack
    deeds.publish(floor.shop, with_mean(good, formula=WRONG_FORMULA), floor.manager, now=floor.later(hours=1))
    form = handed_in(floor, wrong_signs=1)
    before = deeds.result(floor.shop, floor.ann, form, now=floor.now)
    assert (before.passed, before.marks, before.marked_again) == (False, "3", ())
    assert before.wait_until is not None
    corrected(floor, good)
    after = deeds.result(floor.shop, floor.ann, form, now=floor.now)
    assert (after.passed, after.marks, after.wait_until) == (True, "4", None)
    assert after.marked_again[0].endswith("was marked again: 0 became 1")
    assert MEAN not in {one.question.question for one in after.missed}
    assert deeds.module_view(floor.shop, floor.ann, "ppe", now=floor.now).check.fails == 0
    assert floor.word(floor.ann, "ppe") == "cleared"


def test_a_fail_that_would_become_a_critical_one_waits_for_a_signature_too(floor) -> None:
    """A fail leaves a standing until it lapses, a wrong critical answer lapses it at once: so this lowers."""
    form = handed_in(floor, wrong_signs=1, wrong_mean=True)
    assert not deeds.result(floor.shop, floor.ann, form, now=floor.now).passed
    stricter = with_mean(floor.pack, critical=True)
    (told,) = corrected(floor, stricter).affected
    assert (told.passed_before, told.passed_after, told.lowers, told.applied) == (False, False, True, False)
    assert not deeds.result(floor.shop, floor.ann, form, now=floor.now).critical_missed
    (told,) = corrected(floor, stricter, "it can hurt someone").affected
    assert told.applied
    assert deeds.result(floor.shop, floor.ann, form, now=floor.now).critical_missed


def test_a_struck_check_says_that_it_counts_no_more(floor) -> None:
    form = handed_in(floor)
    row = floor.shop.row("result", form=form)["id"]
    deeds.strike(floor.shop, floor.manager, f"result:{row}", "somebody else took it", now=floor.later(minutes=1))
    assert "counts no more" in deeds.result(floor.shop, floor.ann, form, now=floor.now).next
    assert floor.word(floor.ann, "ppe") != "cleared"
