"""Backticks and dashes in a piece of text: code spans, and the separator before feedback."""

from __future__ import annotations

import re
from dataclasses import dataclass

from quizkit.authoring.source import Stretch

_TICKS = re.compile(r"\\`|`+")
_SEPARATOR = re.compile(r"[ \t\n](?:--|–|—)(?:[ \t\n]|$)")


@dataclass(frozen=True, slots=True)
class Span:
    """One code span: where it begins and ends in its text, backticks in, and what stands between them."""

    start: int
    end: int
    inner: Stretch


def code_spans(stretch: Stretch) -> tuple[tuple[Span, ...], int | None]:
    """The code spans of a text in order, and where the first backtick stands that has no partner (or None)."""
    if "`" not in stretch.text:
        return (), None
    if "``" not in stretch.text and "\\`" not in stretch.text:
        return _single(stretch)
    spans: list[Span] = []
    runs = list(_TICKS.finditer(stretch.text))
    position, stray = 0, None
    while position < len(runs):
        run = runs[position]
        position += 1
        if run.group()[0] == "\\":
            continue
        partner = next((n for n in range(position, len(runs)) if _ticks(runs[n]) == len(run.group())), None)
        if partner is None:
            stray = run.start() if stray is None else stray
            continue
        end = runs[partner].end()
        inner = stretch.cut(run.end(), end - len(run.group()))
        spans.append(Span(run.start(), end, inner.strip()))
        position = partner + 1
    return tuple(spans), stray


def _single(stretch: Stretch) -> tuple[tuple[Span, ...], int | None]:
    """The code spans of a text whose backticks stand alone, as nearly all do."""
    spans: list[Span] = []
    start = stretch.text.find("`")
    while start >= 0:
        end = stretch.text.find("`", start + 1)
        if end < 0:
            return tuple(spans), start
        spans.append(Span(start, end + 1, stretch.cut(start + 1, end).strip()))
        start = stretch.text.find("`", end + 1)
    return tuple(spans), None


def _ticks(run: re.Match[str]) -> int:
    """How many backticks a run closes with; inside a span a backslash is a backslash."""
    return len(run.group().lstrip("\\"))


def parted(stretch: Stretch) -> tuple[Stretch, Stretch | None]:
    """The text before the first separator outside backticks, and what follows it (None without a separator)."""
    found = _SEPARATOR.search(stretch.text)
    spans = code_spans(stretch)[0] if found else ()
    for found in _SEPARATOR.finditer(stretch.text):
        if not any(span.start <= found.start() < span.end for span in spans):
            return stretch.cut(0, found.start()).strip(), stretch.cut(found.end()).strip()
    return stretch.strip(), None
