"""Which parts ask what a value is in another unit: those whose answer their own question tells in one."""

import pytest

from quizkit.authoring.question import read_question
from quizkit.authoring.source import Source
from quizkit.pack.model import Numeric
from quizkit.pack.shelf import Shelf

BLOCK = """::: question turn
Topic: pressure

{prompt}

| Given | Drawn from                 |
| ----- | -------------------------- |
| gauge | 45 psi to 100 psi by 1 psi |

{figure}
Answer: `{formula}` in {unit}, within 2 %

Slip: `gauge * 2` -- Not twice."""
FIGURE = "Figure: `pressure_gauge(gauge, 120)`\n"


@pytest.mark.parametrize(
    ("prompt", "figure", "formula", "unit", "turned"),
    [
        ("It shows `gauge`. What is that?", "", "gauge", "bar", True),
        ("It shows `gauge in bar to 0.1 bar`. What is that?", "", "gauge", "psi", True),
        ("It shows `gauge`. What is that?", "", "gauge", "psi", False),
        ("It shows `gauge`. What is half?", "", "gauge / 2", "bar", False),
        ("What does the gauge show?", FIGURE, "gauge", "bar", False),
    ],
)
def test_a_part_is_turned_where_its_question_tells_the_answer_in_another_unit(
    prompt: str, figure: str, formula: str, unit: str, turned: bool
) -> None:
    block = BLOCK.format(prompt=prompt, figure=figure, formula=formula, unit=unit)
    found = read_question(Source("turn.md", tuple(block.split("\n"))), "m/turn", Shelf())
    assert found.question is not None, found.problems
    (part,) = found.question.parts
    assert isinstance(part, Numeric)
    assert part.turned is turned
