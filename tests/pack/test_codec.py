"""The model as JSON and back."""

import datetime
import json
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quizkit.formula import Computed, Dates, Even, Given, Listed, Ratios, RatioValue, Row, Rows, parse
from quizkit.pack.codec import from_json, plain, sha256, to_json
from quizkit.pack.model import Choice, Lesson, Match, Module, Numeric, Option, Order, Pack, Question, Slip
from quizkit.pack.nodes import Element
from quizkit.pack.scheme import Check, ModuleScheme, Period, Scheme, Site
from quizkit.pack.shelf import Column, Shelf
from quizkit.scoring.tolerance import EXACTLY, Tolerance
from quizkit.units import UNITS, unit

ROW = Row(
    "Keel",
    (
        ("name", "Keel"),
        ("ratio", RatioValue(Fraction(2), Fraction(1), "volume")),
        ("price", Fraction(46)),
        ("until", datetime.date(2026, 5, 31)),
    ),
)
QUESTION = Question(
    id="m/q",
    topic="shares",
    prompt=(Element("p", (), ("Take ", Element("value", (("formula", "a"),)))),),
    parts=(
        Numeric(
            name="answer",
            ask=(),
            formula="a * 2",
            unit="mL",
            tolerance=Tolerance(within=Fraction(1, 50), relative=True),
            plausible=(Fraction(1, 10**6), Fraction(1, 10**3)),
            slips=(Slip("a.mL + 1", ("No.",)),),
        ),
        Numeric(name="n", ask=(), formula="2", unit="", tolerance=EXACTLY),
        Choice("c", (), (Option(("x",), True, "a > a"), Option(("y",), False))),
        Order("o", (("a",), ("b",))),
        Match("m", ((("a",), ("b",)),)),
    ),
    givens=(
        Given("a", unit("mL"), Even(Fraction(1), Fraction(1, 3), 4), "fraction"),
        Given("b", None, Listed((datetime.date(2026, 1, 31),))),
        Given("c", unit("%"), Listed((Fraction(1, 4),))),
        Given("d", None, Ratios(((Fraction(10), Fraction(1)),), "weight")),
        Given("e", None, Dates(datetime.date(2026, 1, 1), 5, 3)),
        Given("f", None, Rows((ROW,))),
        Given("g", unit("mL"), Computed(parse("a * 2"), unit("mL"), Fraction(1, 100))),
    ),
    where=("a > a",),
    left_out=((0, 2), (7, 1)),
)
MODULE = Module(
    "m",
    ModuleScheme("M", "m", Check(Fraction(4, 5), Period(24, "hours"), Period(1, "years"), (("shares", 2),), ())),
    (Lesson("1-a", "A", (Element("question", (("id", "m/q"),)),)),),
    (QUESTION,),
)
PACK = Pack(
    Scheme("X", sites=(Site("main", "X", "UTC"),)), Shelf((Column("price", "price", "amount", "$"),), (ROW,)), (MODULE,)
)


def test_a_pack_comes_back_as_it_was():
    assert from_json(Pack, to_json(PACK)) == PACK


def test_a_pack_of_before_a_field_came_reads_as_it_was_and_keeps_its_bytes():
    assert b"turned" not in to_json(PACK)
    turned = replace(QUESTION, parts=(replace(QUESTION.parts[0], turned=True),))
    assert b'"turned":true' in to_json(turned)
    assert from_json(Question, to_json(turned)) == turned
    with pytest.raises(KeyError):
        from_json(Question, to_json(turned).replace(b'"fraction":false,', b""))


def test_numbers_are_exact_text_and_keys_are_sorted():
    text = to_json(PACK).decode()
    assert '"plausible":["1/1000000","1/1000"]' in text
    assert list(json.loads(text)) == sorted(json.loads(text))


def test_a_pack_joined_from_pieces_is_the_same_text_as_one_written_whole():
    whole = json.dumps(plain(PACK), ensure_ascii=False, sort_keys=True, separators=(",", ":"))
    assert to_json(PACK).decode() == to_json(PACK).decode() == whole


def test_the_hash_moves_with_any_change():
    assert sha256(QUESTION) != sha256(replace(QUESTION, topic="x"))
    assert len(sha256(PACK)) == 64


@pytest.mark.parametrize("symbol", [one.symbol for one in UNITS] + ["g/mL", "mg/m³", "$/mL", "mm/s", "°C apart", ""])
def test_a_unit_is_found_again_by_its_symbol(symbol):
    assert unit(unit(symbol).symbol) == unit(symbol)


@pytest.mark.parametrize("text", ["[]", "{}", "null", '{"is":"Pack"}', "3"])
def test_anything_else_is_refused(text):
    with pytest.raises((KeyError, TypeError, ValueError, AttributeError)):
        from_json(Pack, text)


TREES = st.recursive(
    st.text(max_size=5),
    lambda inner: st.lists(inner, max_size=3).map(lambda kids: Element("p", (("a", "b"),), tuple(kids))),
    max_leaves=8,
)


@given(TREES)
def test_any_text_comes_back(node):
    lesson = Lesson("l", "t", (node,))
    assert from_json(Lesson, to_json(lesson)) == lesson


def test_a_question_is_found_by_its_full_id():
    assert PACK.question("m/q") is QUESTION
    assert PACK.module("m").lessons[0].questions == ("m/q",)
    with pytest.raises(KeyError):
        PACK.question("m/none")
