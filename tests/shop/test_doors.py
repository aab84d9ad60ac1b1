"""Signing in and out, sessions that end, half-done work that stays."""

import datetime as dt
import hashlib

import pytest

from quizkit import shop as deeds
from quizkit.shop import Refusal, Waiting

PIN = "2795"


def enter(floor, secret=PIN, person=None, address="tablet"):
    return deeds.sign_in(floor.shop, person or floor.ann, secret, address=address, now=floor.now)


def test_the_roster_is_searched_by_the_words_of_a_name(floor) -> None:
    assert [row.name for row in deeds.roster(floor.shop)] == ["Ann Bly", "Ben Cray", "Mo Hale", "Tess Orr"]
    found = deeds.roster(floor.shop, "bly an")
    assert [(row.name, row.secret_kind, row.site_title) for row in found] == [("Ann Bly", "PIN", "North bay")]


def test_a_right_pin_opens_a_session_and_signing_out_ends_it(floor) -> None:
    signed = enter(floor)
    assert signed.person.name == "Ann Bly"
    assert deeds.session(floor.shop, signed.token, now=floor.later(minutes=5)).person == floor.ann
    deeds.sign_out(floor.shop, signed.token, now=floor.now)
    assert deeds.session(floor.shop, signed.token, now=floor.now) is None
    assert deeds.session(floor.shop, "no token", now=floor.now) is None


def test_a_session_ends_when_idle_and_after_a_shift(floor) -> None:
    token = enter(floor).token
    assert deeds.session(floor.shop, token, now=floor.now + dt.timedelta(minutes=31)) is None
    for _quarter in range(39):
        assert deeds.session(floor.shop, token, now=floor.later(minutes=15)) is not None
    assert deeds.session(floor.shop, token, now=floor.later(minutes=16)) is None


def test_a_wrong_pin_is_told_and_slows_the_next_tries(floor) -> None:
    for _try in range(3):
        with pytest.raises(Refusal, match="not right"):
            enter(floor, "0000")
    with pytest.raises(Waiting, match="1 second"):
        enter(floor)
    floor.later(seconds=2)
    assert enter(floor).person.person == floor.ann


def test_a_wrong_secret_is_told_with_who_may_set_another(floor) -> None:
    """A trainer resets a PIN, only a manager a passphrase. Who is not there, or has left, gets the words of most."""

    def told(person: int) -> str:
        with pytest.raises(Refusal) as refused:
            enter(floor, "0000", person=person, address=f"place {person}")
        return str(refused.value)

    pin = "This PIN is not right: type it again; a trainer or manager can set a new one"
    assert told(floor.ann) == told(999) == pin
    for person in (floor.trainer, floor.manager):
        assert told(person) == "This passphrase is not right: type it again; a manager can set a new one"
    deeds.leave(floor.shop, floor.trainer, by=floor.manager, now=floor.later(minutes=1))
    assert told(floor.trainer) == pin


def pester(floor, person, address, times=6) -> None:
    """Somebody tries a name with wrong PINs, patiently."""
    for _try in range(times):
        with pytest.raises(Refusal, match="not right"):
            enter(floor, "0000", person=person, address=address)
        floor.later(seconds=61)


def test_a_name_tried_from_one_address_waits_at_another(floor) -> None:
    pester(floor, floor.ann, "far")
    with pytest.raises(Refusal, match="not right"):
        enter(floor, "0000", address="far")
    with pytest.raises(Waiting):
        enter(floor, address="elsewhere")
    assert enter(floor, person=floor.ben, address="elsewhere").person.person == floor.ben


def test_an_address_that_tries_many_names_waits_with_every_name(floor) -> None:
    for person in (floor.ann, floor.manager, floor.trainer):
        with pytest.raises(Refusal, match="not right"):
            enter(floor, "0000", person=person, address="far")
    with pytest.raises(Waiting):
        enter(floor, person=floor.ben, address="far")
    assert enter(floor, person=floor.ben, address="elsewhere").person.person == floor.ben


def test_no_prankster_elsewhere_keeps_anybody_from_the_own_tablet(floor) -> None:
    """However long somebody tries a name from another address: where it signed in lately it comes in at once."""
    assert enter(floor).person.person == floor.ann
    for _time in range(201):  # a tablet that many share
        enter(floor, person=floor.ben)
    pester(floor, floor.ann, "far", times=210)
    with pytest.raises(Refusal, match="not right"):
        enter(floor, "0000", address="far")
    assert enter(floor).person.person == floor.ann


def test_nobody_signs_in_as_one_who_is_not_there_or_has_left(floor) -> None:
    with pytest.raises(Refusal, match="not right"):
        enter(floor, person=999)
    token = enter(floor).token
    deeds.leave(floor.shop, floor.ann, by=floor.manager, now=floor.later(minutes=1))
    assert deeds.session(floor.shop, token, now=floor.now) is None
    with pytest.raises(Refusal, match="not right"):
        enter(floor)


def test_the_slow_hash_is_worked_for_who_is_not_there_too(floor, monkeypatch: pytest.MonkeyPatch) -> None:
    """Otherwise a quick refusal would tell which numbers are somebody's."""
    deeds.leave(floor.shop, floor.ben, by=floor.manager, now=floor.later(minutes=1))
    slow, worked = hashlib.scrypt, []
    monkeypatch.setattr("hashlib.scrypt", lambda *given, **more: worked.append(1) or slow(*given, **more))
    for person in (floor.ann, floor.ben, 999):
        with pytest.raises(Refusal, match="not right"):
            enter(floor, "0000", person=person, address=f"place {person}")
        assert worked.pop() and not worked


def test_the_file_holds_no_pin_and_no_token(floor) -> None:
    token = enter(floor).token
    floor.shop.records.conn.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    bytes_of_file = floor.path.read_bytes()
    assert token.encode() not in bytes_of_file
    assert PIN.encode() not in bytes_of_file.replace(b"27950", b"")


def test_half_done_work_is_kept_by_name_and_person(floor) -> None:
    deeds.keep_draft(floor.shop, floor.ann, "sheet:1", {"a": "2.4", "note": "ä"}, now=floor.now)
    deeds.keep_draft(floor.shop, floor.ann, "sheet:1", {"a": "2.5"}, now=floor.now)
    assert deeds.draft(floor.shop, floor.ann, "sheet:1") == {"a": "2.5"}
    assert deeds.draft(floor.shop, floor.ben, "sheet:1") == {}
    deeds.drop_draft(floor.shop, floor.ann, "sheet:1", now=floor.now)
    assert deeds.draft(floor.shop, floor.ann, "sheet:1") == {}


def kept_tries(floor) -> list[tuple[int, str]]:
    rows = floor.shop.rows("sign_in_try")
    return [(row["person"], row["address"]) for row in rows]


def test_sessions_and_tries_go_after_thirty_days_whoever_signs_in_next(floor) -> None:
    """Tries at a name that nobody has go too, and a session whose person never came back."""
    for number in (floor.ann, 9_999):
        with pytest.raises(Refusal):
            enter(floor, "0000", person=number, address="far")
    left_behind = enter(floor)
    floor.later(days=29, hours=23)
    enter(floor, person=floor.ben)
    assert kept_tries(floor) == [(floor.ann, "far"), (9_999, "far"), (floor.ann, "tablet"), (floor.ben, "tablet")]
    assert deeds.holder(floor.shop, left_behind.token) == floor.ann
    floor.later(hours=2)
    with pytest.raises(Refusal):
        enter(floor, "0000", person=floor.ben)
    assert kept_tries(floor) == [(floor.ben, "tablet")] * 2
    assert deeds.holder(floor.shop, left_behind.token) is None


def test_a_thousand_old_tries_go_with_the_sign_ins_that_follow(floor) -> None:
    with floor.shop.deed(floor.now):
        for number in range(1000):
            floor.shop.records.keep(
                "sign_in_try", person=number, address=f"10.0.0.{number}", tried_at=floor.now, was_right=False
            )
    floor.later(days=31)
    for _time in range(21):
        enter(floor)
        floor.later(seconds=1)
    assert kept_tries(floor) == [(floor.ann, "tablet")] * 21
