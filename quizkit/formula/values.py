"""The values that formulas meet beside plain numbers: ratios and rows of the shelf.

Numbers are in the coherent base of `units` (m, kg, s, K; temperature points in K; money in whole currency; a percent as
its fraction). A question's values are one flat mapping of dotted names: {"filler": Fraction, "ratio": RatioValue,
"material.price": Fraction, "material.family": "filler"}.
"""

import datetime
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, Literal, TypeAlias

from quizkit.units import RATIO_BY_VOLUME, RATIO_BY_WEIGHT, Kind

Basis: TypeAlias = Literal["volume", "weight"]
RATIO_KINDS: dict[str, Kind] = {"volume": RATIO_BY_VOLUME, "weight": RATIO_BY_WEIGHT}


@dataclass(frozen=True, slots=True)
class RatioValue:
    """A pairing a:b, base named first; its sides are numbers, or arrays of them for many variants at once."""

    a: Any
    b: Any
    basis: str

    def __str__(self) -> str:
        return f"{self.a}:{self.b} by {self.basis}"


@dataclass(frozen=True, slots=True)
class Row:
    """A row of the shelf: its name and its fields. A blank cell has no field here."""

    name: str
    fields: tuple[tuple[str, "Value"], ...]

    def field(self, name: str) -> "Value | None":
        """The value of a field, None for a blank cell."""
        return next((value for field, value in self.fields if field == name), None)


Value: TypeAlias = Fraction | datetime.date | str | RatioValue | Row
"""One exact value: a number in the coherent base, a date, a text, a ratio or a row."""


def spread(name: str, value: Value) -> dict[str, Value]:
    """A value under its name, and each field of a row under its dotted name."""
    if not isinstance(value, Row):
        return {name: value}
    return {name: value, **{f"{name}.{field}": inner for field, inner in value.fields}}
