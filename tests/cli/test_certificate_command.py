"""`quizkit certificate`: a file is checked offline against the key that the shop gave out."""

import datetime as dt
import json
from collections.abc import Callable
from pathlib import Path

import pytest
import rfc8785
from click.testing import Result
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

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
