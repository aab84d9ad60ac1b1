"""Checking a signed certificate file without any network: its shape, the shop's pinned key, its letters, its dates."""

from __future__ import annotations

import datetime as dt
import json
from dataclasses import dataclass
from typing import Any, Literal

from quizkit.exchange.credential import identity_hash
from quizkit.exchange.keys import did
from quizkit.exchange.proof import holds, misshapen_file
from quizkit.words import _

State = Literal["valid", "not yet", "expired", "unread", "other shop", "changed", "other holder"]
LARGEST = 1_000_000
"""Bytes of a certificate file that are read at all."""


@dataclass(frozen=True, slots=True)
class Checked:
    """What a file turned out to be. `words` say it; the rest is told only of a file whose signature holds.

    `id` is the certificate's identity, by which its shop can tell whether it was withdrawn since.
    """

    state: State
    words: str
    shop: str = ""
    title: str = ""
    says: str = ""
    valid_from: dt.datetime | None = None
    valid_until: dt.datetime | None = None
    skills: tuple[tuple[str, str], ...] = ()
    holder_checked: bool = False
    id: str = ""

    @property
    def good(self) -> bool:
        """Whether the certificate may be relied on today, as far as a file can say."""
        return self.state == "valid"


class _Twice(ValueError):
    pass


def check(data: bytes, public: bytes, *, now: dt.datetime, holder: str = "") -> Checked:
    """What a certificate file is worth at a moment (aware), against the raw public key that the shop gave out.

    With `holder`, the name must be the one that was signed for. No file can say that it was withdrawn since: the
    shop's own page does.
    """
    signed = _read(data)
    if isinstance(signed, Checked):
        return signed
    wrong = misshapen_file(signed)
    if wrong:
        return Checked("unread", _("this is no signed certificate file of this program: {wrong}").format(wrong=wrong))
    if signed["issuer"]["id"] != did(public):
        words = _(
            "this file names another key than the one you gave: it is not from that shop, or the key is not its own"
        )
        return Checked("other shop", words)
    if not holds(signed, public):
        return Checked("changed", _("this file was changed after it was signed: nothing in it can be relied on"))
    return _dated(signed, now, holder)


def _dated(signed: dict[str, Any], now: dt.datetime, holder: str) -> Checked:
    try:
        begins, ends = (dt.datetime.fromisoformat(signed[name]) for name in ("validFrom", "validUntil"))
    except ValueError:
        return Checked("unread", _("its dates are no dates"))
    state, words = _in_time(begins, ends, now)
    identity = signed["credentialSubject"]["identifier"][0]
    if holder and identity["identityHash"] != identity_hash(holder, identity["salt"]):
        state, words = (
            "other holder",
            _("the file is genuine, but it was not made for '{holder}'").format(holder=holder),
        )
    achievement = signed["credentialSubject"]["achievement"]
    return Checked(
        state,
        words,
        signed["issuer"]["name"],
        achievement["name"],
        achievement["description"],
        begins,
        ends,
        tuple((one["name"], one["narrative"]) for one in signed["evidence"]),
        bool(holder) and state != "other holder",
        signed["id"],
    )


def _in_time(begins: dt.datetime, ends: dt.datetime, now: dt.datetime) -> tuple[State, str]:
    if now < begins:
        return "not yet", _("genuine, and not valid before {day}").format(day=begins.date().isoformat())
    if now > ends:
        return "expired", _("genuine, and expired: the last day was {day}").format(day=ends.date().isoformat())
    return "valid", _("genuine, unchanged, and in date until {day}").format(day=ends.date().isoformat())


def _read(data: bytes) -> Any:
    """The JSON of a file, or why there is none.

    Two members of one name are refused: readers differ in which of them they take.
    """
    if len(data) > LARGEST:
        return Checked("unread", _("this file is larger than any certificate file"))
    try:
        return json.loads(data.decode("utf-8-sig"), object_pairs_hook=_once, parse_constant=_no_number)
    except (ValueError, RecursionError):
        return Checked("unread", _("this is no JSON file, or one that was cut off or mangled on its way"))


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    if len({name for name, _value in pairs}) != len(pairs):
        raise _Twice
    return dict(pairs)


def _no_number(text: str) -> Any:
    raise ValueError(text)
