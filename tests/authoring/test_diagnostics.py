"""What an author reads when something is wrong."""

import json

import pytest

from quizkit.authoring.codes import CODES
from quizkit.authoring.diagnostics import Diagnostic, Spot, as_json, has_errors, in_order
from quizkit.authoring.nearest import distance, nearest


def test_a_problem_shows_its_place_its_line_a_caret_and_the_mend():
    problem = Diagnostic("m/1.md", Spot(31, 5, 6), "B05", "no such block", "did you mean 'x'?", "::: questn a")
    assert str(problem).split("\n") == [
        "m/1.md:31:5: error B05 unknown-block: no such block",
        "   31 | ::: questn a",
        "      |     ^^^^^^",
        "   mend: did you mean 'x'?",
    ]


def test_the_caret_stands_below_a_tab_and_a_wide_character():
    problem = Diagnostic("a.md", Spot(1, 4, 2), "B05", "x", "", "\t漢:ab")
    assert str(problem).split("\n")[2] == "      | \t   ^^"


def test_a_very_long_line_is_shown_around_its_place():
    problem = Diagnostic("a.md", Spot(1, 5000, 3), "B05", "x", "", "a" * 4999 + "bcd" + "e" * 4000)
    _head, line, caret = str(problem).split("\n")
    assert len(line) < 200
    assert line[caret.index("^") :].startswith("bcd")


def test_problems_are_sorted_by_place_and_told_once():
    one = Diagnostic("a.md", Spot(2), "B01", "x")
    two = Diagnostic("a.md", Spot(10), "B01", "x")
    assert in_order([two, one, two]) == (one, two)
    assert has_errors([one])


def test_a_program_reads_the_same_as_a_person():
    (plain,) = json.loads(as_json([Diagnostic("a.md", Spot(2, 3, 4), "B01", "x", "y")]))
    assert (plain["line"], plain["column"], plain["code"], plain["name"]) == (2, 3, "B01", "unclosed-block")


def test_names_of_codes_are_unique():
    assert len({code.name for code in CODES.values()}) == len(CODES)


@pytest.mark.parametrize(
    ("a", "b", "steps"), [("Answer", "Anwser", 1), ("Slip", "Slp", 1), ("a", "a", 0), ("ask", "topic", 4)]
)
def test_a_swap_of_two_letters_counts_as_one_step(a, b, steps):
    assert distance(a, b) == steps


def test_the_nearest_word_is_found_and_nothing_where_nothing_is_near():
    assert nearest("questoin", ["question", "caution", "sheet"]) == "question"
    assert nearest("zebra", ["question", "caution", "sheet"]) is None
