"""Answering with JavaScript and without: quicker with it, the same either way, and nothing typed is lost."""

import datetime as dt
import re
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, expect

from quizkit import shop as deeds
from quizkit.demo.answers import right
from tests.browser.house import SEATS, House

BOTH = pytest.mark.parametrize("scripts", [True, False], ids=["scripts", "plain"])
NUMBER, SKILL = "ratio-pairing/split-total", "ratio-pairing"


@pytest.fixture
def scripts() -> bool:
    return True


@pytest.fixture
def role() -> str:
    return "newcomer"


@pytest.fixture
def page(browser: Browser, house: House, role: str, scripts: bool) -> Iterator[Page]:
    seat = house.seat(browser, role, java_script_enabled=scripts)
    yield seat.new_page()
    seat.close()


def _now() -> dt.datetime:
    return dt.datetime.now(dt.UTC)


def _draw(house: House) -> tuple[str, dict[str, str]]:
    """A practice question of the newcomer, and its right answers."""
    with deeds.open_shop(house.path) as shop:
        owen = int(house.facts["owen"])
        asked = deeds.practise(shop, owen, SKILL, now=_now(), question=NUMBER)
        return asked.draw, right(deeds.current_pack(shop), asked.question)


def _fill(page: Page, typed: dict[str, str]) -> None:
    for name, text in typed.items():
        page.locator(f'input[name="part.{name}"]').fill(text)


@BOTH
def test_practice_answers_at_once_and_the_same_without_scripts(page: Page, house: House, scripts: bool) -> None:
    draw, typed = _draw(house)
    page.goto(f"/practice/{draw}")
    if scripts:
        page.evaluate("window.stays = true")
    _fill(page, typed)
    page.get_by_role("button", name="Answer", exact=True).click()
    expect(page.locator(".verdict.right")).to_have_count(len(typed))
    expect(page.get_by_role("heading", name="How it is worked")).to_be_visible()
    if scripts:
        assert page.evaluate("window.stays === true"), "the page was loaded anew"
        expect(page.locator(".verdict").first).to_be_focused()


@BOTH
def test_an_answer_that_was_not_read_stays_in_its_box(page: Page, house: House, scripts: bool) -> None:
    draw, typed = _draw(house)
    page.goto(f"/practice/{draw}")
    first, *others = typed
    _fill(page, typed | {first: "rather much"})
    page.get_by_role("button", name="Answer", exact=True).click()
    summary = page.get_by_role("alert")
    expect(summary).to_be_visible()
    expect(page.locator(f'input[name="part.{first}"]')).to_have_value("rather much")
    for name in others:
        expect(page.locator(f'input[name="part.{name}"]')).to_have_value(typed[name])
    summary.get_by_role("link").first.click()
    expect(page.locator(f'input[name="part.{first}"]')).to_be_focused()


def test_a_server_that_is_away_is_said_and_the_answer_waits(page: Page, house: House) -> None:
    draw, typed = _draw(house)
    page.goto(f"/practice/{draw}")
    _fill(page, typed)
    page.context.set_offline(True)
    page.get_by_role("button", name="Answer", exact=True).click()
    expect(page.get_by_role("alert")).to_contain_text("cannot be reached")
    assert {name: page.locator(f'input[name="part.{name}"]').input_value() for name in typed} == typed
    page.context.set_offline(False)
    page.get_by_role("button", name="Answer", exact=True).click()
    expect(page.locator(".verdict.right")).to_have_count(len(typed))


def test_what_was_typed_survives_a_closed_page_until_its_owner_signs_out(page: Page, house: House) -> None:
    draw, typed = _draw(house)
    page.goto(f"/practice/{draw}")
    name = next(iter(typed))
    _fill(page, {name: "61.5 mL"})
    seat = page.context
    page.close()
    again = seat.new_page()
    again.goto(f"/practice/{draw}")
    expect(again.locator(f'input[name="part.{name}"]')).to_have_value("61.5 mL")
    expect(again.get_by_text("Still here from before")).to_be_visible()
    again.get_by_role("button", name="Sign out").click()
    expect(again.get_by_role("heading", name="Who are you?")).to_be_visible()
    assert again.evaluate("Object.keys(localStorage).filter(key => key.startsWith('kept '))") == []


@BOTH
def test_the_calculator_stands_beside_the_question_and_sends_nothing(page: Page, house: House, scripts: bool) -> None:
    draw, typed = _draw(house)
    page.goto(f"/practice/{draw}")
    name = next(iter(typed))
    _fill(page, {name: "12"})
    page.get_by_text("Calculator", exact=True).click()
    page.get_by_label("A sum").fill("120 ÷ (2 + 1)")
    if scripts:
        page.get_by_label("A sum").press("Enter")
    else:
        page.get_by_role("button", name="Work it out").click()
    expect(page.locator(".reckoned")).to_have_text("= 40")
    beside, box = page.locator(".pocket").bounding_box(), page.locator(f'input[name="part.{name}"]').bounding_box()
    assert beside is not None and box is not None
    assert beside["x"] > box["x"] + box["width"] and beside["y"] <= box["y"], "it stands below the question"
    expect(page.locator(f'input[name="part.{name}"]')).to_have_value("12")
    expect(page.get_by_role("button", name="Answer", exact=True)).to_be_visible()


@BOTH
@pytest.mark.parametrize("role", ["apprentice"])
def test_an_answer_in_the_middle_of_which_the_session_ran_out_is_taken(
    page: Page, house: House, role: str, scripts: bool
) -> None:
    form, lena = int(house.facts["form"]), int(house.facts["lena"])
    with deeds.open_shop(house.path) as shop:
        pack, rows = deeds.current_pack(shop), deeds.check_list(shop, lena, form, now=_now()).rows
        views = [deeds.check_item(shop, lena, form, row.item, now=_now()) for row in rows]
        item, typed = next(
            (view.item, right(pack, view.question))
            for row, view in zip(rows, views, strict=True)
            if not row.answered and {part.kind for part in view.question.parts} == {"number"}
        )
    page.goto(f"/check/form/{form}/{item}")
    _fill(page, typed)
    page.context.clear_cookies(name="key")
    page.get_by_role("button", name="Write it down").click()
    expect(page.get_by_text("You were signed out")).to_be_visible()
    page.get_by_role("button", name=re.compile(f"That is me ?: {SEATS[role]}")).click()
    page.get_by_label(re.compile("Your PIN")).fill("3358")
    page.get_by_role("button", name="Sign in").click()
    page.get_by_role("button", name="Write it down").click()
    expect(page.get_by_role("heading", name=re.compile(r"\d+ of \d+|before you hand it in"))).to_be_visible()
    with deeds.open_shop(house.path) as shop:
        taken = deeds.check_item(shop, lena, form, item, now=_now()).question
    assert {part.name: part.typed for part in taken.parts} == typed


@BOTH
@pytest.mark.parametrize("role", ["trainer"])
def test_measured_values_are_judged_as_typed_or_with_one_press(page: Page, house: House, scripts: bool) -> None:
    page.goto(f"/sheets/{house.facts['lena']}/ratio-pairing")
    page.get_by_role("radio", name=re.compile("Keel adhesive")).check()
    for name, text in {"shot_a": "30", "shot_b": "20", "scale_step": "0.1"}.items():
        page.locator(f'input[name="measure.{name}"]').fill(text)
    if not scripts:
        page.get_by_role("button", name="Work out what was measured").click()
    expect(page.locator("#judged .verdict.wrong")).to_have_count(1)
    expect(page.locator('input[name="measure.shot_a"]')).to_have_value("30")
    if scripts:
        page.locator('input[name="measure.shot_a"]').fill("46.3")
        expect(page.locator("#judged .verdict.right")).to_have_count(2)


def test_nothing_on_a_page_is_refused_by_its_own_policy(page: Page, house: House) -> None:
    said: list[str] = []
    page.on("console", lambda message: said.append(message.text))
    page.on("pageerror", lambda error: said.append(str(error)))
    draw, _typed = _draw(house)
    for address in ("/", "/lesson/bead-volume/1-beads", f"/practice/{draw}", "/sums/hardener_for"):
        page.goto(address)
    assert said == []
