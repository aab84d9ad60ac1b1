"""The page of what is kept about a person, and the file of it."""

import json
import re
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from conftest import Bench


def test_ones_own_record_is_one_press_from_ones_own_page(bench: "Bench") -> None:
    browser, number = bench.browser("apprentice"), bench.people.apprentice
    assert 'href="/me/record"' in browser.get(f"/people/{number}").text
    assert browser.get("/me/record").headers["Location"] == f"/people/{number}/record"
    page = browser.get(f"/people/{number}/record").text
    assert "What is kept about you" in page and "until you leave the shop" in page.lower()
    made = browser.get(f"/people/{number}/record.json")
    assert made.headers["Content-Disposition"] == f'attachment; filename="record-{number}.json"'
    assert made.headers["Cache-Control"] == "no-store"
    assert json.loads(made.data)["tables"]["person"][0]["name"] == "Ann Bly"


def test_a_manager_finds_it_on_the_page_of_the_person(bench: "Bench") -> None:
    browser, number = bench.browser("manager"), bench.people.apprentice
    assert f'href="/people/{number}/record"' in browser.get(f"/people/{number}").text
    page = browser.get(f"/people/{number}/record").text
    assert "What is kept about Ann Bly" in page and "until they leave the shop" in page.lower()
    told = page[page.index("<h1>") : page.index("</main>")]
    assert not re.findall(r"\byour?\b", told, re.I), "it is not the record of the one who reads it"


def test_who_leaves_is_erased_after_a_tick_and_asked_for_nothing_that_is_not_kept(bench: "Bench") -> None:
    browser, number = bench.browser("manager"), bench.people.apprentice
    page = browser.get(f"/people/{number}").text
    form = page[page.index(f'action="/people/{number}/leave"') :]
    assert "<textarea" not in form[: form.index("</form>")]
    assert browser.post(f"/people/{number}/leave").status_code == 409
    assert "Ann Bly" in browser.get(f"/people/{number}").text
    assert browser.post(f"/people/{number}/leave", sure="yes").status_code == 303
    assert "Ann Bly" not in browser.get(f"/people/{number}").text
    assert f"Person {number}" in browser.get(f"/people/{number}/record").text
