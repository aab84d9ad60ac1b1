"""Mastery: what a person's answers to a topic say about knowing it, and when it is due again."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from quizkit.pack.scheme import Practice


@dataclass(frozen=True, slots=True)
class Mastery:
    """Where a person is with a topic.

    `known`: the chance (0 to 1) of knowing it. `met`: answers so far. `level`: refreshers answered right in a row.
    `due`: when it comes again; None until it is solid.
    """

    known: float
    met: int = 0
    level: int = 0
    due: dt.datetime | None = None
    solid: bool = False


def learned(known: float, right: bool, practice: Practice) -> float:
    """The chance of knowing a topic after one more answer.

    Bayes' rule on the answer, then the chance of having learned it from the answer: Corbett and Anderson, 'Knowledge
    tracing', User Modeling and User-Adapted Interaction 4 (1995). An answer that the parameters call impossible (wrong
    from someone who knows and never slips) changes nothing but the learning.
    """
    slips, guesses = float(practice.slips), float(practice.guesses)
    knew, guessed = (1 - slips, guesses) if right else (slips, 1 - guesses)
    chance = known * knew + (1 - known) * guessed
    now = known * knew / chance if chance else known
    return now + (1 - now) * float(practice.learns)


def mastery(
    answers: Iterable[tuple[dt.datetime, bool]],
    practice: Practice,
    gaps: Sequence[dt.timedelta],
    lapse: dt.datetime | None = None,
) -> Mastery:
    """What a person's answers to a topic (moment and whether right, in order) come to.

    Once solid, the topic comes again after the first of `gaps`; a right answer to a refresher that was due moves on to
    the next gap, a wrong one goes back to the first. A refresher comes at the latest one first gap before a lapse,
    unless the topic was answered since then.
    """
    now, last = Mastery(float(practice.known)), None
    for moment, right in answers:
        now, last = _after(now, moment, right, practice, gaps), moment
    if now.due is None or last is None or lapse is None or last >= lapse - gaps[0]:
        return now
    return Mastery(now.known, now.met, now.level, min(now.due, lapse - gaps[0]), now.solid)


def _after(now: Mastery, moment: dt.datetime, right: bool, practice: Practice, gaps: Sequence[dt.timedelta]) -> Mastery:
    known = learned(now.known, right, practice)
    solid = known >= practice.solid
    if not solid:
        return Mastery(known, now.met + 1)
    if not right or now.due is None:
        return Mastery(known, now.met + 1, 0, moment + gaps[0], True)
    if moment < now.due:
        return Mastery(known, now.met + 1, now.level, now.due, True)
    level = min(now.level + 1, len(gaps) - 1)
    return Mastery(known, now.met + 1, level, moment + gaps[level], True)
