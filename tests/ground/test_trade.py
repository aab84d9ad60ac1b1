"""Every sum of the trade against something outside; arrays and fractions alike; kinds and refusals."""

import ast
import datetime
import inspect
from collections.abc import Iterator
from fractions import Fraction
from typing import Any

import numpy as np
import pytest
from dateutil.relativedelta import relativedelta
from hypothesis import given
from hypothesis import strategies as st

from quizkit.arith import ArithError, settle
from quizkit.trade import FILES, SUMS, Refused
from quizkit.trade.bench import read_all
from quizkit.trade.typed import Ratio
from quizkit.units import KindError, kind, quantity, unit
from tests.ground.published import CHECKS, MARKS, REFUSALS, Check

SIZES = st.fractions(Fraction(1, 100), 100, max_denominator=100)


def values(name: str, text: str) -> list[Any]:
    """The values of a sum, as typed with commas between."""
    return [value.value for value in read_all(SUMS[name], text.split(", "))]


def run(name: str, text: str) -> Any:
    return SUMS[name].function(*values(name, text))


@pytest.mark.parametrize("check", CHECKS, ids=str)
def test_a_sum_agrees_with_its_source(check: Check) -> None:
    got = run(check.sum, check.given)
    if isinstance(got, datetime.date):
        assert got.isoformat() == check.expected
        return
    wanted = quantity(check.expected).value
    off = abs(settle(got) - wanted)
    assert off <= Fraction(check.within) * abs(wanted), (
        f"{float(got)}, not {float(wanted)}; {check.source}, {check.mark}"
    )


def test_every_sum_has_a_check_with_its_source_and_mark() -> None:
    assert {check.sum for check in CHECKS} == set(SUMS)
    assert all(check.source and check.mark in MARKS for check in CHECKS)


def test_every_sum_says_what_it_is_and_where_it_comes_from() -> None:
    for one in SUMS.values():
        assert one.title and one.formula and one.source, one.name
        assert {name for name, _word in one.takes} <= set(one.formula.replace(".", " ").translate(SPLIT).split()), (
            one.name
        )


SPLIT = {ord(sign): " " for sign in "()×÷−+²⁴^,:Σ√"}


@pytest.mark.parametrize("check", [check for check in CHECKS if not SUMS[check.sum].dated], ids=str)
def test_arrays_give_what_fractions_give(check: Check) -> None:
    """But for values that stand on a step or a tie, which are worked again in fractions."""
    one, exact = SUMS[check.sum], values(check.sum, check.given)
    result = float(one.function(*exact))
    rows = [_row(value, 1.0) for value in exact]
    assert one.function(*rows).dtype == np.float64
    nudged = [float(one.function(*[_row(value, factor) for value in exact])[0]) for factor in (1 - 1e-9, 1.0, 1 + 1e-9)]
    alike = [number for number in nudged if number == pytest.approx(result, rel=1e-6, abs=1e-12)]
    assert alike if one.stepped else len(alike) == 3


def _row(value: Any, factor: float) -> Any:
    if isinstance(value, Ratio):
        return Ratio(np.array([float(value.a)]), np.array([float(value.b)]), value.basis)
    return np.array([float(value) * factor])


@given(st.dates(datetime.date(1990, 1, 1), datetime.date(2090, 1, 1)), st.integers(-600, 600))
def test_months_are_counted_as_dateutil_counts_them(date: datetime.date, months: int) -> None:
    assert SUMS["months_after"].function(date, Fraction(months)) == date + relativedelta(months=months)


def test_a_month_twice_is_not_two_months() -> None:
    """2025-01-31: 03-28 against 03-31 (python-dateutil)."""
    once = run("months_after", "2025-01-31, 1")
    assert SUMS["months_after"].function(once, 1).isoformat() == "2025-03-28"
    assert run("months_after", "2025-01-31, 2").isoformat() == "2025-03-31"


@pytest.mark.parametrize("months", ["1/2", "200000"])
def test_months_that_no_calendar_has_are_refused(months: str) -> None:
    with pytest.raises(ArithError):
        run("months_after", f"2025-01-31, {months}")


@given(st.dates(), st.dates())
def test_month_ends_and_days_agree_with_dateutil(one: datetime.date, other: datetime.date) -> None:
    assert SUMS["month_end"].function(one) == one + relativedelta(day=31)
    assert SUMS["days_between"].function(one, other) == (other - one).days


@given(SIZES)
def test_a_fillet_goes_twice_as_far_as_a_square_and_a_round_bead_4_over_pi(size: Fraction) -> None:
    """trade.md, bead yield: held for all sizes (computed)."""
    square, fillet = SUMS["rect_area"].function(size, size), SUMS["fillet_area"].function(size)
    assert SUMS["bead_length"].function(1, fillet) == 2 * SUMS["bead_length"].function(1, square)
    assert SUMS["round_area"].function(size) / square == pytest.approx(np.pi / 4)
    assert SUMS["half_round_area"].function(size) * 2 == pytest.approx(SUMS["round_area"].function(size))
    assert SUMS["rect_area"].function(2 * size, 2 * size) == 4 * square


@given(SIZES, SIZES, SIZES)
def test_inches_and_millimetres_agree(width: Fraction, depth: Fraction, volume: Fraction) -> None:
    inches = SUMS["rect_area"].function(*(unit("in").to_base(side) for side in (width, depth)))
    metric = SUMS["rect_area"].function(*(unit("mm").to_base(side * Fraction("25.4")) for side in (width, depth)))
    assert inches == metric


@given(SIZES, st.sampled_from([(50, 1), (10, 1), (4, 1), (2, 1), (1, 1)]))
def test_the_shares_of_a_total_make_the_total_and_keep_the_ratio(total: Fraction, sides: tuple[int, int]) -> None:
    ratio = Ratio(Fraction(sides[0]), Fraction(sides[1]), "volume")
    base, hardener = (SUMS[name].function(total, ratio) for name in ("share_a", "share_b"))
    assert base + hardener == total
    assert (SUMS["hardener_for"].function(base, ratio), SUMS["base_for"].function(hardener, ratio)) == (hardener, base)
    assert SUMS["mixable"].function(base, hardener, ratio) == total
    assert SUMS["share_of_base"].function(SUMS["share_of_mix"].function(hardener / base)) == hardener / base


@pytest.mark.parametrize(("parts", "off"), [("50", "1.96 %"), ("10", "9.1 %"), ("2", "33.3 %")])
def test_splitting_the_total_is_a_mistake_that_grows_as_the_ratio_falls(parts: str, off: str) -> None:
    """trade.md: 2 % at 50:1, 9 to 33 % at 10:1 to 2:1 (computed)."""
    right, wrong = (run(name, f"100 mL, {parts}:1 by volume") for name in ("hardener_for", "share_b"))
    assert float(1 - wrong / right) == pytest.approx(float(quantity(off).value), rel=5e-3)


def test_50_to_1_by_volume_is_far_less_by_weight() -> None:
    """1.278 % of the filler by weight at 1.80 and 1.15 g/mL (trade.md, computed)."""
    assert float(1 / run("weight_ratio", "50:1 by volume, 1.80 g/mL, 1.15 g/mL")) == pytest.approx(0.01278, rel=1e-3)


@pytest.mark.parametrize(("temperature", "minutes"), [("10 °C", 10), ("15 °C", 7.07), ("30 °C", 2.5)])
def test_open_time_follows_q10_as_arithmetic_but_is_never_lengthened(temperature: str, minutes: float) -> None:
    """5 min at 20 °C: 10 at 10, 7.07 at 15, 2.5 at 30 (trade.md, Q10 = 2, computed); only the last is ever told."""
    given_values = values("warm_time", f"5 min, {temperature}, 20 °C")
    assert float(SUMS["warm_time"].body(*given_values)) / 60 == pytest.approx(minutes, rel=1e-3)
    if minutes > 5:
        with pytest.raises(Refused):
            SUMS["warm_time"].function(*given_values)


def test_half_the_flow_at_one_pressure_takes_0_841_of_the_radius() -> None:
    """trade.md, flow, n = 1 (computed)."""
    full, half = (
        run("tube_drop", f"2 Pa·s, 0.5 m, {flow}, {bore}")
        for flow, bore in (("10 mL/min", "8 mm"), ("5 mL/min", "6.728 mm"))
    )
    assert half == pytest.approx(full, rel=1e-3)


@pytest.mark.parametrize(("name", "text", "says"), REFUSALS)
def test_a_sum_refuses_what_it_must_not_answer_also_in_arrays(name: str, text: str, says: str) -> None:
    with pytest.raises(Refused, match=says):
        run(name, text)
    assert np.isnan(SUMS[name].function(*(np.array([float(value)]) for value in values(name, text)))).all()


def test_every_refusal_is_tried() -> None:
    assert {name for name, _text, _says in REFUSALS} == {one.name for one in SUMS.values() if one.refusals}


def test_a_division_by_zero_is_told_and_no_traceback() -> None:
    with pytest.raises(ArithError, match="zero"):
        run("flow_rate", "45 mL, 0 s")


def test_a_mass_with_a_ratio_by_volume_is_told_with_the_way_out() -> None:
    with pytest.raises(KindError) as told:
        SUMS["hardener_for"].kind([kind("mass"), kind("ratio by volume")])
    assert (told.value.argument, "weight_ratio" in told.value.mend) == (0, True)


@pytest.mark.parametrize(
    ("name", "kinds", "gives"),
    [
        ("hardener_for", ["mass", "ratio by weight"], "mass"),
        ("hardener_for", ["volume", "ratio by volume"], "volume"),
        ("twa", ["ppm", "time", "ppm", "time"], "ppm"),
        ("twa", ["concentration", "time"], "concentration"),
        ("mixture", ["ppm", "ppm", "concentration", "concentration"], "number"),
        ("max_use", ["number", "concentration", "concentration"], "concentration"),
        ("unbilled", ["money", "money"], "money"),
        ("cost_per_length", ["money", "volume", "area"], "money per length"),
    ],
)
def test_a_result_has_the_kind_that_was_declared(name: str, kinds: list[str], gives: str) -> None:
    assert SUMS[name].kind([kind(word) for word in kinds]) == kind(gives)


@pytest.mark.parametrize(
    ("name", "kinds", "place"),
    [
        ("twa", ["ppm"], None),
        ("twa", ["ppm", "time", "ppm"], None),
        ("twa", ["ppm", "time", "concentration", "time"], 2),
        ("twa", ["length", "time"], 0),
        ("mixture", ["ppm", "ppm", "ppm", "concentration"], 3),
        ("hardener_for", ["volume", "number"], 1),
        ("weight_ratio", ["ratio by weight", "density", "density"], 0),
        ("off_ratio", ["mass", "volume", "number"], 1),
        ("used_cost", ["date", "volume", "volume", "money"], 0),
        ("unbilled", ["temperature", "temperature"], 0),
        ("round_area", ["area"], 0),
    ],
)
def test_a_wrong_kind_or_count_is_told_at_its_place(name: str, kinds: list[str], place: int | None) -> None:
    with pytest.raises(KindError) as told:
        SUMS[name].kind([kind(word) for word in kinds])
    assert (told.value.argument, bool(told.value.what)) == (place, True)


def _bodies() -> Iterator[tuple[str, list[ast.AST]]]:
    """Each sum by its name, with every node of its arithmetic that is no exponent."""
    for file in FILES:
        for made in ast.parse(inspect.getsource(file)).body:
            if isinstance(made, ast.FunctionDef) and made.name in SUMS:
                nodes = [node for line in made.body for node in ast.walk(line)]
                powers = [node for node in nodes if isinstance(node, ast.Call) and ast.unparse(node.func) == "power"]
                inside = {id(under) for power in powers for under in ast.walk(power)}
                yield made.name, [node for node in nodes if id(node) not in inside]


def test_a_sum_that_subtracts_says_so() -> None:
    found = {name for name, nodes in _bodies() if any(isinstance(node, ast.Sub) for node in nodes)}
    says = {name for name, one in SUMS.items() if one.subtracts or one.stepped or one.dated}
    assert found <= says
    assert {name for name, one in SUMS.items() if one.subtracts} <= found


STEPPED = [name for name, one in SUMS.items() if one.stepped]


@pytest.mark.parametrize("name", STEPPED)
@given(st.data())
def test_a_stepped_sum_gives_whole_multiples_of_its_step(name: str, data: st.DataObject) -> None:
    one = SUMS[name]
    count = len(one.takes) + one.repeats * data.draw(st.integers(0, 3))
    try:
        result = one.function(*data.draw(st.lists(SIZES, min_size=count, max_size=count)))
    except ArithError:
        return
    assert one.stepped is not None
    assert (result / one.stepped).denominator == 1
