"""Seals: SHA-256 over a row and the seal before it.

What is hashed is the seal before (64 hexadecimal digits), the name of the table and the row, each on a line. The row is
JSON in the canonical form of RFC 8785: an object of the column names, in order, with their whole numbers and texts;
columns that hold nothing are left out. A column added later holds nothing in older rows, and so breaks no seal.
"""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass
from json.encoder import encode_basestring

START = "0" * 64
"""The seal before the first row."""


@dataclass(frozen=True, slots=True)
class Head:
    """The end of a chain: the number of its last row, that row's seal, and the moment it was recorded (its text)."""

    position: int = 0
    seal: str = START
    recorded_at: str = ""


def seal(before: str, table: str, columns: Sequence[str], values: Sequence[object]) -> str:
    """The seal of a row whose predecessor has the seal `before`.

    `values` (whole numbers, texts, None) stand in the order of `columns`, which is that of their names, without the
    seal. Raises ValueError on text that cannot be written as UTF-8. A value of another type, as a damaged file may hold
    one, gives a seal that no row has.
    """
    return hashlib.sha256(f"{before}\n{table}\n{canonical(columns, values)}".encode()).hexdigest()


def canonical(columns: Sequence[str], values: Sequence[object]) -> str:
    """The JSON of a row. Written out here, not by `json.dumps`, which takes three times as long for so small a text."""
    given = zip(columns, values, strict=True)
    parts = [
        f'"{column}":{encode_basestring(value) if type(value) is str else value}'
        for column, value in given
        if value is not None
    ]
    return "{" + ",".join(parts) + "}"
