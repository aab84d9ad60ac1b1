"""What may be erased: texts and photos that evidence only knows by a salted hash.

The hash is HMAC-SHA-256 under 32 random bytes that lie beside the value and go with it; what is left in the evidence
then tells nothing, not even to someone who guesses the text.
"""

from __future__ import annotations

import hashlib
import hmac
import secrets

from quizkit.records.errors import said
from quizkit.records.store import Records

SALT = 32


def salted(salt: bytes, body: bytes) -> str:
    """The key under which a private value is known."""
    return hmac.new(salt, body, hashlib.sha256).hexdigest()


def keep_text(records: Records, text: str, *, person: int | None) -> str:
    """Keep a text that goes when `person` leaves; gives the key that evidence holds. Only inside a transaction.

    `person` is None only for a text about nobody. The row of evidence that holds the key names the same person.
    """
    salt = secrets.token_bytes(SALT)
    key = salted(salt, text.encode())
    records.put("private_text", key=key, person=person, salt=salt, body=text)
    return key


def text_of(records: Records, key: str | None) -> str | None:
    """The text behind a key, or None where it has been erased (or there is no key)."""
    with said(records.path):
        found = records.conn.execute("SELECT body FROM private_text WHERE key = ?", (key,)).fetchone()
    return str(found[0]) if found else None


def keep_photo(records: Records, body: bytes, mime: str, *, person: int | None) -> str:
    """Keep a picture that goes when `person` leaves; gives the key that evidence holds. Only inside a transaction."""
    salt = secrets.token_bytes(SALT)
    key = salted(salt, body)
    records.put("photo", key=key, person=person, salt=salt, mime=mime, body=body)
    return key


def photo_of(records: Records, key: str | None) -> tuple[bytes, str] | None:
    """The picture behind a key and its type, or None where it has been erased."""
    with said(records.path):
        found = records.conn.execute("SELECT body, mime FROM photo WHERE key = ?", (key,)).fetchone()
    return (bytes(found[0]), str(found[1])) if found else None
