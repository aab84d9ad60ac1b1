"""Pictures where a text has left their places: each `<figure data-figure=…>` becomes the SVG of its numbers."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from html import escape, unescape
from itertools import count

from jinja2 import pass_context
from jinja2.runtime import Context
from markupsafe import Markup

from quizkit.pictures import FIGURES, SPOKEN, FigureError, cover_chart, shares_chart, solid_scale
from quizkit.words import _

NUMBERS = "figure_numbers"
"""The name under which a page counts its pictures, so that no two share an id."""

_PLACE = re.compile(r'<figure data-figure="(?P<name>\w+)" data-values="(?P<values>[^"]*)"></figure>')

_PIECES = re.compile(r"(<[^>]*>)")
_INLINE = re.compile(r"</?(?:span|em|strong|code|a)\b[^>]*>")
_BREAKS = re.compile(r"<[^>]*>")
_NAMED = (re.compile(r"<title[^>]*>([^<]*)</title>"), re.compile(r"<desc[^>]*>([^<]*)</desc>"))
"""What a picture is called, and what it shows."""
_TOGETHER = re.compile(
    r"(?<=[0-9]) (?=(?:fl oz|[mµ]?L|[mck]?m[²³]?|k?g(?:/mL)?|mg/m³|h|min|s|psi|bar|ppm|dBA|ft|mL/s|mm/s)(?!\w)|%|°[CF])"
)
"""The space between a number and its unit."""

OWN: Mapping[str, Callable[..., str]] = {
    "cover_chart": cover_chart,
    "shares_chart": shares_chart,
    "solid_scale": solid_scale,
}
"""The pictures that pages draw of their own, beside those that a text may call for."""


def numbers() -> Iterator[int]:
    """The numbers of one page's pictures, from 1."""
    return count(1)


@pass_context
def drawn(context: Context, html: str) -> Markup:
    """HTML of the pack, let through as it is, with every figure's place filled; the page must hold `figure_numbers`.

    A picture that cannot be drawn from its numbers says so in its place, and the rest of the page stands. No line ends
    between a number and its unit.
    """
    counted: Iterator[int] = context[NUMBERS]
    whole = "".join(_TOGETHER.sub("\u00a0", piece) if piece[:1] != "<" else piece for piece in _PIECES.split(html))
    return Markup(_framed(_PLACE.sub(lambda place: _picture(place, f"figure-{next(counted)}"), whole)))


@pass_context
def picture(context: Context, name: str, *values: object) -> Markup:
    """One of the pages' own pictures, drawn from the values that a view holds."""
    counted: Iterator[int] = context[NUMBERS]
    return Markup(OWN[name](*values, id=f"figure-{next(counted)}"))


def _framed(html: str) -> str:
    """The same with each table in a frame of its own, which scrolls where the screen is narrower than the table."""
    frame = f'<div class="scroll text" role="group" tabindex="0" aria-label="{escape(_("Table"))}"><table>'
    return html.replace("<table>", frame).replace("</table>", "</table></div>")


def spoken(html: str) -> list[str]:
    """What a trainer may say instead of each picture of a text that is there to be read."""
    places = [place for place in _PLACE.finditer(html) if place["name"] in SPOKEN]
    return [SPOKEN[place["name"]](*_values(place)) for place in places]


def in_words(html: str) -> str:
    """A text as a record tells it, without its tags: each picture by its name and what it shows."""
    told = _PLACE.sub(lambda place: f" ({escape(_shows(place))}) ", html)
    return " ".join(unescape(_BREAKS.sub(" ", _INLINE.sub("", told))).split())


def _shows(place: re.Match[str]) -> str:
    drawing = _picture(place, "told")
    title, description = (found[1] if (found := pattern.search(drawing)) else "" for pattern in _NAMED)
    if not title:
        return f"{place['name']}: {place['values']}"
    seen = SPOKEN[place["name"]](*_values(place)) if place["name"] in SPOKEN else unescape(description)
    return f"{unescape(title)}. {seen}"


def _picture(place: re.Match[str], id: str) -> str:
    try:
        return f"<figure>{FIGURES[place['name']](*_values(place), id=id)}</figure>"
    except (FigureError, KeyError, TypeError, ValueError):
        words = _("This picture cannot be drawn. Tell your trainer: {name}").format(name=place["name"])
        return f'<p class="fault">{escape(words)}</p>'


def _values(place: re.Match[str]) -> list[float]:
    return [float(value) for value in place["values"].split()]
