"""In and out: the roster, the secret, the token of forms, the headers, and what was typed when a session ran out."""

import datetime as dt
import shutil
import sqlite3
import time
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from werkzeug.test import create_environ

from quizkit import shop as deeds
from quizkit.web import bench as around
from quizkit.web import create_app
from tests.web.lived import PHRASE

if TYPE_CHECKING:
    from conftest import Bench, Lived


def test_a_name_is_found_by_a_part_of_it(bench: "Bench") -> None:
    page = bench.browser().get("/sign-in?find=ann").text
    assert "Ann Bly" in page and "Ben Cray" not in page


def test_a_wrong_pin_is_told_and_the_door_stays(bench: "Bench") -> None:
    browser = bench.browser()
    answer = browser.post(f"/sign-in/{bench.people.apprentice}", secret="0000")
    assert answer.status_code == 401
    assert "not right" in answer.text and 'name="secret"' in answer.text and '"0000"' not in answer.text


@pytest.mark.parametrize(("role", "words"), [("apprentice", "trainer or manager sets"), ("trainer", "manager sets")])
def test_a_door_names_who_may_set_a_new_secret(bench: "Bench", role: str, words: str) -> None:
    page = bench.browser().get(f"/sign-in/{getattr(bench.people, role)}").text
    assert f"Forgotten? A {words} a new one." in page


def test_a_page_offers_a_new_secret_only_to_who_may_set_it(bench: "Bench") -> None:
    """A trainer resets a PIN, only a manager a passphrase; nobody resets their own there."""
    people = bench.people
    for looks, whose, words in (
        ("trainer", people.apprentice, "A new PIN<"),
        ("manager", people.apprentice, "A new PIN<"),
        ("trainer", people.manager, ""),
        ("manager", people.trainer, "A new passphrase<"),
        ("trainer", people.trainer, ""),
    ):
        page = bench.browser(looks).get(f"/people/{whose}").text
        offered = f'action="/people/{whose}/secret"' in page
        assert offered == bool(words) and words in page, (looks, whose)


def test_many_wrong_pins_wait_and_do_not_lock_out(bench: "Bench") -> None:
    browser = bench.browser()
    statuses = [browser.post(f"/sign-in/{bench.people.apprentice}", secret="0000").status_code for _ in range(5)]
    assert statuses[0] == 401 and statuses[-1] == 429
    bench.later(minutes=2)
    assert browser.post(f"/sign-in/{bench.people.apprentice}", secret="2795").status_code == 303


def test_nobody_is_asked_for_a_door_that_is_not_there(bench: "Bench") -> None:
    assert bench.browser().get("/sign-in/999").status_code == 404


@pytest.mark.parametrize("address", ["/", "/module/ppe", "/secret"])
def test_who_is_not_signed_in_is_asked_to(bench: "Bench", address: str) -> None:
    answer = bench.browser().get(address)
    assert (answer.status_code, answer.headers["Location"]) == (302, "/sign-in")


def test_signing_out_ends_it_at_the_server_too(bench: "Bench") -> None:
    browser = bench.browser("apprentice")
    browser.get("/")
    key = browser.client.get_cookie("key")
    assert key is not None
    browser.post("/sign-out")
    browser.client.set_cookie("key", key.value)
    assert browser.get("/").status_code == 302


def test_a_session_ends_when_it_is_left_alone(bench: "Bench") -> None:
    browser = bench.browser("apprentice")
    bench.later(minutes=31)
    assert browser.get("/").status_code == 302


def test_a_form_without_its_token_does_nothing(bench: "Bench") -> None:
    browser = bench.browser("apprentice")
    answer = browser.client.post("/practise/ppe", data={})
    assert answer.status_code == 400 and "open for too long" in answer.text
    with bench.shop() as shop:
        assert shop.count("draw") == 0


def test_the_token_of_another_browser_opens_nothing(bench: "Bench") -> None:
    thief, browser = bench.browser("other"), bench.browser("apprentice")
    thief.get("/")
    answer = browser.client.post("/practise/ppe", data={"token": thief.token()})
    assert answer.status_code == 400


@pytest.mark.parametrize("address", ["/sign-in", "/", "/nowhere", "/sums"])
def test_every_page_carries_the_strict_headers(bench: "Bench", address: str) -> None:
    answer = bench.browser("apprentice").get(address)
    policy = answer.headers["Content-Security-Policy"]
    assert "default-src 'none'" in policy and "unsafe" not in policy and "frame-ancestors 'none'" in policy
    assert answer.headers["Cache-Control"] == "no-store"
    assert answer.headers["X-Content-Type-Options"] == "nosniff"
    assert "style=" not in answer.text and "<style" not in answer.text
    assert "onclick" not in answer.text and "<script>" not in answer.text


@pytest.mark.parametrize(
    ("address", "told"),
    [
        ("/check/form/12/3", "/check/form/12/3"),
        ("/lesson/ä b/ü", "/lesson/%C3%A4%20b/%C3%BC"),
        ("/lesson/a%20b", "/lesson/a%20b"),
        ("/module/ppe#check", "/module/ppe#check"),
    ],
)
def test_where_a_form_leads_stands_in_a_header_as_it_must(address: str, told: str) -> None:
    environ = create_environ("/", method="POST")
    headers = around.onward(address).get_wsgi_headers(environ)
    assert (headers["Location"], headers["Content-Length"]) == (told, "0")
    with pytest.raises(ValueError, match="newline"):
        around.onward(f"{address}\r\nSet-Cookie: key=x")


def test_cookies_are_out_of_reach_of_scripts_and_other_sites(bench: "Bench") -> None:
    browser = bench.browser()
    answer = browser.post(f"/sign-in/{bench.people.apprentice}", secret="2795")
    cookies = answer.headers.getlist("Set-Cookie")
    assert cookies and all("HttpOnly" in cookie and "SameSite=Strict" in cookie for cookie in cookies)


def test_an_answer_typed_into_a_lapsed_session_is_kept_and_taken(bench: "Bench") -> None:
    browser = bench.browser("apprentice")
    browser.get("/module/ppe")
    asked = browser.post("/practise/ppe")
    where = asked.headers["Location"]
    page = browser.get(where).text
    assert 'name="part.' in page
    names = sorted({piece.split('"')[0] for piece in page.split('name="')[1:] if piece.startswith("part.")})
    bench.later(hours=2)
    roster = browser.post(where, dict.fromkeys(names, "12"))
    assert roster.status_code == 401 and "What you typed is kept" in roster.text
    kept = roster.text.split('name="kept" value="')[1].split('"')[0]
    back = browser.post(f"/sign-in/{bench.people.apprentice}", secret="2795", kept=kept)
    assert back.status_code == 200 and f'action="{where}"' in back.text
    again = browser.post(where, dict.fromkeys(names, "12"))
    assert again.status_code in (303, 422)


def test_a_kept_answer_of_a_check_stands_in_its_question_again_for_its_owner_alone(bench: "Bench") -> None:
    browser = bench.browser("apprentice")
    form = browser.post("/check/ppe").headers["Location"].rsplit("/", 1)[1]
    with bench.shop() as shop:
        rows = deeds.check_list(shop, bench.people.apprentice, int(form), now=bench.now).rows
        views = [
            deeds.check_item(shop, bench.people.apprentice, int(form), row.item, now=bench.now).question for row in rows
        ]
    item, part = next((at, view.parts[0]) for at, view in enumerate(views, 1) if view.parts[0].kind == "number")
    bench.later(hours=2)
    roster = browser.post(f"/check/form/{form}/{item}", {f"part.{part.name}": "61.5 and a bit"}, then="list")
    kept = roster.text.split('name="kept" value="')[1].split('"')[0]
    back = browser.post(f"/sign-in/{bench.people.apprentice}", secret="2795", kept=kept).text
    assert f"{item} of {len(rows)}" in back and "Still here from before" in back
    assert 'value="61.5 and a bit"' in back and f'action="/check/form/{form}/{item}"' in back
    other = bench.browser().post(f"/sign-in/{bench.people.other}", secret="2795", kept=kept)
    assert (other.status_code, other.headers["Location"]) == (303, "/") and "61.5" not in other.text


def test_what_a_trainer_typed_on_a_sheet_is_shown_to_nobody_else(lived: "Lived", tmp_path: Path) -> None:
    bench = lived.bench(tmp_path)
    browser, sheet = bench.browser("trainer"), f"/sheets/{lived.people.apprentice}/pairing"
    browser.get(sheet)
    bench.later(hours=2)
    kept = browser.post(sheet, note="shook all the time", do="park").text.split('name="kept" value="')[1].split('"')[0]
    other = bench.browser().post(f"/sign-in/{lived.people.apprentice}", secret="2795", kept=kept)
    assert (other.status_code, other.headers["Location"]) == (303, "/") and "shook" not in other.text
    back = bench.browser().post(f"/sign-in/{lived.people.trainer}", secret=PHRASE, kept=kept)
    assert "shook all the time" in back.text


def test_no_secret_is_carried_in_a_kept_form(bench: "Bench") -> None:
    browser = bench.browser("apprentice")
    browser.get("/secret")
    bench.later(hours=2)
    answer = browser.post("/secret", old="2795", new="8642", again="8642")
    kept = answer.text.split('name="kept" value="')[1].split('"')[0]
    back = browser.post(f"/sign-in/{bench.people.apprentice}", secret="2795", kept=kept)
    assert "8642" not in back.text and 'value="2795"' not in back.text


def test_a_kept_form_that_was_tampered_with_is_dropped(bench: "Bench") -> None:
    browser = bench.browser()
    answer = browser.post(f"/sign-in/{bench.people.apprentice}", secret="2795", kept="made.up.words")
    assert (answer.status_code, answer.headers["Location"]) == (303, "/")


def test_a_kept_form_ends_with_the_shift(bench: "Bench", monkeypatch: pytest.MonkeyPatch) -> None:
    """Whoever finds the page the next day takes up nothing of it."""
    browser, number = bench.browser("apprentice"), bench.people.apprentice
    browser.get("/module/ppe")
    bench.later(hours=2)
    text = browser.post("/practise/ppe", question="ppe/shift-mean").text
    kept = text.split('name="kept" value="')[1].split('"')[0]
    assert "shift-mean" in browser.post(f"/sign-in/{number}", secret="2795", kept=kept).text
    later = time.time() + 9 * 3600
    monkeypatch.setattr("itsdangerous.timed.TimestampSigner.get_timestamp", lambda _signer: int(later))
    answer = browser.post(f"/sign-in/{number}", secret="2795", kept=kept)
    assert (answer.status_code, answer.headers["Location"]) == (303, "/")


def test_ones_own_pin_is_changed_with_the_old_one(bench: "Bench") -> None:
    browser = bench.browser("apprentice")
    browser.get("/secret")
    for sent, box in (
        ({"old": "0000", "new": "8642", "again": "8642"}, "old"),
        ({"old": "2795", "new": "8642", "again": "8643"}, "again"),
        ({"old": "2795", "new": "1234", "again": "1234"}, "new"),
    ):
        answer = browser.post("/secret", sent)
        assert answer.status_code == 409 and f'<a href="#{box}">' in answer.text
        assert f'<input id="{box}" name="{box}" type="password" aria-invalid="true"' in answer.text
    assert browser.post("/secret", old="2795", new="8642", again="8642").status_code == 303
    with bench.shop() as shop:
        signed = deeds.sign_in(shop, bench.people.apprentice, "8642", address="test", now=bench.now)
    assert signed.until > bench.now + dt.timedelta(minutes=1)


def test_a_body_too_large_is_refused_in_the_shops_words(bench: "Bench") -> None:
    browser = bench.browser("apprentice")
    browser.get("/")
    answer = browser.post("/practise/ppe", question="x" * (7 * 1024 * 1024))
    assert answer.status_code == 413 and "too large" in answer.text


@pytest.mark.parametrize(
    ("kind", "flood"),
    [
        ("application/x-www-form-urlencoded", {"question": "x" * 1100 * 1024}),
        ("multipart/form-data", {"question": "x" * 600 * 1024}),
        ("multipart/form-data", {f"field.{number}": "x" for number in range(500)}),
    ],
    ids=["long form", "long field", "many fields"],
)
def test_a_form_of_too_much_text_or_too_many_fields_is_refused(
    bench: "Bench", kind: str, flood: dict[str, str]
) -> None:
    """A form is small, only a photo is not; from a stranger too, who needs no more than a token."""
    browser = bench.browser()
    browser.get("/sign-in")
    answer = browser.client.post("/sign-in", data={"token": browser.token(), **flood}, content_type=kind)
    assert answer.status_code == 413 and "too large" in answer.text


def test_a_fault_of_ours_shows_nothing_of_its_inside(bench: "Bench", monkeypatch: pytest.MonkeyPatch) -> None:
    browser = bench.browser("apprentice")
    monkeypatch.setattr("quizkit.shop.today", lambda *_, **__: 1 / 0)
    answer = browser.get("/")
    assert answer.status_code == 500
    assert "Something broke on our side" in answer.text and "ZeroDivision" not in answer.text


def test_a_file_put_in_the_place_of_the_shops_is_the_one_that_is_used(bench: "Bench") -> None:
    """A server that goes on while a copy is restored must not write into the file that was taken away."""
    browser = bench.browser("apprentice")
    for file in bench.path.parent.iterdir():
        shutil.copy(file, file.with_suffix(file.suffix + ".apart"))
    browser.post("/practise/ppe")
    for end in ("", "-wal", "-shm"):
        bench.path.with_name(f"shop.db{end}").unlink(missing_ok=True)
        if (copy := bench.path.with_name(f"shop.db{end}.apart")).exists():
            copy.rename(bench.path.with_name(f"shop.db{end}"))
    assert browser.post("/practise/ppe").status_code == 303
    with bench.shop() as shop:
        assert shop.count("draw") == 1


def test_the_open_file_goes_from_thread_to_thread_and_two_requests_never_share_it(bench: "Bench") -> None:
    browser = bench.browser("apprentice")
    (opened,) = bench.app.extensions["shops"]
    with ThreadPoolExecutor(1) as other:
        assert other.submit(browser.get, "/").result().status_code == 200
    assert bench.app.extensions["shops"] == [opened]
    with bench.app.app_context():
        first = around.shop()
        with bench.app.app_context():
            second = around.shop()
            assert first is opened and second is not opened
    assert bench.app.extensions["shops"] == [second, first]


def test_a_trigger_taken_away_stops_the_server_with_a_clear_page(bench: "Bench") -> None:
    browser = bench.browser("apprentice")
    assert browser.get("/").status_code == 200
    with closing(sqlite3.connect(bench.path)) as conn:
        conn.execute("DROP TRIGGER answer_stays")
    answer = browser.get("/")
    assert answer.status_code == 503 and "answer_stays" in answer.text and "restore the last copy" in answer.text


def test_a_long_roster_is_cut_and_says_so_and_the_letters_find_everybody(bench: "Bench") -> None:
    rows = [{"name": f"Person {number:03}", "role": "apprentice", "site": "north"} for number in range(110)]
    with bench.shop() as shop:
        deeds.add_people(shop, rows, by=bench.people.manager, now=bench.now)
    browser = bench.browser()
    page = browser.get("/sign-in").text
    assert page.count('href="/sign-in/') == 100 and "15 more names" in page
    page = browser.get("/sign-in?find=person+109").text
    assert page.count('href="/sign-in/') == 1 and "more name" not in page


def test_a_half_done_sheet_survives_the_end_of_the_session_and_a_restart(lived: "Lived", tmp_path: Path) -> None:
    bench = lived.bench(tmp_path)
    browser, sheet = bench.browser("trainer"), f"/sheets/{lived.people.apprentice}/pairing"
    browser.get(sheet)
    bench.later(hours=2)
    typed = {"material": "Alder", "measure.a": "46.3", "instrument": "scale 4", "note": "half <done>", "do": "sign"}
    answer = browser.post(sheet, typed)
    assert answer.status_code == 401
    kept = answer.text.split('name="kept" value="')[1].split('"')[0]
    bench.app = create_app(bench.path, secret=bench.app.config["SECRET"], now=lambda: bench.now)
    again = bench.browser()
    back = again.post(f"/sign-in/{lived.people.trainer}", secret=PHRASE, kept=kept)
    assert back.status_code == 200 and f'action="{sheet}"' in back.text
    assert 'name="measure.a" value="46.3"' in back.text and "half &lt;done&gt;" in back.text
    assert 'name="do"' not in back.text, "it is read again before it is signed"
    with bench.shop() as shop:
        assert shop.count("sheet") == 1
