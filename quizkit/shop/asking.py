"""A question in front of a person: what it shows and takes, and what it says of an answer. No key before an answer."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from html import unescape

from quizkit.formula import Row
from quizkit.pack.codec import sha256
from quizkit.pack.model import Choice, Match, Numeric, Order, Pack, Question
from quizkit.pack.ready import asked_unit
from quizkit.pack.shelf import stocked
from quizkit.pack.variant import Graded, PartVerdict, ShownPart, Variant
from quizkit.quiz.walk import keyed, order
from quizkit.scoring.marks import LETTERS
from quizkit.shop.label import ShelfLabel, invented, shelf_label, style_of

Arranged = dict[str, list[int]]

BESIDE = {"°C apart": "°C", "°F apart": "°F", "turn": "turns", "week": "weeks"}
"""How a unit reads beside its box, where that is not its sign in a lesson."""
FRACTIONS = frozenset({"turn", "in", "ft", "in²", "in³"})
"""Units whose answers are often typed as fractions: a keypad of digits alone has no stroke."""

_TAG = re.compile(r"<[^>]*>")
_INLINE = re.compile(r"</?(?:span|em|strong|code|a)\b[^>]*>")


@dataclass(frozen=True, slots=True)
class OptionView:
    """One option, item or target as shown: its number from 1, its letter, its text."""

    number: int
    letter: str
    html: str


@dataclass(frozen=True, slots=True)
class PartView:
    """One thing that a question asks for, with what was typed so far.

    `kind` is "number", "choice", "order" or "match"; `unit` stands beside the box; `hint` says how to round. `unread`
    says what was not understood in `typed`. `keypad` is "decimal" or "text".
    """

    name: str
    kind: str
    ask_html: str
    unit: str
    hint: str
    many: bool
    options: tuple[OptionView, ...]
    targets: tuple[OptionView, ...]
    typed: str = ""
    unread: str = ""
    keypad: str = "text"


@dataclass(frozen=True, slots=True)
class QuestionView:
    """A variant of a question as a person meets it."""

    question: str
    variant: int
    prompt_html: str
    parts: tuple[PartView, ...]
    topic: str
    critical: bool
    label: ShelfLabel | None
    invented: bool
    mark: str


@dataclass(frozen=True, slots=True)
class ToldPart:
    """What an answer to one part turned out to be, and what would have been right."""

    name: str
    outcome: str
    note: str
    feedback_html: str
    right: str
    typed: str
    unread: str = ""


@lru_cache(maxsize=8192)
def _hash(question: Question) -> str:
    return sha256(question)


def question_hash(question: Question) -> str:
    """The SHA-256 of a question as compiled, the shelf rows that it draws included."""
    return _hash(question)


def variant_of(pack: Pack, question: str, number: int, arranged: Mapping[str, Sequence[int]] | None = None) -> Variant:
    """A variant out of a pack, its options as recorded. Raises KeyError or NoSuchVariant where there is none."""
    return Variant(pack.question(question), number, dict(arranged or {}), style_of(pack))


def arrangement(question: Question, *key: object) -> Arranged:
    """An order for the options of each part, drawn by a key; what stands in its right order is drawn again."""
    drawn: Arranged = {}
    for part in question.parts:
        match part:
            case Choice():
                drawn[part.name] = list(order(len(part.options), keyed(*key, part.name)))
            case Order():
                drawn[part.name] = _mixed(len(part.items), *key, part.name)
            case Match():
                drawn[part.name] = _mixed(len(part.pairs), *key, part.name)
            case Numeric():
                pass
    return drawn


def _mixed(size: int, *key: object) -> list[int]:
    """An order of places other than the authored one, where there is another."""
    turn = 0
    while True:
        places = list(order(size, keyed(*key, turn)))
        if places != sorted(places) or size < 2:
            return places
        turn += 1


def stands_on(pack: Pack, question: Question, number: int, day: dt.date) -> bool:
    """Whether the shop stocks on a day every shelf row that a variant draws."""
    return all(stocked(row, day) for row in rows_of(variant_of(pack, question.id, number)))


def rows_of(variant: Variant) -> tuple[Row, ...]:
    """The shelf rows that a variant has drawn."""
    return tuple(value for value in variant.givens.values() if isinstance(value, Row))


def question_view(
    pack: Pack, variant: Variant, typed: Mapping[str, str] | None = None, unread: Mapping[str, str] | None = None
) -> QuestionView:
    """A variant as its reader sees it, with what was typed so far and what of that was not understood."""
    question, rows = variant.question, rows_of(variant)
    return QuestionView(
        question=question.id,
        variant=variant.number,
        prompt_html=variant.prompt,
        parts=part_views(variant, typed, unread),
        topic=question.topic,
        critical=is_critical(question),
        label=shelf_label(pack, rows[0], _asked_fields(question)) if len(rows) == 1 else None,
        invented=bool(rows) and invented(pack),
        mark=variant.style.mark,
    )


def part_views(
    variant: Variant, typed: Mapping[str, str] | None = None, unread: Mapping[str, str] | None = None
) -> tuple[PartView, ...]:
    """What a variant asks for, part by part."""
    digits = {part.name for part in variant.question.parts if isinstance(part, Numeric) and _digits_do(part)}
    return tuple(
        _part(part, (typed or {}).get(part.name, ""), (unread or {}).get(part.name, ""), part.name in digits)
        for part in variant.parts
    )


def _digits_do(part: Numeric) -> bool:
    """Whether a keypad of digits and a point is enough: no month, no stroke and no sign is ever typed.

    It hangs on the question, never on its numbers: a keypad must not tell what is right.
    """
    signed = part.plausible is None or asked_unit(part).from_base(part.plausible[0]) < 0
    return not part.date and not signed and part.unit not in FRACTIONS


def words_of(html: str) -> str:
    """The words of some HTML of ours, its tags left out."""
    return " ".join(unescape(_TAG.sub(" ", _INLINE.sub("", html))).split())


def is_critical(question: Question) -> bool:
    """Whether a wrong answer to any part of a question fails the check."""
    return question.critical or any(part.critical for part in question.parts)


def told_parts(variant: Variant, graded: Graded, typed: Mapping[str, str]) -> tuple[ToldPart, ...]:
    """What each part turned out to be, in the question's order."""
    return tuple(_told(name, verdict, typed.get(name, "")) for name, verdict in graded.parts.items())


def unread_parts(graded: Graded) -> dict[str, str]:
    """The parts whose answers were not understood, each with why."""
    return {name: graded.parts[name].why for name in graded.unread}


def verdict_row(graded: Graded) -> dict[str, object]:
    """The verdict as plain values for a row; marks as exact text."""
    return {
        name: {
            "outcome": verdict.outcome,
            "note": verdict.note,
            "marks": str(verdict.marks),
            "slips": list(verdict.slips),
        }
        for name, verdict in graded.parts.items()
    }


def givens_row(variant: Variant) -> dict[str, str]:
    """The givens by name as exact text, rows of the shelf by theirs."""
    return {name: _exact(value) for name, value in variant.givens.items() if "." not in name or "shelf" in name}


def _exact(value: object) -> str:
    return value.name if isinstance(value, Row) else str(value)


def _asked_fields(question: Question) -> set[str]:
    """The derived fields of the shelf that an answer is about: the label keeps silent on them."""
    formulas = " ".join(part.formula for part in question.parts if isinstance(part, Numeric))
    return {"weight_ratio"} if "weight_ratio" in formulas else set()


def _part(part: ShownPart, typed: str, unread: str, digits: bool) -> PartView:
    return PartView(
        name=part.name,
        kind=part.kind,
        ask_html=part.ask,
        unit=BESIDE.get(part.unit, part.unit),
        hint=part.hint,
        many=part.many,
        options=_options(part.options),
        targets=_options(part.targets),
        typed=typed,
        unread=unread,
        keypad="decimal" if digits else "text",
    )


def _options(texts: Sequence[str]) -> tuple[OptionView, ...]:
    return tuple(OptionView(number, LETTERS[number - 1], html) for number, html in enumerate(texts, 1))


def _told(name: str, verdict: PartVerdict, typed: str) -> ToldPart:
    return ToldPart(name, verdict.outcome, verdict.note, verdict.feedback, verdict.right, typed, verdict.why)


def with_typed(view: QuestionView, typed: Mapping[str, str], unread: Mapping[str, str] | None = None) -> QuestionView:
    """The same question with other typed answers in its boxes: not looked at yet, or with what was not understood."""
    why = unread or {}
    parts = (replace(one, typed=typed.get(one.name, ""), unread=why.get(one.name, "")) for one in view.parts)
    return replace(view, parts=tuple(parts))
