"""`quizkit serve`: the shop in the browser on this machine, and a clear word where it cannot be."""

import datetime as dt
import re
import socket
import stat
import time
from collections.abc import Callable
from pathlib import Path
from urllib.error import HTTPError, URLError
from urllib.parse import urlencode
from urllib.request import Request, urlopen

import pytest
from click.testing import Result

from quizkit import shop as deeds
from quizkit.records import form_secret, heads_path, key_path, open_records, secret_path

Run = Callable[..., Result]


@pytest.fixture
def shop(run: Run, content: Path, tmp_path: Path) -> Path:
    path = tmp_path / "shop.db"
    run("person", "add", "--shop", path, "--content", content, "--name", "Ada Lind", "--role", "manager")
    return path


def test_the_shop_opens_on_this_machine_and_signs_the_days_head(
    shop: Path, served: Callable[..., tuple[str, list[str]]]
) -> None:
    address, said = served("serve", "--shop", shop, "--port", 0)
    assert address.startswith("http://127.0.0.1:") and "Two Bays is open" in said[-1]
    with urlopen(address) as page:
        assert page.status == 200 and "Ada Lind" in page.read().decode()
    assert heads_path(shop).exists()


def test_corrected_content_is_brought_into_force_by_a_manager(
    run: Run, shop: Path, content: Path, served: Callable[..., tuple[str, list[str]]]
) -> None:
    lesson = content / "pairing/1-shares.md"
    lesson.write_text(lesson.read_text().replace("within 2 %", "within 3 %"))
    done = run("serve", "--shop", shop, "--content", content, "--port", 0)
    assert done.exit_code == 1 and "manager" in done.output
    _address, said = served("serve", "--shop", shop, "--content", content, "--by", 1, "--port", 0)
    assert "1 changed" in said[0]


def test_a_port_that_is_taken_is_told(run: Run, shop: Path) -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        done = run("serve", "--shop", shop, "--port", taken.getsockname()[1])
    assert done.exit_code == 1 and "--port" in done.output


def test_a_file_that_is_not_there_is_told(run: Run, tmp_path: Path) -> None:
    done = run("serve", "--shop", tmp_path / "none.db", "--port", 0)
    assert done.exit_code == 1 and "none.db" in done.output


def test_the_secret_of_the_forms_is_drawn_at_the_first_start_and_stays(
    shop: Path, served: Callable[..., tuple[str, list[str]]]
) -> None:
    assert not secret_path(shop).exists()
    served("serve", "--shop", shop, "--port", 0)
    kept = form_secret(shop)
    assert len(kept) == 32 and stat.S_IMODE(secret_path(shop).stat().st_mode) == 0o600
    served("serve", "--shop", shop, "--port", 0)
    assert form_secret(shop) == kept


def test_a_secret_that_others_may_read_stops_the_start(run: Run, shop: Path) -> None:
    form_secret(shop)
    secret_path(shop).chmod(0o644)
    done = run("serve", "--shop", shop, "--port", 0)
    assert done.exit_code == 1 and "Others may read" in done.output and "delete the file" in done.output


def test_a_missing_key_is_told_loudly_and_people_can_work(
    shop: Path, served: Callable[..., tuple[str, list[str]]]
) -> None:
    key_path(shop).rename(shop.with_name("apart.key"))
    address, said = served("serve", "--shop", shop, "--port", 0)
    assert any("THE SHOP'S KEY CANNOT BE USED" in line and "put back the key" in line for line in said)
    with urlopen(address) as page:
        assert page.status == 200


@pytest.mark.parametrize(("words", "address"), [((), "127.0.0.1"), (("--tls",), "192.0.2.7")])
def test_whose_address_asks_is_believed_only_of_the_tls_in_front(
    shop: Path, served: Callable[..., tuple[str, list[str]]], words: tuple[str, ...], address: str
) -> None:
    where, _said = served("serve", "--shop", shop, "--port", 0, *words)
    heads = {"X-Forwarded-For": "192.0.2.7"}
    with urlopen(Request(f"{where}sign-in/1", headers=heads)) as page:
        cookie, text = page.headers["Set-Cookie"], page.read().decode()
    assert ("Secure" in cookie) is bool(words)
    token = re.search(r'name="token" value="(\w+)"', text)
    assert token is not None
    sent = urlencode({"token": token[1], "secret": "wrong wrong wrong"}).encode()
    with pytest.raises(HTTPError) as refused:
        urlopen(Request(f"{where}sign-in/1", sent, heads | {"Cookie": cookie.split(";")[0]}))
    assert refused.value.code == 401
    with open_records(shop) as records:
        assert records.values("sign_in_try", "address") == [address]


def test_what_was_erased_while_somebody_was_reading_goes_from_the_log_too(
    shop: Path, served: Callable[..., tuple[str, list[str]]]
) -> None:
    log, moment = shop.with_name("shop.db-wal"), dt.datetime.now(dt.UTC)
    with deeds.open_shop(shop) as reading, deeds.open_shop(shop) as writing:
        boss = next(one.person for one in deeds.people(writing) if one.role == "manager")
        gone = deeds.add_person(
            writing, name="Zebedee Quill", role="technician", site="main", secret="2795", by=boss, now=moment
        )
        writing.records.conn.execute("PRAGMA busy_timeout = 0")
        with reading.records.reading():
            assert reading.records.count("person") > 1
            deeds.leave(writing, gone, by=boss, now=moment)
        assert b"Zebedee Quill" in log.read_bytes()
        served("serve", "--shop", shop, "--port", 0)
        # A page that is asked for now would read while the log is to be emptied, and put it off to the next round.
        latest = time.monotonic() + 30
        while b"Zebedee Quill" in log.read_bytes():
            assert time.monotonic() < latest, "the name is still in the log"


def test_what_a_compile_built_is_never_served(
    run: Run, shop: Path, content: Path, served: Callable[..., tuple[str, list[str]]], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(shop.parent)
    run("compile", content)
    keys = (shop.parent / "build/preview/pairing/share.html").read_text()
    assert "Upside down." in keys and (shop.parent / "build/pack.json").exists()
    address, _said = served("serve", "--shop", shop, "--content", content, "--by", 1, "--port", 0)
    for path in ("pack.json", "index.html", "preview/pairing/share.html", "preview/pairing/share", "pairing/1-shares"):
        for before in ("", "build/", "static/../build/", "static/%2e%2e/build/", "../build/", "content/../build/"):
            try:
                with urlopen(f"{address.rstrip('/')}/{before}{path}") as page:
                    said = page.read().decode()
            except HTTPError as refused:
                said = refused.read().decode()
            assert "Upside down." not in said and "hardener_for" not in said, f"{before}{path}"


def test_what_is_too_large_is_refused_in_the_shops_words_and_a_flood_by_the_server(
    shop: Path, served: Callable[..., tuple[str, list[str]]]
) -> None:
    where, _said = served("serve", "--shop", shop, "--port", 0)
    with pytest.raises(HTTPError) as refused:
        urlopen(Request(f"{where}sign-in", b"find=" + b"x" * (7 << 20)))
    assert refused.value.code == 413 and "Take it smaller and send it again" in refused.value.read().decode()
    with pytest.raises(URLError):
        urlopen(Request(f"{where}sign-in", b"find=" + b"x" * (40 << 20)))
    with urlopen(where) as page:
        assert page.status == 200
