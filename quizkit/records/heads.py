"""The shop's key, and heads signed with it in `heads.txt` beside the file of records.

A line of `heads.txt` holds, parted by spaces: the moment of signing, the number of the last row, its seal, the public
key and the signature (Ed25519, RFC 8032; hexadecimal) over the first three.
"""

from __future__ import annotations

import datetime as dt
import os
import stat
from dataclasses import dataclass
from pathlib import Path

from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives import serialization
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey, Ed25519PublicKey

from quizkit.records.clock import moment_of, moment_text
from quizkit.records.errors import KeyTrouble, said_of_disk
from quizkit.records.seal import Head
from quizkit.records.store import Records
from quizkit.words import _

PURPOSE = b"quizkit head\n"
"""What stands before the signed text, so that no other signature of this key can pass for one of a head."""


@dataclass(frozen=True, slots=True)
class SignedHead:
    """A head with the moment it was signed (text), the public key and the signature (hexadecimal)."""

    head: Head
    signed_at: str
    key: str
    signature: str

    def line(self) -> str:
        """The line of `heads.txt`."""
        return f"{self.signed_at} {self.head.position} {self.head.seal} {self.key} {self.signature}"

    def stands(self) -> bool:
        """Whether the signature fits the key that the line names. Whether that is the shop's key is another matter."""
        try:
            key = Ed25519PublicKey.from_public_bytes(bytes.fromhex(self.key))
            key.verify(bytes.fromhex(self.signature), _signed(self.head, self.signed_at))
        except (InvalidSignature, ValueError):
            return False
        return True


def key_path(path: Path) -> Path:
    """Where the key of the shop file at `path` lies."""
    return path.with_suffix(".key")


def heads_path(path: Path) -> Path:
    """Where the signed heads of the shop file at `path` lie."""
    return path.with_name("heads.txt")


def make_key(path: Path) -> Ed25519PrivateKey:
    """Make a key in a new file that only its owner may read. Raises KeyTrouble where a file is there already."""
    key = Ed25519PrivateKey.generate()
    _write_key(path, _pem(key))
    return key


def load_key(path: Path) -> Ed25519PrivateKey:
    """Read a key. Raises KeyTrouble where it is missing, unreadable, or others than its owner may read it."""
    try:
        mode = path.stat().st_mode
        data = path.read_bytes()
    except OSError as error:
        what = _("The shop's key is not at {path}").format(path=path)
        raise KeyTrouble(what, _("put back the key that was exported with a copy")) from error
    if os.name == "posix" and stat.S_IMODE(mode) & 0o077:
        what = _("Others may read the shop's key at {path}").format(path=path)
        raise KeyTrouble(what, _("give the file the mode 600"))
    try:
        key = serialization.load_pem_private_key(data, None)
    except (ValueError, TypeError) as error:
        raise _no_key(path) from error
    if not isinstance(key, Ed25519PrivateKey):
        raise _no_key(path)
    return key


def export_key(path: Path, into: Path) -> None:
    """Write the key of the shop file at `path` into a new file: to be kept apart from the copies."""
    _write_key(into, _pem(load_key(key_path(path))))


def public_text(key: Ed25519PrivateKey) -> str:
    """The public half of a key, 64 hexadecimal digits."""
    return key.public_key().public_bytes(serialization.Encoding.Raw, serialization.PublicFormat.Raw).hex()


def sign_head(records: Records, now: dt.datetime) -> SignedHead:
    """Sign the head as it stands and append it to `heads.txt`. Not inside a transaction."""
    key, head, moment = load_key(key_path(records.path)), records.head(), moment_text(now)
    signed = SignedHead(head, moment, public_text(key), key.sign(_signed(head, moment)).hex())
    _append(heads_path(records.path), signed.line())
    return signed


def daily_head(records: Records, now: dt.datetime) -> SignedHead | None:
    """Sign the head if none was signed on this day (UTC); None where one was."""
    heads, _problems = read_heads(heads_path(records.path))
    if any(head.signed_at[:10] == moment_text(now)[:10] for head in heads):
        return None
    return sign_head(records, now)


def read_heads(path: Path, key: str | None = None) -> tuple[tuple[SignedHead, ...], tuple[str, ...]]:
    """The heads of a file whose signatures stand, and a sentence for each line that is none.

    `key`: the shop's public key (`public_text`); heads signed with another are problems too. A file that is not there
    has no heads.
    """
    try:
        lines = path.read_text(encoding="utf-8", errors="replace").splitlines()
    except FileNotFoundError:
        return (), ()
    heads, problems = list[SignedHead](), list[str]()
    for number, line in enumerate(lines, start=1):
        head = _parsed(line)
        if head is not None and head.stands() and key in (None, head.key):
            heads.append(head)
        elif line.strip():
            where = {"name": path.name, "line": number}
            problems.append(_("{name}, line {line}: this is no head that the shop has signed").format(**where))
    return tuple(heads), tuple(problems)


def _parsed(line: str) -> SignedHead | None:
    try:
        moment, position, seal, key, signature = line.split(" ")
        moment_of(moment)
        return SignedHead(Head(int(position), seal), moment, key, signature)
    except ValueError:
        return None


def _signed(head: Head, moment: str) -> bytes:
    return PURPOSE + f"{moment} {head.position} {head.seal}".encode()


def _append(path: Path, line: str) -> None:
    """Add a line and wait until it is on disk; a line that a crash cut short is ended first."""
    with said_of_disk(path):
        handle = os.open(path, os.O_RDWR | os.O_CREAT | os.O_APPEND, 0o600)
        try:
            size = os.fstat(handle).st_size
            torn = size and os.pread(handle, 1, size - 1) != b"\n"
            os.write(handle, f"{chr(10) * bool(torn)}{line}\n".encode())
            os.fsync(handle)
        finally:
            os.close(handle)


def _pem(key: Ed25519PrivateKey) -> bytes:
    form = serialization.PrivateFormat.PKCS8
    return key.private_bytes(serialization.Encoding.PEM, form, serialization.NoEncryption())


def _write_key(path: Path, data: bytes) -> None:
    try:
        handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    except FileExistsError as error:
        what = _("There is a file at {path} already").format(path=path)
        raise KeyTrouble(what, _("a key is never written over: name another file")) from error
    except OSError as error:
        what = _("No key can be written at {path}").format(path=path)
        raise KeyTrouble(what, _("see that its folder is there and may be written")) from error
    with os.fdopen(handle, "wb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())


def _no_key(path: Path) -> KeyTrouble:
    what = _("The file at {path} is not the shop's key").format(path=path)
    return KeyTrouble(what, _("put back the key that was exported with a copy"))
