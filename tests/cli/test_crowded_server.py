"""Many trainees at once, who press twice, open a second tab, go back and send again: one answer, one mark, no fault."""

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from tests.bench.crowd import Crowd, crowd, once


@pytest.fixture(scope="module")
def crowded(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Crowd]:
    """The file after a crowd was at it, and what they met."""
    folder = tmp_path_factory.mktemp("crowded")
    return folder / "shop.db", crowd(folder, trainees=12, rounds=2, seconds=600)


def test_many_at_once_meet_no_fault_and_everything_is_there_once(crowded: tuple[Path, Crowd]) -> None:
    path, found = crowded
    assert len(found.took["answer"]) > 12 and found.told.handed
    once(path)


def test_an_answer_that_is_there_twice_would_be_seen(crowded: tuple[Path, Crowd]) -> None:
    with closing(sqlite3.connect(crowded[0])) as conn:
        names = [name for (name,) in conn.execute("SELECT name FROM pragma_table_info('answer')") if name != "id"]
        columns = ", ".join(names)
        conn.execute(
            f"INSERT INTO answer (id, {columns}) SELECT id + 100000, {columns} FROM answer ORDER BY id DESC LIMIT 1"
        )
        conn.commit()
    with pytest.raises(AssertionError, match="answer"):
        once(crowded[0])
