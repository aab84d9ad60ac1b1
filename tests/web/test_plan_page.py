"""The plan on its page and as files."""

import csv
import io
from typing import TYPE_CHECKING

from openpyxl import load_workbook

if TYPE_CHECKING:
    from conftest import Bench


def test_the_plan_stands_on_a_page_and_in_files(bench: "Bench") -> None:
    browser = bench.browser("manager")
    page = browser.get("/plan?site=north&weeks=8").text
    assert "Who next" in page and "min in all" in page and "No plan takes less time." in page
    made = browser.get("/plan.csv?site=north&weeks=8")
    assert made.headers["Content-Disposition"] == 'attachment; filename="plan.csv"'
    rows = list(csv.reader(io.StringIO(made.data.decode("utf-8-sig"), newline="")))
    assert rows[0][:3] == ["By", "Person", "Site"] and len(rows) > 1
    sheet = load_workbook(io.BytesIO(browser.get("/plan.xlsx?site=north&weeks=8").data)).active
    assert sheet is not None and sheet.max_row == len(rows)


def test_what_is_out_of_reach_is_told(bench: "Bench") -> None:
    browser = bench.browser("manager")
    assert browser.get("/plan?weeks=0").status_code == 409
    assert browser.get("/plan?site=west").status_code == 404
    assert browser.get("/plan.odt").status_code == 404
