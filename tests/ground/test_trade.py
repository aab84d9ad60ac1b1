"""Every sum of the trade against something outside, with the source and how it was obtained.

Marks: read = read in a copy of the source; copy = read on a secondary page; memory = recalled, not confirmed;
computed = worked out a second time with other tools; common practice = no source.
"""

import datetime
import math
from dataclasses import dataclass
from fractions import Fraction

import numpy as np
import pytest
from dateutil.relativedelta import relativedelta
from hypothesis import given
from hypothesis import strategies as st

from quizkit.arith import settle
from quizkit.trade import SUMS, Refused
from quizkit.units import KindError, kind, quantity, unit


@dataclass(frozen=True)
class Ratio:
    a: Fraction
    b: Fraction
    basis: str


# sum | values as typed | expected | relative tolerance (0 = exact) | source | mark
VOL, OSHA_AIR, RESP = "meaning of a:b by volume", "29 CFR 1910.1000(d)", "NIOSH Pocket Guide with 29 CFR 1910.134"
NOISE, Q10, SSUTA = "29 CFR 1910.95 App. A", "ASTM F1980, Q10 = 2", "Streamlined Sales and Use Tax Agreement sec. 324"
GEOMETRY, BENCH = "geometry and NIST SP 811 units", "worked case of the bench"
CHECKS: list[tuple[str, str, str, float, str, str]] = [
    ("hardener_for", "120 mL, 10:1 by volume", "12 mL", 0, VOL, "computed"),
    ("hardener_for", "250 g, 50:1 by weight", "5 g", 0, "50:1 on the base is 2.00 % of it", "computed"),
    ("base_for", "12 mL, 10:1 by volume", "120 mL", 0, VOL, "computed"),
    ("share_a", "180 mL, 2:1 by volume", "120 mL", 0, VOL, "computed"),
    ("share_b", "180 mL, 2:1 by volume", "60 mL", 0, VOL, "computed"),
    ("weight_ratio", "2:1 by volume, 1.10 g/mL, 0.95 g/mL", "2.3158", 5e-5, "W = V dA/dB", "computed"),
    ("weight_ratio", "1:1 by volume, 1.15 g/mL, 1.05 g/mL", "1.0952", 5e-5, "W = V dA/dB", "computed"),
    ("weight_ratio", "50:1 by volume, 1.80 g/mL, 1.15 g/mL", "78.26", 5e-5, "W = V dA/dB", "computed"),
    ("weight_ratio", "4:1 by volume, 1.40 g/mL, 1.10 g/mL", "5.09", 5e-4, "W = V dA/dB", "computed"),
    ("shot_ratio", "27.4 g, 2.9 g, 13.6 g, 3.1 g", "2.33", 2e-3, BENCH, "computed"),
    ("off_ratio", "46.0 g, 9.6 g, 5.09", "-5.9 %", 1e-2, BENCH, "computed"),
    ("mixable", "130 mL, 58 mL, 2:1 by volume", "174 mL", 0, BENCH, "computed"),
    ("bore_ratio", "38 mm, 12 mm", "10.0", 5e-3, BENCH, "computed"),
    ("share_of_mix", "2 %", "1.961 %", 3e-4, "50:1: 2.00 % of the filler is 1.961 % of the mix", "computed"),
    ("share_of_base", "1.961 %", "2.00 %", 3e-4, "50:1: 2.00 % of the filler is 1.961 % of the mix", "computed"),
    ("starved_ratio", "96 mL, 24 mL, 6 mL", "5.33", 1e-3, BENCH, "computed"),
    ("round_area", "6 mm", "28.27 mm2", 2e-4, GEOMETRY, "computed"),
    ("half_round_area", "6 mm", "14.137 mm2", 1e-4, GEOMETRY, "computed"),
    ("fillet_area", "1/2 in", "0.125 in2", 0, "welding handbooks: 1.5 in³ a foot", "copy"),
    ("rect_area", "1/4 in, 3/8 in", "0.09375 in2", 0, GEOMETRY, "computed"),
    ("vee_area", "8 mm, 12 mm", "48 mm2", 0, GEOMETRY, "computed"),
    ("bead_volume", "0.125 in2, 1 ft", "1.5 in3", 0, "welding handbooks: 1.5 in³ a foot", "copy"),
    ("bead_volume", "28.2743339 mm2, 1 m", "28.27 mL", 2e-4, GEOMETRY, "computed"),
    ("bead_length", "1 US gal, 0.0625 in2", "308 ft", 0, "feet a gallon; handbook 308 (memory)", "computed"),
    ("bead_length", "1 US gal, 0.09375 in2", "205.33 ft", 2e-5, "feet a gallon; handbook 205 (memory)", "computed"),
    ("bead_length", "1 US gal, 0.125 in2", "154 ft", 0, "feet a gallon; handbook 154 (memory)", "computed"),
    (
        "bead_length",
        "1 US gal, 0.140625 in2",
        "136.89 ft",
        3e-5,
        "feet a gallon; handbook 136 or 137 (memory)",
        "computed",
    ),
    ("bead_length", "1 US gal, 0.25 in2", "77 ft", 0, "feet a gallon; handbook 77 (memory)", "computed"),
    ("bead_length", "10.1 fl oz, 0.0625 in2", "24.30 ft", 2e-4, "feet a 10.1 fl oz cartridge", "computed"),
    ("bead_length", "10.1 fl oz, 0.09375 in2", "16.20 ft", 2e-4, "feet a 10.1 fl oz cartridge", "computed"),
    ("bead_length", "10.1 fl oz, 0.125 in2", "12.15 ft", 2e-4, "feet a 10.1 fl oz cartridge", "computed"),
    ("bead_length", "10.1 fl oz, 0.140625 in2", "10.80 ft", 2e-4, "feet a 10.1 fl oz cartridge", "computed"),
    ("bead_length", "10.1 fl oz, 0.25 in2", "6.08 ft", 1e-3, "feet a 10.1 fl oz cartridge", "computed"),
    ("bead_length", "1 US gal, 0.04908738521 in2", "392.2 ft", 2e-4, "round bead of 1/4 in", "computed"),
    ("bead_length", "1 US gal, 0.03125 in2", "616 ft", 0, "right fillet, 1/4 in legs", "computed"),
    ("coat_volume", "900 cm2, 2 mm, 40 %", "300 mL", 0, BENCH, "computed"),
    ("joint_bead", "25 mm, 0.5 mm, 15 %", "4.3 mm", 1e-2, BENCH, "computed"),
    ("squeeze_share", "40 mL, 34 mL", "15 %", 0, "what is not in the joint came out", "computed"),
    ("cartridges_needed", "375 mL, 200 mL, 5 mL, 11 mL", "3", 0, BENCH, "computed"),
    ("reach", "140 mL, 11 mL, 50.265482 mm2", "2.57 m", 2e-3, BENCH, "computed"),
    ("nozzle_volume", "10 mm, 200 mm, 70 %", "11.0 mL", 5e-3, BENCH, "computed"),
    ("plunger_volume", "38 mm, 4 mm", "4.5 mL", 1e-2, BENCH, "computed"),
    ("flow_rate", "45 mL, 18 s", "150 mL/min", 0, BENCH, "computed"),
    ("flow_by_weight", "52 g, 1.30 g/mL, 15 s", "160 mL/min", 0, BENCH, "computed"),
    ("bead_speed", "120 mL/min, 50.265482 mm2", "39.8 mm/s", 1e-3, BENCH, "computed"),
    ("bead_time", "1200 mm, 40 mm/s", "30 s", 0, "meaning of a speed", "computed"),
    ("time_to_spare", "5 min, 1200 mm, 40 mm/s, 3 min", "90 s", 0, "meaning of a speed", "computed"),
    ("turns_to_go", "2 1/2 turns, 1 1/2 turns", "1 turn", 0, "half a turn at a time", "common practice"),
    ("tip_gain", "6 mm, 9 mm", "2.25", 0, BENCH, "computed"),
    ("rod_push", "90 psi, 2 in", "283 lbf", 2e-3, BENCH, "computed"),
    ("thinned_flow", "100 mL/min, 40 psi, 80 psi, 1", "200 mL/min", 1e-12, "power law, n = 1", "computed"),
    ("thinned_flow", "100 mL/min, 40 psi, 80 psi, 0.5", "400 mL/min", 1e-12, "power law, n = 0.5", "computed"),
    ("nozzle_time_left", "4 min, 90 s", "150 s", 0, "own value of the sheet", "common practice"),
    ("twa", "150 ppm, 2 h, 75 ppm, 2 h, 50 ppm, 4 h", "81.25 ppm", 0, OSHA_AIR + "(1)(ii)", "read"),
    ("twa", "60 ppm, 2 h, 25 ppm, 3 h, 0 ppm, 3 h", "24.375 ppm", 0, OSHA_AIR + "(1)", "computed"),
    ("mixture", "500 ppm, 1000 ppm, 45 ppm, 200 ppm, 40 ppm, 200 ppm", "0.925", 0, OSHA_AIR + "(2)", "read"),
    ("ppm_to_mg", "1 ppm, 104.2 g/mol", "4.26 mg/m3", 2.5e-2, "NIOSH, styrene", "read"),
    ("ppm_to_mg", "1 ppm, 92.1 g/mol", "3.77 mg/m3", 2.5e-2, "NIOSH, toluene", "read"),
    ("ppm_to_mg", "100 ppm, 104.2 g/mol", "426.176 mg/m3", 1e-3, "CCOHS: molar mass / 24.45", "read"),
    ("mg_to_ppm", "426.176 mg/m3, 104.2 g/mol", "100 ppm", 1e-3, "CCOHS: molar mass / 24.45", "read"),
    ("max_use", "10, 50 ppm, 700 ppm", "500 ppm", 0, RESP + ", styrene", "read"),
    ("max_use", "25, 50 ppm, 700 ppm", "700 ppm", 0, RESP + ", styrene", "read"),
    ("max_use", "10, 100 ppm, 500 ppm", "500 ppm", 0, RESP + ", toluene", "read"),
    ("max_use", "10, 5 mg/m3, 1500 mg/m3", "50 mg/m3", 0, RESP + ", benzoyl peroxide (IDLH memory)", "read"),
    ("factor_needed", "180 ppm, 50 ppm", "10", 0, "29 CFR 1910.134 Table 1", "read"),
    ("factor_needed", "501 ppm, 50 ppm", "25", 0, "29 CFR 1910.134 Table 1", "read"),
    ("noise_time", "90 dBA", "8 h", 0, NOISE, "read"),
    ("noise_time", "95 dBA", "4 h", 0, NOISE, "read"),
    ("noise_time", "92 dBA", "6.063 h", 1e-4, NOISE + " by formula; Table G-16 rounds to 6", "read"),
    ("noise_dose", "90 dBA, 4 h, 95 dBA, 2 h, 100 dBA, 1 h", "150 %", 0, NOISE, "read"),
    ("noise_twa", "150 %", "92.92 dBA", 1e-4, NOISE, "read"),
    ("noise_twa", "50 %", "85.0 dBA", 1e-4, NOISE, "read"),
    ("noise_twa", "100 %", "90.0 dBA", 1e-12, NOISE, "read"),
    ("noise_twa", "200 %", "95.0 dBA", 1e-4, NOISE, "read"),
    ("noise_time_niosh", "88 dBA", "4 h", 0, "NIOSH 85 dBA, 3 dB", "read"),
    ("noise_time_niosh", "91 dBA", "2 h", 0, "NIOSH 85 dBA, 3 dB", "read"),
    ("noise_time_niosh", "100 dBA", "15 min", 0, "NIOSH 85 dBA, 3 dB", "read"),
    *[
        ("glove_class", f"{minutes} min", str(number), 0, "EN 374 permeation classes", "read")
        for minutes, number in (("10", 0), ("10.1", 1), ("30", 1), ("31", 2), ("480", 5), ("481", 6))
    ],
    ("glove_pairs", "45 min, 20 min", "5", 0, BENCH, "computed"),
    ("eyewash_time", "32 fl oz, 0.4 US gal/min", "37.5 s", 0, "ANSI Z358.1: 0.4 US gal/min", "memory"),
    ("warm_time", "5 min, 30 °C, 20 °C", "2.5 min", 0, Q10, "copy"),
    ("store_life", "730 day, 55 °C, 25 °C, 60 °C", "91.25 day", 0, Q10, "copy"),
    ("store_life", "12.996 day, 60 °C, 23 °C, 60 °C", "1 day", 1e-4, Q10, "copy"),
    ("store_life", "4 day, 40 °C, 20 °C, 60 °C", "1 day", 0, Q10, "copy"),
    ("warm_time", "6 min, 27 °C, 20 °C", "3.7 min", 5e-3, Q10, "computed"),
    ("surplus", "24, 5, 4", "4", 0, BENCH, "computed"),
    ("surplus", "10, 5, 4", "0", 0, BENCH, "computed"),
    ("reorder_at", "4, 7 day, 2", "6", 0, "what goes out in a week of delivery", "computed"),
    ("used_share", "40 mL, 125 mL, 200 mL", "42.5 %", 0, BENCH, "computed"),
    ("used_cost", "40 mL, 125 mL, 200 mL, $46.00", "$19.55", 0, BENCH, "computed"),
    ("with_markup", "$19.55, 40 %", "$27.37", 0, BENCH, "computed"),
    ("at_margin", "$19.55, 40 %", "$32.58", 1e-3, BENCH, "computed"),
    ("nozzle_cost", "3, $1.20", "$3.60", 0, "counted, each", "computed"),
    ("least", "$4.10, $5", "$5", 0, "the larger of the two", "computed"),
    ("tax", "$2.675, 100 %", "$2.68", 0, SSUTA, "read"),
    ("tax", "$0.125, 100 %", "$0.13", 0, SSUTA, "read"),
    ("tax", "$1.005, 100 %", "$1.01", 0, SSUTA, "read"),
    ("tax", "$12.345, 100 %", "$12.35", 0, SSUTA, "read"),
    ("tax", "-$2.675, 100 %", "-$2.68", 0, SSUTA, "read"),
    ("taxed_by_line", "7 %, $1.49, $1.49, $1.49", "$0.30", 0, SSUTA, "computed"),
    ("taxed_by_ticket", "7 %, $1.49, $1.49, $1.49", "$0.31", 0, SSUTA, "computed"),
    ("stock_used", "14, 24, 9, 0", "29", 0, BENCH, "computed"),
    ("unbilled", "29, 22.4", "6.6", 0, BENCH, "computed"),
    ("cost_per_length", "$46, 200 mL, 50.265482 mm2", "$11.56/m", 1e-3, BENCH, "computed"),
]

# Sums whose outside check is a test of its own below.
ELSEWHERE = {"months_after", "month_end", "days_between", "tube_drop"}


def typed(text: str) -> object:
    """One value as a trainer types it."""
    sides, _space, basis = text.partition(" by ")
    if not basis:
        return quantity(text).value
    a, b = sides.split(":")
    return Ratio(Fraction(a), Fraction(b), basis)


def values(text: str) -> list[object]:
    return [typed(one.strip()) for one in text.split(", ")]


@pytest.mark.parametrize(("name", "given", "expected", "tolerance", "source", "mark"), CHECKS)
def test_a_sum_agrees_with_its_source(
    name: str, given: str, expected: str, tolerance: float, source: str, mark: str
) -> None:
    got, wanted = settle(SUMS[name].function(*values(given))), quantity(expected).value
    assert got == wanted or abs(got - wanted) <= Fraction(tolerance) * abs(wanted), (
        float(got),
        float(wanted),
        source,
        mark,
    )


@pytest.mark.parametrize(("name", "given", "expected", "tolerance", "source", "mark"), CHECKS)
def test_arrays_give_what_fractions_give(
    name: str, given: str, expected: str, tolerance: float, source: str, mark: str
) -> None:
    exact = values(given)
    rows = [
        Ratio(np.array([float(v.a)]), np.array([float(v.b)]), v.basis) if isinstance(v, Ratio) else np.array([float(v)])  # type: ignore[arg-type]
        for v in exact
    ]
    if name in ("tax",) or name == "cartridges_needed":
        return  # ties in floats are done again in fractions
    got = SUMS[name].function(*rows)
    assert got.dtype == np.float64
    assert got[0] == pytest.approx(float(SUMS[name].function(*exact)), rel=1e-9, abs=1e-15)


def test_every_sum_has_an_outside_check() -> None:
    assert {check[0] for check in CHECKS} | ELSEWHERE == set(SUMS)


@given(st.dates(datetime.date(1990, 1, 1), datetime.date(2090, 1, 1)), st.integers(-600, 600))
def test_months_are_counted_as_dateutil_counts_them(date: datetime.date, months: int) -> None:
    assert SUMS["months_after"].function(date, Fraction(months)) == date + relativedelta(months=months)


@pytest.mark.parametrize(
    ("date", "months", "then"),
    [  # trade.md, Dates: python-dateutil
        ("2005-01-31", 1, "2005-02-28"),
        ("2004-01-31", 1, "2004-02-29"),
        ("2024-02-29", 12, "2025-02-28"),
        ("2025-08-31", 6, "2026-02-28"),
        ("2025-01-31", 2, "2025-03-31"),
    ],
)
def test_a_month_too_short_ends_on_its_last_day(date: str, months: int, then: str) -> None:
    assert SUMS["months_after"].function(datetime.date.fromisoformat(date), months).isoformat() == then


@given(st.dates(), st.dates())
def test_month_ends_and_days_agree_with_dateutil(one: datetime.date, other: datetime.date) -> None:
    assert SUMS["month_end"].function(one) == one + relativedelta(day=31)
    assert SUMS["days_between"].function(one, other) == (other - one).days


def test_the_drop_in_a_tube_follows_hagen_poiseuille() -> None:
    """Against 8 μ L Q / (π r⁴), the textbook's other form (computed)."""
    got = SUMS["tube_drop"].function(*values("2 Pa·s, 0.5 m, 10 mL/min, 8 mm"))
    assert got == pytest.approx(8 * 2 * 0.5 * (10e-6 / 60) / (math.pi * 0.004**4), rel=1e-12)


@pytest.mark.parametrize(
    ("name", "given", "says"),
    [
        ("warm_time", "5 min, 15 °C, 20 °C", "never lengthens"),
        ("store_life", "730 day, 31 °C, 20 °C, 30 °C", "set it apart"),
        ("store_life", "730 day, 10 °C, 20 °C, 30 °C", "never lengthens"),
        ("factor_needed", "60000 ppm, 50 ppm", "programme decides"),
        ("twa", "50 ppm, 10 h", "8 hours"),
        ("starved_ratio", "96 mL, 24 mL, 24 mL", "air"),
        ("cartridges_needed", "375 mL, 20 mL, 9 mL, 12 mL", "nothing comes out"),
    ],
)
def test_a_sum_refuses_what_it_must_not_answer(name: str, given: str, says: str) -> None:
    with pytest.raises(Refused, match=says):
        SUMS[name].function(*values(given))
    assert np.isnan(SUMS[name].function(*(np.array([float(v)]) for v in values(given)))).all()  # type: ignore[arg-type]


def test_a_mass_with_a_ratio_by_volume_is_told_with_the_way_out() -> None:
    with pytest.raises(KindError) as told:
        SUMS["hardener_for"].kind([kind("mass"), kind("ratio by volume")])
    assert (told.value.argument, "weight_ratio" in told.value.mend) == (0, True)


def test_results_have_the_kind_that_was_declared() -> None:
    assert SUMS["hardener_for"].kind([kind("mass"), kind("ratio by weight")]) == kind("mass")
    assert SUMS["twa"].kind([kind("ppm"), kind("time")] * 3) == kind("ppm")
    assert SUMS["mixture"].kind([kind("ppm"), kind("ppm"), kind("concentration"), kind("concentration")]) == kind(
        "number"
    )
    for wrong in ([kind("ppm")], [kind("ppm"), kind("time"), kind("concentration"), kind("time")]):
        with pytest.raises(KindError):
            SUMS["twa"].kind(wrong)
    assert SUMS["cost_per_length"].kind([kind("money"), kind("volume"), kind("area")]) == unit("$/m").kind
