"""`quizkit job` and `quizkit cover`: this morning's question and the weeks ahead, at the machine."""

import csv
import io
import json
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import Result

Run = Callable[..., Result]
SETTINGS = """[cover]
pairing = 1

[jobs.bond]
title = "Bond a panel"
skills = ["pairing"]
"""


@pytest.fixture
def shop(run: Run, content: Path, tmp_path: Path) -> Path:
    settings = content / "shop.toml"
    settings.write_text(settings.read_text() + SETTINGS)
    path = tmp_path / "shop.db"
    run("person", "add", "--shop", path, "--content", content, "--name", "Ada Lind", "--role", "manager")
    return path


def test_the_kinds_of_job_are_listed_and_one_is_asked_about(run: Run, shop: Path) -> None:
    assert "bond  Bond a panel" in run("job", "--shop", shop).output
    done = run("job", "bond", "--shop", shop)
    assert done.exit_code == 0 and "not" in done.output and "Ratio pairing is not cleared" in done.output
    made = json.loads(run("job", "bond", "--shop", shop, "--json").output)
    assert [one["name"] for one in made["neither"]] == ["Ada Lind"] and made["alone"] == []


def test_cover_is_told_with_its_weeks_in_a_file(run: Run, shop: Path) -> None:
    done = run("cover", "--shop", shop)
    assert done.exit_code == 0 and "Short from" in done.output, done.output
    text = run("cover", "--shop", shop, "--format", "csv", "--weeks", 4).output
    head, row = csv.reader(io.StringIO(text, newline=""))
    assert row[:4] == ["Two Bays", "Ratio pairing", "1", "0"] and len(head) == len(row) == 10
    assert json.loads(run("cover", "--shop", shop, "--json").output)["rows"][0]["wanted"] == 1


def test_wrong_asking_is_told(run: Run, shop: Path, tmp_path: Path) -> None:
    for words, status in (
        (("job", "weld"), 1),
        (("job", "bond", "--material", "Nothing"), 1),
        (("job", "bond", "--day", "2999-01-01"), 1),
        (("job", "bond", "--format", "xlsx"), 2),
        (("cover", "--away", "Nobody"), 1),
        (("cover", "--weeks", "0"), 2),
        (("cover", "--format", "xlsx"), 2),
    ):
        done = run(*words, "--shop", shop)
        assert (done.exit_code, bool(done.output)) == (status, True), words
    assert run("cover", "--shop", shop, "--format", "xlsx", "--into", tmp_path / "c.xlsx").exit_code == 0
