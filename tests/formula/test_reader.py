"""What a formula may be made of, and where a fault is told."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quizkit.formula import FormulaError, exact, parse

HOSTILE = {
    "9**9**9": "power-too-large",
    "((a**12)**12)**12": "power-too-large",
    "a**101": "power-too-large",
    "a**(50+51)": "power-too-large",
    "1e99": "number-too-large",
    "a" * 201: "formula-too-long",
    "(" * 40 + "a" + ")" * 40: "formula-too-deep",
    "-" * 150 + "a": "formula-too-deep",
    "a.__class__": "bad-name",
    "a._x": "bad-name",
    "__import__(a)": "unknown-function",
    "lambda: a": "bad-word",
    "a if b else c": "bad-word",
    "not a": "bad-word",
    "[a]": "bad-sign",
    "a[0]": "bad-sign",
    "{a}": "bad-sign",
    "a := 1": "bad-sign",
    "a; b": "bad-sign",
    "a\\b": "bad-sign",
    "a\0b": "bad-sign",
    "1_000": "bad-formula",
    "0x10": "bad-formula",
    "1j": "bad-formula",
    "f'x'": "bad-formula",
    "'a' 'b'": "bad-formula",
    "a, b": "bad-formula",
    "(1).real": "bad-formula",
    "min(*a)": "bad-formula",
    "min(**a)": "bad-formula",
    "True": "bad-formula",
    "None": "bad-formula",
    "a(b)": "unknown-function",
    "a == b": "bad-formula",
    "min(a < b, c)": "bad-formula",
    "ceil(a, b)": "wrong-count",
    "min(a)": "wrong-count",
    "ceil": "bad-formula",
    "twa": "bad-formula",
    "": "empty-formula",
    "   ": "empty-formula",
    "a +": "bad-formula",
    "Filler * 2": "bad-name",
    "007": "bad-formula",
}


@pytest.mark.parametrize("text", HOSTILE)
def test_what_is_not_on_the_closed_list_is_refused_by_its_code(text: str) -> None:
    with pytest.raises(FormulaError) as caught:
        parse(text)
    assert caught.value.code == HOSTILE[text]
    assert caught.value.what


@pytest.mark.parametrize(
    ("text", "column", "length"),
    [
        ("  filler × 2", 9, 1),
        ("filler * hardner_for(1, 2)", 9, 11),
        ("(filler + 2", 0, 1),
        ("filler + 2)", 10, 1),
        ("a\n* Bad", 4, 3),
    ],
)
def test_a_fault_is_told_at_its_characters(text: str, column: int, length: int) -> None:
    with pytest.raises(FormulaError) as caught:
        parse(text)
    assert (caught.value.column, caught.value.length) == (column, length)


def test_columns_count_characters_after_a_text_that_is_not_ascii() -> None:
    with pytest.raises(FormulaError) as caught:
        parse("m.family == 'épaisse – ½' and Bad > 1", where=True)
    assert (caught.value.column, caught.value.length) == (30, 3)


def test_a_text_in_quotes_keeps_its_own_signs() -> None:
    assert exact(parse("m.family == 'épaisse'", where=True), {"m.family": "épaisse"}) is True


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("0.1 + 0.2", Fraction(3, 10)),
        ("-2 ** 2", Fraction(-4)),
        ("2 ** 3 ** 1", None),
        ("1e3 / 3", Fraction(1000, 3)),
        (".5 * 4.", Fraction(2)),
        ("10 - 4 - 3", Fraction(3)),
        ("2 + 3 * 4", Fraction(14)),
        ("+7 - -7", Fraction(14)),
        ("0", Fraction(0)),
    ],
)
def test_numerals_are_taken_from_the_text_and_signs_bind_as_in_school(text: str, value: Fraction | None) -> None:
    if value is None:
        with pytest.raises(FormulaError):
            parse(text)
    else:
        assert exact(parse(text), {}) == value


def test_a_chain_of_terms_is_one_level() -> None:
    assert exact(parse("+".join(["1"] * 90)), {}) == 90


def test_a_condition_must_compare() -> None:
    for text in ("a", "a and b", "a + b", "a < b or b < c", "a < 'x'", "a == 'x' == 'y'"):
        with pytest.raises(FormulaError):
            parse(text, where=True)


def test_names_are_told_once_in_the_order_of_use() -> None:
    formula = parse("m.price * used + m.ratio.a - used")
    assert formula.names == ("m", "used")
    assert formula.paths == ("m.price", "used", "m.ratio.a")


ALPHABET = st.sampled_from([*list("ab19.()+-*/<>=,' \n\t\"_^×é½"), "**", "min(", "and", "pi", "in", "ratio.a", "e30"])


@given(st.one_of(st.text(max_size=220), st.lists(ALPHABET, max_size=60).map("".join)), st.booleans(), st.booleans())
def test_any_text_is_a_formula_or_a_fault_inside_it(text: str, slip: bool, where: bool) -> None:
    try:
        formula = parse(text, slip, where)
    except FormulaError as error:
        assert 0 <= error.column <= len(text)
        assert error.length >= 1
        assert error.what
    else:
        assert formula.text == text
