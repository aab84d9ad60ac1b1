"""Statements hold to xAPI 1.0.3, say the same thing each time, and name nobody."""

import datetime as dt
import json
import re
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quizkit.exchange.xapi import NoAddress, statements

HOME = "https://two-bays.example/check/"


@dataclass(frozen=True)
class Row:
    row: str
    person: int = 4
    at: dt.datetime = dt.datetime(2026, 11, 25, 15, 0, 1, 500_000, tzinfo=dt.UTC)
    verb: str = "answered"
    kind: str = "interaction"
    activity: str = "question/ratio-pairing/share"
    title: str = ""
    by: int | None = None
    raw: Fraction | None = None
    out_of: int = 0
    success: bool | None = None
    response: str = ""
    parent: str = ""
    registration: str = ""
    part_kind: str = ""
    language: str = "en"
    voids: str = ""


ROWS = [
    Row("forms:1", verb="attempted", kind="assessment", activity="check/ratio-pairing", title="Ratio pairing"),
    Row(
        "answers:1", response="7.5", part_kind="number", raw=Fraction(1), out_of=1, success=True, registration="forms:1"
    ),
    Row("answers:2", response="7 1/2 mL", part_kind="number", raw=Fraction(0), out_of=1, success=False),
    Row("answers:3", response="1, 3", part_kind="choice", parent="check/ratio-pairing"),
    Row("answers:4", response="3 1 2 4", part_kind="order", raw=Fraction(2, 3), out_of=1, success=False),
    Row("answers:5", response="1b 2a 3c", part_kind="match"),
    Row("results:1", verb="passed", kind="assessment", raw=Fraction(43, 2), out_of=24, success=True),
    Row("sheets:1", verb="passed", kind="performance", activity="sheet/ratio-pairing", by=2, success=True),
    Row("lessons:1", verb="completed", kind="lesson", activity="lesson/ratio pairing/1 ü"),
    Row("struck:1", verb="voided", voids="sheets:1", by=1),
]
MADE = list(statements(ROWS, HOME))


def test_the_same_row_makes_the_same_statement_and_no_two_share_an_id() -> None:
    assert list(statements(ROWS, HOME)) == MADE
    assert len({one["id"] for one in MADE}) == len(MADE)
    assert next(statements(ROWS, "https://other.example"))["id"] != MADE[0]["id"]


def test_a_person_is_a_number_under_the_shops_address() -> None:
    account = {"homePage": "https://two-bays.example/check", "name": "4"}
    assert all(one["actor"] == {"objectType": "Agent", "account": account} for one in MADE)


def test_responses_are_written_as_the_standard_parts_them() -> None:
    told = {
        one["result"]["response"]: one["object"]["definition"]["interactionType"]
        for one in MADE
        if "response" in one.get("result", {})
    }
    assert told == {
        "7.5": "numeric",
        "7 1/2 mL": "other",
        "1[,]3": "choice",
        "3[,]1[,]2[,]4": "sequencing",
        "1[.]b[,]2[.]a[,]3[.]c": "matching",
    }


def test_marks_are_a_score_between_its_bounds() -> None:
    assert MADE[6]["result"] == {
        "score": {"scaled": 0.8958, "raw": 21.5, "min": 0, "max": 24},
        "success": True,
        "completion": True,
    }


def test_a_sign_off_names_its_trainer_and_a_withdrawal_voids() -> None:
    assert MADE[7]["context"]["instructor"]["account"]["name"] == "2"
    assert MADE[9]["object"] == {"objectType": "StatementRef", "id": MADE[7]["id"]}
    assert "result" not in MADE[9]
    assert MADE[1]["context"]["registration"] == MADE[0]["id"]


def test_no_null_no_empty_object_and_nothing_that_a_store_adds_is_sent() -> None:
    text = json.dumps(MADE)
    assert not re.search(r"null|\{\}|\[\]|stored|authority|\"version\"", text)


@pytest.mark.parametrize("address", ["", "two-bays.example", "ftp://x.example", "https://", "https://a b.example"])
def test_without_an_address_there_are_none_and_it_says_why(address: str) -> None:
    with pytest.raises(NoAddress, match="address"):
        statements(ROWS, address)


def validator(schema: Any) -> Any:
    from jsonschema import Draft202012Validator

    return Draft202012Validator(schema)


def test_the_schema_that_judges_ours_judges_the_conformance_statements_right(standard: Callable[[str], Any]) -> None:
    """The 950 statements of the conformance suite (copy); no schema can put min, max and raw of a score in order."""
    judge = validator(standard("xapi/xapi-1.0.3-statement.own.schema.json"))
    cases = standard("xapi/xapi-conformance-statements-1.0.3.json")["cases"]
    assert len(cases) == 950
    wrong = [case for case in cases if judge.is_valid(case["statement"]) != (case["expect"] == 200)]
    assert all("score" in json.dumps(case["statement"]) for case in wrong) and len(wrong) <= 12


def test_every_statement_is_accepted(standard: Callable[[str], Any]) -> None:
    judge = validator(standard("xapi/xapi-1.0.3-statement.own.schema.json"))
    for one in MADE:
        assert [error.message for error in judge.iter_errors(one)] == []


def test_only_listed_verbs_and_types_are_used(standard: Callable[[str], Any]) -> None:
    """The verbs and activity types of two published profiles (copy)."""
    known = json.dumps([standard(f"xapi/{name}.jsonld") for name in ("adl-vocabulary-v1.0", "scorm-profile-v1.0")])
    used = {one["verb"]["id"] for one in MADE} | {
        one["object"]["definition"]["type"] for one in MADE if "definition" in one["object"]
    }
    assert [name for name in used if name not in known] == []


@given(st.text(), st.text(), st.sampled_from(["", "number", "choice", "order", "match"]))
def test_any_title_and_response_make_a_statement(title: str, response: str, kind: str) -> None:
    (made,) = statements([Row("answers:9", title=title, response=response, part_kind=kind, activity=title)], HOME)
    assert json.loads(json.dumps(made)) == made
    assert re.fullmatch(r"[A-Za-z][A-Za-z0-9+.\-]*:[^\s<>\"{}|\\^`]+", made["object"]["id"])
