"""What must stay as it is when something else changes: sizes, tolerances, and the words that are typed."""

import os
import random
from fractions import Fraction as F
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quizkit.arith import settle
from quizkit.authoring.content import compile_folder
from quizkit.pack.model import Choice, Numeric, Pack, Question
from quizkit.pack.variant import Variant
from quizkit.scoring.reading import Reading
from quizkit.scoring.tolerance import Tolerance, within, within_share
from quizkit.scoring.verdict import Target, judge
from quizkit.trade import SUMS
from quizkit.trade.bench import read_all
from quizkit.trade.typed import Ratio
from quizkit.units import Kind, unit
from tests.ground.published import CHECKS, Check

CONTENT = Path(__file__).parents[2] / "content"
VARIANTS = int(os.environ.get("QUIZKIT_CASES", "6"))
"""How many variants of each question are tried. The long run, on this file, has `QUIZKIT_CASES=100000`: all of them."""

OWN_SIZES = {
    # they hold a size of their own, so that they do not scale: 8 h, 24.45 L, a table, a class, a week, a cent
    *("twa", "ppm_to_mg", "mg_to_ppm", "noise_time", "noise_dose", "noise_time_niosh", "glove_class", "reorder_at"),
    *("tax", "taxed_by_line", "taxed_by_ticket"),
}
BASES = ("length", "mass", "time", "money", "mol", "turn", "ppm")
SCALES = st.fixed_dictionaries({base: st.fractions(F(1, 9), 9, max_denominator=9) for base in BASES})


def scale(kind: Kind, sizes: dict[str, F]) -> F:
    """How much larger a value of a kind is when each base is so much larger."""
    made = F(1)
    for base, power in kind.dims:
        made *= sizes.get(base, F(1)) ** power
    return made


def scaled(check: Check, sizes: dict[str, F]) -> tuple[float, float]:
    """What a sum gives for scaled values, and what it would if it scaled."""
    one = SUMS[check.sum]
    values = read_all(one, check.given.split(", "))
    sized = [v.value if isinstance(v.value, Ratio) else v.value * scale(v.kind, sizes) for v in values]
    plain = settle(one.function(*(value.value for value in values)))
    expected = plain * scale(one.kind([value.kind for value in values]), sizes)
    return float(settle(one.function(*sized))), float(expected)


NUMBERED = [check for check in CHECKS if not SUMS[check.sum].dated]


@pytest.mark.parametrize("check", [check for check in NUMBERED if check.sum not in OWN_SIZES], ids=str)
@settings(max_examples=20, deadline=None)
@given(SCALES)
def test_scaling_all_givens_scales_the_answer(check: Check, sizes: dict[str, F]) -> None:
    got, expected = scaled(check, sizes)
    assert got == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize("name", sorted(OWN_SIZES))
def test_a_sum_that_is_left_out_of_the_scaling_does_have_a_size_of_its_own(name: str) -> None:
    sizes = {base: F(3, 7) for base in BASES}
    pairs = [scaled(check, sizes) for check in NUMBERED if check.sum == name]
    assert any(got != pytest.approx(expected, rel=1e-9) for got, expected in pairs)


ML = unit("mL")
NUMBERS = st.fractions("0.05", 500, max_denominator=100)


@settings(deadline=None)
@given(NUMBERS, NUMBERS, NUMBERS, st.fractions(F(1, 1000), 1000, max_denominator=1000), st.sampled_from([1, 2, 5, 10]))
def test_a_question_ten_times_as_large_gets_the_same_verdicts(
    true: F, slip: F, number: F, times: F, percent: int
) -> None:
    """With a tolerance that is a share of the right answer; the powers of ten and slips move along."""
    tolerance = within_share(F(percent, 100))

    def verdict(size: F) -> Any:
        reading = Reading(number * size, ML, F(1, 10**9) * size, "")
        found = judge(reading, ML, tolerance, Target(true * size, (slip * size,)))
        return found.outcome, found.slips, found.power

    assert verdict(F(1)) == verdict(times)


@settings(deadline=None)
@given(NUMBERS, NUMBERS, NUMBERS, NUMBERS, st.fractions(0, 10, max_denominator=100), st.fractions(0, 10), st.booleans())
def test_a_wider_tolerance_loses_no_mark_also_where_slips_and_carried_values_are_near(
    true: F, carried: F, slip: F, number: F, size: F, more: F, relative: bool
) -> None:
    def mark(size: F) -> F:
        tolerance: Tolerance = within_share(size / 100) if relative else within(size)
        reading = Reading(number, ML, F(1, 100), "")
        return judge(reading, ML, tolerance, Target(true, (slip,)), Target(carried, (slip,))).mark

    assert mark(size) <= mark(size + more)


@pytest.fixture(scope="module")
def pack() -> Pack:
    made = compile_folder(CONTENT).pack
    assert made is not None
    return made


def numeric(pack: Pack) -> list[Question]:
    return [question for question in pack.questions() if any(isinstance(part, Numeric) for part in question.parts)]


def sampled(question: Question, chance: random.Random, pack: Pack) -> list[Variant]:
    numbers = question.numbers
    chosen = range(len(numbers)) if len(numbers) <= VARIANTS else chance.sample(range(len(numbers)), VARIANTS)
    return [question.variant(numbers[place], style=pack.style) for place in chosen]


def typed_forms(number: F, part: Numeric) -> list[str]:
    """A number as a person might type it: with and without its unit, in figures that tell it apart; money in cents."""
    if part.unit == "$":
        return [f"{float(number):.2f}", f"${float(number):.2f}"]
    figures = f"{float(number):.10f}"
    return [figures] if part.unit in ("", "%") else [figures, f"{figures} {part.unit}"]


def test_a_slip_that_the_proof_let_stand_is_never_marked_right_however_it_is_typed(pack: Pack) -> None:
    """The slip of each part as text, through the whole of the marking, beside right answers as they are told.

    Those are rounded, and carried on: what is right for who rounded honestly must be no slip either.
    """
    chance, tried = random.Random(1), 0
    for question in numeric(pack):
        for variant in sampled(question, chance, pack):
            right = {part.name: variant.right(part.name).removeprefix("≈ ") for part in question.parts}
            for part in question.parts:
                if not isinstance(part, Numeric) or part.date:
                    continue
                for slip in variant.slip_values(part.name):
                    if slip is None:
                        continue
                    for text in typed_forms(slip, part):
                        told = variant.grade({**right, part.name: text}).parts[part.name]
                        assert told.outcome != "right", (question.id, variant.number, part.name, text)
                        tried += 1
    assert tried > 2_000


def test_whatever_is_typed_earns_no_more_than_right_answers_and_a_wrong_part_costs_its_mark(pack: Pack) -> None:
    """Right, slips and other numbers mixed at random over the parts: marks are those of the parts that are right."""
    chance, tried = random.Random(2), 0
    for question in numeric(pack):
        for variant in sampled(question, chance, pack):
            right = {part.name: variant.right(part.name).removeprefix("≈ ") for part in question.parts}
            best = variant.grade(right)
            assert best.right, (question.id, variant.number)
            typed = {part.name: _drawn(part, right[part.name], variant, chance) for part in question.parts}
            graded = variant.grade(typed)
            first = question.parts[0].name
            assert graded.marks <= best.marks
            assert graded.parts[first].note != "carried"
            if graded.parts[first].outcome != "right":
                assert graded.marks <= best.marks - 1
            tried += 1
    assert tried > 500


def _drawn(part: Any, right: str, variant: Variant, chance: random.Random) -> str:
    if isinstance(part, Choice):
        return str(chance.randint(1, len(part.options)))
    slips = [f"{float(slip):.10g}" for slip in variant.slip_values(part.name) if slip is not None]
    return chance.choice([right, *([] if getattr(part, "date", False) else slips), "12.34", "0"])
