"""Many trainees at once, who press twice, open a second tab, go back and send again: one answer, one mark, no fault."""

import sqlite3
from pathlib import Path

import pytest

from tests.bench import crowd


def test_many_at_once_meet_no_fault_and_everything_is_there_once(tmp_path: Path) -> None:
    found = crowd.crowd(tmp_path, trainees=12, rounds=3, seconds=600)
    assert len(found.took["answer"]) > 12 and found.told.practice


def test_an_answer_that_is_there_twice_would_be_seen(tmp_path: Path) -> None:
    crowd.crowd(tmp_path, trainees=2, rounds=1, seconds=600)
    with sqlite3.connect(tmp_path / "shop.db") as conn:
        names = [name for (name,) in conn.execute("SELECT name FROM pragma_table_info('answer')") if name != "id"]
        columns = ", ".join(names)
        conn.execute(f"INSERT INTO answer (id, {columns}) SELECT id + 100000, {columns} FROM answer LIMIT 1")
    conn.close()
    with pytest.raises(AssertionError, match="answer"):
        crowd._once(tmp_path / "shop.db")
