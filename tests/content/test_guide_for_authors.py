"""The guide for authors: what it shows compiles, what it lists is what there is, and it reads plainly."""

import re
import shlex
import shutil
from pathlib import Path

import click
import pytest
import textstat  # type: ignore[import-untyped]

from quizkit.authoring.content import Compiled, compile_folder
from quizkit.cli import main
from quizkit.pack.figures import FIGURES
from quizkit.trade import SUMS

CONTENT = Path(__file__).parents[2] / "content"
GUIDE = (CONTENT / "AUTHORS.md").read_text(encoding="utf-8").split("\n## Diagnostics\n")[0]
SHOWN = re.findall(r"^````markdown\n(.*?)^````$", GUIDE, re.M | re.S)
LESSONS = [text for text in SHOWN if "::: question" in text]
SHEETS = [text for text in SHOWN if "::: sheet" in text]
SHOP, MODULE = re.findall(r"^```toml\n(.*?)^```$", GUIDE, re.M | re.S)
HIGHEST_GRADE = 8
NOT_A_WHOLE_MODULE = {"M09", "M10"}
"""What a single example cannot have: enough questions and marks for a check."""


def compiled(folder: Path, lesson: str, sheet: str = "") -> Compiled:
    """A folder of content with one module that holds one lesson, on our own shelf."""
    module = folder / "shares"
    module.mkdir()
    shutil.copy(CONTENT / "shelf.md", folder)
    (folder / "shop.toml").write_text('name = "Example Refinish"\nzone = "UTC"\n', encoding="utf-8")
    topics = sorted(set(re.findall(r"^Topic: (\S+)$", lesson, re.M)))
    scheme = ['title = "Shares"', 'skill = "shares"', f"practical = {str(bool(sheet)).lower()}", "[check]"]
    scheme += ["pass_mark = 0.8", 'wait = "24 h"', 'valid = "24 months"', "[check.topics]"]
    (module / "module.toml").write_text("\n".join([*scheme, *(f"{topic} = 1" for topic in topics)]), encoding="utf-8")
    titled = lesson if lesson.startswith("# ") else f"# An example\n\n{lesson}"
    (module / "1-example.md").write_text(titled, encoding="utf-8")
    if sheet:
        (module / "signoff.md").write_text(sheet, encoding="utf-8")
    return compile_folder(folder)


def told(made: Compiled) -> list[str]:
    """The problems that an example may not have."""
    return [str(one) for one in made.problems if one.code not in NOT_A_WHOLE_MODULE]


@pytest.mark.parametrize("lesson", LESSONS, ids=lambda text: re.findall(r"::: question (\S+)", text)[0])
def test_an_example_of_the_guide_compiles(tmp_path: Path, lesson: str) -> None:
    """Each question that the guide shows is proven without an error or a warning of its own."""
    made = compiled(tmp_path, lesson)
    assert told(made) == []
    assert "P03" not in {one.code for one in made.problems}


@pytest.mark.parametrize("sheet", SHEETS)
def test_the_sheet_of_the_guide_compiles(tmp_path: Path, sheet: str) -> None:
    """The sheet that the guide shows has steps, measures and judges that work."""
    made = compiled(tmp_path, LESSONS[0], sheet)
    assert told(made) == []


def test_the_settings_of_the_guide_compile(tmp_path: Path) -> None:
    """The two settings files of the guide are read without an unknown or a missing key."""
    compiled(tmp_path, LESSONS[0], SHEETS[0])
    (tmp_path / "shop.toml").write_text(SHOP, encoding="utf-8")
    (tmp_path / "shares" / "module.toml").write_text(MODULE, encoding="utf-8")
    codes = {one.code for one in compile_folder(tmp_path).problems}
    assert not {code for code in codes if code.startswith("S")}


def test_the_guide_lists_each_sum_and_each_figure_as_they_are_called() -> None:
    """Every sum and figure stands in a table of the guide with its own parameters, and no other does."""
    sums = {
        f"{one.name}({', '.join(name for name, _kind in one.takes)}{', …' if one.repeats else ''})"
        for one in SUMS.values()
    }
    figures = {f"{name}({', '.join(given for given, _unit in takes)})" for name, takes in FIGURES.items()}
    listed = set(re.findall(r"^\| `([a-z_0-9]+\([^`]*\))`", GUIDE, re.M))
    assert listed == sums | figures


def test_the_diagnostics_are_the_last_section_of_the_guide() -> None:
    """Whoever looks a message up finds it at the end, under a heading of its own."""
    whole = (CONTENT / "AUTHORS.md").read_text(encoding="utf-8")
    assert re.findall(r"^## (.*)$", whole, re.M)[-1] == "Diagnostics"


def test_the_guide_reads_at_grade_eight_or_below() -> None:
    """The prose of the guide, without tables, examples and marks."""
    text = re.sub(r"^(`{3,4}).*?^\1$", "", GUIDE, flags=re.M | re.S)
    text = re.sub(r"^(\||#|\d+\. \[).*$", "", text, flags=re.M)
    text = re.sub(r"``? .*? ``?|`[^`]*`", "it", text).replace("**", "")
    assert textstat.automated_readability_index(text) <= HIGHEST_GRADE
    assert textstat.coleman_liau_index(text) <= HIGHEST_GRADE


@pytest.mark.parametrize("typed", sorted(set(re.findall(r"`quizkit ([^`]+)`", GUIDE))))
def test_a_command_of_the_guide_is_understood(typed: str) -> None:
    """Each command that the guide names exists, with the options that it is given there."""
    name, *rest = shlex.split(typed)
    command = main.get_command(click.Context(main), name)
    assert command is not None
    if isinstance(command, click.Group) and rest:
        command = command.commands[rest.pop(0)]
    known = {option for parameter in command.params for option in parameter.opts}
    assert {word for word in rest if word.startswith("--")} <= known
