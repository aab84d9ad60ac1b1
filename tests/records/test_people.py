"""People come, move and leave: the evidence stays, what is personal goes, and the chain holds."""

import datetime as dt
import sqlite3
import threading
from pathlib import Path
from typing import Any

import pytest

from quizkit.records import (
    Records,
    RowRefused,
    add_person,
    erase_person,
    forget,
    keep_photo,
    keep_text,
    load_pack,
    move_person,
    open_records,
    photo_of,
    rename_person,
    set_language,
    set_secret,
    store_pack,
    text_of,
    verify_file,
)

NOW = dt.datetime(2026, 11, 25, 9, tzinfo=dt.UTC)
DAY = NOW.date()
SECRETS = ("Zebedee Quill", "a rash on the wrist", "JPEG-of-a-paper", "scrypt$zebedee", "half a draft")


@pytest.fixture
def records(shop: Path) -> Any:
    with open_records(shop) as opened:
        yield opened


@pytest.fixture
def zebedee(records: Records) -> int:
    """Somebody with a name, a note, a photo, a secret, a session and a draft."""
    with records.transaction(NOW):
        person = add_person(
            records,
            name=SECRETS[0],
            role="apprentice",
            site="north",
            language="en",
            secret=SECRETS[3],
            seen_on=DAY,
            done_by=1,
        )
        records.add(
            "talk",
            seen_on=DAY,
            done_by=1,
            person=person,
            skill="ppe",
            note=keep_text(records, SECRETS[1], person=person),
        )
        old = records.rows("sheet")[0]
        sheet = {name: old[name] for name in old if name not in ("id", "seal", "recorded_at", "seen_on", "done_by")}
        sheet |= {"person": person, "note": None}
        sheet |= {"photo": keep_photo(records, SECRETS[2].encode() * 3000, "image/jpeg", person=person)}
        records.add("sheet", seen_on=DAY, done_by=1, **sheet)
        records.keep("session", token="t", person=person, started_at=NOW, touched_at=NOW, address="a")
        records.keep("draft", person=person, what="sheet", body=f'["{SECRETS[4]}"]', saved_at=NOW)
        records.keep("sign_in_try", person=person, address="a", tried_at=NOW, was_right=True)
        records.keep("reading", person=person, module="ppe", lesson="1", read_at=NOW)
    return person


def everything(folder: Path) -> bytes:
    return b"".join(file.read_bytes() for file in sorted(folder.iterdir()))


def test_emptying_the_log_beside_a_reader_gives_up_at_once_and_holds_nobody_up(records: Records, zebedee: int) -> None:
    """Waiting for a long reader, a verify or a copy, it would keep everybody else from writing all the while."""
    gave_up: list[bool] = []

    def empty() -> None:
        with open_records(records.path) as other:
            gave_up.append(not forget(other))
            gave_up.append(other.conn.execute("PRAGMA busy_timeout").fetchone()[0] > 0)

    with open_records(records.path) as reader, reader.reading():
        assert reader.count("person")
        with records.transaction(NOW):
            rename_person(records, zebedee, "Zeb Other", seen_on=DAY, done_by=1)
        thread = threading.Thread(target=empty)
        thread.start()
        thread.join(2)
        writer = sqlite3.connect(records.path, timeout=1, isolation_level=None)
        try:
            writer.execute("BEGIN IMMEDIATE")
        finally:
            writer.close()
        thread.join()
    assert gave_up == [True, True] and forget(records)


def test_a_private_text_is_known_by_its_own_salted_hash(records: Records) -> None:
    with records.transaction(NOW):
        keys = {keep_text(records, "the same words", person=None) for _time in range(3)}
    assert len(keys) == 3 and {text_of(records, key) for key in keys} == {"the same words"}
    assert text_of(records, None) is None and photo_of(records, "0" * 64) is None


def test_who_leaves_is_erased_from_every_byte_beside_and_the_chain_holds(records: Records, zebedee: int) -> None:
    before = records.rows("talk", person=zebedee)
    assert all(word.encode() in everything(records.path.parent) for word in SECRETS)
    with records.transaction(NOW):
        erase_person(records, zebedee, seen_on=DAY, done_by=1)
    assert forget(records)
    left = everything(records.path.parent)
    assert not [word for word in SECRETS if word.encode() in left]
    assert records.rows("talk", person=zebedee) == before
    assert text_of(records, before[0]["note"]) is None
    row = records.row("person", number=zebedee)
    assert row is not None and (row["name"], row["secret"], row["left_on"]) == (None, None, "2026-11-25")
    assert [records.count(table, person=zebedee) for table in ("session", "draft", "sign_in_try", "reading")] == [0] * 4
    assert records.rows("admin", person=zebedee)[-1]["deed"] == "left"
    assert verify_file(records.path).sound


def test_who_has_left_is_not_changed_any_more(records: Records, zebedee: int) -> None:
    with records.transaction(NOW):
        erase_person(records, zebedee, seen_on=DAY, done_by=1)
        for change in (
            lambda: erase_person(records, zebedee, seen_on=DAY, done_by=1),
            lambda: rename_person(records, zebedee, "Z", seen_on=DAY, done_by=1),
            lambda: move_person(records, zebedee, seen_on=DAY, done_by=1, site="south"),
            lambda: set_secret(records, zebedee, "x"),
            lambda: set_language(records, zebedee, "es"),
            lambda: set_language(records, 999, "es"),
        ):
            with pytest.raises(RowRefused):
                change()


def test_a_new_name_role_and_site_are_evidence_and_verify(records: Records, zebedee: int) -> None:
    with records.transaction(NOW):
        rename_person(records, zebedee, "Zeb Quill", seen_on=DAY, done_by=1)
        move_person(records, zebedee, seen_on=DAY, done_by=1, role="technician")
        move_person(records, zebedee, seen_on=DAY, done_by=1, site="south")
        move_person(records, zebedee, seen_on=DAY, done_by=1)
        set_language(records, zebedee, "es")
    rows = records.rows("admin", person=zebedee)
    assert [(row["deed"], row["role"], row["site"]) for row in rows] == [
        ("joined", "apprentice", "north"),
        ("renamed", None, None),
        ("moved", "technician", None),
        ("moved", None, "south"),
    ]
    assert [text_of(records, row["name"]) for row in rows] == [SECRETS[0], "Zeb Quill", None, None]
    person = records.row("person", number=zebedee)
    assert person is not None and (person["name"], person["role"], person["site"], person["language"]) == (
        "Zeb Quill",
        "technician",
        "south",
        "es",
    )
    assert verify_file(records.path).sound


def test_another_secret_ends_the_sessions(records: Records, zebedee: int) -> None:
    with records.transaction(NOW):
        set_secret(records, zebedee, "scrypt$other")
    assert records.count("session", person=zebedee) == 0
    person = records.row("person", number=zebedee)
    assert person is not None and person["secret"] == "scrypt$other"


def test_a_note_kept_for_somebody_else_is_refused_in_evidence(records: Records, zebedee: int) -> None:
    """It would go with the wrong person, and be missed."""
    for person in (1, None):
        with pytest.raises(RowRefused), records.transaction(NOW):
            key = keep_text(records, "x", person=person)
            records.add("talk", seen_on=DAY, done_by=1, person=zebedee, skill="ppe", note=key)
    with pytest.raises(RowRefused), records.transaction(NOW):
        records.add("talk", seen_on=DAY, done_by=1, person=zebedee, skill="ppe", note="f" * 64)


def test_a_pack_is_kept_once_by_the_hash_of_its_bytes(records: Records) -> None:
    """The hash is that of `printf abc | sha256sum` (FIPS 180-4's own example, memory)."""
    with records.transaction(NOW):
        names = [store_pack(records, b"abc") for _time in range(2)]
    assert names == ["ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"] * 2
    assert load_pack(records, names[0]) == b"abc" and load_pack(records, "0" * 64) is None
