"""Exact numbers, floats and arrays mean the same, and halves go away from zero."""

import datetime
import decimal
from collections.abc import Callable
from fractions import Fraction
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from quizkit import arith

FRACTIONS = st.fractions(-1000, 1000, max_denominator=64)


@pytest.mark.parametrize(
    ("value", "cents"),
    # trade.md, Money: half up at the third decimal (Streamlined Sales and Use Tax Agreement, sec. 324, read).
    [("2.675", "2.68"), ("0.125", "0.13"), ("1.005", "1.01"), ("12.345", "12.35"), ("-2.675", "-2.68")],
)
def test_money_rounds_half_away_from_zero(value: str, cents: str) -> None:
    assert arith.nearest(Fraction(value), Fraction("0.01")) == Fraction(cents)


@given(st.decimals(-10000, 10000, places=4))
def test_nearest_rounds_as_decimal_does(value: decimal.Decimal) -> None:
    expected = value.quantize(decimal.Decimal("0.01"), rounding=decimal.ROUND_HALF_UP)
    assert arith.nearest(Fraction(value), Fraction("0.01")) == Fraction(expected)


@given(FRACTIONS, FRACTIONS)
def test_arrays_agree_with_fractions(x: Fraction, y: Fraction) -> None:
    a, b = np.array([float(x)]), np.array([float(y)])
    for helper in (arith.floor, arith.ceil, arith.abs):
        assert helper(a)[0] == float(helper(x))
    for pair in (arith.min, arith.max, arith.at_least):
        assert pair(a, b)[0] == float(pair(x, y))
    assert arith.nearest(a, 0.5)[0] == float(arith.nearest(x, Fraction(1, 2)))


@pytest.mark.parametrize(("factor", "serves"), [("3.6", 10), ("10", 10), ("10.1", 25), ("999", 1000)])
def test_the_next_class_up_serves(factor: str, serves: int) -> None:
    assert arith.next_up(Fraction(factor), 10, 25, 50, 1000) == serves
    assert arith.next_up(np.array([float(factor)]), 10, 25, 50, 1000)[0] == serves


def test_where_no_class_is_high_enough_there_is_no_answer() -> None:
    with pytest.raises(arith.ArithError):
        arith.next_up(Fraction(1001), 10, 1000)
    assert np.isnan(arith.next_up(np.array([1001.0]), 10, 1000)[0])


def test_a_float_is_taken_at_twelve_digits() -> None:
    assert arith.settle(0.1 + 0.2) == Fraction(3, 10)
    assert arith.ceil(3.0000000000001) == 3
    with pytest.raises(arith.ArithError):
        arith.settle(float("nan"))


def test_the_earlier_of_two_dates_is_the_smaller() -> None:
    early, late = datetime.date(2026, 5, 31), datetime.date(2026, 7, 31)
    assert (arith.min(late, early), arith.max(late, early)) == (early, late)


@pytest.mark.parametrize(("base", "exponent"), [(9, 9**9), (-8, Fraction(1, 3)), (0, -1), (10.0, 999)])
def test_a_power_without_an_answer_is_refused(base: float, exponent: float) -> None:
    with pytest.raises(arith.ArithError):
        arith.power(base, exponent)


def test_whole_powers_stay_exact_and_broken_ones_are_floats() -> None:
    assert arith.power(Fraction(2), Fraction(3)) == 8
    assert arith.power(Fraction(2), Fraction(1, 2)) == pytest.approx(arith.sqrt(2))
    assert arith.power(np.array([4.0]), 0.5)[0] == 2
    with pytest.raises(arith.ArithError):
        arith.sqrt(Fraction(-1))
    assert arith.log10(100) == 2
    with pytest.raises(arith.ArithError):
        arith.log10(0)


@pytest.mark.parametrize("helper", [arith.min, arith.max, arith.at_least, arith.nearest, arith.next_up, arith.power])
def test_a_fraction_beside_an_array_stays_an_array_of_floats(helper: Callable[..., Any]) -> None:
    assert helper(np.array([0.2, 0.3]), Fraction(1, 2)).dtype == np.float64
