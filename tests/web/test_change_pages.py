"""The page of changes on the shelf: told, marked, and what does not go said at its place."""

import re
from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING

from quizkit import shop as deeds

if TYPE_CHECKING:
    from conftest import Bench


def _republished(bench: "Bench") -> str:
    """Publish the shelf with its first material at another price; the material's name."""
    first, *rest = bench.pack.shelf.rows
    fields = tuple((name, value + 1 if isinstance(value, Fraction) else value) for name, value in first.fields)
    pack = replace(bench.pack, shelf=replace(bench.pack.shelf, rows=(replace(first, fields=fields), *rest)))
    with bench.shop() as shop:
        deeds.publish(shop, pack, bench.people.manager, now=bench.now)
    return first.name


def test_nothing_has_changed_at_first(bench: "Bench") -> None:
    browser = bench.browser("trainer")
    assert 'href="/changes"' in browser.get("/office").text
    assert "Nothing has changed on the shelf" in browser.get("/changes").text


def test_a_change_is_told_and_marked(bench: "Bench") -> None:
    name, browser = _republished(bench), bench.browser("trainer")
    page = browser.get("/changes").text
    assert name in page and "Nobody has marked it yet." in page
    number = re.search(r'action="/changes/(\d+)"', page)[1]  # type: ignore[index]
    refused = browser.post(f"/changes/{number}", size="large", until="")
    assert refused.status_code == 409 and "needs the day" in refused.text
    assert browser.post(f"/changes/{number}", size="large", until="2027-01-31").status_code == 303
    assert "To be shown again by 31 Jan 2027" in browser.get("/changes").text


def test_a_change_that_is_not_there_is_refused_on_the_page(bench: "Bench") -> None:
    assert bench.browser("trainer").post("/changes/99999", size="small").status_code in (404, 409)


def test_the_office_says_how_many_changes_wait(bench: "Bench") -> None:
    browser = bench.browser("manager")
    assert "to look at" not in browser.get("/office").text
    _republished(bench)
    assert "1 change of a material to look at" in browser.get("/office").text


def test_the_day_of_who_teaches_says_it_too_and_nobody_elses(bench: "Bench") -> None:
    told, link = "1 change of a material to look at", 'href="/changes"'
    assert link not in bench.browser("manager").get("/").text
    _republished(bench)
    for role in ("trainer", "manager"):
        page = bench.browser(role).get("/").text
        assert told in page and link in page, role
    assert told not in bench.browser("apprentice").get("/").text
