"""What stands behind the formula of an `Answer:`, and `Plausible:`."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from quizkit.authoring.amounts import amount_of, read_amount, read_date, read_step, read_unit, tell_kind
from quizkit.authoring.notes import Notes
from quizkit.authoring.source import Stretch
from quizkit.formula import Formula, is_irrational
from quizkit.scoring.tolerance import EXACTLY, TO_THE_CENT, Tolerance, to_step, within, within_share
from quizkit.units import (
    AREA,
    DATE,
    DIFFERENCE,
    FLOW,
    LENGTH,
    MASS,
    MONEY,
    NUMBER,
    PLAIN,
    TEMPERATURE,
    VOLUME,
    Kind,
    Unit,
    unit,
)
from quizkit.words import _

_FORM = re.compile(
    r"\s*(?:in\s+(?P<unit>.+?))?"
    r"(?:\s*,?\s*(?:\bto\s+(?P<step>.+?)))?"
    r"(?:\s*,?\s*\bwithin\s+(?P<within>.+?))?"
    r"(?:\s*,?\s*\b(?P<exactly>exactly))?"
    r"(?P<date>\s*\bas\s+a\s+date)?\s*\.?\s*",
    re.S,
)
_POINTS = re.compile(r"(\d+(?:\.\d+)?)\s+(?:percent(?:age)?\s+)?points?")
_RANGE = re.compile(r"(?P<low>.+?)\s+to\s+(?P<high>.+)", re.S)


@dataclass(frozen=True, slots=True)
class Form:
    """How an answer is asked: its unit (None for a date), its tolerance, and how a step was written."""

    unit: Unit | None
    tolerance: Tolerance
    style: str = "decimal"


def read_form(
    notes: Notes, place: Stretch, tail: Stretch, formula: Formula, kind: Kind, shown: Unit | None
) -> Form | None:
    """Read what follows the formula of an answer; None, and told, where it cannot stand.

    `place` is where the formula stands, `kind` what it gives, `shown` the unit that its givens are in.
    """
    found = _FORM.fullmatch(tail.text)
    if found is None:
        notes.tell(
            "A01",
            tail.strip() if tail.text.strip() else tail,
            _("this after the formula is not understood"),
            _("write 'in mL, within 2 %', 'in mL to 5 mL', 'exactly' or 'as a date'"),
        )
        return None
    if found["date"] or kind == DATE:
        return _date_form(notes, tail, kind, found)
    asked = _unit(notes, place, tail, found, kind, shown)
    if asked is None:
        return None
    return _with_tolerance(notes, tail, found, asked, formula)


def _date_form(notes: Notes, tail: Stretch, kind: Kind, found: re.Match[str]) -> Form | None:
    if kind != DATE:
        notes.tell("Q21", tail.strip(), _("this formula is {kind}, not a date").format(kind=str(kind)))
        return None
    if not found["date"] or any(found[group] for group in ("unit", "step", "within", "exactly")):
        notes.tell("A01", tail, _("a date is asked 'as a date', and nothing else"), _("write `…` as a date"))
        return None
    return Form(None, EXACTLY)


def _unit(
    notes: Notes, formula: Stretch, tail: Stretch, found: re.Match[str], kind: Kind, shown: Unit | None
) -> Unit | None:
    """The asked unit; left out, it is that of plain numbers or of money."""
    if not found["unit"]:
        home = {NUMBER: PLAIN, MONEY: unit("$")}.get(kind)
        if home is None:
            what = _("this formula is {kind}, and the answer names no unit").format(kind=_with_unit(kind, shown))
            notes.tell("A02", tail, what, _("write 'in' and the unit behind the formula"))
        return home
    asked = read_unit(notes, tail.cut(found.start("unit"), found.end("unit")))
    if asked is None:
        return None
    if kind == DIFFERENCE and asked.kind == TEMPERATURE:
        asked = unit(f"{asked.symbol} apart")
    if asked.kind == kind:
        return asked
    what = _("this formula is {kind}, the answer wants {wanted}").format(
        kind=_with_unit(kind, shown), wanted=_with_unit(asked.kind, asked)
    )
    notes.tell("Q21", formula, what, _way(kind, asked.kind))
    return None


def _with_unit(kind: Kind, shown: Unit | None) -> str:
    return f"{kind} ({shown.symbol})" if shown is not None and shown.symbol else str(kind)


def _way(kind: Kind, wanted: Kind) -> str:
    """How one usually gets from a kind to another on a bench."""
    ways = {
        (LENGTH, VOLUME): _("multiply by a cross-section, such as round_area(width)"),
        (VOLUME, LENGTH): _("divide by a cross-section, such as round_area(width)"),
        (AREA, VOLUME): _("multiply by a length or a thickness"),
        (VOLUME, AREA): _("divide by a length or a thickness"),
        (LENGTH, AREA): _("multiply by a length, or use a sum such as round_area(width)"),
        (VOLUME, MASS): _("multiply by a density"),
        (MASS, VOLUME): _("divide by a density"),
        (FLOW, VOLUME): _("multiply by a time"),
        (VOLUME, FLOW): _("divide by a time"),
    }
    if kind == NUMBER:
        return _("a plain number has no unit: multiply by a given that has one")
    return ways.get((kind, wanted), _("change the unit, or the formula"))


def _with_tolerance(notes: Notes, tail: Stretch, found: re.Match[str], asked: Unit, formula: Formula) -> Form | None:
    if found["exactly"]:
        return _exact_form(notes, tail, found, asked, formula)
    step: tuple[Fraction, str] | None = None
    if found["step"]:
        step = read_step(notes, tail.cut(found.start("step"), found.end("step")), asked)
        if step is None:
            return None
    if found["within"]:
        return _within(notes, tail.cut(found.start("within"), found.end("within")), asked, step)
    if step is None:
        notes.tell(
            "A03", tail, _("this answer does not say how exact it must be"), _("add ', within 2 %', or 'exactly'")
        )
        return None
    if is_irrational(formula.tree):
        notes.tell("A04", tail, _("this formula never comes out even"), _("add ', within 2 %' or an amount"))
        return None
    if asked.kind == MONEY and step[0] * asked.factor == Fraction(1, 100):
        return Form(unit("$"), TO_THE_CENT)
    return Form(asked, to_step(step[0]), step[1])


def _exact_form(notes: Notes, tail: Stretch, found: re.Match[str], asked: Unit, formula: Formula) -> Form | None:
    if found["step"] or found["within"]:
        notes.tell("A01", tail, _("'exactly' takes no step and no tolerance"), _("keep one of them"))
        return None
    if is_irrational(formula.tree):
        notes.tell("A04", tail, _("this formula never comes out even"), _("write 'within' and how far off it may be"))
        return None
    return Form(asked, EXACTLY)


def _within(notes: Notes, place: Stretch, asked: Unit, step: tuple[Fraction, str] | None) -> Form | None:
    size = step[0] if step else None
    style = step[1] if step else "decimal"
    text = re.sub(r"\s+of\s+the\s+right\s+answer\s*$", "", place.text)
    points = _POINTS.fullmatch(text.strip())
    if points:
        if asked.kind != NUMBER:
            notes.tell("A05", place, _("points are for a percent"), _("write an amount, or a percent"))
            return None
        return _amount_form(notes, place, asked, Fraction(points[1]) / 100 / asked.factor, size, style)
    found = read_amount(notes, place.cut(0, len(text)))
    if found is None:
        return None
    if found.unit.symbol == "%":
        return _relative_form(notes, place, asked, found.value, size, style)
    kind, home = asked.kind, asked
    if kind == TEMPERATURE and found.unit.kind in (DIFFERENCE, TEMPERATURE):
        amount = (found.value - found.unit.offset) / asked.factor
    elif found.unit == PLAIN and kind != NUMBER:
        amount = found.value
    elif found.unit.kind == kind or (kind == DIFFERENCE and found.unit.kind == TEMPERATURE):
        amount = (found.value - found.unit.offset) / home.factor
    else:
        tell_kind(notes, place, found.unit.kind, kind)
        return None
    return _amount_form(notes, place, asked, amount, size, style)


def _amount_form(
    notes: Notes, place: Stretch, asked: Unit, amount: Fraction, step: Fraction | None, style: str
) -> Form | None:
    if amount <= 0:
        notes.tell("A05", place, _("a tolerance is over 0"), _("write 'exactly' where nothing may be off"))
        return None
    return Form(asked, within(amount, step), style)


def _relative_form(
    notes: Notes, place: Stretch, asked: Unit, share: Fraction, step: Fraction | None, style: str
) -> Form | None:
    if asked.kind == TEMPERATURE:
        mend = _("write it in degrees, like 'within 1 °C'")
        notes.tell("A05", place, _("a percent of a temperature has no meaning"), mend)
        return None
    if not 0 < share < 1:
        notes.tell("A05", place, _("this tolerance is not between 0 % and 100 %"), _("write it like 'within 2 %'"))
        return None
    return Form(asked, within_share(share, step), style)


def read_plausible(notes: Notes, body: Stretch, kind: Kind, home: Unit | None) -> tuple[Fraction, Fraction] | None:
    """The bounds of what a right answer may be, in the coherent base (a date as its day count)."""
    found = _RANGE.fullmatch(body.text.strip())
    if found is None:
        notes.tell("A07", body, _("this is no range"), _("write it like '1 mL to 40 mL'"))
        return None
    places = [body.cut(found.start(side), found.end(side)) for side in ("low", "high")]
    if home is None:
        days = [read_date(notes, place) for place in places]
        bounds = [Fraction(day.toordinal()) for day in days if day is not None]
    else:
        ends = [_end(notes, place, kind, home) for place in places]
        bounds = [end for end in ends if end is not None]
    if len(bounds) < 2:
        return None
    if bounds[0] > bounds[1]:
        notes.tell("A07", body, _("this range goes down"), _("put the smaller end first"))
        return None
    return bounds[0], bounds[1]


def _end(notes: Notes, place: Stretch, kind: Kind, home: Unit) -> Fraction | None:
    """An end of a range; of a difference, degrees are taken as apart."""
    if kind == DIFFERENCE:
        return read_difference(notes, place, home)
    return amount_of(notes, place, kind, home)


def read_difference(notes: Notes, place: Stretch, home: Unit) -> Fraction | None:
    """A difference of temperatures in the coherent base, 'apart' or not."""
    found = read_amount(notes, place)
    if found is None:
        return None
    if found.unit.kind in (DIFFERENCE, TEMPERATURE):
        return found.value - found.unit.offset
    if found.unit == PLAIN:
        return found.value * home.factor
    tell_kind(notes, place, found.unit.kind, DIFFERENCE)
    return None
