"""What a picture refuses to draw, said so that an author can mend it."""

from __future__ import annotations

import math

from quizkit.words import _


class FigureError(ValueError):
    """A number that a picture cannot show; the message names it, what came and what would do."""


def need(what: str, value: float, low: float, high: float) -> float:
    """The value when it lies between `low` and `high`, both included; else FigureError."""
    if not math.isfinite(value) or not low <= value <= high:
        text = _("{what} is {value:g}; this picture can show {low:g} to {high:g}.")
        raise FigureError(text.format(what=what, value=value, low=low, high=high))
    return float(value)


def need_whole(what: str, value: float, low: int, high: int) -> int:
    """The value as a whole number between `low` and `high`, both included; else FigureError."""
    need(what, value, low, high)
    if value != int(value):
        raise FigureError(_("{what} is {value:g}; it has to be a whole number.").format(what=what, value=value))
    return int(value)
