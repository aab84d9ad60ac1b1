"""`quizkit plan`: who next, as words, for a spreadsheet and for a program."""

import csv
import io
import json
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import Result

Run = Callable[..., Result]


@pytest.fixture
def shop(run: Run, content: Path, tmp_path: Path) -> Path:
    settings = content / "shop.toml"
    settings.write_text(settings.read_text() + "[cover]\npairing = 1\n")
    path = tmp_path / "shop.db"
    run("person", "add", "--shop", path, "--content", content, "--name", "Ada Lind", "--role", "manager")
    run("person", "add", "--shop", path, "--name", "Bo Strand", "--by", 1)
    return path


def test_the_plan_is_told_with_its_hours(run: Run, shop: Path) -> None:
    done = run("plan", "--shop", shop)
    assert done.exit_code == 0, done.output
    assert "0 h 25 min in all" in done.output and "Ratio pairing: one short" in done.output


def test_csv_and_json_hold_the_lines(run: Run, shop: Path) -> None:
    text = run("plan", "--shop", shop, "--format", "csv", "--spare", "Ada Lind").output
    rows = list(csv.reader(io.StringIO(text, newline="")))
    assert [(row[1], row[3]) for row in rows[1:]] == [("Bo Strand", "train")]
    made = json.loads(run("plan", "--shop", shop, "--json").output)
    assert (made["minutes"], made["exact"], len(made["rows"])) == (25, True, 1)


def test_where_too_few_could_ever_hold_it_that_is_said(run: Run, shop: Path) -> None:
    done = run("plan", "--shop", shop, "--spare", 1, "--spare", 2)
    assert "Ratio pairing, Two Bays: 0 of 1 people could ever hold it" in done.output


def test_wrong_asking_is_told(run: Run, shop: Path, tmp_path: Path) -> None:
    assert run("plan", "--shop", shop, "--format", "xlsx").exit_code == 2
    assert run("plan", "--shop", shop, "--spare", "Nobody").exit_code == 1
    assert run("plan", "--shop", shop, "--weeks", 0).exit_code == 1
    assert run("plan", "--shop", shop, "--format", "xlsx", "--into", tmp_path / "p.xlsx").exit_code == 0
