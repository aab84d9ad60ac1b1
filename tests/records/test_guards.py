"""Evidence is insert-only for every program that opens the file, and a file without its guards does not open."""

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from quizkit.records import Damaged, open_records, verify_file
from quizkit.records.migrations import EVIDENCE
from quizkit.records.schema import expected_shapes

TRIGGERS = sorted(f"{table}_{word}" for table in (*EVIDENCE, "pack") for word in ("stays", "kept", "once"))


@pytest.mark.parametrize("table", [*EVIDENCE, "pack"])
@pytest.mark.parametrize("recursive", ["ON", "OFF"])
def test_a_plain_connection_cannot_change_delete_or_replace(shop: Path, table: str, recursive: str) -> None:
    shape = expected_shapes()[table]
    columns = [name for name, _type in shape.columns]
    names, key, other = ", ".join(columns), shape.key[0], next(name for name in columns if name not in shape.key)
    with closing(sqlite3.connect(shop, isolation_level=None)) as conn:
        conn.execute(f"PRAGMA recursive_triggers = {recursive}")
        before = conn.execute(f"SELECT * FROM {table}").fetchall()
        for change in (
            f"UPDATE {table} SET {other} = {other}",
            f"UPDATE OR REPLACE {table} SET {key} = {key}",
            f"DELETE FROM {table}",
            f"INSERT OR REPLACE INTO {table} ({names}) SELECT {names} FROM {table} LIMIT 1",
            f"REPLACE INTO {table} ({names}) SELECT {names} FROM {table} LIMIT 1",
            f"INSERT OR IGNORE INTO {table} ({names}) SELECT {names} FROM {table} LIMIT 1",
            f"INSERT INTO {table} ({names}) SELECT {names} FROM {table} WHERE 1 LIMIT 1 "
            f"ON CONFLICT DO UPDATE SET {other} = {other}",
        ):
            with pytest.raises(sqlite3.IntegrityError, match=f"{table} is never"):
                conn.execute(change)
        assert before and conn.execute(f"SELECT * FROM {table}").fetchall() == before


@pytest.mark.parametrize("table", ["result", "form_item"])
def test_a_row_is_not_replaced_by_its_other_unique_columns(shop: Path, table: str) -> None:
    columns = [name for name, _type in expected_shapes()[table].columns if name != "id"]
    names = ", ".join(columns)
    with closing(sqlite3.connect(shop, isolation_level=None)) as conn:
        before = conn.execute(f"SELECT * FROM {table}").fetchall()
        with pytest.raises(sqlite3.IntegrityError, match="never replaced"):
            conn.execute(f"INSERT OR REPLACE INTO {table} (id, {names}) SELECT 900, {names} FROM {table} LIMIT 1")
        assert conn.execute(f"SELECT * FROM {table}").fetchall() == before


@pytest.mark.parametrize("trigger", [*TRIGGERS, "person_kept", "person_numbered"])
def test_a_dropped_trigger_is_found_at_opening(shop: Path, trigger: str) -> None:
    with closing(sqlite3.connect(shop, isolation_level=None)) as conn:
        conn.execute(f"DROP TRIGGER {trigger}")
    with pytest.raises(Damaged, match=trigger):
        open_records(shop)
    broken = verify_file(shop).broken
    assert broken is not None and trigger in broken.words()


CHANGES = {
    "a trigger that does nothing": "DROP TRIGGER talk_kept;"
    " CREATE TRIGGER talk_kept BEFORE DELETE ON talk BEGIN SELECT 1; END",
    "one trigger more": "CREATE TRIGGER more AFTER INSERT ON talk BEGIN SELECT 1; END",
    "a trigger on the list of steps": "CREATE TRIGGER more AFTER INSERT ON _sqlite_migrations BEGIN SELECT 1; END",
    "one index more": "CREATE UNIQUE INDEX more ON talk (person)",
    "an index less": "DROP INDEX job_ticket",
    "one table more": "CREATE TABLE more (id INTEGER)",
    "a view": "CREATE VIEW more AS SELECT * FROM talk",
    "a column more": "ALTER TABLE talk ADD COLUMN more TEXT",
    "a table less": "DROP TABLE reading",
    "a step that is not on the list": "DELETE FROM _sqlite_migrations WHERE name = '0001'",
}


@pytest.mark.parametrize("change", CHANGES)
def test_any_other_change_of_the_tables_is_found_at_opening(shop: Path, change: str) -> None:
    with closing(sqlite3.connect(shop, isolation_level=None)) as conn:
        conn.executescript(CHANGES[change])
    with pytest.raises(Damaged):
        open_records(shop)
    assert not verify_file(shop).sound


def test_a_person_is_never_deleted_and_keeps_the_number(shop: Path) -> None:
    with closing(sqlite3.connect(shop, isolation_level=None)) as conn:
        with pytest.raises(sqlite3.IntegrityError, match="never deleted"):
            conn.execute("DELETE FROM person")
        with pytest.raises(sqlite3.IntegrityError, match="stays with its person"):
            conn.execute("UPDATE person SET number = number + 10")


@pytest.mark.parametrize("table", EVIDENCE)
def test_tables_of_evidence_are_strict_and_have_no_defaults(shop: Path, table: str) -> None:
    """A default would be stored and not sealed."""
    with closing(sqlite3.connect(shop)) as conn:
        assert conn.execute("SELECT strict FROM pragma_table_list(?)", (table,)).fetchone() == (1,)
        info = conn.execute("SELECT name, type, dflt_value FROM pragma_table_info(?)", (table,)).fetchall()
    assert {"id", "seen_on", "recorded_at", "done_by", "seal"} <= {name for name, _type, _default in info}
    assert {kind for _name, kind, _default in info} <= {"INTEGER", "TEXT"}
    assert all(default is None for _name, _type, default in info)


def test_every_table_with_a_private_column_says_whose_it_is() -> None:
    shapes = expected_shapes().values()
    assert all("person" in shape.sealed for shape in shapes if shape.private)
