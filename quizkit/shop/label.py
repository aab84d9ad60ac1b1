"""The shelf label of a material as it stands beside a question, a sheet or a sum."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Sequence
from dataclasses import dataclass
from fractions import Fraction

from quizkit.formula import Row
from quizkit.pack.model import Pack
from quizkit.pack.shelf import Column, stocked
from quizkit.pack.shown import amount, other
from quizkit.scoring.reading import USUAL, Style
from quizkit.shop.handle import Shop
from quizkit.shop.packs import current_pack
from quizkit.standing.dates import local_day
from quizkit.units import PLAIN, unit

DIGITS = 3
"""Significant digits of a derived number on a label."""


DERIVED_FROM = {"weight_ratio": ("density_a", "density_b")}
"""The fields of a row that stand behind a derived one, besides its ratio."""


@dataclass(frozen=True, slots=True)
class ShelfLabel:
    """A material: its name, family and ratio, and every other field as (title, value) in the shelf's order."""

    name: str
    family: str
    ratio: str
    lines: tuple[tuple[str, str], ...]
    invented: bool


def style_of(pack: Pack) -> Style:
    """How this shop writes numbers, money and dates."""
    return Style(pack.scheme.mark, pack.scheme.currency, pack.scheme.dates)


def shelf_label(pack: Pack, row: Row, hidden: Collection[str] = ()) -> ShelfLabel:
    """The label of a row of the shelf. `hidden` fields are left off (those that a question asks for)."""
    style = style_of(pack)
    lines = []
    for column in pack.shelf.columns:
        value = row.field(column.field)
        if column.field in ("name", "family", "ratio") or column.field in hidden or value is None:
            continue
        lines.append((column.title, _shown(column, value, style)))
    return ShelfLabel(row.name, field_text(row, "family"), field_text(row, "ratio"), tuple(lines), invented(pack))


def bench_shelf(shop: Shop, *, now: dt.datetime) -> tuple[tuple[ShelfLabel, dict[str, str]], ...]:
    """The materials in stock for whoever stands at the bench: each one's label, and its fields as they may be typed."""
    pack = current_pack(shop)
    rows = on_shelf(pack, local_day(now, pack.scheme.zone))
    return tuple((shelf_label(pack, row), _texts(pack, row)) for row in rows)


def _texts(pack: Pack, row: Row) -> dict[str, str]:
    """The fields of a row by their names, as a sum at the bench reads them."""
    values = {column: row.field(column.field) for column in pack.shelf.columns}
    return {column.field: _shown(column, value, USUAL) for column, value in values.items() if value is not None}


def invented(pack: Pack) -> bool:
    """Whether the pages must say that the shelf's numbers are made up."""
    return not pack.scheme.shelf_is_ours


def field_text(row: Row, field: str) -> str:
    """A field that is no amount (the family, the ratio with its basis) in words; nothing where it is blank."""
    value = row.field(field)
    return "" if value is None or isinstance(value, Fraction) else other(value)


def fields_shown(pack: Pack, row: Row, fields: Sequence[str]) -> tuple[tuple[str, str], ...]:
    """Some fields of a row as (title, value), in the order asked for; a derived one behind those that it comes from."""
    columns = {one.field: one for one in pack.shelf.columns}
    asked = dict.fromkeys(each for one in fields for each in (*DERIVED_FROM.get(one, ()), one))
    values = [(columns[one], row.field(one)) for one in asked if one in columns]
    return tuple((one.title, _shown(one, value, style_of(pack))) for one, value in values if value is not None)


def on_shelf(pack: Pack, day: dt.date) -> tuple[Row, ...]:
    """The materials that the shop stocks on a day, in the shelf's order."""
    return tuple(row for row in pack.shelf.rows if stocked(row, day))


def _shown(column: Column, value: object, style: Style) -> str:
    if not isinstance(value, Fraction):
        return other(value)  # type: ignore[arg-type]
    shown_in = unit(column.unit) if column.unit else PLAIN
    digits = DIGITS if column.sort == "number" and (value * 1000).denominator != 1 else None
    return amount(value, shown_in, style, digits=digits)
