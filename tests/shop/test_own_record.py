"""What is kept about a person, told in full to them and a manager; and what is left once they have left."""

import json
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from quizkit import shop as deeds
from quizkit.exchange.own import record_file
from quizkit.records import verify_file
from quizkit.records.schema import expected_shapes
from quizkit.shop.own import sorts

if TYPE_CHECKING:
    from conftest import Floor

PHOTO = b"\xff\xd8\xff the paper of Ann, photographed"
NOTES = ("Steady hand, good pace", "The tip was cut askew", "We went over shares again", "I read the scale twice")


def _lived(floor: "Floor") -> int:
    """Ann with something in every corner: a check failed and talked over, an appeal, a sheet with note and photo."""
    floor.pass_check(floor.ann, "ppe")
    for _turn in range(2):
        form = floor.fail_check(floor.ann, "pairing")
        floor.later(days=10)
    deeds.appeal(floor.shop, floor.ann, f"form:{form}", NOTES[3], now=floor.now)
    deeds.record_talk(floor.shop, floor.trainer, floor.ann, "pairing", NOTES[2], now=floor.now)
    floor.pass_check(floor.ann, "pairing")
    floor.found(floor.trainer)
    day = floor.now.date()
    sheet = floor.filled(floor.ann, note=NOTES[0], photo=PHOTO, late=True, seen_on=day)
    number = deeds.sign_sheet(floor.shop, floor.trainer, sheet, now=floor.later(minutes=5))
    deeds.see_proof(floor.shop, floor.trainer, floor.ann, "fit-test", None, now=floor.now, detail="half mask")
    deeds.withdraw(floor.shop, floor.trainer, floor.ann, "pairing", NOTES[1], now=floor.later(hours=1))
    deeds.lesson_read(floor.shop, floor.ann, "ppe", "ppe/1-air", now=floor.now)
    deeds.keep_draft(floor.shop, floor.ann, "sheet:9:pairing", {"a": "46"}, now=floor.now)
    deeds.sign_in(floor.shop, floor.ann, "2795", address="10.0.0.7", now=floor.now)
    return number


def _record(floor: "Floor", by: int = 0) -> deeds.OwnRecord:
    return deeds.own_record(floor.shop, floor.ann, by=by or floor.ann, now=floor.now)


def test_every_sort_of_row_about_people_is_told_with_a_reason() -> None:
    theirs = {name for name, shape in expected_shapes().items() if "person" in shape.names}
    told = {table for _what, _why, _goes, tables in sorts() for table in tables}
    assert theirs - {"private_text", "photo"} <= told


def test_all_of_it_is_there_in_plain_words(floor: "Floor") -> None:
    sheet = _lived(floor)
    made = json.loads(record_file(_record(floor)))
    text = json.dumps(made["tables"])
    assert made["person"]["name"] == "Ann Bly" and all(note in text for note in (*NOTES, "half mask", "10.0.0.7"))
    assert len(made["tables"]["answer"]) == floor.shop.count("answer")
    assert [one["sheet"] for one in made["photos"]] == [sheet]
    assert all(one["rows"] and one["why"] and one["how long"] for one in made["kept"])
    assert any("10 years after you leave" in one["how long"] for one in made["kept"])
    (signing_in,) = (one for one in made["kept"] if one["what"].startswith("Each sign-in"))
    assert signing_in["how long"] == "for 30 days, or until you leave the shop"


def test_no_secret_and_nothing_of_others_is_in_it(floor: "Floor") -> None:
    _lived(floor)
    floor.pass_check(floor.ben, "ppe")
    text = record_file(_record(floor)).decode()
    person, session = floor.shop.row("person", number=floor.ann), floor.shop.row("session", person=floor.ann)
    assert person is not None and session is not None
    assert person["secret"] not in text and session["token"] not in text and "Ben Cray" not in text
    forms = {row["form"] for row in json.loads(text)["tables"]["answer"]}
    assert forms == {row["id"] for row in floor.shop.rows("form", person=floor.ann)}


def test_it_is_for_the_person_and_for_managers(floor: "Floor") -> None:
    assert _record(floor).person == _record(floor, floor.manager).person
    for by in (floor.trainer, floor.ben):
        with pytest.raises(deeds.Forbidden):
            _record(floor, by)


def test_who_writes_about_others_is_told_how_often(floor: "Floor") -> None:
    before = deeds.own_record(floor.shop, floor.trainer, by=floor.trainer, now=floor.now).done_for_others
    _lived(floor)
    after = deeds.own_record(floor.shop, floor.trainer, by=floor.trainer, now=floor.now).done_for_others
    assert after - before == 4, "the talk, the sheet, the proof and the withdrawal"


def _bytes_beside(path: Path) -> bytes:
    return b"".join(each.read_bytes() for each in path.parent.iterdir() if each.name.startswith(path.name))


def test_who_leaves_is_erased_and_the_evidence_stands(floor: "Floor") -> None:
    _lived(floor)
    marks = [b"Ann Bly", PHOTO, *(note.encode() for note in NOTES), b"10.0.0.7"]
    assert all(mark in _bytes_beside(floor.path) for mark in marks)
    before = {name: floor.shop.count(name) for name, shape in expected_shapes().items() if shape.evidence}
    standing = floor.word(floor.ann)
    deeds.leave(floor.shop, floor.ann, by=floor.manager, now=floor.later(days=1))

    assert [mark for mark in marks if mark in _bytes_beside(floor.path)] == []
    after = {name: floor.shop.count(name) for name in before}
    assert after == before | {"admin": before["admin"] + 1}
    assert verify_file(floor.path).sound
    assert floor.word(floor.ann) == standing
    told = record_file(_record(floor, floor.manager)).decode()
    assert f"Person {floor.ann}" in told and "(erased)" in told and json.loads(told)["photos"] == []
    assert not json.loads(told)["tables"].keys() & {"session", "draft", "reading", "sign_in_try"}
    tables = json.loads(told)["tables"]
    for what, _why, goes, names in sorts():
        kept = [name for name in names if name != "person" and tables.get(name)]
        assert not (goes and kept), f"{what}: said to be erased, and still there"
    with pytest.raises(deeds.Forbidden):
        _record(floor)


def test_what_is_said_to_stay_does_stay_when_somebody_leaves(floor: "Floor") -> None:
    _lived(floor)
    before = _record(floor).tables
    deeds.leave(floor.shop, floor.ann, by=floor.manager, now=floor.later(days=1))
    after = _record(floor, floor.manager).tables
    for what, _why, goes, names in sorts():
        for name in () if goes else names:
            assert len(after.get(name, ())) >= len(before.get(name, ())), f"{what}: {name}"
