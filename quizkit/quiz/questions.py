"""What the answers to a check say to its trainer, question by question: figures, or words where people are few."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from statistics import median

from quizkit.quiz import statistics as figures
from quizkit.quiz.statistics import Consistency
from quizkit.words import _, ngettext

HARD, EASY = 0.3, 0.95
WEAK = 0.1
SLOW = 3
"""Flags: the share right below and above which a question tells little, the item-rest correlation below which it sorts
people badly, and how many times the middle question's time is long. Common practice."""


@dataclass(frozen=True, slots=True)
class Answered:
    """One question of one form handed in. `picks`: the options chosen, or the slips recognised, by name."""

    person: str
    form: str
    question: str
    marks: float
    out_of: float
    picks: tuple[str, ...] = ()
    seconds: float | None = None

    @property
    def right(self) -> bool:
        """Whether it got every mark."""
        return self.marks >= self.out_of


@dataclass(frozen=True, slots=True)
class Watched:
    """A question with the wrong options and the slips whose pull is watched.

    A wrong option that nobody takes is worth a word where people do go wrong; a slip is only a known way to go wrong.
    """

    id: str
    wrong: tuple[str, ...] = ()
    slips: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Pull:
    """How many picked an option or made a slip; `rest`: the mean marks of their forms without this question."""

    name: str
    count: int
    share: float
    rest: float | None


@dataclass(frozen=True, slots=True)
class QuestionFigures:
    """One question. `share` right with its 95 % interval, item-rest correlation, seconds as a median; flags in words.

    Asked of fewer than the set number of people, only `asked`, `missed` and `words` are filled.
    """

    question: str
    asked: int
    missed: int
    words: str = ""
    share: float | None = None
    interval: tuple[float, float] | None = None
    rest: float | None = None
    pulls: tuple[Pull, ...] = ()
    seconds: float | None = None
    flags: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class CheckFigures:
    """A whole check: reliability, standard error in marks, and how consistently it passes and fails."""

    mean: float
    kr20: float | None
    standard_error: float | None
    consistency: Consistency | None


@dataclass(frozen=True, slots=True)
class Report:
    """All questions of a check, those to be looked at first; `check` is None below the set number of people."""

    people: int
    forms: int
    few: bool
    lines: tuple[QuestionFigures, ...]
    check: CheckFigures | None = None


def report(
    answers: Iterable[Answered], watched: Sequence[Watched], few: int, out_of: int, cut: int, language: str = "en"
) -> Report:
    """The report of a check of `out_of` marks that passes at `cut`, over all forms handed in.

    Below `few` people it holds words, no coefficients: they would say more than the answers do. The same for each
    question that fewer were asked.
    """
    given = list(answers)
    forms: dict[str, dict[str, float]] = {}
    by_question: dict[str, list[Answered]] = {}
    for one in given:
        forms.setdefault(one.form, {})[one.question] = one.marks
        by_question.setdefault(one.question, []).append(one)
    people = len({one.person for one in given})
    asked = [each for each in watched if each.id in by_question]
    if people < few:
        lines = [_in_words(each.id, by_question[each.id], language) for each in asked]
        return Report(people, len(forms), True, tuple(sorted(lines, key=lambda line: -line.missed)))
    usual = _middle([one.seconds for one in given])
    lines = [
        _line(each, by_question[each.id], forms, usual, language)
        if len({one.person for one in by_question[each.id]}) >= few
        else _in_words(each.id, by_question[each.id], language)
        for each in asked
    ]
    lines.sort(key=lambda line: (-len(line.flags), line.share is None, 1 - line.missed / line.asked))
    return Report(people, len(forms), False, tuple(lines), _check(list(forms.values()), out_of, cut))


def _in_words(question: str, answers: Sequence[Answered], language: str) -> QuestionFigures:
    missed = sum(not one.right for one in answers)
    said = ngettext("{count} missed this: talk about it", "{count} missed this: talk about it", missed, language)
    words = said.format(count=missed) if missed else _("nobody missed this", language)
    return QuestionFigures(question, len(answers), missed, words)


def _check(forms: list[dict[str, float]], out_of: int, cut: int) -> CheckFigures:
    marks = figures.totals(forms)
    reliability = figures.kr20(forms)
    error = None if reliability is None else figures.standard_error(marks, reliability)
    consistency = figures.decision_consistency(marks, out_of, cut)
    return CheckFigures(figures.mean(marks), reliability, error, consistency)


def _line(
    each: Watched, answers: Sequence[Answered], forms: dict[str, dict[str, float]], usual: float | None, language: str
) -> QuestionFigures:
    right = sum(one.right for one in answers)
    line = QuestionFigures(
        each.id,
        len(answers),
        len(answers) - right,
        "",
        right / len(answers),
        figures.wilson(right, len(answers)),
        figures.item_rest(list(forms.values()), each.id),
        tuple(_pull(name, answers, forms) for name in (*each.wrong, *each.slips)),
        _middle([one.seconds for one in answers]),
    )
    return _flagged(line, each, usual, language)


def _pull(name: str, answers: Sequence[Answered], forms: dict[str, dict[str, float]]) -> Pull:
    picked = [one for one in answers if name in one.picks]
    rest = [sum(forms[one.form].values()) - one.marks for one in picked]
    return Pull(name, len(picked), len(picked) / len(answers), figures.mean(rest) if rest else None)


def _middle(seconds: Iterable[float | None]) -> float | None:
    known = [each for each in seconds if each is not None]
    return median(known) if known else None


def _flagged(line: QuestionFigures, each: Watched, usual: float | None, language: str) -> QuestionFigures:
    """The line with its flags, in words that say what to look at."""
    share, flags = line.share or 0.0, []
    if line.rest is not None and line.rest < 0:
        flags.append(_("those who do well miss it more often: look at its key and its wording", language))
    elif line.rest is not None and line.rest < WEAK:
        flags.append(_("right or wrong here says little about the rest: look at its wording", language))
    if share < HARD:
        flags.append(_("most miss it: is it taught, and is the key right?", language))
    if share > EASY:
        flags.append(_("nearly everyone has it right", language))
    for pull in line.pulls:
        if pull.share > share:
            flags.append(_("more take '{name}' than the right answer", language).format(name=pull.name))
        elif not pull.count and pull.name in each.wrong and share <= EASY:
            flags.append(_("nobody takes '{name}'", language).format(name=pull.name))
    if line.seconds and usual and line.seconds > SLOW * usual:
        flags.append(_("it takes far longer than the others", language))
    return replace(line, flags=tuple(flags))
