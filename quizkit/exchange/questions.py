"""The statistics of a check's questions as a table: one line a question, figures where there are enough people."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Protocol

from quizkit.exchange.table import Cell, Table
from quizkit.words import _


class Statistics(Protocol):
    """What the view of the statistics tells; the lines hold plain values, as the shop's view names them."""

    @property
    def title(self) -> str: ...
    @property
    def few(self) -> bool: ...
    @property
    def lines(self) -> Sequence[Any]: ...


def questions_table(view: Statistics) -> Table:
    """The questions, those to be looked at first; below the set number of people words alone."""
    title = _("Questions: {title}").format(title=view.title)
    if view.few:
        rows = [(line.question, line.figures.asked, line.figures.words) for line in view.lines]
        return Table(title, (_("Question"), _("Asked"), _("What it says")), tuple(rows))
    heads = (
        _("Question"),
        _("Asked"),
        _("Right %"),
        _("from"),
        _("to"),
        _("With the rest"),
        _("Seconds"),
        _("Taken wrong"),
        _("Look at"),
        _("Too few people"),
    )
    return Table(title, heads, tuple(_row(line.question, line.figures) for line in view.lines))


def _row(question: str, found: Any) -> tuple[Cell, ...]:
    low, high = found.interval or (None, None)
    pulls = "; ".join(f"{pull.name} ({pull.count})" for pull in found.pulls if pull.count)
    return (
        question,
        found.asked,
        _percent(found.share),
        _percent(low),
        _percent(high),
        None if found.rest is None else round(found.rest, 2),
        None if found.seconds is None else round(found.seconds),
        pulls,
        "; ".join(found.flags),
        found.words,
    )


def _percent(share: float | None) -> int | None:
    return None if share is None else round(100 * share)
