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
ONE, NOTHING = Fraction(1), Fraction(0)


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
        return ONE if self.outcome == "right" else NOTHING


@dataclass(slots=True)
class Answer:
    """A read answer beside all that it is held against; numbers in the asked unit."""

    reading: Reading
    asked: Unit
    number: Fraction
    size: float
    """The number as a float, to pass over quickly what is clearly something else."""
    step: Fraction
    tolerance: Tolerance
    true: Target
    own: Target | Callable[[], Target | None] | None
    """What it is held against with the earlier values as typed, or how that is worked out once it is wanted."""

    @property
    def carried(self) -> Target | None:
        """What it is held against with the earlier values as typed; None where that makes no difference."""
        if callable(self.own):
            self.own = self.own()
        return self.own

    def fits(self, right: Fraction) -> bool:
        """Whether it would be accepted if this were right."""
        sure = self.tolerance.surely(as_float(right), self.size)
        return self.tolerance.accepts(right, self.number, self.step) if sure is None else sure


def as_float(number: Fraction) -> float:
    """The nearest float, infinite where there is none."""
    try:
        return number.numerator / number.denominator
    except OverflowError:
        return math.inf if number > 0 else -math.inf


RIGHT = Verdict("right")

Rule: TypeAlias = Callable[[Answer], Verdict | None]


def right_on_true(answer: Answer) -> Verdict | None:
    """Accepted as the right answer."""
    if not answer.fits(answer.true.true):
        return None
    if answer.tolerance.step is None and not answer.tolerance.cent:
        return RIGHT
    return Verdict("right", _rounding(answer))


def _rounding(answer: Answer) -> Note:
    if answer.number == answer.true.true:
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
    return tuple([place for place, slip in enumerate(target.slips) if slip is not None and answer.fits(slip)])


def scale_or_unit(answer: Answer) -> Verdict | None:
    """Off by a power of ten, or right if read in another unit: wrong, and said."""
    power, units = _power_of_ten(answer), _other_units(answer)
    if power:
        return Verdict("wrong", "power of ten", power=power, units=units)
    return Verdict("wrong", "other unit", units=units) if units else None


def _power_of_ten(answer: Answer) -> int:
    true, number = answer.true.true, answer.number
    size = as_float(true)
    if answer.asked.kind == DATE or size * answer.size <= 0 or math.isinf(answer.size / size):
        return 0
    power = round(math.log10(answer.size / size))
    if not 1 <= abs(power) <= LARGEST_SHIFT:
        return 0
    sure = answer.tolerance.surely(size, answer.size / 10.0**power)
    if sure is not None:
        return power if sure else 0
    scale = Fraction(10) ** power
    return power if answer.tolerance.accepts(true, number / scale, answer.step / scale) else 0


def _other_units(answer: Answer) -> tuple[str, ...]:
    reading, asked, true = answer.reading, answer.asked, answer.true.true
    typed, right, surely = as_float(reading.number), as_float(true), answer.tolerance.surely
    found = []
    for other, scale, shift in _others(asked):
        sure = surely(right, typed * scale + shift)
        if sure is None:
            number = asked.from_base(other.to_base(reading.number))
            sure = answer.tolerance.accepts(true, number, reading.step * other.factor / asked.factor)
        if sure:
            found.append(other.symbol)
    return tuple(found)


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
        if one.kind == asked.kind and not one.measures_like(asked)
    )


def otherwise_wrong(answer: Answer) -> Verdict | None:
    """Wrong; said where it equals the right answer at its own figures."""
    gap, step = abs(as_float(answer.true.true) - answer.size), as_float(answer.step)
    far = gap > step and gap < math.inf
    too_far = not far and rounds_to(answer.true.true, answer.number, answer.step)
    return Verdict("wrong", "rounded too far") if too_far else WRONG


WRONG = Verdict("wrong")


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
    reading: Reading | Unread,
    asked: Unit,
    tolerance: Tolerance,
    true: Target,
    carried: Target | Callable[[], Target | None] | None = None,
) -> Verdict:
    """The verdict on one read answer. `true` and `carried` hold numbers in the asked unit.

    `carried` may be what works it out: it is asked for only by whom the true values do not make right.
    """
    if isinstance(reading, Unread):
        return Verdict("unread", why=reading.why)
    number = reading.number_in(asked)
    answer = Answer(reading, asked, number, as_float(number), reading.step_in(asked), tolerance, true, carried)
    for _name, rule in VERDICTS:
        verdict = rule(answer)
        if verdict is not None:
            return verdict
    raise AssertionError("the last rule takes every answer")
