"""Checks on paper: one to fill in, and apart from it the sheet with which a trainer marks it."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any, Protocol

from quizkit.pack.model import Pack
from quizkit.pages import page
from quizkit.press.static import look, write_page, write_style


class Paper(Protocol):
    """A check that was drawn and recorded before it is printed.

    `items` are questions as a person meets them; `key` has for each the name and the right answer of every part.
    """

    @property
    def number(self) -> int: ...
    @property
    def title(self) -> str: ...
    @property
    def pass_mark(self) -> str: ...
    @property
    def items(self) -> Sequence[Any]: ...
    @property
    def key(self) -> Sequence[Sequence[tuple[str, str]]]: ...


def press_papers(pack: Pack, papers: Sequence[Paper], folder: Path) -> tuple[Path, Path]:
    """Write all checks to one page and all keys to another, a paper a sheet: what to print, and what to lock away."""
    write_style(folder)
    number = papers[0].number
    checks, marking = folder / f"check-{number}.html", folder / f"marking-{number}.html"
    write_page(checks, page("paper_check.html", pack.scheme.language, look=look(pack, ""), papers=papers))
    write_page(marking, page("paper_marking.html", pack.scheme.language, look=look(pack, ""), papers=papers))
    return checks, marking
