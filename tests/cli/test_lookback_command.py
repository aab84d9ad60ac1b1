"""`quizkit lookback`: the same bundle to read, for a spreadsheet, and as a page to print."""

import csv
import io
import json
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import Result

from quizkit import shop as deeds
from quizkit.cli.told import now
from quizkit.shop import Use

Run = Callable[..., Result]
SHELF = """# The shelf

| name  | family   | ratio         | cartridge (mL) | price ($) |
| ----- | -------- | ------------- | -------------- | --------- |
| Alder | adhesive | 2:1 by volume | 200            | $46.00    |
"""
JOB = '\n[jobs.bond]\ntitle = "Bond a panel"\nskills = ["pairing"]\n'


@pytest.fixture
def shop(run: Run, content: Path, tmp_path: Path) -> Path:
    path = tmp_path / "shop.db"
    (content / "shelf.md").write_text(SHELF)
    (content / "shop.toml").write_text((content / "shop.toml").read_text() + JOB)
    run("person", "add", "--shop", path, "--content", content, "--name", "Ada Lind", "--role", "manager")
    run("person", "add", "--shop", path, "--name", "Bo Strand", "--by", 1)
    with deeds.open_shop(path) as opened:
        uses = [Use("Alder", "4471", "4472", "30 to 115 mL")]
        deeds.record_job(opened, 1, ticket="T-118", job="bond", person=2, uses=uses, now=now())
    return path


def test_it_tells_who_did_it_and_where_they_stood(run: Run, shop: Path) -> None:
    done = run("lookback", "--shop", shop, "--ticket", "T-118")
    assert done.exit_code == 0, done.output
    for words in (
        "Where they stood",
        "as then known: not started",
        "lots 4471 and 4472, 85 mL used",
        "not: Ratio pairing",
    ):
        assert words in done.output, words


def test_every_way_of_asking_finds_the_same_ticket(run: Run, shop: Path) -> None:
    for asked in (("--lot", "4472"), ("--person", "bo strand"), ("--person", "2"), ("--material", "Alder")):
        assert "T-118" in run("lookback", "--shop", shop, *asked).output, asked


def test_the_spreadsheet_and_the_page_hold_the_head_of_the_records(run: Run, shop: Path, tmp_path: Path) -> None:
    with deeds.open_shop(shop) as opened:
        seal = opened.records.head().seal
    rows = list(csv.reader(io.StringIO(run("lookback", "--shop", shop, "--lot", "4471", "--format", "csv").output)))
    assert rows[0][0] == "Part" and any(seal in row for row in rows)
    done = run("lookback", "--shop", shop, "--lot", "4471", "--format", "html", "--into", tmp_path / "bundle.html")
    assert done.exit_code == 0 and seal in (tmp_path / "bundle.html").read_text()


def test_a_program_reads_the_same(run: Run, shop: Path) -> None:
    made = json.loads(run("lookback", "--shop", shop, "--ticket", "T-118", "--json").output)
    assert [hand["name"] for hand in made["hands"]] == ["Bo Strand"] and made["jobs"][0]["uses"][0]["used"][
        "value"
    ] == "17/40"


def test_what_is_not_there_and_wrong_words_are_told_apart(run: Run, shop: Path) -> None:
    for words, status in (
        ((), 1),
        (("--ticket", "T-404"), 1),
        (("--person", "Nobody"), 1),
        (("--day", "2999-01-01"), 1),
        (("--day", "soon"), 2),
        (("--format", "odt"), 2),
    ):
        done = run("lookback", "--shop", shop, *words)
        assert (done.exit_code, bool(done.output)) == (status, True), words
