"""A shop's Ed25519 key as text: base58btc, multikey and did:key (W3C Controlled Identifiers; the did:key method)."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from quizkit.words import _

if TYPE_CHECKING:
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

_ALPHABET = "123456789ABCDEFGHJKLMNPQRSTUVWXYZabcdefghijkmnopqrstuvwxyz"
_PREFIX = b"\xed\x01"
"""The multicodec of an Ed25519 public key, as a varint."""
LENGTH = 32
LONGEST = 200
"""Signs of base58 that are read at all."""


class KeyUnread(ValueError):
    """A text that is no public key of ours; the text of the error says what is."""


def base58(data: bytes) -> str:
    """Bytes in base58btc; each leading zero byte is a '1'."""
    number, signs = int.from_bytes(data), ""
    while number:
        number, rest = divmod(number, 58)
        signs = _ALPHABET[rest] + signs
    return "1" * (len(data) - len(data.lstrip(b"\0"))) + signs


def unbase58(text: str) -> bytes:
    """The bytes of a base58btc text. Raises ValueError for other signs and for more of them than any of ours has."""
    if len(text) > LONGEST:
        raise ValueError(text[:20])
    number = 0
    for sign in text:
        number = number * 58 + _ALPHABET.index(sign)
    body = number.to_bytes((number.bit_length() + 7) // 8)
    return b"\0" * (len(text) - len(text.lstrip("1"))) + body


def multikey(public: bytes) -> str:
    """A raw public key (32 bytes) as a multikey, 'z6Mk…'."""
    return "z" + base58(_PREFIX + public)


def did(public: bytes) -> str:
    """A raw public key as an identifier, 'did:key:z6Mk…'."""
    return f"did:key:{multikey(public)}"


def method(public: bytes) -> str:
    """The verification method of a key."""
    return f"{did(public)}#{multikey(public)}"


def public_of(private: Ed25519PrivateKey) -> bytes:
    """The raw public key of a private one."""
    return private.public_key().public_bytes_raw()


def read_key(text: str) -> bytes:
    """The raw public key in a text: a multikey, a did:key, or 64 hexadecimal digits, alone. Raises KeyUnread."""
    words = text.split()
    name = words[0] if len(words) == 1 else ""
    if re.fullmatch("[0-9a-fA-F]{64}", name):
        return bytes.fromhex(name)
    name = name.removeprefix("did:key:").split("#")[0]
    try:
        data = unbase58(name[1:]) if name.startswith("z") else b""
    except ValueError:
        data = b""
    if not data.startswith(_PREFIX) or len(data) != LENGTH + len(_PREFIX):
        raise KeyUnread(_("this is no public key of a shop: it looks like z6Mk… or did:key:z6Mk…"))
    return data[len(_PREFIX) :]
