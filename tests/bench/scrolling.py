"""Scrolling the matrix of 200 people and 40 skills in a real browser: `python -m tests.bench.scrolling`.

The time between two pictures while the frame of the matrix is scrolled by the wheel, down and across, beside the same
scrolling of a bare table of as many words; medians and the slowest of a hundred, several turns of each in turn. On a
machine without a graphics card the processor draws everything, so a tablet does better than these figures.
"""

import contextlib
import statistics
import tempfile
from itertools import pairwise
from pathlib import Path

from playwright.sync_api import Browser, Page, sync_playwright

from quizkit.pages import STATIC, page
from tests.bench.measure import shown
from tests.conftest import ARGUMENTS, found
from tests.pages.test_matrix_page import LOOK, PEOPLE, SKILLS, view

TURNS = 5
STEPS, STEP = 40, (60, 120)
"""Turns of the wheel, and the pixels of each, across and down."""
COUNT = """() => { const at = window.at = []; const tick = now => { at.push(now); requestAnimationFrame(tick); };
requestAnimationFrame(tick); }"""


def bare() -> str:
    """A table of as many words, without a look."""
    row = "<tr>" + "<td>cleared to 28 Sep 2027</td>" * (SKILLS + 1) + "</tr>"
    frame = '<div class="tall" style="overflow:auto;height:85vh"><table style="width:6000px">'
    return f"<!doctype html><main id='page'>{frame}{row * PEOPLE}</table></div></main>"


def pictures(shown_page: Page) -> list[float]:
    """The seconds between two pictures while the frame is scrolled."""
    place = shown_page.locator(".tall").bounding_box()
    assert place is not None
    shown_page.mouse.move(place["x"] + 300, place["y"] + 300)
    shown_page.evaluate(COUNT)
    for _step in range(STEPS):
        shown_page.mouse.wheel(*STEP)
    at = shown_page.evaluate("new Promise(done => setTimeout(() => done(window.at), 200))")
    moved = shown_page.locator(".tall").evaluate("one => one.scrollTop + one.scrollLeft")
    assert moved > 1000, moved
    return [(later - earlier) / 1000 for earlier, later in pairwise(at)]


def turn(browser: Browser, address: str) -> list[float]:
    """One turn: the page is opened anew and scrolled."""
    with contextlib.closing(browser.new_page(viewport={"width": 1280, "height": 800})) as opened:
        opened.goto(address)
        return pictures(opened)


def main() -> None:
    """Print how long a picture takes."""
    with contextlib.ExitStack() as open_now, sync_playwright() as driver:
        folder = Path(open_now.enter_context(tempfile.TemporaryDirectory()))
        values = {"token": "t", "view": view(), "address": "", "onward": "", "more": 0}
        (folder / "matrix.html").write_text(page("matrix.html", look=LOOK | {"static": ""}, **values))
        (folder / "look.css").write_text((STATIC / "look.css").read_text())
        (folder / "bare.html").write_text(bare())
        browser = driver.chromium.launch(executable_path=found(), args=ARGUMENTS)
        taken: dict[str, list[float]] = {"bare.html": [], "matrix.html": []}
        for _turn in range(TURNS):
            for name, all_taken in taken.items():
                all_taken += turn(browser, (folder / name).as_uri())
        browser.close()
        for name, all_taken in taken.items():
            slow = statistics.quantiles(all_taken, n=100)[-1]
            print(f"{name:12} {shown(statistics.median(all_taken))} a picture, the slowest of a hundred {shown(slow)}")


if __name__ == "__main__":
    main()
