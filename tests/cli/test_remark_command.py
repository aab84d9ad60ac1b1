"""`quizkit records remark` and `statements`: marks worked out again, and what other systems are told."""

import json
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
    run("person", "add", "--shop", path, "--content", content, "--name", "Ada Lind", "--role", "manager")
    run("person", "add", "--shop", path, "--name", "Tess Orr", "--role", "trainer", "--by", 1)
    run("person", "add", "--shop", path, "--name", "Bo Strand", "--by", 1)
    return path


@pytest.fixture
def taken(shop: Path) -> Path:
    """The shop after Bo answered his one question upside down."""
    with quizkit.open_shop(shop) as opened:
        form = deeds.start_check(opened, 3, "pairing", now=now())
        view = deeds.check_item(opened, 3, form, 1, now=now()).question
        variant = deeds.current_pack(opened).question(view.question).variant(view.variant)
        upside_down = variant.slip_values("answer")[0]
        deeds.answer_item(opened, 3, form, 1, {"answer": str(float(upside_down or 0))}, now=now())
        deeds.hand_in(opened, 3, form, now=now())
    return shop


def test_every_answer_comes_out_as_recorded(run: Run, taken: Path) -> None:
    done = run("records", "remark", "--shop", taken)
    assert done.exit_code == 0 and "2 rows marked again." in done.output and "0 differences" in done.output
    assert json.loads(run("records", "remark", "--shop", taken, "--json").output) == {"checked": 2, "differences": []}


def test_a_corrected_question_names_who_is_affected(run: Run, taken: Path, content: Path) -> None:
    lesson = content / "pairing/1-shares.md"
    text = lesson.read_text().replace("`hardener_for(filler, ratio)`", "`filler * 10`")
    lesson.write_text(text.replace("Slip: `filler * ratio.a` -- Upside down.", "Slip: `filler / ratio.a` -- Small."))
    words = ("records", "remark", "--shop", taken, "--question", "pairing/share", "--with", content)
    done = run(*words, "--by", 2)
    assert done.exit_code == 0, done.output
    assert "asked in 1 check handed in" in done.output and "Bo Strand" in done.output and "passed now" in done.output
    assert "Nobody is affected" not in done.output
    assert run(*words).exit_code == 2
    assert run(*words, "--by", 3).exit_code == 1


def test_statements_need_the_shops_address(run: Run, taken: Path, content: Path) -> None:
    done = run("records", "statements", "--shop", taken)
    assert done.exit_code == 1 and "address" in done.output
    (content / "shop.toml").write_text((content / "shop.toml").read_text() + 'address = "https://two-bays.example"\n')
    with quizkit.open_shop(taken) as opened:
        deeds.publish(opened, quizkit.compile_content(content), 1, now=now())
    made = json.loads(run("records", "statements", "--shop", taken).output)
    assert [one["verb"]["display"]["en"] for one in made] == ["attempted", "answered", "failed"]
    assert json.loads(run("records", "statements", "--shop", taken, "--person", 1).output) == []
