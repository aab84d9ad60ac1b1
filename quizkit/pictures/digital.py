"""A digital scale: its digits are shapes, so that the reading is seen and nowhere written."""

from __future__ import annotations

from fractions import Fraction

from quizkit.arith import nearest, settle
from quizkit.pictures.bounds import FigureError, need
from quizkit.pictures.svg import INK, Point, line, path, picture, polygon, rect, words
from quizkit.words import _

SMALLEST_STEP, LARGEST_STEP = 0.001, 100
MOST_GRAMS = 10_000
MOST_DIGITS = 7

CELL, WIDE, TALL, THICK = 40.0, 26.0, 48.0, 6.0
"""Distance from digit to digit, a digit's width and height, and how thick a segment is."""

SEGMENTS = {
    "0": "abcdef",
    "1": "bc",
    "2": "abged",
    "3": "abgcd",
    "4": "fgbc",
    "5": "afgcd",
    "6": "afgedc",
    "7": "abc",
    "8": "abcdefg",
    "9": "abcdfg",
    "-": "g",
}
"""Which of the seven segments are lit: a at the top, then clockwise b to f, g in the middle."""


def scale_reading(grams: float, step: float, *, id: str) -> str:
    """A digital scale that shows `grams` rounded to its `step`, both in g; a half goes away from zero.

    No word of it depends on `grams`; `step` stands on its plate, as it does on a real scale. Takes a step of 0.001 to
    100 g and a reading of up to seven signs, else FigureError.
    """
    shown = _shown(grams, step)
    description = _(
        "A digital scale with a cup on its pan. The display shows grams in large digits. The plate under it says that "
        "the smallest step is {step:g} g."
    )
    return picture(
        id,
        _("Digital scale"),
        description.format(step=step),
        (440, 270),
        path("M168 30L180 92H260L272 30Z"),
        line((160, 30), (280, 30), stroke_width=3),
        rect(90, 92, 260, 10, fill=INK),
        path("M200 102V122M240 102V122"),
        path("M50 122H390L410 250H30Z"),
        rect(58, 136, 324, 74),
        _digits(shown),
        words((366, 190), "g", size=26, bold=True),
        words((220, 231), _("smallest step {step:g} g").format(step=step), size=15),
    )


def say_scale_reading(grams: float, step: float) -> str:
    """What a trainer reads out to someone who cannot see the display: its signs one by one, as they stand there."""
    names = {".": _("point"), "-": _("minus")}
    signs = ", ".join(names.get(sign, sign) for sign in _shown(grams, step))
    return _("The display says: {signs}. It is in grams.").format(signs=signs)


def _shown(grams: float, step: float) -> str:
    need("step", step, SMALLEST_STEP, LARGEST_STEP)
    need("grams", grams, -MOST_GRAMS, MOST_GRAMS)
    exact = settle(step)
    places = next((places for places in range(4) if (exact * 10**places).denominator == 1), None)
    if places is None:
        raise FigureError(_("step is {step:g}; a scale's step has at most three decimals.").format(step=step))
    value = Fraction(nearest(grams, exact))
    whole, rest = divmod(int(abs(value) * 10**places), 10**places)
    shown = ("-" if value < 0 else "") + str(whole) + (f".{rest:0{places}}" if places else "")
    if len(shown.replace(".", "")) > MOST_DIGITS:
        text = _("grams is {grams:g} in steps of {step:g}; the display has room for {most} signs.")
        raise FigureError(text.format(grams=grams, step=step, most=MOST_DIGITS))
    return shown


def _digits(shown: str) -> str:
    x = 350 - CELL * sum(sign != "." for sign in shown)
    pieces = []
    for sign in shown:
        if sign == ".":
            dot = ((x - 10, 198), (x - 5, 198), (x - 5, 193), (x - 10, 193))
            pieces.append(polygon(dot, fill=INK, stroke="none", class_="point"))
            continue
        pieces += [
            polygon(_segment(name, x, 148), fill=INK, stroke="none", class_="segment") for name in SEGMENTS[sign]
        ]
        x += CELL
    return "".join(pieces)


def _segment(name: str, x: float, y: float) -> tuple[Point, ...]:
    """The six corners of a segment in the digit whose upper left corner is given."""
    half, middle, right, gap = THICK / 2, y + TALL / 2, x + WIDE, 1.0
    level = {"a": y, "g": middle, "d": y + TALL}
    if name in level:
        left, end, at = x + gap, right - gap, level[name]
        return (
            (left, at),
            (left + half, at - half),
            (end - half, at - half),
            (end, at),
            (end - half, at + half),
            (left + half, at + half),
        )
    at = right if name in "bc" else x
    top = (y if name in "bf" else middle) + gap
    end = top + TALL / 2 - 2 * gap
    return (
        (at, top),
        (at + half, top + half),
        (at + half, end - half),
        (at, end),
        (at - half, end - half),
        (at - half, top + half),
    )
