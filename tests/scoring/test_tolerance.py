"""What counts as right: closed intervals, steps, ties, cents."""

from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quizkit.scoring.tolerance import EXACTLY, TO_THE_CENT, to_step, within, within_share

INFINITELY_FINE = F(0)


@pytest.mark.parametrize(
    ("number", "yes"), [("24.48", True), ("23.52", True), ("24.4801", False), ("23.5199", False), ("-24", False)]
)
def test_a_relative_tolerance_takes_both_ends_in(number: str, yes: bool) -> None:
    assert within_share(F(2, 100)).accepts(F(24), F(number), F(1, 100)) is yes
    assert within_share(F(2, 100)).accepts(F(-24), -F(number), F(1, 100)) is yes


@pytest.mark.parametrize(("number", "yes"), [("23.5", True), ("24.5", True), ("24.51", False)])
def test_an_absolute_tolerance_takes_both_ends_in(number: str, yes: bool) -> None:
    assert within(F(1, 2)).accepts(F(24), F(number), F(1, 100)) is yes


def test_points_of_a_percent_are_absolute() -> None:
    assert within(F(3)).accepts(F(60), F(63), F(1))
    assert not within(F(3)).accepts(F(60), F("63.1"), F(1, 10))


@pytest.mark.parametrize(
    ("true", "number", "typed", "yes"),
    [
        ("23", "25", "1", True),  # rounded as asked, to 5
        ("23", "20", "1", False),
        ("23", "23", "1", True),  # equals the answer at its own finer figures
        ("23.4", "23", "1", True),
        ("23.4", "23.4", "0.1", True),
        ("23.4", "24", "1", False),
        ("23.4", "23.5", "0.1", False),
        ("22.5", "20", "1", True),  # a tie: either neighbour
        ("22.5", "25", "1", True),
        ("22.5", "22", "1", True),
        ("22.5", "23", "1", True),
        ("-22.5", "-25", "1", True),
        ("-22.5", "-20", "1", True),
        ("23", "25.0", "0.1", True),
        ("23", "30", "10", False),  # coarser than asked
        ("23", "20", "10", False),
    ],
)
def test_to_a_step_alone(true: str, number: str, typed: str, yes: bool) -> None:
    assert to_step(F(5)).accepts(F(true), F(number), F(typed)) is yes


def test_half_a_turn_is_a_step() -> None:
    assert to_step(F(1, 2)).accepts(F("2.4"), F(5, 2), F(1, 2))
    assert not to_step(F(1, 2)).accepts(F("2.4"), F(2), F(1))


@pytest.mark.parametrize(
    ("true", "cents"),
    # trade.md, 'Money': half up; computed
    [("2.675", "2.68"), ("0.125", "0.13"), ("1.005", "1.01"), ("12.345", "12.35"), ("-2.675", "-2.68"), ("3", "3")],
)
def test_money_is_the_rounded_cent_and_nothing_else(true: str, cents: str) -> None:
    assert TO_THE_CENT.accepts(F(true), F(cents), F(1, 100))
    for other in (F(cents) + F(1, 100), F(cents) - F(1, 100)):
        assert not TO_THE_CENT.accepts(F(true), other, F(1, 100))
    if F(true) != F(cents):
        assert not TO_THE_CENT.accepts(F(true), F(true), F(1, 1000))


@given(st.integers(-(10**7), 10**7))
def test_cents_agree_with_decimal(thousandths: int) -> None:
    expected = Decimal(thousandths).scaleb(-3).quantize(Decimal("0.01"), ROUND_HALF_UP)
    assert TO_THE_CENT.rounded(F(thousandths, 1000)) == F(expected)


def test_exactly_means_exactly() -> None:
    assert EXACTLY.accepts(F(3), F("3.0"), F(1, 10))
    assert not EXACTLY.accepts(F(3), F("3.0001"), F(1, 10_000))


NUMBERS = st.fractions(-1000, 1000, max_denominator=1000)
SIZES = st.fractions(0, 10, max_denominator=100)


@given(NUMBERS, NUMBERS, SIZES, SIZES)
def test_a_wider_tolerance_never_loses_a_mark(true: F, number: F, size: F, more: F) -> None:
    for kind in (within, within_share):
        if kind(size).accepts(true, number, F(1, 100)):
            assert kind(size + more).accepts(true, number, F(1, 100))


@given(NUMBERS, st.integers(1, 50))
def test_the_rounded_answer_is_right_to_its_step(true: F, tenths: int) -> None:
    tolerance = to_step(F(tenths, 10))
    assert tolerance.accepts(true, tolerance.rounded(true), F(tenths, 10))
    assert tolerance.accepts(true, true, INFINITELY_FINE)
