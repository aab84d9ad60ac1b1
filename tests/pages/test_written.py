"""An answer is told in the words that the person chose, never by numbers alone, and never as markup of theirs."""

from dataclasses import dataclass

from hypothesis import given
from hypothesis import strategies as st

from quizkit.pages.written import written


@dataclass
class Line:
    number: int
    letter: str
    html: str


@dataclass
class Asked:
    kind: str
    options: tuple[Line, ...] = (Line(1, "", "<p>one</p>"), Line(2, "", "<p>two</p>"), Line(3, "", "<p>three</p>"))
    targets: tuple[Line, ...] = (Line(1, "a", "<p>left</p>"), Line(2, "b", "<p>right</p>"))


def test_each_kind_in_its_own_words() -> None:
    assert written(Asked("number"), "2.4 mL") == ["2.4 mL"]
    assert written(Asked("choice"), "1, 3") == ["<p>one</p>", "<p>three</p>"]
    assert written(Asked("order"), "3 1 2") == ["<p>three</p>", "<p>one</p>", "<p>two</p>"]
    assert written(Asked("match"), "1b 2a") == ["<p>one</p>: <p>right</p>", "<p>two</p>: <p>left</p>"]
    assert written(Asked("choice"), "") == []


@given(kind=st.sampled_from(["number", "choice", "order", "match"]), typed=st.text(max_size=80))
def test_nothing_typed_becomes_markup(kind: str, typed: str) -> None:
    own = {"<p>", "</p>"}
    told = "".join(written(Asked(kind), typed))
    for tag in own:
        told = told.replace(tag, "")
    assert "<" not in told
