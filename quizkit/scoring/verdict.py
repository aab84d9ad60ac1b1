"""The order of verdicts: what an answer to one part turns out to be. The first rule that fits decides."""

import math
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import Literal, TypeAlias

from quizkit.scoring.reading import Reading, Unread
from quizkit.scoring.tolerance import Tolerance, rounds_to
from quizkit.units import DATE, PLAIN, UNITS, Unit, unit

VERSION = "1"
"""The version of the marking code, stored with each answer; it changes whenever any mark could."""

Outcome: TypeAlias = Literal["right", "slip", "wrong", "unread"]
Note: TypeAlias = Literal[
    "", "rounded as asked", "rounded finer", "carried", "power of ten", "other unit", "rounded too far"
]
LARGEST_SHIFT = 6


@dataclass(frozen=True, slots=True)
class Target:
    """What an answer is held against: the right number and each slip's, in the asked unit; None where one has none."""

    true: Fraction
    slips: tuple[Fraction | None, ...] = ()


@dataclass(frozen=True, slots=True)
class Verdict:
    """What an answer turned out to be."""

    outcome: Outcome
    note: Note = ""
    slips: tuple[int, ...] = ()
    """Which slips it equals, counting from 0; several where they are alike in this variant."""
    power: int = 0
    """k where the answer is off by 10^k."""
    units: tuple[str, ...] = ()
    """Units in which the typed number would be right."""
    why: str = ""
    """What was not understood, where it is unread."""

    @property
    def mark(self) -> Fraction:
        """One or nothing."""
        return Fraction(self.outcome == "right")


@dataclass(frozen=True, slots=True)
class Answer:
    """A read answer beside all that it is held against; numbers in the asked unit."""

    reading: Reading
    asked: Unit
    number: Fraction
    step: Fraction
    tolerance: Tolerance
    true: Target
    carried: Target | None

    def fits(self, right: Fraction) -> bool:
        """Whether it would be accepted if this were right."""
        return self.tolerance.accepts(right, self.number, self.step)


Rule: TypeAlias = Callable[[Answer], Verdict | None]


def right_on_true(answer: Answer) -> Verdict | None:
    """Accepted as the right answer."""
    return Verdict("right", _rounding(answer)) if answer.fits(answer.true.true) else None


def _rounding(answer: Answer) -> Note:
    if answer.number == answer.true.true:
        return ""
    if answer.tolerance.step is None and not answer.tolerance.cent:
        return ""
    if answer.number == answer.tolerance.rounded(answer.true.true):
        return "rounded as asked"
    return "rounded finer" if answer.tolerance.finer(answer.true.true, answer.number, answer.step) else ""


def right_on_carried(answer: Answer) -> Verdict | None:
    """Accepted for who goes on with the earlier values as typed."""
    return Verdict("right", "carried") if answer.carried and answer.fits(answer.carried.true) else None


def slip_on_true(answer: Answer) -> Verdict | None:
    """A wrong method that the author foresaw."""
    found = _slips(answer, answer.true)
    return Verdict("slip", slips=found) if found else None


def slip_on_carried(answer: Answer) -> Verdict | None:
    """A foreseen wrong method, worked with the earlier values as typed."""
    found = _slips(answer, answer.carried) if answer.carried else ()
    return Verdict("slip", "carried", found) if found else None


def _slips(answer: Answer, target: Target) -> tuple[int, ...]:
    return tuple(place for place, slip in enumerate(target.slips) if slip is not None and answer.fits(slip))


def scale_or_unit(answer: Answer) -> Verdict | None:
    """Off by a power of ten, or right if read in another unit: wrong, and said."""
    power, units = _power_of_ten(answer), _other_units(answer)
    if power:
        return Verdict("wrong", "power of ten", power=power, units=units)
    return Verdict("wrong", "other unit", units=units) if units else None


def _power_of_ten(answer: Answer) -> int:
    true, number = answer.true.true, answer.number
    if answer.asked.kind == DATE or (true > 0) != (number > 0) or not true or not number:
        return 0
    power = round(_size(number) - _size(true))
    if not 1 <= abs(power) <= LARGEST_SHIFT:
        return 0
    scale = Fraction(10) ** power
    return power if answer.tolerance.accepts(true, number / scale, answer.step / scale) else 0


def _size(number: Fraction) -> float:
    """The logarithm to base ten of the size of a number, however large it is."""
    return math.log10(abs(number.numerator)) - math.log10(number.denominator)


def _other_units(answer: Answer) -> tuple[str, ...]:
    reading, asked = answer.reading, answer.asked
    margin = answer.tolerance.margin(answer.true.true)
    low, high = _float(answer.true.true - margin), _float(answer.true.true + margin)
    slack = 1e-9 * max(abs(low), abs(high))
    typed, found = _float(reading.number), []
    for other, scale, shift in _others(asked):
        if not low - slack <= typed * scale + shift <= high + slack or other.symbol == reading.unit.symbol:
            continue
        number = asked.from_base(other.to_base(reading.number))
        if answer.tolerance.accepts(answer.true.true, number, reading.step * other.factor / asked.factor):
            found.append(other.symbol)
    return tuple(found)


def _float(number: Fraction) -> float:
    try:
        return float(number)
    except OverflowError:
        return math.inf if number > 0 else -math.inf


_COMPOUND = (
    *("mL/min", "mL/s", "L/min", "L/h", "fl oz/min", "US gal/min", "in³/min"),
    *("mm/s", "cm/s", "m/min", "in/s", "in/min", "ft/min"),
    *("g/mL", "kg/L", "g/L", "lb/US gal", "mg/m³", "g/m³", "µg/m³"),
    *("$/mL", "$/L", "$/fl oz", "$/US gal", "$/m", "$/ft", "$/in", "g/mol", "kg/mol"),
)


@lru_cache(maxsize=256)
def _others(asked: Unit) -> tuple[tuple[Unit, float, float], ...]:
    """Each other unit of the kind, with the float factor and shift that bring a number in it into the asked unit."""
    known = (PLAIN, *UNITS, *(unit(text) for text in _COMPOUND))
    return tuple(
        (one, float(one.factor / asked.factor), float((one.offset - asked.offset) / asked.factor))
        for one in known
        if one.kind == asked.kind and (one.factor, one.offset) != (asked.factor, asked.offset)
    )


def otherwise_wrong(answer: Answer) -> Verdict | None:
    """Wrong; said where it equals the right answer at its own figures."""
    too_far = rounds_to(answer.true.true, answer.number, answer.step)
    return Verdict("wrong", "rounded too far" if too_far else "")


VERDICTS: tuple[tuple[str, Rule], ...] = (
    ("right on the true values", right_on_true),
    ("right on carried values", right_on_carried),
    ("slip on the true values", slip_on_true),
    ("slip on carried values", slip_on_carried),
    ("off by a power of ten, or right in another unit", scale_or_unit),
    ("wrong", otherwise_wrong),
)
"""The order of verdicts: carried comes before slip, so that one mistake costs one mark."""


def judge(
    reading: Reading | Unread, asked: Unit, tolerance: Tolerance, true: Target, carried: Target | None = None
) -> Verdict:
    """The verdict on one read answer. `true` and `carried` hold numbers in the asked unit."""
    if isinstance(reading, Unread):
        return Verdict("unread", why=reading.why)
    answer = Answer(reading, asked, reading.number_in(asked), reading.step_in(asked), tolerance, true, carried)
    found = (rule(answer) for _name, rule in VERDICTS)
    return next(verdict for verdict in found if verdict is not None)
