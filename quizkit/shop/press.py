"""The one thing to press: where a line of a page leads."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Press:
    """A press: its words, and where it leads.

    `kind` is "check", "practice", "lesson", "result", "sheet" or "module"; of the rest only what the kind needs is set.
    """

    label: str
    kind: str
    skill: str = ""
    lesson: str = ""
    form: int = 0
    question: str = ""
