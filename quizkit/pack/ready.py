"""A question made ready for marking: its formulas read, its numbers in the asked units."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from quizkit.formula import Grid, parse
from quizkit.formula.values import Value
from quizkit.pack.model import Choice, Match, Numeric, Order, Question
from quizkit.scoring.grade import Aim, ChoicePart, NumericPart, Part, Slip
from quizkit.scoring.reading import DAY_COUNT
from quizkit.scoring.verdict import Target
from quizkit.units import PLAIN, Unit, unit


@dataclass(frozen=True, slots=True)
class Ready:
    """What marking needs of a question, whatever the variant."""

    grid: Grid
    parts: tuple[Part, ...]
    """The parts that ask for a number or a choice, in order; options as authored."""
    placed: tuple[Order | Match, ...]
    """The parts that ask for an order or for pairs."""


@lru_cache(maxsize=4096)
def ready(question: Question) -> Ready:
    """A question made ready, once."""
    return made_ready(question)


def made_ready(question: Question) -> Ready:
    """A question made ready now: for who looks at each question once, which costs less than to remember it."""
    marked = [_part(part) for part in question.parts if isinstance(part, Numeric | Choice)]
    placed = tuple(part for part in question.parts if isinstance(part, Order | Match))
    return Ready(Grid(question.givens), tuple(marked), placed)


def asked_unit(part: Numeric) -> Unit:
    """The unit beside the box of a part."""
    return DAY_COUNT if part.date else unit(part.unit) if part.unit else PLAIN


def _part(part: Numeric | Choice) -> Part:
    if isinstance(part, Choice):
        options = [parse(option.when, where=True) if option.when else option.right for option in part.options]
        return ChoicePart(part.name, tuple(options), part.critical)
    slips = tuple(Slip(parse(slip.formula, slip=True), slip.plain) for slip in part.slips)
    formula, asked = parse(part.formula), asked_unit(part)
    return NumericPart(part.name, formula, asked, part.tolerance, slips, part.plausible, part.critical, part.turned)


def true_values(made: Ready, found: Sequence[Aim]) -> dict[str, Value]:
    """The right answers to the numeric parts as later texts take them: in the coherent base, a date as a date."""
    values: dict[str, Value] = {}
    for part, aim in zip(made.parts, found, strict=True):
        if isinstance(part, NumericPart) and isinstance(aim, Target):
            base = part.unit.to_base(aim.true)
            values[part.name] = datetime.date.fromordinal(int(base)) if part.unit is DAY_COUNT else base
    return values
