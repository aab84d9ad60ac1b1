"""Everything that somebody did is told to other systems once, in statements that hold to the standard."""

import json
import os
from pathlib import Path

import pytest

from quizkit import shop as deeds
from quizkit.exchange.xapi import statements as as_xapi

ADDRESS = "https://two-bays.example"
PHRASE = "nine grey anvils hum"
CORRECTED = "ppe/shift-mean"


@pytest.fixture
def story(floor):
    """A history with a row of every kind that is told."""
    shop, ann = floor.shop, floor.ann
    deeds.lesson_read(shop, ann, "ppe", "ppe/1-air", now=floor.now)
    asked = deeds.practise(shop, ann, "ppe", now=floor.later(minutes=1), question=CORRECTED)
    deeds.answer_practice(shop, ann, asked.draw, {"answer": "0.001"}, now=floor.later(minutes=1))
    floor.fail_check(floor.ben, "ppe")
    first = floor.clear(ann)
    second = deeds.sign_sheet(shop, floor.trainer, floor.filled(ann), now=floor.later(minutes=5))
    deeds.withdraw(shop, floor.trainer, ann, "pairing", "forced a nozzle", now=floor.later(days=1))
    refused = deeds.refuse_sheet(shop, floor.trainer, floor.filled(ann), "ports crossed", now=floor.later(days=1))
    seen = deeds.observe_sheet(shop, floor.trainer, floor.filled(ann), now=floor.later(days=1))
    (name,) = deeds.sign_observed(shop, floor.trainer, [seen], PHRASE, now=floor.later(minutes=5))
    deeds.strike(shop, floor.manager, f"sheet:{refused}", "the wrong person", now=floor.later(minutes=5))
    floor.rows = {
        "first": f"sheet:{first}",
        "second": f"sheet:{second}",
        "refused": f"sheet:{refused}",
        "name": f"signature:{name}",
    }
    return floor


def told(floor) -> tuple[deeds.StatementRow, ...]:
    return deeds.statements(floor.shop, now=floor.now)


def test_each_kind_of_evidence_is_told_by_its_verb(story) -> None:
    kinds = {(one.row.partition(":")[0], one.verb, one.kind) for one in told(story)}
    assert kinds == {
        ("reading", "completed", "lesson"),
        ("practice", "answered", "interaction"),
        ("form", "attempted", "assessment"),
        ("answer", "answered", "interaction"),
        ("result", "passed", "assessment"),
        ("result", "failed", "assessment"),
        ("sheet", "passed", "performance"),
        ("sheet", "failed", "performance"),
        ("signature", "passed", "performance"),
        ("strike", "voided", "performance"),
        ("withdrawal", "voided", "performance"),
    }


def test_an_observed_sheet_is_told_when_it_is_signed_and_by_whom(story) -> None:
    (signed,) = [one for one in told(story) if one.row == story.rows["name"]]
    assert (signed.person, signed.by, signed.success) == (story.ann, story.trainer, True)


def test_a_withdrawal_takes_back_the_last_sign_off_that_stood_and_nothing_twice(story) -> None:
    again = deeds.end_withdrawal(
        story.shop, story.manager, story.shop.row("withdrawal")["id"], "trained again", now=story.later(days=1)
    )
    assert again
    voided: list[str] = []
    for reason in ("ports crossed again", "and again", "once more"):
        row = deeds.withdraw(story.shop, story.trainer, story.ann, "pairing", reason, now=story.later(days=1))
        deeds.end_withdrawal(story.shop, story.manager, row, "trained again", now=story.later(days=1))
        voided = [one.voids for one in told(story) if one.verb == "voided"]
    assert voided == [story.rows[which] for which in ("second", "refused", "name", "first")]


def test_a_check_marked_again_is_told_again_with_its_new_marks(story) -> None:
    result = story.shop.row("result", person=story.ben)
    pack = story.shop.get("form", result["form"])["pack"]
    with story.shop.deed(story.later(minutes=1)):
        number = story.shop.add(
            "remark", by=story.trainer, seen_on=result["seen_on"], result=result["id"], form=result["form"],
            person=story.ben, item=1, question=CORRECTED, old_pack=pack, new_pack=pack, old_marks="0", new_marks="1",
            passed=False, critical_missed=True, signed=False, note=None,
        )  # fmt: skip
    (again,) = [one for one in told(story) if one.row == f"remark:{number}"]
    (first,) = [one for one in told(story) if one.row == f"result:{result['id']}"]
    assert (again.verb, again.raw, again.registration) == ("failed", first.raw + 1, first.registration)


def test_the_whole_story_holds_to_the_standard_and_names_nobody(story) -> None:
    made = list(as_xapi(told(story), ADDRESS))
    assert len({one["id"] for one in made}) == len(made) == len(told(story))
    text = json.dumps(made)
    assert not any(name in text for name in ("Ann", "Ben Cray", "Tess", "ports crossed", "forced a nozzle"))
    named = os.environ.get("QUIZKIT_STANDARDS")
    if not named:
        pytest.skip("QUIZKIT_STANDARDS is not set: the statements were not held to the standard's schema")
    from jsonschema import Draft202012Validator

    schema = json.loads((Path(named) / "xapi/xapi-1.0.3-statement.own.schema.json").read_text())
    judge = Draft202012Validator(schema)
    assert [error.message for one in made for error in judge.iter_errors(one)] == []
