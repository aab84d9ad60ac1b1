"""Large pages travel compressed; what a listener could learn from their length is kept from telling anything."""

import gzip
import re
from typing import TYPE_CHECKING

import pytest

from quizkit import shop as deeds
from quizkit.pages import STATIC
from quizkit.web.slim import LEAST

if TYPE_CHECKING:
    from conftest import Bench


def _grown(bench: "Bench") -> None:
    rows = [{"name": f"Person {number:03}", "role": "apprentice", "site": "north"} for number in range(240)]
    with bench.shop() as shop:
        deeds.add_people(shop, rows, by=bench.people.manager, now=bench.now)


def test_a_large_page_comes_compressed_to_who_takes_it_and_plain_to_who_does_not(bench: "Bench") -> None:
    _grown(bench)
    client = bench.browser("manager").client
    plain = client.get("/matrix/")
    assert "Content-Encoding" not in plain.headers and len(plain.data) > LEAST
    for takes in ("gzip", "br, gzip;q=0.5", "*"):
        packed = client.get("/matrix/", headers={"Accept-Encoding": takes})
        assert packed.headers["Content-Encoding"] == "gzip" and "Accept-Encoding" in packed.headers["Vary"], takes
        assert int(packed.headers["Content-Length"]) == len(packed.data) < len(plain.data) / 5
        assert _without_token(gzip.decompress(packed.data).decode()) == _without_token(plain.text)
    for refuses in ("identity", "gzip;q=0", "br"):
        assert "Content-Encoding" not in client.get("/matrix/", headers={"Accept-Encoding": refuses}).headers, refuses


def _without_token(text: str) -> str:
    return re.sub(r'name="token" value="\w+"', "", text)


def test_small_pages_files_and_faults_go_as_they_are(bench: "Bench") -> None:
    _grown(bench)
    client, takes = bench.browser("manager").client, {"Accept-Encoding": "gzip"}
    for address in ("/", "/office", "/matrix.csv", "/matrix.xlsx", "/static/mark.svg", "/no-such-page"):
        assert "Content-Encoding" not in client.get(address, headers=takes).headers, address


@pytest.mark.parametrize("name", ["look.css", "paper.css", "wall.css", "quick.js", "kept.js"])
def test_what_stands_beside_the_pages_comes_compressed_to_who_takes_it(bench: "Bench", name: str) -> None:
    client, address, whole = bench.browser().client, f"/static/{name}", (STATIC / name).read_bytes()
    plain = client.get(address)
    packed = client.get(address, headers={"Accept-Encoding": "gzip, br"})
    assert "Content-Encoding" not in plain.headers and plain.data == whole
    assert packed.headers["Content-Encoding"] == "gzip" and gzip.decompress(packed.data) == whole
    assert int(packed.headers["Content-Length"]) == len(packed.data) < len(whole) * 0.6
    assert packed.mimetype == plain.mimetype == {"css": "text/css", "js": "text/javascript"}[name.partition(".")[2]]
    assert packed.headers["ETag"] != plain.headers["ETag"], "a cache would take one form for the other"
    for answer in (plain, packed):
        assert "Accept-Encoding" in answer.headers["Vary"] and answer.headers["Cache-Control"] == "no-cache"
        assert answer.headers["X-Content-Type-Options"] == "nosniff"


def test_who_has_a_stylesheet_already_is_told_so_in_either_form(bench: "Bench") -> None:
    client, address = bench.browser().client, "/static/look.css"
    for takes in ("gzip", "identity"):
        held = client.get(address, headers={"Accept-Encoding": takes}).headers["ETag"]
        again = client.get(address, headers={"Accept-Encoding": takes, "If-None-Match": held})
        assert again.status_code == 304 and again.data == b"" and again.headers["ETag"] == held
        assert "Accept-Encoding" in again.headers["Vary"] and "Content-Length" not in again.headers
        other = client.get(address, headers={"Accept-Encoding": takes, "If-None-Match": '"of-yesterday"'})
        assert other.status_code == 200 and other.data


def test_the_token_of_a_browser_is_written_otherwise_on_each_page_and_holds_all_the_same(bench: "Bench") -> None:
    browser, other = bench.browser("manager"), bench.browser("trainer")
    first = browser.token()
    browser.get("/office")
    second = browser.token()
    halves = {text[at : at + 64] for text in (first, second) for at in (0, 64)}
    assert len(first) == 128 and len(halves) == 4
    for token in (first, second):
        assert browser.client.post("/practise/ppe", data={"token": token}).status_code != 400
    for token in (first[:64] + second[64:], first[:-2], first + "00", "00" * 64, other.token(), "zz" * 64):
        assert browser.client.post("/practise/ppe", data={"token": token}).status_code == 400, token


def test_a_large_page_repeats_nothing_that_an_address_brings(bench: "Bench") -> None:
    _grown(bench)
    browser = bench.browser("manager")
    page = browser.get("/matrix/?guess=token+value+ab12&site=&known=then&role=apprentice").text
    assert len(page) > LEAST and "ab12" not in page and "guess" not in page
    assert 'href="/matrix.csv?role=apprentice"' in page
