"""What every page and every form of the app keeps to: its headers, no inline script or style, its token, plain text."""

import re
import shutil
from html.parser import HTMLParser
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

import quizkit
from quizkit import shop as deeds
from quizkit.web import create_app

if TYPE_CHECKING:
    from conftest import Bench, Browser, Lived

ROLES = ("", "apprentice", "trainer", "manager")
EVIL = '<script>alert("x")</script><img src=x onerror=alert(2)>'
FROM_PEOPLE = ("<b>Bly", "<script>alert", "<i>M", "<u>failed", "<b>answers", "<img src=x")
"""Markup that stands in names, notes and details of the shop of `lived`."""


class Marked(HTMLParser):
    """The elements of a page with their attributes."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.found: list[tuple[str, dict[str, str | None]]] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found.append((tag, dict(attrs)))


def addresses(lived: "Lived") -> list[str]:
    """Every page of the app that is about something which is there."""
    people, rows, forms = lived.people, lived.rows, lived.forms
    values = {
        "number": people.apprentice,
        "person": people.apprentice,
        "form": forms["open"],
        "item": 1,
        "skill": "pairing",
        "module": "ppe",
        "lesson": "1-air",
        "draw": rows["draw"],
        "filename": "look.css",
    }
    found = ["/nowhere", f"/check/form/{forms['ppe']}/result", f"/sheet/{rows['sheet']}", "/sums/tax?v.0=1&v.1=x"]
    found += [f"/certificates/{rows['certificate']}", f"/lookback?person={people.apprentice}", "/people?left=yes"]
    for rule in create_app(lived.path).url_map.iter_rules():
        if "GET" in (rule.methods or ()) and set(rule.arguments) <= values.keys():
            found.append(re.sub(r"<(?:\w+:)?(\w+)>", lambda name: str(values[name[1]]), str(rule)))
    return sorted(set(found))


@pytest.fixture(scope="module")
def seen(lived: "Lived", tmp_path_factory: pytest.TempPathFactory) -> "tuple[Bench, list[Browser], list[str]]":
    bench = lived.bench(tmp_path_factory.mktemp("seen"))
    return bench, [bench.browser(role) for role in ROLES], addresses(lived)


def test_every_page_keeps_its_headers_and_carries_no_inline_script_or_style(
    seen: "tuple[Bench, list[Browser], list[str]]",
) -> None:
    _bench, browsers, pages = seen
    assert len(pages) > 30
    for browser in browsers:
        for page in pages:
            answer = browser.get(page)
            policy = dict(part.strip().split(" ", 1) for part in answer.headers["Content-Security-Policy"].split(";"))
            assert policy["default-src"] == "'none'" and policy["frame-ancestors"] == "'none'", page
            assert policy["script-src"] == policy["style-src"] == policy["form-action"] == "'self'", page
            assert answer.headers["X-Frame-Options"] == "DENY", page
            assert answer.headers["X-Content-Type-Options"] == "nosniff", page
            assert answer.headers["Referrer-Policy"] == "same-origin", page
            if not page.startswith("/static/"):
                assert answer.headers["Cache-Control"] == "no-store", page
            if answer.mimetype == "text/html":
                assert not unsafe(answer.text), page
                assert not [markup for markup in FROM_PEOPLE if markup in answer.text], page


def unsafe(text: str) -> list[object]:
    """What a page must not have: code or style in it, or a thing from elsewhere."""
    found: list[object] = []
    for tag, attributes in Marked(text).found:
        source = attributes.get("src") or attributes.get("href") or attributes.get("action") or ""
        inline = tag == "style" or (tag == "script" and not attributes.get("src"))
        code = "style" in attributes or any(name.startswith("on") for name in attributes)
        if inline or code or source.lower().startswith(("javascript:", "http:", "https:", "//")):
            found.append((tag, attributes))
    return found


def test_what_is_unsafe_would_be_seen() -> None:
    for text in ("<p style='x'>", "<style>", "<script>1</script>", "<a href='JavaScript:1'>", "<p onclick=x>"):
        assert unsafe(text), text
    assert not unsafe('<script src="/static/quick.js" defer></script><a href="/me">')


def test_every_form_that_is_posted_needs_the_token_of_its_browser(
    seen: "tuple[Bench, list[Browser], list[str]]", lived: "Lived"
) -> None:
    bench, (stranger, *browsers), _pages = seen
    posts = [rule for rule in bench.app.url_map.iter_rules() if "POST" in (rule.methods or ())]
    with bench.shop() as shop:
        before = shop.records.head()
    for rule in posts:
        where = re.sub(r"<(?:\w+:)?\w+>", "1", str(rule))
        for browser in browsers:
            for token in ({}, {"token": ""}, {"token": stranger.token()}, {"token": "ä€\x00"}):
                assert browser.client.post(where, data=token).status_code == 400, where
    with bench.shop() as shop:
        assert shop.records.head() == before
        assert all(deeds.session(shop, browser.key(), now=bench.now) for browser in browsers)


def test_no_page_is_changed_by_looking_at_it(seen: "tuple[Bench, list[Browser], list[str]]") -> None:
    """GET and HEAD write no evidence, so that a link or a picture elsewhere can do nothing in anybody's name."""
    bench, browsers, pages = seen
    with bench.shop() as shop:
        before = shop.records.head()
    for page in pages:
        for way in ("head", "options"):
            getattr(browsers[-1].client, way)(page)
        browsers[-1].get(page)
    with bench.shop() as shop:
        assert shop.records.head() == before


@pytest.mark.parametrize("secure", [False, True])
def test_the_cookies_stay_with_this_site_and_out_of_reach_of_scripts(lived: "Lived", secure: bool) -> None:
    app = create_app(lived.path, secure=secure)
    answer = app.test_client().get("/sign-in", base_url="https://shop.example" if secure else "http://localhost")
    (cookie,) = answer.headers.getlist("Set-Cookie")
    parts = {part.strip() for part in cookie.split(";")[1:]}
    assert {"HttpOnly", "SameSite=Strict", "Path=/"} <= parts and ("Secure" in parts) is secure
    assert not any(part.startswith("Domain") for part in parts)
    assert cookie.startswith("__Host-seat=" if secure else "seat=")
    assert ("Strict-Transport-Security" in answer.headers) is secure


def test_markup_in_lessons_and_questions_stays_text(lived: "Lived", tmp_path: Path) -> None:
    content = tmp_path / "content"
    shutil.copytree(Path(__file__).parents[1] / "shop" / "content", content)
    lesson = content / "ppe" / "1-air.md"
    text = lesson.read_text(encoding="utf-8")
    taught, asked = "What is in the air adds up over a shift.", "You breathe `level` for `stay`. "
    assert taught in text and asked in text
    text = text.replace(taught, f"{EVIL} [press](javascript:alert(3))").replace(asked, f"{asked}{EVIL} ")
    lesson.write_text(text, encoding="utf-8")
    pack = quizkit.compile_content(content)
    with deeds.open_shop(tmp_path / "shop.db", create=True) as shop:
        deeds.publish(shop, pack, None, now=(moment := lived.bench_now()))
        boss = deeds.add_person(
            shop,
            name=f"Mo {EVIL}"[:80],
            role="manager",
            site="north",
            secret="nine grey anvils hum",
            by=None,
            now=moment,
        )
    client = create_app(tmp_path / "shop.db", now=lived.bench_now).test_client()
    token = re.search(r'name="token" value="(\w+)"', client.get(f"/sign-in/{boss}").text)
    assert token is not None
    client.post(f"/sign-in/{boss}", data={"token": token[1], "secret": "nine grey anvils hum"})
    page = client.get("/lesson/ppe/1-air").text
    assert page.count("&lt;script&gt;alert(") >= 2 and "javascript:alert(3)" in page
    for address in ("/lesson/ppe/1-air", "/", "/module/ppe", "/people"):
        text = client.get(address).text
        assert not unsafe(text) and "<img src=x" not in text, address


def test_signing_in_and_out_works_with_tls_in_front(lived: "Lived", tmp_path: Path) -> None:
    bench = lived.bench(tmp_path)
    client = create_app(bench.path, now=lived.bench_now, secure=True).test_client()
    over = {"base_url": "https://shop.example"}
    token = re.search(r'name="token" value="(\w+)"', client.get(f"/sign-in/{lived.people.apprentice}", **over).text)
    assert token is not None
    sent = {"token": token[1], "secret": "2795"}
    signed = client.post(f"/sign-in/{lived.people.apprentice}", data=sent, **over)
    assert signed.status_code == 303 and "__Host-key=" in signed.headers["Set-Cookie"]
    assert client.get("/", **over).status_code == 200
    gone = client.post("/sign-out", data=sent, **over)
    assert "__Host-key=;" in gone.headers["Set-Cookie"] and "Secure" in gone.headers["Set-Cookie"]
    assert client.get("/", **over).status_code == 302


def test_the_way_back_of_a_mishap_stays_on_our_own_pages(bench: "Bench") -> None:
    browser = bench.browser("apprentice")
    for came, back in (("/module/ppe", "/module/ppe"), ("//other.example/x", "/other.example/x")):
        page = browser.get("/no-such-page", headers={"Referer": "http://localhost" + came}).text
        assert f'href="{back}"' in page and 'href="//' not in page
