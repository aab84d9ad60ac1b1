"""From the view of a certificate to its signed file."""

from __future__ import annotations

import datetime as dt
import secrets
from collections.abc import Sequence
from typing import TYPE_CHECKING, Protocol
from zoneinfo import ZoneInfo

from quizkit.exchange.credential import Holding, Seen, credential
from quizkit.exchange.keys import public_of
from quizkit.exchange.proof import sign
from quizkit.words import _

if TYPE_CHECKING:
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

SALT = 16
"""Random bytes that keep the holder's name from being guessed out of its hash."""


class Skill(Protocol):
    """A skill as the certificate states it."""

    @property
    def title(self) -> str: ...
    @property
    def since(self) -> dt.date | None: ...
    @property
    def until(self) -> dt.date: ...
    @property
    def evidence(self) -> str: ...


class Certificate(Protocol):
    """What the view of a certificate tells. `until` is its last day, in `zone` (an IANA name)."""

    @property
    def number(self) -> int: ...
    @property
    def holder(self) -> str: ...
    @property
    def set(self) -> str: ...
    @property
    def title(self) -> str: ...
    @property
    def says(self) -> str: ...
    @property
    def skills(self) -> Sequence[Skill]: ...
    @property
    def issued_at(self) -> dt.datetime: ...
    @property
    def until(self) -> dt.date: ...
    @property
    def zone(self) -> str: ...
    @property
    def shop(self) -> str: ...
    @property
    def says_not(self) -> str: ...


def certificate_file(view: Certificate, private: Ed25519PrivateKey, *, now: dt.datetime) -> bytes:
    """The signed file of a certificate, in its canonical form; the name of its holder is a salted hash in it."""
    import rfc8785

    signed = sign(credential(_holding(view), public_of(private)), private, now)
    return bytes(rfc8785.dumps(signed))


def _holding(view: Certificate) -> Holding:
    rule = _("For each skill a passed check, and where it is practical a sheet signed by an entitled trainer.")
    return Holding(
        number=view.number,
        set_id=view.set,
        title=view.title,
        says=view.says or view.title,
        criteria=f"{rule} {view.says_not}",
        holder=view.holder,
        salt=secrets.token_bytes(SALT),
        shop=view.shop,
        issued=view.issued_at,
        until=dt.datetime.combine(view.until, dt.time(23, 59, 59), ZoneInfo(view.zone)),
        seen=tuple(Seen(skill.title, _narrative(skill)) for skill in view.skills),
    )


def _narrative(skill: Skill) -> str:
    since = _("since {day}, ").format(day=skill.since.isoformat()) if skill.since else ""
    told = _("cleared {since}until {until}").format(since=since, until=skill.until.isoformat())
    return f"{told}: {skill.evidence}" if skill.evidence else told
