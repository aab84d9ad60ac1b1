"""The known word that a typo most likely meant."""

from __future__ import annotations

from collections.abc import Iterable

from quizkit.words import _


def distance(a: str, b: str, limit: int = 3) -> int:
    """Letters to put in, leave out, change, or swap with a neighbour, to make `b` of `a`.

    Anything beyond `limit` comes back as `limit + 1`.
    """
    if abs(len(a) - len(b)) > limit:
        return limit + 1
    before: list[int] = []
    row = list(range(len(b) + 1))
    for i, letter in enumerate(a, 1):
        last, before, row = before, row, [i]
        for j, other in enumerate(b, 1):
            cost = min(before[j] + 1, row[j - 1] + 1, before[j - 1] + (letter != other))
            if i > 1 and j > 1 and letter == b[j - 2] and a[i - 2] == other:
                cost = min(cost, last[j - 2] + 1)
            row.append(cost)
        if min(row) > limit:
            return limit + 1
    return min(row[-1], limit + 1)


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The closest known word, or None where nothing is close: a third of the letters may differ."""
    word = word[:60]
    limit = max(1, min(3, len(word) // 3))
    best: tuple[int, str] | None = None
    for candidate in sorted(known):
        found = distance(word.lower(), candidate.lower(), limit)
        if found <= limit and (best is None or found < best[0]):
            best = (found, candidate)
    return best[1] if best else None


def did_you_mean(word: str, known: Iterable[str]) -> str:
    """A mend that names the nearest known word, or else lists what is known (at most twelve)."""
    words = sorted(known)
    found = nearest(word, words)
    if found:
        return _("did you mean '{word}'?").format(word=found)
    listed = ", ".join(words[:12]) + (", …" if len(words) > 12 else "")
    return _("known here: {words}").format(words=listed) if words else ""
