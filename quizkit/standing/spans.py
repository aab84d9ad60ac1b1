"""Sets of days as sorted, separate, closed spans."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable

from quizkit.standing.dates import days_after

Span = tuple[dt.date, dt.date]
Spans = tuple[Span, ...]

ALWAYS: Spans = ((dt.date.min, dt.date.max),)


def union(spans: Iterable[Span]) -> Spans:
    """The days that lie in any of the spans; empty spans (end before start) drop out, neighbours join."""
    joined: list[Span] = []
    for start, end in sorted(span for span in spans if span[0] <= span[1]):
        if joined and start <= days_after(joined[-1][1], 1):
            joined[-1] = (joined[-1][0], max(end, joined[-1][1]))
        else:
            joined.append((start, end))
    return tuple(joined)


def common(one: Spans, other: Spans) -> Spans:
    """The days that lie in both."""
    return union((max(a, c), min(b, d)) for a, b in one for c, d in other)


def without(spans: Spans, gaps: Iterable[Span]) -> Spans:
    """The days of `spans` that lie in none of the gaps."""
    left = spans
    for start, end in gaps:
        pieces: list[Span] = []
        for a, b in left:
            if start > dt.date.min:
                pieces.append((a, min(b, days_after(start, -1))))
            if end < dt.date.max:
                pieces.append((max(a, days_after(end, 1)), b))
        left = union(pieces)
    return left


def holding(spans: Spans, day: dt.date) -> Span | None:
    """The span that a day lies in, or None."""
    return next((span for span in spans if span[0] <= day <= span[1]), None)


def last_before(spans: Spans, day: dt.date) -> dt.date | None:
    """The last day of the spans that is at or before a day, or None."""
    ends = [min(end, day) for start, end in spans if start <= day]
    return max(ends, default=None)
