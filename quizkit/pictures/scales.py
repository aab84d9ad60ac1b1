"""Scales to read from: which marks stand on them, how they are drawn, and how a place on one is put into words."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from quizkit.pictures.svg import Point, line, words
from quizkit.words import _, ngettext

Place = Callable[[float, float], Point]
"""Where a value stands on a drawn scale, so many user units off its base line."""


@dataclass(frozen=True, slots=True)
class Scale:
    """A scale from `low` to `high` with a number at every `step` and a small mark at every `small`."""

    low: float
    high: float
    step: float
    small: float

    def marks(self) -> Iterator[tuple[float, int]]:
        """Each marked value, upward, with its rank: 2 with a number, 1 halfway between two numbers, 0 small."""
        gaps = round(self.step / self.small)
        for count in range(math.floor((self.high - self.low) / self.small + 1e-6) + 1):
            place = count % gaps
            yield round(self.low + count * self.small, 9), 2 if place == 0 else 1 if 2 * place == gaps else 0


def scale(low: float, high: float, most: int, gaps: int = 0) -> Scale:
    """A scale with at most so many numbered gaps, a round number of units (1, 2 or 5 of some ten) apart.

    Between two numbers lie `gaps` small gaps, or without it 4 or 5, whichever gives round marks.
    """
    rough = (high - low) / most
    ten = 10.0 ** math.floor(math.log10(rough))
    lead = next(lead for lead in (1, 2, 5, 10) if lead * ten >= rough * (1 - 1e-9))
    step = round(lead * ten, 9)
    return Scale(low, high, step, round(step / (gaps or (4 if lead == 2 else 5)), 9))


def draw(marked: Scale, place: Place, *, short: float, long: float, number: float | None, size: float = 15) -> str:
    """The marks of a scale and its numbers, their middles at `number` units off the base line; None leaves them out."""
    pieces = []
    for value, rank in marked.marks():
        start, end = place(value, 0), place(value, short + (long - short) * rank / 2)
        pieces.append(line(start, end, stroke_width=2 if rank else 1.2, class_="tick"))
        if rank == 2 and number is not None:
            pieces.append(words(place(value, number), f"{value:g}".replace("-", "−"), size=size, class_="number"))
    return "".join(pieces)


def said(marked: Scale, unit: str) -> str:
    """How a scale is marked, in words."""
    text = _("Numbers run from {low:g} to {high:g} {unit}, {step:g} apart; each small mark is {small:g} {unit}.")
    return text.format(low=marked.low, high=marked.high, step=marked.step, small=marked.small, unit=unit)


def spoken(marked: Scale, value: float) -> str:
    """Where a value stands on a scale, told by its marks, so that reading it stays the listener's work."""
    smalls, tenths = divmod(round((value - marked.low) / marked.small * 10), 10)
    count, whole = divmod(smalls, round(marked.step / marked.small))
    number = round(marked.low + count * marked.step, 9)
    if whole == 0 and tenths == 0:
        return _("right at the number {number:g}").format(number=number)
    if tenths == 0:
        text = ngettext(
            "{n} small mark past the number {number:g}", "{n} small marks past the number {number:g}", whole
        )
    elif whole == 0:
        text = _("past the number {number:g}, but only {tenths}/10 of the way to the first small mark after it")
    else:
        text = ngettext(
            "{n} small mark past the number {number:g}, and {tenths}/10 of the way to the next mark",
            "{n} small marks past the number {number:g}, and {tenths}/10 of the way to the next mark",
            whole,
        )
    return text.format(n=whole, number=number, tenths=tenths)
