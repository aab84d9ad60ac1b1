"""A deed is written whole and sealed, or not at all; what is stored is what was given; the clock does not run back."""

import datetime as dt
import os
import sqlite3
import stat
import threading
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quizkit.records import (
    Busy,
    ClockSetBack,
    Damaged,
    Full,
    NoSuchFile,
    NotRecords,
    ReadOnly,
    Records,
    RecordsError,
    RowRefused,
    open_records,
    verify_file,
)

NOW = dt.datetime(2026, 11, 25, 9, tzinfo=dt.UTC)
DAY = NOW.date()
MONTH = {"seen_on": DAY, "done_by": None, "month": "2026-11", "site": "north", "figures": "[]"}


@pytest.fixture
def records(shop: Path) -> Any:
    with open_records(shop) as opened:
        yield opened


def test_every_connection_has_the_settings_that_keep_answers(records: Records) -> None:
    asked = ("journal_mode", "synchronous", "foreign_keys", "secure_delete", "recursive_triggers")
    found = {name: records.conn.execute(f"PRAGMA {name}").fetchone()[0] for name in asked}
    assert found == {
        "journal_mode": "wal",
        "synchronous": 2,
        "foreign_keys": 1,
        "secure_delete": 1,
        "recursive_triggers": 1,
    }


def test_a_new_file_and_its_key_are_for_the_owner_only(tmp_path: Path) -> None:
    with open_records(tmp_path / "shop.db", create=True):
        for name in ("shop.db", "shop.key", "shop.db-wal"):
            assert stat.S_IMODE((tmp_path / name).stat().st_mode) == 0o600


def test_rows_come_back_as_they_were_given(records: Records) -> None:
    with records.transaction(NOW):
        first = records.add("month", **MONTH)
        second = records.add("admin", seen_on=DAY, done_by=1, deed="setting", detail=None)
    assert second == first + 1
    row = records.row("month", id=first)
    assert row is not None and row.pop("seal") != records.head().seal
    assert row == {
        "id": first,
        "seen_on": "2026-11-25",
        "recorded_at": "2026-11-25T09:00:00.000000Z",
        "done_by": None,
        "month": "2026-11",
        "site": "north",
        "figures": "[]",
    }
    assert records.head().position == second
    assert verify_file(records.path).sound


def test_rows_are_found_by_equal_columns_none_and_lists(records: Records) -> None:
    with records.transaction(NOW):
        numbers = [records.add("month", **MONTH | {"month": f"2026-0{n}"}) for n in range(1, 5)]
    assert [row["id"] for row in records.rows("month", month=["2026-02", "2026-03"])] == numbers[1:3]
    assert [row["id"] for row in records.rows("month", after=numbers[1])] == numbers[2:]
    assert [row["id"] for row in records.rows("month", newest=True, limit=2)] == numbers[:1:-1]
    assert records.rows("month", month=[]) == []
    assert records.count("month", done_by=None, site="north") == 4
    assert records.row("month", month="1999-01") is None
    assert [row["paper"] for row in records.rows("form", paper=False)] == [0, 0]
    assert len(records.rows("job", done_on=DAY)) == 2


def test_use_by_another_thread_is_a_mistake_of_the_program_and_not_damage(records: Records) -> None:
    found: list[BaseException] = []

    def work() -> None:
        try:
            with records.transaction(NOW):
                pass
        except BaseException as error:
            found.append(error)

    worker = threading.Thread(target=work)
    worker.start()
    worker.join()
    assert [type(error) for error in found] == [sqlite3.ProgrammingError]


@pytest.mark.parametrize("value", ["\ud800", 1 << 63, 2.5, object(), ["\ud800"], [1 << 63]])
def test_what_no_column_can_hold_is_not_looked_for(records: Records, value: Any) -> None:
    for look in (records.rows, records.row, records.count):
        with pytest.raises(RowRefused):
            look("month", site=value)
    with pytest.raises(RowRefused, match="no column 'colour'"):
        records.rows("month", colour="red")


def test_a_deed_that_fails_leaves_nothing(records: Records) -> None:
    head = records.head()
    with pytest.raises(ZeroDivisionError), records.transaction(NOW):
        records.add("month", **MONTH)
        records.keep("reading", person=1, module="beads", lesson="1", read_at=NOW)
        raise ZeroDivisionError
    assert records.head() == head
    assert records.count("month") == 2 and records.count("reading") == 0
    with records.transaction(NOW):
        records.add("month", **MONTH)
    assert verify_file(records.path).sound


def test_nothing_is_written_outside_a_transaction(records: Records) -> None:
    for write in (
        lambda: records.add("month", **MONTH),
        lambda: records.keep("reading", person=1, module="beads", lesson="1", read_at=NOW),
        lambda: records.drop("reading", person=1),
    ):
        with pytest.raises(RuntimeError):
            write()
    assert verify_file(records.path).rows == records.head().position


def test_a_transaction_within_a_transaction_is_refused_and_undoes_both(records: Records) -> None:
    with pytest.raises(RuntimeError), records.transaction(NOW):
        records.add("month", **MONTH)
        with records.transaction(NOW):
            pass
    assert records.count("month") == 2


REFUSED: dict[str, dict[str, Any]] = {
    "an unknown column": {"colour": "red"},
    "a number for a text": {"site": 5},
    "a text for a number": {"done_by": "1"},
    "a fraction": {"site": 2.5},
    "bytes": {"site": b"north"},
    "a number of more than 64 bits": {"done_by": 1 << 63},
    "text that cannot be written": {"site": "\ud800"},
    "nothing where something must be": {"site": None},
    "no JSON": {"figures": "[1,"},
    "somebody who is not there": {"done_by": 777},
    "a number chosen": {"id": 5},
    "a seal chosen": {"seal": "0" * 64},
    "a moment chosen": {"recorded_at": NOW},
}


@pytest.mark.parametrize("case", REFUSED)
def test_values_that_the_table_does_not_take_are_refused_and_leave_nothing(records: Records, case: str) -> None:
    with pytest.raises(RowRefused), records.transaction(NOW):
        records.add("month", **MONTH | REFUSED[case])
    assert records.count("month") == 2


@pytest.mark.parametrize("table", ["person", "pack", "private_text", "tip", "sqlite_master", "nothing"])
def test_evidence_takes_no_rows_for_other_tables(records: Records, table: str) -> None:
    with pytest.raises(RowRefused), records.transaction(NOW):
        records.add(table, seen_on=DAY)


@pytest.mark.parametrize("table", ["talk", "person", "pack", "private_text", "photo", "tip", "nothing"])
def test_only_free_tables_are_kept_and_dropped(records: Records, table: str) -> None:
    with records.transaction(NOW):
        with pytest.raises(RowRefused):
            records.keep(table, person=1)
        with pytest.raises(RowRefused):
            records.drop(table, person=1)
        with pytest.raises(RowRefused):
            records.drop("draft")


@pytest.mark.parametrize("day", ["2026-02-30", "25.11.2026", "2026-11-25T09:00", "", "now"])
def test_the_table_itself_refuses_a_seen_day_that_is_no_day(shop: Path, day: str) -> None:
    with closing(sqlite3.connect(shop)) as conn, pytest.raises(sqlite3.Error):
        conn.execute(f"INSERT INTO month VALUES (900, ?, '', NULL, '', '', '[]', '{'0' * 64}')", (day,))


def test_a_moment_is_no_seen_day(records: Records) -> None:
    with pytest.raises(RowRefused), records.transaction(NOW):
        records.add("month", **MONTH | {"seen_on": NOW})


def test_use_after_closing_is_a_mistake_of_the_program_and_not_damage(shop: Path) -> None:
    opened = open_records(shop)
    opened.close()
    with pytest.raises(sqlite3.ProgrammingError):
        opened.head()
    with pytest.raises(sqlite3.ProgrammingError), opened.transaction(NOW):
        pass


def test_a_second_result_for_a_form_is_refused(records: Records) -> None:
    old = records.rows("result")[0]
    values = {name: old[name] for name in old if name not in ("id", "seal", "recorded_at", "seen_on", "done_by")}
    with pytest.raises(RowRefused), records.transaction(NOW):
        records.add("result", seen_on=DAY, done_by=1, **values)


def test_a_kept_row_is_made_once_and_changed_by_its_key(records: Records) -> None:
    with records.transaction(NOW):
        records.keep("session", token="t", person=1, started_at=NOW, touched_at=NOW, address="a")
        records.keep("session", token="t", touched_at=NOW + dt.timedelta(minutes=5))
    row = records.row("session", token="t")
    assert row is not None and row["address"] == "a" and row["touched_at"] == "2026-11-25T09:05:00.000000Z"
    with records.transaction(NOW):
        assert records.drop("session", person=1) == 1
    assert records.count("session") == 0


def test_reads_in_one_block_see_one_state(records: Records) -> None:
    with records.reading():
        before = records.count("month")
        with open_records(records.path) as other, other.transaction(NOW):
            other.add("month", **MONTH)
        assert records.count("month") == before
    assert records.count("month") == before + 1


class TestClock:
    """The moments of rows never run backwards."""

    def test_a_clock_set_back_is_refused_before_anything_is_written(self, records: Records) -> None:
        with records.transaction(NOW):
            records.add("month", **MONTH)
        head, back = records.head(), NOW - dt.timedelta(hours=1)
        with pytest.raises(ClockSetBack, match=r"2026-11-25T09:00:00\.0"), records.transaction(back):
            records.add("month", **MONTH)
        assert records.head() == head

    def test_who_waited_a_moment_for_others_is_recorded_with_the_last_moment(self, records: Records) -> None:
        with records.transaction(NOW):
            records.add("month", **MONTH)
        with records.transaction(NOW - dt.timedelta(seconds=20)) as moment:
            row = records.add("month", **MONTH)
        assert moment == NOW
        found = records.row("month", id=row)
        assert found is not None and found["recorded_at"] == "2026-11-25T09:00:00.000000Z"

    def test_a_moment_in_another_zone_is_stored_as_utc(self, records: Records) -> None:
        zone = dt.timezone(dt.timedelta(hours=-5))
        with records.transaction(dt.datetime(2026, 11, 25, 6, 0, 0, 5, tzinfo=zone)):
            row = records.add("month", **MONTH)
        found = records.row("month", id=row)
        assert found is not None and found["recorded_at"] == "2026-11-25T11:00:00.000005Z"

    def test_a_moment_without_a_zone_is_a_mistake_of_the_program(self, records: Records) -> None:
        with pytest.raises(ValueError, match="zone"), records.transaction(dt.datetime(2026, 11, 25, 9)):
            pass
        with records.transaction(NOW):
            records.add("month", **MONTH)

    @given(st.datetimes(dt.datetime(1970, 1, 1), dt.datetime(9000, 1, 1)), st.datetimes(dt.datetime(1970, 1, 1)))
    def test_the_order_of_the_texts_is_the_order_of_the_moments(self, one: dt.datetime, other: dt.datetime) -> None:
        from quizkit.records import moment_of, moment_text

        first, second = one.replace(tzinfo=dt.UTC), other.replace(tzinfo=dt.UTC)
        assert (moment_text(first) < moment_text(second)) == (first < second)
        assert moment_of(moment_text(first)) == first


VALUES = st.none() | st.booleans() | st.integers() | st.text() | st.binary() | st.floats() | st.dates()


@settings(max_examples=200, deadline=None)
@given(detail=VALUES, role=VALUES, deed=VALUES)
def test_whatever_is_given_is_stored_as_it_is_or_refused(detail: Any, role: Any, deed: Any) -> None:
    """A value that SQLite would turn into another would break the seal."""
    path, opened = _scratch()
    try:
        with opened.transaction(NOW):
            row = opened.add("admin", seen_on=DAY, done_by=None, deed=deed, role=role, detail=detail)
    except RowRefused:
        return
    found = opened.row("admin", id=row)
    given_texts = [str(value) if isinstance(value, dt.date) else value for value in (deed, role, detail)]
    assert found is not None and [found["deed"], found["role"], found["detail"]] == given_texts
    assert verify_file(path, after=_start_of(opened, row)).sound


_SCRATCH: list[tuple[Path, Records]] = []


@pytest.fixture(autouse=True, scope="module")
def _scratch_file(tmp_path_factory: pytest.TempPathFactory) -> Any:
    path = tmp_path_factory.mktemp("scratch") / "shop.db"
    opened = open_records(path, create=True)
    _SCRATCH.append((path, opened))
    yield
    _SCRATCH.clear()
    opened.close()


def _scratch() -> tuple[Path, Records]:
    return _SCRATCH[0]


def _start_of(opened: Records, row: int) -> Any:
    from quizkit.records import Head

    before = opened.row("admin", id=row - 1) if row > 1 else None
    return Head(row - 1, before["seal"]) if before else None


class TestTrouble:
    """What goes wrong outside is said in words, and nothing is half written."""

    def test_a_full_disk(self, records: Records) -> None:
        pages = records.conn.execute("PRAGMA page_count").fetchone()[0]
        records.conn.execute(f"PRAGMA max_page_count = {pages}")
        with pytest.raises(Full, match="full"), records.transaction(NOW):
            for _row in range(10_000):
                records.add("month", **MONTH | {"figures": '["' + "x" * 900 + '"]'})
        records.conn.execute("PRAGMA max_page_count = 1000000")
        assert records.count("month") == 2
        with records.transaction(NOW):
            records.add("month", **MONTH)
        assert verify_file(records.path).sound

    def test_a_file_that_may_not_be_written(self, records: Records) -> None:
        records.conn.execute("PRAGMA query_only = ON")
        with pytest.raises(ReadOnly), records.transaction(NOW):
            records.add("month", **MONTH)
        assert records.count("month") == 2

    @pytest.mark.skipif(os.geteuid() == 0, reason="root may write everything")
    def test_a_file_whose_mode_forbids_writing(self, shop: Path) -> None:
        shop.chmod(0o400)
        with pytest.raises(RecordsError), open_records(shop) as opened, opened.transaction(NOW):
            opened.add("month", **MONTH)

    def test_a_file_held_by_another_program(self, records: Records) -> None:
        records.conn.execute("PRAGMA busy_timeout = 0")
        with closing(sqlite3.connect(records.path, isolation_level=None)) as other:
            other.execute("BEGIN IMMEDIATE")
            with pytest.raises(Busy), records.transaction(NOW):
                pass

    def test_no_file(self, tmp_path: Path) -> None:
        with pytest.raises(NoSuchFile):
            open_records(tmp_path / "shop.db")
        with pytest.raises(NoSuchFile):
            open_records(tmp_path / "no" / "shop.db", create=True)
        with pytest.raises(NoSuchFile):
            open_records(tmp_path, create=True)
        assert list(tmp_path.iterdir()) == []

    def test_a_file_that_is_no_database(self, tmp_path: Path) -> None:
        (tmp_path / "shop.db").write_bytes(b"A list of tyres\n" * 100)
        with pytest.raises(NotRecords):
            open_records(tmp_path / "shop.db", create=True)

    def test_a_database_of_something_else_is_left_alone(self, tmp_path: Path) -> None:
        with closing(sqlite3.connect(tmp_path / "shop.db")) as conn:
            conn.execute("CREATE TABLE tyre (id INTEGER)")
        before = (tmp_path / "shop.db").read_bytes()
        with pytest.raises(NotRecords):
            open_records(tmp_path / "shop.db", create=True)
        assert (tmp_path / "shop.db").read_bytes() == before

    def test_an_empty_file_left_by_a_crash_is_taken_up(self, tmp_path: Path) -> None:
        (tmp_path / "shop.db").touch()
        with pytest.raises(NoSuchFile):
            open_records(tmp_path / "shop.db")
        with open_records(tmp_path / "shop.db", create=True) as opened:
            assert opened.head().position == 0

    @settings(max_examples=60, deadline=None)
    @given(data=st.data())
    def test_damaged_bytes_end_in_words_or_in_a_broken_row(self, data: Any, made: Path, tmp_path_factory: Any) -> None:
        whole = bytearray((made / "shop.db").read_bytes())
        for _spot in range(data.draw(st.integers(1, 4))):
            place = data.draw(st.integers(0, len(whole) - 1))
            whole[place : place + 8] = data.draw(st.binary(min_size=8, max_size=8))
        if data.draw(st.booleans()):
            del whole[data.draw(st.integers(0, len(whole))) :]
        path = tmp_path_factory.mktemp("bytes") / "shop.db"
        path.write_bytes(whole)
        for look in (lambda: verify_file(path), lambda: open_records(path).close()):
            try:
                look()
            except RecordsError as error:
                assert error.what and error.mend


def test_many_at_once_lose_no_row(shop: Path) -> None:
    """Each with a connection of its own, as requests have: one chain comes out, and nobody is told of a lock."""
    troubles: list[BaseException] = []

    def work(number: int) -> None:
        try:
            for _deed in range(25):
                with open_records(shop) as opened, opened.transaction(NOW - dt.timedelta(milliseconds=number)):
                    opened.count("month")
                    opened.add("month", **MONTH | {"site": str(number)})
        except BaseException as error:
            troubles.append(error)

    threads = [threading.Thread(target=work, args=(number,)) for number in range(8)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    with open_records(shop) as opened:
        assert troubles == [] and opened.count("month") == 2 + 8 * 25
    assert verify_file(shop).sound


def test_connections_that_stay_open_write_one_chain_in_turn(shop: Path) -> None:
    """Each knows the end of the chain from its own last deed, and must see that the other has moved it since."""
    with open_records(shop) as one, open_records(shop) as other:
        for turn in (one, one, other, one, other, other, one):
            with turn.transaction(NOW):
                turn.add("month", **MONTH)
        assert one.head() == other.head() == verify_file(shop).head
    assert verify_file(shop).sound


def test_a_deed_undone_leaves_the_chain_where_it_was(records: Records) -> None:
    with records.transaction(NOW):
        records.add("month", **MONTH)
    before = records.head()
    with pytest.raises(ZeroDivisionError), records.transaction(NOW):
        records.add("month", **MONTH)
        raise ZeroDivisionError
    assert records.head() == before
    with records.transaction(NOW):
        assert records.add("month", **MONTH) == before.position + 1
    assert verify_file(records.path).sound


def test_a_tip_lost_behind_a_connection_that_has_written_stops_its_next_deed(records: Records) -> None:
    with records.transaction(NOW):
        records.add("month", **MONTH)
    with closing(sqlite3.connect(records.path, isolation_level=None)) as other:
        other.execute("DELETE FROM tip")
    with pytest.raises(Damaged), records.transaction(NOW):
        records.add("month", **MONTH)


@pytest.mark.parametrize(
    "change",
    [
        "DELETE FROM tip",
        "UPDATE tip SET recorded_at = '1999-01-01T00:00:00.000000Z'",
        "UPDATE tip SET recorded_at = 'yesterday'",
        "UPDATE tip SET seal = 'x'",
        "UPDATE tip SET position = position - 1",
    ],
)
def test_a_lost_or_changed_tip_is_damage(shop: Path, change: str) -> None:
    """Its moment too: an earlier one would let the clock run back."""
    with closing(sqlite3.connect(shop, isolation_level=None)) as conn:
        conn.execute(change)
    with pytest.raises(Damaged):
        open_records(shop)
    assert not verify_file(shop).sound


def test_a_table_whose_text_is_no_text_is_damage(shop: Path) -> None:
    """SQLite then quotes bytes in its message that Python cannot read."""
    with closing(sqlite3.connect(shop, isolation_level=None)) as conn:
        conn.execute("PRAGMA writable_schema = ON")
        conn.execute("UPDATE sqlite_master SET sql = CAST(x'80ff' || sql AS TEXT) WHERE name = 'talk'")
    with pytest.raises(Damaged):
        open_records(shop)
    with pytest.raises(Damaged):
        verify_file(shop)


@pytest.mark.parametrize("word", ["detail", "admin"])
def test_a_column_or_table_whose_name_is_no_text_is_damage(shop: Path, word: str) -> None:
    bad = f"replace(sql, '{word}', CAST(x'6480' AS TEXT))"
    name = "CAST(x'6480' AS TEXT)" if word == "admin" else "name"
    with closing(sqlite3.connect(shop, isolation_level=None)) as conn:
        conn.execute("PRAGMA writable_schema = ON")
        conn.execute("DELETE FROM sqlite_master WHERE tbl_name = 'admin' AND type <> 'table'")
        conn.execute(f"UPDATE sqlite_master SET sql = {bad}, name = {name}, tbl_name = {name} WHERE name = 'admin'")
    with pytest.raises(Damaged):
        open_records(shop)
    broken = verify_file(shop).broken
    assert broken is not None and broken.words()


@pytest.mark.parametrize("kind", ["table", "index", "trigger"])
@pytest.mark.parametrize("column", ["name", "sql"])
def test_an_object_whose_name_or_text_is_bytes_is_damage(shop: Path, kind: str, column: str) -> None:
    """One bit of the file turns a text of SQLite's own list into bytes."""
    with closing(sqlite3.connect(shop, isolation_level=None)) as conn:
        conn.execute("PRAGMA writable_schema = ON")
        chosen = "(SELECT max(rowid) FROM sqlite_master WHERE type = ? AND sql IS NOT NULL)"
        conn.execute(f"UPDATE sqlite_master SET {column} = CAST({column} AS BLOB) WHERE rowid = {chosen}", (kind,))
    with pytest.raises(Damaged):
        open_records(shop)
    try:
        found = verify_file(shop)
        assert found.broken is not None and found.broken.words()
    except Damaged as error:
        assert error.what


def test_the_newest_row_of_each_value_is_given(records: Records) -> None:
    with records.transaction(NOW):
        numbers = [
            records.add("stock", seen_on=DAY, what="counted", material=material, site="north", amount=str(amount))
            for amount, material in enumerate(("m1", "m2", "m1", "m3", "m2"))
        ]
    found = records.latest("stock", "id", "material", ["m1", "m2", "m9"], site="north", amount=["0", "1", "2", "4"])
    assert found == {"m1": numbers[2], "m2": numbers[4]}
    for unknown in (("id", "colour"), ("colour", "id")):
        with pytest.raises(RowRefused):
            records.latest("stock", *unknown, ["red"])


def test_writers_of_one_process_stand_in_line(shop: Path) -> None:
    """While one writes the next waits without asking SQLite again and again; both are done, in order."""
    inside, go_on, order = threading.Event(), threading.Event(), list[str]()

    def second() -> None:
        with open_records(shop) as own:
            assert inside.wait(20)
            go_on.set()
            with own.transaction(NOW):
                order.append("second")

    other = threading.Thread(target=second)
    other.start()
    with open_records(shop) as own, own.transaction(NOW):
        inside.set()
        assert go_on.wait(20)
        order.append("first")
    other.join()
    assert order == ["first", "second"]
