"""Lists of the desk out of CSV, and a month's figures into a table."""

import datetime as dt
from dataclasses import dataclass
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quizkit.exchange.desk import month_table, read_jobs, read_stock
from quizkit.exchange.rows import RowsRead

HEADS = "ticket,job,person,day,material,lot a,lot b,used"


def test_a_line_a_material_is_read_with_the_columns_that_may_be_left_out() -> None:
    read = read_jobs(f"{HEADS}\r\nT-1,bond,Ann Bly,2026-11-03,Alder,1,2,30 to 115 mL\r\n".encode("utf-8-sig"))
    assert read.problems == () and read.lines == (2,)
    assert (read.rows[0]["used"], read.rows[0]["charge"]) == ("30 to 115 mL", "")


@pytest.mark.parametrize(
    ("data", "row", "word"),
    [
        (b"", 0, "empty"),
        (b"ticket,job\nT-1,bond", 1, "person"),
        (f"{HEADS},colour\n".encode(), 1, "colour"),
        (f"{HEADS}\nT-1,bond,Ann,2026-11-03,Alder,1,,85\n".encode(), 2, "lot b"),
        (f"{HEADS}\n".encode(), 0, "no ticket"),
    ],
)
def test_a_mistake_in_a_list_of_jobs_names_its_line(data: bytes, row: int, word: str) -> None:
    read = read_jobs(data)
    assert read.rows == () and any(word in one.what and one.row == row and one.mend for one in read.problems)


@given(st.binary(max_size=200) | st.text(alphabet=',;\t"\n\rwhatmerilunyo', max_size=120).map(str.encode))
def test_no_bytes_break_the_reading_of_stock(data: bytes) -> None:
    read = read_stock(data)
    assert isinstance(read, RowsRead) and bool(read.rows) != bool(read.problems)


@dataclass(frozen=True)
class Amount:
    value: Fraction
    text: str = ""


@dataclass(frozen=True)
class Row:
    site_title: str = "North bay"
    material: str = "Alder"
    since: dt.date | None = dt.date(2026, 10, 31)
    through: dt.date | None = None
    opening: Amount | None = Amount(Fraction(14))
    received: Amount = Amount(Fraction(24))
    closing: Amount | None = None
    scrapped: Amount = Amount(Fraction(0))
    used: Amount | None = None
    on_tickets: Amount = Amount(Fraction(2, 3))
    billed: Amount = Amount(Fraction(112, 5))
    gap: Amount | None = None
    gap_money: Amount | None = Amount(Fraction(3036, 10))
    gap_percent: Amount | None = Amount(Fraction(33, 145))
    note: str = "=not counted"


@dataclass(frozen=True)
class Month:
    month: str = "2026-11"
    rows: tuple[Row, ...] = (Row(),)


def test_a_month_in_a_table_has_numbers_for_a_spreadsheet_and_blanks_for_what_is_not_known() -> None:
    table = month_table(Month())
    (cells,) = table.rows
    told = dict(zip(table.heads, cells, strict=True))
    assert (told["At the start"], told["Used"], told["On tickets"], told["Billed"]) == (14.0, None, 0.667, 22.4)
    assert (told["In money"], told["Percent of use"], told["Counted from"]) == (303.6, 22.8, dt.date(2026, 10, 31))
