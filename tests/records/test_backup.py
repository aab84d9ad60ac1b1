"""A copy is made while people work, verified before it counts, and put back only when a head proves it."""

import datetime as dt
import sqlite3
import stat
import threading
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from quizkit.records import (
    Damaged,
    KeyTrouble,
    NoSuchFile,
    Records,
    RecordsError,
    backup,
    open_records,
    restore,
    verify_file,
)

NOW = dt.datetime(2026, 11, 26, 9, tzinfo=dt.UTC)
MONTH = {"seen_on": NOW.date(), "done_by": None, "month": "2026-11", "site": "north", "figures": "[]"}


@pytest.fixture
def records(shop: Path) -> Any:
    with open_records(shop) as opened:
        yield opened


def test_a_copy_holds_all_rows_in_one_file_for_the_owner_only(records: Records, tmp_path: Path) -> None:
    (tmp_path / "copies").mkdir()
    copied = backup(records, tmp_path / "copies" / "monday.copy")
    assert copied.verified.sound and copied.verified.head == records.head() and copied.key is None
    assert [file.name for file in (tmp_path / "copies").iterdir()] == ["monday.copy"]
    assert stat.S_IMODE(copied.path.stat().st_mode) == 0o600
    assert verify_file(copied.path, records.head().seal).proven
    assert [file.name for file in (tmp_path / "copies").iterdir()] == ["monday.copy"]


def test_the_key_goes_apart_if_asked_for(records: Records, tmp_path: Path) -> None:
    copied = backup(records, tmp_path / "a.copy", key_into=tmp_path / "a.key")
    assert copied.key == tmp_path / "a.key" and (tmp_path / "a.key").read_bytes() == (
        records.path.with_suffix(".key").read_bytes()
    )
    with pytest.raises(KeyTrouble):
        backup(records, tmp_path / "b.copy", key_into=tmp_path / "a.key")


def test_a_copy_made_while_others_write_is_sound(records: Records, tmp_path: Path) -> None:
    stop, written = threading.Event(), threading.Event()

    def work() -> None:
        with open_records(records.path) as own:
            while not stop.is_set():
                with own.transaction(NOW):
                    own.add("month", **MONTH)
                written.set()

    worker = threading.Thread(target=work)
    worker.start()
    try:
        assert written.wait(20)
        copies = [backup(records, tmp_path / f"{number}.copy") for number in range(5)]
    finally:
        stop.set()
        worker.join()
    assert all(copied.verified.sound for copied in copies)
    assert verify_file(records.path, heads=[copied.verified.head for copied in copies]).sound


def test_a_copy_writes_over_nothing(records: Records, tmp_path: Path) -> None:
    (tmp_path / "a.copy").write_text("something of mine")
    with pytest.raises(RecordsError, match="already"):
        backup(records, tmp_path / "a.copy")
    assert (tmp_path / "a.copy").read_text() == "something of mine"


def test_a_folder_that_is_not_there_is_said(records: Records, tmp_path: Path) -> None:
    with pytest.raises(RecordsError) as caught:
        backup(records, tmp_path / "no" / "a.copy")
    assert caught.value.mend


def test_a_broken_file_gives_no_copy(records: Records, tmp_path: Path, tamper: Any) -> None:
    with tamper(records.path) as conn:
        conn.execute("UPDATE talk SET skill = 'other'")
    with pytest.raises(Damaged, match="talk"):
        backup(records, tmp_path / "a.copy")
    assert not list(tmp_path.glob("a.copy*"))


def test_what_a_crash_left_of_a_copy_does_not_hinder_the_next(records: Records, tmp_path: Path) -> None:
    (tmp_path / "a.copy.part").write_bytes(b"half")
    assert backup(records, tmp_path / "a.copy").verified.sound
    assert not (tmp_path / "a.copy.part").exists()


def test_a_copy_is_restored_and_goes_on(records: Records, tmp_path: Path) -> None:
    head = records.head()
    backup(records, tmp_path / "a.copy")
    restored = restore(tmp_path / "a.copy", tmp_path / "new.db", head.seal)
    assert restored.verified.proven and restored.key is None
    with open_records(tmp_path / "new.db") as opened, opened.transaction(NOW):
        assert opened.add("month", **MONTH) == head.position + 1
    assert verify_file(tmp_path / "new.db", head.seal).proven


def test_a_copy_proves_itself_by_a_head_from_before_it(records: Records, tmp_path: Path) -> None:
    head = records.head().seal
    with records.transaction(NOW):
        records.add("month", **MONTH)
    backup(records, tmp_path / "a.copy")
    assert restore(tmp_path / "a.copy", tmp_path / "new.db", head).verified.proven


def test_a_copy_from_before_the_head_is_not_restored(records: Records, tmp_path: Path) -> None:
    backup(records, tmp_path / "a.copy")
    with records.transaction(NOW):
        records.add("month", **MONTH)
    with pytest.raises(Damaged, match="head is not in the chain"):
        restore(tmp_path / "a.copy", tmp_path / "new.db", records.head().seal)
    assert not list(tmp_path.glob("new.db*"))


def test_a_copy_sealed_anew_is_not_restored(records: Records, tmp_path: Path, tamper: Any, sealed_anew: Any) -> None:
    backup(records, tmp_path / "a.copy")
    with tamper(tmp_path / "a.copy") as conn:
        conn.execute("UPDATE result SET passed = 0")
        sealed_anew(conn, 1)
    assert verify_file(tmp_path / "a.copy").sound
    with pytest.raises(Damaged):
        restore(tmp_path / "a.copy", tmp_path / "new.db", records.head().seal)
    assert not list(tmp_path.glob("new.db*"))


def test_a_file_that_is_there_is_not_written_over(records: Records, tmp_path: Path) -> None:
    backup(records, tmp_path / "a.copy")
    with pytest.raises(RecordsError, match="already"):
        restore(tmp_path / "a.copy", records.path, records.head().seal)
    assert verify_file(records.path).sound


def test_no_copy_and_no_database_are_said(tmp_path: Path) -> None:
    with pytest.raises(NoSuchFile):
        restore(tmp_path / "a.copy", tmp_path / "new.db", "0" * 64)
    (tmp_path / "a.copy").write_bytes(b"tyres" * 1000)
    with pytest.raises(RecordsError):
        restore(tmp_path / "a.copy", tmp_path / "new.db", "0" * 64)
    assert not (tmp_path / "new.db").exists()


def test_a_log_left_beside_a_place_to_restore_to_is_not_taken_up(records: Records, tmp_path: Path) -> None:
    """A stray write-ahead log of another file with that name must not be played into the restored one."""
    backup(records, tmp_path / "a.copy")
    (tmp_path / "new.db-wal").write_bytes(records.path.with_name("shop.db-wal").read_bytes())
    with pytest.raises(RecordsError, match="already"):
        restore(tmp_path / "a.copy", tmp_path / "new.db", records.head().seal)


def test_a_copy_opens_with_plain_sqlite(records: Records, tmp_path: Path) -> None:
    copied = backup(records, tmp_path / "a.copy")
    with closing(sqlite3.connect(copied.path)) as conn:
        assert conn.execute("PRAGMA journal_mode").fetchone() == ("delete",)
        assert conn.execute("SELECT count(*) FROM talk").fetchone() == (2,)
