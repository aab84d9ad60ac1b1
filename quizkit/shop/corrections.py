"""A corrected question applied to what was answered: who is affected, what counts at once, what a trainer signs."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from quizkit.formula import Computed
from quizkit.pack.codec import to_json
from quizkit.pack.model import Choice, Match, Numeric, Order, Pack, Part, Question
from quizkit.pack.ready import ready
from quizkit.pack.variant import Variant
from quizkit.records.packs import store_pack
from quizkit.scoring.marks import show_mark
from quizkit.shop.evidence import results_of, row_id
from quizkit.shop.forms import Item, form_of, items_of
from quizkit.shop.handing import critical_missed
from quizkit.shop.handle import Shop, Stored, note
from quizkit.shop.label import style_of
from quizkit.shop.packs import current_pack, pack_of, remember
from quizkit.shop.people import day_at, person_view, trainer
from quizkit.shop.refusal import Unknown
from quizkit.shop.remarks import totals
from quizkit.standing.counting import worth
from quizkit.standing.events import CheckResult
from quizkit.words import _


@dataclass(frozen=True, slots=True)
class Affected:
    """A check to whose answers a corrected question was applied. `applied` is whether a row was written for it.

    `lowers` is whether it would lower a standing, so that a trainer has to sign it: a pass that becomes a fail, or a
    fail that becomes one by a critical answer. `unmatched` says that the recorded givens are none of the corrected
    question's, so that nothing can be worked out;
    `own` that it is the check of whoever applies it, which another trainer has to do.
    """

    form: int
    result: int
    person: int
    name: str
    item: int
    before: str
    after: str
    passed_before: bool
    passed_after: bool
    applied: bool
    lowers: bool = False
    unmatched: bool = False
    own: bool = False


@dataclass(frozen=True, slots=True)
class QuestionRemark:
    """What a corrected question does to the checks in which it was asked."""

    question: str
    checked: int
    affected: tuple[Affected, ...]


@dataclass(frozen=True, slots=True)
class _Found:
    """What a corrected question makes of one item, and what it is to be written with."""

    told: Affected
    old_pack: str
    old_marks: Fraction
    marks: Fraction
    missed: bool


def correction(shop: Shop, viewer: int, question: str, *, now: dt.datetime) -> QuestionRemark:
    """What the question as it is in force would change in the checks handed in; nothing is written.

    For a trainer or a manager. Raises Unknown for a question that is not in force.
    """
    trainer(shop, viewer)
    pack = current_pack(shop)
    checked, found = _looked(shop, viewer, question, pack)
    return QuestionRemark(question, checked, tuple(one.told for one in found))


def remark_question(
    shop: Shop, by: int, question: str, pack: Pack, *, now: dt.datetime, sign: str = ""
) -> QuestionRemark:
    """Apply a corrected question, out of a pack, to the numbers that were given in every check handed in.

    A change that raises a result, or leaves it, is written at once; one that lowers it only with `sign`, a trainer's
    reason; nobody's own check is touched. Raises Unknown for a question that the pack does not have.
    """
    with shop.deed(now):
        trainer(shop, by)
        reason, body = note(sign), to_json(pack)
        checked, found = _looked(shop, by, question, pack)
        affected = []
        for one in found:
            told = one.told
            writes = not told.unmatched and not told.own and (not told.lowers or bool(reason))
            if writes:
                kept = store_pack(shop.records, body)
                remember(kept, pack)
                _write(shop, by, one, question, kept, reason, now)
            affected.append(replace(told, applied=writes))
        return QuestionRemark(question, checked, tuple(affected))


def _looked(shop: Shop, by: int, question: str, pack: Pack) -> tuple[int, list[_Found]]:
    """In how many checks handed in a question was asked, and those in which the pack's version makes a difference."""
    try:
        corrected = pack.question(question)
    except KeyError:
        raise Unknown(
            _("The corrected content has no question '{question}'").format(question=question[:80]),
            _("name it like module/question"),
        ) from None
    checked, found = 0, []
    for form, result, item in _asked_in(shop, question):
        checked += 1
        one = _applied(shop, form, result, item, corrected, pack)
        if one is not None:
            found.append(replace(one, told=replace(one.told, own=one.told.person == by)))
    return checked, found


def _asked_in(shop: Shop, question: str) -> Iterator[tuple[Stored, Stored, int]]:
    """The forms handed in that asked a question, with their results and the item's number; struck ones are left out."""
    struck = {row["of_row"] for row in shop.rows("strike", of_table="result")}
    for stored in shop.rows("form_item", question=question):
        result = shop.row("result", form=stored["form"])
        if result is not None and result["id"] not in struck:
            yield form_of(shop, stored["form"]), result, stored["item"]


def as_marked(shop: Shop, form: Stored) -> tuple[dict[int, Item], dict[int, str]]:
    """The items of a form as they count today, earlier corrections worked in; and the packs of those by item."""
    items = {one.number: one for one in items_of(shop, form)}
    packs = {row["item"]: row["new_pack"] for row in shop.rows("remark", form=form["id"])}
    for number, hash in packs.items():
        pack, one = pack_of(shop, hash), items[number]
        variant = _same_givens(one.variant, pack.question(one.variant.question.id), pack)
        if variant is not None:
            items[number] = replace(one, variant=variant)
    return items, packs


def _applied(shop: Shop, form: Stored, result: Stored, number: int, corrected: Question, pack: Pack) -> _Found | None:
    """What the corrected question makes of one item; None where its marks stay the same."""
    items, packs = as_marked(shop, form)
    one, mark = items[number], current_pack(shop).scheme.mark
    if _same_key(one.variant.question, corrected):
        return None
    before, stands = one.graded(), _stands(shop, result)
    variant = _same_givens(one.variant, corrected, pack)
    told = Affected(
        form=form["id"],
        result=result["id"],
        person=result["person"],
        name=person_view(shop, result["person"]).name,
        item=number,
        before=show_mark(before.marks, mark),
        after="",
        passed_before=stands.passed,
        passed_after=stands.passed,
        applied=False,
        unmatched=variant is None,
    )
    old_pack = packs[number] if number in packs else str(form["pack"])
    if variant is None:
        return _Found(told, old_pack, before.marks, before.marks, False)
    fresh = replace(one, variant=variant)
    after = fresh.graded()
    if after.marks == before.marks and critical_missed(fresh) == critical_missed(one):
        return None
    marks, out_of, missed = totals(tuple((items | {number: fresh}).values()))
    passed = marks >= Fraction(result["pass_mark"]) * out_of and not missed
    lowers = worth(passed, missed) < worth(stands.passed, stands.critical_missed)
    told = replace(told, after=show_mark(after.marks, mark), passed_after=passed, lowers=lowers)
    return _Found(told, old_pack, before.marks, after.marks, missed)


def _same_key(then: Question, corrected: Question) -> bool:
    """Whether nothing that marks an answer was corrected: parts, and the givens that are worked out."""
    worked = [[given for given in one.givens if isinstance(given.draw, Computed)] for one in (then, corrected)]
    return then.parts == corrected.parts and then.critical == corrected.critical and worked[0] == worked[1]


def _stands(shop: Shop, result: Stored) -> CheckResult:
    """A result as it counts today, earlier corrections worked in."""
    name = row_id("result", result)
    return next(one for one in results_of(shop, result["person"], result["skill"]) if one.id == name)


def _same_givens(variant: Variant, corrected: Question, pack: Pack) -> Variant | None:
    """The corrected question with the very numbers that were given, found by the names of its draws.

    None where it draws something that was not given, or not so, or shows other options than were shown.
    """
    every = replace(corrected, left_out=())
    grid = ready(every).grid
    drawn = [given.name for given in corrected.givens if not isinstance(given.draw, Computed)]
    if not all(name in variant.values for name in drawn) or not _same_options(variant, corrected):
        return None
    wanted = {name: variant.values[name] for name in drawn}
    first = [variant.number] if variant.number < grid.size else []
    for number in (*first, *range(grid.size)):
        values = grid.values(number)
        if all(values[name] == value for name, value in wanted.items()):
            return Variant(every, number, variant.arrangement, style_of(pack))
    return None


def _same_options(variant: Variant, corrected: Question) -> bool:
    """Whether every part is there still, with as many options as were shown."""
    shown = variant.question.parts
    return len(corrected.parts) == len(shown) and all(_size(part) == _size(corrected.part(part.name)) for part in shown)


def _size(part: Part | None) -> int:
    """How many options, items or pairs a part shows; 0 for a number, -1 for no part."""
    match part:
        case Choice():
            return len(part.options)
        case Order():
            return len(part.items)
        case Match():
            return len(part.pairs)
        case Numeric():
            return 0
        case None:
            return -1


def _write(shop: Shop, by: int, found: _Found, question: str, new_pack: str, reason: str, now: dt.datetime) -> None:
    told = found.told
    shop.add(
        "remark",
        by=by,
        seen_on=day_at(shop, person_view(shop, told.person), now),
        result=told.result,
        form=told.form,
        person=told.person,
        item=told.item,
        question=question,
        old_pack=found.old_pack,
        new_pack=new_pack,
        old_marks=str(found.old_marks),
        new_marks=str(found.marks),
        passed=told.passed_after,
        critical_missed=found.missed,
        signed=bool(reason) and told.lowers,
        note=reason or None,
    )
