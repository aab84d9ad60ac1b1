"""A signed certificate file: any change in it is found, its dates and its shop are held to."""

import copy
import datetime as dt
import json
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
import rfc8785
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey
from hypothesis import given, settings
from hypothesis import strategies as st

from quizkit.exchange.checking import check
from quizkit.exchange.credential import Holding, Seen, credential
from quizkit.exchange.keys import KeyUnread, base58, did, multikey, public_of, read_key, unbase58
from quizkit.exchange.proof import Misshapen, digest, holds, proof, sign

PRIVATE = Ed25519PrivateKey.from_private_bytes(bytes(range(32)))
PUBLIC = public_of(PRIVATE)
ISSUED = dt.datetime(2026, 11, 25, 15, 0, tzinfo=dt.UTC)
UNTIL = dt.datetime(2027, 9, 18, 23, 59, 59, tzinfo=dt.timezone(dt.timedelta(hours=-6)))
HOLDING = Holding(
    number=7,
    set_id="bonding",
    title="Two-part bonding",
    says="The holder has shown how to lay a two-part adhesive.",
    criteria="A passed check and a signed sheet for each skill.",
    holder="Ada Lind",
    salt=bytes(16),
    shop="Two Bays Refinish",
    issued=ISSUED,
    until=UNTIL,
    seen=(Seen("Protect yourself", "Check 22 of 24 on 3 Oct 2026; sheet signed 5 Oct 2026."), Seen("Balancing", "β ½")),
)
SIGNED = sign(credential(HOLDING, PUBLIC), PRIVATE, ISSUED)
FILE = rfc8785.dumps(SIGNED)
NOW = dt.datetime(2027, 1, 2, tzinfo=dt.UTC)


def test_a_genuine_file_in_date_is_good_and_says_what_it_holds() -> None:
    told = check(FILE, PUBLIC, now=NOW)
    assert (told.state, told.shop, told.title) == ("valid", "Two Bays Refinish", "Two-part bonding")
    assert told.skills[1] == ("Balancing", "β ½")
    assert told.valid_until == UNTIL


@pytest.mark.parametrize(
    ("moment", "state"),
    [
        (ISSUED - dt.timedelta(seconds=1), "not yet"),
        (ISSUED, "valid"),
        (UNTIL, "valid"),
        (UNTIL + dt.timedelta(seconds=1), "expired"),
    ],
)
def test_its_dates_are_held_to(moment: dt.datetime, state: str) -> None:
    assert check(FILE, PUBLIC, now=moment).state == state


def test_another_shops_key_is_told_apart_from_a_change() -> None:
    other = public_of(Ed25519PrivateKey.from_private_bytes(bytes(32)))
    assert check(FILE, other, now=NOW).state == "other shop"


def test_a_file_signed_by_another_key_in_the_shops_name_is_found() -> None:
    forged = copy.deepcopy(SIGNED)
    forged["proof"] = proof(credential(HOLDING, PUBLIC), Ed25519PrivateKey.from_private_bytes(bytes(32)), ISSUED)
    assert check(json.dumps(forged).encode(), PUBLIC, now=NOW).state == "changed"


def test_the_holders_name_is_checked_without_standing_in_the_file() -> None:
    assert b"Ada" not in FILE
    assert check(FILE, PUBLIC, now=NOW, holder=" Ada  Lind ").good
    assert check(FILE, PUBLIC, now=NOW, holder="Bo Lind").state == "other holder"


def leaves(value: Any, path: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    children = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    found = False
    for name, child in children:
        found = True
        yield from leaves(child, (*path, name))
    if not found:
        yield path


def changed(path: tuple[Any, ...], change: Callable[[Any], Any]) -> bytes:
    made = copy.deepcopy(SIGNED)
    inside: Any = made
    for name in path[:-1]:
        inside = inside[name]
    inside[path[-1]] = change(inside[path[-1]])
    return json.dumps(made).encode()


@pytest.mark.parametrize("path", list(leaves(SIGNED)), ids=lambda path: ".".join(map(str, path)))
def test_one_changed_value_anywhere_is_found(path: tuple[Any, ...]) -> None:
    for change in (lambda old: f"{old}x", lambda old: str(old)[:-1], lambda _old: None, lambda _old: {}):
        assert not check(changed(path, change), PUBLIC, now=NOW).good


def test_a_member_more_or_less_is_found() -> None:
    for place in (SIGNED, SIGNED["issuer"], SIGNED["proof"], SIGNED["credentialSubject"]["achievement"]):
        for name in list(place):
            kept = place.pop(name)
            assert not check(json.dumps(SIGNED).encode(), PUBLIC, now=NOW).good, name
            place[name] = kept
        place["more"] = "x"
        assert check(json.dumps(SIGNED).encode(), PUBLIC, now=NOW).state == "unread"
        del place["more"]
    assert check(json.dumps(SIGNED).encode(), PUBLIC, now=NOW).good


@given(st.integers(0, len(FILE) - 1), st.integers(1, 255))
def test_one_changed_byte_anywhere_is_found(at: int, by: int) -> None:
    data = bytearray(FILE)
    data[at] ^= by
    assert not check(bytes(data), PUBLIC, now=NOW).good


@given(st.integers(0, len(FILE)), st.binary(max_size=40))
@settings(max_examples=60)
def test_a_file_cut_off_or_mangled_is_told_and_no_more(at: int, tail: bytes) -> None:
    told = check(FILE[:at] + tail, PUBLIC, now=NOW)
    assert told.good == (FILE[:at] + tail.rstrip() == FILE) and told.words


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"[]",
        b"null",
        b"[" * 100_000,
        b'{"a": NaN}',
        b"{}",
        FILE.replace(b'"id":', b'"id":"urn:uuid:0","id":', 1),
        b"9" * 5000,
    ],
)
def test_what_is_no_certificate_file_is_told(data: bytes) -> None:
    assert check(data, PUBLIC, now=NOW).state == "unread"


def test_only_our_own_shape_is_signed() -> None:
    for name in ("validUntil", "evidence"):
        with pytest.raises(Misshapen, match=name):
            sign({key: value for key, value in credential(HOLDING, PUBLIC).items() if key != name}, PRIVATE, ISSUED)


def test_a_key_is_read_in_each_of_its_forms_and_nothing_else_is() -> None:
    assert read_key(f" {multikey(PUBLIC)}\n") == read_key(did(PUBLIC)) == read_key(PUBLIC.hex()) == PUBLIC
    for text in (
        "",
        "z",
        "z6Mk",
        "z0OIl",
        "hello world",
        multikey(PUBLIC)[:-1],
        multikey(PUBLIC) + "1",
        "z" + "z" * 9999,
    ):
        with pytest.raises(KeyUnread):
            read_key(text)


@given(st.binary(max_size=70))
def test_base58_comes_back(data: bytes) -> None:
    assert unbase58(base58(data)) == data


def test_base58_of_known_bytes() -> None:
    # The example of draft-msporny-base58-03, section 5 (memory).
    assert base58(b"Hello World!") == "2NEpo7TZRRrLZSi2U"


def test_the_standards_own_signature_comes_out_to_the_letter(standard: Callable[[str], Any], standards: Path) -> None:
    """W3C vc-di-eddsa, test vectors of eddsa-jcs-2022 (copy)."""
    folder = standards / "vc/vc-di-eddsa/eddsa-jcs-2022"
    signed = standard("vc/vc-di-eddsa/eddsa-jcs-2022/signedJCS.json")
    document = {name: value for name, value in signed.items() if name != "proof"}
    config = standard("vc/vc-di-eddsa/eddsa-jcs-2022/proofConfigJCS.json")
    assert digest(document, config).hex() == (folder / "combinedHashJCS.txt").read_text().strip()
    pair = standard("vc/vc-di-eddsa/keyPair.json")
    private = Ed25519PrivateKey.from_private_bytes(unbase58(pair["privateKeyMultibase"][1:])[2:])
    assert multikey(public_of(private)) == pair["publicKeyMultibase"]
    assert proof(document, private, dt.datetime(2023, 2, 24, 23, 36, 38, tzinfo=dt.UTC)) == signed["proof"]
    assert holds(signed, public_of(private))


def test_the_canonical_form_is_that_of_rfc_8785(standards: Path) -> None:
    inputs = sorted((standards / "crypto/jcs/input").glob("*.json"))
    assert inputs
    for one in inputs:
        assert (
            rfc8785.dumps(json.loads(one.read_text()))
            == (standards / "crypto/jcs/output" / one.name).read_bytes().strip()
        )


def test_the_file_is_a_credential_by_the_standards_schemas(standard: Callable[[str], Any]) -> None:
    """A closed-world schema of Open Badges 3.0, and W3C's own of VC 2.0 (copy)."""
    from jsonschema import Draft202012Validator

    for name in ("openbadges/ob3-achievementcredential-vc2.own.schema.json", "vc/verifiable-credential-schema.json"):
        assert [error.message for error in Draft202012Validator(standard(name)).iter_errors(SIGNED)] == []


def test_no_file_of_another_makers_kind_passes(standards: Path) -> None:
    files = sorted((standards / "openbadges/validator-fixtures").glob("*.json"))
    assert files
    for one in files:
        assert check(one.read_bytes(), PUBLIC, now=NOW).state == "unread"
