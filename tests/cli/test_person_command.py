"""`quizkit person`: a new shop begins, people join by a list or one by one, a lost passphrase has a way back."""

import json
import re
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import Result

import quizkit
from quizkit import shop as deeds
from quizkit.cli.told import now

Run = Callable[..., Result]


@pytest.fixture
def shop(run: Run, content: Path, tmp_path: Path) -> Path:
    path = tmp_path / "shop.db"
    done = run("person", "add", "--shop", path, "--content", content, "--name", "Ada Lind", "--role", "manager")
    assert done.exit_code == 0 and "Ada Lind is number 1." in done.output, done.output
    return path


def signs_in(shop: Path, person: int, secret: str) -> bool:
    with quizkit.open_shop(shop) as opened:
        try:
            deeds.sign_in(opened, person, secret, address="bench", now=now())
        except deeds.Refusal:
            return False
    return True


def test_a_new_shop_begins_with_its_manager_and_nobody_else_without_one(run: Run, shop: Path, tmp_path: Path) -> None:
    done = run("person", "add", "--shop", shop, "--name", "Bo Strand")
    assert done.exit_code == 1 and "manager" in done.output
    assert run("person", "add", "--shop", tmp_path / "other.db", "--name", "Bo").exit_code == 1
    assert not (tmp_path / "other.db").exists()


def test_a_shop_whose_first_manager_is_refused_does_not_come_to_be(run: Run, content: Path, tmp_path: Path) -> None:
    path = tmp_path / "new.db"
    done = run("person", "add", "--shop", path, "--content", content, "--name", " ", "--role", "manager")
    assert done.exit_code == 1 and "The name is missing" in done.output
    assert not list(tmp_path.glob("new*"))
    done = run("person", "add", "--shop", path, "--content", content, "--name", "Ada", "--role", "manager")
    assert done.exit_code == 0, done.output


def test_a_file_that_is_not_there_says_how_a_shop_begins(run: Run, tmp_path: Path) -> None:
    done = run("person", "list", "--shop", tmp_path / "none.db")
    assert done.exit_code == 1 and "quizkit person add --shop FILE --content FOLDER --role manager" in done.output


def test_somebody_added_signs_in_with_what_was_printed(run: Run, shop: Path) -> None:
    done = run("person", "add", "--shop", shop, "--name", "Bo Strand", "--by", 1)
    assert done.exit_code == 0
    assert signs_in(shop, 2, done.output.split()[-1])
    assert "Bo Strand  apprentice" in run("person", "list", "--shop", shop).output


def test_a_list_joins_whole_or_not_at_all(run: Run, shop: Path, tmp_path: Path) -> None:
    people = tmp_path / "people.csv"
    people.write_text("name,role,site\nBo Strand,apprentice,main\n\nCy Moor,pilot,main\n")
    done = run("person", "import", "--shop", shop, people, "--by", 1)
    assert done.exit_code == 1 and "people.csv, line 4:" in done.output and "Nobody was added." in done.output
    people.write_text("name,role,site\nBo Strand,apprentice,main\nCy Moor,trainer,main\n")
    done = run("person", "import", "--shop", shop, people, "--by", 1)
    assert done.exit_code == 0 and "2 people added" in done.output
    secret = re.search(r"Cy Moor  (.+)", done.output)
    assert secret and signs_in(shop, 3, secret[1])
    assert run("person", "import", "--shop", shop, tmp_path / "none.csv", "--by", 1).exit_code == 1


def test_the_last_manager_comes_back_from_the_machine_and_leaves_a_mark(run: Run, shop: Path) -> None:
    done = run("person", "reset", "--shop", shop, 1, "--reason", "Passphrase lost")
    assert done.exit_code == 0
    assert signs_in(shop, 1, done.output.partition("signs in with: ")[2].strip())
    with quizkit.open_shop(shop) as opened:
        (row,) = opened.rows("pin_reset")
    assert (row["way"], row["note"]) == ("machine", "Passphrase lost")


def test_somebody_who_leaves_is_a_number_from_then_on(run: Run, shop: Path) -> None:
    run("person", "add", "--shop", shop, "--name", "Bo Strand", "--by", 1)
    assert run("person", "leave", "--shop", shop, 2, "--by", 1, typed="n\n").exit_code == 1
    assert run("person", "leave", "--shop", shop, 2, "--by", 1, "--yes").exit_code == 0
    assert "Bo Strand" not in run("person", "list", "--shop", shop).output
    assert run("person", "leave", "--shop", shop, 1, "--by", 1, "--yes").exit_code == 1


def test_what_is_kept_about_somebody_is_written_to_a_file(run: Run, shop: Path, tmp_path: Path) -> None:
    done = run("person", "record", "Ada Lind", "--shop", shop, "--into", tmp_path / "ada.json")
    assert done.exit_code == 0, done.output
    made = json.loads((tmp_path / "ada.json").read_text())
    assert made["person"] == {"number": 1, "name": "Ada Lind"} and made["tables"]["admin"][0]["deed"] == "joined"
    assert run("person", "record", "Nobody", "--shop", shop).exit_code == 1
