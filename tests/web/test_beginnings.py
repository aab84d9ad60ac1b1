"""A shop that has only begun: nothing published, no lessons, only a manager. Every page says what comes next."""

from dataclasses import replace
from html import unescape
from pathlib import Path

from flask import Flask

import quizkit
from quizkit import shop as deeds
from quizkit.pack.scheme import Scheme
from quizkit.web import create_app
from tests.web.conftest import PHRASE, START, Browser

MANAGERS = (
    "/", "/sheets", "/sheets/open", "/matrix/", "/jobs", "/cover", "/plan", "/office", "/people", "/entitlements",
    "/certificates", "/lookback", "/tickets", "/stock", "/month", "/questions", "/changes", "/paper", "/sums",
)  # fmt: skip


def _app(path: Path, pack: quizkit.Pack | None) -> Flask:
    with deeds.open_shop(path, create=True) as shop:
        if pack is not None:
            deeds.publish(shop, pack, None, now=START)
            deeds.add_person(shop, name="Mo Hale", role="manager", site="north", secret=PHRASE, by=None, now=START)
    return create_app(path, secret=b"a secret of the tests, 32 bytes.", now=lambda: START)


def _alone(path: Path, pack: quizkit.Pack) -> Browser:
    browser = Browser(_app(path, pack).test_client())
    assert browser.post("/sign-in/1", secret=PHRASE).status_code == 303
    return browser


def _bare(pack: quizkit.Pack) -> quizkit.Pack:
    """The same shop before its first lesson."""
    kept = pack.scheme
    return replace(
        pack,
        modules=(),
        scheme=Scheme(name=kept.name, zone=kept.zone, sites=tuple(replace(site, cover=()) for site in kept.sites)),
    )


def _failing(browser: Browser) -> list[str]:
    answers = {address: browser.get(address, follow_redirects=True) for address in MANAGERS}
    return [address for address, answer in answers.items() if answer.status_code != 200 or "<h1>" not in answer.text]


def test_a_manager_alone_finds_every_page(tmp_path: Path, pack: quizkit.Pack) -> None:
    assert _failing(_alone(tmp_path / "shop.db", pack)) == []


def test_a_shop_without_lessons_opens_every_page(tmp_path: Path, pack: quizkit.Pack) -> None:
    assert _failing(_alone(tmp_path / "shop.db", _bare(pack))) == []


def test_what_is_empty_says_what_comes_next(tmp_path: Path, pack: quizkit.Pack) -> None:
    browser = _alone(tmp_path / "shop.db", _bare(pack))
    assert "There are no lessons yet. The trainer publishes them." in browser.get("/").text
    assert "Nobody waits for a sign-off." in browser.get("/sheets").text
    assert "There are no skills yet." in browser.get("/cover").text
    assert "There are no skills yet." in browser.get("/people/1").text
    assert "The shop has no lessons yet." in browser.get("/module/ppe").text


def test_a_roster_without_names_asks_for_none(tmp_path: Path, pack: quizkit.Pack) -> None:
    with deeds.open_shop(tmp_path / "shop.db", create=True) as shop:
        deeds.publish(shop, pack, None, now=START)
    client = create_app(
        tmp_path / "shop.db", secret=b"a secret of the tests, 32 bytes.", now=lambda: START
    ).test_client()
    roster = client.get("/sign-in").text
    assert "Nobody has been added to this shop yet." in roster and "Find your name" not in roster
    assert "quizkit person add --shop shop.db --role manager" in roster and "The manager adds" not in roster
    assert "Find your name" in client.get("/sign-in?find=ab").text


def test_who_is_not_signed_in_is_led_to_the_roster(tmp_path: Path, pack: quizkit.Pack) -> None:
    browser = _alone(tmp_path / "shop.db", pack)
    assert '<a class="press" href="/">Today&#39;s ticket</a>' in browser.get("/no-such-page").text
    outside = browser.client.application.test_client().get("/no-such-page").text
    assert '<a class="press" href="/">Sign in</a>' in outside


def test_a_file_with_nothing_published_says_so(tmp_path: Path) -> None:
    client = _app(tmp_path / "shop.db", None).test_client()
    for address in ("/", "/sign-in", "/sums", "/sums/hardener_for", "/no-such-page"):
        answer = client.get(address, follow_redirects=True)
        assert answer.status_code in (404, 409) and "<h1>" in answer.text, address
        assert "Something broke" not in answer.text, address
    told = unescape(client.get("/", follow_redirects=True).text)
    assert "quizkit serve --shop shop.db --content content" in told and "asks their trainer or manager" in told
    assert '<a class="press" href="/">Try again</a>' in told, "it leads to itself, and says so"
