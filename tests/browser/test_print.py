"""What is printed: a look-back whole, checks without keys, and nothing of the page's own furniture."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.house import House


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


def test_each_check_prints_on_sheets_of_its_own(page: Page, house: House) -> None:
    form = house.facts["paper"]
    for place, words in (("checks", "to pass"), ("keys", "shows keys")):
        page.goto(f"/paper/{place}?form={form}")
        one = page.pdf(format="A4").count(b"/Type /Page\n")
        expect(page.get_by_text(words)).to_be_visible()
        page.goto(f"/paper/{place}?form={form}&form={form}&form={form}")
        assert page.locator("article.copy").count() == 3
        assert page.pdf(format="A4").count(b"/Type /Page\n") in (3 * one, 3 * one - 1, 3 * one - 2)
