"""`quizkit certificate`: a file is checked offline against the key that the shop gave out."""

import datetime as dt
import json
from collections.abc import Callable
from pathlib import Path

import pytest
import rfc8785
from click.testing import Result
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

import quizkit
from quizkit import shop as deeds
from quizkit.exchange.certificate_file import certificate_file
from quizkit.exchange.credential import Holding, Seen, credential
from quizkit.exchange.keys import multikey, public_of
from quizkit.exchange.proof import sign

Run = Callable[..., Result]
KEY = Ed25519PrivateKey.from_private_bytes(bytes(range(32)))


@pytest.fixture
def file(tmp_path: Path) -> Path:
    issued = dt.datetime.now(dt.UTC).replace(microsecond=0) - dt.timedelta(days=2)
    until = issued + dt.timedelta(days=300)
    seen = (Seen("Balancing", "Check 22 of 24; sheet signed."),)
    holding = Holding(
        7, "bonding", "Bonding", "Shown.", "Seen.", "Ada Lind", bytes(16), "Two Bays", issued, until, seen
    )
    path = tmp_path / "certificate.json"
    path.write_bytes(rfc8785.dumps(sign(credential(holding, public_of(KEY)), KEY, issued)))
    return path


def test_a_genuine_file_is_told_with_all_that_it_says(run: Run, file: Path) -> None:
    done = run("certificate", "check", file, "--key", multikey(public_of(KEY)), "--holder", "Ada Lind")
    assert done.exit_code == 0
    for words in ("genuine, unchanged", "Two Bays", "Balancing: Check 22 of 24", "approves no repair", "withdrawn"):
        assert words in done.output
    made = json.loads(run("certificate", "check", file, "--key", multikey(public_of(KEY)), "--json").output)
    assert (made["good"], made["holder_checked"]) == (True, False)


def test_a_changed_file_or_another_name_is_a_problem(run: Run, file: Path, tmp_path: Path) -> None:
    key = tmp_path / "shop.pub"
    key.write_text(multikey(public_of(KEY)) + "\n")
    assert run("certificate", "check", file, "--key", key, "--holder", "Bo Lind").exit_code == 1
    file.write_bytes(file.read_bytes().replace(b"22 of 24", b"24 of 24"))
    done = run("certificate", "check", file, "--key", key)
    assert done.exit_code == 1 and "changed after it was signed" in done.output


def test_no_key_is_wrong_use_and_no_file_is_told(run: Run, file: Path, tmp_path: Path) -> None:
    assert run("certificate", "check", file, "--key", "nonsense").exit_code == 2
    assert run("certificate", "check", file).exit_code == 2
    assert run("certificate", "check", tmp_path / "none", "--key", multikey(public_of(KEY))).exit_code == 1


@pytest.fixture
def issued(content: Path, tmp_path: Path) -> Callable[[int], tuple[Path, Path, str]]:
    """A shop that issued a certificate so many days ago: its file, the certificate's signed file, and its key."""

    def make(days: int) -> tuple[Path, Path, str]:
        settings = content / "shop.toml"
        certificate = '[certificates.start]\ntitle = "Start"\nskills = ["pairing"]\nsays = "Shown."\n'
        settings.write_text(settings.read_text() + certificate)
        shop_file, moment = tmp_path / "shop.db", dt.datetime.now(dt.UTC) - dt.timedelta(days=days)
        with deeds.open_shop(shop_file, create=True) as shop:
            deeds.publish(shop, quizkit.compile_content(content), None, now=moment)
            add = {"site": "main", "now": moment}
            boss = deeds.add_person(shop, name="Ada", role="manager", secret="one shelf two bays", by=None, **add)
            ann = deeds.add_person(shop, name="Ann", role="apprentice", secret="2795", by=boss, **add)
            form = deeds.start_check(shop, ann, "pairing", now=moment)
            asked = deeds.check_item(shop, ann, form, 1, now=moment).question
            right = deeds.variant_of(deeds.current_pack(shop), asked.question, asked.variant).right("answer")
            deeds.answer_item(shop, ann, form, 1, {"answer": right.removeprefix("≈ ")}, now=moment)
            deeds.hand_in(shop, ann, form, now=moment)
            number = deeds.issue_certificate(shop, boss, ann, "start", now=moment)
            view, private = deeds.certificate(shop, boss, number, now=moment), deeds.signing_key(shop)
            signed = tmp_path / "issued.json"
            signed.write_bytes(certificate_file(view, private, now=moment))
        return shop_file, signed, multikey(public_of(private))

    return make


def test_an_expired_one_is_said_to_be(run: Run, issued: Callable[[int], tuple[Path, Path, str]]) -> None:
    _shop, file, key = issued(3 * 365)
    done = run("certificate", "check", file, "--key", key)
    assert done.exit_code == 1 and "expired: the last day was" in done.output


def test_a_withdrawn_one_is_said_to_be_by_its_shop(
    run: Run, issued: Callable[[int], tuple[Path, Path, str]], tmp_path: Path
) -> None:
    shop_file, file, key = issued(30)
    stands = run("certificate", "check", file, "--key", key, "--shop", shop_file)
    assert stands.exit_code == 0 and "The shop has not withdrawn it." in stands.output
    with deeds.open_shop(shop_file) as shop:
        (one,) = deeds.certificates(shop, 1, now=dt.datetime.now(dt.UTC))
        deeds.withdraw_certificate(shop, 1, one.number, "Issued in error", now=dt.datetime.now(dt.UTC))
    assert run("certificate", "check", file, "--key", key).exit_code == 0, "a file alone cannot know"
    gone = run("certificate", "check", file, "--key", key, "--shop", shop_file)
    assert gone.exit_code == 1 and "Issued in error" in gone.output
    made = json.loads(run("certificate", "check", file, "--key", key, "--shop", shop_file, "--json").output)
    assert made["good"] is False and "Issued in error" in made["withdrawn"]


def test_another_shops_file_says_that_it_gave_out_no_such_certificate(
    run: Run, issued: Callable[[int], tuple[Path, Path, str]], file: Path
) -> None:
    shop_file, _file, _key = issued(1)
    done = run("certificate", "check", file, "--key", multikey(public_of(KEY)), "--shop", shop_file)
    assert done.exit_code == 1 and "gave out no such certificate" in done.output


def test_one_whose_clearance_ended_before_its_day_is_said_to_have_ended(
    run: Run, issued: Callable[[int], tuple[Path, Path, str]]
) -> None:
    shop_file, file, key = issued(30)
    with deeds.open_shop(shop_file) as shop:
        (result,) = shop.rows("result")
        deeds.strike(shop, 1, f"result:{result['id']}", "somebody else sat there", now=dt.datetime.now(dt.UTC))
    done = run("certificate", "check", file, "--key", key, "--shop", shop_file)
    assert done.exit_code == 1 and "ended before its day" in done.output
