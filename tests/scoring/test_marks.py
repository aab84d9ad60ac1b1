"""Marks of choices, orders and pairs."""

from fractions import Fraction as F
from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quizkit.scoring.marks import (
    match_mark,
    order_mark,
    read_choices,
    read_match,
    read_order,
    show_mark,
    total,
)
from quizkit.scoring.reading import Unread


@pytest.mark.parametrize("text", ["1, 3", "3 1", "1,3", "1;3", " 1 and 3 ", "1, 3.", "1\u00a03", "1 , 3"])
def test_choices_are_read(text: str) -> None:
    assert read_choices(text, 4) == {1, 3}


@pytest.mark.parametrize("text", ["", " ", "5", "0", "a", "1-3", "1 1", "1, , 3", "-1", "1.5", "9" * 300, "½", "1e1"])
def test_choices_that_do_not_exist_are_unread(text: str) -> None:
    result = read_choices(text, 4)
    assert isinstance(result, Unread)
    assert result.why


def test_an_order_is_read() -> None:
    assert read_order("3 1 2 4", 4) == (3, 1, 2, 4)
    assert read_order("3, 1, 2, 4", 4) == (3, 1, 2, 4)
    for text in ("3 1 2", "3 1 2 2", "3 1 2 5", "3 1 2 4 5", "first"):
        assert isinstance(read_order(text, 4), Unread)


@pytest.mark.parametrize(
    ("placed", "mark"),
    [
        ((1, 2, 3, 4), F(1)),
        ((4, 3, 2, 1), F(0)),
        ((2, 1, 3, 4), F(5, 6)),
        ((4, 1, 2, 3), F(1, 2)),
        ((1, 3, 2, 4), F(5, 6)),
    ],
)
def test_an_order_earns_its_share_of_pairs(placed: tuple[int, ...], mark: F) -> None:
    assert order_mark((1, 2, 3, 4), placed) == mark


def test_the_share_of_pairs_is_kendalls_tau_moved_to_nought_and_one() -> None:
    from scipy.stats import kendalltau

    for placed in permutations((1, 2, 3, 4, 5)):
        tau = kendalltau((1, 2, 3, 4, 5), placed).statistic
        assert float(order_mark((1, 2, 3, 4, 5), placed)) == pytest.approx((tau + 1) / 2)


@pytest.mark.parametrize(
    "text", ["1b 2a 3c", "1b,2a,3c", "1-b 2-a 3-c", "1 b, 2 a, 3 c", "3C 1B 2A", "1b2a3c", "1=b; 2=a; 3=c"]
)
def test_pairs_are_read(text: str) -> None:
    assert read_match(text, 3) == {1: 2, 2: 1, 3: 3}


@pytest.mark.parametrize(
    "text", ["", "1b 2a", "1b 1a 3c", "1b 2a 4c", "1b 2a 3d", "b1 a2 c3", "1b 2a 3c 3a", "x" * 300]
)
def test_pairs_that_do_not_exist_are_unread(text: str) -> None:
    assert isinstance(read_match(text, 3), Unread)


def test_no_pair_at_all_is_told_as_nothing_chosen() -> None:
    found = read_match(" ", 3)
    assert isinstance(found, Unread) and found.why == "nothing was chosen"


@pytest.mark.parametrize(
    "text", ["5 m" * 60 + "L", "1 b " * 48 + "!", "1, " * 60 + "x", "1 and " * 30 + "x", "1" * 200]
)
def test_a_long_text_that_is_almost_an_answer_is_told_at_once(text: str) -> None:
    for reader in (read_choices, read_order, read_match):
        assert isinstance(reader(text, 9), Unread)  # type: ignore[operator]


def test_letters_may_outnumber_the_numbers() -> None:
    assert read_match("1d 2a 3c", 3, letters=4) == {1: 4, 2: 1, 3: 3}


def test_pairs_earn_their_share() -> None:
    right = {1: 2, 2: 1, 3: 3}
    assert match_mark(right, right) == 1
    assert match_mark(right, {1: 2, 2: 3, 3: 1}) == F(1, 3)


@pytest.mark.parametrize(
    ("mark", "shown"),
    [(F(3), "3"), (F(5, 2), "2.5"), (F(5, 6), "0.83"), (F(1, 8), "0.13"), (F(999, 1000), "1"), (F(0), "0")],
)
def test_a_total_shows_at_most_two_decimals(mark: F, shown: str) -> None:
    assert show_mark(mark) == shown


def test_a_total_is_exact_and_shown_with_the_mark_of_the_shop() -> None:
    assert total([F(1, 3)] * 3) == 1
    assert show_mark(F(5, 6), ",") == "0,83"
    assert show_mark(F(10)) == "10"


@given(st.text(max_size=220), st.integers(1, 26))
def test_whatever_is_typed_is_read_or_unread(text: str, count: int) -> None:
    for reader in (read_choices, read_order, read_match):
        assert reader(text, count) is not None  # type: ignore[operator]


@given(st.lists(st.sampled_from([*"0123456789,;abz -:.>", " and "]), max_size=200).map("".join))
def test_signs_of_an_answer_in_any_order_are_read_or_unread(text: str) -> None:
    for reader in (read_choices, read_order, read_match):
        assert reader(text, 9) is not None  # type: ignore[operator]
