"""Marking again: every recorded answer worked out from the pack of its day, or by a corrected question."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from quizkit.pack.variant import Graded
from quizkit.shop import asking
from quizkit.shop.forms import Item, items_of, module_of_form
from quizkit.shop.handing import critical_missed
from quizkit.shop.handle import Shop, Stored
from quizkit.shop.packs import pack_of
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
    marks, out_of, missed = totals(items)
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


def totals(items: tuple[Item, ...]) -> tuple[Fraction, Fraction, bool]:
    """The marks of a check, what they are out of, and whether a critical question was missed."""
    graded = [one.graded() for one in items]
    marks = sum((one.marks for one in graded), Fraction(0))
    return marks, Fraction(sum(one.out_of for one in graded)), any(critical_missed(one) for one in items)
