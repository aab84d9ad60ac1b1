"""Strips that are read along: the open time of a mixed material, and how much of a skill is solid."""

from __future__ import annotations

from quizkit.pictures.bounds import FigureError, need, need_whole
from quizkit.pictures.scales import draw, scale
from quizkit.pictures.svg import INK, fill, line, patterns, picture, polygon, rect, words
from quizkit.words import _

LEFT, RIGHT = 20.0, 348.0
LONGEST = 1440.0


def open_time_strip(open_time: float, used: float, *, id: str) -> str:
    """The open time from first mix as a strip, the part used so far filled; both in minutes.

    What was used past the open time is crossed over. Takes an open time of 0.5 to 1,440 min and up to ten times that
    much used, else FigureError.
    """
    need("open_time", open_time, 0.5, LONGEST)
    need("used", used, 0, 10 * open_time)
    along = scale(0, max(open_time, used), 7)

    def at(value: float) -> float:
        return LEFT + (RIGHT - LEFT) * value / along.high

    inside, edge = min(used, open_time), at(open_time)
    over = rect(edge, 56, at(used) - edge, 44, fill=fill(id, "cross"), class_="over") if used > open_time else ""
    description = _(
        "A strip of time from the first mix. The open time ends at {open_time:g} min; {used:g} min are used."
    )
    return picture(
        id,
        _("Open time"),
        description.format(open_time=open_time, used=used),
        (420, 150),
        patterns(id, "hatch", "cross"),
        rect(LEFT, 56, at(inside) - LEFT, 44, fill=fill(id, "hatch"), class_="used") if used else "",
        over,
        rect(LEFT, 56, edge - LEFT, 44, class_="open"),
        polygon(((edge, 52), (edge - 8, 36), (edge + 8, 36)), fill=INK, stroke="none"),
        words((min(max(edge, 75), 345), 22), _("open time ends"), size=15, bold=True),
        draw(along, lambda value, off: (at(value), 100 + off), short=6, long=12, number=26, size=16),
        words((RIGHT + 42, 126), _("min"), size=16, bold=True),
    )


def solid_scale(parts: int, solid: int, due: int, *, id: str) -> str:
    """How much of a skill is solid, as the marks of a cartridge scale: filled, hatched for shaky or due again, empty.

    `solid` and `due` count from 0 and together are at most `parts` (1 to 100), else FigureError.
    """
    need_whole("parts", parts, 1, 100)
    need_whole("solid", solid, 0, parts)
    need_whole("due", due, 0, parts)
    if solid + due > parts:
        text = _("solid is {solid} and due is {due}; together they are more than the {parts} parts.")
        raise FigureError(text.format(solid=solid, due=due, parts=parts))
    wide = 200 / parts
    cells = []
    for part in range(parts):
        kind = "solid" if part < solid else "due" if part < solid + due else "empty"
        inside = {"solid": INK, "due": fill(id, "hatch"), "empty": "none"}[kind]
        cells.append(rect(part * wide + 1.5, 2, wide - 3, 16, fill=inside, stroke_width=1.5, class_=kind))
    description = _("Of {parts} parts {solid} are solid and {due} are shaky or due again.")
    return picture(
        id,
        _("How solid it is"),
        description.format(parts=parts, solid=solid, due=due),
        (200, 24),
        patterns(id, "hatch"),
        *cells,
        line((0, 22), (200, 22), stroke_width=2),
    )
