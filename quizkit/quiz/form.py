"""The form of a check: which questions it asks, drawn by topic, with a critical one of each topic that has any."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from quizkit.quiz.walk import shuffled
from quizkit.words import ngettext


class FormError(ValueError):
    """A form that cannot be drawn from the questions at hand; the text says what is short."""


@dataclass(frozen=True, slots=True)
class Candidate:
    """A question that a check may ask. `met` is how many forms of this person have asked it already."""

    id: str
    topic: str
    critical: bool = False
    marks: int = 1
    met: int = 0


def draw(candidates: Sequence[Candidate], topics: Mapping[str, int], key: bytes) -> tuple[str, ...]:
    """The questions of a form in the order asked; the key decides everything that is left to chance.

    Of each topic as many as asked for, one of them critical where the topic has a critical question. More critical ones
    only where the others do not suffice: each is a fail of its own, whatever the score. Among equals those that this
    person met in fewer forms come first. Raises FormError where a topic has too few.
    """
    chosen: list[str] = []
    for topic, count in topics.items():
        pool = [one for one in shuffled(candidates, key) if one.topic == topic]
        if len(pool) < count:
            raise FormError(_short(topic, len(pool), count))
        pool.sort(key=lambda one: one.met)
        critical = [one for one in pool if one.critical]
        others = [one for one in pool if not one.critical]
        chosen += [one.id for one in (*critical[:1], *others, *critical[1:])[:count]]
    return shuffled(chosen, key)


def _short(topic: str, there: int, count: int) -> str:
    words = ngettext(
        "the topic '{topic}' has {there} question for the check, and the check asks {count}",
        "the topic '{topic}' has {there} questions for the check, and the check asks {count}",
        there,
    )
    return words.format(topic=topic, there=there, count=count)
