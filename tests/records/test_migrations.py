"""Applied steps never change, a file of an earlier version is copied, brought up to date and verified at opening."""

import ast
import datetime as dt
import hashlib
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from sqlite_utils import Database, Migrations

import quizkit
from quizkit.records import Damaged, NotRecords, TooNew, open_records, verify_file
from quizkit.records.guards import guards
from quizkit.records.migrations import EVIDENCE, STEPS, UNIQUE, evidence, indexes, people_and_packs
from quizkit.records.schema import applied, expected, known
from quizkit.records.verify import check

NOW = dt.datetime(2026, 11, 26, 9, tzinfo=dt.UTC)
OLDER = Path(__file__).parent / "versions"
FROZEN = {
    "0001": "cafe94ad5e5f28dbbcf3d752c78c90c77d2f18ba56701bebb017f6a73c95ea8b",
    "0002": "2bc8a4f77f08333f7f2d037e77f4841c3cb98e236d0d2654969074230933ba01",
    "0003": "8139def048a42dc97d097a2c6a5e5ca9d62c3c5021f2255c4e341962569466a4",
}


def text_of_step(number: int) -> str:
    """All that the first steps make, as one text."""
    return "\n".join(f"{name}: {sql}" for name, sql in sorted(expected(number).items()))


def test_the_text_of_every_applied_step_is_frozen() -> None:
    """A shop's file holds what a step made once. Never change a step (or this test): add another one."""
    found = {name: hashlib.sha256(text_of_step(n).encode()).hexdigest() for n, name in enumerate(known(), start=1)}
    assert found == FROZEN


def longer() -> Migrations:
    """The steps of a later version: one more column, one more table of evidence."""
    steps = Migrations(STEPS.name)
    steps(name="0001")(people_and_packs)
    steps(name="0002")(evidence)
    steps(name="0003")(indexes)

    @steps(name="0004")
    def weather(db: Database) -> None:
        db.conn.execute("ALTER TABLE job ADD COLUMN weather TEXT")
        db.conn.execute(
            "CREATE TABLE visit (id INTEGER PRIMARY KEY, seen_on TEXT NOT NULL, recorded_at TEXT NOT NULL, "
            "done_by INTEGER REFERENCES person (number), seal TEXT NOT NULL) STRICT"
        )
        for statement in guards("visit", ("id",)):
            db.conn.execute(statement)

    return steps


def test_a_later_version_copies_first_and_goes_on_with_the_same_chain(shop: Path) -> None:
    head = verify_file(shop).head
    steps = longer()
    with open_records(shop, steps=steps) as records:
        with records.transaction(NOW):
            row = records.add("visit", seen_on=NOW.date())
            records.add("job", seen_on=NOW.date(), **job(records.rows("job")[0]) | {"weather": "cold"})
        assert row == head.position + 1
    copy = shop.with_name("shop-before-0004.copy")
    assert verify_file(copy, head.seal).proven
    with open_records(shop, steps=steps) as records:
        assert [found["weather"] for found in records.rows("job")] == [None, None, "cold"]
        assert records.count("visit") == 1


def job(row: dict[str, object]) -> dict[str, object]:
    return {name: row[name] for name in row if name not in ("id", "seal", "recorded_at", "seen_on")}


def test_the_rows_of_a_later_version_verify_with_its_steps(shop: Path) -> None:
    from quizkit.records.connection import connect

    steps = longer()
    with open_records(shop, steps=steps) as records, records.transaction(NOW):
        records.add("visit", seen_on=NOW.date())
    with closing(connect(shop, "ro")) as conn:
        assert check(conn, steps=steps).sound
        assert not check(conn).sound


def test_a_file_of_a_later_version_is_refused_and_left_alone(shop: Path) -> None:
    open_records(shop, steps=longer()).close()
    before = shop.read_bytes()
    with pytest.raises(TooNew):
        open_records(shop)
    assert shop.read_bytes() == before


def test_a_broken_file_is_not_brought_up_to_date(shop: Path, tamper: object) -> None:
    with tamper(shop) as conn:  # type: ignore[operator]
        conn.execute("UPDATE talk SET skill = 'other'")
    with pytest.raises(Damaged):
        open_records(shop, steps=longer())
    assert not list(shop.parent.glob("*.copy*"))
    with closing(sqlite3.connect(shop)) as conn:
        assert conn.execute("SELECT max(name) FROM _sqlite_migrations").fetchone() == ("0003",)


def test_a_step_that_would_change_evidence_is_not_kept(shop: Path) -> None:
    steps = longer()

    @steps(name="0005")
    def rewrites(db: Database) -> None:
        db.conn.execute("DROP TRIGGER talk_stays")
        db.conn.execute("UPDATE talk SET skill = 'renamed'")
        db.conn.execute(guards("talk", ("id",))[0])

    with pytest.raises(Damaged, match="'talk'"):
        open_records(shop, steps=steps)
    with open_records(shop) as records:
        assert records.count("talk", skill="renamed") == 0


def test_a_step_that_fails_leaves_the_file_as_it_was(shop: Path) -> None:
    steps = longer()

    @steps(name="0005")
    def fails(db: Database) -> None:
        db.conn.execute("CREATE TABLE half (id INTEGER) STRICT")
        raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        open_records(shop, steps=steps)
    open_records(shop).close()
    assert verify_file(shop).sound


@pytest.mark.parametrize("older", sorted(OLDER.glob("*.sql")), ids=lambda path: path.stem)
def test_a_file_of_every_version_is_copied_first_brought_up_to_date_and_verified(older: Path, tmp_path: Path) -> None:
    text = older.read_text(encoding="utf-8")
    with closing(sqlite3.connect(tmp_path / "shop.db", isolation_level=None)) as conn:
        conn.executescript(text)
        talks = conn.execute("SELECT count(*) FROM sqlite_master WHERE name = 'talk'").fetchone()[0]
    head = text.splitlines()[0].split()[-1]
    with open_records(tmp_path / "shop.db") as records:
        assert records.count("talk") == 2 * talks
        with records.transaction(NOW):
            records.add("month", seen_on=NOW.date(), month="2026-11", site="north", figures="[]")
    assert verify_file(tmp_path / "shop.db", head).proven
    later = known()[known().index(older.stem) + 1 :]
    copies = {path.name for path in tmp_path.glob("*.copy")}
    assert copies == {f"shop-before-{name}.copy" for name in later[:1]}
    for copy in copies:
        with closing(sqlite3.connect(tmp_path / copy)) as conn:
            assert applied(conn) == known()[: known().index(older.stem) + 1]
            assert check(conn, head).proven


def test_there_is_a_file_of_every_version() -> None:
    assert [path.stem for path in sorted(OLDER.glob("*.sql"))] == list(known())


def test_a_blank_database_with_our_mark_missing_is_not_ours(tmp_path: Path) -> None:
    with closing(sqlite3.connect(tmp_path / "shop.db", isolation_level=None)) as conn:
        conn.execute("CREATE TABLE talk (id INTEGER)")
    with pytest.raises(NotRecords):
        open_records(tmp_path / "shop.db")


def test_every_table_that_can_be_replaced_by_other_columns_is_guarded_for_them() -> None:
    made = expected(len(known()))
    unique = {name for name in EVIDENCE if "UNIQUE" in made[name]}
    assert unique == set(UNIQUE)
    for table, groups in UNIQUE.items():
        assert all(f"{column} = NEW.{column}" in made[f"{table}_once"] for group in groups for column in group)


def test_no_other_room_imports_sqlite() -> None:
    package = Path(quizkit.__file__).parent
    others = [path for path in package.rglob("*.py") if "records" not in path.relative_to(package).parts]
    found = []
    for path in others:
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            names = [alias.name for alias in node.names] if isinstance(node, ast.Import) else []
            names += [node.module or ""] if isinstance(node, ast.ImportFrom) else []
            found += [(path.name, name) for name in names if name.split(".")[0] in ("sqlite_utils", "sqlite3")]
    assert found == []
