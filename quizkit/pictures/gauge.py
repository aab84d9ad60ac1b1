"""The air gauge at the inlet: a needle over a scale in psi, with a second scale in bar inside it."""

from __future__ import annotations

from quizkit.pictures.bounds import need
from quizkit.pictures.scales import Place, Scale, draw, said, scale, spoken
from quizkit.pictures.svg import INK, Point, arc, around, circle, picture, polygon, words
from quizkit.words import _

MIDDLE: Point = (170, 170)
RIM = 146.0
INNER_RIM = 84.0
SWEEP = 270.0
TOPS = (160, 200, 300, 400, 600, 1000)
PSI_TO_A_BAR = 14.5037738
"""1 bar = 100 kPa and 1 psi = 6.894757 kPa (NIST SP 811, Appendix B)."""


def pressure_gauge(reading: float, limit: float, *, id: str) -> str:
    """A gauge whose needle stands at `reading` psi, with a wedge on the rim at `limit` psi.

    Nothing in its words depends on either number, beyond how far the scale runs. Takes 0 to 1,000 psi, else
    FigureError.
    """
    outer = _scale(reading, limit)
    inner = scale(0, outer.high / PSI_TO_A_BAR, 12)
    description = _(
        "A round gauge with one needle and two scales. The outer scale is in psi, the inner one in bar. "
        "{marks} A wedge on the rim marks the limit."
    )
    return picture(
        id,
        _("Pressure gauge"),
        description.format(marks=said(outer, "psi")),
        (340, 340),
        circle(MIDDLE, 168, stroke_width=3),
        arc(MIDDLE, RIM, -SWEEP / 2, SWEEP / 2, stroke_width=1.2),
        draw(outer, _around(outer.high, RIM), short=9, long=17, number=36, size=17),
        arc(MIDDLE, INNER_RIM, -SWEEP / 2, SWEEP / 2, stroke_width=1.2),
        _inner(inner, outer),
        _wedge(limit, outer),
        _legend(),
        _needle(reading, outer),
    )


def say_pressure_gauge(reading: float, limit: float) -> str:
    """What a trainer reads out to someone who cannot see the gauge."""
    marked = _scale(reading, limit)
    text = _("{marks} The needle stands {needle}. The limit's wedge stands {limit}.")
    return text.format(marks=said(marked, "psi"), needle=spoken(marked, reading), limit=spoken(marked, limit))


def _scale(reading: float, limit: float) -> Scale:
    most = max(need("reading", reading, 0, TOPS[-1]), need("limit", limit, 0, TOPS[-1]))
    return scale(0, next(top for top in TOPS if top >= most), 8)


def _around(top: float, radius: float) -> Place:
    return lambda value, off: around(MIDDLE, radius - off, SWEEP * (value / top - 0.5))


def _inner(inner: Scale, outer: Scale) -> str:
    return draw(inner, _around(outer.high / PSI_TO_A_BAR, INNER_RIM), short=4, long=8, number=17, size=12)


def _wedge(limit: float, outer: Scale) -> str:
    turn = SWEEP * (limit / outer.high - 0.5)
    corners = (around(MIDDLE, RIM, turn), around(MIDDLE, 165, turn - 3.2), around(MIDDLE, 165, turn + 3.2))
    return polygon(corners, fill=INK, stroke="none", class_="limit")


def _needle(reading: float, outer: Scale) -> str:
    turn = SWEEP * (reading / outer.high - 0.5)
    tip, tail = around(MIDDLE, 134, turn), around(MIDDLE, 26, turn + 180)
    sides = (around(MIDDLE, 5, turn - 90), around(MIDDLE, 5, turn + 90))
    needle = polygon((tip, sides[0], tail, sides[1]), fill=INK, stroke="none", class_="needle")
    return needle + circle(MIDDLE, 9, fill=INK)


def _legend() -> str:
    x, y = MIDDLE[0] - 34, MIDDLE[1] + 142
    wedge = polygon(((x, y + 7), (x - 7, y - 7), (x + 7, y - 7)), fill=INK, stroke="none")
    return (
        words((MIDDLE[0], MIDDLE[1] + 104), "psi", size=20, bold=True)
        + words((MIDDLE[0], MIDDLE[1] + 60), "bar", size=14)
        + wedge
        + words((x + 14, y), _("limit"), size=15, anchor="start")
    )
