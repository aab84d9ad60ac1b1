"""`quizkit questions`: how a check's questions were answered, as words, for a spreadsheet and for a program."""

import csv
import datetime as dt
import io
import json
import re
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import Result

from quizkit import shop as deeds

Run = Callable[..., Result]


@pytest.fixture
def shop(run: Run, content: Path, tmp_path: Path) -> Path:
    """A shop that calls two people enough, in which two have taken the check: one right, one wrong."""
    settings = content / "shop.toml"
    settings.write_text("few = 2\n" + settings.read_text())
    path = tmp_path / "shop.db"
    run("person", "add", "--shop", path, "--content", content, "--name", "Ada Lind", "--role", "manager")
    now = dt.datetime.now(dt.UTC)
    with deeds.open_shop(path) as opened:
        for name in ("Bo Strand", "Cy Oak"):
            done = run("person", "add", "--shop", path, "--name", name, "--by", 1)
            person = int(re.search(r"number (\d+)", done.output)[1])  # type: ignore[index]
            form = deeds.start_check(opened, person, "pairing", now=now)
            view = deeds.check_item(opened, person, form, 1, now=now)
            variant = deeds.variant_of(deeds.current_pack(opened), view.question.question, view.question.variant)
            right = variant.right("answer").removeprefix("≈ ")
            typed = right if name == "Bo Strand" else f"{float(variant.slip_values('answer')[0] or 0):g}"
            deeds.answer_item(opened, person, form, 1, {"answer": typed}, now=now)
            deeds.hand_in(opened, person, form, now=now)
    return path


def test_the_whole_and_each_question_are_told(run: Run, shop: Path) -> None:
    done = run("questions", "pairing", "--shop", shop)
    assert done.exit_code == 0, done.output
    assert "Ratio pairing: 2 people, 2 full checks" in done.output
    assert "mean 0.5 of 1 marks, 1 to pass" in done.output
    assert "slip 1: Upside down (1)" in done.output


def test_csv_and_json_hold_the_figures(run: Run, shop: Path) -> None:
    text = run("questions", "pairing", "--shop", shop, "--format", "csv").output
    rows = list(csv.reader(io.StringIO(text, newline="")))
    assert rows[1][:3] == ["pairing/share", "2", "50"]
    made = json.loads(run("questions", "pairing", "--shop", shop, "--json").output)
    assert made["lines"][0]["figures"]["share"] == 0.5 and made["check"]["mean"] == 0.5


def test_a_workbook_needs_a_file_and_a_skill_must_be_taught(run: Run, shop: Path, tmp_path: Path) -> None:
    assert run("questions", "pairing", "--shop", shop, "--format", "xlsx").exit_code == 2
    assert run("questions", "parking", "--shop", shop).exit_code == 1
    assert run("questions", "pairing", "--shop", shop, "--format", "xlsx", "--into", tmp_path / "q.xlsx").exit_code == 0
    assert (tmp_path / "q.xlsx").read_bytes().startswith(b"PK")
