"""Answers as the people of the demo type them: the right one, or one of the question's own slips."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from fractions import Fraction

from quizkit.pack.model import Choice, Match, Numeric, Order, Pack
from quizkit.pack.shown import day
from quizkit.pack.variant import Variant
from quizkit.shop.asking import OptionView, QuestionView
from quizkit.units import PLAIN, show, unit

SLIP_DIGITS = 4


def right(pack: Pack, view: QuestionView) -> dict[str, str]:
    """What to type to every part of a question as it was shown, all of it right."""
    variant = _variant(pack, view)
    return {part.name: _right(variant, view, part.name) for part in view.parts}


def wrong(pack: Pack, view: QuestionView) -> dict[str, str]:
    """The same with one thing wrong: a known slip where the question has one, else another option or place."""
    variant = _variant(pack, view)
    typed = right(pack, view)
    for part in view.parts:
        other = _wrong(variant, view, part.name, typed[part.name])
        if other:
            return typed | {part.name: other}
    return typed


def _variant(pack: Pack, view: QuestionView) -> Variant:
    return pack.question(view.question).variant(view.variant, style=pack.style)


def _right(variant: Variant, view: QuestionView, name: str) -> str:
    part = variant.question.part(name)
    shown = next(each for each in view.parts if each.name == name)
    authored = next(each for each in variant.parts if each.name == name)
    match part:
        case Choice():
            places = [int(number) for number in variant.right(name).split(", ")]
            return ", ".join(str(_number(shown.options, authored.options[place - 1])) for place in places)
        case Order():
            return " ".join(str(_number(shown.options, item)) for item in authored.options)
        case Match():
            pairs = zip(authored.options, authored.targets, strict=True)
            return " ".join(f"{_number(shown.options, left)}{_letter(shown.targets, to)}" for left, to in pairs)
    return variant.right(name).removeprefix("≈ ")


def _wrong(variant: Variant, view: QuestionView, name: str, typed: str) -> str:
    part = variant.question.part(name)
    shown = next(each for each in view.parts if each.name == name)
    match part:
        case Numeric():
            slips = [value for value in variant.slip_values(name) if value is not None]
            return _typed(slips[0], part) if slips else ""
        case Choice():
            chosen = typed.split(", ")
            return next((str(option.number) for option in shown.options if str(option.number) not in chosen), "")
        case Order():
            places = typed.split()
            return " ".join([*places[1:], places[0]])
        case _:
            pairs = typed.split()
            ends = [pair.lstrip("0123456789") for pair in pairs]
            moved = [*ends[1:], ends[0]]
            return " ".join(pair[: len(pair) - len(end)] + to for pair, end, to in zip(pairs, ends, moved, strict=True))


def _typed(value: Fraction, part: Numeric) -> str:
    """A value in the asked unit as a person types it; a date is its day count."""
    if part.date:
        return day(dt.date.fromordinal(int(value)))
    asked = unit(part.unit) if part.unit else PLAIN
    return show(value, PLAIN, digits=SLIP_DIGITS) + (f" {asked.symbol}" if asked.symbol not in ("", "$") else "")


def _number(options: Sequence[OptionView], html: str) -> int:
    return next(option.number for option in options if option.html == html)


def _letter(options: Sequence[OptionView], html: str) -> str:
    return next(option.letter for option in options if option.html == html)
