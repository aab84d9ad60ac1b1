"""What other systems are told: each deed once, in the order of time, and nothing of an open check."""

import datetime as dt

import pytest

from quizkit import shop as deeds
from quizkit.exchange.xapi import statements as as_xapi
from quizkit.shop.statements import statements

ADDRESS = "https://small-shop.example"


def told(floor, **more):
    return [(one.verb, one.kind, one.activity) for one in statements(floor.shop, now=floor.now, **more)]


def test_reading_and_practice_are_told_as_they_came(floor):
    deeds.lesson_read(floor.shop, floor.ann, "ppe", "1-air", now=floor.now)
    asked = deeds.practise(floor.shop, floor.ann, "ppe", now=floor.later(minutes=1), question="ppe/shift-mean")
    deeds.answer_practice(floor.shop, floor.ann, asked.draw, {"answer": floor.right(asked)}, now=floor.later(minutes=1))
    assert told(floor) == [
        ("completed", "lesson", "lesson/ppe/1-air"),
        ("answered", "interaction", "question/ppe/shift-mean"),
    ]
    (row,) = (one for one in statements(floor.shop, now=floor.now) if one.verb == "answered")
    assert (row.part_kind, row.success, row.raw, row.out_of) == ("number", True, 1, 1)


def test_answers_of_a_check_are_told_once_it_is_handed_in(floor):
    form = deeds.start_check(floor.shop, floor.ann, "ppe", now=floor.now)
    floor.right_answers(form)
    assert told(floor) == [("attempted", "assessment", "check/ppe")]
    deeds.hand_in(floor.shop, floor.ann, form, now=floor.later(minutes=1))
    verbs = [verb for verb, _kind, _activity in told(floor)]
    assert verbs == ["attempted", *["answered"] * floor.shop.count("form_item", form=form), "passed"]
    rows = statements(floor.shop, now=floor.now)
    assert {one.registration for one in rows} == {f"form:{form}"}
    assert all(one.parent == "check/ppe" for one in rows if one.verb == "answered")


def test_one_person_alone_and_nobody_that_is_not_there(floor):
    floor.pass_check(floor.ann, "ppe")
    floor.fail_check(floor.ben, "ppe")
    assert {one.person for one in statements(floor.shop, now=floor.now, person=floor.ben)} == {floor.ben}
    with pytest.raises(deeds.Unknown):
        statements(floor.shop, now=floor.now, person=99)


def test_a_withdrawal_takes_the_last_sign_off_back(floor):
    filled = deeds.SheetInput(
        person=floor.ann,
        skill="pairing",
        material="Keel",
        seen=frozenset({1, 2, 3}),
        instrument="scale 1, 0.1 g",
    )
    view = deeds.judge_sheet(floor.shop, floor.trainer, filled, now=floor.now)
    material = view.materials[0].name
    row = floor.pack.shelf.row(material)
    shot = float(20 * row.field("weight_ratio"))
    filled = deeds.SheetInput(
        person=floor.ann,
        skill="pairing",
        material=material,
        seen=frozenset({1, 2, 3}),
        measures={"a": f"{shot:.1f}", "b": "20.0", "step": "0.1"},
        instrument="scale 1, 0.1 g",
    )
    deeds.grant(
        floor.shop, floor.manager, floor.trainer, "pairing", now=floor.now, founding=True, basis="Taught it for years."
    )
    sheet = deeds.sign_sheet(floor.shop, floor.trainer, filled, now=floor.later(minutes=1))
    deeds.withdraw(floor.shop, floor.trainer, floor.ann, "pairing", "Forced a nozzle.", now=floor.later(days=1))
    rows = statements(floor.shop, now=floor.now)
    assert [(one.verb, one.by) for one in rows] == [("passed", floor.trainer), ("voided", floor.trainer)]
    assert rows[1].voids == rows[0].row == f"sheet:{sheet}"


def test_every_row_makes_a_statement_and_the_same_one_each_time(floor):
    floor.pass_check(floor.ann, "ppe")
    floor.fail_check(floor.ben, "ppe")
    rows = statements(floor.shop, now=floor.now)
    made = list(as_xapi(rows, ADDRESS))
    assert made == list(as_xapi(statements(floor.shop, now=floor.later(days=1)), ADDRESS))
    assert len({one["id"] for one in made}) == len(rows)
    assert all("Ann" not in str(one) for one in made)
    assert dt.datetime.fromisoformat(made[0]["timestamp"]) == rows[0].at
