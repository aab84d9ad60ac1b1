"""A certificate as a signed certificate file holds it: Open Badges 3.0 on W3C VC 2.0, before it is signed.

Only what is written here is ever in such a file: a reader refuses anything else, since what no rule explains could
say what the shop never meant to sign.
"""

from __future__ import annotations

import datetime as dt
import hashlib
import re
import uuid
from dataclasses import dataclass
from typing import Any

from quizkit.exchange.keys import did
from quizkit.words import _

CONTEXT = [
    "https://www.w3.org/ns/credentials/v2",
    "https://purl.imsglobal.org/spec/ob/v3p0/context-3.0.3.json",
]
TYPES = ["VerifiableCredential", "OpenBadgeCredential"]
IDENTITY = "ext:name"
"""The sort of identifier that the salted hash is of: the holder's name as the certificate prints it."""
_IDS = uuid.UUID("2c5a0c1e-7a55-5b0c-8a4e-0b6a5f4f9d11")

MOMENT = r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(Z|[+-]\d\d:\d\d)"
_URN = r"urn:uuid:[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}"
_DID = r"did:key:z6Mk[1-9A-HJ-NP-Za-km-z]+"
_WORDS = r"[\s\S]+"


@dataclass(frozen=True, slots=True)
class Seen:
    """One thing a certificate rests on: a skill, and in words the check and the sheet behind it."""

    name: str
    narrative: str


@dataclass(frozen=True, slots=True)
class Holding:
    """A certificate in plain values. `salt` is at least 16 random bytes; `issued` and `until` carry their zones."""

    number: int
    set_id: str
    title: str
    says: str
    criteria: str
    holder: str
    salt: bytes
    shop: str
    issued: dt.datetime
    until: dt.datetime
    seen: tuple[Seen, ...]


def credential(holding: Holding, public: bytes) -> dict[str, Any]:
    """The unsigned credential of a certificate, issued by the shop whose raw public key this is."""
    issuer = did(public)
    return {
        "@context": list(CONTEXT),
        "id": certificate_id(public, holding.number),
        "type": list(TYPES),
        "issuer": {"id": issuer, "type": ["Profile"], "name": holding.shop},
        "validFrom": moment(holding.issued),
        "validUntil": moment(holding.until),
        "credentialSubject": {
            "type": ["AchievementSubject"],
            "identifier": [
                {
                    "type": "IdentityObject",
                    "hashed": True,
                    "identityHash": identity_hash(holding.holder, holding.salt.hex()),
                    "identityType": IDENTITY,
                    "salt": holding.salt.hex(),
                }
            ],
            "achievement": {
                "id": _urn(issuer, "set", holding.set_id),
                "type": ["Achievement"],
                "name": holding.title,
                "description": holding.says,
                "criteria": {"narrative": holding.criteria},
                "achievementType": "Competency",
            },
        },
        "evidence": [{"type": ["Evidence"], "name": one.name, "narrative": one.narrative} for one in holding.seen],
    }


def identity_hash(holder: str, salt: str) -> str:
    """The salted hash of a name, blanks at its ends and runs of them aside."""
    return "sha256$" + hashlib.sha256((" ".join(holder.split()) + salt).encode()).hexdigest()


def moment(value: dt.datetime) -> str:
    """An aware moment to the second, with its zone."""
    text = value.isoformat(timespec="seconds")
    return text.removesuffix("+00:00") + "Z" if text.endswith("+00:00") else text


def certificate_id(public: bytes, number: int) -> str:
    """The identity that the file of a shop's certificate bears, out of the shop's raw public key and its number."""
    return _urn(did(public), "certificate", str(number))


def _urn(*words: str) -> str:
    return f"urn:uuid:{uuid.uuid5(_IDS, chr(10).join(words))}"


@dataclass(frozen=True, slots=True)
class Text:
    """A text that matches a pattern from end to end."""

    pattern: str


@dataclass(frozen=True, slots=True)
class Exactly:
    """One value and no other."""

    value: object


@dataclass(frozen=True, slots=True)
class Many:
    """A list, each of one shape."""

    shape: Any
    least: int = 0


_IDENTITY_SHAPE = {
    "type": Exactly("IdentityObject"),
    "hashed": Exactly(True),
    "identityHash": Text(r"sha256\$[0-9a-f]{64}"),
    "identityType": Exactly(IDENTITY),
    "salt": Text(r"[0-9a-f]{32,128}"),
}
_ACHIEVEMENT_SHAPE = {
    "id": Text(_URN),
    "type": Exactly(["Achievement"]),
    "name": Text(_WORDS),
    "description": Text(_WORDS),
    "criteria": {"narrative": Text(_WORDS)},
    "achievementType": Exactly("Competency"),
}
SHAPE: dict[str, Any] = {
    "@context": Exactly(CONTEXT),
    "id": Text(_URN),
    "type": Exactly(TYPES),
    "issuer": {"id": Text(_DID), "type": Exactly(["Profile"]), "name": Text(_WORDS)},
    "validFrom": Text(MOMENT),
    "validUntil": Text(MOMENT),
    "credentialSubject": {
        "type": Exactly(["AchievementSubject"]),
        "identifier": Many(_IDENTITY_SHAPE, 1),
        "achievement": _ACHIEVEMENT_SHAPE,
    },
    "evidence": Many({"type": Exactly(["Evidence"]), "name": Text(_WORDS), "narrative": Text(_WORDS)}),
}
"""The one shape that is signed and read: every member there, no other."""
PROOF_SHAPE: dict[str, Any] = {
    "@context": Exactly(CONTEXT),
    "type": Exactly("DataIntegrityProof"),
    "cryptosuite": Exactly("eddsa-jcs-2022"),
    "created": Text(MOMENT),
    "verificationMethod": Text(_DID + r"#z6Mk[1-9A-HJ-NP-Za-km-z]+"),
    "proofPurpose": Exactly("assertionMethod"),
    "proofValue": Text(r"z[1-9A-HJ-NP-Za-km-z]{1,120}"),
}


def misshapen(value: object, shape: object, at: str = "") -> str:
    """Where a value leaves its shape, in words; empty where it keeps it."""
    match shape:
        case Exactly(wanted):
            return (
                "" if value == wanted and type(value) is type(wanted) else _("{at} is not as it must be").format(at=at)
            )
        case Text(pattern):
            fits = isinstance(value, str) and re.fullmatch(pattern, value)
            return "" if fits else _("{at} is not as it must be").format(at=at)
        case Many(inner, least):
            if not isinstance(value, list) or len(value) < least:
                return _("{at} is no list, or has too little in it").format(at=at)
            return next((wrong for one in value if (wrong := misshapen(one, inner, at))), "")
    assert isinstance(shape, dict)
    if not isinstance(value, dict):
        return _("{at} is no object").format(at=at or _("the file"))
    return _members(value, shape, at)


def _members(value: dict[str, object], shape: dict[str, object], at: str) -> str:
    for name in shape:
        if name not in value:
            return _("{name} is missing").format(name=f"{at}.{name}".lstrip("."))
    for name in value:
        if name not in shape:
            return _("{name} does not belong there").format(name=f"{at}.{name}".lstrip(".")[:80])
    return next(
        (wrong for name in shape if (wrong := misshapen(value[name], shape[name], f"{at}.{name}".lstrip(".")))), ""
    )
