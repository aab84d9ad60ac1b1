"""Arrays and fractions say the same about every variant, once near points are worked again in fractions."""

import datetime
from fractions import Fraction as F
from functools import reduce
from operator import or_

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from quizkit.arith import ArithError
from quizkit.formula import (
    Computed,
    Dates,
    Even,
    FormulaError,
    Given,
    Grid,
    Listed,
    NearStep,
    Ratios,
    RatioValue,
    Row,
    Rows,
    arrays,
    exact,
    holds,
    is_irrational,
    kind_of,
    number,
    parse,
)
from quizkit.formula.grid import Block
from quizkit.units import unit

ML, MM, MIN = unit("mL"), unit("mm"), unit("min")


def worked(text: str, **values: object) -> object:
    return exact(parse(text), values)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("ceil(7 / 2)", F(4)),
        ("floor(-7 / 2)", F(-4)),
        ("nearest(2.5, 1)", F(3)),
        ("nearest(-2.5, 1)", F(-3)),
        ("nearest(0.125, 0.01)", F(13, 100)),
        ("next_up(30, 10, 25, 50, 1000)", F(50)),
        ("next_up(25, 10, 25, 50, 1000)", F(25)),
        ("at_least(2, 2)", F(1)),
        ("at_least(1.9, 2)", F(0)),
        ("min(3, 1, 2) + max(3, 1, 2)", F(4)),
        ("abs(-3)", F(3)),
        ("2 ** -2", F(1, 4)),
        ("(1/3) * 3", F(1)),
        ("sqrt(4)", F(2)),
        ("pi", F("3.14159265359")),
        ("sqrt(2)", F("1.41421356237")),
        ("2 ** 0.5", F("1.41421356237")),
        ("ceil(pi)", F(4)),
        ("hardener_for(60, ratio)", F(6)),
    ],
)
def test_a_value_is_exact_or_twelve_digits(text: str, value: F) -> None:
    assert worked(text, ratio=RatioValue(F(10), F(1), "volume")) == value


@pytest.mark.parametrize(
    "text",
    [
        "1 / 0",
        "1 / (2 - 2)",
        "0 ** -1",
        "sqrt(-1)",
        "(-8) ** 0.5",
        "2 ** (x * 1000)",
        "next_up(2000, 10, 25)",
        "nearest(1, 0)",
        "nearest(1, -1)",
        "1e30 ** 12",
        "pi * 1e30 ** 11",
        "share_of_base(1.5)",
        "used_share(1, 2, 0)",
    ],
)
def test_what_has_no_value_is_an_arithmetic_error(text: str) -> None:
    with pytest.raises(ArithError):
        worked(text, x=F(1))


@pytest.mark.parametrize(
    "text",
    [
        "ceil(pi * 2 / pi)",
        "nearest(pi / pi / 2, 1)",
        "at_least(pi, pi)",
        "next_up(sqrt(2) ** 2, 2, 3)",
        "floor(sqrt(2) ** 2)",
    ],
)
def test_a_float_on_a_step_decides_nothing(text: str) -> None:
    with pytest.raises(NearStep):
        worked(text)


def test_a_float_on_a_step_inside_a_sum_decides_nothing() -> None:
    values = {"length": F(1), "cartridge": F(1, 2), "rest": F(0)}
    assert worked("cartridges_needed(length * pi / 3, cartridge, rest, rest)", **values) == 3
    with pytest.raises(NearStep):
        worked("cartridges_needed(length * pi / pi, cartridge, rest, rest)", **values)


def test_an_exact_step_is_decided() -> None:
    assert worked("ceil(x)", x=F(2)) == 2
    assert worked("nearest(x, 1)", x=F(5, 2)) == 3
    assert worked("at_least(x, x)", x=F(1, 3)) == 1


def test_dates_and_conditions() -> None:
    day = datetime.date(2025, 8, 31)
    assert worked("months_after(day, 6)", day=day) == datetime.date(2026, 2, 28)  # trade.md, python-dateutil
    assert number(parse("month_end(day)"), {"day": day}) == day.toordinal()
    assert holds(
        parse("day < until and family != 'filler'", where=True),
        {"day": day, "until": day.replace(month=9, day=1), "family": "seam"},
    )
    assert not holds(parse("1 < x < 2", where=True), {"x": F(2)})


def test_a_slip_takes_the_plain_number_in_a_unit() -> None:
    slip = parse("p.psi * 2 + t.F + d.F_apart", slip=True)
    values = {"p": unit("psi").to_base(F(90)), "t": unit("°C").to_base(F(20)), "d": F(10)}
    assert exact(slip, values) == 180 + 68 + 18  # type: ignore[arg-type]
    columns = {"p": np.array([float(values["p"])]), "t": np.array([293.15]), "d": np.array([10.0])}
    assert arrays(slip, columns).value.tolist() == pytest.approx([266.0])


@pytest.mark.parametrize(
    ("text", "irrational"),
    [
        ("x * 2 / 3", False),
        ("x ** 2", False),
        ("x ** -1", False),
        ("x ** 0.5", True),
        ("x ** x", True),
        ("sqrt(x)", True),
        ("pi * x", True),
        ("ceil(pi * x)", False),
        ("nearest(pi * x, 1)", False),
        ("nearest(x, pi)", True),
        ("at_least(pi, x)", False),
        ("next_up(pi * x, 10, 25)", False),
        ("max(pi, x)", True),
        ("noise_time(level)", True),
        ("hardener_for(x, ratio)", False),
        ("hardener_for(x * pi, ratio)", True),
        ("ceil(pi) + pi", True),
    ],
)
def test_what_falls_back_to_floats_is_known_beforehand(text: str, irrational: bool) -> None:
    assert is_irrational(parse(text).tree) is irrational


GRID = Grid(
    (
        Given("filler", ML, Even(ML.to_base(F(60)), ML.to_base(F(5)), 7)),
        Given("rest", ML, Listed((ML.to_base(F(15)), ML.to_base(F(60)), F(0)))),
        Given("bead", MM, Even(MM.to_base(F(3)), MM.to_base(F("0.5")), 4)),
        Given("count", None, Even(F(-2), F(1, 2), 6)),
        Given("ratio", None, Ratios(((F(10), F(1)), (F(4), F(1))), "volume")),
        Given(
            "m",
            None,
            Rows(
                (
                    Row("Abc", (("family", "filler"), ("full", ML.to_base(F(250))))),
                    Row("Def", (("family", "seam"), ("full", ML.to_base(F(60))))),
                )
            ),
        ),
        Given("half", ML, Computed(parse("filler / 2"), ML, ML.to_base(F(5)))),
    )
)
KINDS = GRID.kinds({"full": ML.kind})

VOLUMES = st.sampled_from(
    ["filler", "rest", "m.full", "half", "hardener_for(filler, ratio)", "bead ** 3", "round_area(bead) * bead"]
)


def _numbers(parts: st.SearchStrategy[str]) -> st.SearchStrategy[str]:
    two = st.tuples(parts, parts)
    return st.one_of(
        st.tuples(parts, st.sampled_from(["+", "-", "*", "/"]), parts).map(
            lambda three: f"({three[0]} {three[1]} {three[2]})"
        ),
        st.tuples(st.sampled_from(["ceil", "floor", "sqrt", "abs", "-"]), parts).map(
            lambda pair: f"{pair[0]}({pair[1]})"
        ),
        st.tuples(parts, st.sampled_from(["2", "-1", "0.5", "3"])).map(lambda pair: f"({pair[0]}) ** {pair[1]}"),
        two.map(lambda pair: f"nearest({pair[0]}, {pair[1]})"),
        two.map(lambda pair: f"at_least({pair[0]}, {pair[1]})"),
        two.map(lambda pair: f"min({pair[0]}, {pair[1]})"),
        two.map(lambda pair: f"max({pair[0]}, {pair[1]})"),
        parts.map(lambda part: f"next_up({part}, 1, 2.5, 100)"),
        st.tuples(VOLUMES, VOLUMES).map(lambda pair: f"cartridges_needed({pair[0]}, m.full, rest, {pair[1]} / 50)"),
    )


NUMBERS = st.recursive(
    st.one_of(
        st.tuples(VOLUMES, VOLUMES).map(lambda pair: f"{pair[0]} / {pair[1]}"),
        st.sampled_from(["count", "1", "0.5", "3", "ratio.a", "pi", "0"]),
    ),
    _numbers,
    max_leaves=4,
)


def _fits(text: str, where: bool = False) -> bool:
    try:
        kind_of(parse(text, where=where), KINDS)
    except FormulaError:
        return False
    return True


def _exact(text: str, values: dict[str, object], where: bool = False) -> object:
    try:
        return exact(parse(text, where=where), values)  # type: ignore[arg-type]
    except ArithError:
        return None


def _in_doubt(block: Block) -> object:
    return reduce(or_, block.near.values(), False)


@given(NUMBERS.filter(_fits))
@settings(deadline=None, max_examples=60, suppress_health_check=[HealthCheck.filter_too_much, HealthCheck.too_slow])
def test_arrays_and_fractions_agree_on_every_value_that_is_not_near(text: str) -> None:
    for block in GRID.blocks(500):
        many = arrays(parse(text), block.columns)
        value = np.broadcast_to(many.value, block.shape).ravel()
        near = np.broadcast_to(many.near | _in_doubt(block), block.shape).ravel()
        for place in range(0, block.count, 7):
            if near[place]:
                continue
            single = _exact(text, GRID.values(block.first + place))  # type: ignore[arg-type]
            if single is None:
                assert not np.isfinite(value[place]), (text, block.first + place)
            else:
                assert value[place] == pytest.approx(float(single), rel=1e-9, abs=1e-9), (text, block.first + place)  # type: ignore[arg-type]


CONDITIONS = st.tuples(NUMBERS, st.sampled_from(["<", "<=", ">", ">=", "==", "!="]), NUMBERS).map(" ".join)


@given(
    st.lists(st.one_of(CONDITIONS, st.sampled_from(["m.family == 'filler'", "filler > rest"])), min_size=1, max_size=2)
)
@settings(deadline=None, max_examples=60, suppress_health_check=[HealthCheck.filter_too_much, HealthCheck.too_slow])
def test_arrays_and_fractions_agree_on_every_condition_that_is_not_near(parts: list[str]) -> None:
    text = " and ".join(part for part in parts if _fits(part, True) or "family" in part) or "filler > rest"
    if len(text) > 200:
        return
    for block in GRID.blocks(500):
        many = arrays(parse(text, where=True), block.columns)
        value = np.broadcast_to(many.value, block.shape).ravel()
        near = np.broadcast_to(many.near | _in_doubt(block), block.shape).ravel()
        for place in range(0, block.count, 7):
            single = _exact(text, GRID.values(block.first + place), where=True)  # type: ignore[arg-type]
            if not near[place] and single is not None:
                assert bool(value[place]) is single, (text, block.first + place)


def test_points_on_a_step_an_edge_or_a_tie_are_marked() -> None:
    columns = {"x": np.array([2.0, 2.5, 2.0 + 1e-10, 2.1])}
    assert arrays(parse("ceil(x)"), columns).near.tolist() == [True, False, True, False]
    assert arrays(parse("nearest(x, 1)"), columns).near.tolist() == [False, True, False, False]
    assert arrays(parse("at_least(x, 2.5)"), columns).near.tolist() == [False, True, False, False]
    assert arrays(parse("next_up(x, 1, 2, 3)"), columns).near.tolist() == [True, False, True, False]
    assert arrays(parse("x > 2", where=True), columns).near.tolist() == [True, False, True, False]
    assert arrays(parse("cartridges_needed(x, x - x + 1, x - x, x - x)"), columns).near.tolist() == [
        True,
        False,
        True,
        False,
    ]
    assert arrays(parse("x * 2"), columns).near is False


def test_a_difference_that_cancels_is_marked_by_what_it_was_made_of() -> None:
    columns = {"x": np.array([0.1]), "y": np.array([0.2]), "z": np.array([0.3])}
    rest = "(x + y - z)"
    for text in (f"{rest} > 0", f"{rest} * x > 0", f"{rest} / x > 0", f"-{rest} < 0", f"max({rest}, 0) > 0"):
        assert arrays(parse(text, where=True), columns).near.tolist() == [True], text
    for text in (f"ceil({rest})", f"at_least(0, {rest})", f"next_up({rest}, 0, 1)", f"nearest({rest} + 0.05, 0.1)"):
        assert arrays(parse(text), columns).near.tolist() == [True], text
    assert arrays(parse(f"cartridges_needed({rest}, x, x - x, x - x)"), columns).near.tolist() == [True]


def test_what_was_infinite_does_not_come_back_as_a_number() -> None:
    columns = {"x": np.array([0.0, 2.0])}
    for text in (
        "1 / (1 / x)",
        "min(1 / x, 5)",
        "(1 / x) ** -1",
        "at_least(2, 1 / x)",
        "next_up(-1 / x, 1)",
        "used_share(x, 1, x) ** -1",
    ):
        value = arrays(parse(text), columns).value
        assert np.isnan(value).tolist() == [True, False], text


def test_a_division_by_zero_at_a_refused_point_leaves_the_others_decided() -> None:
    many = arrays(parse("share_of_base(x)"), {"x": np.array([1.0, 0.5])})
    assert many.value.tolist()[1] == 1.0
    assert many.near.tolist() == [True, False]


def test_a_division_by_zero_inside_a_sum_is_worked_again_in_fractions() -> None:
    columns = {
        "x": np.array([1.0, 1.0]),
        "ratio": RatioValue(np.array([0.0, 2.0]), np.array([1.0, 1.0]), "volume"),
    }
    many = arrays(parse("mixable(x, x, ratio)"), columns)
    assert bool(np.broadcast_to(many.near, (2,))[0])


def test_floats_are_settled_before_they_are_compared() -> None:
    assert holds(parse("2 * pi == x", where=True), {"x": F("6.28318530718")})


def test_a_refusal_is_no_number_and_its_edge_is_near() -> None:
    columns = {"x": np.array([0.5, 1.0, 1 - 1e-12, 1.5])}
    many = arrays(parse("share_of_base(x)"), columns)
    assert np.isnan(many.value).tolist() == [False, True, False, True]
    assert many.near.tolist() == [False, True, True, False]


def test_sums_on_dates_are_worked_for_all_variants() -> None:
    grid = Grid(
        (
            Given("opened", None, Dates(datetime.date(2025, 1, 1), 13, 40)),
            Given("months", None, Listed((F(1), F(6), F(18)))),
            Given("until", None, Computed(parse("months_after(opened, months)"))),
            Given("left", None, Computed(parse("days_between(opened, until)"))),
        )
    )
    for block in grid.blocks(50):
        left = np.broadcast_to(block.columns["left"], block.shape).ravel()
        assert left.tolist() == [grid.values(block.first + place)["left"] for place in range(block.count)]


def test_a_month_that_is_not_whole_has_no_date() -> None:
    columns = {"opened": np.array([739000.0, 739000.0]), "months": np.array([1.5, 1.0])}
    assert np.isnan(arrays(parse("months_after(opened, months)"), columns).value).tolist() == [True, False]


def test_numpy_is_not_imported_with_the_room() -> None:
    import subprocess
    import sys

    code = "import sys, quizkit.scoring.grade; sys.exit(any(name in sys.modules for name in ('numpy', 'pint')))"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0


def test_counts_that_are_equal_are_decided_by_floats_and_near_a_step_they_are_not() -> None:
    columns = {"need": np.array([90.0, 100.0, 110.0, np.nan]), "full": np.array([100.0])}
    equal = arrays(parse("ceil(need / full) == 1", where=True), columns)
    assert equal.value.tolist() == [True, True, False, False]
    assert np.broadcast_to(equal.near, 4).tolist() == [False, True, False, True]
    squared = parse("ceil(need) * ceil(need) == ceil(need) * ceil(need)", where=True)
    large = arrays(squared, {"need": np.array([1e8 + 0.5, 2.5])})
    assert large.near.tolist() == [True, False]
