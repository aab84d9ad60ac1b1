"""Handing a check in: the list before it, the marks, the result; once, whoever presses how often."""

from __future__ import annotations

import datetime as dt
import re
from contextlib import nullcontext
from dataclasses import dataclass
from fractions import Fraction

from quizkit.pack.model import Numeric
from quizkit.pack.ready import asked_unit
from quizkit.pack.shown import amount, day
from quizkit.pack.variant import ShownPart
from quizkit.scoring.marks import LETTERS
from quizkit.scoring.reading import Reading, read
from quizkit.shop import asking
from quizkit.shop.forms import Item, form_of, items_of, module_of_form, result_of
from quizkit.shop.handle import Shop, Stored
from quizkit.shop.packs import settings
from quizkit.shop.refusal import Refusal
from quizkit.shop.terms import terms_of, terms_text
from quizkit.standing.dates import after, local_day
from quizkit.units import DATE
from quizkit.words import _, ngettext

SHORT = 80
"""Characters of a question in the list before handing in."""


@dataclass(frozen=True, slots=True)
class ListRow:
    """A question in the list: what it asks in short, what was typed, and a critical number read back."""

    item: int
    short: str
    typed: str
    answered: bool
    unread: str
    critical_readback: str


@dataclass(frozen=True, slots=True)
class ListView:
    """All answers of a check before it is handed in; `unanswered` holds those that are missing or not understood."""

    form: int
    title: str
    items: int
    rows: tuple[ListRow, ...]
    unanswered: tuple[int, ...]
    closes: dt.datetime


def check_list(shop: Shop, person: int, form: int, *, now: dt.datetime) -> ListView:
    """The list before handing in. Refuses for a check that was handed in."""
    stored = form_of(shop, form, person)
    if result_of(shop, form) is not None or close_if_overdue(shop, stored, now):
        raise Refusal(_("This check has been handed in"), _("see its result"))
    items = items_of(shop, stored)
    return ListView(
        form=form,
        title=module_of_form(shop, stored).scheme.title,
        items=len(items),
        rows=tuple(_list_row(one) for one in items),
        unanswered=tuple(one.number for one in items if _missing(one)),
        closes=stored["closes_at"],
    )


def hand_in(shop: Shop, person: int, form: int, *, now: dt.datetime, sure: bool = False) -> int:
    """Hand a check in and give its number; handed in already, nothing happens.

    Without `sure` it refuses while an answer is missing or not understood, and names them.
    """
    with shop.deed(now):
        stored = form_of(shop, form, person)
        if result_of(shop, form) is not None or close_if_overdue(shop, stored, now):
            return form
        missing = [one for one in items_of(shop, stored) if _missing(one)]
        if missing and not sure:
            raise Refusal(_lacking(missing), _("go back, or hand in as it stands: these count as wrong"))
        store_result(shop, stored, now, by_itself=False)
        return form


def close_overdue(shop: Shop, *, now: dt.datetime, person: int | None = None) -> int:
    """Hand in, as they stand, all checks (of one person) that have been open for too long; how many that were."""
    who = {} if person is None else {"person": person}
    over = [row for row in shop.without("form", "result", "form", paper=False, **who) if now >= row["closes_at"]]
    with shop.deed(now) if over else nullcontext():
        return sum(close_if_overdue(shop, row, now) for row in over)


def close_if_overdue(shop: Shop, form: Stored, now: dt.datetime) -> bool:
    """Hand a form in as it stands where its time is over; whether that was so."""
    if form["closes_at"] is None or now < form["closes_at"] or result_of(shop, form["id"]) is not None:
        return False
    with shop.deed(now):
        store_result(shop, form, now, by_itself=True)
    return True


def store_result(
    shop: Shop,
    form: Stored,
    now: dt.datetime,
    *,
    by_itself: bool,
    seen_on: dt.date | None = None,
    by: int | None = None,
) -> int:
    """Mark a form by its latest answers and record the result, for the form's own person."""
    module = module_of_form(shop, form)
    items = [(one, one.graded()) for one in items_of(shop, form)]
    marks = sum((graded.marks for _one, graded in items), Fraction(0))
    out_of = sum(graded.out_of for _one, graded in items)
    missed = any(critical_missed(one) for one, _graded in items)
    terms = terms_of(settings(shop), module.scheme)
    # A check that closed by itself was over when its time was, not when somebody next looked.
    moment = min(now, form["closes_at"]) if by_itself else now
    day = seen_on or local_day(moment, form["zone"])
    passed = marks >= module.scheme.check.pass_mark * out_of and not missed
    return shop.add(
        "result",
        by=by or form["person"],
        seen_on=day,
        form=form["id"],
        person=form["person"],
        skill=form["skill"],
        kind=form["kind"],
        passed=passed,
        critical_missed=missed,
        marks=str(marks),
        out_of=str(out_of),
        pass_mark=str(module.scheme.check.pass_mark),
        by_itself=by_itself,
        valid_until=after(day, terms.valid) if passed and not module.scheme.practical else None,
        terms=terms_text(terms),
    )


def critical_missed(one: Item) -> bool:
    """Whether a critical question, or a critical part, was not answered with full marks."""
    question, graded = one.variant.question, one.graded()
    if question.critical and not graded.right:
        return True
    return any(part.critical and graded.parts[part.name].marks < 1 for part in question.parts)


def understood(shop: Shop, form: Stored) -> int:
    """How many questions of a form have an answer that was understood, as in the list before handing in."""
    return sum(not _missing(one) for one in items_of(shop, form))


def _missing(one: Item) -> bool:
    return bool(one.graded().unread)


def _lacking(items: list[Item]) -> str:
    """Which questions keep a check from being handed in, and why: 'Question 1 was not understood. Question 3 …'."""
    unread, blank = [one.number for one in items if one.answered], [one.number for one in items if not one.answered]
    told = (
        (ngettext("Question {names} was not understood", "Questions {names} were not understood", len(unread)), unread),
        (ngettext("Question {names} has no answer yet", "Questions {names} have no answer yet", len(blank)), blank),
    )
    return ". ".join(text.format(names=", ".join(map(str, numbers))) for text, numbers in told if numbers)


def _list_row(one: Item) -> ListRow:
    graded = one.graded()
    typed = "; ".join(filter(None, (_typed(part, one.typed.get(part.name, "").strip()) for part in one.variant.parts)))
    unread = "; ".join(asking.unread_parts(graded).values()) if one.answered else ""
    return ListRow(one.number, _short(one), typed, one.answered, unread, _read_back(one))


def _typed(part: ShownPart, text: str) -> str:
    """An answer as its reader knows it again: options, lines and pairs by their words, a number as it was typed."""
    if part.kind == "number":
        return text
    options = {str(number): _cut(asking.words_of(option)) for number, option in enumerate(part.options, 1)}
    if part.kind == "match":
        targets = {letter: _cut(asking.words_of(target)) for letter, target in zip(LETTERS, part.targets, strict=False)}
        pairs = re.findall(r"(\d{1,3}) ?([a-z])", text)
        said = [f"{options[left]}: {targets[to]}" for left, to in pairs if left in options and to in targets]
    elif part.kind == "order":
        places = enumerate(text.split(), 1)
        said = [f"{at}. {options[one]}" for at, there in places for one in there.split("+") if one in options]
    else:
        said = [options[number] for number in re.findall(r"\d{1,3}", text) if number in options]
    return "; ".join(said) or text


def _short(one: Item) -> str:
    """The question's first words, with its values in them."""
    return _cut(asking.words_of(one.variant.prompt))


def _cut(words: str) -> str:
    return words if len(words) <= SHORT else words[: SHORT - 1].rsplit(" ", 1)[0] + " …"


def _read_back(one: Item) -> str:
    """A critical number as it was understood: '24 mL. Is that what you meant?'"""
    if not asking.is_critical(one.variant.question):
        return ""
    readings = [
        read(one.typed.get(part.name, ""), asked_unit(part), one.variant.style)
        for part in one.variant.question.parts
        if isinstance(part, Numeric)
    ]
    shown = [_understood(one, reading) for reading in readings if isinstance(reading, Reading)]
    return _("{values}. Is that what you meant?").format(values=", ".join(shown)) if shown else ""


def _understood(one: Item, reading: Reading) -> str:
    if reading.unit.kind == DATE:
        return day(dt.date.fromordinal(int(reading.number)))
    return amount(reading.value, reading.unit, one.variant.style)
