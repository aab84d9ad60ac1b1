"""All parts of a question together: the targets of a variant, and which earlier values a later part carries."""

import datetime
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import TypeAlias

from quizkit.arith import ArithError
from quizkit.formula.dimensions import Kinds, kind_of
from quizkit.formula.errors import FormulaError
from quizkit.formula.single import Values, holds, number
from quizkit.formula.tree import Formula
from quizkit.formula.values import Value
from quizkit.scoring.marks import read_choices
from quizkit.scoring.reading import USUAL, Reading, Style, Unread, read
from quizkit.scoring.tolerance import Tolerance
from quizkit.scoring.verdict import Target, Verdict, judge
from quizkit.units import DATE, NUMBER, Unit
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


def slip_is_plain(slip: Formula, kinds: Kinds, asked: Unit) -> bool:
    """Whether a slip comes out plain and is taken in the asked unit; raises FormulaError where it fits neither way."""
    got = kind_of(slip, kinds)
    if got == asked.kind:
        return False
    if got == NUMBER:
        return True
    what = _("this slip is {got}, the answer wants {wanted}").format(got=str(got), wanted=str(asked.kind))
    mend = _("take the values as plain numbers, like p.psi, or make it of the same kind")
    raise FormulaError("unit-mismatch", 0, len(slip.text), what, mend)


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
    """The trainee's own earlier values: all that may be carried, and those alone that were right on true values."""

    usable: dict[str, Value]
    right: dict[str, Value]

    def aim(self, part: Part, true: Aim, known: Values) -> Aim | None:
        """What the part is held against with the values that it carries; None where that makes no difference."""
        mine = self.right if part.critical else self.usable
        used = {name: mine[name] for name in _uses(part) if name in mine and mine[name] != known[name]}
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
    known = dict(values)
    carry = _Carry({}, {})
    verdicts: dict[str, Verdict] = {}
    last = len(parts) - 1
    for place, (part, aim) in enumerate(zip(parts, true, strict=True)):
        text = typed.get(part.name, "")
        carried = carry.aim(part, aim, known) if carry.usable else None
        if isinstance(part, ChoicePart):
            verdicts[part.name] = _chosen(part, text, aim, carried)
            continue
        assert isinstance(aim, Target)
        assert carried is None or isinstance(carried, Target)
        reading = read(text, part.unit, style)
        verdicts[part.name] = verdict = judge(reading, part.unit, part.tolerance, aim, carried)
        if place == last:
            break
        known[part.name] = _handed_on(part, part.unit.to_base(aim.true))
        if isinstance(reading, Reading):
            _take(carry, part, reading, verdict, aim)
    return verdicts


def _take(carry: _Carry, part: NumericPart, reading: Reading, verdict: Verdict, aim: Target) -> None:
    """Keep an earlier value for later parts: always if right; if not, when it lies where a right one could."""
    if verdict.outcome != "right" and not _could_be(part, reading, aim):
        return
    value = _handed_on(part, reading.value)
    carry.usable[part.name] = value
    if verdict.outcome == "right" and verdict.note != "carried":
        carry.right[part.name] = value


def _could_be(part: NumericPart, reading: Reading, aim: Target) -> bool:
    if part.plausible is not None:
        low, high = part.plausible
        return low <= reading.value <= high
    mine, true = reading.number_in(part.unit), aim.true
    if part.unit.kind == DATE or mine == true:
        return True
    return mine * true > 0 and abs(true) <= FARTHEST * abs(mine) and abs(mine) <= FARTHEST * abs(true)


def _chosen(part: ChoicePart, text: str, true: Aim, carried: Aim | None) -> Verdict:
    assert isinstance(true, Rights)
    chosen = read_choices(text, len(part.options))
    if isinstance(chosen, Unread):
        return Verdict("unread", why=chosen.why)
    if chosen == true.options:
        return Verdict("right")
    if isinstance(carried, Rights) and chosen == carried.options:
        return Verdict("right", "carried")
    return Verdict("wrong")
