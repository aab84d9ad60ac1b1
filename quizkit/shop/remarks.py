"""Marking again: every recorded answer worked out from the pack of its day, or by a corrected question."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from quizkit.formula import Computed
from quizkit.pack.codec import to_json
from quizkit.pack.model import Choice, Match, Order, Pack, Part, Question
from quizkit.pack.ready import ready
from quizkit.pack.variant import Graded, Variant
from quizkit.records.packs import store_pack
from quizkit.scoring.marks import show_mark
from quizkit.shop import asking
from quizkit.shop.forms import Item, form_of, items_of, module_of_form
from quizkit.shop.handing import critical_missed
from quizkit.shop.handle import Shop, Stored, note
from quizkit.shop.label import style_of
from quizkit.shop.packs import current_pack, pack_of, remember
from quizkit.shop.people import day_at, person_view, trainer
from quizkit.shop.refusal import Unknown
from quizkit.shop.whose import owned
from quizkit.words import _


@dataclass(frozen=True, slots=True)
class Difference:
    """A row that does not come out as it was recorded: which one, what it said, and what it comes to now."""

    row: str
    person: int
    question: str
    before: str
    after: str

    def __str__(self) -> str:
        told = _("{row} of person {person}, {question}: was {before}, is {after}")
        return told.format(
            row=self.row, person=self.person, question=self.question, before=self.before, after=self.after
        )


@dataclass(frozen=True, slots=True)
class RemarkReport:
    """How many rows were worked out again, and those that came out otherwise."""

    checked: int
    differences: tuple[Difference, ...]


@dataclass(frozen=True, slots=True)
class Affected:
    """A check to whose answers a corrected question was applied. `applied` is whether a row was written for it.

    `unmatched` says that the recorded givens are none of the corrected question's, so that nothing can be worked out.
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
    unmatched: bool = False

    @property
    def lowers(self) -> bool:
        """Whether it would lower a standing, so that a trainer has to sign it."""
        return self.passed_before and not self.passed_after


@dataclass(frozen=True, slots=True)
class QuestionRemark:
    """What a corrected question does to the checks in which it was asked."""

    question: str
    checked: int
    affected: tuple[Affected, ...]


def remark(shop: Shop, *, now: dt.datetime) -> RemarkReport:
    """Work every recorded answer and result out again, from the packs of their days. Nothing is written."""
    checked, differences = 0, []
    for found in (*_practice(shop), *_checks(shop)):
        checked += 1
        if found is not None:
            differences.append(found)
    return RemarkReport(checked, tuple(differences))


def _practice(shop: Shop) -> Iterator[Difference | None]:
    for row in shop.rows("practice"):
        pack = pack_of(shop, row["pack"])
        graded = asking.variant_of(pack, row["question"], row["variant"], row["ordering"]).grade(row["typed"])
        yield _compared(f"practice:{row['id']}", row["person"], row["question"], row, graded)


def _checks(shop: Shop) -> Iterator[Difference | None]:
    results = {row["form"]: row for row in shop.rows("result")}
    for stored in shop.rows("form"):
        form = owned(shop, stored)
        items = {one.number: one for one in items_of(shop, form)}
        for row in shop.rows("answer", form=form["id"]):
            one = items[row["item"]]
            graded = one.variant.grade(row["typed"])
            yield _compared(f"answer:{row['id']}", form["person"], one.variant.question.id, row, graded)
        if form["id"] in results:
            yield _result(shop, form, tuple(items.values()), results[form["id"]])


def _compared(row: str, person: int, question: str, stored: Stored, graded: Graded) -> Difference | None:
    """What differs between a stored verdict and a fresh one; None where nothing does."""
    fresh = asking.verdict_row(graded)
    if fresh == stored["verdict"] and stored["marks"] == str(graded.marks) and stored["out_of"] == str(graded.out_of):
        return None
    return Difference(row, person, question, _words(stored["verdict"]), _words(fresh))


def _words(verdict: dict[str, Any]) -> str:
    return ", ".join(f"{name} {told['outcome']} {told['marks']}" for name, told in verdict.items())


def _result(shop: Shop, form: Stored, items: tuple[Item, ...], stored: Stored) -> Difference | None:
    marks, out_of, missed = _totals(items)
    passed = marks >= Fraction(stored["pass_mark"]) * out_of and not missed
    before = (Fraction(stored["marks"]), Fraction(stored["out_of"]), stored["passed"], stored["critical_missed"])
    if before == (marks, out_of, passed, missed):
        return None
    told = _("{marks} of {out_of}, {word}")
    words = [
        told.format(marks=m, out_of=o, word=_("passed") if p else _("not passed"))
        for m, o, p in ((stored["marks"], stored["out_of"], stored["passed"]), (marks, out_of, passed))
    ]
    title = module_of_form(shop, form).scheme.title
    return Difference(f"result:{stored['id']}", stored["person"], title, words[0], words[1])


def _totals(items: tuple[Item, ...]) -> tuple[Fraction, Fraction, bool]:
    graded = [one.graded() for one in items]
    marks = sum((one.marks for one in graded), Fraction(0))
    return marks, Fraction(sum(one.out_of for one in graded)), any(critical_missed(one) for one in items)


def remark_question(
    shop: Shop, by: int, question: str, pack: Pack, *, now: dt.datetime, sign: str = ""
) -> QuestionRemark:
    """Apply a corrected question, out of a pack, to the numbers that were given in every check handed in.

    A change that raises a result, or leaves it, is written at once; one that lowers it only with `sign`, a trainer's
    reason. Raises Unknown for a question that the pack does not have, Refusal where it is still as it was.
    """
    with shop.deed(now):
        trainer(shop, by)
        try:
            corrected = pack.question(question)
        except KeyError:
            raise Unknown(
                _("The corrected content has no question '{question}'").format(question=question[:80]),
                _("name it like module/question"),
            ) from None
        reason = note(sign)
        body = to_json(pack)
        checked, affected = 0, []
        for form, result, one in _asked_in(shop, question):
            checked += 1
            found = _applied(shop, form, result, one, corrected, pack)
            if found is None:
                continue
            told, again, missed = found
            writes = not told.unmatched and (not told.lowers or bool(reason))
            if writes:
                kept = store_pack(shop.records, body)
                remember(kept, pack)
                _write(shop, by, told, again, missed, form, kept, reason, now)
            affected.append(replace(told, applied=writes))
        return QuestionRemark(question, checked, tuple(affected))


def _asked_in(shop: Shop, question: str) -> Iterator[tuple[Stored, Stored, Item]]:
    """The forms handed in that asked a question, with their results and the question's item."""
    for stored in shop.rows("form_item", question=question):
        result = shop.row("result", form=stored["form"])
        if result is not None:
            form = form_of(shop, stored["form"])
            yield form, result, next(one for one in items_of(shop, form) if one.number == stored["item"])


def _applied(
    shop: Shop, form: Stored, result: Stored, one: Item, corrected: Question, pack: Pack
) -> tuple[Affected, Fraction, bool] | None:
    """What the corrected question makes of one item; None where its marks stay the same."""
    before = one.graded()
    variant = _same_givens(one.variant, corrected, pack)
    told = Affected(
        form=form["id"],
        result=result["id"],
        person=form["person"],
        name=person_view(shop, form["person"]).name,
        item=one.number,
        before=show_mark(before.marks, current_pack(shop).scheme.mark),
        after="",
        passed_before=_stands(shop, result),
        passed_after=_stands(shop, result),
        applied=False,
        unmatched=variant is None,
    )
    if variant is None:
        return told, before.marks, False
    fresh = replace(one, variant=variant)
    after = fresh.graded()
    if after.marks == before.marks and critical_missed(fresh) == critical_missed(one):
        return None
    items = tuple(fresh if each.number == one.number else each for each in items_of(shop, form))
    marks, out_of, missed = _totals(items)
    passed = marks >= Fraction(result["pass_mark"]) * out_of and not missed
    shown = show_mark(after.marks, current_pack(shop).scheme.mark)
    return replace(told, after=shown, passed_after=passed), after.marks, missed


def _stands(shop: Shop, result: Stored) -> bool:
    """Whether a result counts as passed today, earlier remarks worked in."""
    passed = bool(result["passed"])
    for row in shop.rows("remark", result=result["id"]):
        if row["passed"] or row["signed"]:
            passed = row["passed"]
    return passed


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
    for part in variant.question.parts:
        other = corrected.part(part.name)
        sizes = [
            len(getattr(one, "options", getattr(one, "items", getattr(one, "pairs", ())))) for one in (part, other)
        ]
        if other is None or sizes[0] != sizes[1]:
            return False
    return len(corrected.parts) == len(variant.question.parts)


def _size(part: Part | None) -> int:
    """How many options, items or pairs a part shows; 0 for a number."""
    match part:
        case Choice():
            return len(part.options)
        case Order():
            return len(part.items)
        case Match():
            return len(part.pairs)
    return 0


def _write(
    shop: Shop,
    by: int,
    told: Affected,
    marks: Fraction,
    missed: bool,
    form: Stored,
    new_pack: str,
    reason: str,
    now: dt.datetime,
) -> None:
    question = next(one for one in items_of(shop, form) if one.number == told.item)
    shop.add(
        "remark",
        by=by,
        seen_on=day_at(shop, person_view(shop, told.person), now),
        result=told.result,
        form=told.form,
        person=told.person,
        item=told.item,
        question=question.variant.question.id,
        old_pack=form["pack"],
        new_pack=new_pack,
        old_marks=str(question.graded().marks),
        new_marks=str(marks),
        passed=told.passed_after,
        critical_missed=missed,
        signed=bool(reason) and told.lowers,
        note=reason or None,
    )
