"""What a proof means for its author: the question with its variants, and what is told."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from quizkit.authoring.diagnostics import Spot
from quizkit.authoring.notes import Notes
from quizkit.authoring.proof import FEWEST, Proof
from quizkit.authoring.prover import prove
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
from quizkit.pack.model import Numeric, Part, Question
from quizkit.words import _, ngettext

FEW = 30
"""With fewer variants, practice shows what the check asks."""


@dataclass(frozen=True, slots=True)
class Places:
    """Where things stand in a question block: its opening line, its answers by part, its slips over all parts."""

    first: Spot
    answers: Mapping[str, Spot] = field(default_factory=dict)
    slips: tuple[Spot, ...] = ()
    last_where: Spot | None = None


def proven(notes: Notes, question: Question, places: Places) -> tuple[Question | None, Proof]:
    """Prove a question; the question with its variants, or None where too few stand (told)."""
    proof = prove(question)
    _tell_counts(notes, question, places, proof)
    _tell_slips(notes, places, proof)
    if proof.zero:
        what = _("the right answer can be 0, and a percent of 0 is nothing")
        spot = next(iter(places.answers.values()), places.first)
        notes.tell("P08", spot, what, _("give the tolerance as an amount, like 'within 0.5 mL'"))
    if notes.failed:
        return None, proof
    parts = tuple(_with_step(part, proof) for part in question.parts)
    return replace(question, parts=parts, left_out=proof.left_out), proof


def _with_step(part: Part, proof: Proof) -> Part:
    if isinstance(part, Numeric) and part.shown is None:
        return replace(part, shown=dict(proof.steps).get(part.name))
    return part


def _tell_counts(notes: Notes, question: Question, places: Places, proof: Proof) -> None:
    numeric = any(isinstance(part, Numeric) for part in question.parts)
    if proof.stands == 0 or (numeric and proof.stands < FEWEST):
        what = ngettext("only {n} variant stands", "only {n} variants stand", proof.stands).format(n=proof.stands)
        notes.tell("P01", _worst_place(places, proof), f"{what}{_because(proof)}", _mend(places, proof))
    elif 2 * proof.left_by_proof > proof.let_through:
        what = _("{n} of {all} variants are left out").format(n=proof.left_by_proof, all=proof.let_through)
        notes.tell("P02", _worst_place(places, proof), f"{what}{_because(proof)}", _mend(places, proof))
    elif numeric and proof.stands < FEW:
        what = _("there are {n} variants, under {few}").format(n=proof.stands, few=FEW)
        notes.tell("P03", places.first, what, _("draw from more numbers"))
    small = proof.stands < (FEW if numeric else FEWEST)
    if small and not question.use and not notes.failed:
        what = ngettext(
            "with {n} variant, practice would show what the check asks",
            "with {n} variants, practice would show what the check asks",
            proof.stands,
        )
        notes.tell(
            "P04",
            places.first,
            what.format(n=proof.stands),
            _("add 'Use: practice' or 'Use: check', or draw from more numbers"),
        )


def _tell_slips(notes: Notes, places: Places, proof: Proof) -> None:
    for one, other in proof.twins:
        line = places.slips[other].line - places.slips[one].line
        what = _("in every variant this slip comes out like the one {n} lines above").format(n=line)
        notes.tell("P07", places.slips[other], what, _("delete one, or make one feedback of both"))
    for place, gap in enumerate(proof.nearest):
        if gap is None and proof.stands:
            what = _("this slip never has a value")
            notes.tell("P06", places.slips[place], what, _("look at its formula"))


def _worst_place(places: Places, proof: Proof) -> Spot:
    worst = proof.worst
    if worst is None:
        return places.last_where or places.first
    if worst >= FIRST_SLIP:
        return places.slips[worst - FIRST_SLIP]
    if worst in (NO_VALUE, ZERO, IMPLAUSIBLE, ROUNDING):
        return next(iter(places.answers.values()), places.first)
    return places.first


def _because(proof: Proof) -> str:
    worst = proof.worst
    if worst is None:
        return ""
    count = proof.count(worst)
    if worst >= FIRST_SLIP:
        return ": " + _("in {n} this slip would be marked right").format(n=count)
    words = {
        NO_VALUE: _("in {n} the answer has no value"),
        ZERO: _("in {n} the answer is 0"),
        IMPLAUSIBLE: _("in {n} the answer is not plausible"),
        ROUNDING: _("in {n} the rounded answer is outside its own tolerance"),
        EDGE_OF_CHOICE: _("in {n} a condition is at its edge"),
        NOTHING_RIGHT: _("in {n} no option is right"),
        ALIKE: _("in {n} two things look alike"),
        UNSHOWN: _("in {n} a text shows a value that there is not"),
    }
    return ": " + words[worst].format(n=count)


def _mend(places: Places, proof: Proof) -> str:
    worst = proof.worst
    if worst is None:
        return _("draw from more numbers") if places.last_where is None else _("let more through in 'Where:'")
    if worst >= FIRST_SLIP:
        if proof.helpful:
            return _("add 'Where: `{condition}`', or draw other numbers").format(condition=proof.helpful)
        return _("draw numbers for which the slip is further from the right answer, or narrow the tolerance")
    if worst == IMPLAUSIBLE:
        return _("widen 'Plausible:', or draw other numbers")
    if worst == ROUNDING:
        return _("ask for a finer step, or widen the tolerance")
    return _("draw other numbers, or leave these out with 'Where:'")
