"""`quizkit records`: proven, copied and put back, with the status that a program reads."""

import datetime as dt
import json
import sqlite3
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import Result

import quizkit
from quizkit import shop as deeds

Run = Callable[..., Result]
NOW = dt.datetime(2026, 11, 25, 15, tzinfo=dt.UTC)


@pytest.fixture
def shop(content: Path, tmp_path: Path) -> Path:
    path = tmp_path / "shop.db"
    with quizkit.open_shop(path, create=True) as shop:
        deeds.publish(shop, quizkit.compile_content(content), None, now=NOW)
        deeds.add_person(
            shop, name="Ada Lind", role="manager", site="main", secret="one shelf two bays", by=None, now=NOW
        )
    return path


def head_of(run: Run, shop: Path) -> str:
    return str(json.loads(run("records", "verify", "--shop", shop, "--json").stdout)["head"])


def test_a_sound_file_says_what_that_proves(run: Run, shop: Path) -> None:
    done = run("records", "verify", "--shop", shop)
    assert (done.exit_code, "consistent" in done.output) == (0, True), done.output
    done = run("records", "verify", "--shop", shop, "--head", head_of(run, shop))
    assert done.exit_code == 0 and "nothing before it was changed or lost" in done.output


def test_a_changed_row_is_named(run: Run, shop: Path) -> None:
    with sqlite3.connect(shop) as conn:
        for (name,) in conn.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'").fetchall():
            conn.execute(f"DROP TRIGGER {name}")
        conn.execute("UPDATE publication SET title = 'Another'")
    conn.close()
    done = run("records", "verify", "--shop", shop)
    assert done.exit_code == 1 and "publication" in done.output


def test_a_copy_is_verified_and_the_missing_key_told_loudly(run: Run, shop: Path, tmp_path: Path) -> None:
    done = run("records", "backup", "--shop", shop, tmp_path / "copy.db")
    assert done.exit_code == 0 and "THE KEY IS NOT IN THE COPY" in done.output
    done = run("records", "backup", "--shop", shop, tmp_path / "copy.db")
    assert done.exit_code == 1 and "already" in done.output
    done = run("records", "backup", "--shop", shop, tmp_path / "two.db", "--key-into", tmp_path / "apart.key")
    assert done.exit_code == 0 and "THE KEY" not in done.output and (tmp_path / "apart.key").exists()


def test_a_copy_comes_back_only_against_a_head(run: Run, shop: Path, tmp_path: Path) -> None:
    head = head_of(run, shop)
    run("records", "backup", "--shop", shop, tmp_path / "copy.db")
    back = tmp_path / "back" / "shop.db"
    back.parent.mkdir()
    assert run("records", "restore", tmp_path / "copy.db", "--shop", back, "--head", "ab" * 32).exit_code == 1
    assert not back.exists()
    done = run("records", "restore", tmp_path / "copy.db", "--shop", back, "--head", head)
    assert done.exit_code == 0 and "THE KEY IS MISSING" in done.output
    assert head_of(run, back) == head
    assert run("records", "restore", tmp_path / "copy.db", "--shop", back, "--head", head).exit_code == 1


@pytest.mark.parametrize("command", ["verify", "backup"])
def test_a_file_that_is_none_is_told(run: Run, tmp_path: Path, command: str) -> None:
    more = [tmp_path / "copy.db"] if command == "backup" else []
    (tmp_path / "note.txt").write_text("no shop at all, only a note that is long enough to be looked at")
    for path in (tmp_path / "nowhere.db", tmp_path / "note.txt", tmp_path):
        done = run("records", command, "--shop", path, *more)
        assert done.exit_code in (1, 2) and done.output.strip() and "Traceback" not in done.output


def test_everything_is_written_into_one_zip_or_not_at_all(run: Run, shop: Path, tmp_path: Path) -> None:
    done = run("records", "everything", tmp_path / "all.zip", "--shop", shop)
    assert done.exit_code == 0, done.output
    with zipfile.ZipFile(tmp_path / "all.zip") as zipped:
        assert "people.csv" in zipped.namelist()
    assert run("records", "everything", tmp_path / "none" / "all.zip", "--shop", shop).exit_code == 1
    assert not list(tmp_path.glob("**/*.part"))
