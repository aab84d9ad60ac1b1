"""What values are whole multiples of: every exact value is, and floats that lie too near each other are equal."""

import math
from fractions import Fraction as F
from typing import Any

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from quizkit.arith import ArithError
from quizkit.formula import Computed, Even, Listed, Ratios, RatioValue, Row, Rows, number, parse
from quizkit.formula.grain import UPWARD, Grain, grain_of, in_grain, of_computed, of_draw, of_numbers
from quizkit.formula.grid import rounded
from quizkit.formula.many import Arrays
from quizkit.formula.tree import Name
from quizkit.units import unit

A = Even(F(-3, 10), F(1, 10), 9)
B = Listed((F(7, 4), F(1, 2), F(3), F(45, 7)))
RATIO = Ratios(((F(4), F(1)), (F(5, 2), F(1))), "volume")
GRAINS = {"a": of_draw(A, ""), "b": of_draw(B, ""), "ratio": of_draw(RATIO, "")}
POINTS: list[dict[str, Any]] = [
    {"a": A.value(i), "b": B.value(j), "ratio": RATIO.value(k)} for i in range(9) for j in range(4) for k in range(2)
]


def step(grain: Any) -> F:
    return F(grain.over, grain.under)


def of_name(node: Name) -> Any:
    grain = GRAINS[node.path[0]]
    return getattr(grain, node.path[1]) if len(node.path) > 1 else grain


def over(parts: st.SearchStrategy[str]) -> st.SearchStrategy[str]:
    two = st.tuples(parts, parts)
    return st.one_of(
        st.tuples(parts, st.sampled_from("+-*/"), parts).map(lambda three: f"({' '.join(three)})"),
        st.tuples(st.sampled_from(["ceil", "floor", "abs", "-"]), parts).map(lambda one: f"{one[0]}({one[1]})"),
        st.tuples(st.sampled_from(["min", "max", "at_least"]), two).map(lambda one: f"{one[0]}({', '.join(one[1])})"),
        parts.map(lambda part: f"nearest({part}, 0.1)"),
        parts.map(lambda part: f"next_up({part}, 1, 2.5, 10)"),
        two.map(lambda pair: f"unbilled({', '.join(pair)})"),
        two.map(lambda pair: f"least({', '.join(pair)})"),
        parts.map(lambda part: f"hardener_for({part}, ratio)"),
    )


FORMULAS = st.recursive(
    st.sampled_from(["a", "b", "(1 / (a + 1))", "(1 / b)", "ratio.a", "2", "0.7", "0"]), over, max_leaves=5
)


def values(text: str) -> list[F]:
    found = []
    for point in POINTS:
        try:
            found.append(number(parse(text), point))
        except ArithError:
            continue
    return found


@settings(max_examples=200, deadline=None)
@given(FORMULAS, FORMULAS)
def test_every_value_is_a_whole_multiple_and_two_are_equal_or_apart(one: str, other: str) -> None:
    grains = [grain_of(parse(text).tree, of_name) for text in (one, other)]
    assume(None not in grains)
    left, right = grains
    assert left is not None and right is not None
    ours, theirs = values(one), values(other)
    for value in ours:
        assert abs(value) <= left.most * UPWARD
        assert value == 0 or abs(value) * F(UPWARD) >= left.least > 0
        assert value == 0 or (value / step(left)).denominator <= left.parts
    least = left.apart(right)
    assert all(a == b or abs(a - b) * F(UPWARD) >= least for a in ours[::5] for b in theirs)


@pytest.mark.parametrize(
    ("text", "size", "parts"),
    [
        ("a", F(1, 10), 1),
        ("a * b", F(1, 280), 1),
        ("a / b", F(14, 5), 180),
        ("a - b", F(1, 140), 1),
        ("ceil(a / b)", F(1), 1),
        ("b / (0 * ceil(a) + 2)", F(1, 56), 1),
        ("hardener_for(b, ratio)", F(1, 14), 8),
        ("least(1 / (a + 1), 1 / b)", F(2), 180),
        ("1 / (a + 1) + 1 / b", F(2), 2700),
        ("min(1 / (a + 1), 1 / b)", F(2), 180),
    ],
)
def test_how_a_value_is_made_tells_its_grain(text: str, size: F, parts: int) -> None:
    grain = grain_of(parse(text).tree, of_name)
    assert grain is not None
    assert (step(grain), grain.parts) == (size, parts)


@pytest.mark.parametrize("text", ["pi * a", "sqrt(a)", "a ** 2", "a / 0", "nearest(a, b)", "round_area(a)"])
def test_where_nothing_is_known_nothing_is_told(text: str) -> None:
    assert grain_of(parse(text).tree, of_name) is None


@pytest.mark.parametrize("by", ["* 1e-30", "* 1e30", "/ 1e30"])
def test_what_is_beyond_all_measure_is_no_fault_and_tells_nothing(by: str) -> None:
    far = f"(b {' '.join([by] * 11)})"
    for text in (f"a / {far}", f"a / (a / {far})", f"{far} / {far}", f"ceil(a) / {far}"):
        assert grain_of(parse(text).tree, of_name) is None, text
    grain = grain_of(parse(far).tree, of_name)
    assert grain is not None
    assert (grain.least, grain.most, grain.apart(grain)) == (0, math.inf, 0)


def test_fields_of_rows_have_grains_and_texts_have_none() -> None:
    def row(price: F, ratio: RatioValue) -> Row:
        return Row("one", (("price", price), ("family", "filler"), ("ratio", ratio)))

    rows = Rows((row(F(3, 2), RatioValue(F(2), F(1), "volume")), row(F(9, 4), RatioValue(F(10), F(1), "volume"))))
    assert of_draw(rows, "price") == Grain(3, 4, 1, 2.25)
    assert of_draw(rows, "family") is None
    assert of_draw(rows, "ratio") == RatioValue(of_numbers(F(2), F(10)), of_numbers(F(1), F(1)), "volume")


def test_a_computed_given_is_a_multiple_of_its_step_from_the_zero_of_its_unit() -> None:
    celsius, formula = unit("°C"), parse("a + b")
    draw = Computed(formula, celsius, F(1, 2))
    grain = of_computed(draw, grain_of(formula.tree, of_name))
    assert grain is not None
    for point in POINTS:
        value = rounded(number(formula, point) + celsius.offset, F(1, 2), celsius)
        assert (value / step(grain)).denominator == 1 == grain.parts
    assert of_computed(Computed(formula), grain) is grain
    unknown = of_computed(draw, None)
    assert unknown is not None
    assert (step(unknown), unknown.parts) == (step(grain), 1)


def test_plain_numbers_in_a_unit_start_from_its_zero() -> None:
    for symbol, size in (("°C", F(1, 20)), ("°F", F(1, 100)), ("mL", F(5 * 10**6))):
        grain = in_grain(of_numbers(F(5)), unit(symbol))
        assert all((unit(symbol).from_base(F(5 * k)) / step(grain)).denominator == 1 for k in range(20))
        assert step(grain) == size


def worked(text: str, **draws: Even) -> Any:
    columns = {name: np.asarray([float(draw.value(at)) for at in range(draw.count)]) for name, draw in draws.items()}
    where = any(sign in text for sign in "<>=")
    return Arrays(columns, {name: of_draw(draw, "") for name, draw in draws.items()}.get).of(
        parse(text, where=where), zero=not where
    )


def test_what_is_equal_in_truth_is_equal_without_a_fraction_worked() -> None:
    tenths, sevenths = Even(F(1, 10), F(1, 10), 40), Even(F(1, 7), F(1, 7), 40)
    for text in ("x * 0.1 / 0.1 == x", "x - 0.3 > 0", "3 * x / y >= 3 * x / y", "1 < x + 0.7 <= 2"):
        many = worked(text, x=tenths, y=sevenths)
        exact = [bool(number_holds(text, F(k + 1, 10), F(k + 1, 7))) for k in range(40)]
        assert (many.near, many.value.tolist()) == (False, exact), text
    steps = ("at_least(x, nearest(x, 0.1))", "at_least(3 * x / y, 3 * x / y)", "next_up(x * 0.1 / 0.1, x, 9)")
    for text in ("ceil(x / 0.1)", "floor(3 * x / 0.3)", "ceil(2 * x / y)", *steps):
        many = worked(text, x=tenths, y=sevenths)
        exact = [float(number(parse(text), {"x": F(k + 1, 10), "y": F(k + 1, 7)})) for k in range(40)]
        assert many.near is False, text
        assert many.value.tolist() == pytest.approx(exact, rel=1e-15), text
    many = worked("x * 3 - 0.9", x=tenths)
    assert many.near is False and many.value[2] == 0 and np.count_nonzero(many.value) == 39


def number_holds(text: str, x: F, y: F) -> bool:
    from quizkit.formula import holds

    return holds(parse(text, where=True), {"x": x, "y": y})


def test_values_too_large_for_their_grain_are_left_to_fractions() -> None:
    large = Even(F(10**12), F(1, 1000), 3)
    assert np.any(worked("x > 1000000000000", x=large).near)
