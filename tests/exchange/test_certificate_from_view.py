"""The signed file says what the certificate's page says, to the last second of its last day."""

import datetime as dt
from dataclasses import dataclass

from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

from quizkit.exchange.certificate_file import certificate_file
from quizkit.exchange.checking import check
from quizkit.exchange.keys import public_of


@dataclass(frozen=True)
class Skill:
    title: str
    since: dt.date | None
    until: dt.date
    evidence: str


@dataclass(frozen=True)
class View:
    number: int = 7
    holder: str = "Ada Lind"
    set: str = "bonding"
    title: str = "Two-part bonding"
    says: str = ""
    skills: tuple[Skill, ...] = (Skill("Balancing", dt.date(2026, 10, 5), dt.date(2027, 10, 5), "check of 2026-10-03"),)
    issued_at: dt.datetime = dt.datetime(2026, 11, 25, 15, 0, 0, 123_456, tzinfo=dt.UTC)
    until: dt.date = dt.date(2027, 10, 5)
    zone: str = "America/Denver"
    shop: str = "Two Bays"
    says_not: str = "No approval of any repair."


KEY = Ed25519PrivateKey.from_private_bytes(bytes(range(32)))
FILE = certificate_file(View(), KEY, now=View.issued_at)


def test_it_holds_until_the_last_day_ends_where_the_shop_is() -> None:
    last = dt.datetime(2027, 10, 6, 5, 59, 59, tzinfo=dt.UTC)
    assert check(FILE, public_of(KEY), now=last, holder="Ada Lind").state == "valid"
    assert check(FILE, public_of(KEY), now=last + dt.timedelta(seconds=1)).state == "expired"


def test_it_says_what_it_rests_on_and_what_it_is_not() -> None:
    told = check(FILE, public_of(KEY), now=View.issued_at)
    assert told.skills == (("Balancing", "cleared since 2026-10-05, until 2027-10-05: check of 2026-10-03"),)
    assert b"No approval of any repair." in FILE and b"Ada" not in FILE


def test_two_files_of_one_certificate_hide_the_name_behind_different_salts() -> None:
    other = certificate_file(View(), KEY, now=View.issued_at)
    assert other != FILE and check(other, public_of(KEY), now=View.issued_at).good
