"""Every form in which people type a number; and what is unread rather than wrong."""

import datetime
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from quizkit.scoring.reading import DAY_COUNT, LONGEST_ANSWER, Reading, Style, Unread, read
from quizkit.units import PLAIN, UNITS, unit

COMMA, EURO = Style(mark=","), Style(currency="EUR")

READ = [
    # typed, asked, number, unit, step
    ("2.4", "mL", "2.4", "mL", "0.1"),
    (".5", "mL", "0.5", "mL", "0.1"),
    ("5.", "mL", "5", "mL", "1"),
    ("007", "mL", "7", "mL", "1"),
    ("1/2", "in", "1/2", "in", "1/2"),
    ("2 1/2", "turn", "5/2", "turn", "1/2"),
    ("2-1/2 turns", "turn", "5/2", "turn", "1/2"),
    ("2½", "turn", "5/2", "turn", "1/2"),
    ("2 ½", "turn", "5/2", "turn", "1/2"),
    ("½ in", "in", "1/2", "in", "1/2"),
    ("3 ⁄ 8 in", "in", "3/8", "in", "1/8"),
    ("1⅛″", "in", "9/8", "in", "1/8"),
    ("1.2e3", "mL", "1200", "mL", "100"),
    ("1.2E-3 L", "mL", "0.0012", "L", "0.0001"),
    ("1.2×10³", "mL", "1200", "mL", "100"),
    ("1.2 x 10^-3", "mL", "0.0012", "mL", "0.0001"),
    ("1,250.00", "mL", "1250", "mL", "0.01"),
    ("1,250,000", "mL", "1250000", "mL", "1"),
    ("50:1", "", "50", "", "1"),
    ("50 to 1", "", "50", "", "1"),
    ("78.26 : 1", "", "78.26", "", "0.01"),
    ("1:50", "%", "1/50", "", "1/50"),
    ("$23.40", "$", "23.4", "$", "0.01"),
    ("$ 23.40", "$", "23.4", "$", "0.01"),
    ("USD 23.40", "$", "23.4", "$", "0.01"),
    ("usd23.40", "$", "23.4", "$", "0.01"),
    ("23.40 USD", "$", "23.4", "$", "0.01"),
    ("23.40 $", "$", "23.4", "$", "0.01"),
    ("US$23.40", "$", "23.4", "$", "0.01"),
    ("-$5", "$", "-5", "$", "1"),
    ("$-5", "$", "-5", "$", "1"),
    ("50 cents", "$", "50", "¢", "1"),
    ("23 dollars", "$", "23", "$", "1"),
    ("$3.20 / mL", "$/mL", "3.2", "$/mL", "0.01"),
    ("$3.20 per ft", "$/mL", None, "", ""),
    ("35%", "%", "35", "%", "1"),
    ("35 percent", "", "35", "%", "1"),
    ("\u22125 %", "%", "-5", "%", "1"),
    ("\u20135", "%", "-5", "%", "1"),
    ("- 5", "%", "-5", "%", "1"),
    ("+5", "%", "5", "%", "1"),
    ("2.4\u202fmL", "mL", "2.4", "mL", "0.1"),
    ("\u00a02.4\u2009\u2003mL\u3000", "mL", "2.4", "mL", "0.1"),
    ("2.4\tmL\n", "mL", "2.4", "mL", "0.1"),
    ("\ufeff2.4", "mL", "2.4", "mL", "0.1"),
    ("２．４ ㎖", "mL", "2.4", "mL", "0.1"),
    ("2 cc", "mL", "2", "mL", "1"),
    ("2 mls", "mL", "2", "mL", "1"),
    ("2 ML", "mL", "2", "mL", "1"),
    ("2 milliliters", "L", "2", "mL", "1"),
    ("2 fl. oz.", "mL", "2", "fl oz", "1"),
    ("2 fluid ounces", "mL", "2", "fl oz", "1"),
    ("2 oz wt", "g", "2", "oz", "1"),
    ("2 oz by weight", "g", "2", "oz", "1"),
    ("2 US gallons", "mL", "2", "US gal", "1"),
    ("2 in³", "mL", "2", "in³", "1"),
    ("2 cubic inches", "mL", "2", "in³", "1"),
    ("2 cu. in.", "mL", "2", "in³", "1"),
    ("90 PSI", "bar", "90", "psi", "1"),
    ("6 bar", "psi", "6", "bar", "1"),
    ("620 kpa", "psi", "620", "kPa", "1"),
    ("0.6 MPa", "psi", "0.6", "MPa", "0.1"),
    ('3"', "mm", "3", "in", "1"),
    ("3”", "mm", "3", "in", "1"),
    ("3 in.", "mm", "3", "in", "1"),
    ("3 feet", "mm", "3", "ft", "1"),
    ("3 lbs", "g", "3", "lb", "1"),
    ("90 min", "h", "90", "min", "1"),
    ("2 hrs", "h", "2", "h", "1"),
    ("20 °C", "°C", "20", "°C", "1"),
    ("20ºc", "°C", "20", "°C", "1"),
    ("68 degrees F", "°C", "68", "°F", "1"),
    ("20 degrees", "°C", "20", "°C", "1"),
    ("10 °C", "°C apart", "10", "°C", "1"),
    ("10", "°C apart", "10", "°C apart", "1"),
    ("5 mL per min", "mL/min", "5", "mL/min", "1"),
    ("25 ppm", "ppm", "25", "ppm", "1"),
]


@pytest.mark.parametrize(("typed", "asked", "number", "in_unit", "step"), [row for row in READ if row[2]])
def test_a_form_that_people_write_is_read(typed: str, asked: str, number: str, in_unit: str, step: str) -> None:
    reading = read(typed, unit(asked))
    assert isinstance(reading, Reading), reading.why
    assert reading.number == Fraction(number)
    assert reading.unit.symbol == in_unit
    assert reading.step == Fraction(step)


UNREAD = [
    ("", "mL", "nothing"),
    ("   ", "mL", "nothing"),
    ("five", "mL", "no number"),
    ("mL", "mL", "no number"),
    ("about 5", "mL", "beginning"),
    ("5 drops", "mL", "unit"),
    ("3 cartridges", "", "unit"),
    ("2 oz", "mL", "oz"),
    ("2 oz", "oz", "oz"),
    ("2 ounces", "g", "oz"),
    ("2 Oz.", "g", "oz"),
    ("5-6", "mL", "range"),
    ("5 - 6 mL", "mL", "range"),
    ("5–6", "mL", "range"),
    ("5 to 6 mL", "mL", "range"),
    ("50:1", "mL", "ratio"),
    ("5 6", "mL", "two numbers"),
    ("5 mL 6", "mL", "two numbers"),
    ("1 250", "mL", "two numbers"),
    ("5 ft 3 in", "mm", "two numbers"),
    ("2 3/2", "in", "two numbers"),
    ("2 3/3", "in", "two numbers"),
    ("1,25", "mL", "two ways"),
    ("1,2500", "mL", "two ways"),
    ("0,250", "mL", "two ways"),
    ("1234,567", "mL", "two ways"),
    ("1,250,00", "mL", "two ways"),
    ("1.2.3", "mL", "two ways"),
    ("5,", "mL", "two ways"),
    ("1/0", "mL", "0"),
    ("5:0", "", "above 0"),
    ("5 mm", "mL", "length"),
    ("20 %", "mL", "plain number"),
    ("$5", "mL", "money"),
    ("€5", "$", "USD"),
    ("5 EUR", "$", "USD"),
    ("CAD 5", "$", "USD"),
    ("1e31", "mL", "power of ten"),
    ("1e-99999", "mL", "power of ten"),
    ("1e999999999999", "mL", "power of ten"),
    ("9" * 201, "mL", "too long"),
    ("2²", "mL", "two numbers"),
    ("2③", "mL", "unit"),
    ("٣", "mL", "beginning"),
    ("5\x00", "mL", "unit"),
    ("nan", "mL", "no number"),
    ("inf", "mL", "no number"),
    ("0x10", "mL", "two numbers"),
    ("1_000", "mL", "two numbers"),
]


@pytest.mark.parametrize(("typed", "asked", "word"), UNREAD)
def test_what_can_be_read_in_two_ways_or_none_is_unread_and_says_why(typed: str, asked: str, word: str) -> None:
    result = read(typed, unit(asked))
    assert isinstance(result, Unread), result
    assert word in result.why


@pytest.mark.parametrize(
    ("typed", "number"),
    [
        ("2,4", "2.4"),
        (",5", "0.5"),
        ("1.250,00", "1250"),
        ("1.250", "1250"),
        ("1.250.000,5", "1250000.5"),
        ("24", "24"),
    ],
)
def test_with_the_mark_comma_the_signs_change_places(typed: str, number: str) -> None:
    reading = read(typed, unit("mL"), COMMA)
    assert isinstance(reading, Reading)
    assert reading.number == Fraction(number)


@pytest.mark.parametrize("typed", ["2.4", "0.250", "1,250.00", "1.25", "12.3456"])
def test_with_the_mark_comma_a_point_that_groups_nothing_is_unread(typed: str) -> None:
    assert isinstance(read(typed, unit("mL"), COMMA), Unread)


@pytest.mark.parametrize("typed", ["€5", "EUR 5", "5 EUR", "5 €", "$5", "5 eur"])
def test_money_is_in_the_currency_of_the_shop(typed: str) -> None:
    reading = read(typed, unit("$"), EURO)
    assert isinstance(reading, Reading)
    assert reading.value == 5


@pytest.mark.parametrize("typed", ["USD 5", "5 USD", "5 dollars", "£5"])
def test_money_of_another_currency_is_unread(typed: str) -> None:
    assert isinstance(read(typed, unit("$"), EURO), Unread)


def test_a_value_is_exact_in_the_base() -> None:
    reading = read("2.4 fl oz", unit("mL"))
    assert isinstance(reading, Reading)
    assert reading.value == Fraction("2.4") * 231 * Fraction("0.0254") ** 3 / 128  # US gallon = 231 in³, NIST SP 811
    assert reading.number_in(unit("fl oz")) == Fraction("2.4")
    assert reading.step_in(unit("mL")) == reading.step * unit("fl oz").factor / unit("mL").factor


def test_a_temperature_keeps_its_zero() -> None:
    reading = read("68 °F", unit("°C"))
    assert isinstance(reading, Reading)
    assert reading.number_in(unit("°C")) == 20
    assert reading.step_in(unit("°C")) == Fraction(5, 9)


DATES = [
    ("2026-05-31", "y-m-d"),
    ("2026/5/31", "m/d/y"),
    ("31 May 2026", "y-m-d"),
    ("31 may, 2026", "y-m-d"),
    ("May 31, 2026", "d/m/y"),
    ("may 31st 2026", "y-m-d"),
    ("31st of May 2026", "y-m-d"),
    ("5/31/2026", "m/d/y"),
    ("31/05/2026", "d/m/y"),
    ("31.5.2026", "d/m/y"),
]


@pytest.mark.parametrize(("typed", "order"), DATES)
def test_a_date_is_read(typed: str, order: str) -> None:
    reading = read(typed, DAY_COUNT, Style(dates=order))
    assert isinstance(reading, Reading)
    assert datetime.date.fromordinal(int(reading.number)) == datetime.date(2026, 5, 31)


@pytest.mark.parametrize(
    ("typed", "order"),
    [
        ("5/31/2026", "y-m-d"),
        ("5/31/2026", "d/m/y"),
        ("2026-02-30", "y-m-d"),
        ("31 May 26", "y-m-d"),
        ("31 Foo 2026", "y-m-d"),
        ("0000-01-01", "y-m-d"),
        ("soon", "y-m-d"),
        ("24", "y-m-d"),
    ],
)
def test_a_date_that_is_none_or_two_is_unread(typed: str, order: str) -> None:
    assert isinstance(read(typed, DAY_COUNT, Style(dates=order)), Unread)


def test_the_longest_text_and_the_largest_exponent_are_read_and_one_more_is_not() -> None:
    """At most 200 characters, and powers of ten to 30 either way."""
    assert isinstance(read("0" * 199 + "1", PLAIN), Reading)
    assert isinstance(read("0" * 200 + "1", PLAIN), Unread)
    for power in ("30", "-30"):
        assert isinstance(read(f"2e{power}", PLAIN), Reading)
    for power in ("31", "-31"):
        assert isinstance(read(f"2e{power}", PLAIN), Unread)


@given(st.decimals(allow_nan=False, allow_infinity=False, min_value=-(10**9), max_value=10**9, places=4))
def test_a_decimal_means_what_decimal_says(number: Decimal) -> None:
    reading = read(f"{number:f} mL", unit("mL"))
    assert isinstance(reading, Reading)
    assert reading.number == Fraction(number)
    assert reading.step == Fraction(1, 10_000)


@given(st.integers(0, 10**12), st.integers(0, 6), st.sampled_from([".", ","]))
def test_grouped_thousands_change_nothing(digits: int, places: int, mark: str) -> None:
    number = Fraction(digits, 10**places)
    text = f"{Decimal(digits).scaleb(-places):,f}"
    if mark == ",":
        text = text.translate(str.maketrans(",.", ".,"))
    reading = read(text, unit("mL"), Style(mark=mark))
    assert isinstance(reading, Reading)
    assert reading.number == number


TYPED = st.lists(
    st.sampled_from(
        [
            *"0123456789.,/-+:%$€ eE",
            "½",
            "⅞",
            "²",
            "–",
            "−",
            "\u00a0",
            "mL",
            "oz",
            "fl oz",
            "USD",
            " to ",
            "in",
            '"',
            "°F",
        ]
    ),
    max_size=16,
).map("".join)
ASKED = st.sampled_from([PLAIN, DAY_COUNT, unit("°C apart"), unit("mL/min"), unit("$/mL"), *UNITS])
STYLES = st.sampled_from([Style(), COMMA, EURO, Style(dates="m/d/y"), Style(dates="d/m/y")])


@given(st.one_of(st.text(max_size=LONGEST_ANSWER + 20), TYPED), ASKED, STYLES)
@example("1" * 200, PLAIN, Style())
@example("1/" + "9" * 198, PLAIN, Style())
@example("," * 200, PLAIN, Style())
def test_whatever_is_typed_is_read_or_unread(text: str, asked: object, style: Style) -> None:
    result = read(text, asked, style)  # type: ignore[arg-type]
    if isinstance(result, Unread):
        assert result.why
    else:
        assert result.unit.kind == asked.kind  # type: ignore[attr-defined]
        assert result.step > 0
    assert result.text == text
