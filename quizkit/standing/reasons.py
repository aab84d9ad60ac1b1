"""Why a standing is what it is, kept as data so that each face says it in its language."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
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


TOGETHER = {
    N_("{name} is not cleared"): N_("not cleared: {names}"),
    N_("{name} is not in date"): N_("not in date: {names}"),
    N_("because of {name}"): N_("because of {names}"),
}
"""Reasons that often come in number, and how several of them are said at once."""


def joined(reasons: Iterable[Reason], language: str = "en") -> tuple[str, ...]:
    """Reasons as people read them; those that differ in a name alone are said once, with all the names."""
    kinds: dict[object, list[Reason]] = {}
    for place, reason in enumerate(reasons):
        kinds.setdefault(reason.text if reason.text in TOGETHER else place, []).append(reason)
    return tuple(_at_once(kind, language) for kind in kinds.values())


def _at_once(kind: list[Reason], language: str) -> str:
    if len(kind) == 1:
        return kind[0].words(language)
    # Commas alone: a skill's title may hold an 'and' of its own.
    names = ", ".join(dict(reason.names)["name"] for reason in kind)
    return _(TOGETHER[kind[0].text], language).format(names=names)
