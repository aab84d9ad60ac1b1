"""Marking again: the same packs give the same marks, and a corrected question is fair to everybody it was asked of."""

from dataclasses import replace
from fractions import Fraction

from quizkit import shop as deeds
from quizkit.formula import Listed
from quizkit.pack.model import Numeric, Pack
from quizkit.shop import correction, remark, remark_question
from quizkit.shop.standings import standings

WRONG, OTHER = "ppe/shift-mean", "ppe/two-rooms"


def with_formula(pack: Pack, question: str, formula: str) -> Pack:
    """The pack with another formula for the answer of one question."""

    def changed(module):
        questions = tuple(
            replace(one, parts=(replace(one.parts[0], formula=formula, slips=()), *one.parts[1:]))
            if one.id == question
            else one
            for one in module.questions
        )
        return replace(module, questions=questions)

    assert isinstance(pack.question(question).parts[0], Numeric)
    return replace(pack, modules=tuple(changed(module) for module in pack.modules))


def item_of(floor, form: int) -> int:
    return next(row["item"] for row in floor.shop.rows("form_item", form=form) if row["question"] == WRONG)


def near_the_mark(floor) -> int:
    """Ann's check with one question about signs wrong: 4 of 5 marks pass, 3 do not."""
    form = deeds.start_check(floor.shop, floor.ann, "ppe", now=floor.now)
    topics = {one.id: one.topic for one in floor.pack.questions()}
    signs = next(row["item"] for row in floor.shop.rows("form_item", form=form) if topics[row["question"]] == "signs")
    floor.right_answers(form, wrong=(signs,))
    return deeds.hand_in(floor.shop, floor.ann, form, now=floor.later(minutes=1), sure=True)


def test_everything_comes_out_as_it_was_recorded_even_after_the_content_changed(floor):
    asked = deeds.practise(floor.shop, floor.ann, "ppe", now=floor.now)
    deeds.answer_practice(
        floor.shop, floor.ann, asked.draw, {name.name: "3" for name in asked.question.parts}, now=floor.now
    )
    floor.fail_check(floor.ann, "ppe")
    floor.pass_check(floor.ben, "ppe")
    deeds.publish(floor.shop, with_formula(floor.pack, WRONG, "level"), floor.manager, now=floor.later(hours=1))
    report = remark(floor.shop, now=floor.now)
    assert report.differences == ()
    assert report.checked == 1 + floor.shop.count("answer") + 2


def test_a_row_that_was_changed_behind_our_back_is_a_difference(floor):
    floor.pass_check(floor.ann, "ppe")
    conn = floor.shop.records.conn
    for (name,) in conn.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'").fetchall():
        conn.execute(f"DROP TRIGGER {name}")
    conn.execute("UPDATE result SET marks = '1'")
    (told,) = remark(floor.shop, now=floor.now).differences
    assert told.row.startswith("result:") and "was 1 of" in str(told)


def test_a_correction_that_helps_counts_at_once(floor):
    good = floor.pack
    deeds.publish(floor.shop, with_formula(good, WRONG, "level"), floor.manager, now=floor.later(hours=1))
    form = near_the_mark(floor)
    assert not deeds.result(floor.shop, floor.ann, form, now=floor.now).passed
    done = remark_question(floor.shop, floor.trainer, WRONG, good, now=floor.later(minutes=5))
    (one,) = done.affected
    assert (one.item, one.before, one.after, one.applied) == (item_of(floor, form), "0", "1", True)
    assert not one.passed_before and one.passed_after and not one.lowers
    assert standings(floor.shop, floor.ann, floor.now)["ppe"].word != "learning"


def test_a_correction_that_hurts_waits_for_a_trainers_reason(floor):
    form = near_the_mark(floor)
    before = standings(floor.shop, floor.ann, floor.now)["ppe"].word
    worse = with_formula(floor.pack, WRONG, "level")
    (one,) = remark_question(floor.shop, floor.trainer, WRONG, worse, now=floor.later(minutes=5)).affected
    assert (one.form, one.lowers, one.applied) == (form, True, False)
    assert floor.shop.count("remark") == 0
    assert standings(floor.shop, floor.ann, floor.now)["ppe"].word == before
    reason = "The data sheet says otherwise."
    (one,) = remark_question(floor.shop, floor.trainer, WRONG, worse, now=floor.later(minutes=5), sign=reason).affected
    assert one.applied
    row = floor.shop.row("remark", form=form)
    assert (row["signed"], row["note"], row["passed"], row["old_marks"], row["new_marks"]) == (
        True,
        reason,
        False,
        "1",
        "0",
    )
    assert standings(floor.shop, floor.ann, floor.now)["ppe"].word != before


def test_numbers_that_the_corrected_question_never_gives_are_told_and_left(floor):
    form = floor.pass_check(floor.ann, "ppe")
    module = next(module for module in floor.pack.modules if module.id == "ppe")
    level, stay = floor.pack.question(WRONG).givens
    elsewhere = replace(level, draw=Listed((Fraction(1, 10**6),)))
    questions = tuple(replace(one, givens=(elsewhere, stay)) if one.id == WRONG else one for one in module.questions)
    pack = with_formula(replace(floor.pack, modules=(replace(module, questions=questions),)), WRONG, "level")
    (one,) = remark_question(floor.shop, floor.trainer, WRONG, pack, now=floor.now, sign="why").affected
    assert (one.form, one.unmatched, one.applied, one.passed_after) == (form, True, False, True)
    assert floor.shop.count("remark") == 0


def test_only_a_trainer_corrects_and_only_what_is_there(floor):
    for by, question in ((floor.ann, WRONG), (floor.trainer, "ppe/none")):
        try:
            remark_question(floor.shop, by, question, floor.pack, now=floor.now)
        except deeds.Refusal:
            continue
        raise AssertionError(question)


def test_a_correction_is_looked_at_before_anything_is_written(floor):
    form = near_the_mark(floor)
    head = floor.shop.records.head()
    assert correction(floor.shop, floor.trainer, WRONG, now=floor.now).affected == ()
    deeds.publish(floor.shop, with_formula(floor.pack, WRONG, "level"), floor.manager, now=floor.later(hours=1))
    published = floor.shop.records.head()
    told = correction(floor.shop, floor.trainer, WRONG, now=floor.now)
    assert told.checked == 1 and floor.shop.records.head() == published != head
    (one,) = told.affected
    assert (one.form, one.before, one.after, one.lowers, one.applied) == (form, "1", "0", True, False)


def test_a_correction_is_applied_once(floor):
    good = floor.pack
    deeds.publish(floor.shop, with_formula(good, WRONG, "level"), floor.manager, now=floor.later(hours=1))
    near_the_mark(floor)
    assert len(remark_question(floor.shop, floor.trainer, WRONG, good, now=floor.later(minutes=5)).affected) == 1
    assert remark_question(floor.shop, floor.trainer, WRONG, good, now=floor.later(minutes=5)).affected == ()
    assert floor.shop.count("remark") == 1


def test_a_second_correction_builds_on_the_first(floor):
    """One question put right raises the check to a pass; another put wrong afterwards lowers that pass again."""
    good = floor.pack
    deeds.publish(floor.shop, with_formula(good, WRONG, "level"), floor.manager, now=floor.later(hours=1))
    near_the_mark(floor)
    remark_question(floor.shop, floor.trainer, WRONG, good, now=floor.later(minutes=5))
    worse = with_formula(good, OTHER, "level")
    (one,) = remark_question(floor.shop, floor.trainer, OTHER, worse, now=floor.later(minutes=5)).affected
    assert (one.passed_before, one.passed_after, one.applied) == (True, False, False)


def test_nobody_corrects_their_own_check(floor):
    good = floor.pack
    deeds.publish(floor.shop, with_formula(good, WRONG, "level"), floor.manager, now=floor.later(hours=1))
    form = floor.pass_check(floor.trainer, "ppe")
    assert any(row["question"] == WRONG for row in floor.shop.rows("form_item", form=form))
    (one,) = remark_question(floor.shop, floor.trainer, WRONG, good, now=floor.later(minutes=5), sign="why").affected
    assert one.own and not one.applied and floor.shop.count("remark") == 0
    (one,) = remark_question(floor.shop, floor.manager, WRONG, good, now=floor.later(minutes=5), sign="why").affected
    assert one.applied


def test_a_struck_check_is_not_corrected(floor):
    form = near_the_mark(floor)
    result = floor.shop.row("result", form=form)
    deeds.strike(floor.shop, floor.manager, f"result:{result['id']}", "somebody else sat there", now=floor.now)
    worse = with_formula(floor.pack, WRONG, "level")
    assert remark_question(floor.shop, floor.trainer, WRONG, worse, now=floor.now).checked == 0


def test_a_correction_that_costs_a_mark_but_not_the_pass_counts_at_once(floor):
    form = floor.pass_check(floor.ann, "ppe")
    worse = with_formula(floor.pack, WRONG, "level")
    (one,) = remark_question(floor.shop, floor.trainer, WRONG, worse, now=floor.later(minutes=5)).affected
    assert (one.form, one.before, one.after, one.lowers, one.applied) == (form, "1", "0", False, True)
    row = floor.shop.row("remark", form=form)
    assert (row["signed"], row["note"], row["passed"]) == (False, "", True)
    assert floor.word(floor.ann, "ppe") == "cleared"
    better = remark_question(
        floor.shop, floor.trainer, WRONG, floor.pack, now=floor.later(minutes=5), sign="it was right"
    )
    assert [one.applied for one in better.affected] == [True]
    row = floor.shop.row("remark", form=form)
    assert (row["signed"], row["note"], row["old_marks"], row["new_marks"]) == (False, "it was right", "0", "1")


def test_a_changed_shelf_is_no_correction(floor):
    floor.pass_check(floor.ann, "ppe")
    floor.pass_check(floor.ann, "pairing")
    question = floor.pack.question("pairing/spent")
    used, material = question.givens
    rows = tuple(replace(row, fields=row.fields[:2]) for row in material.draw.rows)
    moved = replace(question, givens=(used, replace(material, draw=replace(material.draw, rows=rows))))
    module = next(module for module in floor.pack.modules if module.id == "pairing")
    changed = replace(module, questions=tuple(moved if one.id == moved.id else one for one in module.questions))
    pack = replace(floor.pack, modules=tuple(changed if one is module else one for one in floor.pack.modules))
    done = remark_question(floor.shop, floor.trainer, "pairing/spent", pack, now=floor.later(minutes=5))
    assert (done.checked, done.affected) == (1, ())


def with_options(pack: Pack, question: str, change) -> Pack:
    """The pack with the options of one choice changed."""
    found = pack.question(question)
    (part,) = found.parts
    other = replace(found, parts=(replace(part, options=change(part.options)),))
    module = next(module for module in pack.modules if question.startswith(f"{module.id}/"))
    changed = replace(module, questions=tuple(other if one.id == question else one for one in module.questions))
    return replace(pack, modules=tuple(changed if one is module else one for one in pack.modules))


def test_a_choice_is_corrected_in_the_order_in_which_it_was_shown(floor):
    floor.pass_check(floor.ann, "ppe")

    def turn(options):
        return replace(options[0], right=False), replace(options[1], right=True), options[2]

    turned = with_options(floor.pack, "ppe/skull", turn)
    (one,) = remark_question(floor.shop, floor.trainer, "ppe/skull", turned, now=floor.now, sign="why").affected
    assert (one.before, one.after, one.unmatched, one.applied) == ("1", "0", False, True)


def test_a_choice_that_lost_an_option_cannot_be_put_to_who_saw_it(floor):
    floor.pass_check(floor.ann, "ppe")
    fewer = with_options(floor.pack, "ppe/skull", lambda options: options[:2])
    (one,) = remark_question(floor.shop, floor.trainer, "ppe/skull", fewer, now=floor.now, sign="why").affected
    assert one.unmatched and not one.applied
