"""Taking a check: start it, answer one by one, leave and come back. Nothing is told before it is handed in."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from quizkit.scoring.reading import LONGEST_ANSWER
from quizkit.shop import asking
from quizkit.shop.asking import PartView, QuestionView
from quizkit.shop.forms import (
    NOTHING,
    Typed,
    asked_of,
    draw_form,
    form_of,
    holds,
    marked,
    module_of_form,
    parts_of,
    put_answer,
    result_of,
    typed_of,
    with_typed,
)
from quizkit.shop.gates import fails_of, kind_of_check, open_form, reasons
from quizkit.shop.handing import close_if_overdue, close_overdue
from quizkit.shop.handle import Shop, Stored
from quizkit.shop.packs import current_pack, module_of, pack_of
from quizkit.shop.people import day_at, here
from quizkit.shop.refusal import Refusal, Waiting
from quizkit.shop.standings import record_of
from quizkit.words import _

Answers = Mapping[str, str] | Callable[[Sequence[PartView]], Mapping[str, str]]


@dataclass(frozen=True, slots=True)
class ItemView:
    """One question of a check. `before` and `after` are its neighbours; `after` is 0 where the list comes next."""

    form: int
    item: int
    items: int
    title: str
    question: QuestionView
    answered: int
    closes: dt.datetime
    before: int
    after: int


@dataclass(frozen=True, slots=True)
class Written:
    """An answer that is on disk. `unread` tells which parts were not understood, and why.

    `next` is the question to go on with, one past `items` where all have an answer.
    """

    form: int
    item: int
    unread: tuple[tuple[str, str], ...]
    next: int
    items: int


def start_check(
    shop: Shop, person: int, skill: str, *, now: dt.datetime, language: str = "", help: str = "", helper: str = ""
) -> int:
    """Start a person's check in a skill and give the number of its form; an open one is gone on with.

    `help` says what help was given ("read aloud", "more time"), `helper` by whom; both are kept with the form. Refuses
    with every reason that stands before it; Waiting where only the clock does.
    """
    close_overdue(shop, now=now, person=person)
    with shop.deed(now):
        view = here(shop, person)
        module = module_of(current_pack(shop), skill)
        current = open_form(shop, person, skill)
        if current is not None:
            return int(current["id"])
        found, fails = record_of(shop, person, now), fails_of(shop, module, person)
        why = reasons(shop, found, module, fails, now)
        if why:
            what = _("The check in {title} does not open yet").format(title=module.scheme.title)
            if len(why) == 1 and fails.until is not None and fails.until > now:
                raise Waiting(what, why[0], fails.until)
            raise Refusal(what, "; ".join(why))
        kind = kind_of_check(shop, found, module)
        return draw_form(shop, view, skill, kind, now, help=help, helper=helper, language=language)


def check_item(shop: Shop, person: int, form: int, item: int, *, now: dt.datetime) -> ItemView:
    """One question of an open check, with what was typed so far."""
    stored = _open(shop, person, form, now)
    typed = typed_of(shop, stored)
    one = with_typed(asked_of(shop, stored, item), typed.get(item, NOTHING))
    unread = asking.unread_parts(one.graded()) if one.answered else {}
    return ItemView(
        form=form,
        item=item,
        items=len(typed),
        title=module_of_form(shop, stored).scheme.title,
        question=asking.question_view(pack_of(shop, stored["pack"]), one.variant, one.typed, unread),
        answered=sum(map(holds, typed.values())),
        closes=stored["closes_at"],
        before=item - 1,
        after=item + 1 if item < len(typed) else 0,
    )


def next_item(shop: Shop, person: int, form: int, *, now: dt.datetime) -> int:
    """The first question without an answer; one past the last where there is none."""
    return _next(typed_of(shop, _open(shop, person, form, now)))


def answer_item(shop: Shop, person: int, form: int, item: int, answers: Answers, *, now: dt.datetime) -> Written:
    """Write an answer down; it is on disk when this returns. The latest one counts; the same again adds nothing.

    `answers` are the typed ones by part, or what makes them of the question's parts as shown. What was not understood
    is kept as typed and told at once, whatever the answer would have been worth. An answer with nothing in it writes
    nothing, and every part of it is told as not understood.
    """
    stored = form_of(shop, form, person)
    close_if_overdue(shop, stored, now)
    asked = asked_of(shop, stored, item)
    given = answers(parts_of(shop, stored, asked)) if callable(answers) else answers
    typed = {part.name: given.get(part.name, "")[: LONGEST_ANSWER + 1] for part in asked.variant.question.parts}
    one = with_typed(asked, typed)
    graded = one.graded()
    if any(typed.values()):
        row, day = marked(one, graded), day_at(shop, here(shop, person), now)
        with shop.deed(now):  # marked before: what others wait for is the writing alone
            _still_open(shop, form)
            every = typed_of(shop, stored)
            if every[item] != typed:
                put_answer(shop, person, stored, one, row, day)
                every[item] = typed
    else:
        _still_open(shop, form)
        every = typed_of(shop, stored)
    unread = asking.unread_parts(graded)
    return Written(form, item, tuple(unread.items()), _next(every, item), len(every))


def _next(typed: Mapping[int, Typed], after: int = 0) -> int:
    """The next question without an answer, those after the present one first; one past the last where all have one."""
    open_ones = [number for number, text in typed.items() if not holds(text)]
    later = [number for number in open_ones if number > after]
    return (later or open_ones or [len(typed) + 1])[0]


def _open(shop: Shop, person: int, form: int, now: dt.datetime) -> Stored:
    """A person's own form that is still open."""
    stored = form_of(shop, form, person)
    close_if_overdue(shop, stored, now)
    _still_open(shop, form)
    return stored


def _still_open(shop: Shop, form: int) -> None:
    if result_of(shop, form) is not None:
        raise Refusal(_("This check has been handed in"), _("see its result"))
