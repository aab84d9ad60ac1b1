"""Checks on paper: drawn and recorded before they are printed, and typed in afterwards as they were written."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass

from quizkit.scoring.marks import LETTERS
from quizkit.scoring.reading import LONGEST_ANSWER
from quizkit.shop import asking
from quizkit.shop.asking import QuestionView
from quizkit.shop.forms import Item, draw_form, form_of, items_of, module_of_form, result_of, write_answer
from quizkit.shop.gates import fails_of, kind_of_check, open_form, pass_words, reasons
from quizkit.shop.handing import store_result
from quizkit.shop.handle import Shop, Stored
from quizkit.shop.overrides import past
from quizkit.shop.packs import current_pack, module_of, pack_of, zone_of
from quizkit.shop.people import PersonView, here, not_oneself, person_view, trainer
from quizkit.shop.refusal import Lack, Lacking, Refusal
from quizkit.shop.standings import record_of
from quizkit.standing.dates import local_day
from quizkit.words import _

MOST_COPIES = 50
"""Papers that are drawn at once."""

Written = Mapping[int, Mapping[str, str]]
"""What stands on a paper: by the question's place in it (from 1), each part as it was written."""


@dataclass(frozen=True, slots=True)
class PaperForm:
    """A check that was drawn for paper. `name` is whose it is, or ""; `entered` whether its answers have been typed in.

    `items` are the questions as they are printed; `key` holds for each the name and the right answer of every part.
    """

    number: int
    skill: str
    title: str
    person: int | None
    name: str
    printed_on: dt.date
    printed_by: str
    pass_mark: str
    items: tuple[QuestionView, ...]
    key: tuple[tuple[tuple[str, str], ...], ...]
    entered: bool


@dataclass(frozen=True, slots=True)
class PaperLine:
    """A printed check whose answers have not been typed in yet."""

    number: int
    skill: str
    title: str
    name: str
    printed_on: dt.date
    printed_by: str


def paper_form(shop: Shop, by: int, person: int | None, skill: str, *, now: dt.datetime) -> PaperForm:
    """Draw a check for paper and record it; for one person, or for whoever takes it (`person` None).

    By a trainer or manager. For a person it opens as a check on the screen does; a blank one is held to that when its
    answers are typed in.
    """
    with shop.deed(now):
        printer = trainer(shop, by)
        if person is None:
            module_of(current_pack(shop), skill)
            return paper(shop, by, draw_form(shop, None, skill, "full", now, printed_by=printer))
        view = here(shop, person)
        not_oneself(by, person)
        _may_take(shop, view, skill, now)
        kind = kind_of_check(shop, record_of(shop, person, now), module_of(current_pack(shop), skill))
        return paper(shop, by, draw_form(shop, view, skill, kind, now, printed_by=printer))


def paper_forms(shop: Shop, by: int, skill: str, copies: int, *, now: dt.datetime) -> tuple[PaperForm, ...]:
    """Draw several blank checks for paper, all or none; no two with the same numbers while there are others."""
    if not 1 <= copies <= MOST_COPIES:
        lack = Lack("copies", _("Copies: from 1 to {most}").format(most=MOST_COPIES))
        raise Lacking(_("No check was made"), [lack])
    with shop.deed(now):
        return tuple(paper_form(shop, by, None, skill, now=now) for _copy in range(copies))


def paper(shop: Shop, viewer: int, form: int) -> PaperForm:
    """A check on paper with its key, for trainers and managers: to print it once more, or to type it in."""
    trainer(shop, viewer)
    stored = _paper(shop, form)
    pack, module = pack_of(shop, stored["pack"]), module_of_form(shop, stored)
    items = items_of(shop, stored)
    return PaperForm(
        number=stored["id"],
        skill=stored["skill"],
        title=module.scheme.title,
        person=stored["person"],
        name=person_view(shop, stored["person"]).name if stored["person"] is not None else "",
        printed_on=stored["seen_on"],
        printed_by=person_view(shop, stored["done_by"]).name,
        pass_mark=pass_words(module, sum(one.graded().out_of for one in items)),
        items=tuple(asking.question_view(pack, one.variant, one.typed) for one in items),
        key=tuple(tuple((part.name, one.variant.right(part.name)) for part in one.variant.parts) for one in items),
        entered=result_of(shop, form) is not None,
    )


def papers(shop: Shop, viewer: int) -> tuple[PaperLine, ...]:
    """The checks on paper that have not come back yet, the latest first; for trainers and managers."""
    trainer(shop, viewer)
    back = {row["form"] for row in shop.rows("result")}
    return tuple(
        PaperLine(
            row["id"],
            row["skill"],
            module_of_form(shop, row).scheme.title,
            person_view(shop, row["person"]).name if row["person"] is not None else "",
            row["seen_on"],
            person_view(shop, row["done_by"]).name,
        )
        for row in shop.rows("form", paper=True, newest=True)
        if row["id"] not in back
    )


def enter_paper_check(
    shop: Shop,
    by: int,
    person: int,
    form: int,
    answers: Written,
    *,
    now: dt.datetime,
    seen_on: dt.date | None = None,
    sure: bool = False,
) -> int:
    """Type in a check that was filled in on paper, and give its number; `seen_on` is the day it was taken.

    By a trainer or manager, never for oneself, once. Refuses somebody else's paper, one for whom the check was not
    open, a day before it was printed or to come, and without `sure` what was left out or cannot be read, by its
    questions. Nothing is written unless all of it is.
    """
    with shop.deed(now):
        trainer(shop, by)
        not_oneself(by, person)
        view, stored = here(shop, person), _paper(shop, form)
        day = _day(shop, view, stored, seen_on, now)
        _fits(shop, stored, view, day, now)
        typed = [(one, _typed(one, answers.get(one.number, {}))) for one in items_of(shop, stored)]
        _all_read(typed, sure)
        for one, texts in typed:
            if any(texts.values()):
                write_answer(shop, by, stored, one, texts, day)
        store_result(shop, {**stored, "person": person}, now, by_itself=False, seen_on=day, by=by)
        return form


def _paper(shop: Shop, form: int) -> Stored:
    stored = form_of(shop, form)
    if not stored["paper"]:
        raise Refusal(_("This check was not on paper"), _("read the number on the paper again"))
    return stored


def _day(shop: Shop, person: PersonView, form: Stored, seen_on: dt.date | None, now: dt.datetime) -> dt.date:
    day = past(shop, person, seen_on, now)
    if day < form["seen_on"]:
        raise Refusal(_("This paper was not printed yet on that day"), _("put the date right"))
    return day


def _fits(shop: Shop, form: Stored, person: PersonView, day: dt.date, now: dt.datetime) -> None:
    """Whether a paper may come back from somebody: not yet entered, theirs or blank, and the check was open to them."""
    if result_of(shop, form["id"]) is not None:
        raise Refusal(_("This paper has been typed in already"), _("see its result"))
    if form["person"] not in (None, person.person):
        name = person_view(shop, form["person"]).name
        raise Refusal(_("This paper was printed for {name}").format(name=name), _("read the number on it again"))
    _may_take(shop, person, form["skill"], now, day)


def _may_take(shop: Shop, person: PersonView, skill: str, now: dt.datetime, day: dt.date | None = None) -> None:
    """Refuse with every reason that stands before somebody's check, as on the screen; `day` is when it was taken."""
    module = module_of(current_pack(shop), skill)
    found, fails = record_of(shop, person.person, now), fails_of(shop, module, person.person)
    why = list(reasons(shop, found, module, fails, now))
    if open_form(shop, person.person, skill) is not None:
        why.append(_("a check is open on the screen: it is handed in first"))
    if day is not None and fails.until is not None and local_day(fails.until, zone_of(shop, person.site)) > day:
        why.append(_("the wait after the last check was not over on that day"))
    if why:
        what = _("The check in {title} is not open to {name}").format(title=module.scheme.title, name=person.name)
        raise Refusal(what, "; ".join(dict.fromkeys(why)))


def _typed(one: Item, answers: Mapping[str, str]) -> dict[str, str]:
    return {part.name: answers.get(part.name, "").strip()[: LONGEST_ANSWER + 1] for part in one.variant.question.parts}


def _all_read(typed: list[tuple[Item, dict[str, str]]], sure: bool) -> None:
    """Refuse, without `sure`, a paper on which something was left out or cannot be read, naming each question."""
    unread = []
    for one, texts in typed:
        letters = dict(zip(texts, LETTERS, strict=False)) if len(texts) > 1 else {}
        for name, why in asking.unread_parts(one.variant.grade(texts)).items():
            where = f"{one.number}{letters.get(name, '')}"
            unread.append(Lack(f"part.{one.number}.{name}", _("question {where}: {why}").format(where=where, why=why)))
    if unread and not sure:
        what = _("Type it as it was written: something is left out or cannot be read, and on the paper that is wrong")
        raise Lacking(what, unread)
