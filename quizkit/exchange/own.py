"""A person's own record as one JSON file: what is kept, why, how long, and every row of it."""

from __future__ import annotations

import datetime as dt
import json
from base64 import b64encode
from collections.abc import Mapping, Sequence
from typing import Any, Protocol


class Record(Protocol):
    """What the view of a record holds; its parts hold plain values, as the shop's view names them."""

    @property
    def person(self) -> Any: ...
    @property
    def day(self) -> dt.date: ...
    @property
    def shop(self) -> str: ...
    @property
    def kept(self) -> Sequence[Any]: ...
    @property
    def tables(self) -> Mapping[str, Sequence[Mapping[str, Any]]]: ...
    @property
    def photos(self) -> Sequence[Any]: ...
    @property
    def done_for_others(self) -> int: ...


def record_file(view: Record) -> bytes:
    """The record as JSON in UTF-8; photos in base 64."""
    made = {
        "shop": view.shop,
        "day": view.day.isoformat(),
        "person": {"number": view.person.person, "name": view.person.name},
        "kept": [{"what": one.what, "rows": one.count, "why": one.why, "how long": one.how_long} for one in view.kept],
        "rows about others that this person wrote": view.done_for_others,
        "tables": {table: list(rows) for table, rows in view.tables.items()},
        "photos": [
            {"sheet": one.sheet, "type": one.mime, "base64": b64encode(one.body).decode()} for one in view.photos
        ],
    }
    return json.dumps(made, ensure_ascii=False, indent=2).encode()
