"""Signing a credential and proving its signature: Data Integrity, eddsa-jcs-2022 (W3C vc-di-eddsa, RFC 8785)."""

from __future__ import annotations

import datetime as dt
import hashlib
from typing import TYPE_CHECKING, Any

from quizkit.exchange.credential import PROOF_SHAPE, SHAPE, misshapen, moment
from quizkit.exchange.keys import base58, method, public_of, unbase58

if TYPE_CHECKING:
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

SIGNATURE = 64
"""Bytes of an Ed25519 signature."""


class Misshapen(ValueError):
    """A credential that is not of the one shape that we sign."""


def sign(credential: dict[str, Any], private: Ed25519PrivateKey, created: dt.datetime) -> dict[str, Any]:
    """The credential with its proof. Raises Misshapen for anything that `credential.credential` does not make."""
    wrong = misshapen(credential, SHAPE)
    if wrong:
        raise Misshapen(wrong)
    return credential | {"proof": proof(credential, private, created)}


def proof(document: dict[str, Any], private: Ed25519PrivateKey, created: dt.datetime) -> dict[str, Any]:
    """The proof of any unsigned document, by the algorithm alone."""
    config = {
        "type": "DataIntegrityProof",
        "cryptosuite": "eddsa-jcs-2022",
        "created": moment(created),
        "verificationMethod": method(public_of(private)),
        "proofPurpose": "assertionMethod",
        "@context": document["@context"],
    }
    return config | {"proofValue": "z" + base58(private.sign(digest(document, config)))}


def digest(document: dict[str, Any], config: dict[str, Any]) -> bytes:
    """The 64 bytes that are signed: the hash of the proof's settings, then that of the document without its proof."""
    import rfc8785

    return hashlib.sha256(rfc8785.dumps(config)).digest() + hashlib.sha256(rfc8785.dumps(document)).digest()


def holds(signed: dict[str, Any], public: bytes) -> bool:
    """Whether a signed document is, to the letter, what the holder of this raw public key signed."""
    from cryptography.exceptions import InvalidSignature
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PublicKey

    document = {name: value for name, value in signed.items() if name != "proof"}
    given = signed["proof"]
    config = {name: value for name, value in given.items() if name != "proofValue"}
    if config["verificationMethod"] != method(public) or config["@context"] != document["@context"]:
        return False
    try:
        signature = unbase58(given["proofValue"][1:])
        if len(signature) != SIGNATURE:
            return False
        Ed25519PublicKey.from_public_bytes(public).verify(signature, digest(document, config))
    except (InvalidSignature, ValueError):
        return False
    return True


def misshapen_file(signed: object) -> str:
    """Where a signed file is not of our one shape, in words; empty where it is."""
    return misshapen(signed, SHAPE | {"proof": PROOF_SHAPE})
