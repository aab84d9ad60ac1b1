"""What counts as right: closed intervals, steps, ties, cents."""

from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quizkit.scoring.tolerance import EXACTLY, TO_THE_CENT, own_step, to_step, within, within_share

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


def test_the_own_step_is_the_largest_power_of_ten_that_serves_every_variant() -> None:
    rights = tuple(F(filler, 50) for filler in range(60, 241, 5))  # all end at one decimal
    assert own_step(within_share(F(2, 100)), rights) == F(1, 10)
    quarters = tuple(F(filler, 40) for filler in range(60, 241, 5))
    assert own_step(within_share(F(2, 100)), quarters) == F(1, 100)
    assert own_step(within(F(50)), (F(430), F(870))) == F(100)
    assert own_step(within(F(3)), (F("0.4"), F(2))) == F(1)
    assert own_step(to_step(F(5)), rights) == 5
    assert own_step(TO_THE_CENT, rights) == F(1, 100)
    assert own_step(EXACTLY, rights) is None


def test_the_rounded_split_of_the_total_at_50_to_1_would_be_marked_right() -> None:
    # notation.md: at 50:1, the total split, 1.96 % away, is right within 2 % in every variant, and within 0.5 % still
    # in 14 of 37 for whoever types one decimal
    pairs = [(F(filler, 50), F(filler, 51)) for filler in range(60, 241, 5)]
    two, half = within_share(F(2, 100)), within_share(F(5, 1000))
    assert all(two.accepts(true, slip, INFINITELY_FINE) for true, slip in pairs)
    assert not any(half.accepts(true, slip, INFINITELY_FINE) for true, slip in pairs)
    step = own_step(half, tuple(true for true, _slip in pairs))
    assert step == F(1, 10)
    assert sum(half.accepts(true, to_step(step).rounded(slip), step) for true, slip in pairs) == 14


@given(st.lists(st.fractions("0.001", 1000, max_denominator=1000), min_size=1, max_size=8), st.integers(1, 100))
def test_no_larger_power_of_ten_would_serve(rights: list[F], percent: int) -> None:
    tolerance = within_share(F(percent, 1000))
    step = own_step(tolerance, tuple(rights))
    assert step is not None

    def serves(size: F) -> bool:
        rounded = [(true, type(tolerance)(step=size).rounded(true)) for true in rights]
        return all(tolerance.accepts(true, number, size) for true, number in rounded)

    assert serves(step)
    larger = [step * 10**power for power in range(1, 8)]
    assert not any(serves(size) for size in larger if size <= 2 * max(rights))
