"""`quizkit sum` at the bench: a number with its working, or a clear word why there is none."""

import json
import re

import pytest
from click.testing import CliRunner, Result

from quizkit.cli import COMMANDS, main, short_words
from quizkit.trade import SUMS
from tests.ground.published import CHECKS, REFUSALS


def run(*words: str) -> Result:
    return CliRunner().invoke(main, ["sum", *words])


def test_a_sum_shows_its_working_and_its_caution() -> None:
    done = run("hardener_for", "120 mL", "10:1 by volume")
    assert done.exit_code == 0
    assert "= 120 mL × 1 ÷ 10" in done.output and "12 mL" in done.output and "data sheet" in done.output


def test_a_mask_is_no_number_where_isocyanates_are() -> None:
    done = run("max_use", "25", "50 ppm", "700 ppm", "--yes", "1")
    assert done.exit_code == 1
    assert "No number" in done.output and "ppm\n" not in done.output


def test_a_question_that_no_number_tells_comes_first() -> None:
    assert run("max_use", "25", "50 ppm", "700 ppm").exit_code == 1
    assert "700 ppm" in run("max_use", "25", "50 ppm", "700 ppm", "--no", "1").output


def test_a_wrong_use_is_told_with_its_mend() -> None:
    for words, told in (
        (("hardner_for",), "hardener_for"),
        (("hardener_for", "5 g", "10:1 by volume"), "weight_ratio"),
        (("hardener_for", "5 oz", "10:1 by volume"), "fl oz"),
        (("hardener_for", "5 mL"), "ratio"),
    ):
        done = run(*words)
        assert (done.exit_code, told in done.output, "Traceback" in done.output) == (2, True, False), done.output


def test_a_program_can_read_it() -> None:
    assert json.loads(run("round_area", "8 mm", "--json").output)["sum"] == "round_area"


def test_every_command_has_its_line_in_the_list() -> None:
    assert list(COMMANDS) == list(short_words())
    assert all(name in CliRunner().invoke(main, ["--help"]).output for name in COMMANDS)


@pytest.mark.parametrize("name", sorted(SUMS))
def test_every_sum_is_worked_in_steps_at_the_command_line(name: str) -> None:
    """On a published case of its own: the formula first, then the values as typed, the result last."""
    check = next(check for check in CHECKS if check.sum == name and "100 %" not in check.given)
    one = SUMS[name]
    noes = [word for at in range(len(one.asks)) for word in ("--no", str(at + 1))]
    done = run(name, *noes, "--", *check.given.split(", "))
    assert done.exit_code == 0, done.output
    told = json.loads(run(name, "--json", *noes, "--", *check.given.split(", ")).output)
    assert told["steps"][0] == one.formula and told["result"].removeprefix("≈ ") in told["steps"][-1]
    assert all(step in done.output for step in told["steps"])


@pytest.mark.parametrize(("name", "text", "says"), REFUSALS)
def test_a_sum_that_must_not_answer_says_what_to_do_and_gives_no_number(name: str, text: str, says: str) -> None:
    done = run(name, *(("--no", "1") if SUMS[name].asks else ()), "--", *text.split(", "))
    assert done.exit_code == 1 and "No number" in done.output
    assert not re.search(r"^[=≈] ", done.output, re.M)
