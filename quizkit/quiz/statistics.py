"""What the answers say about a check and its questions: classical test theory, in plain formulas.

A form is a mapping from question to the marks got. Forms need not hold the same questions: each question's figures are
taken over the forms that asked it. One variance divisor throughout: the number of forms, not one less. A figure that
the answers cannot give (too few forms, nothing varies) is None.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from quizkit.words import _

Form = Mapping[str, float]

Z_95 = 1.959963984540054
"""The normal quantile of a two-sided interval of 95 %."""


class StatisticsError(ValueError):
    """Numbers that no figure can be made of; the text says which."""


@dataclass(frozen=True, slots=True)
class Consistency:
    """How far two forms of a check would agree on passing: share of same decisions, and kappa beyond chance."""

    agreement: float
    kappa: float


@dataclass(frozen=True, slots=True)
class Cut:
    """A pass mark by judges: marks to pass, its standard error, and each judge's own sum."""

    marks: float
    error: float
    judges: tuple[tuple[str, float], ...]


def mean(values: Sequence[float]) -> float:
    """The mean of at least one value."""
    return math.fsum(values) / len(values)


def variance(values: Sequence[float]) -> float:
    """The mean squared distance from the mean, over at least one value."""
    middle = mean(values)
    return math.fsum((value - middle) ** 2 for value in values) / len(values)


def totals(forms: Sequence[Form]) -> list[float]:
    """The marks of each form."""
    return [math.fsum(form.values()) for form in forms]


def correlation(one: Sequence[float], other: Sequence[float]) -> float | None:
    """Pearson's correlation; None where either does not vary."""
    spread = math.sqrt(variance(one) * variance(other)) if one else 0.0
    if spread < 1e-12:
        return None
    middle, centre = mean(one), mean(other)
    return math.fsum((a - middle) * (b - centre) for a, b in zip(one, other, strict=True)) / len(one) / spread


def item_rest(forms: Sequence[Form], question: str) -> float | None:
    """The correlation of a question's marks with the marks of the rest of the form.

    Formula: r(x_i, X − x_i). Source: classical test theory, the corrected item-total correlation.
    """
    asked = [form for form in forms if question in form]
    marks = [form[question] for form in asked]
    return correlation(marks, [total - own for total, own in zip(totals(asked), marks, strict=True)])


def kr20(forms: Sequence[Form]) -> float | None:
    """How well a check's marks hang together: KR-20 for questions of one mark, Cronbach's alpha for any.

    Formula: k/(k − 1) · (1 − Σ var(x_i) / var(X)). Source: Kuder and Richardson 1937, Cronbach 1951. Where forms hold
    different questions, k and Σ var(x_i) are their means over the forms.
    """
    if len(forms) < 2:
        return None
    spread = {question: variance(marks) for question, marks in _by_question(forms).items()}
    whole = variance(totals(forms))
    count = mean([len(form) for form in forms])
    if count <= 1 or whole < 1e-12:
        return None
    parts = mean([math.fsum(spread[question] for question in form) for form in forms])
    return count / (count - 1) * (1 - parts / whole)


def kr21(marks: Sequence[float], out_of: int) -> float | None:
    """KR-20's estimate from the marks of whole forms alone, taking all questions as equally hard.

    Formula: k/(k − 1) · (1 − M (k − M) / (k · var(X))). Source: Kuder and Richardson 1937.
    """
    if len(marks) < 2 or out_of < 2 or variance(marks) < 1e-12:
        return None
    middle = mean(marks)
    return out_of / (out_of - 1) * (1 - middle * (out_of - middle) / (out_of * variance(marks)))


def standard_error(marks: Sequence[float], reliability: float) -> float:
    """The standard error of a form's marks: the spread of the marks one person would get on many such forms.

    Formula: s · √(1 − reliability). Source: classical test theory.
    """
    return math.sqrt(variance(marks) * max(0.0, 1 - reliability))


def wilson(right: int, asked: int, z: float = Z_95) -> tuple[float, float]:
    """The interval of a share, both ends from 0 to 1.

    Formula: (p + z²/2n ± z √(p(1 − p)/n + z²/4n²)) / (1 + z²/n). Source: NIST/SEMATECH e-Handbook of Statistical
    Methods, 7.2.4.1. Raises StatisticsError where nothing was asked or more was right than asked.
    """
    if asked < 1 or not 0 <= right <= asked:
        raise StatisticsError(_("{right} right of {asked} is no share").format(right=right, asked=asked))
    share, square = right / asked, z * z / asked
    half = z * math.sqrt(share * (1 - share) / asked + square / (4 * asked))
    low, high = (share + square / 2 - half) / (1 + square), (share + square / 2 + half) / (1 + square)
    return (0.0 if right == 0 else low), (1.0 if right == asked else high)


def decision_consistency(marks: Sequence[float], out_of: int, cut: int) -> Consistency | None:
    """How consistently a check of `out_of` marks passes and fails at a cut (marks needed to pass).

    The marks are taken as beta-binomial with the mean and KR-21 of the forms; two forms of one person share one
    ability. Source: Huynh, Journal of Educational Measurement 13 (1976). None where KR-21 is not above 0.
    """
    reliability = kr21(marks, out_of)
    if reliability is None or reliability <= 0 or reliability >= 1:
        return None
    alpha = (1 / reliability - 1) * mean(marks)
    beta = out_of / reliability - out_of - alpha
    if alpha <= 0 or beta <= 0:
        return None
    ways = [math.lgamma(out_of + 1) - math.lgamma(x + 1) - math.lgamma(out_of - x + 1) for x in range(out_of + 1)]

    def both(x: int, y: int) -> float:
        joint = _log_beta(alpha + x + y, beta + 2 * out_of - x - y)
        return math.exp(ways[x] + ways[y] + joint - _log_beta(alpha, beta))

    below = range(min(max(cut, 0), out_of + 1))
    fails_twice = math.fsum(both(x, y) for x in below for y in below)
    fails = math.fsum(
        math.exp(ways[x] + _log_beta(alpha + x, beta + out_of - x) - _log_beta(alpha, beta)) for x in below
    )
    agreement = 1 - 2 * fails + 2 * fails_twice
    chance = fails**2 + (1 - fails) ** 2
    return Consistency(agreement, (agreement - chance) / (1 - chance) if chance < 1 else 0.0)


def angoff(ratings: Mapping[str, Sequence[float]]) -> Cut:
    """A pass mark from judges: each rates, question by question, the chance that a just-fit person gets it right.

    Formula: the mean of the judges' sums; its standard error is their spread (one less as divisor) over √judges.
    Source: Angoff's method, as modified. Raises StatisticsError for no judge, unequal counts or a
    chance outside 0 to 1.
    """
    if not ratings or len({len(own) for own in ratings.values()}) != 1 or not next(iter(ratings.values())):
        raise StatisticsError(_("every judge rates every question, and there is at least one of each"))
    for judge, own in ratings.items():
        if not all(0 <= chance <= 1 for chance in own):
            raise StatisticsError(_("a rating of {judge} is no chance from 0 to 1").format(judge=judge))
    sums = {judge: math.fsum(own) for judge, own in ratings.items()}
    count = len(sums)
    spread = math.sqrt(variance(list(sums.values())) * count / (count - 1)) if count > 1 else 0.0
    return Cut(mean(list(sums.values())), spread / math.sqrt(count), tuple(sums.items()))


def _by_question(forms: Sequence[Form]) -> dict[str, list[float]]:
    found: dict[str, list[float]] = {}
    for form in forms:
        for question, marks in form.items():
            found.setdefault(question, []).append(marks)
    return found


def _log_beta(a: float, b: float) -> float:
    return math.lgamma(a) + math.lgamma(b) - math.lgamma(a + b)
