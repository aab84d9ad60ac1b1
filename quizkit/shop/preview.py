"""Any question with any of its numbers as a trainer looks at it: key, slips, feedback and working in the open."""

from __future__ import annotations

import datetime as dt
from bisect import bisect_left
from collections.abc import Mapping
from dataclasses import dataclass

from quizkit.pack.model import Choice, Numeric, Pack, Part
from quizkit.pack.shown import right_answer
from quizkit.pack.variant import NoSuchVariant, Numbers, Variant
from quizkit.scoring.marks import show_mark
from quizkit.shop import asking
from quizkit.shop.asking import QuestionView, ToldPart
from quizkit.shop.handle import Shop
from quizkit.shop.packs import current_pack, lesson_with, question_of
from quizkit.shop.people import trainer
from quizkit.shop.refusal import Unknown
from quizkit.units import PLAIN, unit
from quizkit.words import _


@dataclass(frozen=True, slots=True)
class SlipView:
    """A known wrong way: its formula, what it comes to with these numbers ("" for nothing), and what is said to it."""

    formula: str
    value: str
    feedback_html: str


@dataclass(frozen=True, slots=True)
class OptionKey:
    """An option, whether it is right with these numbers, and what is said to who takes it."""

    html: str
    right: bool
    feedback_html: str


@dataclass(frozen=True, slots=True)
class PartKey:
    """The key of a part: its right answer as text, with the slips of a number or the options of a choice."""

    name: str
    ask_html: str
    right: str
    critical: bool
    formula: str
    slips: tuple[SlipView, ...]
    options: tuple[OptionKey, ...]


@dataclass(frozen=True, slots=True)
class PreviewView:
    """A question with one set of numbers. `variants` counts those that stand; their numbers run from `first` to `last`,
    and `before` and `after` are those next to this one, or None. `told` is what an answer tried on it would be told.
    """

    question: QuestionView
    module: str
    title: str
    use: str
    lesson: str
    lesson_title: str
    number: int
    variants: int
    first: int
    last: int
    before: int | None
    after: int | None
    parts: tuple[PartKey, ...]
    working_html: str
    sources_html: str
    told: tuple[ToldPart, ...]
    marks: str


def preview(
    shop: Shop,
    viewer: int,
    question: str,
    variant: int | None = None,
    *,
    now: dt.datetime,
    typed: Mapping[str, str] | None = None,
) -> PreviewView:
    """A question of the pack in force with the numbers of a variant (the first where none is named), for a trainer.

    `typed` is an answer to be tried on it; nothing is kept of it. Raises Unknown for no such question or variant.
    """
    trainer(shop, viewer)
    pack = current_pack(shop)
    found = question_of(pack, question)
    standing = found.numbers
    number = standing[0] if variant is None else variant
    shown = _variant(pack, question, number, standing)
    at = bisect_left(range(len(standing)), number, key=standing.__getitem__)
    module = pack.module(question.partition("/")[0])
    lesson = lesson_with(module, question)
    told, marks, unread = _tried(pack, shown, typed)
    return PreviewView(
        question=asking.question_view(pack, shown, typed, unread),
        module=module.id,
        title=module.scheme.title,
        use=found.use,
        lesson=lesson.id if lesson else "",
        lesson_title=lesson.title if lesson else "",
        number=number,
        variants=len(standing),
        first=standing[0],
        last=standing[len(standing) - 1],
        before=standing[at - 1] if at else None,
        after=standing[at + 1] if at + 1 < len(standing) else None,
        parts=tuple(_key(pack, shown, part) for part in found.parts),
        working_html=shown.working(),
        sources_html=shown.text(found.sources),
        told=told,
        marks=marks,
    )


def _variant(pack: Pack, question: str, number: int, standing: Numbers) -> Variant:
    try:
        mixed = asking.arrangement(pack.question(question), "preview", question, number)
        return asking.variant_of(pack, question, number, mixed)
    except NoSuchVariant:
        what = _("This question has no variant {number}").format(number=number)
        mend = _("they run from {first} to {last}, and some between are left out")
        raise Unknown(what, mend.format(first=standing[0], last=standing[len(standing) - 1])) from None


def _tried(
    pack: Pack, shown: Variant, typed: Mapping[str, str] | None
) -> tuple[tuple[ToldPart, ...], str, dict[str, str]]:
    """What an answer is told, its marks in words, and what of it was not understood."""
    if not typed or not any(text.strip() for text in typed.values()):
        return (), "", {}
    graded = shown.grade(typed)
    marks = _("{marks} of {out_of}").format(marks=show_mark(graded.marks, pack.scheme.mark), out_of=graded.out_of)
    return asking.told_parts(shown, graded, typed), marks, asking.unread_parts(graded)


def _key(pack: Pack, shown: Variant, part: Part) -> PartKey:
    return PartKey(
        name=part.name,
        ask_html=shown.text(part.ask) if isinstance(part, Numeric | Choice) else "",
        right=shown.right(part.name),
        critical=part.critical,
        formula=part.formula if isinstance(part, Numeric) else "",
        slips=_slips(pack, shown, part) if isinstance(part, Numeric) else (),
        options=_options(shown, part) if isinstance(part, Choice) else (),
    )


def _slips(pack: Pack, shown: Variant, part: Numeric) -> tuple[SlipView, ...]:
    asked = unit(part.unit) if part.unit else PLAIN
    values = [
        "" if value is None else right_answer(part, asked.to_base(value), pack.style)
        for value in shown.slip_values(part.name)
    ]
    return tuple(
        SlipView(slip.formula, value, shown.text(slip.feedback)) for slip, value in zip(part.slips, values, strict=True)
    )


def _options(shown: Variant, part: Choice) -> tuple[OptionKey, ...]:
    right = {int(number) for number in shown.right(part.name).split(", ") if number}
    options = [part.options[place] for place in shown.arranged(part.name, len(part.options))]
    return tuple(
        OptionKey(shown.text(option.text), at in right, shown.text(option.feedback))
        for at, option in enumerate(options, 1)
    )
