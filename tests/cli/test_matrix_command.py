"""`quizkit matrix`: the same standings as text, CSV, workbook, page, calendar and for a program."""

import csv
import io
import json
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import Result
from openpyxl import load_workbook

Run = Callable[..., Result]


@pytest.fixture
def shop(run: Run, content: Path, tmp_path: Path) -> Path:
    path = tmp_path / "shop.db"
    run("person", "add", "--shop", path, "--content", content, "--name", "Ada Lind", "--role", "manager")
    run("person", "add", "--shop", path, "--name", "Bo Strand", "--by", 1)
    return path


def test_people_stand_down_and_skills_across(run: Run, shop: Path) -> None:
    done = run("matrix", "--shop", shop)
    assert done.exit_code == 0, done.output
    lines = done.output.splitlines()
    assert lines[0].split() == ["Person", "Role", "Site", "Ratio", "pairing"]
    assert any(line.startswith("Bo Strand  apprentice") and line.endswith("not started") for line in lines)


def test_every_form_tells_the_same(run: Run, shop: Path, tmp_path: Path) -> None:
    rows = list(csv.reader(io.StringIO(run("matrix", "--shop", shop, "--format", "csv").output, newline="")))
    assert ["Bo Strand", "apprentice", "Two Bays", "not started"] in rows
    assert "<b>not started</b>" in run("matrix", "--shop", shop, "--format", "html").output
    done = run("matrix", "--shop", shop, "--format", "xlsx", "--into", tmp_path / "m.xlsx")
    assert done.exit_code == 0
    sheet = load_workbook(tmp_path / "m.xlsx").active
    assert ["Bo Strand", "apprentice", "Two Bays", "not started"] in [[cell.value for cell in row] for row in sheet]
    made = json.loads(run("matrix", "--shop", shop, "--json").output)
    assert [one["standing"] for one in made["standings"]] == ["not started", "not started"]


def test_nothing_to_lapse_makes_no_calendar(run: Run, shop: Path, tmp_path: Path) -> None:
    done = run("matrix", "--shop", shop, "--format", "ics", "--into", tmp_path / "m.ics")
    assert done.exit_code == 1 and not (tmp_path / "m.ics").exists()


def test_it_is_narrowed_down_and_wrong_words_are_told(run: Run, shop: Path) -> None:
    assert "Ada" not in run("matrix", "--shop", shop, "--role", "apprentice").output
    for words, status in (
        (("--skill", "parking"), 1),
        (("--as-of", "2999-01-01"), 1),
        (("--as-of", "yesterday"), 2),
        (("--format", "xlsx"), 2),
        (("--format", "odt"), 2),
    ):
        done = run("matrix", "--shop", shop, *words)
        assert (done.exit_code, bool(done.output)) == (status, True), words
