"""Beads and bond lines cut across, with their dimensions; drawn for the shape, not to scale."""

from __future__ import annotations

from quizkit.pictures.bounds import need
from quizkit.pictures.svg import INK, Point, circle, fill, line, path, patterns, picture, polygon, rect, words
from quizkit.words import _

CENTRE, FLOOR = 290.0, 230.0
SMALLEST, LARGEST = 0.1, 200.0
PIXELS_A_MM = 12.0
SEEN_AT_LEAST, SEEN_AT_MOST = 26.0, 170.0
BESIDE = 60.0
"""How far a panel runs on beside what lies on it."""
THICK = 24.0
EDGE = 8.0
"""What is left empty around a picture."""
LETTER, SIGN = 18.0, 14.2
"""The size of a dimension's letters, and the most that one of them takes up across: in "8 mm", bold."""
ABOVE = 26.0
"""From a dimension line to the far side of its words."""

Frame = tuple[float, float, float, float]
"""What is drawn on: from the left, from the top, to the right, to the bottom."""


def round_bead(diameter: float, *, id: str) -> str:
    """A round bead lying on a panel, `diameter` in mm (0.1 to 200, else FigureError)."""
    (across,) = _drawn(diameter=diameter)
    top, half = FLOOR - across, across / 2
    description = _("A round bead on a panel, cut across. Its diameter is {diameter}.")
    return _cut(
        id,
        _("Round bead"),
        description.format(diameter=_mm(diameter)),
        _around(half, top - 24 - ABOVE),
        _panel(id, half),
        circle((CENTRE, FLOOR - half), half, fill=fill(id, "dots")),
        _across(CENTRE - half, CENTRE + half, top - 24, FLOOR - half, _mm(diameter)),
    )


def half_round_bead(diameter: float, *, id: str) -> str:
    """A half round bead, flat side on the panel, `diameter` in mm (0.1 to 200, else FigureError)."""
    (across,) = _drawn(diameter=diameter)
    half = across / 2
    description = _("A half round bead with its flat side on a panel, cut across. Its diameter is {diameter}.")
    return _cut(
        id,
        _("Half round bead"),
        description.format(diameter=_mm(diameter)),
        _around(half, FLOOR - half - 24 - ABOVE),
        _panel(id, half),
        path(f"M{CENTRE - half:g} {FLOOR:g}a{half:g} {half:g} 0 0 1 {across:g} 0Z", fill=fill(id, "dots")),
        _across(CENTRE - half, CENTRE + half, FLOOR - half - 24, FLOOR, _mm(diameter)),
    )


def fillet_bead(leg: float, *, id: str) -> str:
    """A fillet with two equal legs in the corner of two panels, `leg` in mm (0.1 to 200, else FigureError)."""
    (side,) = _drawn(leg=leg)
    left = CENTRE - side / 2
    description = _("A fillet in the corner of two panels, cut across: a triangle with two equal legs of {leg}.")
    return _cut(
        id,
        _("Fillet bead"),
        description.format(leg=_mm(leg)),
        (_beside(left - 48, leg), FLOOR - side - 30, left + side + BESIDE, FLOOR + 48 + ABOVE),
        rect(left - THICK, FLOOR, THICK + side + BESIDE, THICK, fill=fill(id, "hatch")),
        rect(left - THICK, FLOOR - side - 30, THICK, side + 30, fill=fill(id, "hatch")),
        polygon(((left, FLOOR), (left, FLOOR - side), (left + side, FLOOR)), fill=fill(id, "dots")),
        _across(left, left + side, FLOOR + 48, FLOOR, _mm(leg)),
        _up(FLOOR, FLOOR - side, left - 48, left, _mm(leg)),
    )


def rect_bead(width: float, depth: float, *, id: str) -> str:
    """A joint filled flush, `width` by `depth` in mm (each 0.1 to 200, else FigureError)."""
    across, deep = _drawn(width=width, depth=depth)
    left, right, top = CENTRE - across / 2, CENTRE + across / 2, FLOOR - deep
    description = _("A joint between two panels, filled flush, cut across: {width} wide and {depth} deep.")
    return _cut(
        id,
        _("Filled joint"),
        description.format(width=_mm(width), depth=_mm(depth)),
        (_beside(left - 66, depth), top - 24 - ABOVE, right + 50, FLOOR + THICK),
        rect(left - 50, FLOOR, across + 100, THICK, fill=fill(id, "hatch")),
        rect(left - 50, top, 50, deep, fill=fill(id, "hatch")),
        rect(right, top, 50, deep, fill=fill(id, "hatch")),
        rect(left, top, across, deep, fill=fill(id, "dots")),
        _across(left, right, top - 24, top, _mm(width)),
        _up(FLOOR, top, left - 66, left - 50, _mm(depth)),
    )


def vee_bead(base: float, height: float, *, id: str) -> str:
    """A V bead as a notched tip lays it: a triangle on its base, both in mm (each 0.1 to 200, else FigureError)."""
    across, tall = _drawn(base=base, height=height)
    left, right, top = CENTRE - across / 2, CENTRE + across / 2, FLOOR - tall
    description = _("A V bead on a panel, cut across: a triangle with a base of {base} on the panel, {height} high.")
    return _cut(
        id,
        _("V bead"),
        description.format(base=_mm(base), height=_mm(height)),
        (min(_beside(left - 36, height), left - BESIDE), top, right + BESIDE, FLOOR + 48 + ABOVE),
        _panel(id, across / 2),
        polygon(((left, FLOOR), (CENTRE, top), (right, FLOOR)), fill=fill(id, "dots")),
        _across(left, right, FLOOR + 48, FLOOR, _mm(base)),
        _up(FLOOR, top, left - 36, CENTRE, _mm(height)),
    )


def bond_line(width: float, gap: float, *, id: str) -> str:
    """Two flanges with adhesive between them and squeezed out at both edges; `width` and `gap` in mm.

    Takes a width of 1 to 200 and a gap of 0.05 to 20 mm, else FigureError.
    """
    need("width", width, 1, LARGEST)
    need("gap", gap, 0.05, 20)
    across = min(max(8 * width, 120), 280)
    thick = min(max(40 * gap, 16), 70)
    left, right, top, bottom = CENTRE - across / 2, CENTRE + across / 2, 150 - thick / 2, 150 + thick / 2
    bulge = thick / 2 + 4
    description = _(
        "Two flanges bonded to each other, cut across. The bond line between them is {width} wide and {gap} thick. "
        "A little adhesive is squeezed out along both edges. The gap is drawn larger than it is."
    )
    arc = f"a{bulge:g} {bulge:g} 0 0 1 0"
    squeezed = f"M{left:g} {top:g}H{right:g}{arc} {thick:g}H{left:g}{arc} {-thick:g}Z"
    return _cut(
        id,
        _("Bond line"),
        description.format(width=_mm(width), gap=_mm(gap)),
        (_beside(left - 28, gap), top - 28, right + bulge, bottom + 62 + ABOVE),
        rect(left, top - 28, across, 28, fill=fill(id, "hatch")),
        rect(left, bottom, across, 28, fill=fill(id, "hatch")),
        path(squeezed, fill=fill(id, "dots")),
        _across(left, right, bottom + 62, bottom + 28, _mm(width)),
        _up(bottom, top, left - 28, left, _mm(gap)),
    )


def _drawn(**sizes: float) -> tuple[float, ...]:
    """Each size in user units: in proportion, but never too small to see."""
    for what, value in sizes.items():
        need(what, value, SMALLEST, LARGEST)
    unit = min(PIXELS_A_MM, SEEN_AT_MOST / max(sizes.values()))
    return tuple(max(unit * value, SEEN_AT_LEAST) for value in sizes.values())


def _mm(value: float) -> str:
    return _("{number:g} mm").format(number=round(value, 3))


def _cut(id: str, title: str, description: str, frame: Frame, *parts: str) -> str:
    left, top, right, bottom = (frame[0] - EDGE, frame[1] - EDGE, frame[2] + EDGE, frame[3] + EDGE)
    hatched = patterns(id, "hatch", "dots")
    return picture(id, title, description, (right - left, bottom - top), hatched, *parts, corner=(left, top))


def _around(half: float, top: float) -> Frame:
    """The frame of a bead that lies on a panel and has its dimension above it."""
    return CENTRE - half - BESIDE, top, CENTRE + half + BESIDE, FLOOR + THICK


def _beside(x: float, value: float) -> float:
    """How far to the left the words of a dimension line at `x` reach."""
    return x - 12 - SIGN * len(_mm(value))


def _panel(id: str, half: float) -> str:
    return rect(CENTRE - half - BESIDE, FLOOR, 2 * (half + BESIDE), THICK, fill=fill(id, "hatch"))


def _across(left: float, right: float, y: float, edge: float, text: str) -> str:
    """A dimension line at the height `y`, its guide lines coming from `edge`."""
    above = -1 if y < edge else 1
    guides = "".join(line((x, edge), (x, y + 6 * above), stroke_width=1) for x in (left, right))
    middle = (left + right) / 2
    arrows = _arrow((left, y), (middle, y)) + _arrow((right, y), (middle, y))
    return guides + arrows + words((middle, y + 17 * above), text, size=LETTER, bold=True)


def _up(bottom: float, top: float, x: float, edge: float, text: str) -> str:
    """A dimension line at `x`, to the left of the shape, its guide lines coming from `edge`."""
    guides = "".join(line((edge, y), (x - 6, y), stroke_width=1) for y in (bottom, top))
    middle = (bottom + top) / 2
    arrows = _arrow((x, bottom), (x, middle)) + _arrow((x, top), (x, middle))
    return guides + arrows + words((x - 12, middle), text, size=LETTER, anchor="end", bold=True)


def _arrow(tip: Point, tail: Point) -> str:
    """Half a dimension line: a stroke from the middle to a small head at the tip."""
    length = abs(tail[0] - tip[0]) + abs(tail[1] - tip[1])
    along = ((tail[0] - tip[0]) / length, (tail[1] - tip[1]) / length)
    back = (tip[0] + 9 * along[0], tip[1] + 9 * along[1])
    sides = ((back[0] - 4 * along[1], back[1] + 4 * along[0]), (back[0] + 4 * along[1], back[1] - 4 * along[0]))
    return line(tip, tail, stroke_width=1) + polygon((tip, *sides), fill=INK, stroke="none")
