"""Each role's main job with the keyboard alone: nothing but Tab, arrows, Space, Enter and what is typed."""

import datetime as dt
import re
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, expect

from quizkit import shop as deeds
from quizkit.demo.answers import right
from quizkit.demo.measured import measured
from quizkit.shop import QuestionView
from tests.browser.house import House

MOST = 120
"""Presses of Tab within which everything on a page is reached."""
HERE = """() => { const here = document.activeElement; const box = here.getBoundingClientRect();
  const style = getComputedStyle(here);
  return {name: here.name || '', value: here.value || '', words: here.textContent.trim().replace(/\\s+/g, ' '),
    seen: here === document.body || style.outlineStyle !== 'none'
      || ['radio', 'checkbox'].includes(here.type)}; }"""


def _now() -> dt.datetime:
    return dt.datetime.now(dt.UTC)


@pytest.fixture
def page(browser: Browser, house: House, role: str) -> Iterator[Page]:
    seat = house.seat(browser, role)
    yield seat.new_page()
    seat.close()


def reach(page: Page, words: str = "", name: str = "", value: str = "") -> None:
    """Press Tab until the focus stands on what is called so; every stop on the way must show that it has the focus."""
    for _press in range(MOST):
        page.keyboard.press("Tab")
        here = page.evaluate(HERE)
        assert here["seen"], f"the focus cannot be seen: {here}"
        if (words and re.match(words, here["words"])) or (name and here["name"] == name and value in here["value"]):
            return
    raise AssertionError(f"Tab never reaches {words or name}")


def press(page: Page, words: str, then: str = "") -> None:
    """Reach a link or a button and press Enter on it; `then` is the heading that is waited for."""
    reach(page, words)
    page.keyboard.press("Enter")
    if then:
        expect(page.get_by_role("heading", name=re.compile(then), level=1)).to_be_visible()


def answer(page: Page, question: QuestionView, typed: dict[str, str]) -> None:
    """Put the answers into the boxes of a question, part by part."""
    for part in question.parts:
        name, text = f"part.{part.name}", typed[part.name]
        if part.kind == "number":
            reach(page, name=name)
            page.keyboard.type(text)
        elif part.kind == "choice" and part.many:
            for number in sorted(text.split(", "), key=int):
                reach(page, name=name, value=number)
                page.keyboard.press("Space")
        elif part.kind == "choice":
            reach(page, name=name)
            page.keyboard.press("Space")
            while not page.locator(f'input[name="{name}"][value="{text}"]').is_checked():
                page.keyboard.press("ArrowDown")
        else:
            pairs = enumerate(text.split(), 1)
            places = {int(number): str(place) for place, number in pairs} if part.kind == "order" else {}
            places |= {int(pair[:-1]): pair[-1] for pair in text.split()} if part.kind == "match" else {}
            for number in sorted(places):
                reach(page, name=f"{name}.{number}")
                page.keyboard.type(places[number])


@pytest.mark.parametrize("role", ["nobody"])
def test_signing_in(page: Page, house: House, role: str) -> None:
    page.goto("/")
    reach(page, name="find")
    page.keyboard.type("lena")
    page.keyboard.press("Enter")
    expect(page.locator(".lines > li")).to_have_count(1)
    press(page, "That is me", "Lena Fisk")
    expect(page.locator("#secret")).to_be_focused()
    page.keyboard.type("3358")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", name=re.compile("^Today"))).to_be_visible()


@pytest.mark.parametrize("role", ["apprentice"])
def test_reading_a_lesson_practising_and_a_check(page: Page, house: House, role: str) -> None:
    page.goto("/")
    press(page, "Straight to the page")
    press(page, "Storage", "^Storage")
    press(page, "Two dates on each label", "Two dates")
    press(page, "Answer it", "Practice: Storage")
    expect(page.get_by_role("button", name="Answer", exact=True)).to_be_visible()
    draw = page.url.rpartition("/")[2]
    with deeds.open_shop(house.path) as shop:
        question = deeds.practice_view(shop, int(house.facts["lena"]), draw, now=_now()).question
        answer(page, question, right(deeds.current_pack(shop), question))
    press(page, "Answer$")
    expect(page.locator(".verdict.right").first).to_be_focused()
    press(page, "Enough for now", "^Storage")
    page.goto("/module/bead-volume")
    press(page, "Go on with the check")
    expect(page.get_by_role("button", name="Write it down")).to_be_visible()
    form, item = (int(part) for part in re.findall(r"\d+", page.url.partition("/check/")[2])[:2])
    with deeds.open_shop(house.path) as shop:
        view = deeds.check_item(shop, int(house.facts["lena"]), form, item, now=_now())
        typed = right(deeds.current_pack(shop), view.question)
    answer(page, view.question, typed)
    press(page, "Write it down")
    expect(page.get_by_role("heading", name=re.compile(rf", {item} of"))).to_have_count(0)
    expect(page.locator("h1")).to_be_focused()


@pytest.mark.parametrize("role", ["trainer"])
def test_signing_a_sheet(page: Page, house: House, role: str) -> None:
    with deeds.open_shop(house.path) as shop:
        row = next(row for row in deeds.current_pack(shop).shelf.rows if row.name == "Keel adhesive")
        module = next(one for one in deeds.current_pack(shop).modules if one.scheme.skill == "bead-volume")
    person = house.facts["jonas"]
    page.goto(f"/sheets/{person}/bead-volume")
    reach(page, name="material")
    while not page.get_by_role("radio", name=re.compile("Keel adhesive")).is_checked():
        page.keyboard.press("ArrowDown")
    for number in range(1, len(module.sheet.steps) + 1 if module.sheet else 1):
        reach(page, name="seen", value=str(number))
        page.keyboard.press("Space")
    values = measured("bead-volume", row)
    for name in page.locator('input[name^="measure."]').evaluate_all("all => all.map(one => one.name)"):
        reach(page, name=name)
        page.keyboard.type(values[name.removeprefix("measure.")])
    reach(page, name="instrument")
    page.keyboard.type("tape, gauge and scale")
    press(page, "Sign it")
    expect(page.get_by_role("heading", name="Bead and volume, signed off")).to_be_visible()


@pytest.mark.parametrize("role", ["manager"])
def test_from_the_matrix_to_what_a_cell_rests_on(page: Page, house: House, role: str) -> None:
    page.goto("/")
    press(page, "Matrix", "Who may do what")
    reach(page, "Narrow it down")
    page.keyboard.press("Enter")
    reach(page, name="site")
    page.keyboard.press("ArrowDown")
    press(page, "Show")
    expect(page).to_have_url(re.compile("site="))
    press(page, "cleared")
    expect(page.get_by_text("What is on record")).to_be_visible()
    press(page, "The sheet")
    expect(page.get_by_role("heading", name=re.compile("signed off"))).to_be_visible()


@pytest.mark.parametrize("role", ["nobody"])
def test_a_bench_sum(page: Page, house: House, role: str) -> None:
    page.goto("/sums")
    press(page, "The hardener that goes with a base$", "The hardener that goes with a base")
    reach(page, name="shelf")
    page.keyboard.type("Keel")
    reach(page, name="v.0")
    page.keyboard.type("120 mL")
    press(page, "Work it out")
    expect(page.locator("#told .big")).to_have_text("60 mL")
