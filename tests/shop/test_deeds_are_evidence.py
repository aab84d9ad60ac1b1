"""Every deed leaves its row of evidence, administrative ones too; what leaves none is named here, with why."""

import datetime as dt
import inspect
from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from quizkit import shop as deeds
from quizkit.records import verify_file

if TYPE_CHECKING:
    from conftest import Floor

DEEDS = {
    "add_people": "admin",
    "add_person": "admin",
    "add_stock": "stock",
    "answer_appeal": "appeal_answer",
    "answer_item": "answer",
    "answer_practice": "practice",
    "appeal": "appeal",
    "change_own_secret": "pin_reset",
    "change_person": "admin",
    "close_overdue": "result",
    "count_stock": "stock",
    "end_entitlement": "entitlement_end",
    "end_withdrawal": "withdrawal_end",
    "enter_paper_check": "result",
    "grant": "entitlement",
    "hand_in": "result",
    "issue_certificate": "certificate",
    "leave": "admin",
    "lift_wait": "lift",
    "mark_change": "product_mark",
    "observe_sheet": "sheet",
    "paper_form": "form",
    "paper_forms": "form",
    "practise": "draw",
    "publish": "publication",
    "receive_stock": "stock",
    "record_job": "job",
    "record_jobs": "job",
    "record_talk": "talk",
    "refuse_sheet": "sheet",
    "remark_question": "remark",
    "rename_person": "admin",
    "reset_secret": "pin_reset",
    "save_month": "month",
    "scrap_stock": "stock",
    "see_proof": "outside_proof",
    "sign_observed": "signature",
    "sign_sheet": "sheet",
    "start_check": "form",
    "strike": "strike",
    "withdraw": "withdrawal",
    "withdraw_certificate": "certificate_end",
}
"""The table that each deed writes to."""

NO_EVIDENCE = {
    "sign_in": "a session and the try; they end with their purpose",
    "sign_out": "the end of a session",
    "session": "that a session was used",
    "check_secret": "the try, which slows the next ones down",
    "keep_draft": "half-done work",
    "drop_draft": "half-done work",
    "park_sheet": "half-done work",
    "drop_parked": "half-done work",
    "lesson_read": "reading decides nothing",
}
"""What writes to the file and leaves no evidence, and what it is."""


def functions() -> dict[str, Callable[..., object]]:
    found = {name: getattr(deeds, name) for name in deeds.__all__}
    return {name: function for name, function in found.items() if inspect.isfunction(function)}


def writes(function: Callable[..., object]) -> bool:
    """Whether the body of a function opens a deed, adds a row, or calls another deed."""
    text = inspect.getsource(function).split('"""')[-1]
    return ".deed(" in text or "shop.add(" in text or "records.keep(" in text


def test_every_function_that_opens_a_deed_is_named_here() -> None:
    opening = {name for name, function in functions().items() if writes(function)}
    assert opening <= DEEDS.keys() | NO_EVIDENCE.keys(), opening - DEEDS.keys() - NO_EVIDENCE.keys()
    assert DEEDS.keys() | NO_EVIDENCE.keys() <= functions().keys()
    assert not DEEDS.keys() & NO_EVIDENCE.keys()


Deed = Callable[["Floor"], object]
BOSS: dict[str, Deed] = {
    "add_person": lambda floor: deeds.add_person(
        floor.shop,
        name="New",
        role="trainer",
        site="south",
        secret="four blue cups hum",
        by=floor.manager,
        now=floor.now,
    ),
    "add_people": lambda floor: deeds.add_people(
        floor.shop, [{"name": "New", "role": "apprentice", "site": "north"}], by=floor.manager, now=floor.now
    ),
    "change_person, role": lambda floor: deeds.change_person(
        floor.shop, floor.ben, by=floor.manager, now=floor.now, role="apprentice"
    ),
    "change_person, site": lambda floor: deeds.change_person(
        floor.shop, floor.ben, by=floor.manager, now=floor.now, site="north"
    ),
    "rename_person": lambda floor: deeds.rename_person(
        floor.shop, floor.ben, "Ben Other", by=floor.manager, now=floor.now
    ),
    "reset_secret": lambda floor: deeds.reset_secret(
        floor.shop, floor.ben, "8642", "Forgotten", by=floor.manager, now=floor.now
    ),
    "leave": lambda floor: deeds.leave(floor.shop, floor.ben, by=floor.manager, now=floor.now),
    "grant": lambda floor: floor.found(floor.trainer),
    "end_entitlement": lambda floor: deeds.end_entitlement(
        floor.shop, floor.manager, floor.found(floor.trainer), "Moved on", now=floor.now
    ),
    "see_proof": lambda floor: deeds.see_proof(
        floor.shop, floor.manager, floor.ben, "fit-test", None, now=floor.now, detail="half mask"
    ),
    "withdraw": lambda floor: deeds.withdraw(
        floor.shop, floor.manager, floor.ben, "pairing", "Bond failed", now=floor.now
    ),
    "publish": lambda floor: deeds.publish(
        floor.shop, replace(floor.pack, scheme=replace(floor.pack.scheme, name="Other")), floor.manager, now=floor.now
    ),
}


@pytest.mark.parametrize("name", BOSS)
def test_an_administrative_deed_is_a_sealed_row_with_who_and_when(floor: "Floor", name: str) -> None:
    table, head = DEEDS[name.split(",")[0]], floor.shop.records.head()
    floor.later(minutes=1)
    BOSS[name](floor)
    row = floor.shop.rows(table, newest=True)[0]
    assert row["id"] > head.position and row["done_by"] == floor.manager
    assert row["recorded_at"] == floor.now
    assert verify_file(floor.path, head.seal).proven


def test_the_way_back_from_the_machine_leaves_a_mark_that_names_nobody(floor: "Floor") -> None:
    head = floor.shop.records.head()
    with pytest.raises(deeds.Refusal, match="reason"):
        deeds.reset_secret(floor.shop, floor.manager, "seven tall green jars", "  ", by=None, now=floor.now)
    assert floor.shop.records.head() == head
    deeds.reset_secret(floor.shop, floor.manager, "seven tall green jars", "Lost it", by=None, now=floor.now)
    row = floor.shop.rows("pin_reset", newest=True)[0]
    assert (row["way"], row["done_by"], row["person"], row["note"]) == ("machine", None, floor.manager, "Lost it")
    signed = deeds.sign_in(floor.shop, floor.manager, "seven tall green jars", address="a", now=floor.now)
    assert signed.person.role == "manager"


def test_no_evidence_holds_a_secret_or_its_hash(floor: "Floor") -> None:
    deeds.reset_secret(floor.shop, floor.ben, "8642", "Forgotten", by=floor.manager, now=floor.now)
    deeds.change_own_secret(floor.shop, floor.ann, "2795", "9753", now=floor.now)
    kept = [row["secret"] for row in floor.shop.rows("person")]
    for table in {"admin", "pin_reset"}:
        for row in floor.shop.rows(table):
            assert not any(str(value) in ("8642", "9753", *kept) or "scrypt" in str(value) for value in row.values())


def test_an_open_session_does_not_give_the_pin_away_by_trying(floor: "Floor") -> None:
    for tried in range(3):
        with pytest.raises(deeds.Refusal, match="old one"):
            deeds.change_own_secret(floor.shop, floor.ann, f"123{tried}", "9753", now=floor.now)
    with pytest.raises(deeds.Waiting):
        deeds.change_own_secret(floor.shop, floor.ann, "2795", "9753", now=floor.now)
    floor.later(seconds=dt.timedelta(minutes=2).total_seconds())
    deeds.change_own_secret(floor.shop, floor.ann, "2795", "9753", now=floor.now)
