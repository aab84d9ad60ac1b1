"""All parts of a question together: the targets of a variant, and which earlier values a later part carries."""

import datetime
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import partial
from typing import TypeAlias

from quizkit.arith import ArithError
from quizkit.formula.single import Values, holds, number
from quizkit.formula.tree import Formula
from quizkit.formula.values import Value
from quizkit.scoring.marks import read_choices
from quizkit.scoring.reading import USUAL, Reading, Style, Unread, read
from quizkit.scoring.tolerance import Tolerance
from quizkit.scoring.verdict import RIGHT, WRONG, Target, Verdict, judge
from quizkit.units import DATE, Unit
from quizkit.words import _

FARTHEST = 100
"""How many times too large or too small a wrong value may be and still be carried, where no `Plausible` bounds it."""


@dataclass(frozen=True, slots=True)
class Slip:
    """A foreseen wrong method; `plain` where it comes out as a plain number that is taken in the asked unit."""

    formula: Formula
    plain: bool = False


@dataclass(frozen=True, slots=True)
class NumericPart:
    """A part that asks for a number in a unit (`units.PLAIN` for none, `reading.DAY_COUNT` for a date)."""

    name: str
    formula: Formula
    unit: Unit
    tolerance: Tolerance
    slips: tuple[Slip, ...] = ()
    plausible: tuple[Fraction, Fraction] | None = None
    """Bounds of the right answer, both in, in the coherent base."""
    critical: bool = False
    turned: bool = False
    """Whether the question tells the right answer in another unit: to turn one unit into the other is what it asks."""


@dataclass(frozen=True, slots=True)
class ChoicePart:
    """A part that asks for a choice; each option is right, wrong, or right where a condition holds."""

    name: str
    options: tuple[bool | Formula, ...]
    critical: bool = False


Part: TypeAlias = NumericPart | ChoicePart


@dataclass(frozen=True, slots=True)
class Rights:
    """The numbers (from 1) of the options that are right in a variant."""

    options: frozenset[int]


Aim: TypeAlias = Target | Rights


def aims(parts: Sequence[Part], values: Values) -> tuple[Aim, ...]:
    """What the answers to all parts of a variant are held against; later parts see the true earlier ones.

    `values` holds the givens by dotted name. Raises ArithError where a right answer has no value; a slip without one
    is None in its target.
    """
    known = dict(values)
    found: list[Aim] = []
    for part in parts:
        found.append(_aim(part, known))
        if isinstance(part, NumericPart):
            known[part.name] = _handed_on(part, number(part.formula, known))
    return tuple(found)


def _aim(part: Part, values: Values) -> Aim:
    if isinstance(part, ChoicePart):
        right = [right if isinstance(right, bool) else holds(right, values) for right in part.options]
        return Rights(frozenset(place + 1 for place, yes in enumerate(right) if yes))
    true = part.unit.from_base(number(part.formula, values))
    return Target(true, tuple(_slip_number(slip, part.unit, values) for slip in part.slips))


def _slip_number(slip: Slip, asked: Unit, values: Values) -> Fraction | None:
    try:
        value = number(slip.formula, values)
    except ArithError:
        return None
    return value if slip.plain else asked.from_base(value)


def _handed_on(part: NumericPart, value: Fraction) -> Value:
    """The value of a part as later formulas take it."""
    return datetime.date.fromordinal(int(value)) if part.unit.kind == DATE else value


@dataclass(slots=True)
class _Carry:
    """The trainee's own earlier values, for who is not right on the true ones; nothing is worked out before."""

    values: Values
    """The givens."""
    earlier: list[tuple[NumericPart, Target, Reading | Unread, Verdict]]
    """The numeric parts answered so far, each with what it was held against and what it turned out to be."""

    def aim(self, part: Part, true: Aim) -> Aim | None:
        """What the part is held against with the values that it carries; None where that makes no difference."""
        uses = _uses(part)
        known, used = dict(self.values), {}
        for one, aim, reading, verdict in self.earlier:
            known[one.name] = _handed_on(one, one.unit.to_base(aim.true))
            if one.name in uses and isinstance(reading, Reading) and _is_carried(one, part, reading, verdict, aim):
                used[one.name] = _handed_on(one, reading.value)
        used = {name: value for name, value in used.items() if value != known[name]}
        if not used:
            return None
        try:
            carried = _aim(part, {**known, **used})
        except (ArithError, ValueError):
            return None
        return None if carried == true else carried


def _uses(part: Part) -> set[str]:
    if isinstance(part, ChoicePart):
        formulas = [right for right in part.options if isinstance(right, Formula)]
    else:
        formulas = [part.formula, *(slip.formula for slip in part.slips)]
    return {name for formula in formulas for name in formula.names}


def grade(
    parts: Sequence[Part],
    true: Sequence[Aim],
    values: Values,
    typed: Mapping[str, str],
    style: Style = USUAL,
) -> dict[str, Verdict]:
    """The verdict on each part, in order. `true` comes from `aims`; a part missing from `typed` is unread."""
    carry = _Carry(values, [])
    verdicts: dict[str, Verdict] = {}
    for part, aim in zip(parts, true, strict=True):
        text = typed.get(part.name, "")
        carried = partial(carry.aim, part, aim) if carry.earlier else None
        if isinstance(part, ChoicePart):
            verdicts[part.name] = _chosen(part, text, aim, carried)
            continue
        assert isinstance(aim, Target)
        reading = _read(part, text, style)
        verdict = judge(reading, part.unit, part.tolerance, aim, carried)  # type: ignore[arg-type]
        verdicts[part.name] = verdict
        carry.earlier.append((part, aim, reading, verdict))
    return verdicts


def _read(part: NumericPart, text: str, style: Style) -> Reading | Unread:
    """What was typed. Where turning units is what is asked, the asked unit alone answers, not the given typed again."""
    reading = read(text, part.unit, style)
    if part.turned and isinstance(reading, Reading) and not reading.unit.measures_like(part.unit):
        asked = _("the question asks what it is in {unit}").format(unit=part.unit.symbol)
        return Unread(text, asked if part.unit.symbol else _("the question asks for a plain number"))
    return reading


def _is_carried(one: NumericPart, part: Part, reading: Reading, verdict: Verdict, aim: Target) -> bool:
    """Whether a later part goes on with an earlier value: always if right; if not, where a right one could lie.

    A critical part goes on with values alone that were right on the true ones.
    """
    if part.critical:
        return verdict.outcome == "right" and verdict.note != "carried"
    return verdict.outcome == "right" or _could_be(one, reading, aim)


def _could_be(part: NumericPart, reading: Reading, aim: Target) -> bool:
    if part.plausible is not None:
        low, high = part.plausible
        return low <= reading.value <= high
    mine, true = reading.number_in(part.unit), aim.true
    if part.unit.kind == DATE or mine == true:
        return True
    return mine * true > 0 and abs(true) <= FARTHEST * abs(mine) and abs(mine) <= FARTHEST * abs(true)


def _chosen(part: ChoicePart, text: str, true: Aim, carried: Callable[[], Aim | None] | None) -> Verdict:
    assert isinstance(true, Rights)
    chosen = read_choices(text, len(part.options))
    if isinstance(chosen, Unread):
        return Verdict("unread", why=chosen.why)
    if chosen == true.options:
        return RIGHT
    own = carried() if carried else None
    if isinstance(own, Rights) and chosen == own.options:
        return Verdict("right", "carried")
    return WRONG
