"""Every page, in every role: nothing for axe to find in either theme or on paper, and room on the smallest screen."""

from collections.abc import Iterator
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page

from tests.browser.house import SEATS, House
from tests.browser.places import NO_PAGE, PLACES, Place

STANDARD = {"preload": False, "runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]}
COLOURS = {"preload": False, "runOnly": {"type": "rule", "values": ["color-contrast"]}}
"""What a change of theme can change."""
HEAVIEST = 60 * 1024
"""Bytes of a page with its pictures."""
BUNDLES = {"matrix": 700 * 1024, "lookback-person": 200 * 1024, "lookback-ticket": 200 * 1024}
"""What holds everything of many, or of many months, on purpose."""
TARGET = 44
SMALL = """least => [...document.querySelectorAll(
    'a[href], button, summary, select, textarea, input:not([type=hidden]):not([type=checkbox]):not([type=radio])')]
  .filter(one => !one.closest('.skip, p, dd, .figure') && one.checkVisibility())
  .map(one => [one.tagName, one.textContent.trim() || one.name, Math.round(one.getBoundingClientRect().height)])
  .filter(([tag, words, height]) => height < least)"""
TICKS = """least => [...document.querySelectorAll('label:has(input[type=checkbox], input[type=radio])')]
  .filter(one => one.checkVisibility() && one.getBoundingClientRect().height < least).map(one => one.textContent)"""
WIDER = "document.documentElement.scrollWidth - document.documentElement.clientWidth"


def _seen() -> list[Any]:
    return [pytest.param(place, role, id=f"{place.name}-{role}") for place in PLACES for role in place.seats]


@pytest.fixture(scope="module")
def seats(browser: Browser, house: House) -> Iterator[dict[str, tuple[Page, Any]]]:
    """A page that stays open for each role, and the cookies that it came with."""
    found = {}
    for role in SEATS:
        seat = house.seat(browser, role, reduced_motion="reduce")
        found[role] = (seat.new_page(), seat.cookies())
    yield found
    for page, _cookies in found.values():
        page.context.close()


@pytest.fixture
def page(seats: dict[str, tuple[Page, Any]], role: str) -> Page:
    page, cookies = seats[role]
    page.context.add_cookies(cookies)
    page.set_viewport_size({"width": 1000, "height": 900})
    page.emulate_media(media="screen", color_scheme="light")
    return page


@pytest.mark.parametrize(("place", "role"), _seen())
def test_a_page_is_for_everyone(place: Place, role: str, page: Page, house: House) -> None:
    answer = page.goto(place.at(house.facts))
    assert answer is not None and answer.status == place.status
    assert len(answer.body()) <= BUNDLES.get(place.name, HEAVIEST)
    if place.then:
        place.then(page)
    page.evaluate(Axe().axe_script + "; true")
    _nothing(page, STANDARD, "light")
    # colours are the same from every seat: the first one sees them all
    dressed = ({"color_scheme": "dark"}, {"color_scheme": "light", "media": "print"})
    for way in dressed if role == place.seats[0] else ():
        page.emulate_media(**way)  # type: ignore[arg-type]
        _nothing(page, COLOURS, str(way))
    page.emulate_media(media="screen")
    page.set_viewport_size({"width": 320, "height": 640})
    assert page.evaluate(WIDER) <= 0, "it scrolls sideways at 320 px"
    assert page.evaluate(SMALL, TARGET) == [], "too small for a glove"
    assert page.evaluate(TICKS, TARGET) == [], "too small for a glove"
    page.set_viewport_size({"width": 640, "height": 640})
    page.evaluate("document.documentElement.style.fontSize = '200%'")
    assert page.evaluate(WIDER) <= 0, "it scrolls sideways with letters twice as large"


def _nothing(page: Page, options: dict[str, Any], theme: str) -> None:
    told = page.evaluate("options => axe.run(document, {...options, resultTypes: ['violations']})", options)
    found = [(one["id"], [node["html"][:160] for node in one["nodes"]]) for one in told["violations"]]
    assert found == [], theme


def test_no_page_is_missing_here(house: House) -> None:
    rules = {rule.rule for rule in house.app.url_map.iter_rules() if "GET" in (rule.methods or ())}
    shown = {place.rule for place in PLACES} | NO_PAGE | {"/broken-on-purpose", ""}
    assert sorted(rules - shown) == [], "add it to tests/browser/places.py"
    assert sorted(shown - rules - {""}) == [], "it is gone: take it out of tests/browser/places.py"
