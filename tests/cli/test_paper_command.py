"""`quizkit paper`: checks recorded before their pages are written, with the keys on pages of their own, and sheets."""

from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import Result

from quizkit import shop as deeds

Run = Callable[..., Result]


@pytest.fixture
def shop(run: Run, content: Path, tmp_path: Path) -> Path:
    path = tmp_path / "shop.db"
    run("person", "add", "--shop", path, "--content", content, "--name", "Ada Lind", "--role", "manager")
    run("person", "add", "--shop", path, "--name", "Bo Strand", "--by", 1)
    return path


def test_ten_checks_come_with_ten_marking_sheets(run: Run, shop: Path, tmp_path: Path) -> None:
    done = run("paper", "check", "pairing", "--copies", 10, "--shop", shop, "--into", tmp_path / "out")
    assert done.exit_code == 0 and "10 checks made" in done.output
    checks, marking = sorted((tmp_path / "out").glob("*.html"))
    assert (
        checks.read_text().count('<article class="copy">') == marking.read_text().count('<article class="copy">') == 10
    )
    assert "shows the right answers" in marking.read_text()
    assert "shows the right answers" not in checks.read_text()
    with deeds.open_shop(shop) as opened:
        assert len(deeds.papers(opened, 1)) == 10


def test_a_check_is_printed_for_one_person(run: Run, shop: Path, tmp_path: Path) -> None:
    done = run("paper", "check", "pairing", "--person", "bo strand", "--shop", shop, "--into", tmp_path / "out")
    assert done.exit_code == 0 and "1 check made" in done.output
    with deeds.open_shop(shop) as opened:
        assert [one.name for one in deeds.papers(opened, 1)] == ["Bo Strand"]


def test_what_is_wrong_is_told_and_nothing_is_drawn(run: Run, shop: Path, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    for words, status in (
        (("check", "parking"), 1),
        (("check", "pairing", "--copies", 0), 1),
        (("check", "pairing", "--person", "Nobody"), 1),
        (("check", "pairing", "--person", "Bo Strand", "--copies", 2), 2),
        (("sheet", "pairing"), 1),
        (("sheet", "parking"), 1),
    ):
        done = run("paper", *words, "--shop", shop, "--into", tmp_path / "out")
        assert (done.exit_code, bool(done.output)) == (status, True), words
    with deeds.open_shop(shop) as opened:
        assert deeds.papers(opened, 1) == ()
    done = run("paper", "check", "pairing", "--shop", shop, "--into", tmp_path / "file")
    assert done.exit_code == 2 and "is a file" in done.output
