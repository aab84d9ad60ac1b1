"""A full disk, a file that may not be written or is damaged, a clock set back: a clear page, nothing half written."""

import datetime as dt
import logging
import re
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, closing, contextmanager
from html import unescape
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from quizkit import shop as deeds
from quizkit.records import key_path, verify_file

if TYPE_CHECKING:
    from conftest import Bench, Browser, Lived

Trouble = Callable[["Bench"], AbstractContextManager[None]]


def _pragma(bench: "Bench", text: str) -> int:
    """Set something on the connection that the pages use."""
    (shop,) = bench.app.extensions["shops"]
    found = shop.records.conn.execute(f"PRAGMA {text}").fetchone()
    return int(found[0]) if found else 0


@contextmanager
def full(bench: "Bench") -> Iterator[None]:
    """The file may not grow by a page, as on a disk without room; the pages it has are filled up."""
    _pragma(bench, f"max_page_count = {_pragma(bench, 'page_count')}")
    with bench.shop() as shop, pytest.raises(Exception, match="full"):
        shop.records.conn.execute(f"PRAGMA max_page_count = {_pragma(bench, 'page_count')}")
        for count in range(10_000):
            with shop.deed(bench.now):
                shop.records.keep("draft", person=1, what=str(count), body='"' + "x" * 900 + '"', saved_at=bench.now)
    yield
    _pragma(bench, "max_page_count = 1000000")
    with bench.shop() as shop, shop.deed(bench.now):
        shop.records.drop("draft", person=1)


@contextmanager
def read_only(bench: "Bench") -> Iterator[None]:
    """The file may be read and not written."""
    _pragma(bench, "query_only = ON")
    yield
    _pragma(bench, "query_only = OFF")


@contextmanager
def clock_set_back(bench: "Bench") -> Iterator[None]:
    """The machine's clock falls behind the last row."""
    bench.now -= dt.timedelta(hours=3)
    yield
    bench.now += dt.timedelta(hours=3)


TROUBLES = {
    "full": (full, ("full", "ake room")),
    "read-only": (read_only, ("may not be written", "ive the program the right")),
    "clock": (clock_set_back, ("The clock says", "et the clock of this machine right; nothing was written")),
}


def started(bench: "Bench") -> "tuple[Browser, str]":
    """Somebody in a check, with one answer written: the browser, and the address of the first question."""
    browser = bench.browser("apprentice")
    form = browser.post("/check/ppe").headers["Location"]
    browser.get(f"{form}/1")
    bench.later(minutes=5)
    return browser, f"{form}/1"


@pytest.mark.parametrize(("trouble", "words"), TROUBLES.values(), ids=TROUBLES)
def test_an_answer_that_cannot_be_kept_is_told_and_can_be_sent_again(
    bench: "Bench", trouble: Trouble, words: tuple[str, ...]
) -> None:
    browser, question = started(bench)
    head = verify_file(bench.path).head
    with trouble(bench):
        answers = [browser.post(question, {"part.answer": f"{turn}" + "9" * 180}) for turn in range(40)]
        answer = answers[-1]
        said = re.search(r"<h1>.*?</p>", answer.text, re.S)
        assert answer.status_code == 503 and said and all(word in unescape(said[0]) for word in words), said
        assert "Today&#39;s ticket" in answer.text and "Traceback" not in answer.text
        refused = [one for one in answers if one.status_code == 503]
    found = verify_file(bench.path, head.seal)
    assert found.proven and found.head.position - head.position <= len(answers) - len(refused)
    assert browser.post(question, {"part.answer": "12 ppm"}).status_code == 303
    assert verify_file(bench.path, head.seal).proven


@pytest.mark.parametrize(("trouble", "words"), TROUBLES.values(), ids=TROUBLES)
@pytest.mark.parametrize("address", ["/", "/module/ppe", "/sign-in", "/secret"])
def test_pages_are_shown_or_say_what_is_wrong(
    bench: "Bench", trouble: Trouble, words: tuple[str, ...], address: str
) -> None:
    browser, _question = started(bench)
    browser.get("/sums")
    with trouble(bench):
        answer = browser.get(address)
        assert answer.status_code == 200 or (answer.status_code == 503 and words[0] in answer.text), answer.status
        signed = browser.post(f"/sign-in/{bench.people.other}", secret="2795")
        assert signed.status_code in (303, 503) and "Traceback" not in signed.text
    assert browser.get(address).status_code == 200


def test_a_damaged_file_is_said_and_not_worked_on(bench: "Bench") -> None:
    browser, question = started(bench)
    bench.app.extensions["shops"].pop().close()
    with closing(sqlite3.connect(bench.path)) as conn:
        conn.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    body = bytearray(bench.path.read_bytes())
    body[20_000 : len(body) // 2] = b"\xa5" * (len(body) // 2 - 20_000)
    bench.path.write_bytes(body)
    for answer in (browser.get("/"), browser.get("/sign-in"), browser.client.post(question, data={})):
        assert answer.status_code in (400, 503) and "Traceback" not in answer.text
        assert "restore the last copy" in answer.text or answer.status_code == 400


@pytest.fixture
def log(caplog: pytest.LogCaptureFixture) -> pytest.LogCaptureFixture:
    """What the server's log says; the fuzz, where it ran before, has set it to silence."""
    caplog.set_level(logging.ERROR, logger="quizkit.web")
    return caplog


def test_a_file_that_is_gone_is_said_and_where_it_lay_stands_in_the_log_alone(
    bench: "Bench", log: pytest.LogCaptureFixture
) -> None:
    browser, _question = started(bench)
    bench.path.rename(bench.path.with_name("elsewhere.db"))
    answer = browser.get("/")
    assert answer.status_code == 503 and "is missing" in answer.text and "whoever runs the server" in answer.text
    assert str(bench.path.parent) not in answer.text and bench.path.name not in answer.text
    assert f"There are no records at {bench.path}" in log.text


def test_a_key_that_others_may_read_is_said_and_not_where_it_lies(
    lived: "Lived", tmp_path: Path, log: pytest.LogCaptureFixture
) -> None:
    bench, number = lived.bench(tmp_path), lived.rows["certificate"]
    key = key_path(bench.path)
    with bench.shop() as shop:
        deeds.end_withdrawal(
            shop, bench.people.manager, lived.rows["withdrawal"], "Seen again.", now=bench.now, restores=True
        )
    key.chmod(0o644)
    answer = bench.browser("manager").get(f"/certificates/{number}/file")
    assert answer.status_code == 503 and str(key.parent) not in answer.text
    assert f"Others may read the shop's key at {key}" in log.text
