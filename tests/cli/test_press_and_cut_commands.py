"""`quizkit press` writes pages that need no server; `quizkit cut` says where judges would draw the line."""

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import Result

Run = Callable[..., Result]
SIGNOFF = """# Pairing: seen at the bench

Each step is seen.

::: sheet
1. ! Keeps each cap on its side.

| Measure | In | What        |
| ------- | -- | ----------- |
| shot    | g  | side A, net |

Judge shot: `shot` at least 1 g -- Too small.
:::

Source: common practice
"""


def test_lessons_are_pressed(run: Run, content: Path, tmp_path: Path) -> None:
    done = run("press", "lessons", content, "--into", tmp_path / "out")
    assert done.exit_code == 0 and "1 lessons and 1 previews" in done.output
    assert (tmp_path / "out/index.html").exists()


def test_sheets_are_pressed(run: Run, content: Path, tmp_path: Path) -> None:
    module = content / "pairing/module.toml"
    module.write_text(module.read_text().replace('skill = "pairing"', 'skill = "pairing"\npractical = true'))
    (content / "pairing/signoff.md").write_text(SIGNOFF)
    done = run("press", "sheets", content, "--into", tmp_path / "out")
    assert done.exit_code == 0 and "1 sheet to print:" in done.output, done.output
    assert "Keeps each cap on its side." in (tmp_path / "out/sheet-pairing.html").read_text()


@pytest.fixture
def rated(content: Path) -> Path:
    """The ratings of a worked example, a question a row."""
    lesson = content / "pairing/1-shares.md"
    text = lesson.read_text()
    question = text[text.index(":::") :]
    names = ("share", "two", "three", "four")
    more = "\n".join(question.replace("question share", f"question {name}") for name in names[1:])
    lesson.write_text(text + "\n" + more)
    rows = [(".8", ".7", ".9"), (".6", ".5", ".7"), (".7", ".8", ".6"), (".9", ".8", "1.0")]
    lines = [f"{name},{','.join(row)}" for name, row in zip(names, rows, strict=True)]
    (content / "pairing/judges.csv").write_text("\n".join(["question,Ada,Bo,Cy", *lines]) + "\n")
    return content


def test_the_judges_cut_comes_with_its_standard_error(run: Run, rated: Path) -> None:
    # Modified Angoff of (.8 .6 .7 .9), (.7 .5 .8 .8), (.9 .7 .6 1.0): 3.00 of 4, standard error 0.11547 (computed).
    done = run("cut", "pairing", "--content", rated)
    assert done.exit_code == 0, done.output
    assert "Ada: 3.00" in done.output and "cut 3.00 of 4 (75%), standard error 0.12" in done.output
    made = json.loads(run("cut", "pairing", "--content", rated, "--json").output)
    assert made["standard_error"] == pytest.approx(0.11547, abs=5e-6)


def test_without_judges_or_without_the_module_it_says_what_is_missing(run: Run, content: Path) -> None:
    done = run("cut", "pairing", "--content", content)
    assert done.exit_code == 1 and "judges.csv" in done.output
    done = run("cut", "paring", "--content", content)
    assert done.exit_code == 2 and "did you mean 'pairing'?" in done.output
