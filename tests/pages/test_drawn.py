"""Pictures come in where a text has left their places, and nothing else of the text is touched."""

import re

import pytest

from quizkit.pages import environment
from quizkit.pages.drawn import NUMBERS, in_words, numbers, spoken
from quizkit.pictures import FIGURES, SPOKEN

GAUGE = '<figure data-figure="pressure_gauge" data-values="85 120"></figure>'


def draw(html: str) -> str:
    return environment().from_string("{{ html | drawn }}").render({NUMBERS: numbers(), "html": html})


def test_a_place_becomes_its_picture_and_the_text_around_it_stays() -> None:
    html = draw(f"<p>Read it: <em>a &lt; b</em></p>{GAUGE}<p>Then bleed.</p>")
    assert html.startswith("<p>Read it: <em>a &lt; b</em></p><figure><svg ")
    assert html.endswith("</svg></figure><p>Then bleed.</p>")


def test_no_line_ends_between_a_number_and_its_unit() -> None:
    assert draw("<p>120 mL at 20 °C, 5 % in 8 h</p>") == "<p>120\u00a0mL at 20\u00a0°C, 5\u00a0% in 8\u00a0h</p>"
    assert draw('<p title="120 mL">Take 2 shots, 3 steps</p>') == '<p title="120 mL">Take 2 shots, 3 steps</p>'


def test_two_pictures_of_a_page_share_no_id() -> None:
    ids = re.findall(r' id="([^"]+)"', draw(GAUGE * 3))
    assert len(ids) >= 6 and len(ids) == len(set(ids))


def test_ids_stay_apart_over_the_whole_page() -> None:
    html = environment().from_string("{{ a | drawn }}{{ a | drawn }}").render({NUMBERS: numbers(), "a": GAUGE})
    ids = re.findall(r' id="([^"]+)"', html)
    assert len(ids) == len(set(ids))


@pytest.mark.parametrize(
    "place",
    [
        '<figure data-figure="pressure_gauge" data-values="85"></figure>',
        '<figure data-figure="pressure_gauge" data-values="no number"></figure>',
        '<figure data-figure="no_such_picture" data-values="1"></figure>',
    ],
)
def test_what_cannot_be_drawn_says_so_in_its_place(place: str) -> None:
    html = draw(f"<p>Before.</p>{place}<p>After.</p>")
    assert html.startswith("<p>Before.</p><p class=") and html.endswith("<p>After.</p>")
    assert "cannot be drawn" in html and "<svg" not in html


def test_the_spoken_form_names_what_is_read() -> None:
    assert "1 small mark past the number 80" in spoken(GAUGE)[0]
    assert spoken('<figure data-figure="ghs_flame" data-values=""></figure>') == []
    assert set(SPOKEN) <= set(FIGURES)


def test_a_table_of_a_text_scrolls_in_a_frame_of_its_own() -> None:
    html = draw("<p>a</p><table><tr><td>1</td></tr></table><p>b</p>")
    assert '<div class="scroll text" role="group" tabindex="0" aria-label="Table"><table>' in html
    assert html.endswith("</table></div><p>b</p>")


def test_a_record_tells_a_picture_in_words_without_its_tags() -> None:
    told = in_words(f"<p>Read it: <em>a &lt; b</em>.</p>{GAUGE}<p>Then bleed.</p>")
    assert told.startswith("Read it: a < b. (Pressure gauge. Numbers run from 0 to 160 psi")
    assert told.endswith("The limit's wedge stands right at the number 120.) Then bleed.")
    assert "<" not in told.replace("a < b", "")
    bead = in_words('<figure data-figure="round_bead" data-values="6"></figure>')
    assert "cut across. Its diameter is 6 mm" in bead
