"""Judging a sheet: what was measured, read as typed, against the limits that the sheet sets."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from quizkit.arith import ArithError, nearest
from quizkit.formula import FormulaError, Row, number, parse
from quizkit.formula.values import Value, spread
from quizkit.pack.html import render
from quizkit.pack.model import Judge, Sheet
from quizkit.pack.shown import APART, amount
from quizkit.scoring.reading import USUAL, Style, Unread, read
from quizkit.units import PLAIN, unit
from quizkit.words import _

STEP = Fraction(1, 100)
"""The part of a unit by which a judged value is shown whose limits are none or nothing."""
LARGEST = Fraction(10**6)
"""The step of a judged value from which a finer one is looked for: a hundredth of its limits at most."""
FINEST = 6
"""Significant digits of a value so near a limit that those steps do not tell on which side it is."""


@dataclass(frozen=True, slots=True)
class Measured:
    """A measured value: in the coherent base, or why it was not read ("" where nothing was typed yet)."""

    name: str
    value: Fraction | None
    unread: str = ""


@dataclass(frozen=True, slots=True)
class Judged:
    """What a judge says of the measured values; `satisfied` is None while values are missing."""

    name: str
    satisfied: bool | None
    shown: str
    """The judged value as a person reads it, empty while there is none."""
    limits: str
    words: str
    """HTML of what to do where it is not satisfied; empty where it is."""


def judge_words(name: str) -> str:
    """A judge's name as a person reads it."""
    return name.replace("_", " ")


@dataclass(frozen=True, slots=True)
class SheetJudged:
    """All values and judges of a sheet."""

    measured: tuple[Measured, ...]
    judges: tuple[Judged, ...]

    @property
    def satisfied(self) -> bool:
        """Whether every value was read and every judge is satisfied."""
        return all(one.value is not None for one in self.measured) and all(one.satisfied for one in self.judges)


def judge_sheet(sheet: Sheet, typed: Mapping[str, str], material: Row | None, style: Style = USUAL) -> SheetJudged:
    """Judge typed measures. `material` is the shelf row that was used, whose fields the judges may name."""
    measured = tuple(_measured(one.name, one.unit, typed.get(one.name, ""), style) for one in sheet.measures)
    values: dict[str, Value] = {one.name: one.value for one in measured if one.value is not None}
    if material is not None:
        values.update(spread("material", material))
    return SheetJudged(measured, tuple(_judged(judge, values, style) for judge in sheet.judges))


def _measured(name: str, symbol: str, text: str, style: Style) -> Measured:
    if not text.strip():
        return Measured(name, None)
    found = read(text, unit(symbol) if symbol else PLAIN, style)
    return Measured(name, None, found.why) if isinstance(found, Unread) else Measured(name, found.value)


def _judged(judge: Judge, values: Mapping[str, Value], style: Style) -> Judged:
    limits = _limits(judge, style)
    formula = parse(judge.formula)
    if not all(path in values or path.split(".")[0] in values for path in formula.paths):
        return Judged(judge.name, None, "", limits, "")
    try:
        value = number(formula, values)
    except (ArithError, FormulaError) as error:
        return Judged(judge.name, False, str(error), limits, render(judge.feedback))
    fits = _fits(judge, value)
    return Judged(judge.name, fits, _shown(judge, value, style), limits, "" if fits else render(judge.feedback))


def _fits(judge: Judge, value: Fraction) -> bool:
    return (judge.low is None or judge.low <= value) and (judge.high is None or value <= judge.high)


def _shown(judge: Judge, value: Fraction, style: Style) -> str:
    """A judged value with no more figures than its limits are worth; what is shown never stands across a limit."""
    shown_in = unit(judge.unit) if judge.unit else PLAIN
    limits = [size for one in (judge.low, judge.high) if one is not None and (size := abs(shown_in.from_base(one)))]
    step = LARGEST if limits else STEP
    while any(one < 100 * step for one in limits):
        step /= 10
    near = shown_in.to_base(nearest(shown_in.from_base(value), step))
    if _fits(judge, near) is _fits(judge, value):
        return _told(near, judge, style)
    return _told(value, judge, style, digits=FINEST)


def _limits(judge: Judge, style: Style) -> str:
    low = "" if judge.low is None else _told(judge.low, judge, style)
    high = "" if judge.high is None else _told(judge.high, judge, style)
    if low and high:
        return _("between {low} and {high}").format(low=low, high=high)
    return _("at most {high}").format(high=high) if high else _("at least {low}").format(low=low)


def _told(value: Fraction, judge: Judge, style: Style, digits: int | None = None) -> str:
    """A judged value in the judge's unit, as a sheet tells it: "-11 °C", where its unit alone is "°C apart"."""
    return amount(value, unit(judge.unit) if judge.unit else PLAIN, style, digits=digits).removesuffix(APART)
