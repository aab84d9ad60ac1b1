"""Cover of a skill over the weeks ahead: how many people are cleared, against how many the shop wants."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import groupby

from quizkit.pictures.bounds import FigureError, need_whole
from quizkit.pictures.scales import Scale, draw, scale
from quizkit.pictures.svg import INK, fill, line, patterns, picture, rect, words
from quizkit.words import _

LEFT, RIGHT, TOP, FLOOR = 52.0, 284.0, 42.0, 170.0
SIZE = (346, 226)
MOST_PEOPLE = 20_000
MOST_WEEKS = 60


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
    marked = _people(max(wanted, *counts, 1))
    goal = _height(marked, wanted)
    return picture(
        id,
        _("Cover: {skill}").format(skill=skill),
        _told(weeks, wanted),
        SIZE,
        patterns(id, "hatch"),
        words((4, 16), _("People cleared: {skill}").format(skill=skill), size=16, anchor="start", bold=True),
        *_bars(id, marked, counts, wanted),
        line((LEFT, FLOOR), (RIGHT, FLOOR)),
        line((LEFT, goal), (RIGHT, goal), stroke_dasharray="9 5", class_="wanted"),
        words((RIGHT + 6, goal), _("wanted"), size=15, anchor="start"),
        draw(marked, lambda value, off: (LEFT - off, _height(marked, value)), short=6, long=10, number=34, size=15),
        _weeks([week for week, _people_then in weeks]),
    )


def _people(most: int) -> Scale:
    """A scale with a number only at whole people."""
    step = max(1.0, scale(0, most, 6).step)
    return Scale(0, step * math.ceil(most / step), step, step)


def _height(marked: Scale, people: float) -> float:
    return FLOOR - (FLOOR - TOP) * people / marked.high


def _bars(id: str, marked: Scale, counts: Sequence[int], wanted: int) -> list[str]:
    wide, begun, bars = (RIGHT - LEFT) / len(counts), 0, []
    for people, run in groupby(counts):
        ended = begun + len(list(run))
        bars.append(_bar(id, marked, (LEFT + wide * begun, LEFT + wide * ended), people, wanted))
        begun = ended
    return bars


def _bar(id: str, marked: Scale, ends: tuple[float, float], people: int, wanted: int) -> str:
    (left, right), top, goal = ends, _height(marked, people), _height(marked, wanted)
    bar = rect(left, top, right - left, FLOOR - top, fill=INK, fill_opacity=0.3, stroke_width=1, class_="people")
    if people >= wanted:
        return bar
    missing = rect(left, goal, right - left, top - goal, fill=fill(id, "hatch"), stroke_width=1.2, class_="missing")
    return bar + missing


def _weeks(labels: Sequence[str]) -> str:
    """As many of the weeks' labels as have room, from the first on."""
    wide = (RIGHT - LEFT) / len(labels)
    room = 9 * max(map(len, labels)) + 10
    every = max(1, math.ceil(room / wide))
    pieces = []
    for place in range(0, len(labels), every):
        x = LEFT + wide * (place + 0.5)
        pieces += [line((x, FLOOR), (x, FLOOR + 8), stroke_width=1.2), words((x, FLOOR + 22), labels[place], size=15)]
    pieces.append(words(((LEFT + RIGHT) / 2, FLOOR + 48), _("week of"), size=15))
    return "".join(pieces)


def _told(weeks: Sequence[tuple[str, int]], wanted: int) -> str:
    runs = [(next(run)[0], people) for people, run in groupby(weeks, key=lambda week: week[1])]
    changes = "; ".join(_("from {week}: {people}").format(week=week, people=people) for week, people in runs)
    under = sum(people < wanted for _week, people in weeks)
    text = _("People cleared in {n} weeks, {wanted} wanted. {changes}. Weeks with too few: {under}.")
    return text.format(n=len(weeks), wanted=wanted, changes=changes, under=under)
