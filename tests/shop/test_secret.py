"""PINs and passphrases: which pass, and how they are kept."""

import hashlib

import pytest

from quizkit.shop import secret
from quizkit.shop.refusal import Refusal


@pytest.mark.parametrize("pin", ["1234", "0000", "987654", "12", "123456789", "12a4", "12 4", "", "１２９４", "8901"])
def test_a_pin_that_anybody_would_guess_or_nobody_can_type_is_refused(pin: str) -> None:
    with pytest.raises(Refusal) as told:
        secret.approve("apprentice", pin)
    assert told.value.mend


@pytest.mark.parametrize("phrase", ["short", "aaaaaaaaaaaaaaaa", "x" * 300])
def test_a_weak_or_endless_passphrase_is_refused(phrase: str) -> None:
    with pytest.raises(Refusal):
        secret.approve("trainer", phrase)


def test_drawn_secrets_pass() -> None:
    for _turn in range(50):
        secret.approve("technician", secret.drawn_pin())
        secret.approve("manager", secret.drawn_passphrase())


def test_no_pin_is_drawn_that_counts_up_or_down(monkeypatch: pytest.MonkeyPatch) -> None:
    """Chance gives a run, then another, then a PIN that passes."""
    digits = iter("345678" + "210987" + "274915")
    monkeypatch.setattr("quizkit.shop.secret.secrets.choice", lambda _signs: next(digits))
    assert secret.drawn_pin() == "274915"


def test_a_kept_secret_fits_itself_alone() -> None:
    keep = secret.kept("2795")
    assert secret.fits("2795", keep)
    assert not secret.fits("2796", keep)
    assert not secret.fits("2795", "")
    assert "2795" not in keep
    assert keep != secret.kept("2795")


def test_the_slow_hash_is_the_published_one() -> None:
    # RFC 7914, section 12: scrypt("password", "NaCl", N=1024, r=8, p=16), read.
    expected = "fdbabe1c9d3472007856e7190d01e9fe7c6ad7cbc8237830e77376634b373162"
    keep = f"scrypt$10$8$16${b'NaCl'.hex()}${expected}"
    assert hashlib.scrypt(b"password", salt=b"NaCl", n=1024, r=8, p=16, dklen=64).hex().startswith(expected)
    assert secret.fits("password", keep)


def test_a_token_is_kept_as_its_hash_alone() -> None:
    token = secret.new_token()
    assert token not in secret.token_hash(token)
    assert secret.token_hash(token) != secret.token_hash(secret.new_token())
