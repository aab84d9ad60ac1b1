"""The few elements of SVG that the pictures are made of.

Everything is drawn in `currentColor`, so that a picture takes the ink of its page: light, dark or printed. Looks are
given by presentation attributes alone; a strict Content-Security-Policy refuses `style` attributes and scripts.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable
from html import escape

INK = "currentColor"
FONT = "system-ui, sans-serif"

Point = tuple[float, float]
Attr = str | float

_ID = re.compile(r"[A-Za-z][A-Za-z0-9_.-]*")


def coordinate(value: float) -> str:
    """A length in user units to two decimals, without trailing zeros."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def tag(name: str, *inside: str, **attrs: Attr) -> str:
    """An element around markup that is already safe.

    An underscore in an attribute's name stands for a hyphen, one at its end is dropped (`class_`); values are escaped.
    """
    pairs = "".join(f' {_attr(key)}="{_value(value)}"' for key, value in attrs.items() if value != "")
    return f"<{name}{pairs}>{''.join(inside)}</{name}>" if inside else f"<{name}{pairs}/>"


def _attr(key: str) -> str:
    return key.rstrip("_").replace("_", "-")


def _value(value: Attr) -> str:
    return escape(value) if isinstance(value, str) else coordinate(value)


def line(start: Point, end: Point, **attrs: Attr) -> str:
    """A straight stroke between two points."""
    return tag("line", x1=start[0], y1=start[1], x2=end[0], y2=end[1], **attrs)


def polygon(points: Iterable[Point], **attrs: Attr) -> str:
    """A closed shape through its corners."""
    return tag("polygon", points=_points(points), **attrs)


def polyline(points: Iterable[Point], **attrs: Attr) -> str:
    """An open stroke through its points."""
    return tag("polyline", points=_points(points), **attrs)


def _points(points: Iterable[Point]) -> str:
    return " ".join(f"{coordinate(x)},{coordinate(y)}" for x, y in points)


def circle(middle: Point, radius: float, **attrs: Attr) -> str:
    """A circle around its middle."""
    return tag("circle", cx=middle[0], cy=middle[1], r=radius, **attrs)


def rect(x: float, y: float, width: float, height: float, **attrs: Attr) -> str:
    """An upright rectangle from its upper left corner."""
    return tag("rect", x=x, y=y, width=width, height=height, **attrs)


def path(data: str, **attrs: Attr) -> str:
    """A shape of curves, as path data."""
    return tag("path", d=data, **attrs)


def words(
    at: Point, text: str, *, size: float = 15, anchor: str = "middle", bold: bool = False, class_: str = ""
) -> str:
    """A piece of text whose middle line runs through the point."""
    return tag(
        "text",
        escape(text, quote=False),
        x=at[0],
        y=at[1],
        font_size=size,
        text_anchor=anchor,
        font_weight="bold" if bold else "",
        dominant_baseline="central",
        fill=INK,
        stroke="none",
        class_=class_,
    )


def around(middle: Point, radius: float, degrees: float) -> Point:
    """The point at a radius, `degrees` clockwise from straight up."""
    turn = math.radians(degrees)
    return middle[0] + radius * math.sin(turn), middle[1] - radius * math.cos(turn)


def arc(middle: Point, radius: float, start: float, end: float, **attrs: Attr) -> str:
    """A part of a circle, clockwise from `start` to `end` in degrees from straight up; more than half a turn."""
    (x, y), (u, v) = around(middle, radius, start), around(middle, radius, end)
    data = "M{} {}A{} {} 0 1 1 {} {}".format(*map(coordinate, (x, y, radius, radius, u, v)))
    return path(data, **attrs)


def fill(id: str, name: str) -> str:
    """The `fill` that points at one of the patterns of `patterns`."""
    return f"url(#{id}-{name})"


def patterns(id: str, *names: str) -> str:
    """Fills that differ in black and white: `hatch` (strokes one way), `cross` (both ways), `dots`."""
    return tag("defs", *(_pattern(f"{id}-{name}", name) for name in names))


def _pattern(id: str, name: str) -> str:
    strokes = {
        "hatch": "M-2 2L2 -2M0 8L8 0M6 10L10 6",
        "cross": "M-2 2L2 -2M0 8L8 0M6 10L10 6M-2 6L2 10M0 0L8 8M6 -2L10 2",
    }
    if name == "dots":
        inside = circle((2, 2), 1.3, fill=INK, stroke="none") + circle((6, 6), 1.3, fill=INK, stroke="none")
    else:
        inside = path(strokes[name], stroke=INK, stroke_width=1.2)
    return tag("pattern", inside, id=id, width=8, height=8, patternUnits="userSpaceOnUse")


def picture(id: str, title: str, description: str, size: Point, *parts: str, corner: Point = (0, 0)) -> str:
    """The whole picture with its title and description for a screen reader, `corner` its upper left one.

    `id` must differ between the pictures of one page; a name that could not be one raises ValueError.
    """
    if not _ID.fullmatch(id):
        raise ValueError(f"not an id for a picture: {id!r}")
    width, height = size
    return tag(
        "svg",
        tag("title", escape(title, quote=False), id=f"{id}-title"),
        tag("desc", escape(description, quote=False), id=f"{id}-desc"),
        *parts,
        xmlns="http://www.w3.org/2000/svg",
        class_="picture",
        role="img",
        aria_labelledby=f"{id}-title {id}-desc",
        viewBox=" ".join(map(coordinate, (*corner, width, height))),
        width=width,
        height=height,
        fill="none",
        stroke=INK,
        stroke_width=2,
        stroke_linejoin="round",
        font_family=FONT,
    )
