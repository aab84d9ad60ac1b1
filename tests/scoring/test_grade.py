"""Parts together: what is carried, by whom, and from where."""

from fractions import Fraction as F

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quizkit.arith import ArithError
from quizkit.formula import RatioValue, parse
from quizkit.scoring.grade import ChoicePart, NumericPart, Part, Rights, Slip, aims, grade
from quizkit.scoring.reading import DAY_COUNT, Style
from quizkit.scoring.tolerance import EXACTLY, to_step, within_share
from quizkit.scoring.verdict import Target, Verdict
from quizkit.units import PLAIN, unit

ML = unit("mL")
CLOSE = within_share(F(2, 100))
VALUES = {"filler": ML.to_base(F(200)), "ratio": RatioValue(F(4), F(1), "volume")}


def numeric(
    name: str, formula: str, *slips: str, critical: bool = False, plausible: tuple[int, int] | None = None
) -> NumericPart:
    bounds = (ML.to_base(F(plausible[0])), ML.to_base(F(plausible[1]))) if plausible else None
    return NumericPart(
        name, parse(formula), ML, CLOSE, tuple(Slip(parse(slip, slip=True)) for slip in slips), bounds, critical
    )


HARDENER = numeric("hardener", "hardener_for(filler, ratio)", "filler * ratio.a")
TOTAL = numeric("total", "filler + hardener", "filler - hardener")
BOTH = (HARDENER, TOTAL)


def graded(parts: tuple[Part, ...], **typed: str) -> dict[str, Verdict]:
    return grade(parts, aims(parts, VALUES), VALUES, typed)  # type: ignore[arg-type]


def test_the_aims_are_in_the_asked_unit_and_see_true_earlier_parts() -> None:
    assert aims(BOTH, VALUES) == (Target(F(50), (F(800),)), Target(F(250), (F(150),)))  # type: ignore[arg-type]


def test_right_parts_are_right() -> None:
    assert graded(BOTH, hardener="50", total="250 mL") == {"hardener": Verdict("right"), "total": Verdict("right")}


def test_one_mistake_costs_one_mark() -> None:
    verdicts = graded(BOTH, hardener="60", total="260")
    assert verdicts["hardener"].outcome == "wrong"
    assert verdicts["total"] == Verdict("right", "carried")


def test_the_true_value_stays_right_after_a_wrong_one() -> None:
    assert graded(BOTH, hardener="60", total="250")["total"] == Verdict("right")


def test_an_honest_rounding_is_carried_and_costs_nothing() -> None:
    parts = (numeric("third", "filler / 3"), numeric("thousand", "(third - filler / 3.05) * 100"))
    verdicts = graded(parts, third="66.7", thousand="112.6")
    assert verdicts["third"] == Verdict("right")
    assert verdicts["thousand"] == Verdict("right", "carried")


def test_a_slip_on_carried_values_is_named() -> None:
    assert graded(BOTH, hardener="60", total="140")["total"] == Verdict("slip", "carried", (0,))


def test_a_slip_is_carried_on() -> None:
    verdicts = graded(BOTH, hardener="800", total="1000")
    assert verdicts["hardener"] == Verdict("slip", slips=(0,))
    assert verdicts["total"] == Verdict("right", "carried")


@pytest.mark.parametrize(
    ("typed", "total", "outcome"),
    [
        ("-50", "150", "slip"),
        ("5001", "5201", "wrong"),
        ("0.49", "200.49", "wrong"),
        ("5000", "5200", "right"),
        ("0", "200", "wrong"),
    ],
)
def test_without_bounds_a_wrong_value_is_carried_within_a_factor_of_100_and_the_right_sign(
    typed: str, total: str, outcome: str
) -> None:
    assert graded(BOTH, hardener=typed, total=total)["total"].outcome == outcome


def test_plausible_bounds_what_is_carried() -> None:
    parts = (numeric("hardener", "hardener_for(filler, ratio)", plausible=(10, 100)), TOTAL)
    assert graded(parts, hardener="100", total="300")["total"] == Verdict("right", "carried")
    assert graded(parts, hardener="101", total="301")["total"].outcome == "wrong"


def test_a_critical_part_carries_right_values_only() -> None:
    parts = (HARDENER, numeric("total", "filler + hardener", critical=True))
    assert graded(parts, hardener="60", total="260")["total"].outcome == "wrong"
    rounded = (numeric("third", "filler / 3"), numeric("thousand", "(third - filler / 3.05) * 100", critical=True))
    assert graded(rounded, third="66.7", thousand="112.6")["thousand"] == Verdict("right", "carried")


def test_a_critical_part_does_not_carry_what_was_right_only_by_carrying() -> None:
    parts = (*BOTH, numeric("twice", "total * 2", critical=True))
    verdicts = graded(parts, hardener="60", total="260", twice="520")
    assert [verdict.outcome for verdict in verdicts.values()] == ["wrong", "right", "wrong"]


def test_an_unread_part_hands_on_the_true_value() -> None:
    verdicts = graded(BOTH, hardener="60 oz", total="250")
    assert verdicts["hardener"].outcome == "unread"
    assert verdicts["total"] == Verdict("right")
    assert graded(BOTH, total="250")["total"] == Verdict("right")


def test_a_chain_of_carried_values_goes_on() -> None:
    parts = (*BOTH, numeric("twice", "total * 2"))
    verdicts = graded(parts, hardener="60", total="260", twice="520")
    assert [verdict.mark for verdict in verdicts.values()] == [0, 1, 1]


def test_a_decision_follows_the_number_that_was_typed() -> None:
    parts = (
        HARDENER,
        ChoicePart("choice", (parse("hardener > filler / 3", where=True), parse("hardener <= filler / 3", where=True))),
    )
    assert aims(parts, VALUES)[1] == Rights(frozenset({2}))  # type: ignore[arg-type]
    assert graded(parts, hardener="50", choice="2")["choice"] == Verdict("right")
    assert graded(parts, hardener="80", choice="1")["choice"] == Verdict("right", "carried")
    assert graded(parts, hardener="50", choice="1")["choice"] == Verdict("wrong")
    assert graded(parts, hardener="50", choice="7")["choice"].outcome == "unread"


def test_a_slip_without_a_value_is_none_and_a_right_answer_without_one_an_error() -> None:
    (target,) = aims((numeric("x", "filler", "filler / (ratio.a - 4)"),), VALUES)  # type: ignore[arg-type]
    assert target == Target(F(200), (None,))
    with pytest.raises(ArithError):
        aims((numeric("x", "filler / (ratio.a - 4)"),), VALUES)  # type: ignore[arg-type]


def test_a_carried_value_that_leads_nowhere_carries_nothing() -> None:
    parts = (HARDENER, numeric("rest", "filler * filler / (hardener - filler / 2)"))
    assert graded(parts, hardener="100", rest="5")["rest"].outcome == "wrong"


def test_a_plain_slip_is_taken_in_the_asked_unit() -> None:
    formula = parse("filler.in3 * 2", slip=True)
    part = NumericPart("x", parse("filler"), ML, CLOSE, (Slip(formula, plain=True),))
    (target,) = aims((part,), {"filler": unit("in3").to_base(F(7))})
    assert isinstance(target, Target)
    assert target.slips == (F(14),)


def test_dates_are_handed_on_as_dates() -> None:
    import datetime

    parts = (
        NumericPart("until", parse("months_after(opened, 6)"), DAY_COUNT, EXACTLY),
        NumericPart("left", parse("days_between(today, until)"), PLAIN, EXACTLY),
    )
    values = {"opened": datetime.date(2025, 8, 31), "today": datetime.date(2026, 2, 1)}
    # trade.md, 'Dates', python-dateutil: 2025-08-31 + 6 months = 2026-02-28
    verdicts = grade(parts, aims(parts, values), values, {"until": "28 Feb 2026", "left": "27"})
    assert all(verdict == Verdict("right") for verdict in verdicts.values())
    verdicts = grade(parts, aims(parts, values), values, {"until": "2026-03-03", "left": "30"}, Style())
    assert verdicts["until"].outcome == "wrong"
    assert verdicts["left"] == Verdict("right", "carried")


def test_a_part_to_a_step_hands_on_what_was_typed() -> None:
    parts = (
        NumericPart("third", parse("filler / 3"), ML, to_step(F(5))),
        numeric("rest", "filler - third"),
    )
    verdicts = graded(parts, third="65", rest="135")
    assert verdicts["third"] == Verdict("right", "rounded as asked")
    assert verdicts["rest"].outcome == "right"


AMOUNTS = st.integers(1, 400)


@given(AMOUNTS, AMOUNTS, st.booleans())
@settings(max_examples=60)
def test_a_carried_mark_never_exceeds_that_of_a_fully_right_answer(first: int, second: int, critical: bool) -> None:
    parts = (HARDENER, numeric("total", "filler + hardener", critical=critical))
    best = sum(verdict.mark for verdict in graded(parts, hardener="50", total="250").values())
    mine = sum(verdict.mark for verdict in graded(parts, hardener=str(first), total=str(second)).values())
    assert mine <= best


@given(st.integers(1, 50), st.integers(1, 400))
@settings(max_examples=60)
def test_scaling_all_amounts_scales_the_answer_and_keeps_the_verdicts(scale: int, typed: int) -> None:
    scaled = {**VALUES, "filler": VALUES["filler"] * scale}
    first = grade(BOTH, aims(BOTH, VALUES), VALUES, {"hardener": str(typed), "total": "250"})  # type: ignore[arg-type]
    second = grade(BOTH, aims(BOTH, scaled), scaled, {"hardener": str(typed * scale), "total": str(250 * scale)})  # type: ignore[arg-type]
    assert [(one.outcome, one.power) for one in first.values()] == [(one.outcome, one.power) for one in second.values()]
