"""The contact sheet: every page, every seat, three widths, light, dark and print, as pictures to look at.

`python -m tests.browser.sheet --into build/look`, or a part of it with `--only sheet --width 360 --theme dark`. With
`--paper` each page is there as it leaves the printer too, a PDF beside its pictures.
"""

import argparse
import html
import tempfile
from collections.abc import Iterator
from contextlib import ExitStack
from pathlib import Path

from playwright.sync_api import Browser, Page, sync_playwright

from tests.browser.house import SEATS, House, open_house
from tests.browser.places import PLACES, Place
from tests.conftest import ARGUMENTS, found

WIDTHS = (360, 820, 1440)
THEMES = ("light", "dark", "print")
TALLEST = 2600
"""Pixels of a page that its picture shows, unless told otherwise."""


def main() -> None:
    """Make the pictures, and a page that shows them all."""
    asked = _asked()
    asked.into.mkdir(parents=True, exist_ok=True)
    places = [place for place in PLACES if asked.only in place.name]
    with ExitStack() as open_now, sync_playwright() as driver:
        house = open_now.enter_context(open_house(Path(open_now.enter_context(tempfile.TemporaryDirectory()))))
        browser = driver.chromium.launch(executable_path=found(), args=ARGUMENTS)
        for role in SEATS:
            here = [place for place in places if role in place.seats]
            if here and asked.seat in ("", role):
                print(role, len(here), "pages", flush=True)
                _shoot(browser, house, role, here, asked)
        browser.close()
    (asked.into / "index.html").write_text(_index(asked.into))
    print(f"{asked.into}/index.html shows them all")


def _asked() -> argparse.Namespace:
    reader = argparse.ArgumentParser(description=__doc__)
    reader.add_argument("--into", type=Path, default=Path("build/look"))
    reader.add_argument("--only", default="", help="pages with this in their name")
    reader.add_argument("--seat", default="", choices=["", *SEATS])
    reader.add_argument("--width", type=int, action="append", help=f"one of {WIDTHS}, or any other")
    reader.add_argument("--theme", action="append", choices=THEMES)
    reader.add_argument("--tall", type=int, default=TALLEST, help="pixels of a page that its picture shows")
    reader.add_argument("--paper", action="store_true", help="print each page to a PDF too")
    return reader.parse_args()


def _shoot(browser: Browser, house: House, role: str, places: list[Place], asked: argparse.Namespace) -> None:
    seat = house.seat(browser, role)
    state = seat.storage_state()
    seat.close()
    for place in places:
        own = browser.new_context(base_url=house.address, storage_state=state, viewport={"width": 820, "height": 1100})
        page = own.new_page()
        page.goto(place.at(house.facts))
        if place.then:
            place.then(page)
        for width, theme in _ways(asked):
            _dress(page, width, theme)
            tall = min(page.evaluate("document.documentElement.scrollHeight"), asked.tall)
            page.screenshot(
                path=asked.into / f"{place.name}.{role}.{width}.{theme}.png",
                full_page=True,
                clip={"x": 0, "y": 0, "width": width, "height": tall},
            )
        if asked.paper:
            page.emulate_media(media="print", color_scheme="light")
            page.pdf(path=asked.into / f"{place.name}.{role}.pdf", prefer_css_page_size=True, format="Letter")
        own.close()


def _ways(asked: argparse.Namespace) -> Iterator[tuple[int, str]]:
    for theme in asked.theme or THEMES:
        for width in asked.width or WIDTHS:
            yield width, theme


def _dress(page: Page, width: int, theme: str) -> None:
    page.set_viewport_size({"width": width, "height": 1100})
    if theme == "print":
        page.emulate_media(media="print", color_scheme="light")
    else:
        page.emulate_media(media="screen", color_scheme=theme)  # type: ignore[arg-type]


def _index(folder: Path) -> str:
    """A page of all pictures, small; each opens in full."""
    shown: dict[str, list[str]] = {}
    for path in sorted(folder.glob("*.png")):
        shown.setdefault(path.name.split(".")[0], []).append(path.name)
    rows = [
        f"<h2>{html.escape(name)}</h2><p>"
        + "".join(f'<a href="{one}"><img src="{one}" title="{one}" height="300" loading="lazy"></a> ' for one in files)
        for name, files in shown.items()
    ]
    return "<!doctype html><meta charset=utf-8><title>Contact sheet</title>" + "".join(rows)


if __name__ == "__main__":
    main()
