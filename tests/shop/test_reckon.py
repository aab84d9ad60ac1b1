"""The pocket calculator: exact, with the signs that people type, and words for what it does not understand."""

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quizkit.shop import Refusal, reckon


@pytest.mark.parametrize(
    ("text", "result"),
    [
        ("120/10", "12"),
        ("120 ÷ 10", "12"),
        ("2 × 3 + 4", "10"),
        ("2 + 3 * 4", "14"),
        ("(2 + 3) · 4", "20"),
        ("0.1 + 0.2", "0.3"),
        ("1-1/2", "0.5"),
        ("2 1/2 × 4", "10"),
        ("2½ × 4", "10"),
        ("6 / 2 1/2", "2.4"),
        ("10 − 4 – 3", "3"),
        ("10/4/2", "1.25"),
        ("-3 * -2", "6"),
        ("1,250.00 * 2", "2500"),
        ("1.2e3 + .5", "1200.5"),
        ("120 × 25 %", "30"),
        ("√ 16 + √(9)", "7"),
        ("sqrt(1/4)", "0.5"),
        ("SQRT 2.25", "1.5"),
        ("1 / 3", "≈ 0.3333333333"),
        ("√2", "≈ 1.414213562"),
        ("π × 8 × 8 / 4", "≈ 50.26548246"),
        ("1/3 * 3", "1"),
        ("√2 × √2", "≈ 2"),
        ("0 * 5", "0"),
        ("3 x 4", "12"),
    ],
)
def test_a_sum_is_worked_as_written(text: str, result: str) -> None:
    assert reckon(text) == result


def test_the_shops_decimal_mark_is_read_and_shown() -> None:
    assert reckon("1,5 × 3", ",") == "4,5"
    assert reckon("1.250,5 + 1", ",") == "1251,5"


@pytest.mark.parametrize(
    ("text", "what"),
    [
        ("", "nothing to work out"),
        ("   ", "nothing to work out"),
        ("2 +", "breaks off"),
        ("* 2", "Before '*'"),
        ("2 3", "Between '2' and '3'"),
        ("2(3)", "Between '2' and '('"),
        ("(2 + 3", "not closed"),
        ("2 + 3)", "not opened"),
        ("()", "Before ')'"),
        ("1/0", "divided by 0"),
        ("1/(2-2)", "divided by 0"),
        ("5 1/0", "not understood"),
        ("√-4", "Before '-'"),
        ("√(-4)", "no square root"),
        ("3 mL + 2", "'mL' was not understood"),
        ("12²", "Powers"),
        ("2^3", "Powers"),
        ("__import__('os')", "'_' was not understood"),
        ("1,25 + 1", "'1,25' was not understood"),
        ("1e31", "not understood"),
        ("10 * 1e30", "too large"),
        ("1e30 * 1e30", "too large"),
        ("1e-30 / 1e30", "too small"),
        ("9e999999999", "not understood"),
        ("1" * 121, "too long"),
        ("(" * 50 + "1" + ")" * 50, "too deep"),
        ("√" * 50 + "2", "too deep"),
        ("-" * 100 + "2", "too deep"),
    ],
)
def test_what_is_not_understood_is_told(text: str, what: str) -> None:
    with pytest.raises(Refusal) as refused:
        reckon(text)
    assert what in str(refused.value.what) and refused.value.mend


NUMBERS = st.decimals(min_value=0, max_value=9999, places=2).map(str)


@given(first=NUMBERS, rest=st.lists(st.tuples(st.sampled_from("+-*"), NUMBERS), max_size=8))
def test_sums_without_a_division_are_exact(first: str, rest: list[tuple[str, str]]) -> None:
    terms = [[Fraction(first)]]
    for sign, number in rest:
        if sign == "*":
            terms[-1].append(Fraction(number))
        else:
            terms.append([Fraction(number) if sign == "+" else -Fraction(number)])
    exact = sum((math.prod(term) for term in terms), Fraction(0))
    text = first + "".join(f" {sign} {number}" for sign, number in rest)
    if len(text) > 120 or abs(exact) > 10**30 or any(abs(math.prod(term)) > 10**30 for term in terms):
        return
    shown = reckon(text)
    if (exact * 10**10).denominator == 1:
        assert Fraction(shown) == exact
    else:
        assert shown.startswith("≈ ") and Fraction(shown[2:]) == pytest.approx(exact, rel=1e-9)


@given(st.fractions(min_value=0, max_value=10**9, max_denominator=10**6))
def test_a_root_is_the_root(value: Fraction) -> None:
    shown = reckon(f"√({value.numerator}/{value.denominator})").removeprefix("≈ ")
    assert float(shown) == pytest.approx(math.sqrt(value), rel=1e-9)


@given(st.text(max_size=130) | st.text("0123456789+-*/()., √%eπx", max_size=130))
def test_nothing_that_is_typed_breaks_it(text: str) -> None:
    try:
        assert len(reckon(text)) < 80
    except Refusal as refused:
        assert refused.what
