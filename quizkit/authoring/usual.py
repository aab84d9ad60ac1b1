"""What the cells of a shelf usually hold: a value far from it is most likely a slip of the pen, and is told."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Any

from quizkit.pack.shelf import Column
from quizkit.units import quantity
from quizkit.words import _

USUAL = {
    "cartridge": ("5 mL", "2000 mL"),
    "density_a": ("0.6 g/mL", "3 g/mL"),
    "density_b": ("0.6 g/mL", "3 g/mL"),
    "price": ("$1", "$1000"),
    "flow_screw": ("0.25 turns", "10 turns"),
    "inlet_limit": ("10 psi", "150 psi"),
    "open_time": ("0.5 min", "480 min"),
    "nozzle_time": ("0.2 min", "240 min"),
    "clamp_time": ("1 min", "10080 min"),
    "glove_time": ("1 min", "480 min"),
    "closed_months": ("1", "60"),
    "opened_months": ("0", "60"),
    "lowest_work": ("-10 °C", "30 °C"),
    "store_limit": ("5 °C", "50 °C"),
}
"""Field → the least and the most that is usual, by common practice: wide, so that no real product is told."""

NOT_OVER = (("nozzle_time", "open_time"), ("opened_months", "closed_months"), ("lowest_work", "store_limit"))
"""Pairs of fields of which the first is at most the second, by common practice."""

Odd = tuple[str, str, str]
"""The field that is odd, what is odd about it, and where to look."""


def odd_cells(columns: Mapping[str, Column], fields: Mapping[str, Any]) -> Iterator[Odd]:
    """Each cell of a row that is far from what is usual, or over the one that it may not be over.

    `fields` holds the values of the row in the coherent base. A column of another kind than is known is passed over.
    """
    for name, (least, most) in USUAL.items():
        low, high, value = quantity(least), quantity(most), fields.get(name)
        if isinstance(value, Fraction) and columns[name].kind == low.unit.kind and not low.value <= value <= high.value:
            text = _("'{title}' is not between {least} and {most}, as is usual")
            yield (
                name,
                text.format(title=columns[name].title, least=least, most=most),
                _("read the data sheet and the unit in the heading again; leave it if it is so"),
            )
    for name, other in NOT_OVER:
        one, two = fields.get(name), fields.get(other)
        if not isinstance(one, Fraction) or not isinstance(two, Fraction):
            continue
        if columns[name].kind == columns[other].kind and one > two:
            text = _("'{title}' is over '{other}'")
            yield (
                name,
                text.format(title=columns[name].title, other=columns[other].title),
                _("read both on the data sheet again"),
            )
