"""The order of verdicts, rule by rule."""

from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quizkit.scoring.reading import DAY_COUNT, Reading, read
from quizkit.scoring.tolerance import EXACTLY, TO_THE_CENT, Tolerance, to_step, within, within_share
from quizkit.scoring.verdict import VERDICTS, Target, Verdict, judge
from quizkit.units import PLAIN, UNITS, Unit, unit

ML = unit("mL")
TWO_PERCENT = within_share(F(2, 100))


def judged(
    typed: str,
    true: str,
    *,
    asked: Unit = ML,
    tolerance: Tolerance = TWO_PERCENT,
    slips: tuple[str, ...] = (),
    carried: Target | None = None,
) -> Verdict:
    target = Target(F(true), tuple(F(slip) for slip in slips))
    return judge(read(typed, asked), asked, tolerance, target, carried)


def test_the_order_is_the_one_of_the_rules() -> None:
    assert [name for name, _rule in VERDICTS] == [
        "right on the true values",
        "right on carried values",
        "slip on the true values",
        "slip on carried values",
        "off by a power of ten, or right in another unit",
        "wrong",
    ]


@pytest.mark.parametrize("typed", ["24", "24 mL", "24.48", "24 cc", "0.024 L", "0.81 fl oz"])
def test_right_in_any_unit(typed: str) -> None:
    assert judged(typed, "24") == Verdict("right")


def test_a_hair_beyond_the_edge_is_not_right() -> None:
    assert judged("24.48", "24").outcome == "right"
    assert judged("24.48000000000000001", "24").outcome == "wrong"
    assert judged("24.4799999999999999", "24").outcome == "right"


@pytest.mark.parametrize(
    ("typed", "note"),
    [("25", "rounded as asked"), ("23.4", ""), ("23", "rounded finer"), ("23.40", ""), ("25.0", "rounded as asked")],
)
def test_a_right_answer_tells_how_it_was_rounded(typed: str, note: str) -> None:
    assert judged(typed, "23.4", tolerance=to_step(F(5))) == Verdict("right", note)  # type: ignore[arg-type]


def test_the_rounded_cent_is_noted_as_asked() -> None:
    assert judged("$2.68", "2.675", asked=unit("$"), tolerance=TO_THE_CENT) == Verdict("right", "rounded as asked")


def test_a_slip_is_named_and_alike_ones_together() -> None:
    assert judged("240", "24", slips=("300", "240", "241")) == Verdict("slip", slips=(1, 2))


def test_a_slip_that_has_no_value_is_passed_over() -> None:
    verdict = judge(read("240", ML), ML, TWO_PERCENT, Target(F(24), (None, F(240))))
    assert verdict == Verdict("slip", slips=(1,))


def test_right_comes_before_everything() -> None:
    carried = Target(F(24), (F(24),))
    assert judged("24", "24", slips=("24",), carried=carried) == Verdict("right")


def test_carried_comes_before_slip() -> None:
    assert judged("30", "24", slips=("30",), carried=Target(F(30))) == Verdict("right", "carried")


def test_a_slip_on_true_values_comes_before_one_on_carried_values() -> None:
    carried = Target(F(50), (F(40), F(60)))
    assert judged("60", "24", slips=("60", "70"), carried=carried) == Verdict("slip", slips=(0,))
    assert judged("40", "24", slips=("60", "70"), carried=carried) == Verdict("slip", "carried", (0,))


def test_a_slip_comes_before_a_power_of_ten() -> None:
    assert judged("240", "24", slips=("240",)).outcome == "slip"


@pytest.mark.parametrize("power", [-6, -3, -1, 1, 2, 6])
def test_off_by_a_power_of_ten_is_wrong_and_said(power: int) -> None:
    verdict = judged(f"24.1e{power}", "24")
    assert (verdict.outcome, verdict.note, verdict.power) == ("wrong", "power of ten", power)


@pytest.mark.parametrize("typed", ["24e7", "24e-7", "-240", "0", "400"])
def test_no_other_number_is_a_power_of_ten(typed: str) -> None:
    assert judged(typed, "24").power == 0


def test_a_power_of_ten_of_nothing_is_not_asked_for() -> None:
    assert judged("10", "0", tolerance=within(F(1, 2))).power == 0


@pytest.mark.parametrize(
    ("typed", "asked", "true", "units"),
    [
        ("1", "mm", "25.4", ("in",)),
        ("90", "bar", "6.205", ("psi",)),
        ("6.2", "psi", "90", ("bar",)),
        ("68", "°C", "20", ("°F",)),
        ("0.25", "%", "25", ("",)),
        ("25", "", "0.25", ("%",)),
        ("16.7", "L/min", "1", ("mL/s",)),
        ("8.35", "g/mL", "1.0005", ("lb/US gal",)),
    ],
)
def test_right_if_read_in_another_unit_is_wrong_and_said(
    typed: str, asked: str, true: str, units: tuple[str, ...]
) -> None:
    verdict = judged(typed, true, asked=unit(asked))
    assert verdict.outcome == "wrong"
    assert verdict.note in ("other unit", "power of ten")
    assert set(units) <= set(verdict.units)


def test_a_power_of_ten_tells_the_unit_too() -> None:
    verdict = judged("2.4", "24", asked=unit("mm"))
    assert verdict == Verdict("wrong", "power of ten", power=-1, units=("cm",))


def test_rounded_too_far_equals_the_answer_at_its_own_figures() -> None:
    assert judged("2", "2.4") == Verdict("wrong", "rounded too far")
    assert judged("2.4", "2.44", tolerance=to_step(F(1, 100))) == Verdict("wrong", "rounded too far")
    assert judged("2.3", "2.4") == Verdict("wrong")


def test_unread_is_no_verdict_on_the_number() -> None:
    verdict = judged("2 oz", "24")
    assert verdict.outcome == "unread"
    assert "oz" in verdict.why
    assert verdict.mark == 0


def test_a_date_has_no_power_of_ten_and_no_other_unit() -> None:
    true = Target(F(739767))
    assert judge(read("2026-05-31", DAY_COUNT), DAY_COUNT, EXACTLY, true) == Verdict("right")
    assert judge(read("2026-05-30", DAY_COUNT), DAY_COUNT, EXACTLY, true) == Verdict("wrong")


def test_a_count_is_exact() -> None:
    assert judged("3.0", "3", asked=PLAIN, tolerance=EXACTLY) == Verdict("right")
    assert judged("3.1", "3", asked=PLAIN, tolerance=EXACTLY) == Verdict("wrong")


KINDS = [one for one in UNITS if one.symbol not in ("oz", "%", "¢", "$") and not one.offset and one.symbol != "K"]
TOLERANCES = st.sampled_from([TWO_PERCENT, within(F(1, 2)), EXACTLY])


@given(
    st.sampled_from(KINDS),
    st.fractions("0.02", 500, max_denominator=50),
    st.fractions("0.02", 500, max_denominator=50),
    TOLERANCES,
    st.data(),
)
def test_the_same_quantity_in_any_unit_gets_the_same_verdict(
    asked: Unit, true: F, number: F, tolerance: Tolerance, data: st.DataObject
) -> None:
    other = data.draw(st.sampled_from([one for one in KINDS if one.kind == asked.kind]))
    target = Target(true, (true * 2, true * 3))
    first = judge(Reading(number, asked, F(1, 100), ""), asked, tolerance, target)
    moved = Reading(number * asked.factor / other.factor, other, F(1, 100) * asked.factor / other.factor, "")
    second = judge(moved, asked, tolerance, target)
    assert (second.outcome, second.slips, second.power) == (first.outcome, first.slips, first.power)


@given(
    st.fractions("0.02", 500, max_denominator=50), st.integers(-7, 7), st.fractions("0.9", "1.1", max_denominator=50)
)
def test_the_power_of_ten_is_the_one_that_makes_it_right(true: F, power: int, blur: F) -> None:
    number = true * blur * F(10) ** power
    verdict = judge(Reading(number, ML, F(1, 10**9), ""), ML, TWO_PERCENT, Target(true))
    fits = [k for k in (*range(-6, 0), *range(1, 7)) if abs(number / F(10) ** k - true) <= true / 50]
    assert [verdict.power] == fits or (verdict.power == 0 and not fits)


@given(st.integers(0, 300), st.integers(-300, 300))
def test_numbers_beyond_a_float_are_judged(digits: int, power: int) -> None:
    number = F(10) ** digits * F(7) ** power
    assert judge(Reading(number, ML, F(1), ""), ML, TWO_PERCENT, Target(F(24), (F(25),))).outcome in (
        "right",
        "slip",
        "wrong",
    )
