"""A working day as bars: which level was in the air, and for how many of the eight hours."""

from __future__ import annotations

import math

from quizkit.pictures.bounds import FigureError, need
from quizkit.pictures.scales import Scale, draw, said, scale
from quizkit.pictures.svg import fill, line, patterns, picture, rect, words
from quizkit.words import _

HOURS = 8
LEFT, RIGHT = 66.0, 402.0
TOP, FLOOR = 36.0, 226.0
HIGHEST = 10_000.0


def exposure_day(first: float, first_time: float, later: float, later_time: float, limit: float, *, id: str) -> str:
    """Two levels in ppm, each a bar over its hours, one after the other; clean air after them, the limit a dashed line.

    Takes levels of 0 to 10,000 ppm, a limit over 0, and times over 0 that fit into 8 h together, else FigureError.
    """
    top = max(need("first", first, 0, HIGHEST), need("later", later, 0, HIGHEST), need("limit", limit, 0.1, HIGHEST))
    need("first_time", first_time, 0.01, HOURS)
    need("later_time", later_time, 0.01, HOURS)
    worked = first_time + later_time
    if worked > HOURS:
        text = _("first_time and later_time are {worked:g} h together; a day of this picture has {hours} h.")
        raise FigureError(text.format(worked=worked, hours=HOURS))
    rough = scale(0, top, 5)
    high = rough.step * math.ceil(top / rough.step - 1e-9)
    upright = Scale(0, high, rough.step, rough.small)

    def across(hours: float) -> float:
        return LEFT + (RIGHT - LEFT) * hours / HOURS

    def up(level: float) -> float:
        return FLOOR - (FLOOR - TOP) * level / high

    def bar(start: float, hours: float, level: float, pattern: str, name: str) -> str:
        wide = across(start + hours) - across(start)
        return rect(across(start), up(level), wide, FLOOR - up(level), fill=fill(id, pattern), class_=name)

    description = _(
        "A day of {hours} hours, left to right. {marks} A bar at {first:g} ppm lasts {first_time:g} h, the next at "
        "{later:g} ppm lasts {later_time:g} h; the rest is clean air. A dashed line marks the limit, {limit:g} ppm."
    )
    return picture(
        id,
        _("Levels of a day"),
        description.format(
            hours=HOURS,
            marks=said(upright, "ppm"),
            first=first,
            first_time=first_time,
            later=later,
            later_time=later_time,
            limit=limit,
        ),
        (470, 290),
        patterns(id, "hatch", "dots"),
        rect(LEFT, TOP, RIGHT - LEFT, FLOOR - TOP, stroke_width=1.2),
        bar(0, first_time, first, "hatch", "first"),
        bar(first_time, later_time, later, "dots", "later"),
        draw(upright, lambda value, off: (LEFT - off, up(value)), short=5, long=10, number=30, size=15),
        line((LEFT, up(limit)), (RIGHT, up(limit)), stroke_width=2.5, stroke_dasharray="10 6", class_="limit"),
        words((RIGHT + 6, up(limit)), _("limit"), size=15, anchor="start"),
        words((LEFT - 28, 13), "ppm", size=16, bold=True),
        *(line((across(hour), FLOOR), (across(hour), FLOOR + 9), stroke_width=1.2) for hour in range(HOURS + 1)),
        *(words((across(hour), FLOOR + 24), str(hour), size=15, class_="hour") for hour in range(HOURS + 1)),
        words(((LEFT + RIGHT) / 2, FLOOR + 50), _("hours"), size=16, bold=True),
    )
