"""A table leaves as text, CSV or a workbook, whole, and never as something that a spreadsheet would work out."""

import csv
import datetime as dt
import io

import pytest
from hypothesis import given
from hypothesis import strategies as st
from openpyxl import load_workbook

from quizkit.exchange import table
from quizkit.exchange.table import Table

DAY = dt.date(2027, 9, 18)
PEOPLE = Table(
    "Matrix",
    ("Person", "Skill", "Marks", "Until"),
    (("Ada, the Great", 'says "so"', 21, DAY), ("=1+1", "+44", -5, None), ("日本", "é", 3, DAY)),
)


def test_the_terminal_gets_straight_columns() -> None:
    lines = table.text(PEOPLE).splitlines()
    assert lines[0].startswith("Person          Skill")
    assert [line.index("21" if "21" in line else "-5") for line in lines[2:4]] == [
        lines[0].index("Marks") + 3,
        lines[0].index("Marks") + 3,
    ]
    assert lines[4].startswith("日本            é")


def test_a_csv_comes_back_as_it_was_but_for_what_looks_like_a_formula() -> None:
    written = table.csv(PEOPLE)
    assert written.count("\r\n") == 4
    back = list(csv.reader(io.StringIO(written, newline="")))
    assert back[1] == ["Ada, the Great", 'says "so"', "21", "2027-09-18"]
    assert back[2] == ["'=1+1", "'+44", "-5", ""]


@given(st.lists(st.text(), min_size=1, max_size=4))
def test_no_cell_of_a_csv_begins_like_a_formula(cells: list[str]) -> None:
    written = table.csv(Table("t", tuple("h" * len(cells)), (tuple(cells),)))
    for cell in list(csv.reader(io.StringIO(written, newline="")))[1]:
        assert not cell.startswith(("=", "+", "-", "@", "\t", "\r"))


def test_a_workbook_holds_text_as_text_and_dates_as_dates() -> None:
    sheet = load_workbook(io.BytesIO(table.xlsx(PEOPLE))).active
    assert [cell.value for cell in sheet[2]] == ["Ada, the Great", 'says "so"', 21, dt.datetime(2027, 9, 18)]
    assert (sheet["A3"].value, sheet["A3"].data_type) == ("=1+1", "s")
    assert sheet.freeze_panes == "B2" and sheet.page_setup.orientation == "landscape"


@given(st.text(), st.text())
def test_a_workbook_takes_every_text(title: str, cell: str) -> None:
    assert load_workbook(io.BytesIO(table.xlsx(Table(title, ("h",), ((cell,),))))).active.max_row == 2


@pytest.mark.parametrize("title", ["", "a" * 60, "x/y:[z]?*"])
def test_a_sheets_title_is_one_that_a_workbook_takes(title: str) -> None:
    assert 1 <= len(load_workbook(io.BytesIO(table.xlsx(Table(title, ("h",), ())))).active.title) <= 31
