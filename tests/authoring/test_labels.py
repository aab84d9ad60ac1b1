"""Label lines are read from the source, with the place of all they hold."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quizkit.authoring.labels import LESSON, QUESTION, Label, outline
from quizkit.authoring.source import Source


def read(text, allowed=QUESTION):
    pieces, problems = outline(Source("a.md", tuple(text.split("\n"))), allowed)
    found = [(p.word, p.name, p.body.text) if isinstance(p, Label) else p.body.text.strip() for p in pieces]
    return found, [(p.code, p.spot.line, p.spot.column) for p in problems]


def test_a_label_runs_to_a_blank_line_and_prose_stands_between():
    found, problems = read("Topic: shares\n\nHow\nmuch?\n\nAnswer b: `a`\nin mL\n\nMore")
    assert problems == []
    assert found == [("Topic", "", "shares"), "How\nmuch?", ("Answer", "b", "`a`\nin mL"), "More"]


def test_a_working_holds_several_paragraphs_and_a_slip_one():
    found, _problems = read("Working: one\n\ntwo\n\nSlip: `a` -- x\n\nthree")
    assert found == [("Working", "", "one\n\ntwo"), ("Slip", "", "`a` -- x"), "three"]


@pytest.mark.parametrize("after", ["- [x] one", "| Given | Drawn from |", "Slip: x"])
def test_an_ask_ends_at_options_a_given_table_or_a_label(after):
    found, _problems = read("Ask over: one\n\ntwo\n\n" + after)
    assert found[0] == ("Ask", "over", "one\n\ntwo")
    assert len(found) == 2


@pytest.mark.parametrize("after", ["- one", "1. one", "| a | b |"])
def test_a_list_or_a_table_ends_a_label(after):
    found, _problems = read("Order:\n" + after)
    assert found == [("Order", "", ""), after]


@pytest.mark.parametrize(
    ("text", "problems"),
    [
        ("Anwser: `a`", [("L01", 1, 1)]),
        ("Slp: `a`", [("L01", 1, 1)]),
        ("Remember: this", []),
        ("Judge: this", [("L02", 1, 1)]),
        ("Answer: `a", [("L03", 1, 9)]),
        ("Working: `a`\n\nb `c", [("L03", 3, 3)]),
        ("Answer Two: `a`", [("L04", 1, 8)]),
        ("Topic one: a", [("L05", 1, 1)]),
        ("- [x] a\nTopic: a", [("L06", 2, 1)]),
        ("| a |\n| - |\n| b |\nAnswer: `a`", [("L06", 4, 1)]),
        ("```\nAnwser: `a`\n```", []),
        (" Answer: `a", []),
    ],
)
def test_each_mistake_of_a_label_is_told_at_its_place(text, problems):
    assert read(text)[1] == problems


def test_a_lesson_knows_sources_and_figures_alone():
    assert read("Source: a\nNote: b", LESSON)[0] == [("Source", "", "a\nNote: b")]


@given(st.lists(st.sampled_from(["Answer: `a`", "Ask b: c", "- x", "", "| a |", "text", "```", "Slip: `", "1. y"])))
def test_every_line_with_words_is_kept_once(lines):
    pieces, _problems = outline(Source("a.md", tuple(lines) or ("",)), QUESTION)
    kept = [line for p in pieces for line in p.body.text.split("\n") if line.strip()]
    words = [line.split(": ", 1)[1] if line[:1] in "AS" else line for line in lines if line.strip()]
    assert [line.split(": ", 1)[-1] for line in kept] == words
