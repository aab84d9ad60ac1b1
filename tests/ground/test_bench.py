"""A sum at the bench: read as typed, worked in steps that hold, refused in words."""

import math
import re
from collections.abc import Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quizkit.trade import SUMS
from quizkit.trade.bench import Bench, bench, read_all
from quizkit.trade.typed import read
from quizkit.trade.working import expression, numbers_in, working_units
from quizkit.units import PLAIN, KindError, UnitError
from tests.ground.published import CHECKS, Check


def at_bench(name: str, text: str, into: str = "", answers: Sequence[bool] = (False,)) -> Bench:
    return bench(SUMS[name], read_all(SUMS[name], text.split(", ")), into=into, answers=answers)


CALCULATOR = {"×": "*", "÷": "/", "−": "-", "²": "**2", "⁴": "**4", "^": "**", "√": "sqrt", "π": "pi"}
WORDED = ("counted against", "next class up")


def keyed_in(text: str) -> float:
    """What a calculator shows for the arithmetic of a working line."""
    for sign, key in CALCULATOR.items():
        text = text.replace(sign, key)
    assert re.fullmatch(r"[0-9.*/+\-() ,a-z]+", text), text
    return float(
        eval(text, {"__builtins__": {}, "sqrt": math.sqrt, "pi": math.pi, "min": min, "max": max, "log10": math.log10})
    )


NUMERIC = [
    check for check in CHECKS if not SUMS[check.sum].dated and not any(w in SUMS[check.sum].formula for w in WORDED)
]


@pytest.mark.parametrize("check", NUMERIC, ids=str)
def test_the_numbers_of_the_working_give_the_result_on_a_calculator(check: Check) -> None:
    """So the formula that is shown is the formula that is worked."""
    one = SUMS[check.sum]
    values = read_all(one, check.given.split(", "))
    kind = one.kind([value.kind for value in values])
    arithmetic, words = expression(numbers_in(one, values))
    keyed = keyed_in(arithmetic)
    result = float(
        working_units(one, values).get(kind, PLAIN).from_base(one.function(*(value.value for value in values)))
    )
    if words == ", rounded up":
        keyed = math.ceil(keyed)
    cents = 0.0051 * (len(values) - 1)
    assert keyed == pytest.approx(result, rel=1e-5, abs=cents if "cent" in words else 1e-12)


@pytest.mark.parametrize("check", CHECKS, ids=str)
def test_every_published_case_has_its_working_at_the_bench(check: Check) -> None:
    one = SUMS[check.sum]
    if check.sum == "tax":
        check = Check(check.sum, "$10.10, 7 %", "$0.71", "", "")
    told = at_bench(check.sum, check.given, answers=[False] * len(one.asks))
    assert told.steps[0] == one.formula and told.result.removeprefix("≈ ") in told.steps[-1]
    assert not told.refused and not told.open


@pytest.mark.parametrize(
    ("name", "text", "steps"),
    [
        (
            "bead_speed",
            "120 mL/min, 50 mm²",
            [
                "flow ÷ area",
                "= 120 mL/min ÷ 50 mm²",
                "120 mL/min = 2 mL/s",
                "50 mm² = 0.5 cm²",
                "= 2 ÷ 0.5",
                "= 4 cm/s",
                "= 40 mm/s",
            ],
        ),
        ("flow_rate", "45 mL, 18 s", ["volume ÷ time", "= 45 mL ÷ 18 s", "= 2.5 mL/s", "= 150 mL/min"]),
        ("hardener_for", "120 mL, 10:1 by volume", ["base × ratio.b ÷ ratio.a", "= 120 mL × 1 ÷ 10", "= 12 mL"]),
        (
            "twa",
            "60 ppm, 2 h, 25 ppm, 180 min",
            [
                "Σ(level × time) ÷ 8 h",
                "= (60 ppm × 2 h + 25 ppm × 180 min) ÷ 8 h",
                "180 min = 3 h",
                "= (60 × 2 + 25 × 3) ÷ 8",
                "= 24.375 ppm",
            ],
        ),
        (
            "bead_length",
            "1 US gal, 1/16 in²",
            ["volume ÷ area", "= 1 US gal ÷ 1/16 in²", "1 US gal = 231 in³", "= 231 ÷ 0.0625", "= 3696 in", "= 308 ft"],
        ),
        ("days_between", "2026-01-31, 2026-02-28", ["end − start", "= 2026-02-28 − 2026-01-31", "= 28"]),
    ],
)
def test_the_working_reads_as_a_person_would_write_it(name: str, text: str, steps: list[str]) -> None:
    told = at_bench(name, text)
    assert list(told.steps) == steps


def test_a_result_comes_in_the_unit_asked_for() -> None:
    assert at_bench("bead_speed", "120 mL/min, 50 mm²", into="in/min").result == "≈ 94.49 in/min"
    with pytest.raises(UnitError, match="a speed"):
        at_bench("bead_speed", "120 mL/min, 50 mm²", into="mL")


@pytest.mark.parametrize("name", ["max_use", "factor_needed"])
def test_no_mask_is_chosen_before_isocyanates_are_ruled_out(name: str) -> None:
    text = "10, 50 ppm, 700 ppm" if name == "max_use" else "180 ppm, 50 ppm"
    unanswered, ruled_in, ruled_out = (at_bench(name, text, answers=answers) for answers in ([], [True], [False]))
    assert (unanswered.result, unanswered.value, unanswered.steps) == ("", None, ())
    assert "isocyanates" in unanswered.open[0]
    assert (ruled_in.result, ruled_in.steps, ruled_in.refused) == ("", (), "The respirator program decides, ask.")
    assert ruled_out.result


MISREAD = [
    ("shot_ratio", "2.9 g, 27.4 g, 13.6 g, 3.1 g", "weigh both cups again"),
    ("used_share", "125 mL, 40 mL, 200 mL", "read the scale again"),
    ("used_cost", "40 mL, 225 mL, 200 mL, $46", "read the scale again"),
    ("squeeze_share", "34 mL, 40 mL", "starved"),
    ("reach", "10 mL, 11 mL, 50 mm²", "take another"),
    ("nozzle_volume", "10 mm, 200 mm, 170 %", "look it up again"),
    ("max_use", "10, 900 ppm, 700 ppm", "look both up again"),
    ("factor_needed", "40 ppm, 50 ppm", "Not over this limit"),
]


@pytest.mark.parametrize(
    ("name", "text", "says"),
    [
        *MISREAD,
        ("flow_rate", "45 mL, 0 s", "zero"),
        ("flow_rate", "-45 mL, 18 s", "volume is below 0"),
        ("store_life", "730 day, 31 °C, 20 °C, 30 °C", "set it apart, mark it, and ask"),
        ("warm_time", "5 min, 15 °C, 20 °C", "never lengthens"),
    ],
)
def test_what_cannot_be_is_refused_with_what_to_do(name: str, text: str, says: str) -> None:
    told = at_bench(name, text)
    assert says in told.refused and (told.result, told.value, told.steps) == ("", None, ())


def test_every_misreading_is_tried() -> None:
    assert {name for name, _text, _says in MISREAD} == {one.name for one in SUMS.values() if one.senses}


@pytest.mark.parametrize(
    ("name", "text", "says"),
    [
        ("off_ratio", "46 g, 9.6 g, 5.09", "Rich"),
        ("off_ratio", "52 g, 9.6 g, 5.09", "Lean"),
        ("mixture", "120 ppm, 250 ppm, 25 ppm, 100 ppm, 30 ppm, 100 ppm", "Over 1: over the limit"),
        ("mixture", "125 ppm, 250 ppm, 50 ppm, 100 ppm", "not over the limit"),
        ("noise_dose", "95 dBA, 4 h", "not over the limit of federal OSHA"),
        ("noise_dose", "95 dBA, 4.1 h", "Over 100 %"),
        ("time_to_spare", "3 min, 1200 mm, 40 mm/s, 3 min", "does not fit"),
        ("time_to_spare", "4 min, 1200 mm, 40 mm/s, 3 min", "It fits"),
        ("turns_to_go", "1 turn, 2 turns", "Close"),
        ("turns_to_go", "2 1/2 turns, 2 turns", "Open"),
        ("nozzle_time_left", "2 min, 150 s", "time is up"),
        ("stock_used", "4, 0, 9, 0", "count again"),
    ],
)
def test_a_result_is_told_in_words(name: str, text: str, says: str) -> None:
    told = at_bench(name, text)
    assert [words for words in told.says if says in words] and len(told.says) == 1


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("turns_to_go", "2 turns, 2 turns"),
        ("off_ratio", "50 g, 10 g, 5"),
        ("nozzle_time_left", "3 min, 150 s"),
        ("stock_used", "4, 0, 4, 0"),
    ],
)
def test_where_nothing_is_to_be_said_nothing_is(name: str, text: str) -> None:
    assert at_bench(name, text).says == ()


def test_no_result_is_ever_called_safe() -> None:
    for one in SUMS.values():
        for remark in (*one.says, *one.refusals, *one.senses):
            assert "safe" not in remark.words


def test_a_sum_of_exposure_promises_over_or_under_only_where_its_result_says_so() -> None:
    told = [one for one in SUMS.values() if any("No sum says 'safe'" in words for words in one.cautions)]
    assert len(told) == 10
    for one in told:
        assert any("says over or under" in words for words in one.cautions) == bool(one.says), one.name
        assert one.says or one.stepped or any("no verdict" in words for words in one.cautions), one.name


@pytest.mark.parametrize("text", ["8 oz", "8 ounces", "1 oz/min"])
def test_a_plain_ounce_is_asked_back(text: str) -> None:
    with pytest.raises(UnitError, match="mass or a fluid"):
        read("amount", text)
    assert read("volume", "8 fl oz").unit.symbol == "fl oz"


@pytest.mark.parametrize(
    ("name", "text", "what"),
    [
        ("hardener_for", "120 mL, 10:1", "ratio: a ratio says by volume or by weight"),
        ("hardener_for", "120 mL, 10:0 by volume", "ratio: '0'"),
        ("hardener_for", "120 mL, ten", "ratio: 'ten'"),
        ("hardener_for", "much, 10:1 by volume", "base: 'much'"),
        ("month_end", "3 May", "date: '3 May'"),
    ],
)
def test_what_cannot_be_read_is_told_with_the_name_of_the_value(name: str, text: str, what: str) -> None:
    with pytest.raises(UnitError) as told:
        at_bench(name, text)
    assert told.value.what.startswith(what) and told.value.mend


def test_a_wrong_count_is_told_with_the_names() -> None:
    with pytest.raises(KindError, match="takes base, ratio, not 1"):
        at_bench("hardener_for", "120 mL")


@given(st.sampled_from(["volume", "ratio", "date", "months", "share"]), st.text(max_size=250))
def test_any_text_is_read_or_told(word: str, text: str) -> None:
    try:
        read(word, text)
    except UnitError as error:
        assert error.what
