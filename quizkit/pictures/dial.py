"""The turn counter of the flow screw: turns open from closed, with the setting marked on its rim."""

from __future__ import annotations

import math

from quizkit.pictures.bounds import need
from quizkit.pictures.scales import Place, Scale, draw, spoken
from quizkit.pictures.svg import INK, Point, arc, around, circle, picture, polygon, words
from quizkit.words import _

MIDDLE: Point = (160, 160)
RIM = 124.0
SWEEP = 280.0
LEAST_TURNS = 4
MOST_TURNS = 10


def flow_dial(now: float, set: float, *, id: str) -> str:
    """A dial whose hand stands at `now` turns open, with a wedge on the rim at `set` turns.

    Nothing in its words depends on either number, beyond how far the dial runs. Takes 0 to 10 turns, else FigureError.
    """
    marked = _scale(now, set)
    description = _(
        "A dial that counts how many turns the flow screw is open. {marks} "
        "Clockwise around the dial is more open. A hand shows where the screw is now, "
        "a wedge on the rim where it is to be set."
    )
    place = _around(marked)
    return picture(
        id,
        _("Flow screw dial"),
        description.format(marks=_marks(marked)),
        (320, 330),
        circle(MIDDLE, 157, stroke_width=3),
        arc(MIDDLE, RIM, -SWEEP / 2, SWEEP / 2, stroke_width=1.2),
        draw(marked, place, short=10, long=20, number=38, size=20),
        words((MIDDLE[0] - 68, MIDDLE[1] + 112), _("closed"), size=14),
        words((MIDDLE[0], MIDDLE[1] + 62), _("turns"), size=18, bold=True),
        _legend(),
        _wedge(place, set),
        _hand(place, now),
    )


def say_flow_dial(now: float, set: float) -> str:
    """What a trainer reads out to someone who cannot see the dial."""
    marked = _scale(now, set)
    text = _("{marks} The hand stands {now}. The wedge of the setting stands {set}.")
    return text.format(marks=_marks(marked), now=spoken(marked, now), set=spoken(marked, set))


def _scale(now: float, set: float) -> Scale:
    most = max(need("now", now, 0, MOST_TURNS), need("set", set, 0, MOST_TURNS))
    return Scale(0, max(LEAST_TURNS, math.ceil(most)), 1, 0.25)


def _marks(marked: Scale) -> str:
    text = _("Numbers count whole turns from {low:g}, closed, to {high:g}; each small mark is a quarter turn.")
    return text.format(low=marked.low, high=marked.high)


def _turn(marked: Scale, value: float) -> float:
    return SWEEP * (value / marked.high - 0.5)


def _around(marked: Scale) -> Place:
    return lambda value, off: around(MIDDLE, RIM - off, _turn(marked, value))


def _wedge(place: Place, value: float) -> str:
    tip, outer = place(value, 0), place(value, -22)
    side = ((outer[1] - tip[1]) * 0.4, (tip[0] - outer[0]) * 0.4)
    corners = (tip, (outer[0] + side[0], outer[1] + side[1]), (outer[0] - side[0], outer[1] - side[1]))
    return polygon(corners, fill=INK, stroke="none", class_="set")


def _hand(place: Place, value: float) -> str:
    tip = place(value, 24)
    along = ((tip[0] - MIDDLE[0]) / (RIM - 24), (tip[1] - MIDDLE[1]) / (RIM - 24))
    left = (MIDDLE[0] - along[1] * 6, MIDDLE[1] + along[0] * 6)
    right = (MIDDLE[0] + along[1] * 6, MIDDLE[1] - along[0] * 6)
    return polygon((tip, left, right), fill=INK, stroke="none", class_="hand") + circle(MIDDLE, 16, fill=INK)


def _legend() -> str:
    x, y = MIDDLE[0] - 28, MIDDLE[1] + 128
    wedge = polygon(((x, y + 8), (x - 8, y - 8), (x + 8, y - 8)), fill=INK, stroke="none")
    return wedge + words((x + 15, y), _("set to"), size=15, anchor="start")
