"""The declared units agree with NIST, with scipy.constants and with a pint registry; quantities read and show right."""

import decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import constants

from quizkit.units import UNITS, KindError, Unit, UnitError, kind, number, pint_name, quantity, registry, show, unit

# NIST SP 811 (2008), Appendix B.8, read: factor to the SI unit beside it, to the digits printed there.
NIST = [
    ("psi", "kPa", 6.894757),
    ("bar", "kPa", 100.0),
    ("fl oz", "mL", 29.57353),
    ("US gal", "L", 3.785412),
    ("in", "mm", 25.4),
    ("oz", "g", 28.34952),
    ("lbf", "N", 4.448222),
]


@pytest.mark.parametrize(("ours", "si", "printed"), NIST)
def test_a_unit_agrees_with_the_digits_that_nist_prints(ours: str, si: str, printed: float) -> None:
    assert float(unit(ours).factor / unit(si).factor) == pytest.approx(
        printed, rel=5e-7 / 2.8
    )  # half a unit of the seventh digit


SCIPY = {
    "in": constants.inch,
    "ft": constants.foot,
    "yd": constants.yard,
    "mil": constants.mil,
    "lb": constants.pound,
    "oz": constants.ounce,
    "psi": constants.psi,
    "bar": constants.bar,
    "lbf": constants.pound_force,
    "US gal": constants.gallon,
    "fl oz": constants.fluid_ounce,
    "L": constants.liter,
    "min": constants.minute,
    "h": constants.hour,
    "day": constants.day,
    "week": constants.week,
    "µm": constants.micron,
}


@pytest.mark.parametrize("name", SCIPY)
def test_a_unit_agrees_with_scipy_constants(name: str) -> None:
    assert float(unit(name).factor) == pytest.approx(SCIPY[name], rel=1e-14)


@pytest.mark.parametrize(
    ("text", "into", "shown", "digits"),
    [
        ("90 psi", "kPa", "620.53 kPa", 5),  # trade.md, NIST SP 811 B.8, read
        ("90 psi", "bar", "6.205 bar", 4),
        ("10.1 fl oz", "mL", "298.69 mL", 5),
        ("1 US gal", "fl oz", "128 fl oz", None),
        ("1 US gal", "in3", "231 in³", None),
        ("86 °F", "°C", "30 °C", None),
        ("-40 °F", "°C", "-40 °C", None),
    ],
)
def test_published_conversions_come_out(text: str, into: str, shown: str, digits: int | None) -> None:
    assert show(quantity(text).value, unit(into), digits=digits) == shown


def test_the_wrong_psi_in_circulation_is_not_ours() -> None:
    """6874.757 Pa for a psi is a misprint that goes round (trade.md)."""
    assert abs(float(unit("psi").factor) - 6874.757) > 10


@pytest.mark.parametrize("one", UNITS, ids=lambda one: one.symbol)
def test_every_unit_converts_as_pint_does(one: Unit) -> None:
    ours = unit(one.symbol)
    base = registry().Quantity(3.0, pint_name(ours)).to_base_units().magnitude
    assert base == pytest.approx(float(ours.to_base(Fraction(3))), rel=1e-12)


@pytest.mark.parametrize(
    ("text", "value", "words"),
    [
        ("60 mL", Fraction(60, 10**6), "a volume"),
        ("1/2 in", Fraction("0.0127"), "a length"),
        ("2 1/2 turns", Fraction(5, 2), "turns of the screw"),
        ("2½ turns", Fraction(5, 2), "turns of the screw"),
        ("25 %", Fraction(1, 4), "a plain number"),
        ("-5 %", Fraction(-1, 20), "a plain number"),
        ("−5 %", Fraction(-1, 20), "a plain number"),
        ("$14.50", Fraction(29, 2), "an amount of money"),
        ("-$3", Fraction(-3), "an amount of money"),
        ("20 °C", Fraction("293.15"), "a temperature"),
        ("10 °C apart", Fraction(10), "a difference of temperatures"),
        ("1,250.00 mL", Fraction(1250, 10**6), "a volume"),
        ("1.2e3 mm", Fraction("1.2"), "a length"),
        ("5 mg/m3", Fraction(5, 10**6), "a mass per volume"),
        ("5", Fraction(5), "a plain number"),
    ],
)
def test_an_authors_quantity_reads_exactly(text: str, value: Fraction, words: str) -> None:
    read = quantity(text)
    assert (read.value, str(read.unit.kind)) == (value, words)


@pytest.mark.parametrize(
    "text",
    ["", "mL", "--5 mL", "5 5 mL", "1/0 in", "9e99 m", "m**9**9**9", "5 m**9", "5 m^9", "$5 mL", "5 apart", "1,25 mL"],
)
def test_what_is_no_quantity_is_refused_with_a_mend(text: str) -> None:
    with pytest.raises(UnitError) as told:
        quantity(text)
    assert told.value.what


def test_a_typo_is_told_with_the_nearest_unit() -> None:
    with pytest.raises(UnitError) as told:
        unit("mLl")
    assert told.value.nearest == "mL"


@given(st.text(max_size=300))
def test_any_text_is_a_quantity_or_a_unit_error(text: str) -> None:
    try:
        quantity(text)
    except UnitError:
        return


@given(st.fractions(-1000, 1000, max_denominator=100), st.sampled_from([one.symbol for one in UNITS]))
def test_a_shown_value_reads_back_as_itself(number: Fraction, symbol: str) -> None:
    one = unit(symbol)
    text = show(one.to_base(number), one, fraction=symbol not in ("$", "¢"), digits=12)
    read = quantity(text)
    assert abs(read.value - one.to_base(number)) <= one.factor * Fraction(1, 10**8)


@pytest.mark.parametrize(
    ("value", "name", "step", "shown"),
    [
        ("2.4 mL", "mL", "0.01 mL", "2.40 mL"),
        ("$2.675", "$", "$0.01", "$2.68"),
        ("-$2.675", "$", "$0.01", "-$2.68"),
        ("61 mL", "mL", "5 mL", "60 mL"),
        ("62.5 mL", "mL", "5 mL", "65 mL"),
        ("1 turn", "turn", "1/2 turn", "1.0 turn"),
        ("12.34 %", "%", "0.1 %", "12.3 %"),
    ],
)
def test_a_value_shows_at_the_step_asked_for(value: str, name: str, step: str, shown: str) -> None:
    assert show(quantity(value).value, unit(name), step=quantity(step).value) == shown


def test_a_fraction_shows_as_a_fraction_and_a_comma_as_the_mark() -> None:
    assert show(Fraction(5, 2), unit("turns"), fraction=True) == "2 1/2 turns"
    assert show(Fraction(3, 4) * unit("in").factor, unit("in"), fraction=True) == "3/4 in"
    assert show(Fraction(5, 2), unit("turns"), mark=",") == "2,5 turns"


def test_kinds_follow_the_dimensions() -> None:
    assert kind("volume").over(kind("area")) == kind("length")
    assert kind("area").power(Fraction(1, 2)) == kind("length")
    assert kind("mass").over(kind("volume")) == kind("density")
    with pytest.raises(KindError):
        kind("temperature").times(kind("number"))


ATOMS = [one for one in UNITS if one.symbol.isascii() and one.symbol.isalpha()]


@given(st.lists(st.tuples(st.sampled_from(ATOMS), st.sampled_from("/*·"), st.integers(1, 3)), min_size=1, max_size=5))
def test_a_compound_has_the_dimensions_and_the_size_that_pint_gives_it(
    parts: list[tuple[Unit, str, int]],
) -> None:
    text, theirs = "", registry().Quantity(1.0, "")
    for one, sign, power in parts:
        text += (sign if text else "") + f"{one.symbol}^{power}"
        raised = registry().Quantity(1.0, pint_name(one).replace("u_K", "base_kelvin")) ** power
        theirs = theirs / raised if sign == "/" and text.count("^") > 1 else theirs * raised
    ours, base = unit(text), theirs.to_base_units()
    assert dict(ours.kind.dims) == {name.strip("[]"): power for name, power in base.dimensionality.items() if power}
    assert float(ours.factor) == pytest.approx(base.magnitude, rel=1e-9)


@pytest.mark.parametrize(
    ("text", "symbol"),
    [
        ("ML", "mL"),
        ("millilitres", "mL"),
        ("CC", "mL"),
        ("PSI", "psi"),
        ("inches", "in"),
        ("sq in", "in²"),
        ("cu ft", "ft³"),
        ("mm2", "mm²"),
        ("mm^3", "mm³"),
        ("gallons", "US gal"),
        ("Hours", "h"),
        ("mPa", "mPa"),
        ("MPa", "MPa"),
        ("mL per min", "mL/min"),
        ("g / mL", "g/mL"),
        ("1/min", "1/min"),
        ("$/mL", "$/mL"),
    ],
)
def test_spellings_that_people_use_are_known(text: str, symbol: str) -> None:
    assert unit(text).symbol == symbol


def test_a_spelling_that_could_be_two_units_a_billion_apart_is_asked_back() -> None:
    with pytest.raises(UnitError):
        unit("mpa")


@given(st.decimals(-(10**6), 10**6, places=3), st.booleans())
def test_a_number_reads_as_fraction_does_grouped_or_not(value: decimal.Decimal, grouped: bool) -> None:
    text = f"{value:,}" if grouped else str(value)
    assert number(text) == (Fraction(value), "decimal", "")


@given(st.fractions(-(10**6), 10**6, max_denominator=999), st.integers(1, 8))
def test_significant_digits_round_as_decimal_does(value: Fraction, digits: int) -> None:
    exact = decimal.Context(prec=60).divide(decimal.Decimal(value.numerator), decimal.Decimal(value.denominator))
    rounded = decimal.Context(prec=digits, rounding=decimal.ROUND_HALF_UP).plus(exact)
    assert Fraction(show(value, unit(""), digits=digits)) == Fraction(rounded)
