"""The stylesheet in a real browser: targets for gloved hands, and no sideways scrolling on a small screen."""

from pathlib import Path

from playwright.sync_api import Browser

from quizkit.pages import STATIC, page

LOOK = {
    "language": "en",
    "shop": "Example Refinish",
    "static": "",
    "links": [{"href": "/", "words": "Today", "here": True}, {"href": "/sums", "words": "Bench sums", "here": False}],
    "person": "A person with a name of nearly eighty characters that somebody really typed",
    "token": "t",
    "invented": True,
}


def test_the_frame_of_a_page_fits_a_small_screen_and_a_gloved_hand(browser: Browser, tmp_path: Path) -> None:
    (tmp_path / "page.html").write_text(page("base.html", look=LOOK))
    (tmp_path / "look.css").write_text((STATIC / "look.css").read_text())
    shown = browser.new_page(viewport={"width": 320, "height": 640})
    shown.goto((tmp_path / "page.html").as_uri())
    assert shown.evaluate("document.documentElement.scrollWidth") <= 320
    heights = [target.bounding_box()["height"] for target in shown.locator(".bench a, .bench button").all()]
    assert heights and min(heights) >= 44
    shown.close()
