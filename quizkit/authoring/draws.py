"""What a given is drawn from, as its author writes it."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction

from quizkit.authoring.amounts import (
    looks_like_date,
    looks_like_ratio,
    read_amount,
    read_date,
    read_ratio,
    read_step,
    read_unit,
    tell_kind,
)
from quizkit.authoring.notes import Notes
from quizkit.authoring.rows import looks_like_shelf, rows_where
from quizkit.authoring.source import Stretch
from quizkit.authoring.spans import code_spans
from quizkit.formula import Computed, Dates, Even, FormulaError, Given, Listed, Ratios, Rows, parse
from quizkit.pack.shelf import Shelf
from quizkit.units import DIFFERENCE, NUMBER, PLAIN, TEMPERATURE, Quantity, Unit, show
from quizkit.words import _

_RUN = re.compile(r"(?P<start>.+?)\s+to\s+(?P<end>.+?)(?:\s+by\s+(?P<step>.+))?\s*", re.S)
_COMMA = re.compile(r",(?!\d{3}(?!\d))\s*|,\s+")
_DAYS = re.compile(r"(\d{1,5})\s+(days?|weeks?)")
_IN_TO = re.compile(r"(?P<formula>.*?)(?:\s+in\s+(?P<unit>.+?))?(?:\s+to\s+(?P<step>.+))?\s*", re.S)
MOST_VALUES = 100_000
LONGEST_DRAW = 2_000


def read_draw(notes: Notes, name: str, stretch: Stretch, shelf: Shelf) -> Given | None:
    """The given that a cell describes; None, and told, where it cannot be read."""
    stretch = stretch.strip()
    text = stretch.text
    if len(text) > LONGEST_DRAW:
        notes.tell("G01", stretch.spot(0, 1), _("this cell is too long"), _("draw from a range, or from the shelf"))
        return None
    if text.startswith("=") or text.startswith("`="):
        return _computed(notes, name, stretch)
    if looks_like_shelf(text):
        rows = rows_where(notes, stretch, shelf)
        return None if rows is None else Given(name, None, Rows(rows))
    if looks_like_ratio(text):
        return _ratios(notes, name, stretch)
    run = _RUN.fullmatch(text)
    if run and "," not in run["start"]:
        return _run(notes, name, stretch, run)
    return _list(notes, name, stretch)


def _pieces(stretch: Stretch) -> list[Stretch]:
    pieces, start = [], 0
    for comma in _COMMA.finditer(stretch.text):
        pieces.append(stretch.cut(start, comma.start()).strip())
        start = comma.end()
    return [*pieces, stretch.cut(start).strip()]


def _ratios(notes: Notes, name: str, stretch: Stretch) -> Given | None:
    pieces = _pieces(stretch)
    bases = re.findall(r"\bby\s+(volume|weight)", stretch.text)
    if len(set(bases)) > 1:
        notes.tell(
            "G04",
            stretch,
            _("these ratios are partly by volume, partly by weight"),
            _("make two questions of it: sums take one or the other"),
        )
        return None
    last = bases[-1] if bases and re.search(r"by\s+\w+\s*$", pieces[-1].text) else ""
    found = [read_ratio(notes, piece, last) for piece in pieces]
    good = [ratio for ratio in found if ratio is not None]
    if len(good) < len(found) or _twice(notes, stretch, [(r.a, r.b) for r in good]):
        return None
    return Given(name, None, Ratios(tuple((ratio.a, ratio.b) for ratio in good), good[0].basis))


def _twice(notes: Notes, stretch: Stretch, values: list[object]) -> bool:
    if len(set(values)) == len(values):
        return False
    notes.tell("G01", stretch, _("one value stands here twice"), _("delete one of the two"))
    return True


def _list(notes: Notes, name: str, stretch: Stretch) -> Given | None:
    pieces = _pieces(stretch)
    if any(looks_like_date(piece.text) for piece in pieces):
        days = [read_date(notes, piece) for piece in pieces]
        good_days = [day for day in days if day is not None]
        if len(good_days) < len(days) or _twice(notes, stretch, list(good_days)):
            return None
        return Given(name, None, Listed(tuple(good_days)))
    found = [_amount(notes, piece) for piece in pieces]
    good = [amount for amount in found if amount is not None]
    if len(good) < len(found):
        return None
    alike = _alike(notes, pieces, good)
    if alike is None or _twice(notes, stretch, [amount.value for amount in alike]):
        return None
    return Given(name, alike[0].unit, Listed(tuple(amount.value for amount in alike)), _style(alike))


def _amount(notes: Notes, piece: Stretch) -> Quantity | None:
    if piece.text:
        return read_amount(notes, piece)
    notes.tell(
        "G01", piece, _("a value is missing here"), _("write it like '60 mL to 240 mL by 5 mL', or '1 in, 2 in'")
    )
    return None


def _style(amounts: list[Quantity]) -> str:
    return "fraction" if any(amount.style == "fraction" for amount in amounts) else "decimal"


def _alike(notes: Notes, pieces: list[Stretch], amounts: list[Quantity]) -> list[Quantity] | None:
    """The amounts as one kind: a bare number takes the unit of the others, a lone 'apart' makes all differences."""
    home = next((amount.unit for amount in amounts if amount.unit != PLAIN), PLAIN)
    apart = any(amount.unit.kind == DIFFERENCE and "apart" in amount.unit.symbol for amount in amounts)
    if apart and home.kind == TEMPERATURE:
        home = next(amount.unit for amount in amounts if amount.unit.kind == DIFFERENCE)
    found: list[Quantity] = []
    for piece, amount in zip(pieces, amounts, strict=True):
        if amount.unit == PLAIN and home.kind != NUMBER:
            amount = replace(amount, value=home.to_base(amount.value), unit=home)
        elif apart and amount.unit.kind == TEMPERATURE:
            amount = replace(amount, value=amount.value - amount.unit.offset, unit=home)
        if amount.unit.kind != home.kind:
            tell_kind(notes, piece, amount.unit.kind, home.kind)
            return None
        found.append(amount)
    return found


def _run(notes: Notes, name: str, stretch: Stretch, run: re.Match[str]) -> Given | None:
    start, end = (stretch.cut(run.start(group), run.end(group)) for group in ("start", "end"))
    if run["step"] is None:
        mend = _("add it, like '{draw} by 5 days'") if looks_like_date(start.text) else _("add it, like 'by 5 mL'")
        notes.tell("G02", stretch, _("the step of this range is missing"), mend.format(draw=stretch.text))
        return None
    step = stretch.cut(run.start("step"), run.end("step"))
    if looks_like_date(start.text) or looks_like_date(end.text):
        return _dates(notes, name, start, end, step)
    return _even(notes, name, start, end, step)


def _dates(notes: Notes, name: str, start: Stretch, end: Stretch, step: Stretch) -> Given | None:
    first, last = read_date(notes, start), read_date(notes, end)
    found = _DAYS.fullmatch(step.text.strip())
    if found is None or int(found[1]) == 0:
        notes.tell("G02", step, _("this is no step for dates"), _("write it like 'by 5 days'"))
        return None
    if first is None or last is None:
        return None
    days = int(found[1]) * (7 if found[2].startswith("week") else 1)
    count = _count(notes, end, Fraction((last - first).days), Fraction(days))
    return None if count is None else Given(name, None, Dates(first, days, count))


def _even(notes: Notes, name: str, start: Stretch, end: Stretch, step: Stretch) -> Given | None:
    found = [read_amount(notes, piece) for piece in (start, end)]
    ends = [amount for amount in found if amount is not None]
    if len(ends) < 2:
        return None
    apart = "apart" in step.text
    pieces = [start, end]
    if apart:
        size = read_amount(notes, step)
        if size is None:
            return None
        alike = _alike(notes, [*pieces, step], [*ends, size])
    else:
        alike = _alike(notes, pieces, ends)
    if alike is None:
        return None
    low, high = alike[0], alike[1]
    home = low.unit if low.unit != PLAIN else _unit_of_step(notes, step)
    if home is None:
        return None
    if home != low.unit:
        low, high = (replace(one, value=home.to_base(one.value), unit=home) for one in (low, high))
    read = read_step(notes, step, home)
    if read is None:
        return None
    size_in_base = read[0] * home.factor
    count = _count(notes, end, high.value - low.value, size_in_base, (low.value, home))
    if count is None:
        return None
    style = "fraction" if "fraction" in (low.style, high.style, read[1]) else "decimal"
    return Given(name, home, Even(low.value, size_in_base, count), style)


def _unit_of_step(notes: Notes, step: Stretch) -> Unit | None:
    """Ends without a unit are in the unit of their step."""
    found = read_amount(notes, step)
    return None if found is None else found.unit


def _count(
    notes: Notes, end: Stretch, reach: Fraction, step: Fraction, start: tuple[Fraction, Unit] | None = None
) -> int | None:
    """How many values a range has; None, and told, where it is none. `start` is its first, with its unit."""
    steps = reach / step
    if reach <= 0:
        notes.tell("G02", end, _("the range does not go up"), _("put the smaller end first"))
        return None
    if steps.denominator != 1:
        below = step * (steps.numerator // steps.denominator)
        mend = _("both ends belong to it: change the end or the step")
        if start is not None and below:
            first, home = start
            mend = _("both ends belong to it: end at {last}, or change the step").format(last=show(first + below, home))
        notes.tell("G02", end, _("the step does not lead from the start to this end"), mend)
        return None
    if steps >= MOST_VALUES:
        notes.tell("G02", end, _("this range has over {n} values").format(n=MOST_VALUES), _("coarsen the step"))
        return None
    return int(steps) + 1


def _computed(notes: Notes, name: str, stretch: Stretch) -> Given | None:
    """`= formula`, backticks allowed around the formula or around all of it, then `in UNIT` and `to STEP`."""
    body = _computed_body(stretch)
    if body is None:
        notes.tell(
            "G01", stretch, _("this computed given cannot be read"), _("write it like '= (end - start) * price'")
        )
        return None
    formula_place, tail = body
    try:
        formula = parse(formula_place.text)
    except FormulaError as error:
        notes.tell_formula(formula_place, error)
        return None
    found = _IN_TO.fullmatch(" " + tail.text) if tail.text.strip() else None
    if found is None:
        return Given(name, None, Computed(formula))
    if found["formula"].strip():
        notes.tell(
            "G01", tail, _("this after the formula is not understood"), _("write 'in UNIT' or 'in UNIT to STEP'")
        )
        return None
    unit_ = PLAIN
    if found["unit"]:
        read = read_unit(notes, tail.cut(found.start("unit") - 1, found.end("unit") - 1))
        if read is None:
            return None
        unit_ = read
    if not found["step"]:
        return Given(name, unit_, Computed(formula, unit_))
    step = read_step(notes, tail.cut(found.start("step") - 1, found.end("step") - 1), unit_)
    if step is None:
        return None
    return Given(name, unit_, Computed(formula, unit_, step[0] * unit_.factor), step[1])


def _computed_body(stretch: Stretch) -> tuple[Stretch, Stretch] | None:
    """The formula of a computed given and what stands behind it."""
    spans, stray = code_spans(stretch)
    if stray is not None or len(spans) > 1:
        return None
    if spans:
        (span,) = spans
        tail = stretch.cut(span.end)
        inner = span.inner
        if inner.text.startswith("="):
            return _split(inner.cut(1), tail)
        return (inner, tail) if stretch.text[: span.start].strip() == "=" else None
    return _split(stretch.cut(1), None)


def _split(stretch: Stretch, tail: Stretch | None) -> tuple[Stretch, Stretch]:
    """Part a formula from `in UNIT to STEP`: neither word stands in a formula."""
    found = _IN_TO.fullmatch(stretch.text)
    end = found.end("formula") if found else len(stretch.text)
    if tail is not None and tail.text.strip():
        return stretch.strip(), tail
    return stretch.cut(0, end).strip(), stretch.cut(end)


def shown_unit(given: Given, givens: list[Given], kind: object) -> Unit | None:
    """The unit in which a computed given without one is shown: that of the first given it uses of its own kind."""
    if kind == NUMBER:
        return PLAIN
    assert isinstance(given.draw, Computed)
    units = {other.name: other.unit for other in givens}
    for name in given.draw.formula.names:
        found = units.get(name)
        if found is not None and found.kind == kind:
            return found
    return None
