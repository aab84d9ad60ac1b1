"""The nine hazard signs of the GHS: what is drawn on them, named by its shape and never by what it means."""

from __future__ import annotations

from quizkit.pictures import symbols
from quizkit.pictures.svg import picture, polygon
from quizkit.words import _

SIZE = (240.0, 240.0)
PAPER, INK, FRAME = "#ffffff", "#000000", "#c8102e"
"""A sign keeps its colours on any page (GHS Rev. 9, 1.4.10.4.2.2: black symbol, white ground, red frame; memory)."""


def ghs_flame(*, id: str) -> str:
    """The sign with a flame."""
    return _sign(id, _("a flame over a line"), symbols.flame())


def ghs_exclamation(*, id: str) -> str:
    """The sign with an exclamation mark."""
    return _sign(id, _("an exclamation mark"), symbols.exclamation())


def ghs_health(*, id: str) -> str:
    """The sign with a star on a chest."""
    return _sign(id, _("head and chest of a person, with a white star on the chest"), symbols.health())


def ghs_corrosion(*, id: str) -> str:
    """The sign with a hand and a bar being eaten away."""
    return _sign(id, _("two tubes dripping, one on a hand and one on a bar, both eaten away"), symbols.corrosion())


def ghs_oxidiser(*, id: str) -> str:
    """The sign with a flame over a circle."""
    return _sign(id, _("a flame over a circle, on a line"), symbols.oxidiser())


def ghs_skull(*, id: str) -> str:
    """The sign with skull and crossbones."""
    return _sign(id, _("a skull over two crossed bones"), symbols.skull())


def ghs_gas(*, id: str) -> str:
    """The sign with a gas cylinder."""
    return _sign(id, _("a long bottle with a short neck, lying at a slant"), symbols.gas())


def ghs_bomb(*, id: str) -> str:
    """The sign with an exploding bomb."""
    return _sign(id, _("a ball that bursts, with pieces flying off"), symbols.bomb())


def ghs_environment(*, id: str) -> str:
    """The sign with a dead tree and a dead fish."""
    return _sign(id, _("a bare tree and a fish with its belly up"), symbols.environment())


def _sign(id: str, what: str, symbol: str) -> str:
    """The square on its corner; a thin outer line in the page's ink sets the red frame off from a dark page."""
    description = _("A square standing on one corner, with a red frame. In it, in black: {what}.")
    return picture(
        id,
        _("Hazard sign"),
        description.format(what=what),
        SIZE,
        polygon(_square(117), fill=FRAME, stroke_width=2),
        polygon(_square(101), fill=PAPER, stroke="none"),
        symbol,
    )


def _square(reach: float) -> tuple[tuple[float, float], ...]:
    return ((120, 120 - reach), (120 + reach, 120), (120, 120 + reach), (120 - reach, 120))
