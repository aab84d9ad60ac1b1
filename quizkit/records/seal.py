"""Seals: SHA-256 over a row and the seal before it.

What is hashed is the seal before (64 hexadecimal digits), the name of the table and the row, each on a line. The row is
JSON in the canonical form of RFC 8785: an object of the column names, in order, with their whole numbers and texts;
columns that hold nothing are left out. A column added later holds nothing in older rows, and so breaks no seal.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable
from dataclasses import dataclass

START = "0" * 64
"""The seal before the first row."""


@dataclass(frozen=True, slots=True)
class Head:
    """The end of a chain: the number of its last row, that row's seal, and the moment it was recorded (its text)."""

    position: int = 0
    seal: str = START
    recorded_at: str = ""


_ENCODER = json.JSONEncoder(ensure_ascii=False, separators=(",", ":"), check_circular=False)


def seal(before: str, table: str, pairs: Iterable[tuple[str, object]]) -> str:
    """The seal of a row whose predecessor has the seal `before`.

    `pairs` are columns and values (whole numbers, texts, None) in the order of the columns' names, without the seal.
    """
    return hashlib.sha256(f"{before}\n{table}\n".encode() + canonical(pairs)).hexdigest()


def canonical(pairs: Iterable[tuple[str, object]]) -> bytes:
    """The bytes of a row. Text that is no UTF-8 in a damaged file comes as surrogates, and goes back to its bytes."""
    row = {name: value for name, value in pairs if value is not None}
    return _ENCODER.encode(row).encode("utf-8", "surrogateescape")
