"""Packs in the records: what was taught and asked, by the SHA-256 of its bytes."""

from __future__ import annotations

import hashlib

from quizkit.records.errors import said
from quizkit.records.store import Records


def store_pack(records: Records, body: bytes) -> str:
    """Keep a pack's bytes and give their hash; one that is there already stays. Only inside a transaction."""
    name = hashlib.sha256(body).hexdigest()
    if load_pack(records, name) is None:
        records.put("pack", hash=name, body=body)
    return name


def load_pack(records: Records, name: str) -> bytes | None:
    """The bytes of a pack by its hash, or None where the file has no such pack."""
    with said(records.path):
        found = records.conn.execute("SELECT body FROM pack WHERE hash = ?", (name,)).fetchone()
    return bytes(found[0]) if found else None
