"""The stylesheet in a real browser: targets for gloved hands, and no sideways scrolling on a small screen."""

from pathlib import Path

from playwright.sync_api import Browser

from quizkit.pages import STATIC, page
from tests.browser.house import House
from tests.pictures.test_every_picture import PICTURES, WIDE

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
    seen = [target for target in shown.locator(".bench a, .bench button").all() if target.is_visible()]
    heights = [target.bounding_box()["height"] for target in seen]
    assert heights and min(heights) >= 44
    shown.close()


def test_the_heads_of_the_matrix_stay_and_on_a_phone_each_person_is_a_card(browser: Browser, house: House) -> None:
    seat = house.seat(browser, "manager", viewport={"width": 820, "height": 500})
    shown = seat.new_page()
    shown.goto("/matrix/")
    frame, head = shown.locator(".scroll:has(> .matrix)"), shown.locator(".matrix thead th").nth(1)
    person = shown.locator(".matrix tbody th").first
    assert frame.evaluate("one => one.scrollHeight <= one.clientHeight"), "a dozen people stand there without a frame"
    frame.evaluate("one => one.classList.add('tall')")
    frame.evaluate("one => one.scrollBy(160, 300)")
    top, left = frame.bounding_box(), person.bounding_box()
    assert top is not None and left is not None
    assert head.bounding_box()["y"] - top["y"] < 3  # type: ignore[index]
    assert left["x"] - top["x"] < 3
    shown.set_viewport_size({"width": 360, "height": 700})
    assert not head.is_visible()
    said = shown.locator(".matrix tbody td a").first.evaluate("one => getComputedStyle(one, '::before').content")
    assert said == '"Protect yourself"'
    seat.close()


def test_what_is_drawn_fills_its_picture_and_stays_on_it(browser: Browser) -> None:
    """Beads once stood in the middle of a large empty field, small on a phone; 70 % of each side is the least."""
    shown = browser.new_page()
    drawn = [*(draw("a") for draw in PICTURES.values()), *(draw() for draw in WIDE)]
    shown.set_content("".join(drawn))
    measured = """all => all.map(one => [one.querySelector("title").textContent, one.getBBox(), one.viewBox.baseVal]
        .map(box => box.width ? [box.x, box.y, box.width, box.height] : box))"""
    pictures = shown.locator("svg").evaluate_all(measured)
    assert len(pictures) == len(drawn)
    for title, (x, y, wide, high), (left, top, width, height) in pictures:
        assert wide >= 0.7 * width and high >= 0.7 * height, title
        assert left <= x and x + wide <= left + width and top <= y and y + high <= top + height, title
    shown.close()


def test_nothing_moves_by_itself() -> None:
    css = (STATIC / "look.css").read_text()
    assert "animation" not in css and "@keyframes" not in css and "scroll-behavior: smooth" not in css


def test_the_places_stand_in_two_rows_on_a_phone_and_in_one_beyond(browser: Browser, house: House) -> None:
    seat = house.seat(browser, "trainer")
    shown = seat.new_page()
    shown.goto("/")
    for width, rows in ((360, 2), (820, 1), (1024, 1), (1440, 1)):
        shown.set_viewport_size({"width": width, "height": 900})
        tops = [one.bounding_box()["y"] for one in shown.locator(".bench a[aria-current], .bench .who").all()]  # type: ignore[index]
        frame = shown.locator(".bench").bounding_box()
        assert frame is not None and frame["height"] < 52 * rows, (width, frame)
        assert (tops[0] != tops[1]) == (rows > 1)
    seat.close()


def test_side_a_stands_beside_side_b_and_their_labels_begin_at_one_height(browser: Browser, house: House) -> None:
    """Three in a row once put B of the first pair under A of it: the wrong cup was soon typed."""
    seat = house.seat(browser, "trainer")
    shown = seat.new_page()
    shown.goto("/sheets/{lena}/balancing".format_map(house.facts))
    for width in (820, 1440):
        shown.set_viewport_size({"width": width, "height": 900})
        labels = {one.inner_text().strip(): one.bounding_box() for one in shown.locator(".measures label").all()}
        pairs = [(name, name.replace("up A", "up B")) for name in labels if "up A" in name]
        assert len(pairs) > 3 and all(labels[a]["y"] == labels[b]["y"] for a, b in pairs), width  # type: ignore[index]
    seat.close()


def test_a_box_to_tick_is_as_plain_as_any_box_and_a_wrong_one_is_marked(browser: Browser, house: House) -> None:
    seat = house.seat(browser, "trainer", color_scheme="dark")
    shown = seat.new_page()
    shown.goto("/sheets/{lena}/ratio-pairing".format_map(house.facts))
    style = "one => ['borderTopColor', 'borderTopWidth', 'backgroundColor'].map(name => getComputedStyle(one)[name])"
    looks = [shown.locator(one).first.evaluate(style) for one in ("#ticket", "[type=radio]", "[name=seen]")]
    assert looks[0] == looks[1] == looks[2]
    shown.goto("/sums/hardener_for?v.0=much&v.1=10:1+by+volume")
    marked = "all => all.filter(one => getComputedStyle(one).boxShadow !== 'none').map(one => one.name)"
    assert shown.locator("form.sum input").evaluate_all(marked) == ["v.0"]
    seat.close()


def test_the_lines_of_a_list_stand_close_on_a_phone_and_on_paper(browser: Browser, house: House) -> None:
    """A rule for lines side by side once stretched those that stand under each other; on paper they overlapped."""
    seat = house.seat(browser, "nobody", viewport={"width": 360, "height": 700})
    shown = seat.new_page()
    shown.goto("/sums")
    heights = [line.bounding_box()["height"] for line in shown.locator(".lines.stack > li").all()]  # type: ignore[index]
    assert len(heights) > 50 and max(heights) < 160, "there is room between the lines that nothing stands in"
    shown.emulate_media(media="print")
    for line in shown.locator(".lines.stack > li:has(.soft)").all():
        link, note = line.locator("a").bounding_box(), line.locator(".soft").bounding_box()
        assert link is not None and note is not None
        assert note["y"] >= link["y"] + link["height"] - 1, "a note lies over its link on paper"
    seat.close()


def test_the_shelf_label_is_folded_on_a_phone_and_lies_open_beside_the_question(browser: Browser, house: House) -> None:
    """Eighteen lines of it once stood between a question and its boxes on a phone; no script is needed for either."""
    seat = house.seat(browser, "apprentice", viewport={"width": 360, "height": 780}, java_script_enabled=False)
    shown = seat.new_page()
    shown.goto("/practice/{draw_shelf}".format_map(house.facts))
    label = shown.get_by_role("complementary", name="Shelf label")
    head, rest = label.locator("summary"), label.get_by_text("Cartridge", exact=True)
    folded = label.bounding_box()
    assert folded is not None and 44 <= folded["height"] < 90 and not rest.is_visible()
    assert head.inner_text().split("\n")[0].strip() == "Lintel adhesive" and "1:1 by volume" in head.inner_text()
    for _key in range(20):
        shown.keyboard.press("Tab")
        if head.evaluate("one => one.matches(':focus')"):
            break
    shown.keyboard.press("Enter")
    assert rest.is_visible()
    shown.keyboard.press("Enter")
    assert not rest.is_visible()
    for media, width in (("screen", 820), ("screen", 1440), ("print", 360), ("print", 700)):
        shown.set_viewport_size({"width": width, "height": 780})
        shown.emulate_media(media=media)  # type: ignore[arg-type]
        assert rest.is_visible() and not head.is_visible(), (media, width)
        assert label.get_by_text("Lintel adhesive").locator("visible=true").count() == 1
        if width > 800:
            box, words = shown.locator(".box").first.bounding_box(), label.bounding_box()
            assert box is not None and words is not None and words["x"] > box["x"] + box["width"], "it is not beside"
            assert "Cartridge" in label.aria_snapshot(), "a screen reader is not told what is seen"
    seat.close()
