"""Why a standing is what it is, kept as data so that each face says it in its language."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from quizkit.words import _


def N_(text: str) -> str:
    """Marks a text for the catalogue."""
    return text


@dataclass(frozen=True, slots=True)
class Reason:
    """One reason: a text of the catalogue with its names, and the day it turns on (None where there is none)."""

    text: str
    names: tuple[tuple[str, str], ...] = ()
    day: dt.date | None = None

    def words(self, language: str = "en") -> str:
        """The reason as people read it, without its day."""
        return _(self.text, language).format(**dict(self.names))
