"""The grid of a question's givens: its points are the variants, numbered from 0, the last given varying fastest."""

import datetime
import itertools
import math
from collections.abc import Container, Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

from quizkit.arith import ArithError, nearest
from quizkit.formula.dimensions import kind_of
from quizkit.formula.draws import Computed, Dates, Draw, Even, Given, Listed, Ratios, Rows
from quizkit.formula.errors import FormulaError
from quizkit.formula.many import EXACT_IN_FLOATS, Arrays
from quizkit.formula.near import near_step
from quizkit.formula.single import exact
from quizkit.formula.values import RATIO_KINDS, RatioValue, Row, Value, spread
from quizkit.units import DATE, NUMBER, ROW, Kind, Unit
from quizkit.words import _

LARGEST_GRID = 4_000_000
"""More points than this are an error for the author: coarsen a step."""

BLOCK = 65_536
"""Points worked at a time: such arrays stay in the processor's cache."""


class GridError(ValueError):
    """Computed givens that do not come to an end: `name` is one of the loop."""

    def __init__(self, name: str) -> None:
        super().__init__(_("'{name}' is computed from itself").format(name=name))
        self.name = name


@dataclass(frozen=True, slots=True)
class Block:
    """A run of points of the grid as columns for `arrays`."""

    first: int
    """The number of its first point."""
    shape: tuple[int, ...]
    """Results broadcast to this shape; flattened, they are the points in order."""
    columns: Mapping[str, Any]
    near: Mapping[str, Any]
    """By computed given: bool, True where it, or one that it may be made of, lies too near a step, so that it is to be
    worked again in fractions. False where nowhere."""

    @property
    def count(self) -> int:
        """How many points it holds."""
        return math.prod(self.shape)


@dataclass(frozen=True, slots=True)
class Grid:
    """The givens of a question in the author's order. Raises GridError where computed givens loop."""

    givens: tuple[Given, ...]
    drawn: tuple[Given, ...] = field(init=False, repr=False, compare=False)
    """The givens that span the grid."""
    counts: tuple[int, ...] = field(init=False, repr=False, compare=False)
    """How many values each drawn given has."""
    size: int = field(init=False, repr=False, compare=False)
    """How many points there are; 1 for a question without givens."""
    computed: tuple[tuple[Given, Computed], ...] = field(init=False, repr=False, compare=False)
    """The computed givens in an order in which each finds what it uses."""

    def __post_init__(self) -> None:
        drawn = tuple(given for given in self.givens if not isinstance(given.draw, Computed))
        counts = tuple(_count(given.draw) for given in drawn)
        for name, value in (("drawn", drawn), ("counts", counts), ("size", math.prod(counts))):
            object.__setattr__(self, name, value)
        object.__setattr__(self, "computed", _in_order(self.givens))

    def values(self, number: int) -> dict[str, Value]:
        """The exact values of one point under their dotted names.

        Raises IndexError outside the grid and ArithError where a computed given has no value there.
        """
        if not 0 <= number < self.size:
            raise IndexError(number)
        found: dict[str, Value] = {}
        for given, count in zip(reversed(self.drawn), reversed(self.counts), strict=True):
            number, place = divmod(number, count)
            found.update(drawn_values(given, place))
        for given, draw in self.computed:
            found[given.name] = worked(draw, found)
        return found

    def blocks(self, most: int = BLOCK, used: Container[str] | None = None) -> Iterator[Block]:
        """All points as columns, in order, at most about `most` at a time.

        `used` are the fields of rows that are wanted, as dotted names; None for all of them.
        """
        counts = self.counts
        whole = len(counts)
        while whole and math.prod(counts[whole - 1 :]) <= most:
            whole -= 1
        columns: dict[str, Any] = {}
        axes: dict[str, int] = {}
        for axis, given in enumerate(self.drawn):
            made = _columns(given, axis, len(counts), used)
            columns.update(made)
            axes.update(dict.fromkeys(made, axis))
        if not whole:
            yield self._block(0, counts, columns)
            return
        run = max(most // max(math.prod(counts[whole:]), 1), 1)
        first = 0
        for outer in itertools.product(*map(range, counts[: whole - 1])):
            for start in range(0, counts[whole - 1], run):
                pieces = [slice(place, place + 1) for place in outer] + [slice(start, start + run)]
                shape = [len(range(count)[piece]) for count, piece in zip(counts, pieces, strict=False)]
                cut = {name: _cut(column, axes[name], pieces) for name, column in columns.items()}
                block = self._block(first, (*shape, *counts[whole:]), cut)
                yield block
                first += block.count

    def _block(self, first: int, shape: tuple[int, ...], columns: dict[str, Any]) -> Block:
        doubts: dict[str, Any] = {}
        near: Any = False
        at_work = Arrays(columns)
        for given, draw in self.computed:
            many = at_work.of(draw.formula)
            columns[given.name], beside = _rounded_columns(many.value, draw)
            doubts[given.name] = near = near | many.near | beside
        return Block(first, shape, columns, doubts)

    def kinds(self, fields: Mapping[str, Kind]) -> dict[str, Kind]:
        """The kind of each dotted name; `fields` holds those of the shelf ("price": MONEY).

        A field that is blank in one of the rows has none.
        Raises FormulaError (of a computed given's formula) where one does not stand.
        """
        found: dict[str, Kind] = {}
        for given in self.drawn:
            found[given.name] = _kind(given)
            if isinstance(given.draw, Rows):
                found.update(_field_kinds(given.name, given.draw, fields))
        for given, draw in self.computed:
            found[given.name] = computed_kind(draw, found)
        return found


def _in_order(givens: tuple[Given, ...]) -> tuple[tuple[Given, Computed], ...]:
    waiting = {given.name: (given, given.draw) for given in givens if isinstance(given.draw, Computed)}
    order: list[tuple[Given, Computed]] = []
    while waiting:
        ready = [name for name, (_given, draw) in waiting.items() if not set(draw.formula.names) & waiting.keys()]
        if not ready:
            raise GridError(next(iter(waiting)))
        order += [waiting.pop(name) for name in ready]
    return tuple(order)


def drawn_values(given: Given, place: int) -> dict[str, Value]:
    """What a drawn given is worth at a place of its own, under its dotted names."""
    assert not isinstance(given.draw, Computed)
    return spread(given.name, given.draw.value(place))


def computed_kind(draw: Computed, kinds: Mapping[str, Kind]) -> Kind:
    """The kind of a computed given. Raises FormulaError where its formula does not stand or misses its unit."""
    got = kind_of(draw.formula, kinds)
    if draw.unit is not None and got != draw.unit.kind:
        what = _("this formula is {got}, its unit is of {wanted}").format(got=str(got), wanted=str(draw.unit.kind))
        raise FormulaError("unit-mismatch", 0, len(draw.formula.text), what, _("change the formula or the unit"))
    return got


def worked(draw: Computed, values: Mapping[str, Value]) -> Value:
    """The exact value of a computed given, rounded to its step. Raises ArithError where it has none."""
    value = exact(draw.formula, values)
    if isinstance(value, bool | str) or value is None:
        raise ArithError(_("this is no value for a given"))
    if draw.step is None or not isinstance(value, Fraction):
        return value
    return rounded(value, draw.step, draw.unit)


def rounded(value: Fraction, step: Fraction, unit: Unit | None) -> Fraction:
    """A base value at the nearest step, counted from the zero of its unit; halves go away from zero."""
    origin = unit.offset if unit is not None else Fraction(0)
    return nearest(value - origin, step) + origin  # type: ignore[no-any-return]


def _rounded_columns(value: Any, draw: Computed) -> tuple[Any, Any]:
    if draw.step is None:
        return value, False
    origin = draw.unit.shift if draw.unit is not None else 0.0
    step = float(draw.step)
    return nearest(value - origin, step) + origin, near_step(value - origin, step, 0.5, abs(value) + origin)


def _count(draw: Draw) -> int:
    return 1 if isinstance(draw, Computed) else draw.count


def _kind(given: Given) -> Kind:
    match given.draw:
        case Ratios(basis=basis):
            return RATIO_KINDS[basis]
        case Dates():
            return DATE
        case Rows():
            return ROW
        case Listed(values=values) if isinstance(values[0], datetime.date):
            return DATE
        case _:
            return given.unit.kind if given.unit is not None else NUMBER


def _field_kinds(name: str, draw: Rows, fields: Mapping[str, Kind]) -> dict[str, Kind]:
    """The kinds of the fields that every row has; a ratio takes its basis from the rows, if they agree on one."""
    found: dict[str, Kind] = {}
    for title, kind in fields.items():
        values = [row.field(title) for row in draw.rows]
        if any(value is None for value in values):
            continue
        bases = {value.basis for value in values if isinstance(value, RatioValue)}
        found[f"{name}.{title}"] = kind if not bases else RATIO_KINDS[bases.pop()] if len(bases) == 1 else EITHER_BASIS
    return found


EITHER_BASIS = Kind((), "ratio of either basis")
"""A ratio field where some rows are by volume and some by weight: only its sides can be used."""


def _columns(given: Given, axis: int, axes: int, used: Container[str] | None) -> dict[str, Any]:
    """A drawn given as an array along its own axis, under each of its dotted names that are used."""
    draw = given.draw
    assert not isinstance(draw, Computed)
    shape = (*(1,) * axis, draw.count, *(1,) * (axes - axis - 1))
    if isinstance(draw, Even):
        return {given.name: _run(draw).reshape(shape)}
    values = [draw.value(place) for place in range(draw.count)]
    if not isinstance(draw, Rows):
        return {given.name: _column(values, shape)}
    rows = [dict(row.fields) for row in draw.rows]
    named = {
        f"{given.name}.{name}": _column([row[name] for row in rows], shape)
        for name in rows[0]
        if (used is None or f"{given.name}.{name}" in used) and all(row.get(name) is not None for row in rows)
    }
    return {given.name: _column([row.name for row in draw.rows], shape), **named}


def _run(draw: Even) -> Any:
    """The values of an even run, each the float nearest to it: whole numbers over one denominator, divided once."""
    import numpy as np

    under = math.lcm(draw.start.denominator, draw.step.denominator)
    start = draw.start.numerator * (under // draw.start.denominator)
    step = draw.step.numerator * (under // draw.step.denominator)
    if max(under, abs(start), abs(start + step * draw.count)) >= EXACT_IN_FLOATS:
        return np.asarray([float(draw.start + place * draw.step) for place in range(draw.count)])
    return (start + step * np.arange(draw.count)) / under


def _column(values: list[Any], shape: tuple[int, ...]) -> Any:
    import numpy as np

    first = values[0]
    if isinstance(first, RatioValue):
        bases = np.asarray([float(value.a) for value in values]).reshape(shape)
        hardeners = np.asarray([float(value.b) for value in values]).reshape(shape)
        return RatioValue(bases, hardeners, first.basis)
    if isinstance(first, str | Row):
        return np.asarray([str(value) for value in values]).reshape(shape)
    if isinstance(first, datetime.date):
        return np.asarray([float(value.toordinal()) for value in values]).reshape(shape)
    return np.asarray([float(value) for value in values]).reshape(shape)


def _cut(column: Any, axis: int, pieces: list[slice]) -> Any:
    """The piece of a column that lies in a block: only along its own axis is there anything to cut."""
    if axis >= len(pieces):
        return column
    index = (*(slice(None),) * axis, pieces[axis])
    if isinstance(column, RatioValue):
        return RatioValue(column.a[index], column.b[index], column.basis)
    return column[index]
