"""A list of people from a CSV file, as a spreadsheet saves it: read whole or told what is wrong, line by line."""

from __future__ import annotations

from quizkit.exchange.rows import Columns, RowsRead, read_rows
from quizkit.words import _

COLUMNS = Columns(("name", "role", "site"), ("name", "role", "site", "secret"))
PeopleRead = RowsRead


def read_people(data: bytes) -> PeopleRead:
    """Read a CSV of people: columns name, role, site and perhaps secret. Whether a role exists is the shop's matter."""
    return read_rows(data, COLUMNS, _("there is nobody in the file"))
