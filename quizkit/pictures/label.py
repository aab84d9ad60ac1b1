"""The label on the shelf: a material's name, its ratio large, and what else is to be known before it is taken."""

from __future__ import annotations

from collections.abc import Sequence
from textwrap import wrap

from quizkit.pictures.svg import line, picture, rect, words
from quizkit.words import _

WIDTH, EDGE = 360.0, 20.0
NAME_FITS, ROW_FITS = 26, 34
"""Characters that fit on a line of the name and of a row, by the widest usual system font."""


def shelf_label(name: str, ratio: str, rows: Sequence[tuple[str, str]], *, note: str = "", id: str) -> str:
    """A label with `name` on top, `ratio` large, then each row as a word on the left and its value on the right.

    Long texts run on to further lines and nothing is cut off. `note` stands at the foot.
    """
    pieces: list[str] = []
    y = 16.0
    for piece in wrap(name, NAME_FITS) or [""]:
        pieces.append(words((EDGE, y + 16), piece, size=22, anchor="start", bold=True))
        y += 28
    for piece in wrap(ratio, 16) or [""]:
        pieces.append(words((EDGE, y + 22), piece, size=36, anchor="start", bold=True))
        y += 44
    y += 6
    for word, value in rows:
        drawn, y = _row(word, value, y)
        pieces.append(drawn)
    for piece in wrap(note, ROW_FITS + 8):
        pieces.append(words((EDGE, y + 18), piece, size=14, anchor="start"))
        y += 20
    height = y + 24
    frame = rect(2, 2, WIDTH - 4, height - 8, stroke_width=3)
    shelf = line((0, height - 4), (WIDTH, height - 4), stroke_width=8)
    return picture(id, _("Shelf label"), _told(name, ratio, rows, note), (WIDTH, height), frame, shelf, *pieces)


def _row(word: str, value: str, y: float) -> tuple[str, float]:
    """A row from its upper edge, and where the next one begins."""
    pieces = [line((EDGE, y), (WIDTH - EDGE, y), stroke_width=1)]
    left = wrap(word, ROW_FITS) or [""]
    right = wrap(value, ROW_FITS) or [""]
    same = len(left) == len(right) == 1 and len(word) + len(value) < ROW_FITS
    lines = [(left[0], right[0])] if same else [(text, "") for text in left] + [("", text) for text in right]
    for start, end in lines:
        if start:
            pieces.append(words((EDGE, y + 15), start, size=16, anchor="start"))
        if end:
            pieces.append(words((WIDTH - EDGE, y + 15), end, size=16, anchor="end", bold=True))
        y += 24
    return "".join(pieces), y + 5


def _told(name: str, ratio: str, rows: Sequence[tuple[str, str]], note: str) -> str:
    listed = "; ".join(_("{word}: {value}").format(word=word, value=value) for word, value in rows)
    return ". ".join(part for part in (name, ratio, listed, note) if part)
