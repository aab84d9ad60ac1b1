"""Temperature in the store: a thermometer on the wall, and the log of a month."""

from __future__ import annotations

import math

from quizkit.pictures.bounds import FigureError, need, need_whole
from quizkit.pictures.scales import Scale, draw, said, spoken
from quizkit.pictures.svg import INK, Point, circle, line, path, picture, polygon, polyline, rect, words
from quizkit.words import _

COLDEST, HOTTEST = -40.0, 100.0
LONGEST_LOG = 62
LOG_LEFT, LOG_RIGHT = 58.0, 418.0
CLEAR = 1.0
"""A day is drawn at least so many °C over or under the limit: nearer, its point would sit on the line."""


def thermometer(reading: float, limit: float, *, id: str) -> str:
    """A thermometer whose column stands at `reading` °C, with a wedge at `limit` °C.

    Nothing in its words depends on either number, beyond how far the scale runs. Takes −40 to 100 °C, else FigureError.
    """
    marked = _tube(reading, limit)
    description = _(
        "A thermometer in °C; it is read at the top of the dark column. {marks} A wedge beside the scale marks the "
        "highest storage temperature on the label."
    )
    level, top, bottom = _level(marked, reading), _level(marked, marked.high), _level(marked, marked.low)
    edge = _level(marked, limit)
    column = ((94, level), (106, level), (106, bottom + 30), (94, bottom + 30))
    return picture(
        id,
        _("Thermometer"),
        description.format(marks=said(marked, "°C")),
        (190, 430),
        path(f"M88 {bottom + 30:g}V{top - 6:g}A12 12 0 0 1 112 {top - 6:g}V{bottom + 30:g}"),
        circle((100, bottom + 42), 22, fill=INK),
        polygon(column, fill=INK, stroke="none", class_="column"),
        draw(marked, lambda value, off: (116 + off, _level(marked, value)), short=9, long=17, number=38, size=17),
        polygon(((84, edge), (66, edge - 8), (66, edge + 8)), fill=INK, stroke="none", class_="limit"),
        words((60, edge), _("limit"), size=15, anchor="end"),
        words((154, 14), "°C", size=17, bold=True),
    )


def say_thermometer(reading: float, limit: float) -> str:
    """What a trainer reads out to someone who cannot see the thermometer."""
    marked = _tube(reading, limit)
    text = _("{marks} The column stands {reading}. The limit's wedge stands {limit}.")
    return text.format(marks=said(marked, "°C"), reading=spoken(marked, reading), limit=spoken(marked, limit))


def _tube(reading: float, limit: float) -> Scale:
    both = need("reading", reading, COLDEST, HOTTEST), need("limit", limit, COLDEST, HOTTEST)
    low, high = 10 * math.floor(min(0, *both) / 10), 10 * math.ceil(max(50, *both) / 10)
    return Scale(low, high, 10, 1) if high - low <= 60 else Scale(low, high, 10, 2)


def _level(marked: Scale, value: float) -> float:
    return 350 - 316 * (value - marked.low) / (marked.high - marked.low)


def thermometer_log(days: float, first: float, hot: float, peak: float, limit: float, *, id: str) -> str:
    """One reading a day for `days` days; from day `first` on, `hot` of them over `limit` °C, the hottest at `peak` °C.

    With no hot day the hottest reading is still `peak`, which then lies under the limit. The words tell how many days
    are drawn and nothing of what they show. FigureError when the hot days do not fit or `peak` does not go with them.
    """
    readings = log_readings(days, first, hot, peak, limit)
    marked = _grid(peak, limit)
    points = [_spot(marked, len(readings), day, value) for day, value in enumerate(readings, 1)]
    description = _(
        "A log of the store's temperature, one point a day. {axes} A dashed line marks the limit on the label."
    )
    return picture(
        id,
        _("Temperature log"),
        description.format(axes=_axes(marked, len(readings))),
        (470, 390),
        _ground(marked, len(readings), limit),
        polyline(points, stroke_width=1, stroke_dasharray="1 4"),
        *(circle(point, 4.5, fill=INK, stroke="none", class_="reading") for point in points),
    )


def say_thermometer_log(days: float, first: float, hot: float, peak: float, limit: float) -> str:
    """What a trainer reads out, day by day, to someone who cannot see the log."""
    readings = log_readings(days, first, hot, peak, limit)
    listed = "; ".join(
        _("day {day}: {reading:.1f} °C").format(day=day, reading=value) for day, value in enumerate(readings, 1)
    )
    return _("The limit on the label is {limit:g} °C. The readings, day by day: {listed}.").format(
        limit=limit, listed=listed
    )


_WARM = (0.55, 0.8, 0.65, 0.9)
"""How far a hot day that is not the hottest lies between limit and peak."""

_COOL = (4.5, 3.0, 5.5, 4.0, 6.5, 3.5, 5.0)
"""How many °C the other days lie under the limit: far enough to be seen, uneven as a store's days are."""


def log_readings(days: float, first: float, hot: float, peak: float, limit: float) -> tuple[float, ...]:
    """The readings of a log in °C, day 1 first, made from the few numbers a question draws; see `thermometer_log`."""
    length = need_whole("days", days, 2, LONGEST_LOG)
    warm = need_whole("hot", hot, 0, length)
    start = need_whole("first", first, 1, length - max(warm, 1) + 1)
    need("limit", limit, COLDEST + 20, HOTTEST - 20)
    need("peak", peak, limit - 10, HOTTEST)
    if warm and peak < limit + CLEAR:
        text = _("peak is {peak:g} °C; with days over the limit it has to be {least:g} °C or more, to be seen as over.")
        raise FigureError(text.format(peak=peak, least=limit + CLEAR))
    if not warm and peak > limit - CLEAR:
        text = _(
            "peak is {peak:g} °C; with no day over the limit it has to be {most:g} °C or less, to be seen as under."
        )
        raise FigureError(text.format(peak=peak, most=limit - CLEAR))
    hottest = start + warm // 2
    under = min(limit, peak)
    readings = []
    for day in range(1, length + 1):
        if day == hottest:
            readings.append(float(peak))
        elif start <= day < start + warm:
            readings.append(limit + max(CLEAR, (peak - limit) * _WARM[day % len(_WARM)]))
        else:
            readings.append(under - _COOL[day % len(_COOL)])
    return tuple(readings)


def _grid(peak: float, limit: float) -> Scale:
    return Scale(5 * math.floor(limit / 5) - 15, max(5 * math.ceil(limit / 5) + 15, 5 * math.ceil(peak / 5)), 5, 1)


def _axes(marked: Scale, days: int) -> str:
    text = _("Days run from 1 to {days}, left to right. {marks}")
    return text.format(days=days, marks=said(marked, "°C"))


def _spot(marked: Scale, days: int, day: float, value: float) -> Point:
    share = (value - marked.low) / (marked.high - marked.low)
    return LOG_LEFT + (LOG_RIGHT - LOG_LEFT) * (day - 0.5) / days, 320 - 290 * share


def _ground(marked: Scale, days: int, limit: float) -> str:
    edge = _spot(marked, days, 1, limit)[1]
    pieces = [
        rect(LOG_LEFT, 30, LOG_RIGHT - LOG_LEFT, 290, stroke_width=1.2),
        draw(
            marked,
            lambda value, off: (LOG_LEFT - off, _spot(marked, days, 1, value)[1]),
            short=5,
            long=10,
            number=26,
            size=15,
        ),
        line((LOG_LEFT, edge), (LOG_RIGHT, edge), stroke_width=2.5, stroke_dasharray="10 6", class_="limit"),
        words((LOG_RIGHT + 5, edge), _("limit"), size=15, anchor="start"),
        words((LOG_LEFT - 26, 12), "°C", size=16, bold=True),
        words(((LOG_LEFT + LOG_RIGHT) / 2, 372), _("day"), size=16, bold=True),
    ]
    for day in range(1, days + 1):
        x = _spot(marked, days, day, marked.low)[0]
        numbered = days <= 14 or day == 1 or day % 5 == 0
        pieces.append(line((x, 320), (x, 330 if numbered else 325), stroke_width=1.2))
        if numbered:
            pieces.append(words((x, 344), str(day), size=15, class_="day"))
    return "".join(pieces)
