"""Everything in the file as CSV: each table whole, for managers alone, with no secret and nothing that a sheet runs."""

import csv
import io
import json
import zipfile
from typing import TYPE_CHECKING

import pytest

from quizkit import shop as deeds
from quizkit.exchange.everything import write_zip
from quizkit.records.schema import expected_shapes

if TYPE_CHECKING:
    from conftest import Floor


def _unpacked(floor: "Floor") -> dict[str, list[dict[str, str]]]:
    made = io.BytesIO()
    write_zip(deeds.everything(floor.shop, floor.manager, now=floor.now), made)
    with zipfile.ZipFile(made) as zipped:
        texts = {name.removesuffix(".csv"): zipped.read(name).decode("utf-8-sig") for name in zipped.namelist()}
    return {name: list(csv.DictReader(io.StringIO(text, newline=""))) for name, text in texts.items()}


def test_every_row_of_every_table_of_evidence_is_there(floor: "Floor", monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("quizkit.shop.dumps.AT_ONCE", 7)
    floor.clear(floor.ann)
    found = _unpacked(floor)
    tables = {name for name, shape in expected_shapes().items() if shape.evidence}
    assert found.keys() == tables | {"people"}
    for name in tables:
        assert [int(row["id"]) for row in found[name]] == [row["id"] for row in floor.shop.rows(name)], name
    assert [row["name"] for row in found["people"]] == ["Mo Hale", "Tess Orr", "Ann Bly", "Ben Cray"]
    day = floor.shop.rows("sheet")[0]["seen_on"].isoformat()
    assert found["sheet"][0]["seen_on"] == day and json.loads(found["sheet"][0]["seen"]) == [1, 2, 3]
    assert found["sheet"][0]["late"] == "0" and found["people"][0]["left_on"] == ""
    (entitlement,) = found["entitlement"]
    assert entitlement["basis"] == "course of the maker, 2025" and entitlement["founding"] == "1"


def test_no_hash_of_a_secret_is_in_it(floor: "Floor") -> None:
    made = io.BytesIO()
    write_zip(deeds.everything(floor.shop, floor.manager, now=floor.now), made)
    with zipfile.ZipFile(made) as zipped:
        everything = b"".join(zipped.read(name) for name in zipped.namelist())
    for row in floor.shop.rows("person"):
        assert row["secret"].encode() not in everything


def test_a_note_that_looks_like_a_formula_stays_text(floor: "Floor") -> None:
    floor.pass_check(floor.ann, "ppe")
    deeds.withdraw(floor.shop, floor.trainer, floor.ann, "ppe", "=1+1", now=floor.now)
    assert _unpacked(floor)["withdrawal"][0]["note"] == "'=1+1"


def test_it_is_for_managers(floor: "Floor") -> None:
    for by in (floor.trainer, floor.ann):
        with pytest.raises(deeds.Forbidden):
            deeds.everything(floor.shop, by, now=floor.now)
