"""`quizkit ticket`, `stock` and `month`: lists taken up whole, and a month's gap as text, CSV and workbook."""

import csv
import datetime as dt
import io
import json
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import Result
from openpyxl import load_workbook

from quizkit.cli.told import now

Run = Callable[..., Result]
SHELF = """# The shelf

| name  | family   | ratio         | cartridge (mL) | price ($) |
| ----- | -------- | ------------- | -------------- | --------- |
| Alder | adhesive | 2:1 by volume | 200            | $46.00    |
"""
JOB = '\n[jobs.bond]\ntitle = "Bond a panel"\nskills = ["pairing"]\n'
LAST = now().date().replace(day=1) - dt.timedelta(days=1)
"""The last day of the month before this one."""
FIRST = LAST.replace(day=1)


@pytest.fixture
def shop(run: Run, content: Path, tmp_path: Path) -> Path:
    path = tmp_path / "shop.db"
    (content / "shelf.md").write_text(SHELF)
    (content / "shop.toml").write_text((content / "shop.toml").read_text() + JOB)
    run("person", "add", "--shop", path, "--content", content, "--name", "Ada Lind", "--role", "manager")
    run("person", "add", "--shop", path, "--name", "Bo Strand", "--by", 1)
    return path


def write(folder: Path, name: str, *lines: str) -> Path:
    (folder / name).write_text("\n".join(lines) + "\n")
    return folder / name


def test_lists_fill_a_month_whose_gap_is_told_in_every_form(run: Run, shop: Path, tmp_path: Path) -> None:
    """The billing lesson's own month: 14 and 24 less 9 is 29 used, 22.4 billed, 6.6 not."""
    month = f"{LAST:%Y-%m}"
    stock = write(
        tmp_path, "stock.csv", "what,material,amount,day", f"counted,Alder,14,{FIRST}",
        f"received,Alder,24,{FIRST.replace(day=9)}", f"counted,Alder,9,{LAST}",
    )  # fmt: skip
    tickets = write(
        tmp_path, "tickets.csv", "ticket,job,person,day,material,lot a,lot b,used",
        f"T-1,bond,2,{FIRST.replace(day=10)},Alder,7,8,22.4 cartridges",
    )  # fmt: skip
    assert "3 rows of stock" in run("stock", "import", "--shop", shop, stock, "--by", 1).output
    assert "1 job written down" in run("ticket", "import", "--shop", shop, tickets, "--by", 1).output
    assert "$303.60 not billed (22.8 %)" in run("month", "--shop", shop, month).output
    rows = list(csv.reader(io.StringIO(run("month", "--shop", shop, month, "--format", "csv").output)))
    assert rows[0][1] == "Material" and rows[1][1] == "Alder"
    done = run("month", "--shop", shop, month, "--format", "xlsx", "--into", tmp_path / "m.xlsx")
    assert done.exit_code == 0 and load_workbook(tmp_path / "m.xlsx").active["B2"].value == "Alder"
    made = json.loads(run("month", "--shop", shop, month, "--json").output)
    assert made["rows"][0]["gap"] == {"value": "33/5", "text": "6.6"}
    saved = run("month", "--shop", shop, month, "--save", 1)
    assert saved.exit_code == 0 and "is saved as row" in saved.output
    assert run("month", "--shop", shop, month, "--save", 1).exit_code == 1


def test_a_list_with_a_bad_line_writes_nothing_and_names_it(run: Run, shop: Path, tmp_path: Path) -> None:
    good = "what,material,amount"
    bad = write(tmp_path, "bad.csv", good, "counted,Alder,3", "counted,Elm,3", "counted,Alder,many")
    done = run("stock", "import", "--shop", shop, bad, "--by", 1)
    assert done.exit_code == 1 and "line 3" in done.output and "line 4" in done.output
    assert "Nothing was written down" in done.output
    assert "Alder" not in run("month", "--shop", shop, f"{LAST:%Y-%m}").output


def test_what_is_wrong_is_told_without_a_traceback(run: Run, shop: Path, tmp_path: Path) -> None:
    for words, status in (
        (("month", "2026-13"), 1),
        (("month", "2999-01"), 1),
        (("month", "2026-01", "--site", "east"), 1),
        (("month", "--format", "xlsx"), 2),
        (("month", "2020-01", "--save", 1), 1),
        (("ticket", "import", tmp_path / "no.csv", "--by", 1), 1),
        (("stock", "import", shop, "--by", 1), 1),
        (("stock", "import", shop), 2),
    ):
        done = run(*words, "--shop", shop)
        assert (done.exit_code, bool(done.output)) == (status, True), words
