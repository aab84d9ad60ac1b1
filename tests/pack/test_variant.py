"""A variant shows its numbers, never its key, and marks what is typed as a fair trainer would."""

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quizkit.formula import Even, Given, Listed, Ratios
from quizkit.pack.model import Choice, Match, Numeric, Option, Order, Question, Slip
from quizkit.pack.nodes import Element
from quizkit.pack.variant import NoSuchVariant, Numbers
from quizkit.scoring.reading import Style
from quizkit.scoring.tolerance import EXACTLY, within_share
from quizkit.units import unit

ML = unit("mL")
TWO_PERCENT = within_share(Fraction(1, 50))


def value(formula: str, **attrs: str) -> Element:
    return Element("value", (("formula", formula), *attrs.items()))


def hardener(left_out: tuple[tuple[int, int], ...] = ()) -> Question:
    return Question(
        id="ratio-pairing/hardener",
        topic="shares",
        prompt=(Element("p", (), ("Takes ", value("filler"), " at ", value("ratio"), ".")),),
        parts=(
            Numeric(
                "answer",
                (),
                "hardener_for(filler, ratio)",
                "mL",
                TWO_PERCENT,
                slips=(Slip("filler * ratio.a", ("Upside down.",)), Slip("filler / (ratio.a + ratio.b)", ("Split.",))),
                working=(value("filler"), " ÷ ", value("ratio.a"), " = ", value("answer")),
                shown=Fraction(1, 10),
            ),
        ),
        givens=(
            Given("filler", ML, Even(60 * ML.factor, 5 * ML.factor, 37)),
            Given("ratio", None, Ratios(((Fraction(10), Fraction(1)),), "volume")),
        ),
        left_out=left_out,
    )


def split() -> Question:
    """A total split at 4:1: side B asked from side A, and a decision on it."""
    return Question(
        id="ratio-pairing/split",
        topic="shares",
        prompt=(Element("p", (), (value("total"),)),),
        parts=(
            Numeric("base", ("How much base?",), "total * 4 / 5", "mL", TWO_PERCENT, shown=Fraction(1)),
            Numeric("hardener", ("And hardener?",), "base / 4", "mL", TWO_PERCENT, shown=Fraction(1)),
            Choice(
                "enough",
                ("Is 30 mL of hardener enough?",),
                (Option(("Yes",), False, "base / 4 <= 0.00003"), Option(("No",), False, "base / 4 > 0.00003")),
            ),
        ),
        givens=(Given("total", ML, Even(100 * ML.factor, 10 * ML.factor, 20)),),
    )


def placed() -> Question:
    items = tuple((word,) for word in ("air off", "seat", "level", "nozzle"))
    pairs = tuple(((left,), (right,)) for left, right in (("A", "one"), ("B", "two"), ("C", "three")))
    return Question("balancing/order", "steps", (), (Order("order", items), Match("match", pairs)))


def test_the_numbers_of_the_givens_stand_in_the_text() -> None:
    prompt = hardener().variant(3).prompt
    assert (
        prompt.strip() == '<p>Takes <span class="value">75 mL</span> at <span class="value">10:1 by volume</span>.</p>'
    )


@pytest.mark.parametrize(
    ("typed", "outcome", "note"),
    [
        ("7.5", "right", ""),
        ("7 1/2 cc", "right", ""),
        ("6.8", "slip", ""),
        ("750 mL", "slip", ""),
        ("75", "wrong", "power of ten"),
        ("9", "wrong", ""),
        ("", "unread", ""),
        ("7.5 g", "unread", ""),
    ],
)
def test_an_answer_is_marked_as_a_fair_trainer_would(typed: str, outcome: str, note: str) -> None:
    told = hardener().variant(3).grade({"answer": typed})
    assert (told.parts["answer"].outcome, told.parts["answer"].note) == (outcome, note)
    assert told.marks == (1 if outcome == "right" else 0)
    assert (told.unread == ("answer",)) == (outcome == "unread")


def test_a_slip_is_told_in_its_authors_words() -> None:
    assert hardener().variant(3).grade({"answer": "6.8"}).parts["answer"].feedback == "<p>Split.</p>"


def test_a_share_typed_for_a_percent_is_told_in_whole_words() -> None:
    """3/16 where 18.75 % is asked: a plain number has no symbol, and the sentence must not end without it."""
    part = Numeric("answer", (), "filler / total", "%", TWO_PERCENT, shown=Fraction(1))
    givens = (Given("filler", ML, Listed((3 * ML.factor,))), Given("total", ML, Listed((16 * ML.factor,))))
    graded = Question("level/part", "level", (), (part,), givens=givens).variant(0).grade({"answer": "3/16"})
    assert graded.parts["answer"].note == "power of ten"
    assert "It would be right in plain numbers." in graded.parts["answer"].feedback


def test_the_working_shows_how() -> None:
    told = hardener().variant(3).grade({"answer": "1"})
    assert [word in told.working for word in ("75 mL", ">10<", "7.5 mL")] == [True, True, True]
    assert told.parts["answer"].right == "7.5 mL"


def test_no_equals_sign_stands_before_the_sign_of_a_rounded_value() -> None:
    by_three = replace(hardener().parts[0], formula="filler / 3")
    told = replace(hardener(), parts=(by_three,)).variant(0).grade({"answer": "1"})
    assert "20.0 mL" in told.working and "= <" in told.working
    told = replace(hardener(), parts=(by_three,)).variant(1).grade({"answer": "1"})
    assert "≈ 21.7 mL" in told.working and "=" not in told.working.replace("class=", "")


def test_a_difference_of_temperatures_is_told_in_degrees_alone() -> None:
    """As the trainee types it: the words before the box say that it is a difference."""
    apart = Numeric("answer", (), "hot - cold", "°C apart", TWO_PERCENT, shown=Fraction(1))
    degrees = unit("°C")
    given = tuple(
        Given(name, degrees, Listed((degrees.to_base(Fraction(number)),)))
        for name, number in (("hot", 31), ("cold", 25))
    )
    question = Question("storage/over", "heat", (), (apart,), given)
    assert question.variant(0).right("answer") == "6 °C"


def test_what_is_shown_before_an_answer_holds_no_key() -> None:
    shown = repr(split().variant(7).public())
    assert "170 mL" in shown
    assert [key in shown for key in ("136", "34", "formula")] == [False, False, False]


def test_a_hole_is_no_variant() -> None:
    question = hardener(left_out=((2, 3), (30, 7)))
    assert list(question.numbers) == [0, 1, *range(5, 30)]
    assert [number in question.numbers for number in (1, 2, 4, 5, 36, 37)] == [True, False, False, True, False, False]
    for number in (2, 36, 37, -1):
        with pytest.raises(NoSuchVariant):
            question.variant(number)


@given(st.integers(1, 60), st.lists(st.tuples(st.integers(0, 59), st.integers(1, 5)), max_size=4))
@settings(max_examples=200)
def test_the_sequence_of_numbers_equals_the_listed_one(size: int, cuts: list[tuple[int, int]]) -> None:
    out = {n for first, count in cuts for n in range(first, first + count) if n < size}
    runs: list[tuple[int, int]] = []
    for n in sorted(out):
        if runs and runs[-1][0] + runs[-1][1] == n:
            runs[-1] = (runs[-1][0], runs[-1][1] + 1)
        else:
            runs.append((n, 1))
    numbers, listed = Numbers(size, tuple(runs)), [n for n in range(size) if n not in out]
    assert list(numbers) == listed
    assert [numbers[place] for place in range(-len(listed), len(listed))] == listed * 2
    with pytest.raises(IndexError):
        numbers[len(listed)]


def test_one_mistake_costs_one_mark() -> None:
    variant = split().variant(0)  # 100 mL: base 80, hardener 20, enough
    told = variant.grade({"base": "25", "hardener": "6.25", "enough": "1"})
    assert [told.parts[name].outcome for name in ("base", "hardener", "enough")] == ["wrong", "right", "right"]
    assert told.parts["hardener"].note == "carried"
    assert told.marks == 2


def test_a_choice_follows_the_order_in_which_it_was_shown() -> None:
    question = split()
    as_written, turned = question.variant(0), question.variant(0, {"enough": (1, 0)})
    assert (as_written.right("enough"), turned.right("enough")) == ("1", "2")
    assert turned.grade({"base": "80", "hardener": "20", "enough": "2"}).right
    assert turned.parts[2].options == ("No", "Yes")


def in_bar(turned: bool) -> Question:
    part = Numeric("answer", (), "gauge", "bar", TWO_PERCENT, shown=Fraction(1, 100), turned=turned)
    draw = Even(unit("psi").to_base(Fraction(45)), unit("psi").factor, 56)
    prompt = ("At ", value("gauge"), ".")
    return Question("applicator-pressure/turn", "pressure", prompt, (part,), (Given("gauge", unit("psi"), draw),))


def test_a_given_typed_again_does_not_answer_what_it_is_in_another_unit() -> None:
    at_85 = in_bar(turned=True).variant(40)
    for typed in ("5.86", "5.86 bar"):
        assert at_85.grade({"answer": typed}).parts["answer"].outcome == "right"
    for typed in ("85 psi", "586 kPa"):
        again = at_85.grade({"answer": typed}).parts["answer"]
        assert (again.outcome, again.why) == ("unread", "the question asks what it is in bar")
    assert at_85.grade({"answer": "85"}).parts["answer"].outcome == "wrong"


def test_a_share_that_is_told_as_a_percent_is_asked_back_as_a_plain_number() -> None:
    part = Numeric("answer", (), "share", "", TWO_PERCENT, shown=Fraction(1, 100), turned=True)
    draw = Given("share", unit("%"), Even(Fraction(1, 10), Fraction(1, 100), 40))
    asked = Question("billing/turn", "markup", (value("share"),), (part,), (draw,)).variant(15)
    again = asked.grade({"answer": "25 %"}).parts["answer"]
    assert (again.outcome, again.why) == ("unread", "the question asks for a plain number")
    assert asked.grade({"answer": "0.25"}).parts["answer"].outcome == "right"


def test_elsewhere_any_unit_of_the_kind_is_taken() -> None:
    assert in_bar(turned=False).variant(40).grade({"answer": "85 psi"}).parts["answer"].outcome == "right"


def test_order_and_pairs_earn_their_share_in_any_arrangement() -> None:
    variant = placed().variant(0, {"order": (2, 0, 3, 1), "match": (1, 2, 0)})
    right = {name: variant.right(name) for name in ("order", "match")}
    assert right == {"order": "2 4 1 3", "match": "1c 2a 3b"}
    assert variant.grade(right).marks == 2
    swapped = variant.grade({"order": "4 2 1 3", "match": "1c 2b 3a"})
    assert (swapped.parts["order"].marks, swapped.parts["match"].marks) == (Fraction(5, 6), Fraction(1, 3))
    assert "5 of 6" in swapped.parts["order"].feedback
    assert variant.grade({"order": "1 1 2", "match": "1c"}).unread == ("order", "match")


def test_the_shops_own_mark_and_money_are_used() -> None:
    question = Question(
        "billing/cost",
        "cost",
        (value("price"),),
        (Numeric("answer", (), "price / 3", "$", EXACTLY),),
        (Given("price", unit("$"), Even(Fraction(2340, 100), Fraction(1, 100), 9)),),
    )
    variant = question.variant(0, style=Style(",", "EUR", "d/m/y"))
    assert "23,40 EUR" in variant.prompt
    assert variant.grade({"answer": "7,80 EUR"}).right


def test_markup_in_a_text_stays_text() -> None:
    question = Question("ppe/x", "t", ("<script>",), (Order("order", (("<b>",), ("c",))),))
    assert "<script>" not in question.variant(0).prompt
    assert "<b>" not in question.variant(0).parts[0].options[0]
