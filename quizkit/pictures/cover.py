"""Cover of a skill over the weeks ahead: how many people are cleared, against how many the shop wants."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby
from textwrap import wrap

from quizkit.pictures.bounds import FigureError, need_whole
from quizkit.pictures.scales import Scale, draw, scale
from quizkit.pictures.svg import INK, fill, line, patterns, picture, rect, words
from quizkit.words import _

LEFT, RIGHT, TALL = 66.0, 282.0, 128.0
WIDTH, UNDER = 346, 56
HEAD_FITS, HEAD_LINE = 28, 20
"""Characters that fit on a line of the heading, by the widest usual system font, and how far its lines are apart."""
MOST_PEOPLE = 20_000
MOST_WEEKS = 60


@dataclass(frozen=True, slots=True)
class _Plot:
    """Where the bars stand: under a heading of one line or more."""

    marked: Scale
    floor: float

    def height(self, people: float) -> float:
        return self.floor - TALL * people / self.marked.high


def cover_chart(skill: str, weeks: Sequence[tuple[str, int]], wanted: int, *, id: str) -> str:
    """A bar for each run of weeks, `(label, people cleared)`, with the same number; what is missing to `wanted` is a
    hatched box above it.

    The description tells every change of the number, so that nobody needs the bars. Takes 1 to 60 weeks and whole
    people, else FigureError.
    """
    need_whole("wanted", wanted, 0, MOST_PEOPLE)
    if not 1 <= len(weeks) <= MOST_WEEKS:
        text = _("There are {n} weeks; this picture can show 1 to {most}.")
        raise FigureError(text.format(n=len(weeks), most=MOST_WEEKS))
    counts = [need_whole("people", people, 0, MOST_PEOPLE) for _week, people in weeks]
    heading = wrap(_("People cleared: {skill}").format(skill=skill), HEAD_FITS)
    plot = _Plot(_people(max(wanted, *counts, 1)), TALL + 22 + HEAD_LINE * len(heading))
    goal = plot.height(wanted)
    return picture(
        id,
        _("Cover: {skill}").format(skill=skill),
        _told(weeks, wanted),
        (WIDTH, plot.floor + UNDER),
        patterns(id, "hatch"),
        *(words((4, 16 + HEAD_LINE * at), text, size=16, anchor="start", bold=True) for at, text in enumerate(heading)),
        *_bars(id, plot, counts, wanted),
        line((LEFT, plot.floor), (RIGHT, plot.floor)),
        line((LEFT, goal), (RIGHT, goal), stroke_dasharray="9 5", class_="wanted"),
        words((RIGHT + 5, goal), _("wanted"), size=14, anchor="start"),
        draw(plot.marked, lambda value, off: (LEFT - off, plot.height(value)), short=6, long=10, number=36, size=15),
        _weeks([week for week, _people_then in weeks], plot.floor),
    )


def _people(most: int) -> Scale:
    """A scale with a number only at whole people."""
    step = max(1.0, scale(0, most, 6).step)
    return Scale(0, step * math.ceil(most / step), step, step)


def _bars(id: str, plot: _Plot, counts: Sequence[int], wanted: int) -> list[str]:
    wide, begun, bars = (RIGHT - LEFT) / len(counts), 0, []
    for people, run in groupby(counts):
        ended = begun + len(list(run))
        bars.append(_bar(id, plot, (LEFT + wide * begun, LEFT + wide * ended), people, wanted))
        begun = ended
    return bars


def _bar(id: str, plot: _Plot, ends: tuple[float, float], people: int, wanted: int) -> str:
    (left, right), top, goal = ends, plot.height(people), plot.height(wanted)
    bar = rect(left, top, right - left, plot.floor - top, fill=INK, fill_opacity=0.3, stroke_width=1, class_="people")
    if people >= wanted:
        return bar
    missing = rect(left, goal, right - left, top - goal, fill=fill(id, "hatch"), stroke_width=1.2, class_="missing")
    return bar + missing


def _weeks(labels: Sequence[str], floor: float) -> str:
    """As many of the weeks' labels as have room, from the first on."""
    wide = (RIGHT - LEFT) / len(labels)
    room = 9 * max(map(len, labels)) + 10
    every = max(1, math.ceil(room / wide))
    pieces = []
    for place in range(0, len(labels), every):
        x = LEFT + wide * (place + 0.5)
        pieces += [line((x, floor), (x, floor + 8), stroke_width=1.2), words((x, floor + 22), labels[place], size=15)]
    pieces.append(words(((LEFT + RIGHT) / 2, floor + 44), _("week of"), size=15))
    return "".join(pieces)


def _told(weeks: Sequence[tuple[str, int]], wanted: int) -> str:
    runs = [(next(run)[0], people) for people, run in groupby(weeks, key=lambda week: week[1])]
    changes = "; ".join(_("from {week}: {people}").format(week=week, people=people) for week, people in runs)
    under = sum(people < wanted for _week, people in weeks)
    text = _("People cleared in {n} weeks, {wanted} wanted. {changes}. Weeks with too few: {under}.")
    return text.format(n=len(weeks), wanted=wanted, changes=changes, under=under)
