"""A cartridge on its side, read where the front edge of its plunger stands; and two barrels side by side."""

from __future__ import annotations

import math

from quizkit.pictures.bounds import FigureError, need
from quizkit.pictures.scales import Place, Scale, draw, said, scale, spoken
from quizkit.pictures.svg import INK, fill, line, patterns, picture, polygon, rect, words
from quizkit.words import _

LEFT, RIGHT = 66.0, 350.0
TALL = 56.0
LARGEST = 2000.0


def cartridge_scale(reading: float, full: float, *, id: str) -> str:
    """A cartridge with a scale of `full` mL and its plunger's front edge at `reading` mL gone out.

    No word of it depends on `reading`. Takes 0 to `full`, and `full` from 5 to 2,000 mL, else FigureError.
    """
    marked = _scale(full, reading=reading)
    description = _(
        "A cartridge on its side, outlet to the right. The scale counts the mL that have gone out; it is read at the "
        "front edge of the plunger. {marks}"
    )
    return picture(
        id,
        _("Scale on a cartridge"),
        description.format(marks=said(marked, "mL")),
        (420, 140),
        patterns(id, "dots"),
        _cartridge(id, marked, reading, 20),
    )


def say_cartridge_scale(reading: float, full: float) -> str:
    """What a trainer reads out to someone who cannot see the cartridge."""
    marked = _scale(full, reading=reading)
    text = _("{marks} The front edge of the plunger stands {place}.")
    return text.format(marks=said(marked, "mL"), place=spoken(marked, reading))


def two_readings(start: float, end: float, full: float, *, id: str) -> str:
    """The same cartridge before and after a job, its plunger at `start` and then at `end` mL gone out.

    No word of it depends on `start` or `end`. `start` may not be past `end`, nor `end` past `full`, else FigureError.
    """
    marked = _before_and_after(start, end, full)
    description = _(
        "One cartridge drawn twice, the reading before above and the reading after below, outlet to the right. The "
        "scale counts the mL that have gone out; it is read at the front edge of the plunger. {marks}"
    )
    return picture(
        id,
        _("Scale on a cartridge, before and after"),
        description.format(marks=said(marked, "mL")),
        (420, 300),
        patterns(id, "dots"),
        words((6, 14), _("Before"), size=16, anchor="start", bold=True),
        _cartridge(id, marked, start, 38),
        words((6, 168), _("After"), size=16, anchor="start", bold=True),
        _cartridge(id, marked, end, 192),
    )


def say_two_readings(start: float, end: float, full: float) -> str:
    """What a trainer reads out to someone who cannot see the two drawings."""
    marked = _before_and_after(start, end, full)
    text = _("{marks} Before, the front edge of the plunger stands {start}; after, {end}.")
    return text.format(marks=said(marked, "mL"), start=spoken(marked, start), end=spoken(marked, end))


def _before_and_after(start: float, end: float, full: float) -> Scale:
    marked = _scale(full, start=start, end=end)
    if start > end:
        text = _("start is {start:g} and end is {end:g}; the scale counts what has gone out, so it never goes back.")
        raise FigureError(text.format(start=start, end=end))
    return marked


def _scale(full: float, **readings: float) -> Scale:
    need("full", full, 5, LARGEST)
    for what, value in readings.items():
        need(what, value, 0, full)
    return scale(0, full, 5, gaps=10)


def _cartridge(id: str, marked: Scale, reading: float, top: float) -> str:
    bottom = top + TALL
    place = _along(marked, bottom)
    front = place(reading, 0)[0]
    return (
        rect(front, top, RIGHT - front, TALL, fill=fill(id, "dots"), stroke="none")
        + _barrel(top)
        + _plunger(front, top)
        + draw(marked, place, short=8, long=18, number=32, size=16)
        + words((RIGHT + 38, bottom + 32), "mL", size=16, bold=True)
    )


def _along(marked: Scale, base: float) -> Place:
    return lambda value, off: (LEFT + (RIGHT - LEFT) * value / marked.high, base + off)


def _barrel(top: float) -> str:
    bottom, middle = top + TALL, top + TALL / 2
    walls = rect(LEFT - 14, top, RIGHT - LEFT + 14, TALL)
    flange = rect(LEFT - 22, top - 8, 8, TALL + 16, fill=INK)
    outlet = polygon(
        (
            (RIGHT, top),
            (RIGHT + 18, middle - 12),
            (RIGHT + 52, middle - 9),
            (RIGHT + 52, middle + 9),
            (RIGHT + 18, middle + 12),
            (RIGHT, bottom),
        )
    )
    return walls + flange + outlet


def _plunger(front: float, top: float) -> str:
    middle, bottom = top + TALL / 2, top + TALL
    rod = rect(6, middle - 5, front - 20, 10, fill=INK, stroke="none")
    disc = polygon(
        ((front, top + 2), (front, bottom - 2), (front - 14, bottom - 2), (front - 14, top + 2)),
        fill=INK,
        stroke="none",
        class_="plunger",
    )
    return rod + disc


def plungers(level_a: float, level_b: float, *, id: str) -> str:
    """Two barrels side by side, outlets up, with a rule in mm between them and each plunger at its level.

    The two rods move as one, so both stand at the plunger that is behind, and a gap shows below the other. Its words
    depend on the levels only in which stretch of the rule is shown. Takes 0 to 500 mm, else FigureError.
    """
    marked = _rule(level_a, level_b)
    behind = min(level_a, level_b)
    description = _(
        "Two barrels of a cartridge side by side, A on the left and B on the right, outlets up. A rule in mm stands "
        "between them; each level is read at the upper face of the plunger. Both rods come from below and stand at "
        "one height. {marks}"
    )
    return picture(
        id,
        _("Levels of the two plungers"),
        description.format(marks=said(marked, "mm")),
        (420, 380),
        patterns(id, "hatch", "dots"),
        _column(id, "hatch", marked, (level_a, behind), 30, "A"),
        _column(id, "dots", marked, (level_b, behind), 270, "B"),
        draw(marked, lambda value, off: (154 + off, _height(marked, value)), short=10, long=20, number=40, size=15),
        draw(marked, lambda value, off: (266 - off, _height(marked, value)), short=10, long=20, number=None),
        words((210, 24), "mm", size=15, bold=True),
    )


def say_plungers(level_a: float, level_b: float) -> str:
    """What a trainer reads out to someone who cannot see the two barrels."""
    marked = _rule(level_a, level_b)
    text = _("{marks} The face of plunger A stands {a}; that of plunger B {b}.")
    return text.format(marks=said(marked, "mm"), a=spoken(marked, level_a), b=spoken(marked, level_b))


def _rule(level_a: float, level_b: float) -> Scale:
    levels = need("level_a", level_a, 0, 500), need("level_b", level_b, 0, 500)
    low = max(0, 10 * math.floor(min(levels) / 10) - 10)
    high = 10 * math.ceil(max(levels) / 10) + 10
    return Scale(low, high, 10, 1) if high - low <= 60 else scale(low, high, 10)


def _height(marked: Scale, value: float) -> float:
    return 330 - 280 * (value - marked.low) / (marked.high - marked.low)


def _column(id: str, pattern: str, marked: Scale, levels: tuple[float, float], left: float, name: str) -> str:
    """A barrel with its plunger at the first level, and its rod at a plunger that stands at the second."""
    level, pushed = levels
    face, right = _height(marked, level), left + 120
    rod, end = _height(marked, pushed) + 14, 370
    sides = ((left + 54, rod), (left + 66, rod), (left + 66, end), (left + 54, end))
    corners = ((left + 2, face), (right - 2, face), (right - 2, face + 14), (left + 2, face + 14))
    return (
        rect(left, 40, 120, face - 40, fill=fill(id, pattern), stroke="none")
        + line((left, 40), (left, 352))
        + line((right, 40), (right, 352))
        + polygon(sides, fill=INK, stroke="none", class_=f"rod-{name.lower()}")
        + polygon(corners, fill=INK, stroke="none", class_=f"plunger-{name.lower()}")
        + words((left + 24, 24), name, size=20, bold=True)
    )
