"""Shares right, question by question: a mark for the share, a stroke for where it may as well be."""

from __future__ import annotations

from collections.abc import Sequence

from quizkit.pictures.bounds import FigureError, need
from quizkit.pictures.svg import INK, circle, line, picture, words
from quizkit.words import _

LEFT, RIGHT, TOP, ROW = 190.0, 440.0, 40.0, 26.0
MOST = 120
LONGEST = 19
"""Signs of a name that have room beside the chart."""


def shares_chart(rows: Sequence[tuple[str, float, float, float]], *, id: str) -> str:
    """Each `(name, share right, low, high)` as a dot on a stroke from low to high; shares from 0 to 1.

    Takes 1 to 120 rows with low ≤ share ≤ high, else FigureError.
    """
    if not 1 <= len(rows) <= MOST:
        raise FigureError(
            _("There are {n} questions; this picture can show 1 to {most}.").format(n=len(rows), most=MOST)
        )
    for _name, share, low, high in rows:
        need("low", low, 0, share)
        need("share", share, 0, 1)
        need("high", high, share, 1)
    floor = TOP + ROW * len(rows)
    told = "; ".join(_("{name}: {share:.0%}").format(name=name, share=share) for name, share, _low, _high in rows)
    return picture(
        id,
        _("Share right"),
        _(
            "How many had each question right, with the range in which the true share lies 19 times of 20. {told}."
        ).format(told=told),
        (470, floor + 12),
        *(_mark(tenth) for tenth in (0.0, 0.25, 0.5, 0.75, 1.0)),
        *(line((_at(tenth), TOP - 8), (_at(tenth), floor), stroke_width=0.6) for tenth in (0.0, 0.25, 0.5, 0.75, 1.0)),
        *(_row(place, *row) for place, row in enumerate(rows)),
    )


def _at(share: float) -> float:
    return LEFT + (RIGHT - LEFT) * share


def _mark(share: float) -> str:
    return words((_at(share), TOP - 22), f"{share:.0%}", size=15)


def _row(place: int, name: str, share: float, low: float, high: float) -> str:
    y = TOP + ROW * (place + 0.5)
    short = name if len(name) <= LONGEST else f"{name[: LONGEST - 1]}…"
    return (
        words((LEFT - 12, y), short, size=15, anchor="end")
        + line((_at(low), y), (_at(high), y), stroke_width=3, stroke_opacity=0.55, class_="range")
        + circle((_at(share), y), 6, fill=INK, class_="share")
    )
