"""A page shows what it is given: escaped, in one look, and never with a name it does not know."""

from datetime import UTC, date, datetime

import pytest
from jinja2 import UndefinedError

from quizkit.pages import STATIC, environment, page, stamp
from quizkit.pages.dates import day, moment, months, short

LOOK = {
    "language": "en",
    "shop": "Fender & Sons <Test>",
    "static": "/static/",
    "links": [{"href": "/", "words": "Today", "here": True}],
    "person": "Ama <b>Deru</b>",
    "token": "t",
    "invented": True,
}


def test_names_stay_text() -> None:
    html = page("base.html", look=LOOK)
    assert "Fender &amp; Sons &lt;Test&gt;" in html
    assert "<b>Deru" not in html


def test_an_invented_shelf_is_said_on_every_page() -> None:
    assert "invented until the shop" in page("base.html", look=LOOK)
    assert "invented until the shop" not in page("base.html", look=LOOK | {"invented": False})


def test_an_unknown_name_is_an_error_and_no_empty_space() -> None:
    with pytest.raises(UndefinedError):
        environment().from_string("{{ nobody }}").render()


def test_dates_read_as_on_paper() -> None:
    assert (day(date(2027, 1, 4)), day(None)) == ("4 Jan 2027", "")


def test_a_moment_is_told_in_the_zone_of_its_reader() -> None:
    late = datetime(2026, 11, 28, 3, 13, tzinfo=UTC)
    assert (day(late), day(late, "America/Chicago")) == ("28 Nov 2026", "27 Nov 2026")
    assert (short(late, "America/Chicago"), moment(late, "America/Chicago")) == ("27 Nov", "27 Nov, 21:13")
    look = LOOK | {"zone": "America/Chicago"}
    assert environment().from_string("{{ at | day }}").render(look=look, at=late) == "27 Nov 2026"


def test_months_are_words_of_the_catalogue() -> None:
    assert [date(2026, month, 1).strftime("%b") for month in range(1, 13)] == list(months())


def test_every_standing_has_its_stamp() -> None:
    css = (STATIC / "look.css").read_text()
    words = ["not started", "learning", "check passed", "cleared", "lapsing", "lapsed", "withdrawn"]
    assert [word for word in words if f".stamp.{stamp(word)}, .matrix .{stamp(word)} b " not in css] == []


def test_the_look_needs_nothing_from_elsewhere() -> None:
    css = (STATIC / "look.css").read_text()
    assert "url(" not in css and "@import" not in css and "@font-face" not in css
