"""Connections to a file of records, all with the same settings: one for each thread or request."""

from __future__ import annotations

import sqlite3
from pathlib import Path

from quizkit.records.errors import said

PATIENCE = 20.0
"""Seconds to wait for another writer; below `clock.SLACK`, so that whoever waited is still taken."""

SETTINGS = ("foreign_keys = ON", "synchronous = FULL", "secure_delete = ON", "recursive_triggers = ON")


def connect(path: Path, mode: str = "rw", *, handed_on: bool = False) -> sqlite3.Connection:
    """A connection to a file that is there; `mode` is "rw" or "ro". Raises NoSuchFile.

    Only the thread that made it may use it, or with `handed_on` one thread after the other, never two at a time.
    """
    with said(path):
        uri = f"{path.absolute().as_uri()}?mode={mode}"
        conn = sqlite3.connect(
            uri,
            uri=True,
            timeout=PATIENCE,
            isolation_level=None,
            cached_statements=256,
            check_same_thread=not handed_on,
        )
        for setting in SETTINGS:
            conn.execute(f"PRAGMA {setting}")
        return conn
