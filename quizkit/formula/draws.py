"""What a given is drawn from. Numbers are in the coherent base; order is the author's."""

import datetime
from dataclasses import dataclass
from fractions import Fraction
from typing import TypeAlias

from quizkit.formula.tree import Formula
from quizkit.formula.values import RatioValue, Row, Value
from quizkit.units import Unit


@dataclass(frozen=True, slots=True)
class Even:
    """An even grid: start, start + step, … , `count` values."""

    start: Fraction
    step: Fraction
    count: int

    def value(self, place: int) -> Value:
        """The value at a place, from 0."""
        return self.start + place * self.step


@dataclass(frozen=True, slots=True)
class Listed:
    """One of a list of numbers or of dates; one alone is a constant."""

    values: tuple[Fraction | datetime.date, ...]

    @property
    def count(self) -> int:
        """How many there are."""
        return len(self.values)

    def value(self, place: int) -> Value:
        """The value at a place, from 0."""
        return self.values[place]


@dataclass(frozen=True, slots=True)
class Ratios:
    """One of a list of ratios of the same basis, "volume" or "weight"; sides are (a, b), base first."""

    sides: tuple[tuple[Fraction, Fraction], ...]
    basis: str

    @property
    def count(self) -> int:
        """How many there are."""
        return len(self.sides)

    def value(self, place: int) -> Value:
        """The ratio at a place, from 0."""
        return RatioValue(*self.sides[place], self.basis)


@dataclass(frozen=True, slots=True)
class Dates:
    """An even run of dates, `step` days apart."""

    start: datetime.date
    step: int
    count: int

    def value(self, place: int) -> Value:
        """The date at a place, from 0."""
        return self.start + datetime.timedelta(days=place * self.step)


@dataclass(frozen=True, slots=True)
class Rows:
    """One of some rows of the shelf."""

    rows: tuple[Row, ...]

    @property
    def count(self) -> int:
        """How many there are."""
        return len(self.rows)

    def value(self, place: int) -> Value:
        """The row at a place, from 0."""
        return self.rows[place]


@dataclass(frozen=True, slots=True)
class Computed:
    """Not drawn: worked out of other givens.

    With `step` (in the coherent base, from an origin of the unit's own zero) it is rounded, halves away from zero, and
    worth exactly what it shows.
    """

    formula: Formula
    unit: Unit | None = None
    step: Fraction | None = None


Draw: TypeAlias = Even | Listed | Ratios | Dates | Rows | Computed


@dataclass(frozen=True, slots=True)
class Given:
    """A named value of a question, the unit that it is shown in (None for what has none), and its draw."""

    name: str
    unit: Unit | None
    draw: Draw
    style: str = "decimal"
    """"decimal" or "fraction": how the author wrote its numbers."""
