"""What is printed: a look-back whole, checks without keys, a wide matrix in strips, and no furniture of the page."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from quizkit.pages import STATIC
from quizkit.pages import page as made
from tests.browser.house import House
from tests.browser.test_look import LOOK
from tests.pages.test_matrix_page import PEOPLE, SKILLS, view

A4_ON_ITS_SIDE = (277, 190)
"""Millimetres between the margins of the wall print."""


@pytest.fixture
def page(browser: Browser, house: House) -> Iterator[Page]:
    seat = house.seat(browser, "manager")
    opened = seat.new_page()
    opened.emulate_media(media="print")
    yield opened
    seat.close()


def test_a_look_back_prints_whole_and_without_its_form(page: Page, house: House) -> None:
    """Every question that was asked, every step that was seen and every seal; nothing waits behind a press."""
    page.goto("/lookback?ticket={ticket}".format_map(house.facts))
    expect(page.get_by_role("navigation")).to_have_count(0)
    expect(page.get_by_label("Ticket", exact=True)).to_be_hidden()
    asked = page.locator("table.asked tbody tr")
    assert asked.count() > 50 and all(row.is_visible() for row in asked.all())
    assert page.locator(".ticket details").count() == 0
    expect(page.locator(".seal")).to_be_visible()
    assert page.pdf(format="A4").count(b"/Type /Page\n") > 5


def test_each_sheet_says_which_shop_whose_and_when_it_was_printed(page: Page, house: House) -> None:
    """A loose sheet without them proves nothing. The head of a table is printed anew on every sheet."""
    shop = page.goto("/") and page.locator(".bench .shop").text_content()
    for at, about in (("/", "Today"), ("/people/{lena}", "Lena Fisk"), ("/stock", "Stock, North bay")):
        page.goto(at.format_map(house.facts))
        line = page.locator("body > .printed")
        expect(line).to_have_text(re.compile(rf"^{re.escape(str(shop))} · {about} · printed \d+ \w+ 20\d\d by \w+"))
        assert line.evaluate("one => getComputedStyle(one).display") == "table-header-group"
        assert line.evaluate("one => one.getBoundingClientRect().top") < 20
    for at in ("/paper/checks?form={paper}", "/matrix/wall"):
        page.goto(at.format_map(house.facts))
        expect(page.locator(".printed")).to_have_count(0)


def test_what_only_a_screen_can_do_stays_off_the_paper(page: Page, house: House) -> None:
    for at in ("/sheets", "/paper", "/secret", "/people/import", "/sheets/open"):
        page.goto(at)
        for what in ("select", "[type=password]", "[type=file]", "button"):
            assert not [one for one in page.locator(what).all() if one.is_visible()], (at, what)
        lines = "all => all.filter(one => getComputedStyle(one).textDecorationLine !== 'none').length"
        assert page.locator("#page a").evaluate_all(lines) == 0


def test_a_ticket_has_one_border_on_paper(page: Page) -> None:
    """A side of another style than the top was left out where the ticket went on over the sheet's end."""
    page.goto("/")
    sides = "one => ['Top', 'Left', 'Right', 'Bottom'].map(side => getComputedStyle(one)[`border${side}Style`])"
    assert set(page.locator(".ticket").first.evaluate(sides)) == {"solid"}


def test_each_check_prints_on_sheets_of_its_own(page: Page, house: House) -> None:
    form = house.facts["paper"]
    for place, words in (("checks", "to pass"), ("keys", "shows the right answers")):
        page.goto(f"/paper/{place}?form={form}")
        one = page.pdf(format="A4").count(b"/Type /Page\n")
        assert one == 1 or place == "checks", "a marking sheet has a line over"
        expect(page.get_by_text(words)).to_be_visible()
        page.goto(f"/paper/{place}?form={form}&form={form}&form={form}")
        assert page.locator("article.copy").count() == 3
        assert page.pdf(format="A4").count(b"/Type /Page\n") in (3 * one, 3 * one - 1, 3 * one - 2)


def test_there_is_room_to_write_each_answer_and_to_copy_it(page: Page, house: House) -> None:
    """A line of 30 mm or more for each number, and beside its unit; half of a marking sheet for what was written."""
    page.set_viewport_size({"width": 688, "height": 1000})
    page.goto("/paper/checks?form={paper}".format_map(house.facts))
    lines = page.locator(".answer .line")
    assert lines.count() == page.locator(".answer").count() > 10
    short = "all => all.filter(one => one.offsetWidth < 113 || one.parentNode.offsetHeight > 60).length"
    assert lines.evaluate_all(short) == 0
    page.goto("/paper/keys?form={paper}".format_map(house.facts))
    shares = "all => all.map(one => one.offsetWidth / one.closest('table').offsetWidth)"
    assert min(page.locator(".blank").evaluate_all(shares)) > 0.4


def test_every_sheet_of_paper_says_whose_check_it_is(page: Page, house: House) -> None:
    """What stands in the head of a table is printed anew on each sheet; a name has three inches there."""
    for place in ("checks?form={paper}&form={paper}", "keys?form={paper}", "sheet/balancing"):
        page.goto("/paper/" + place.format_map(house.facts))
        heads = page.locator(".copy > .each")
        assert heads.count() == page.locator(".copy").count() > 0
        shown = "all => all.map(one => [one, one.parentNode].map(box => getComputedStyle(box).display).join(' in '))"
        assert set(heads.evaluate_all(shown)) == {"table-header-group in table"}
        assert all("Name" in head for head in heads.all_inner_texts())
    page.set_viewport_size({"width": 688, "height": 1000})
    page.goto("/paper/checks?form={paper}".format_map(house.facts))
    assert page.locator(".who > .line").evaluate("line => line.offsetWidth") >= 3 * 96


def test_the_matrix_of_seven_skills_prints_across_the_sheet_and_loses_no_column(page: Page) -> None:
    wide, high = (round(one / 25.4 * 96) for one in A4_ON_ITS_SIDE)
    page.set_viewport_size({"width": wide, "height": high})
    page.goto("/matrix/")
    assert page.locator(".matrix").evaluate("table => table.getBoundingClientRect().right") <= wide
    sheet = page.pdf(format="A4", prefer_css_page_size=True)
    boxes = {tuple(map(float, box)) for box in re.findall(rb"/MediaBox \[0 0 ([0-9.]+) ([0-9.]+)\]", sheet)}
    assert boxes and all(across > up for across, up in boxes)


def test_forty_skills_are_printed_for_the_wall_in_strips_that_fit_the_paper(browser: Browser, tmp_path: Path) -> None:
    """The matrix itself would run over the edge of any paper at hand, and lose what lies beyond it."""
    values = {"token": "t", "view": view(), "address": "", "onward": "", "more": 0}
    (tmp_path / "wall.html").write_text(made("matrix_wall.html", look=LOOK, **values))
    for name in ("look.css", "wall.css"):
        (tmp_path / name).write_text((STATIC / name).read_text())
    wide, high = (round(one / 25.4 * 96) for one in A4_ON_ITS_SIDE)
    shown = browser.new_page(viewport={"width": wide, "height": high})
    shown.emulate_media(media="print")
    shown.goto((tmp_path / "wall.html").as_uri())
    strips = shown.locator(".strip")
    assert strips.count() == SKILLS / 8
    heads = [head.strip() for head in shown.locator(".strip thead th:not(:first-child)").all_inner_texts()]
    assert heads == [f"Applied skill number {n}" for n in range(SKILLS)]
    assert shown.locator(".strip tbody tr:not(.cover)").count() == PEOPLE * strips.count()
    assert shown.evaluate("document.documentElement.scrollWidth") <= wide
    cut = "all => all.filter(one => one.scrollWidth > one.clientWidth + 1).map(one => one.textContent)"
    assert shown.locator(".strip :is(th, td)").evaluate_all(cut) == []
    shown.close()
