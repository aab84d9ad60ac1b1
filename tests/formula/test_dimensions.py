"""The dimension check: what goes together, and where it is told when it does not."""

import pint
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from quizkit.formula import FormulaError, kind_of, parse
from quizkit.units import (
    AREA,
    DATE,
    DENSITY,
    DIFFERENCE,
    FLOW,
    LENGTH,
    MASS,
    MONEY,
    NUMBER,
    PPM,
    PRESSURE,
    RATIO_BY_VOLUME,
    RATIO_BY_WEIGHT,
    ROW,
    TEMPERATURE,
    TEXT,
    TIME,
    TRUTH,
    VOLUME,
    Kind,
    registry,
)

KINDS = {
    "filler": VOLUME,
    "shot": MASS,
    "bead": LENGTH,
    "gap": LENGTH,
    "spread": AREA,
    "count": NUMBER,
    "share": NUMBER,
    "p": PRESSURE,
    "open_time": TIME,
    "hot": TEMPERATURE,
    "cold": TEMPERATURE,
    "rise": DIFFERENCE,
    "price": MONEY,
    "level": PPM,
    "opened": DATE,
    "until": DATE,
    "ratio": RATIO_BY_VOLUME,
    "by_weight": RATIO_BY_WEIGHT,
    "material": ROW,
    "material.name": TEXT,
    "material.price": MONEY,
    "material.ratio": RATIO_BY_VOLUME,
    "material.density_a": DENSITY,
}

GOOD: dict[str, Kind] = {
    "filler + filler": VOLUME,
    "bead * gap * bead": VOLUME,
    "filler / bead": AREA,
    "filler / open_time": FLOW,
    "(bead / 2) ** 2 * pi": AREA,
    "bead ** 3": VOLUME,
    "spread ** 0.5": LENGTH,
    "spread ** (1/2)": LENGTH,
    "1 / bead ** -1": LENGTH,
    "2 ** (rise / rise)": NUMBER,
    "sqrt(spread)": LENGTH,
    "sqrt(count)": NUMBER,
    "filler * material.density_a": MASS,
    "material.price / filler": Kind((("length", -3), ("money", 1))),
    "hardener_for(filler, ratio)": VOLUME,
    "hardener_for(shot, by_weight)": MASS,
    "hardener_for(0, ratio)": VOLUME,
    "filler * ratio.a / (ratio.a + ratio.b)": VOLUME,
    "material.ratio.a": NUMBER,
    "twa(level, open_time, 0, open_time)": PPM,
    "days_between(opened, until)": NUMBER,
    "months_after(opened, 6)": DATE,
    "min(opened, until)": DATE,
    "max(hot, cold)": TEMPERATURE,
    "hot - cold": DIFFERENCE,
    "hot + rise": TEMPERATURE,
    "rise + hot": TEMPERATURE,
    "hot - rise": TEMPERATURE,
    "at_least(hot, cold)": NUMBER,
    "ceil(filler / filler)": NUMBER,
    "nearest(filler, filler)": VOLUME,
    "next_up(bead, gap, bead)": LENGTH,
    "max(filler - filler, 0)": VOLUME,
    "filler + 0": VOLUME,
    "0 - filler": VOLUME,
    "abs(-filler)": VOLUME,
    "0 * filler": VOLUME,
    "0": NUMBER,
    "0 + 0": NUMBER,
    "min(0, 0)": NUMBER,
    "bead_time(bead, bead_speed(filler / open_time, spread))": TIME,
}


@pytest.mark.parametrize("text", GOOD)
def test_a_formula_has_the_kind_of_its_values(text: str) -> None:
    assert kind_of(parse(text), KINDS) == GOOD[text]


BAD = {
    # formula: (code, the text that is marked)
    "filler + bead": ("unit-mismatch", "bead"),
    "filler + 1": ("unit-mismatch", "1"),
    "share + price": ("unit-mismatch", "price"),
    "hot + cold": ("unit-mismatch", "hot"),
    "hot * 2": ("unit-mismatch", "hot"),
    "2 * hot": ("unit-mismatch", "hot"),
    "rise - hot": ("unit-mismatch", "hot"),
    "-hot": ("unit-mismatch", "-hot"),
    "hot + 0": ("unit-mismatch", "hot"),
    "max(hot, 0)": ("unit-mismatch", "0"),
    "nearest(hot, rise)": ("unit-mismatch", "rise"),
    "nearest(hot, cold)": ("unit-mismatch", "nearest(hot, cold)"),
    "opened + 5": ("unit-mismatch", "opened"),
    "until - opened": ("unit-mismatch", "until"),
    "max(opened, 0)": ("unit-mismatch", "0"),
    "ratio * 2": ("unit-mismatch", "ratio"),
    "min(ratio, ratio)": ("unit-mismatch", "min(ratio, ratio)"),
    "ceil(filler)": ("unit-mismatch", "filler"),
    "floor(hot)": ("unit-mismatch", "hot"),
    "sqrt(hot)": ("unit-mismatch", "hot"),
    "abs(hot)": ("unit-mismatch", "hot"),
    "bead ** count": ("bad-exponent", "count"),
    "2 ** bead": ("bad-exponent", "bead"),
    "hot ** 2": ("unit-mismatch", "hot"),
    "material * 2": ("unit-mismatch", "material"),
    "material.name * 2": ("unit-mismatch", "material.name"),
    "min(material.name, material.name)": ("unit-mismatch", "min(material.name, material.name)"),
    "hardener_for(shot, ratio)": ("unit-mismatch", "shot"),
    "hardener_for(filler, by_weight)": ("unit-mismatch", "filler"),
    "hardener_for(filler, 10)": ("unit-mismatch", "10"),
    "hardener_for(filler)": ("wrong-count", "hardener_for(filler)"),
    "warm_time(open_time, 0, hot)": ("unit-mismatch", "0"),
    "flller * 2": ("unknown-name", "flller"),
    "material.prise": ("unknown-field", "material.prise"),
    "filler.a": ("unknown-field", "filler.a"),
    "filler.mL": ("not-a-slip", "filler.mL"),
    "ratio.c": ("unknown-field", "ratio.c"),
    "ratio.d9": ("unknown-field", "ratio.d9"),
}


@pytest.mark.parametrize("text", BAD)
def test_what_does_not_go_together_is_told_at_its_place(text: str) -> None:
    with pytest.raises(FormulaError) as caught:
        kind_of(parse(text), KINDS)
    code, marked = BAD[text]
    error = caught.value
    assert (error.code, text[error.column : error.column + error.length]) == (code, marked)


def test_an_unknown_name_is_told_with_the_nearest_one() -> None:
    with pytest.raises(FormulaError) as caught:
        kind_of(parse("flller * 2"), KINDS)
    assert "filler" in caught.value.mend


@pytest.mark.parametrize(
    "text",
    [
        "bead < gap",
        "hot >= cold and filler > 0",
        "material.name == 'x'",
        "opened != until",
        "1 < count < 5",
        "ratio.a > 1",
    ],
)
def test_a_condition_is_a_comparison_of_alike(text: str) -> None:
    assert kind_of(parse(text, where=True), KINDS) == TRUTH


@pytest.mark.parametrize(
    "text",
    [
        "bead < filler",
        "hot > 0",
        "material.name == bead",
        "opened > 5",
        "ratio == ratio",
        "material == material",
        "filler == 'x'",
    ],
)
def test_unlike_things_are_not_compared(text: str) -> None:
    with pytest.raises(FormulaError):
        kind_of(parse(text, where=True), KINDS)


@pytest.mark.parametrize(
    "text",
    ["p.psi * 2", "hot.F", "rise.F_apart", "bead.in", "spread.cm2", "filler.fl_oz + filler.mL", "material.price"],
)
def test_a_slip_takes_values_as_plain_numbers(text: str) -> None:
    found = kind_of(parse(text, slip=True), KINDS)
    assert found == (MONEY if text == "material.price" else NUMBER)


@pytest.mark.parametrize("text", ["p.mm", "hot.psi", "count.mL", "rise.F", "hot.F_apart"])
def test_a_slip_takes_no_value_in_a_unit_of_another_kind(text: str) -> None:
    with pytest.raises(FormulaError) as caught:
        kind_of(parse(text, slip=True), KINDS)
    assert caught.value.code == "unit-mismatch"


PLAIN_KINDS = {name: kind for name, kind in KINDS.items() if not kind.special and "." not in name}
NAMES = st.sampled_from(sorted(PLAIN_KINDS))


def _joined(parts: st.SearchStrategy[str]) -> st.SearchStrategy[str]:
    return st.one_of(
        st.tuples(parts, st.sampled_from(["+", "-", "*", "/"]), parts).map(
            lambda three: f"({three[0]} {three[1]} {three[2]})"
        ),
        st.tuples(parts, st.sampled_from(["2", "3", "-1", "0.5"])).map(lambda two: f"{two[0]} ** {two[1]}"),
        st.tuples(st.sampled_from(["min", "max"]), parts, parts).map(
            lambda three: f"{three[0]}({three[1]}, {three[2]})"
        ),
        parts.map(lambda one: f"sqrt({one})"),
        parts.map(lambda one: f"abs({one})"),
        parts.map(lambda one: f"(-{one})"),
    )


FORMULAS = st.recursive(NAMES, _joined, max_leaves=6)


def _pint_value(text: str) -> "pint.Quantity[float]":
    """The same formula by pint on quantities of our own registry: raises DimensionalityError where pint refuses."""
    ours = registry()
    bases = {
        base: ours.Quantity(1.0, f"base_{base}")
        for base in ("length", "mass", "time", "kelvin", "money", "turn", "ppm")
    }

    def quantity(kind: Kind) -> "pint.Quantity[float]":
        value = ours.Quantity(1.5, "")
        for base, power in kind.dims:
            value = value * bases[base] ** float(power)
        return value

    def least(left: "pint.Quantity[float]", right: "pint.Quantity[float]") -> "pint.Quantity[float]":
        return left + right

    names = {name: quantity(kind) for name, kind in PLAIN_KINDS.items()}
    helpers = {"min": least, "max": least, "sqrt": lambda one: one**0.5, "abs": abs}
    return eval(text, {"__builtins__": {}}, {**names, **helpers})  # type: ignore[no-any-return]  # our own generated text


@given(FORMULAS)
def test_the_check_accepts_what_pint_accepts(text: str) -> None:
    assume(len(text) <= 200)
    try:
        formula = parse(text)
    except FormulaError as error:
        assume(error.code not in ("power-too-large", "formula-too-deep"))
        raise
    try:
        found: Kind | None = kind_of(formula, PLAIN_KINDS)
    except FormulaError:
        found = None
    try:
        with_pint = _pint_value(text)
    except pint.DimensionalityError:
        assert found is None, text
        return
    except (ZeroDivisionError, OverflowError):
        return
    assert found is not None, text
    dims = {base.strip("[]"): power for base, power in getattr(with_pint, "dimensionality", {}).items()}
    assert {base: float(power) for base, power in found.dims} == pytest.approx(dims)
