"""PINs and passphrases: what is good enough, and how one is kept.

Kept is only a slow hash (scrypt, RFC 7914) with its own salt and cost, so that a stolen file gives little away.
"""

from __future__ import annotations

import hashlib
import hmac
import secrets
from itertools import pairwise

from quizkit.shop.refusal import WeakSecret
from quizkit.words import _

PIN_ROLES = ("apprentice", "technician")
ROLES = (*PIN_ROLES, "trainer", "manager")
PIN_LENGTHS = range(4, 9)
PASSPHRASE_LENGTH = 12
LONGEST = 200

COST = 15
"""log₂ of scrypt's N; with r = 8 and p = 3 the strength that OWASP's password storage cheat sheet asks for."""
BLOCK = 8
LANES = 3


def needs_pin(role: str) -> bool:
    """Whether a role signs in with a PIN; the others have a passphrase."""
    return role in PIN_ROLES


def approve(role: str, secret: str) -> None:
    """Refuse a PIN or passphrase that anybody would guess."""
    if needs_pin(role):
        _approve_pin(secret)
    elif not PASSPHRASE_LENGTH <= len(secret) <= LONGEST or len(set(secret)) < 5:
        what = _("This passphrase is too easy to guess, or longer than {longest} characters").format(longest=LONGEST)
        raise WeakSecret(
            what, _("take four words or more, {count} characters at least").format(count=PASSPHRASE_LENGTH)
        )


def _approve_pin(secret: str) -> None:
    if len(secret) not in PIN_LENGTHS or not (secret.isascii() and secret.isdigit()):
        raise WeakSecret(_("A PIN is 4 to 8 digits"), _("choose digits only, no spaces"))
    if _runs(secret):
        raise WeakSecret(
            _("This PIN is one of the first that anybody tries"), _("choose digits that do not run in a row")
        )


def _runs(digits: str) -> bool:
    """Whether digits are all the same, or count up or down, from 9 on to 0 included."""
    steps = {(int(b) - int(a)) % 10 for a, b in pairwise(digits)}
    return len(steps) == 1 and steps <= {0, 1, 9}


def kept(secret: str) -> str:
    """The text to keep of a secret: method, cost, salt and hash. Two of one secret differ."""
    salt = secrets.token_bytes(16)
    return f"scrypt${COST}${BLOCK}${LANES}${salt.hex()}${_hash(secret, salt, COST, BLOCK, LANES).hex()}"


def fits(secret: str, keep: str) -> bool:
    """Whether a secret is the one that was kept. An empty `keep` fits nothing, and takes as long to say so."""
    parts = (keep or _NOTHING).split("$")
    cost, block, lanes = map(int, parts[1:4])
    made = _hash(secret[:LONGEST], bytes.fromhex(parts[4]), cost, block, lanes)
    return hmac.compare_digest(made, bytes.fromhex(parts[5])) and bool(keep)


def _hash(secret: str, salt: bytes, cost: int, block: int, lanes: int) -> bytes:
    memory = 128 * block * ((1 << cost) + lanes + 2)
    return hashlib.scrypt(secret.encode(), salt=salt, n=1 << cost, r=block, p=lanes, maxmem=memory, dklen=32)


_NOTHING = f"scrypt${COST}${BLOCK}${LANES}${'00' * 16}${'00' * 32}"


def drawn_pin() -> str:
    """A PIN drawn for somebody who is new: six digits that pass `approve`."""
    while True:
        pin = "".join(secrets.choice("0123456789") for _place in range(6))
        if len(set(pin)) > 3 and not _runs(pin):
            return pin


_SYLLABLES = ("ba", "de", "fi", "go", "hu", "ka", "le", "mi", "no", "pu", "ra", "se", "ti", "vo", "wu", "za")


def drawn_passphrase() -> str:
    """A passphrase drawn for somebody who is new: five made-up words that can be said aloud (60 bits)."""
    words = ("".join(secrets.choice(_SYLLABLES) for _syllable in range(3)) for _word in range(5))
    return " ".join(words)


def new_token() -> str:
    """The token of a session, for the cookie; the file keeps only `token_hash` of it."""
    return secrets.token_urlsafe(32)


def token_hash(token: str) -> str:
    """What is kept of a session's token."""
    return hashlib.sha256(token.encode()).hexdigest()
