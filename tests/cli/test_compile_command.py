"""`quizkit compile` and `quizkit try`: a pack and pages, every mistake with its place, a question tried at once."""

import json
import re
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import Result

from quizkit.pack.codec import from_json
from quizkit.pack.model import Pack

Run = Callable[..., Result]


def test_a_pack_and_a_page_a_lesson_are_written_and_counted(run: Run, content: Path, tmp_path: Path) -> None:
    done = run("compile", content, "--into", tmp_path / "build")
    assert done.exit_code == 0, done.output
    assert "1 module, 1 lesson, 1 question, 37 variants proven" in done.output
    pack = from_json(Pack, (tmp_path / "build/pack.json").read_bytes())
    assert len(pack.question("pairing/share").numbers) == 37
    assert "Ten parts to one." in (tmp_path / "build/pairing/1-shares.html").read_text()
    assert (tmp_path / "build/preview/pairing/share.html").exists()


def test_a_mistake_is_told_with_its_place_and_nothing_is_written(run: Run, content: Path, tmp_path: Path) -> None:
    lesson = content / "pairing/1-shares.md"
    lesson.write_text(lesson.read_text().replace("hardener_for(filler", "hardener_for(filer"))
    done = run("compile", content, "--into", tmp_path / "build")
    assert done.exit_code == 1
    assert "pairing/1-shares.md:15:" in done.output and "filler" in done.output and "1 error" in done.output
    assert not (tmp_path / "build/pack.json").exists()


def test_what_is_held_out_is_named_and_the_rest_is_made(run: Run, content: Path, tmp_path: Path) -> None:
    (content / "pairing/2-bad.md").write_text(
        "# Bad\n\n::: question bad\nTopic: shares\n\nHow?\n\nAnswer: `nope`\n:::\n"
    )
    done = run("compile", content, "--into", tmp_path / "build", "--hold-out")
    assert done.exit_code == 1 and "held out: pairing/bad" in done.output
    assert len(list(from_json(Pack, (tmp_path / "build/pack.json").read_bytes()).questions())) == 1


def test_a_program_reads_counts_and_problems(run: Run, content: Path, tmp_path: Path) -> None:
    made = json.loads(run("compile", content, "--into", tmp_path / "build", "--json", "--report").output)
    assert (made["questions"], made["variants"], made["report"][0]["question"]) == (1, 37, "pairing/share")
    (content / "shop.toml").write_text("nme = 3")
    made = json.loads(run("compile", content, "--into", tmp_path / "build", "--json").stdout)
    assert next(one["path"] for one in made["problems"] if one["severity"] == "error") == "shop.toml"


def test_the_report_has_a_line_a_question(run: Run, content: Path, tmp_path: Path) -> None:
    told = run("compile", content, "--into", tmp_path / "b", "--report").output
    assert "pairing/share          37 of 37  nearest slip 9,900 %" in told
    assert "1 question: 37 points, 37 let through, 37 variants proven, 0 left out" in told


def test_a_program_reads_each_slip_and_why_points_are_left_out(run: Run, content: Path, tmp_path: Path) -> None:
    lesson = content / "pairing/1-shares.md"
    lesson.write_text(lesson.read_text().replace("\nSlip:", "\nSlip: `filler.mL - 63` -- No.\n\nSlip:", 1))
    made = json.loads(run("compile", content, "--into", tmp_path / "b", "--json", "--report").output)
    (told,) = made["report"]
    assert told["points"] == told["variants"] + sum(told["left_out"].values()) == 37
    assert told["slips"][0]["formula"] == "filler.mL - 63"
    assert told["left_out"] == {"a slip would be marked right": 1} and told["slips"][0]["takes_out"] == 1
    assert told["nearest_slip"] == min(slip["nearest"] for slip in told["slips"])


def test_a_watch_goes_with_neither_a_report_nor_a_program(run: Run, content: Path) -> None:
    for option in ("--json", "--report"):
        done = run("compile", content, "--watch", option)
        assert done.exit_code == 2 and "--watch" in done.output


def test_a_folder_that_is_not_there_or_cannot_be_written_is_told(run: Run, content: Path, tmp_path: Path) -> None:
    done = run("compile", tmp_path / "nowhere")
    assert done.exit_code == 1 and "nowhere" in done.output
    (tmp_path / "file").write_text("")
    done = run("compile", content, "--into", tmp_path / "file" / "below")
    assert done.exit_code == 1 and "cannot be written" in done.output


@pytest.mark.parametrize(("typed", "word"), [("6.5", "right"), ("650", "slip"), ("eleven", "unread")])
def test_an_author_tries_a_question_and_sees_key_slips_and_working(
    run: Run, content: Path, typed: str, word: str
) -> None:
    done = run("try", "share", "--content", content, "--variant", 1, typed=f"{typed}\n")
    assert done.exit_code == 0, done.output
    assert f"answer: {word}" in done.output
    assert "65 mL of filler at 10:1 by volume" in done.output
    assert "slip 1: 650.0 mL  filler * ratio.a  Upside down." in done.output
    assert "65 mL is shared out." in done.output


ORDER = "Order:\n\n1. Gloves\n2. Caps\n3. Level\n"
PAIRS = "| Pair | With |\n| - | - |\n| A | base |\n| B | hardener |\n"
CHOICE = "- [x] Gloves\n- [ ] Caps -- Gloves come first.\n- [ ] Level\n"


def asked(content: Path, asks: str) -> None:
    """Write a question that asks this and nothing else into the content."""
    block = f"::: question kind\nTopic: shares\nUse: practice\n\nWhat goes where?\n\n{asks}:::\n"
    (content / "pairing/2-kinds.md").write_text(f"# Kinds\n\n{block}")


def listed(output: str, sign: str) -> dict[str, str]:
    """What is listed at the terminal, by the sign in front: the numbers or the letters."""
    return {words: at for at, words in re.findall(rf"^  ({sign})\. (.+)$", output, re.M)}


@pytest.mark.parametrize("asks", [ORDER, PAIRS, CHOICE], ids=["order", "pairs", "choice"])
def test_every_kind_can_be_tried_as_a_trainee_meets_it(run: Run, content: Path, asks: str) -> None:
    """What is listed stands mixed, the same each time for a variant; as written it would be the key."""
    asked(content, asks)
    first = run("try", "kind", "--content", content, "--variant", 0, typed="1\n").output
    numbers, letters = listed(first, r"\d"), listed(first, "[a-z]")
    right = {
        ORDER: " ".join(numbers.get(words, "") for words in ("Gloves", "Caps", "Level")),
        PAIRS: f"1{letters.get('base')} 2{letters.get('hardener')}",
        CHOICE: numbers.get("Gloves", ""),
    }[asks]
    done = run("try", "kind", "--content", content, "--variant", 0, typed=f"{right}\n")
    assert done.exit_code == 0 and "1 of 1 marks" in done.output and f"right: {right}" in done.output, done.output
    assert (listed(done.output, r"\d"), listed(done.output, "[a-z]")) == (numbers, letters)
    if asks == CHOICE:
        assert f"option {numbers['Caps']}  Gloves come first." in done.output
    else:
        assert right not in ("1 2 3", "1a 2b")


def test_a_picture_that_is_to_be_read_is_told_by_its_marks_and_not_by_its_key(run: Run, content: Path) -> None:
    asked = "Figure: `thermometer(shown, limit)`\n\nWhat does it show?\n\n| Given | Drawn from |\n| - | - |\n"
    asked += "| shown | 12 °C to 23 °C by 1 °C |\n| limit | 25 °C |\n\n"
    asked += "Answer: `shown` in °C, within 0.5 °C\n\nSlip: `limit` -- No.\n"
    block = f"::: question warm\nTopic: shares\nUse: practice\n\n{asked}:::\n"
    (content / "pairing/2-warm.md").write_text(f"# Warm\n\n{block}")
    done = run("try", "warm", "--content", content, "--variant", 3, typed="15\n")
    assert done.exit_code == 0, done.output
    before, after = done.output.split("answer (", 1)
    assert "The column stands 5 small marks past the number 10." in before
    assert "15" not in before and "right: 15" in after


def test_a_question_with_a_mistake_is_not_said_to_be_missing(run: Run, content: Path) -> None:
    lesson = content / "pairing/1-shares.md"
    lesson.write_text(lesson.read_text().replace("`hardener_for(filler, ratio)`", "`hardner_for(filler, ratio)`"))
    done = run("try", "share", "--content", content)
    assert done.exit_code == 1 and "unknown-function" in done.output and "pairing/share" in done.output


def test_a_question_or_variant_that_is_not_there_is_wrong_use(run: Run, content: Path) -> None:
    done = run("try", "pairing/shar", "--content", content)
    assert done.exit_code == 2 and "did you mean 'pairing/share'?" in done.output
    done = run("try", "share", "--content", content, "--variant", 99)
    assert done.exit_code == 2 and "no variant 99" in done.output


def test_a_second_compile_takes_unchanged_blocks_from_the_cache(run: Run, content: Path, tmp_path: Path) -> None:
    run("compile", content, "--into", tmp_path / "build")
    first = (tmp_path / "build/pack.json").read_bytes()
    assert any((tmp_path / "build/cache").rglob("*"))
    run("compile", content, "--into", tmp_path / "build")
    assert (tmp_path / "build/pack.json").read_bytes() == first
