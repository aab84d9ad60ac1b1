"""What the proof let stand and how answers are marked agree, over every variant of the content that is shipped."""

from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

import pytest

from quizkit.arith import nearest
from quizkit.authoring.content import compile_folder
from quizkit.pack.model import Numeric, Pack, Question
from quizkit.pack.ready import ready
from quizkit.scoring.grade import NumericPart, aims, grade
from quizkit.scoring.reading import DAY_COUNT, Reading
from quizkit.scoring.verdict import Target, judge

CONTENT = Path(__file__).parents[2] / "content"


@pytest.fixture(scope="module")
def pack() -> Pack:
    return compile_folder(CONTENT).pack


def numeric_questions(pack: Pack) -> Iterator[Question]:
    return (question for question in pack.questions() if any(isinstance(part, Numeric) for part in question.parts))


def test_a_slip_is_marked_right_in_no_variant_neither_as_computed_nor_rounded(pack: Pack) -> None:
    judged = 0
    for question in numeric_questions(pack):
        made = ready(question)
        for number in question.numbers:
            for part, aim in zip(made.parts, aims(made.parts, made.grid.values(number)), strict=True):
                if not isinstance(part, NumericPart):
                    continue
                assert isinstance(aim, Target)
                shown = question.part(part.name).shown  # type: ignore[union-attr]
                for slip in aim.slips:
                    if slip is None:
                        continue
                    typed = [(slip, Fraction(1, 10**30))] + ([(nearest(slip, shown), shown)] if shown else [])
                    for value, step in typed:
                        verdict = judge(Reading(value, part.unit, step, ""), part.unit, part.tolerance, aim)
                        assert verdict.outcome != "right", (question.id, number, part.name, value)
                        judged += 1
    assert judged > 10_000


def test_every_right_answer_as_it_is_shown_is_marked_right_when_it_is_typed(pack: Pack) -> None:
    typed = 0
    for question in numeric_questions(pack):
        numbers = list(question.numbers)
        for number in numbers[:: max(len(numbers) // 12, 1)]:
            variant = question.variant(number, style=pack.style)
            right = {part.name: variant.right(part.name).removeprefix("≈ ") for part in question.parts}
            graded = variant.grade(right)
            for part in question.parts:
                verdict = graded.parts[part.name]
                assert verdict.outcome == "right", (question.id, number, part.name, right, verdict.why)
                typed += 1
    assert typed > 1_000


def test_a_carried_chain_never_earns_more_than_right_answers_and_one_mistake_costs_one_mark(pack: Pack) -> None:
    chains = 0
    for question in numeric_questions(pack):
        made = ready(question)
        if len(made.parts) < 2 or not isinstance(made.parts[0], NumericPart) or made.parts[0].unit is DAY_COUNT:
            continue
        number = next(iter(question.numbers))
        values = made.grid.values(number)
        true = aims(made.parts, values)
        first = made.parts[0]
        assert isinstance(true[0], Target)
        wrong = f"{float(true[0].true) * 1.31 or 1:.6g}"
        right = {
            part.name: f"{float(aim.true):.15g}"
            for part, aim in zip(made.parts, true, strict=True)
            if isinstance(aim, Target)
        }
        best = sum(verdict.mark for verdict in grade(made.parts, true, values, right).values())
        mine = sum(verdict.mark for verdict in grade(made.parts, true, values, {**right, first.name: wrong}).values())
        assert mine == best - 1, (question.id, right, wrong)
        chains += 1
    assert chains > 20


def test_where_units_are_to_be_turned_the_given_typed_again_is_asked_back(pack: Pack) -> None:
    turned = 0
    for question in numeric_questions(pack):
        for part in ready(question).parts:
            if not isinstance(part, NumericPart) or not part.turned:
                continue
            given = next(given for given in question.givens if given.name == part.formula.text)
            for number in question.numbers:
                told = given.unit.from_base(ready(question).grid.values(number)[given.name])  # type: ignore[union-attr,operator,arg-type]
                typed = f"{float(told):g} {given.unit.symbol}"  # type: ignore[union-attr]
                verdict = question.variant(number, style=pack.style).grade({part.name: typed}).parts[part.name]
                assert verdict.outcome == "unread", (question.id, number, typed)
            turned += 1
    assert turned >= 5
