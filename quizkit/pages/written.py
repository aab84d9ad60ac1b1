"""What was typed to a question, told in the words of its options instead of their numbers."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Protocol

from markupsafe import Markup, escape


class Option(Protocol):
    """A line to choose, to put in order or to match."""

    @property
    def number(self) -> int: ...

    @property
    def letter(self) -> str: ...

    @property
    def html(self) -> str: ...


class Part(Protocol):
    """A part of a question as it was shown."""

    @property
    def kind(self) -> str: ...

    @property
    def options(self) -> Sequence[Option]: ...

    @property
    def targets(self) -> Sequence[Option]: ...


def written(part: Part, typed: str) -> list[Markup]:
    """An answer line by line: '3' becomes that option, '3 1 2' the options in that order, '1b' the pair.

    A line whose option is not there stays as it was typed; nothing typed gives no line.
    """
    if part.kind == "number":
        return [escape(typed)] if typed else []
    options = {str(option.number): Markup(option.html) for option in part.options}
    if part.kind == "match":
        targets = {option.letter: Markup(option.html) for option in part.targets}
        found = re.findall(r"(\d+) ?([a-z])", typed.lower())
        return [Markup("{}: {}").format(options.get(left, left), targets.get(to, to)) for left, to in found]
    return [options.get(number, escape(number)) for number in re.findall(r"\d+", typed)]
