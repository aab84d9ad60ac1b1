"""Whatever is changed in the evidence behind the program's back is found, and the first broken row is named."""

import datetime as dt
import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from quizkit.records import Damaged, Head, open_records, read_heads, sign_head, verify_file
from quizkit.records.migrations import EVIDENCE
from quizkit.records.schema import expected_shapes

SHAPES = expected_shapes()
CELLS = [(name, column) for name in EVIDENCE for column, _type in SHAPES[name].columns]


def head_of(path: Path) -> str:
    with open_records(path) as records:
        return records.head().seal


def test_every_table_with_a_seal_is_on_the_list_of_evidence() -> None:
    assert {name for name, shape in SHAPES.items() if shape.evidence} == set(EVIDENCE)


def test_the_untouched_file_is_consistent_and_a_head_proves_it(shop: Path) -> None:
    found = verify_file(shop)
    assert found.sound and not found.proven and found.rows == 2 * (len(EVIDENCE) + 2)
    assert verify_file(shop, found.head.seal).proven


def test_every_column_holds_a_value_in_the_filled_file(shop: Path) -> None:
    """So that the tampering below really changes something. `stock.person` alone is nothing: it is about nobody."""
    with closing(sqlite3.connect(shop)) as conn:
        empty = [cell for cell in CELLS if not conn.execute(f"SELECT count({cell[1]}) FROM {cell[0]}").fetchone()[0]]
    assert empty == [("stock", "person")]


@pytest.mark.parametrize(("table", "column"), CELLS, ids=[".".join(cell) for cell in CELLS])
def test_a_changed_value_is_found_in_its_row(shop: Path, tamper: Any, table: str, column: str) -> None:
    kind = dict(SHAPES[table].columns)[column]
    change = f"coalesce({column}, 0) + 1" if kind == "INTEGER" else f"coalesce({column}, '') || ' '"
    with tamper(shop) as conn:
        row = conn.execute(f"SELECT max(id) FROM {table}").fetchone()[0]
        if column == "id":
            change = "1000000"
        conn.execute(f"UPDATE {table} SET {column} = {change} WHERE id = ?", (row,))
    broken = verify_file(shop).broken
    assert broken is not None and broken.row == row
    assert broken.table == ("" if column == "id" else table)


@pytest.mark.parametrize(("table", "column"), CELLS, ids=[".".join(cell) for cell in CELLS])
def test_a_value_taken_away_is_found_in_its_row(shop: Path, tamper: Any, table: str, column: str) -> None:
    """Nothing takes its place where the column may be empty, otherwise an empty text or another number."""
    with tamper(shop) as conn:
        row = conn.execute(f"SELECT max(id) FROM {table} WHERE {column} IS NOT NULL").fetchone()[0]
        if row is None or column == "id":
            return
        full = conn.execute('SELECT "notnull" FROM pragma_table_info(?) WHERE name = ?', (table, column)).fetchone()[0]
        other = f"{column} + 1" if dict(SHAPES[table].columns)[column] == "INTEGER" else "''"
        conn.execute(f"UPDATE {table} SET {column} = {other if full else 'NULL'} WHERE id = ?", (row,))
    broken = verify_file(shop).broken
    assert broken is not None and (broken.table, broken.row) == (table, row)


@pytest.mark.parametrize("table", EVIDENCE)
def test_a_deleted_row_is_missed(shop: Path, tamper: Any, table: str) -> None:
    with tamper(shop) as conn:
        row = conn.execute(f"SELECT min(id) FROM {table}").fetchone()[0]
        conn.execute(f"DELETE FROM {table} WHERE id = ?", (row,))
    broken = verify_file(shop).broken
    assert broken is not None and broken.row == row


@pytest.mark.parametrize("table", EVIDENCE)
def test_a_row_put_in_between_is_found(shop: Path, tamper: Any, table: str) -> None:
    """Its number is taken already, since numbers are one series over all tables."""
    shape = SHAPES[table]
    others = ", ".join(column for column in shape.sealed if column != "id")
    with tamper(shop) as conn:
        row = conn.execute(f"SELECT max(id) FROM {table}").fetchone()[0]
        place = (
            row - 1 if conn.execute(f"SELECT 1 FROM {table} WHERE id = ?", (row - 1,)).fetchone() is None else row - 2
        )
        changed = others.replace("form,", "form + 1000,") if table in ("result", "form_item") else others
        text = f"INSERT INTO {table} (id, seal, {others}) SELECT {place}, seal, {changed} FROM {table} WHERE id = ?"
        conn.execute(text, (row,))
    broken = verify_file(shop).broken
    assert broken is not None and broken.row == place


@pytest.mark.parametrize("table", EVIDENCE)
def test_two_rows_that_changed_places_are_found(shop: Path, tamper: Any, table: str) -> None:
    with tamper(shop) as conn:
        first, second = (row[0] for row in conn.execute(f"SELECT id FROM {table} ORDER BY id LIMIT 2"))
        for before, after in ((first, -1), (second, first), (-1, second)):
            conn.execute(f"UPDATE {table} SET id = ? WHERE id = ?", (after, before))
    broken = verify_file(shop).broken
    assert broken is not None and (broken.table, broken.row) == (table, first)


def test_a_number_taken_by_two_tables_is_found(shop: Path, tamper: Any) -> None:
    with tamper(shop) as conn:
        row = conn.execute("SELECT max(id) FROM talk").fetchone()[0]
        columns = ", ".join(column for column in SHAPES["talk"].sealed if column != "id")
        conn.execute(f"INSERT INTO talk (id, seal, {columns}) SELECT 1, seal, {columns} FROM talk WHERE id = ?", (row,))
    broken = verify_file(shop).broken
    assert broken is not None and (broken.row, broken.why) == (1, "its number is taken twice")


@pytest.mark.parametrize("number", [0, -5])
def test_a_row_before_the_first_is_found(shop: Path, tamper: Any, number: int) -> None:
    columns = ", ".join(column for column in SHAPES["talk"].sealed if column != "id")
    with tamper(shop) as conn:
        conn.execute(
            f"INSERT INTO talk (id, seal, {columns}) SELECT {number}, seal, {columns} FROM talk ORDER BY id LIMIT 1"
        )
    broken = verify_file(shop).broken
    assert broken is not None and (broken.table, broken.row) == ("talk", number)


def row_seal(path: Path, number: int) -> str:
    with closing(sqlite3.connect(path)) as conn:
        found = (conn.execute(f"SELECT seal FROM {table} WHERE id = ?", (number,)).fetchone() for table in EVIDENCE)
        return str(next(row[0] for row in found if row))


def cut_tail(conn: sqlite3.Connection, rows: int) -> None:
    last = conn.execute("SELECT position FROM tip").fetchone()[0]
    for table in EVIDENCE:
        conn.execute(f"DELETE FROM {table} WHERE id > ?", (last - rows,))


def test_the_last_rows_gone_stops_the_opening_and_the_verification(shop: Path, tamper: Any) -> None:
    with tamper(shop) as conn:
        cut_tail(conn, 2)
    with pytest.raises(Damaged, match="last rows"):
        open_records(shop)
    assert not verify_file(shop).sound


def test_the_last_rows_gone_with_the_tip_set_back_is_found_with_a_head(
    shop: Path, tamper: Any, sealed_anew: Callable[[sqlite3.Connection, int], None]
) -> None:
    head = head_of(shop)
    with tamper(shop) as conn:
        cut_tail(conn, 1)
        sealed_anew(conn, 1)
        conn.execute("UPDATE tip SET recorded_at = (SELECT max(recorded_at) FROM admin)")
    assert verify_file(shop).sound
    broken = verify_file(shop, head).broken
    assert broken is not None and "the head is not in the chain" in broken.words()


def test_a_chain_sealed_anew_is_found_with_a_head(
    shop: Path, tamper: Any, sealed_anew: Callable[[sqlite3.Connection, int], None]
) -> None:
    head = head_of(shop)
    with tamper(shop) as conn:
        row = conn.execute("SELECT min(id) FROM result").fetchone()[0]
        conn.execute("UPDATE result SET passed = 0 WHERE id = ?", (row,))
        sealed_anew(conn, row)
    assert verify_file(shop).sound
    assert not verify_file(shop, head).sound


def test_signed_heads_tell_between_which_a_chain_was_sealed_anew(
    shop: Path, tamper: Any, sealed_anew: Callable[[sqlite3.Connection, int], None]
) -> None:
    now = dt.datetime(2026, 11, 26, 8, tzinfo=dt.UTC)
    heads = []
    with open_records(shop) as records:
        for _day in range(3):
            with records.transaction(now):
                row = records.add("month", seen_on=now.date(), done_by=1, month="2026-11", site="north", figures="[]")
            heads.append(sign_head(records, now).head)
    with tamper(shop) as conn:
        conn.execute("UPDATE month SET site = 'south' WHERE id = ?", (row - 1,))
        sealed_anew(conn, row - 1)
    assert verify_file(shop).sound
    known, problems = read_heads(shop.with_name("heads.txt"))
    assert not problems and [one.head.seal for one in known] == [head.seal for head in heads]
    broken = verify_file(shop, heads=[one.head for one in known]).broken
    assert broken is not None and (broken.table, broken.row) == ("month", row - 1)


def test_numbered_heads_past_the_end_tell_that_the_last_rows_are_gone(shop: Path) -> None:
    end = verify_file(shop).head
    broken = verify_file(shop, heads=[end, Head(end.position + 3, "e" * 64)]).broken
    assert broken is not None and broken.row == end.position + 1


def test_a_verification_from_a_head_looks_at_later_rows_only_and_misses_its_head(shop: Path, tamper: Any) -> None:
    end = verify_file(shop).head
    assert verify_file(shop, after=end).sound and verify_file(shop, after=end).rows == 0
    assert verify_file(shop, after=Head(end.position, end.seal)).sound
    assert verify_file(shop, after=Head(3, row_seal(shop, 3))).rows == end.position - 3
    with tamper(shop) as conn:
        conn.execute("UPDATE admin SET seal = ? WHERE id = ?", ("f" * 64, end.position))
    broken = verify_file(shop, after=end).broken
    assert broken is not None and broken.row == end.position


def test_text_that_is_no_utf8_any_more_is_named_by_its_row(shop: Path, tamper: Any) -> None:
    with tamper(shop) as conn:
        row = conn.execute("SELECT max(id) FROM job").fetchone()[0]
        conn.execute("UPDATE job SET ticket = CAST(x'ff41' AS TEXT) WHERE id = ?", (row,))
    broken = verify_file(shop).broken
    assert broken is not None and (broken.table, broken.row) == ("job", row)


BESIDE = {
    "UPDATE private_text SET body = body || '!' WHERE key = (SELECT note FROM talk ORDER BY id LIMIT 1)": "talk",
    "DELETE FROM private_text WHERE key = (SELECT basis FROM entitlement ORDER BY id LIMIT 1)": "entitlement",
    "UPDATE photo SET body = x'00'": "sheet",
    "DELETE FROM photo": "sheet",
    "UPDATE pack SET body = x'00'": "publication",
    "UPDATE person SET name = 'Somebody else' WHERE number = 1": "person",
    "UPDATE person SET role = 'trainer' WHERE number = 2": "person",
    "UPDATE person SET site = 'south' WHERE number = 2": "person",
    "UPDATE person SET left_on = '2026-11-25' WHERE number = 2": "person",
    "INSERT INTO person VALUES (9, 'New', 'manager', 'north', 'en', NULL, NULL)": "person",
}


@pytest.mark.parametrize("change", BESIDE)
def test_what_evidence_points_to_is_held_to_it(shop: Path, tamper: Any, change: str) -> None:
    with tamper(shop) as conn:
        conn.execute(change)
    broken = verify_file(shop).broken
    assert broken is not None and broken.table == BESIDE[change]


def test_an_index_that_hides_a_row_is_found(shop: Path) -> None:
    """An entry cut out of an index would hide the row from everybody who asks by it."""
    with closing(sqlite3.connect(shop, isolation_level=None)) as conn:
        conn.execute("PRAGMA writable_schema = ON")
        conn.execute("UPDATE sqlite_master SET sql = sql || ' WHERE 0' WHERE name = 'job_ticket'")
    with closing(sqlite3.connect(shop, isolation_level=None)) as conn:
        conn.execute("REINDEX job_ticket")
        conn.execute("PRAGMA writable_schema = ON")
        conn.execute("UPDATE sqlite_master SET sql = replace(sql, ' WHERE 0', '') WHERE name = 'job_ticket'")
    broken = verify_file(shop).broken
    assert broken is not None and "damaged" in broken.words()


def test_evidence_that_points_to_nothing_is_found(
    shop: Path, tamper: Any, sealed_anew: Callable[[sqlite3.Connection, int], None]
) -> None:
    with tamper(shop) as conn:
        row = conn.execute("SELECT max(id) FROM job_use").fetchone()[0]
        conn.execute("UPDATE job_use SET job = 1 WHERE id = ?", (row,))
        sealed_anew(conn, row)
    broken = verify_file(shop).broken
    assert broken is not None and (broken.table, broken.row) == ("job_use", row)
