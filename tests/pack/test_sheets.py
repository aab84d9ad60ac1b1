"""A sheet's values are read as typed and judged by its limits."""

from fractions import Fraction

import pytest

from quizkit.formula import Row
from quizkit.pack.model import Judge, Measure, Sheet
from quizkit.pack.sheets import judge_sheet

FIVE = Fraction(1, 20)
SHEET = Sheet(
    "Balancing",
    (),
    ("Keel adhesive",),
    (),
    (Measure("a", "g", ()), Measure("b", "g", ()), Measure("step", "g", ())),
    (
        Judge("ratio", "off_ratio(a, b, material.weight_ratio)", "%", -FIVE, FIVE, ("Stop, level again.",)),
        Judge("scale", "step / b", "%", None, Fraction(1, 100), ("Too small for this scale.",)),
    ),
)
KEEL = Row("Keel adhesive", (("weight_ratio", Fraction(22, 1) / Fraction(19, 2)),))


def test_two_shots_in_the_band_satisfy() -> None:
    # 2:1 by volume, 1.10 and 0.95 g/mL: 2.3158:1 by weight (computed); 24.5 against 10.5 g is 0.76 % off
    told = judge_sheet(SHEET, {"a": "24.5", "b": "10.5 g", "step": "0.1"}, KEEL)
    assert told.satisfied
    assert told.judges[0].shown == "0.76 %"


@pytest.mark.parametrize(
    ("a", "holds", "shown"),
    [("46.3", True, "0 %"), ("46.2842", True, "-0.03 %"), ("48.615", True, "5 %"), ("48.6151", False, "5.00022 %")],
)
def test_a_judged_value_shows_a_few_figures_and_never_stands_across_its_limit(a: str, holds: bool, shown: str) -> None:
    """At 2.315:1 by weight 20 g of B ask for 46.3 g of A; 5 % over is 48.615 g (computed)."""
    told = judge_sheet(SHEET, {"a": a, "b": "20", "step": "0.1"}, Row("Oak", (("weight_ratio", Fraction(2315, 1000)),)))
    assert (told.judges[0].satisfied, told.judges[0].shown) == (holds, shown)


def test_a_judged_value_has_no_more_figures_than_its_limits_are_worth() -> None:
    """Used against planned, 65 of 62 mL is 104.84 % (computed); a thermometer against a limit of nothing."""
    judges = (
        Judge("used", "used / planned", "%", Fraction(85, 100), Fraction(115, 100), ()),
        Judge("frost", "store", "°C", Fraction("273.15"), None, ()),
    )
    sheet = Sheet(
        "", (), (), (), (Measure("used", "mL", ()), Measure("planned", "mL", ()), Measure("store", "°C", ())), judges
    )
    told = judge_sheet(sheet, {"used": "65", "planned": "62", "store": "4.256"}, None)
    assert [one.shown for one in told.judges] == ["104.8 %", "4.26 °C"]


def test_a_shot_out_of_the_band_says_what_to_do() -> None:
    told = judge_sheet(SHEET, {"a": "30", "b": "10.5", "step": "1"}, KEEL)
    assert [judge.satisfied for judge in told.judges] == [False, False]
    assert told.judges[0].words == "Stop, level again."
    assert told.judges[0].limits == "between -5 % and 5 %"


def test_nothing_is_judged_before_it_is_measured_or_the_material_picked() -> None:
    assert [judge.satisfied for judge in judge_sheet(SHEET, {"a": "24.5"}, KEEL).judges] == [None, None]
    assert judge_sheet(SHEET, {"a": "24.5", "b": "10.5"}, None).judges[0].satisfied is None


def test_a_value_that_cannot_be_read_is_asked_again_and_satisfies_nothing() -> None:
    told = judge_sheet(SHEET, {"a": "24.5 mL", "b": "10 oz", "step": "0.1"}, KEEL)
    assert [bool(one.unread) for one in told.measured] == [True, True, False]
    assert not told.satisfied


def test_a_shot_of_nothing_is_told_and_not_divided_by() -> None:
    told = judge_sheet(SHEET, {"a": "24.5", "b": "0", "step": "0.1"}, KEEL)
    assert told.judges[0].satisfied is False and not told.satisfied
