"""The parts of a question as their labels are gathered; numeric parts: the answer, its bounds, the slips."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from quizkit.authoring.answers import Form, read_form, read_plausible
from quizkit.authoring.labels import Label
from quizkit.authoring.markdown import Chunk, inline_nodes
from quizkit.authoring.notes import Notes
from quizkit.authoring.source import Stretch
from quizkit.authoring.spans import code_spans, parted
from quizkit.authoring.texts import Names, kind_in, read_formula, shower, unit_shown
from quizkit.formula import Formula
from quizkit.pack.model import Numeric, Slip
from quizkit.units import NUMBER, Kind
from quizkit.words import _


@dataclass(slots=True)
class Draft:
    """The labels of one part, gathered before any is read."""

    name: str
    ask: Label | None = None
    answer: Label | None = None
    options: Chunk | None = None
    plausible: Label | None = None
    critical: Label | None = None
    slips: list[Label] = field(default_factory=list)
    workings: list[Label] = field(default_factory=list)
    figures: list[Label] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Asked:
    """What an answer was read as, and the kinds that its slips may use: givens and the parts before it."""

    formula: Formula
    kind: Kind
    form: Form
    earlier: Mapping[str, Kind]


def read_answer(notes: Notes, draft: Draft, names: Names) -> Asked | None:
    """The answer of a draft; `names` learns its kind and its unit.

    None, and told, where it cannot be read: then its name is broken for later parts.
    """
    assert draft.answer is not None
    earlier = dict(names.kinds)
    found = formula_and_tail(notes, draft.answer)
    formula = read_formula(notes, found[0]) if found else None
    kind = kind_in(notes, found[0], formula, names, earlier) if found and formula else None
    form = None
    if found and formula and kind is not None:
        form = read_form(notes, *found, formula, kind, unit_shown(formula, kind, names))
    if formula is None or kind is None or form is None:
        names.broken.add(draft.name)
        return None
    names.kinds[draft.name] = kind
    names.units[draft.name] = form.unit
    return Asked(formula, kind, form, earlier)


def numeric(notes: Notes, draft: Draft, names: Names, asked: Asked) -> Numeric:
    """The numeric part of a draft without its texts and its mark of weight; slips that cannot be read are told."""
    bounds = None
    if draft.plausible is not None:
        bounds = read_plausible(notes, draft.plausible.body, asked.kind, asked.form.unit)
    return Numeric(
        name=draft.name,
        ask=(),
        formula=asked.formula.text,
        unit=asked.form.unit.symbol if asked.form.unit else "",
        tolerance=asked.form.tolerance,
        date=asked.form.unit is None,
        plausible=bounds,
        slips=tuple(slip for label in draft.slips if (slip := _slip(notes, label, names, asked)) is not None),
        shown=Fraction(1, 100) if asked.form.tolerance.cent else asked.form.tolerance.step,
        fraction=asked.form.style == "fraction",
    )


def formula_and_tail(notes: Notes, label: Label) -> tuple[Stretch, Stretch] | None:
    """The formula in backticks that a label begins with, and what follows it."""
    spans, stray = code_spans(label.body)
    if not spans or label.body.text[: spans[0].start].strip():
        if stray is None:
            notes.tell(
                "Q13",
                label.body if label.body.text else label.spot,
                _("'{word}:' begins with a formula in backticks").format(word=label.word),
                _("write it like `filler / ratio.a`"),
            )
        return None
    return spans[0].inner, label.body.cut(spans[0].end)


def check_slips(notes: Notes, draft: Draft, names: Names) -> None:
    """Tell what is wrong with the slips of an answer that cannot be read, as far as it shows without that."""
    for label in draft.slips:
        _slip(notes, label, names, None)


def _slip(notes: Notes, label: Label, names: Names, asked: Asked | None) -> Slip | None:
    found = formula_and_tail(notes, label)
    if found is None:
        return None
    place, tail = found
    formula = read_formula(notes, place, slip=True)
    if formula is None:
        return None
    kind = kind_in(notes, place, formula, names, asked.earlier if asked else names.kinds)
    if kind is None:
        return None
    if asked and kind not in (asked.kind, NUMBER):
        what = _("this slip is {kind}, the answer wants {wanted}").format(kind=str(kind), wanted=str(asked.kind))
        notes.tell("Q21", place, what, _("a slip may take plain numbers, like `width.mm`"))
        return None
    if asked and (formula.tree == asked.formula.tree or formula.text == asked.formula.text):
        notes.tell("Q16", place, _("this slip is the right answer"), _("write the wrong method"))
        return None
    between, feedback = parted(tail)
    if feedback is None or not feedback.text or between.text:
        notes.tell(
            "Q17",
            tail.strip() if tail.text.strip() else place,
            _("what is said to whoever makes this slip is missing"),
            _("add ' -- ' and a sentence that teaches behind the formula"),
        )
        return None
    words = inline_nodes(feedback, shower(notes, names, after=True))
    return Slip(formula.text, words, kind != asked.kind) if asked else None
