"""A small pack, made by hand: one module with a lesson, two questions, and a sheet."""

from fractions import Fraction

import pytest

from quizkit.formula import Even, Given, Ratios, RatioValue, Row
from quizkit.pack.model import (
    Choice,
    Judge,
    Lesson,
    Match,
    Measure,
    Module,
    Numeric,
    Option,
    Order,
    Pack,
    Question,
    Sheet,
    Slip,
    Step,
)
from quizkit.pack.nodes import Element, Node
from quizkit.pack.scheme import Check, ModuleScheme, Period, Scheme, Site
from quizkit.pack.shelf import Column, Shelf
from quizkit.scoring.tolerance import within_share
from quizkit.units import unit

ML = unit("mL")


def p(*words: Node) -> Element:
    return Element("p", (), words)


def value(formula: str) -> Element:
    return Element("value", (("formula", formula),))


SHARE = Question(
    id="pairing/share",
    topic="shares",
    prompt=(p("Filler ", value("filler"), " at ", value("ratio"), ". How much hardener?"),),
    parts=(
        Numeric(
            "answer",
            (),
            "hardener_for(filler, ratio)",
            "mL",
            within_share(Fraction(1, 50)),
            slips=(Slip("filler * ratio.a", ("Upside down.",)),),
            working=(value("answer"),),
            shown=Fraction(1, 10),
        ),
    ),
    givens=(
        Given("filler", ML, Even(60 * ML.factor, 5 * ML.factor, 37)),
        Given("ratio", None, Ratios(((Fraction(10), Fraction(1)),), "volume")),
    ),
)
PICK = Question(
    id="pairing/pick",
    topic="shares",
    prompt=(p("Which <one>?"), Element("figure", (("name", "ports"), ("arg", "2"), ("arg", "1")))),
    parts=(Choice("answer", (), (Option(("the <thin>",), True), Option(("the thick",), False))),),
)
STEPS = Question(
    id="pairing/steps",
    topic="shares",
    prompt=(p("In order, and which with which."),),
    parts=(
        Order("order", (("first",), ("second",), ("third",))),
        Match("match", ((("A",), ("one",)), (("B",), ("two",)), (("C",), ("three",)))),
    ),
)
LESSON = Lesson(
    "pairing/1-shares",
    "Shares & parts",
    (
        Element("caution", (), (p("Gloves on."),)),
        p("Ten parts to one."),
        Element("question", (("id", "pairing/share"),)),
        Element("question", (("id", "pairing/pick"),)),
        Element("source", (), ("common practice",)),
    ),
)
SHEET = Sheet(
    "Pairing: seen at the bench",
    (p("The trainer watches one pair."),),
    ("Keel adhesive",),
    (Step(("Keeps each cap on its side.",), True), Step(("Names the look.",))),
    (Measure("shot_a", "g", ("side A, net",)), Measure("shot_b", "g", ("side B, net",))),
    (Judge("ratio", "shot_a / shot_b", "", Fraction(19, 10), Fraction(21, 10), ("Level again.",)),),
)
SCHEME = ModuleScheme(
    "Ratio pairing",
    "pairing",
    Check(Fraction(4, 5), Period(24, "hours"), Period(24, "months"), (("shares", 2),), (("shares", 1),)),
    practical=True,
)
KEEL = Row(
    "Keel adhesive",
    (
        ("name", "Keel adhesive"),
        ("family", "adhesive"),
        ("ratio", RatioValue(Fraction(2), Fraction(1), "volume")),
    ),
)


@pytest.fixture
def pack() -> Pack:
    columns = (Column("name", "name", "text"), Column("family", "family", "text"), Column("ratio", "ratio", "ratio"))
    return Pack(
        Scheme("Two Bays", sites=(Site("main", "Two Bays", "UTC"),)),
        Shelf(columns, (KEEL,)),
        (Module("pairing", SCHEME, (LESSON,), (SHARE, PICK, STEPS), SHEET),),
    )
