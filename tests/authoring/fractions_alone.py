"""Why each point of a question is left out, told by exact fractions alone, one point after another.

Slow and plain, with no arrays and nothing remembered: what the proof is held against.
"""

import datetime
from fractions import Fraction

from quizkit.arith import ArithError, nearest
from quizkit.authoring.reasons import (
    EDGE_OF_CHOICE,
    FIRST_SLIP,
    IMPLAUSIBLE,
    NO_VALUE,
    NOT_LET,
    NOTHING_RIGHT,
    ROUNDING,
    STANDS,
    ZERO,
)
from quizkit.formula import holds, number, parse
from quizkit.formula.grid import drawn_values, worked
from quizkit.pack.ready import made_ready
from quizkit.scoring.grade import ChoicePart
from quizkit.units import DATE


def reason(question, place, steps, edge_of_choice=False):
    """The reason of one point and its right answers in the asked units, by part.

    `steps` are the question's own steps. Whether a choice is within 1e-9 of its edge is the arrays' to say
    (`edge_of_choice`).
    """
    made = made_ready(question)
    known, lost = _values(made.grid, place)
    trues = {}
    if not all(_holds(parse(text, where=True), known) for text in question.where):
        return NOT_LET, trues
    if lost:
        return NO_VALUE, trues
    first = _without_slips(made, known, trues, edge_of_choice)
    return (_slips(made, known, steps) if first == STANDS else first), trues


def _values(grid, place):
    known, lost = {}, False
    for given, count in zip(reversed(grid.drawn), reversed(grid.counts), strict=True):
        place, at = divmod(place, count)
        known.update(drawn_values(given, at))
    for given, draw in grid.computed:
        try:
            known[given.name] = worked(draw, known)
        except (ArithError, LookupError):
            lost = True
    return known, lost


def _holds(formula, known):
    if not set(formula.names) <= {name.split(".")[0] for name in known}:
        return False
    try:
        return holds(formula, known)
    except ArithError:
        return False


def _without_slips(made, known, trues, edge_of_choice):
    for part in made.parts:
        if isinstance(part, ChoicePart):
            if edge_of_choice:
                return EDGE_OF_CHOICE
            if not any(option if isinstance(option, bool) else _holds(option, known) for option in part.options):
                return NOTHING_RIGHT
            continue
        try:
            base = number(part.formula, known)
        except ArithError:
            return NO_VALUE
        true = trues[part.name] = part.unit.from_base(base)
        known[part.name] = _as_value(part, base)
        low, high = part.plausible or (None, None)
        if true == 0 and not (part.plausible and part.unit.from_base(low) <= 0 <= part.unit.from_base(high)):
            return ZERO
        if part.plausible and not low <= base <= high:
            return IMPLAUSIBLE
    return STANDS


def _slips(made, known, steps):
    first = FIRST_SLIP
    for part in made.parts:
        if isinstance(part, ChoicePart):
            continue
        base = number(part.formula, known)
        true, step = part.unit.from_base(base), steps[part.name]
        within = part.tolerance.within is not None
        if within and step is not None and not part.tolerance.accepts(true, Fraction(nearest(true, step)), step):
            return ROUNDING
        for place, slip in enumerate(part.slips):
            try:
                value = number(slip.formula, known)
            except ArithError:
                continue
            wrong = value if slip.plain else part.unit.from_base(value)
            if part.tolerance.accepts(true, wrong, Fraction(0)):
                return first + place
            if step is not None and part.tolerance.accepts(true, Fraction(nearest(wrong, step)), step):
                return first + place
        first += len(part.slips)
        known[part.name] = _as_value(part, base)
    return STANDS


def _as_value(part, base):
    return datetime.date.fromordinal(int(base)) if part.unit.kind == DATE else base
