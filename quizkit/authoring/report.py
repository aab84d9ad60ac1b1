"""What was proven, a question at a time: variants, what was left out and why, how near each slip comes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from quizkit.authoring.content import Compiled
from quizkit.authoring.lesson import ReadQuestion
from quizkit.authoring.proof import Proof
from quizkit.authoring.reasons import (
    ALIKE,
    EDGE_OF_CHOICE,
    FIRST_SLIP,
    IMPLAUSIBLE,
    NO_VALUE,
    NOTHING_RIGHT,
    ROUNDING,
    UNSHOWN,
    ZERO,
)
from quizkit.formula import arrays
from quizkit.formula.single import in_unit
from quizkit.pack.model import Numeric, Question
from quizkit.pack.ready import ready
from quizkit.scoring.grade import NumericPart
from quizkit.scoring.proving import accepted
from quizkit.words import _


@dataclass(frozen=True, slots=True)
class SlipReport:
    """One slip: its part and formula, how near it comes to the right answer at least (a share of it, None where it
    never has a value), and in how many variants it would have been marked right, so that these are left out.
    """

    part: str
    formula: str
    nearest: float | None
    takes_out: int


@dataclass(frozen=True, slots=True)
class QuestionReport:
    """One question: its points, those that its conditions let through, the variants that stand, and the rest by why.

    `carried` counts the pairs of a variant and a slip of a later part that a slip of an earlier one, carried, equals.
    """

    id: str
    points: int
    let_through: int
    variants: int
    left_out: tuple[tuple[str, int], ...]
    slips: tuple[SlipReport, ...]
    carried: int

    @property
    def nearest(self) -> float | None:
        """The smallest distance from any slip to the right answer, as a share of it."""
        return min((slip.nearest for slip in self.slips if slip.nearest is not None), default=None)


def report(compiled: Compiled) -> tuple[QuestionReport, ...]:
    """A report on every question that is in the pack, in the order of the content."""
    return tuple(
        _question(read, read.question, read.proof)
        for read in compiled.questions
        if read.question is not None and read.proof is not None
    )


def _question(read: ReadQuestion, question: Question, proof: Proof) -> QuestionReport:
    return QuestionReport(
        id=read.id,
        points=proof.size,
        let_through=proof.let_through,
        variants=proof.stands,
        left_out=tuple(_reasons(proof)),
        slips=tuple(_slips(question, proof)),
        carried=carried_likenesses(question),
    )


def _reasons(proof: Proof) -> Iterator[tuple[str, int]]:
    words = {
        NO_VALUE: _("no value"),
        ZERO: _("the answer is 0"),
        IMPLAUSIBLE: _("not plausible"),
        ROUNDING: _("rounded outside its tolerance"),
        EDGE_OF_CHOICE: _("a condition at its edge"),
        NOTHING_RIGHT: _("no option right"),
        ALIKE: _("two things look alike"),
        UNSHOWN: _("a text shows no value"),
    }
    for reason, count in proof.reasons:
        if reason in words:
            yield words[reason], count
    slips = sum(count for reason, count in proof.reasons if reason >= FIRST_SLIP)
    if slips:
        yield _("a slip would be marked right"), slips


def _slips(question: Question, proof: Proof) -> Iterator[SlipReport]:
    place = 0
    for part in question.parts:
        for slip in part.slips if isinstance(part, Numeric) else ():
            nearest = proof.nearest[place] if place < len(proof.nearest) else None
            gap = None if nearest is None else float(nearest)
            yield SlipReport(part.name, slip.formula, gap, proof.count(FIRST_SLIP + place))
            place += 1


def carried_likenesses(question: Question) -> int:
    """How often, over the variants, the way on from a wrong earlier value equals a slip of the later part.

    There the verdict is right on carried values, and the slip is not named.
    """
    import numpy as np

    made = ready(question)
    numeric = [part for part in made.parts if isinstance(part, NumericPart)]
    if not any(set(later.formula.names) & {part.name for part in numeric} for later in numeric):
        return 0
    stands = np.ones(made.grid.size, dtype=bool)
    for first, count in question.left_out:
        stands[first : first + count] = False
    total = 0
    with np.errstate(all="ignore"):
        for block in made.grid.blocks():
            view = stands[block.first : block.first + block.count]
            for alike in _alike(numeric, dict(block.columns)):
                total += int(np.count_nonzero(np.broadcast_to(alike, block.shape).reshape(-1) & view))
    return total


def _alike(numeric: list[NumericPart], columns: dict[str, Any]) -> Iterator[Any]:
    """For each slip of a part and each slip of a later one that uses it, where the two ways meet."""
    known = dict(columns)
    for place, part in enumerate(numeric):
        before = dict(known)
        known[part.name] = arrays(part.formula, known).value
        for slip in part.slips:
            value = arrays(slip.formula, before).value
            wrong = part.unit.to_base(value) if slip.plain else value
            yield from _later(numeric[place + 1 :], part.name, known, wrong)


def _later(parts: list[NumericPart], name: str, known: dict[str, Any], wrong: Any) -> Iterator[Any]:
    true, carried = dict(known), {**known, name: wrong}
    for part in parts:
        if name in part.formula.names:
            on_carried = in_unit(arrays(part.formula, carried).value, part.unit)
            for slip in part.slips:
                value = arrays(slip.formula, true).value
                yield accepted(part.tolerance, on_carried, value if slip.plain else in_unit(value, part.unit)).yes
        true[part.name] = carried[part.name] = arrays(part.formula, true).value


def lines(reports: tuple[QuestionReport, ...]) -> Iterator[str]:
    """The report as lines for a terminal: a line a question, one more for what stands out."""
    width = max((len(one.id) for one in reports), default=0)
    for one in reports:
        near = "" if one.nearest is None else _("nearest slip {share}").format(share=_percent(one.nearest))
        out = ", ".join(f"{count} {words}" for words, count in one.left_out)
        told = [near, _("left out: {reasons}").format(reasons=out) if out else ""]
        if one.carried:
            told.append(_("{n} carried like a slip").format(n=one.carried))
        counts = _("{n} of {points}").format(n=one.variants, points=one.points)
        yield f"{one.id:<{width}}  {counts:>16}  {'; '.join(word for word in told if word)}".rstrip()


def _percent(share: float) -> str:
    return f"{100 * share:,.0f} %" if share >= 1 else f"{100 * share:.3g} %"


def totals(reports: tuple[QuestionReport, ...]) -> dict[str, int]:
    """The whole in numbers: points, those let through, variants, and left out by why."""
    found = {
        "questions": len(reports),
        "points": sum(one.points for one in reports),
        "let_through": sum(one.let_through for one in reports),
        "variants": sum(one.variants for one in reports),
    }
    found["left_out"] = found["let_through"] - found["variants"]
    return found
