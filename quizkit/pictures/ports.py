"""The two ports of a cartridge and the sockets of its nozzle, with A and B each on its own side."""

from __future__ import annotations

import math

from quizkit.pictures.bounds import need
from quizkit.pictures.svg import INK, Point, circle, fill, line, patterns, picture, polygon, words
from quizkit.words import _

MOST_PARTS = 200.0
WIDEST, NARROWEST = 36.0, 6.0


def ports(a: float, b: float, *, id: str) -> str:
    """A cartridge's end with port A and port B, their areas as `a` to `b`, and the nozzle that goes on it.

    The shapes are nobody's in particular: they show that the sides may not be changed. Takes parts from 0.1 to 200,
    else FigureError.
    """
    need("a", a, 0.1, MOST_PARTS)
    need("b", b, 0.1, MOST_PARTS)
    radius = {"A": _radius(a, max(a, b)), "B": _radius(b, max(a, b))}
    description = _(
        "On the left the outlet end of a cartridge with two ports, A and B. On the right the back of its nozzle, with "
        "the sockets the other way round, so that A meets A and B meets B. Their areas stand for a ratio of {a:g} to "
        "{b:g}. No real maker's shape is shown."
    )
    return picture(
        id,
        _("Ports of cartridge and nozzle"),
        description.format(a=a, b=b),
        (440, 270),
        patterns(id, "hatch", "dots"),
        words((105, 18), _("Cartridge, outlet end"), size=14, bold=True),
        words((335, 18), _("Nozzle, from the back"), size=14, bold=True),
        circle((105, 132), 94, stroke_width=3),
        circle((335, 132), 94, stroke_width=3),
        circle((335, 132), 88, stroke_width=1),
        _port(id, "A", (62, 128), radius["A"], filled=True),
        _port(id, "B", (148, 128), radius["B"], filled=True),
        _port(id, "B", (292, 128), radius["B"], filled=False),
        _port(id, "A", (378, 128), radius["A"], filled=False),
        _turn_over(),
        words((220, 252), _("A to B = {a:g} : {b:g}").format(a=a, b=b), size=16),
    )


def _radius(part: float, largest: float) -> float:
    return max(WIDEST * math.sqrt(part / largest), NARROWEST)


def _port(id: str, name: str, middle: Point, radius: float, filled: bool) -> str:
    inside = fill(id, "hatch" if name == "A" else "dots") if filled else "none"
    ring = circle(middle, radius, fill=inside, class_=f"port-{name.lower()}", stroke_width=2 if filled else 4)
    return ring + words((middle[0], middle[1] + WIDEST + 16), name, size=20, bold=True)


def _turn_over() -> str:
    return line((204, 132), (226, 132)) + polygon(((236, 132), (224, 125), (224, 139)), fill=INK)
