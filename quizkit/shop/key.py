"""The shop's signing key, which lies beside its file."""

from __future__ import annotations

from typing import TYPE_CHECKING

from quizkit.records.heads import key_path, load_key
from quizkit.shop.handle import Shop, told

if TYPE_CHECKING:
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey


def signing_key(shop: Shop) -> Ed25519PrivateKey:
    """The key that signs certificate files. Raises StoreTrouble where it is missing or unreadable."""
    with told():
        return load_key(key_path(shop.path))
